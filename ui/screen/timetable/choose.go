package timetable

import (
	"fmt"

	"example.org/vatside/model/day"
	"example.org/vatside/model/load"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/screen"
)

// choices are the ways that the dyer can take with a key: those that change the pieces alone. A second vat, a helper and a
// feed are work for the hands first.
var choices = map[rune]string{'4': "shorter", '5': "fewer"}

// chosen is a way by its id, if it can be planned and changes a piece.
func (s Screen) chosen(id string, x sight) (option, []screen.Request) {
	for _, o := range s.options(x) {
		if o.id == id && o.fault == "" {
			return o, changes(x, o)
		}
	}
	return option{}, nil
}

// changes are what a way asks of each piece that still has dips to come.
func changes(x sight, o option) []screen.Request {
	was := map[string]load.Piece{}
	for _, p := range x.left() {
		was[p.Tag] = p
	}
	var out []screen.Request
	for _, n := range o.pieces {
		before, planned := was[n.Tag]
		p, known := x.v.State.Piece(n.Tag)
		if !planned || !known || !p.Live() || n.Dips == before.Dips && n.Dip == before.Dip {
			continue
		}
		spec := p.Spec
		spec.Dips = max(p.Want()-before.Dips+n.Dips, p.Dips, 1)
		if n.Dip != before.Dip {
			spec.Dip = n.Dip
		}
		out = append(out, screen.Do{Command: day.Record{Body: day.PieceChanged{OfPiece: day.OfPiece{Tag: n.Tag}, PieceSpec: spec}}})
	}
	return out
}

// take answers the key of a way: the first press says what it does, the second does it.
func (s Screen) take(k rune, x sight) (Screen, []screen.Request) {
	o, asks := s.chosen(choices[k], x)
	if len(asks) == 0 {
		return s, []screen.Request{screen.Say{Word: "that way changes nothing now"}}
	}
	if s.asked != o.id {
		s.asked = o.id
		pieces := "1 piece"
		if len(asks) > 1 {
			pieces = fmt.Sprintf("%d pieces", len(asks))
		}
		return s, []screen.Request{screen.Say{Word: fmt.Sprintf("%c once more: %s for %s", k, wording.Lower(o.name), pieces)}}
	}
	s.asked = ""
	return s, asks
}

// offers are the ways that can be taken now, with their keys.
func (s Screen) offers(x sight) []string {
	var out []string
	for _, k := range []rune{'4', '5'} {
		if o, asks := s.chosen(choices[k], x); len(asks) > 0 {
			out = append(out, string(k)+": "+wording.Lower(o.name))
		}
	}
	return out
}
