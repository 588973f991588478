package day

import (
	"slices"
	"time"

	"example.org/vatside/model/quantity"
)

// Decided is the answer to the look that decides: whether a piece has enough. Say is one of LookSays. Call is the id of the look
// that was seen; empty: whatever it is.
type Decided struct{ Tag, Say, Call string }

func (Decided) command() {}

// The answers to the look that decides.
const (
	LookStop    = "stop"       // no more dips; its last airing goes on, or it is done where that is over
	LookMore    = "one more"   // exactly one more dip
	LookPlanned = "as planned" // the plan stands
)

// LookSays are the answers to the look that decides, in the order in which they are shown.
var LookSays = []string{LookStop, LookMore, LookPlanned}

// LookGrace is how long the look that decides is the call; after that the day goes on as planned.
const LookGrace = 2 * time.Minute

// lookLast is how many dips before the last one the first look comes.
const lookLast = 2

// asksLook is since when the look that decides is asked of a piece; false where it is not, or was answered. It comes after the
// last airing but two and each after it.
func (s State) asksLook(p Piece) (since time.Time, ok bool) {
	if s.Head.Setup.NoLook || s.Closed || p.Dips == 0 || p.Looked == p.Dips || p.Dips < p.Want()-lookLast || p.Spec.Form == "ladder" {
		return time.Time{}, false
	}
	switch p.Phase {
	case Airing:
		return p.Since.Add(p.For.Duration() + s.shift("air "+p.Tag)), true
	case Aired: // it was said to be, and the plan goes on
		return p.Since, true
	}
	return time.Time{}, false
}

// Says is what a deadline says when it is over: the look that decides comes before what it decides on.
func (s State) Says(d Due, now time.Time) string {
	if p, ok := s.Piece(d.Tag); ok && (d.Kind == DueEnter || d.Kind == DueFinish) && !now.Before(d.At) && now.Before(d.At.Add(LookGrace)) {
		if since, asked := s.asksLook(p); asked {
			return s.decideAct(p, since).Words
		}
	}
	return d.Words
}

// decideAct is the look that decides as an act. It ends by itself, as planned.
func (s State) decideAct(p Piece, since time.Time) Act {
	a := Act{Kind: ActDecide, Piece: p, Dip: p.Dips, Words: "Look at " + p.Tag + ": enough?", Press: LookPlanned,
		How: "Hold it beside what is wished: wet is darker than dry.",
		Why: "A dip too few is put right, one too many is not."}
	if p.Dips >= p.Want() {
		a.Words, a.Press = "Look at "+p.Tag+": enough, no green left?", "it is done"
	}
	a.Due = &Due{"air " + p.Tag, DueDecide, p.Tag, 0, since, since.Add(LookGrace), a.Words}
	return a
}

// decides is the look that is the call at an instant, before the lowering or the end that it decides on; false where none is.
// Nothing else waits for it.
func (s State) decides(in []Piece, now time.Time) (Act, bool) {
	if len(in) == 0 {
		in = s.Pieces
	}
	for _, a := range s.looksOf(in, now) {
		if a.Piece.Phase == Airing && now.Before(a.Due.At) {
			return a, true
		}
	}
	return Act{}, false
}

// looksOf are the looks that are asked for of some pieces, the longest asked first.
func (s State) looksOf(pieces []Piece, now time.Time) []Act {
	var out []Act
	for _, p := range pieces {
		if since, ok := s.asksLook(p); ok && !now.Before(since) {
			out = append(out, s.decideAct(p, since))
		}
	}
	slices.SortStableFunc(out, func(a, b Act) int { return a.Due.Since.Compare(b.Due.Since) })
	return out
}

// LookAsked is the look that decides which an answer without a piece means: the call, else the first that stands beside it. In
// the last minute of a lift it is none.
func LookAsked(s State, now time.Time) (Call, bool) {
	c := CallOf(s, now)
	if c.Act.Kind == ActDecide {
		return c, true
	}
	if c.Act.Kind == ActLift && c.Due.At.Sub(now) <= LastMinute {
		return Call{}, false
	}
	for _, m := range Meanwhile(s, now) {
		if m.Act.Kind == ActDecide {
			return m, true
		}
	}
	return Call{}, false
}

// decided are the events of an answer to the look that decides: what was said, the number of dips that it makes, and the time
// of the airing where it becomes the last one, or is it no more. After the last airing the word that it has enough is also the word
// that no green is left: the piece is done.
func (s State) decided(c Decided, now time.Time) ([]Body, error) {
	p, ok := s.Piece(c.Tag)
	switch {
	case !slices.Contains(LookSays, c.Say):
		return refuse("say stop, one more or as planned, not %q", c.Say)
	case !ok:
		return refuse("no piece is tagged %q", c.Tag)
	case c.Call != "" && c.Call != lookID(p):
		return nil, &Other{Seen: c.Call, Now: CallOf(s, now).Brief()}
	case p.Phase == InVat:
		return refuse("%s is in the vat since %s: lift it first", p.Tag, Clock(p.Since))
	case !p.Live():
		return refuse("%s is done already", p.Tag)
	case p.Dips == 0 || p.Phase != Airing && p.Phase != Aired:
		return refuse("%s had no dip yet today: there is nothing to look at", p.Tag)
	case c.Say == LookMore && p.Dips >= mostDips:
		return refuse("a piece takes 1 to %d dips", mostDips)
	case c.Say == LookPlanned && p.Looked == p.Dips:
		return refuse("%s was looked at after dip %d already", p.Tag, p.Dips)
	}
	out := []Body{LookedAt{OfPiece: OfPiece{p.Tag}, Wet: true, Dips: p.Dips, Said: c.Say}}
	want := p.Want()
	switch c.Say {
	case LookStop:
		want = p.Dips
	case LookMore:
		want = p.Dips + 1
	}
	if want == p.Want() {
		if since, _ := s.asksLook(p); p.Dips >= want && !since.IsZero() && !now.Before(since) { // it has aired out, and was looked at
			done, err := s.finish(p.Tag)
			return append(out, done...), err
		}
		return out, nil
	}
	was := p.Dips >= p.Want()
	p.Spec.Dips = want
	out = append(out, PieceChanged{OfPiece{p.Tag}, p.Spec})
	timer := "air " + p.Tag
	since, is := p.Since, p.Phase == Airing
	ends := since.Add(p.For.Duration() + s.shift(timer))
	switch last := want == p.Dips; {
	case !is || last == was:
	case last:
		if by := since.Add(p.AirTime(true).Duration()).Sub(ends); by > 0 {
			out = append(out, TimerStretched{timer, quantity.Span(by)})
		}
	default:
		then := since.Add(p.AirTime(false).Duration())
		if then.Before(now) {
			then = now
		}
		if by := ends.Sub(then).Truncate(time.Second); by > 0 {
			out = append(out, TimerCut{timer, quantity.Span(by)})
		}
	}
	return out, nil
}

// lookID is the id of the look at a piece after the dips that it had.
func lookID(p Piece) string {
	verb, object, attempt := State{}.named(Act{Kind: ActDecide, Piece: p})
	return verb + " " + object + " " + attempt
}

// lookOf are the numbers of the events that one answer to a look made, of which the event at i of the log is one; nil where it is
// none.
func (s State) lookOf(i int) []int {
	from := i
	for ; from >= 0 && i-from <= 2; from-- {
		if b, ok := s.Log[from].Body.(LookedAt); ok {
			if b.Said == "" {
				return nil
			}
			break
		}
	}
	if from < 0 || i-from > 2 {
		return nil
	}
	look := s.Log[from]
	seqs := []int{look.Seq}
	tag := look.Body.(LookedAt).Tag
	for n := from + 1; n < len(s.Log) && n <= from+2; n++ {
		e := s.Log[n]
		timer, changed := "", false
		switch b := e.Body.(type) {
		case PieceChanged:
			changed = n == from+1 && b.Tag == tag
		case TimerStretched:
			timer = b.Timer
		case TimerCut:
			timer = b.Timer
		}
		if !e.At.Equal(look.At) || !changed && (n != from+2 || timer != "air "+tag) {
			break
		}
		seqs = append(seqs, e.Seq)
	}
	if from+len(seqs) <= i {
		return nil
	}
	return seqs
}
