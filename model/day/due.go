package day

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/signs"
	"example.org/vatside/model/wording"
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
	DueDecide                 // the look that decides is over; it is in no list of Dues, as nothing is to be done then
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
			t := "air " + p.Tag
			d := Due{t, DueEnter, p.Tag, 0, p.Since, p.Since.Add(p.For.Duration() + s.shift(t)), "Lower " + p.Tag + " in"}
			if p.Dips >= p.Want() {
				d.Kind, d.Words = DueFinish, "Look at "+p.Tag+": no green left?"
			}
			out = append(out, d)
		}
	}
	if !s.RestUntil.IsZero() {
		out = append(out, Due{"rest", DueRest, "", 0, s.RestSince, s.RestUntil.Add(s.shift("rest")), "Go on dyeing"})
	}
	if t := s.Treating; t != nil {
		out = append(out, Due{recheckTimer, DueRecheck, "", 0, t.Since, t.Until.Add(s.shift(recheckTimer)), "Look again at the vat"})
	}
	out = append(out, s.benchDues()...)
	slices.SortStableFunc(out, func(a, b Due) int { return a.At.Compare(b.At) })
	return out
}

// liftDue is when a piece in the vat comes out.
func (s State) liftDue(p *Piece) Due {
	t := "dip " + p.Tag
	return Due{t, DueLift, p.Tag, 0, p.Since, p.Since.Add(p.For.Duration() + s.shift(t)), "Lift " + p.Tag + " out"}
}

// stepTimer names the timer of a step.
func stepTimer(no int) string { return fmt.Sprintf("step %d", no) }

// stepDues are the deadlines of the open step.
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
	out := []Due{{timer, DueStep, "", st.No, since, end, st.overWords()}}
	if st.Do == recipe.Stir {
		half := since.Add(st.For.Duration() / 2)
		out = append([]Due{{fmt.Sprintf("turn %d", st.No), DueTurn, "", st.No, since, half, "Stir the other way"}}, out...)
	}
	return out
}

// NextDue is the first deadline after an instant.
func NextDue(s State, after time.Time) (Due, bool) {
	for _, d := range Dues(s) {
		if d.At.After(after) {
			return d, true
		}
	}
	return Due{}, false
}

// Calls says how often a deadline has called by now, and how pressing the last call is, 0 to 3.
// A lift repeats, rising, each 5 s for 30 s, then each 30 s until answered. An airing is a least time: it calls once,
// then every 5 minutes, and never rises. A wait calls each minute, after ten each 5 minutes.
func (d Due) Calls(now time.Time) (n, level int) {
	late := now.Sub(d.At)
	if late < 0 {
		return 0, 0
	}
	switch d.Kind {
	case DueTurn:
		return 1, 0
	case DueLift:
		if late < GoOnAfter {
			n = int(late/(5*time.Second)) + 1
			return n, min(n/2, 3)
		}
		return 6 + int((late-GoOnAfter)/(30*time.Second)) + 1, 3
	case DueEnter, DueFinish, DueRest, DueBath:
		return int(late/(5*time.Minute)) + 1, 0
	}
	if late < 10*time.Minute {
		return int(late/time.Minute) + 1, 1
	}
	return 10 + int((late-10*time.Minute)/(5*time.Minute)) + 1, 1
}

// GoOnAfter is how long a lift calls before it is taken as done, when the day goes on by itself.
const GoOnAfter = 30 * time.Second

// MostAssumed is how many acts in a row are taken as done before the clock waits and calls.
const MostAssumed = 2

// Assume is the act that a running clock records as planned, if the hands did not answer: the lift of what came out together
// and was called for GoOnAfter. Nothing is assumed of a time that ran out before watched, the instant since which somebody
// could hear the call (a start, a restart, the end of a sleep), nor of a lift that was taken back: that piece is said to be in.
func Assume(s State, now, watched time.Time) (Command, bool) {
	if s.Closed || s.Head.Setup.Waiting || s.Assumed >= MostAssumed {
		return nil, false
	}
	for _, dues := range s.lifts() {
		d := dues[0]
		switch last := dues[len(dues)-1]; {
		case d.At.Before(watched) || now.Sub(d.At) < GoOnAfter || now.Before(last.At):
		case slices.ContainsFunc(dues, func(d Due) bool { return s.liftTakenBack(d.Tag) }):
		case len(dues) == 1:
			return Lift{Tag: d.Tag, When: d.At, Assumed: true}, true
		default:
			var tags []string
			for _, d := range dues {
				tags = append(tags, d.Tag)
			}
			return LiftAsPlanned{tags}, true
		}
	}
	return nil, false
}

// liftTakenBack tells whether the lift out of the dip that a piece is in was taken back.
func (s State) liftTakenBack(tag string) bool {
	fix := corrections(s.Log)
	for _, e := range slices.Backward(s.Log) {
		switch b := e.Body.(type) {
		case DipBegun:
			if b.Tag == tag && fix[e.Seq].Way != "undone" {
				return false
			}
		case DipEnded:
			if b.Tag == tag && fix[e.Seq].Way == "undone" {
				return true
			}
		}
	}
	return false
}

// Standing is what a vat waits for between two days: shown and called on home.
type Standing struct {
	Words string
	At    time.Time // zero: no time of its own
}

// Between says what a closed day leaves to be done. A long wait is looked at when it ends; a ferment is stirred each
// day meanwhile.
func Between(s State, now time.Time) []Standing {
	if s.Ended || !s.Closed {
		return nil
	}
	st, ok := s.Open()
	if !ok || !st.Waits() {
		switch {
		case ok && s.Head.Setup.Ending && s.Step > 1:
			return []Standing{{Words: "go on ending it: " + wording.Lower(st.Title)}}
		case ok && !s.Head.Opening.Built:
			return []Standing{{Words: "go on building: " + wording.Lower(st.Title)}}
		}
		return nil
	}
	end := s.StepSince.Add(st.For.Duration() + s.shift(stepTimer(st.No)))
	out := []Standing{{"look: is it ready?", end}}
	if s.Head.Setup.Ending {
		return []Standing{{"go on ending it: " + wording.Lower(st.Title), end}}
	}
	if s.Head.Recipe.Family == recipe.Ferment && now.Before(end) {
		days := int(st.For.Duration() / (24 * time.Hour))
		today := int(now.Sub(s.StepSince)/(24*time.Hour)) + 1
		out = append([]Standing{{fmt.Sprintf("stir warm, day %d of %d", today, days), s.At.Add(24 * time.Hour)}}, out...)
	}
	return out
}

// Carry is what the vat is when the next day on it opens.
func Carry(s State) Opening {
	o := Opening{
		Number: s.Head.Opening.Number + 1, Built: s.Head.Opening.Built || s.Step > len(s.Plan), Sulfur: s.Vat.Sulfur,
		Cover: s.Vat.Covered, Temp: s.Vat.Temp, PH: s.Vat.PH,
	}
	if l := s.Level(); s.drawn() && l.In < s.Head.Setup.Fill*95/100 {
		o.Holds = &l.In
	}
	if s.Sulfur() == signs.NotKnown {
		o.Sulfur = true // it is taken that it held one
	}
	if o.Number < 2 {
		o.Number = 2
	}
	if !o.Built || s.Head.Setup.Ending && s.Step > 1 && s.Step <= len(s.Plan) {
		// What the dyer gave to the wait, or took, moves its beginning: so its end stays where it was.
		since := s.StepSince.Add(s.shift(fmt.Sprintf("step %d", s.Step)))
		o.Step, o.Since = s.Step, &since
	}
	for _, p := range s.Pieces {
		_, unfinished := s.BenchNext(p)
		if p.Phase == Carried || unfinished {
			c := CarriedPiece{OfPiece: OfPiece{p.Tag}, PieceSpec: p.Spec}
			c.Had, c.HadOf = p.Dips, p.meanDip()
			if unfinished {
				c.Finished, c.Rinses, c.Behind = true, p.Finishing.Rinses, strings.Join(p.Finishing.Behind, ", ")
			}
			o.Pieces = append(o.Pieces, c)
		}
	}
	return o
}

// meanDip is the mean length of all dips of a piece, those of earlier days included.
func (p Piece) meanDip() quantity.Span {
	n := max(p.Spec.Had, 0)
	had := p.Spec.HadOf
	if had == 0 {
		had = p.DipTime()
	}
	sum := float64(had) * float64(n) // in whole nanoseconds for all that a vat can do; a duration would run over
	for _, d := range p.Past {
		if !d.Ended.IsZero() {
			sum, n = sum+float64(d.Ended.Sub(d.Begun)), n+1
		}
	}
	mean := min(max(sum/float64(max(n, 1)), 0), float64(longest))
	return quantity.Span(time.Duration(mean).Round(time.Second))
}

// left is what remains of a deadline, never less than zero, and by how much it is over.
func (d Due) left(now time.Time) (left, over time.Duration) {
	if now.After(d.At) {
		return 0, now.Sub(d.At)
	}
	return d.At.Sub(now), 0
}
