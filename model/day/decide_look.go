package day

import (
	"slices"
	"time"

	"example.org/vatside/model/quantity"
)

// LookAsked is the look that decides which an answer without a piece means: the call, else the first that stands beside it. In
// the last minute of a lift it is none.
func LookAsked(s State, now time.Time) (Call, bool) {
	if len(s.looksOf(s.Pieces, now)) == 0 { // the rule of each second of a day, and the rest takes long
		return Call{}, false
	}
	return CallOf(s, now).Look(s, now)
}

// Look is LookAsked where the call is known.
func (c Call) Look(s State, now time.Time) (Call, bool) {
	if c.Act.Kind == ActDecide {
		return c, true
	}
	if c.Act.Kind == ActLift && c.Due.At.Sub(now) <= LastMinute {
		return Call{}, false
	}
	if len(s.looksOf(s.Pieces, now)) == 0 {
		return Call{}, false
	}
	return c.Beside(s, now, func(a Act) bool { return a.Kind == ActDecide })
}

// decide are the events of an answer to the look that decides: what was said, the number of dips that it makes, and the time
// of the airing where it becomes the last one, or is it no more. After the last airing the word that it has enough is also the word
// that no green is left: the piece is done.
func (c Decided) decide(s State, now time.Time) ([]Body, error) {
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
			done, err := Finish{p.Tag}.decide(s, now)
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
		then := Latest(now, since.Add(p.AirTime(false).Duration()))
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
