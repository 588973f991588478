package timetable

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"example.org/vatside/model/day"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/paper"
)

// Page is the board of a day as a page: what it says hangs on what happened, on the timetable and on the call alone, never on how
// much time is left.
func Page(v engine.View) paper.Board {
	call, x, h := v.Call(), sight{v: v, t: v.Table}, v.State.Head
	out := paper.Board{Vat: cmp.Or(h.Setup.Name, h.Vat), Call: call.Words}
	if call.Due != nil {
		out.At = x.clock(call.Due.At)
	}
	if v.State.Talks() && call.Act.Kind != day.ActHold {
		out.Notes = append(out.Notes, "Talking: pieces wait.")
	}
	if v.State.Closed || x.t == nil || len(x.t.Pieces) == 0 || x.t.Fault != "" {
		return out
	}
	for _, t := range x.turns() {
		when := "in " + x.clock(t.piece.next)
		switch {
		case t.piece.in:
			when = "out " + x.clock(t.piece.next)
		case v.State.Talks():
			when = "waits"
		}
		out.Turns = append(out.Turns, paper.BoardTurn{Who: t.who, Piece: t.which(), When: when, Dip: strings.TrimPrefix(x.dipOf(t, false), "dip "), Ends: x.ends(t), In: t.piece.in})
	}
	out.Notes = append(append(out.Notes, wording.Filled(x.round(math.MaxInt))...), x.airing()...) // a page breaks its lines itself
	out.Done = x.clock(x.done())
	return out
}

// Led tells whether a day is one of people: a piece is somebody's.
func Led(s day.State) bool {
	return slices.ContainsFunc(s.Pieces, func(p day.Piece) bool { return strings.TrimSpace(p.Spec.Who) != "" })
}
