package timetable

import (
	"fmt"
	"strings"

	"example.org/vatside/model/day"
	"example.org/vatside/model/load"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/screen"
)

// choices are the ways that the dyer can take with a key: those that change the pieces alone, and where the vat tires the ways
// through it. A second vat and a helper are work for the hands first.
var choices = map[rune]string{'4': "shorter", '5': "fewer", '6': tires + load.ChoiceWeak, '7': tires + load.ChoiceFull, '8': tires + load.ChoiceFeed}

// tires begins the id of a way through a tiring vat.
const tires = "tires "

// throughs are the ways through a tiring vat, none where it does not tire.
func (x sight) throughs() []option {
	var out []option
	finish := x.t.Plan.Finish()
	for _, c := range x.t.Plan.Choices {
		o := option{id: tires + c.ID, gain: (finish - c.Finish).Duration(), weak: c.Weak, asIs: c.Chosen}
		switch c.ID {
		case load.ChoiceWeak:
			o.name, o.costs = "Lose no time", "those dips give less blue"
		case load.ChoiceFull:
			o.name, o.costs = "Full dips before time", "pieces that need a strong vat go first"
		case load.ChoiceFeed:
			o.name, o.costs = "Feed and wait", c.Fed(func(s quantity.Span) string { return x.clock(x.t.At(s)) })
		}
		o.name += wording.If(c.Chosen, ": planned")
		out = append(out, o)
	}
	return out
}

// chosen is a way by its id, if it can be planned and changes a piece.
func (s Screen) chosen(id string, x sight) (option, []screen.Request) {
	for _, o := range s.options(x) {
		if way, through := strings.CutPrefix(id, tires); through && o.id == id && !o.asIs {
			return o, []screen.Request{screen.Do{Command: day.Record{Body: day.WayChosen{Way: way}}}}
		}
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
		word := fmt.Sprintf("%c once more: %s", k, wording.Lower(o.name))
		word += wording.If(!strings.HasPrefix(o.id, tires), " for "+wording.Counted(len(asks), "piece"))
		return s, []screen.Request{screen.Say{Word: word}}
	}
	s.asked = ""
	return s, asks
}

// offers are the ways that can be taken now, with their keys.
func (s Screen) offers(x sight) []string {
	var out []string
	for _, k := range "45678" {
		if o, asks := s.chosen(choices[k], x); len(asks) > 0 {
			out = append(out, string(k)+": "+wording.Lower(o.name))
		}
	}
	return out
}
