package day

import (
	"fmt"
	"time"

	"example.org/vatside/model/recipe"
	"example.org/vatside/model/sorted"
)

// DueKind is what a deadline asks of the hands.
type DueKind int

// The kinds of deadline.
const (
	DueLift    DueKind = iota // a dip is over: out
	DueEnter                  // an airing is over: in again, if no green is left
	DueFinish                 // the last airing is over
	DueTurn                   // stir the other way
	DueStep                   // a step's own time is over
	DueRecheck                // look again
	DueRest                   // the rest of the vat is over
	DueBath                   // a bath after the last dip is over
	DueSoak                   // goods go into their soak
	DueRound                  // the daily round of a ferment
	DueDecide                 // the look that decides is over; it is in no list of Dues, as nothing is to be done then
	DueComes                  // the person of a piece comes; it is in no list of Dues either
)

// Due is a deadline. It is derived from the state and never stored. Timer names it for stretching and cutting.
type Due struct {
	Timer string
	Kind  DueKind
	Tag   string
	Step  int
	Since time.Time
	At    time.Time
	Words string // what the hands do when it comes
}

// Latest is the last of some instants.
func Latest(at time.Time, others ...time.Time) time.Time {
	for _, other := range others {
		if other.After(at) {
			at = other
		}
	}
	return at
}

// LongWait is the wait beyond which the day may be closed and the vat left to itself.
const LongWait = 4 * time.Hour

// Dues lists the deadlines that run, soonest first.
func Dues(s State) []Due {
	var out []Due
	if s.Closed {
		return nil
	}
	out = append(out, s.stepDues()...)
	for _, p := range s.Pieces {
		switch p.Phase {
		case InVat:
			out = append(out, s.liftDue(&p))
		case Airing:
			out = append(out, s.airDue(&p))
		}
	}
	if !s.RestUntil.IsZero() {
		out = append(out, Due{"rest", DueRest, "", 0, s.RestSince, s.RestUntil.Add(s.shift("rest")), "Go on dyeing"})
	}
	if t := s.Treating; t != nil {
		out = append(out, Due{recheckTimer, DueRecheck, "", 0, t.Since, t.Until.Add(s.shift(recheckTimer)), "Look again at the vat"})
	}
	if at, ok := s.nextRound(); ok {
		out = append(out, Due{"round", DueRound, "", 0, at.Add(-roundEvery), at, "Do the daily round"})
	}
	out = append(out, s.soakDues()...)
	out = append(out, s.benchDues()...)
	sorted.By(out, func(a, b Due) int { return a.At.Compare(b.At) })
	return out
}

// liftDue is when a piece in the vat comes out.
func (s State) liftDue(p *Piece) Due {
	t := "dip " + p.Tag
	return Due{t, DueLift, p.Tag, 0, p.Since, p.Since.Add(p.For.Duration() + s.shift(t)), "Lift " + p.Tag + " out"}
}

// airDue is when the airing of a piece is over.
func (s State) airDue(p *Piece) Due {
	t := "air " + p.Tag
	d := Due{t, DueEnter, p.Tag, 0, p.Since, p.Since.Add(p.For.Duration() + s.shift(t)), "Lower " + p.Tag + " in"}
	if p.Dips >= p.Want() {
		d.Kind, d.Words = DueFinish, "Look at "+p.Tag+": no green left?"
	}
	return d
}

func stepTimer(no int) string { return fmt.Sprintf("step %d", no) }

func (s State) stepDues() []Due {
	st, ok := s.Open()
	if !ok {
		return nil
	}
	timer := stepTimer(st.No)
	if (st.Do == recipe.Check || st.Do == DoSpent) && !s.Judged.IsZero() {
		wait := s.Head.Recipe.Liquor.Recheck
		if st.Do == DoSpent {
			wait = airOff
		}
		at := s.Judged.Add(wait.Duration() + s.shift(timer))
		return []Due{{timer, DueRecheck, "", st.No, s.Judged, at, "Look again: is it ready?"}}
	}
	if st.For <= 0 {
		return nil
	}
	since := s.Begun
	if st.Waits() {
		since = s.StepSince
	}
	if since.IsZero() {
		return nil
	}
	end := since.Add(st.For.Duration() + s.shift(timer))
	if st.Waits() {
		end = s.waitEnd(st)
	}
	out := []Due{{timer, DueStep, "", st.No, since, end, st.overWords()}}
	if st.Do == recipe.Stir {
		half := since.Add(st.For.Duration() / 2)
		out = append([]Due{{fmt.Sprintf("turn %d", st.No), DueTurn, "", st.No, since, half, "Stir the other way"}}, out...)
	}
	return out
}

// Calls says how often a deadline has called by now, and how pressing the last call is, 0 to 3: at its end, 30 s, 1 and 2 min after it,
// then each minute until it is answered. A lift rises. An airing, a rest, a bath or a soak is a least time: it calls again each 5 min only.
func (d Due) Calls(now time.Time) (n, level int) {
	late := now.Sub(d.At)
	if late < 0 {
		return 0, 0
	}
	switch d.Kind {
	case DueTurn:
		return 1, 0
	case DueEnter, DueFinish, DueRest, DueBath, DueRound, DueSoak:
		return int(late/(5*time.Minute)) + 1, 0
	}
	switch {
	case late < GoOnAfter:
		n = 1
	case late < time.Minute:
		n = 2
	default:
		n = 2 + int(late/time.Minute)
	}
	if d.Kind == DueLift {
		level = min(n-1, 3)
	}
	return n, level
}

// Late tells whether harm is done by waiting longer: a piece is in the liquor for a tenth of its time too long, at least 10 s. All
// else is never late: an airing, a rest and a wait are least times. Common practice, no source.
func (d Due) Late(now time.Time) bool {
	return d.Kind == DueLift && now.Sub(d.At) >= max(d.At.Sub(d.Since)/10, leastLate)
}

// leastLate is the least time by which anything is late.
const leastLate = 10 * time.Second

// GoOnAfter is how long a lift calls before it is taken as done, when the day goes on by itself.
const GoOnAfter = 30 * time.Second

// left is what remains of a deadline, never less than zero, and by how much it is over.
func (d Due) left(now time.Time) (left, over time.Duration) {
	if now.After(d.At) {
		return 0, now.Sub(d.At)
	}
	return d.At.Sub(now), 0
}

const recheckTimer = "recheck"

func (s State) benchDues() []Due {
	var out []Due
	for _, p := range s.Pieces {
		if f := p.Finishing; p.inBath() {
			t := "bath " + p.Tag
			out = append(out, Due{t, DueBath, p.Tag, 0, f.Since, f.Since.Add(f.For.Duration() + s.shift(t)), "Take " + p.Tag + " out of the " + bathName(f.Bath)})
		}
	}
	return out
}
