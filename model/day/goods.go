package day

import (
	"strings"
	"time"

	"example.org/vatside/model/fibre"
	"example.org/vatside/model/liquor"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/vessel"
	"example.org/vatside/model/wording"
)

// crowded says when pieces would have too little liquor or too little room in what is in the vat now, with what is in already and
// two forearms; empty when they have enough.
func (s State) crowded(pieces ...Piece) string {
	var goods []vessel.Goods
	for _, p := range append(s.InVat(), pieces...) {
		goods = append(goods, p.goods())
	}
	// A vessel that was not said has no rim to watch; the liquor ratio is reckoned all the same.
	v, err := vessel.Parse(strings.TrimSpace(s.Head.Setup.Vessel+" "+s.Head.Setup.Material), quantity.Metric)
	room := v.RoomFor(vessel.Plan{
		Fill: s.holds(), Sediment: s.Head.Recipe.Liquor.Sediment, Load: vessel.Load{Goods: goods, Forearms: 2}, Alkali: true,
		System: s.Head.Setup.System(),
	})
	for _, w := range room.Warnings {
		if w.Kind == vessel.Crowded || err == nil && (w.Kind == vessel.OverStop || w.Kind == vessel.NoHang || w.Kind == vessel.OverBrim) {
			return wording.Upper(w.Sentence) + "."
		}
	}
	return ""
}

// bears tells whether a piece bears the liquor: by the pH and the °C that were read, and where no pH was read by what is reckoned.
func (s State) bears(p Piece) (fibre.Verdict, string) {
	f, err := fibre.Parse(p.Spec.Fibre)
	if err != nil {
		return fibre.Fine, ""
	}
	return s.liquor().Bears(f)
}

// liquor is the state of the liquor by what was read of it, at any time of the day, and given to it; model/outlook has the whole.
func (s State) liquor() liquor.State {
	l := liquor.State{Recipe: s.Head.Recipe, Fill: s.holds(), Temp: s.Vat.Temp, GivenToday: map[string]quantity.Mass{}}
	if s.Vat.PH != nil {
		read := quantity.PH(*s.Vat.PH)
		l.PH = &read
	}
	for _, p := range s.portions {
		if p.Gave() {
			l.GivenToday[p.Powder] += p.Mass
		}
	}
	return l
}

// readFirst asks for a reading of pH before wool or silk goes into a vat that creeps: before the first, and when the last was
// three hours ago. Empty for all else.
func (s State) readFirst(in []Piece, now time.Time) string {
	if !liquor.Creeps(s.Head.Recipe) || s.Vat.PH != nil && now.Sub(s.Vat.PHAt) < liquor.PHHolds.Duration() {
		return ""
	}
	for _, p := range in {
		if f, err := fibre.Parse(p.Spec.Fibre); err == nil && f.Class() == fibre.Protein {
			return "Read pH before it goes in (h): kept warm, this vat gives off carbon dioxide and creeps up, and " + f.String() + " bears " + f.Facts().PH.Value.String() + "."
		}
	}
	return ""
}
