package day

import (
	"time"

	"example.org/vatside/model/sorted"
	"example.org/vatside/model/wording"
)

// LookSays are the answers to the look that decides, in the order in which they are shown.
var LookSays = []string{LookStop, LookMore, LookPlanned}

// LookSays are those that differ for a piece: after its last planned dip to stop is as planned.
func (p Piece) LookSays() []string {
	if p.Dips >= p.Want() {
		return LookSays[:2]
	}
	return LookSays
}

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
		How: "Hold it beside the wish: wet is darker than dry.",
		Why: "One dip too few can be put right, one too many cannot."}
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
	return wording.First(s.looksOf(in, now), func(a Act) bool { return a.Piece.Phase == Airing && now.Before(a.Due.At) })
}

// looksOf are the looks that are asked for of some pieces, the longest asked first.
func (s State) looksOf(pieces []Piece, now time.Time) []Act {
	var out []Act
	for _, p := range pieces {
		if since, ok := s.asksLook(p); ok && !now.Before(since) {
			out = append(out, s.decideAct(p, since))
		}
	}
	sorted.By(out, func(a, b Act) int { return a.Due.Since.Compare(b.Due.Since) })
	return out
}
