package day

import (
	"cmp"
	"time"

	"example.org/vatside/model/fibre"
	"example.org/vatside/model/liquor"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/vessel"
	"example.org/vatside/model/wording"
)

// crowded says when pieces would have too little liquor or too little room in what is in the vat now, with what is in already and
// two forearms; empty when they have enough. A vessel that was not said has no rim to watch; the liquor ratio is reckoned all the same.
func (s State) crowded(pieces ...Piece) string {
	said := s.Head.Setup.Measured().Shape != nil
	words := s.roomWords(pieces, func(k vessel.WarningKind) bool {
		return k == vessel.Crowded || said && (k == vessel.OverStop || k == vessel.NoHang || k == vessel.OverBrim)
	})
	return wording.If(words != "", wording.Upper(words)+".")
}

// soaksUp is the question before the first dip of a piece that is too much for its liquor; empty where it is not.
func (s State) soaksUp(tag string) string {
	p, _ := s.Piece(tag)
	if p.Dips > 0 {
		return ""
	}
	return s.roomWords([]Piece{p}, func(k vessel.WarningKind) bool { return k == vessel.Crowded })
}

// roomWords is the first warning of some kinds, of the vat as it is with more pieces in it.
func (s State) roomWords(pieces []Piece, of func(vessel.WarningKind) bool) string {
	room := s.Head.Setup.Measured().RoomFor(vessel.Plan{
		Fill: s.holds(), Sediment: s.Head.Recipe.Liquor.Sediment, Alkali: true, System: s.Head.Setup.System(),
		Load: vessel.Load{Goods: wording.Each(append(s.InVat(), pieces...), Piece.goods), Forearms: 2},
	})
	w, _ := wording.First(room.Warnings, func(w vessel.Warning) bool { return of(w.Kind) })
	return w.Sentence
}

func (s State) bears(p Piece) (fibre.Verdict, string) { return s.Bearing()(p) }

// harms tells whether the liquor harms a piece also once it has cooled: then the piece is not made ready for this vat.
func (s State) harms(p Piece) bool {
	f, err := fibre.Parse(p.Spec.Fibre)
	l := s.Gate()
	l.Temp = nil
	verdict, _ := l.Bears(f)
	return err == nil && verdict == fibre.Refused
}

// Bearing is bears for many pieces at once: each fibre is judged when it is first asked for.
func (s State) Bearing() func(Piece) (fibre.Verdict, string) {
	type judged struct {
		verdict fibre.Verdict
		words   string
	}
	type asked struct {
		fibre fibre.Fibre
		dip   quantity.Span
	}
	var known map[asked]judged
	return func(p Piece) (fibre.Verdict, string) {
		f, err := fibre.Parse(p.Spec.Fibre)
		if err != nil {
			return fibre.Fine, ""
		}
		goods := asked{f, p.NextDip()}
		j, ok := known[goods]
		if !ok {
			if known == nil {
				known = map[asked]judged{}
			}
			j.verdict, j.words = s.Gate().BearsDip(f, goods.dip)
			known[goods] = j
		}
		return j.verdict, j.words
	}
}

// Bears tells whether a fibre bears the liquor: by the pH and the °C that were read, and where no pH was read since something was
// last given by what is reckoned.
func (s State) Bears(f fibre.Fibre) (fibre.Verdict, string) { return s.Gate().Bears(f) }

// Gate is the state of the liquor as goods are let in by it: what was read of it, at any time of the day, and given to it. The whole
// state, of model/outlook, has it as its gate.
func (s State) Gate() liquor.State {
	l := liquor.State{Recipe: s.Head.Recipe, Fill: s.holds(), Temp: s.Vat.Temp, GivenToday: map[string]quantity.Mass{}}
	for _, p := range s.portions {
		if p.Gave() {
			l.GivenToday[p.Powder] += p.Mass
		}
	}
	given, any := s.LastGiven()
	yesterdays := s.Vat.PHAt.IsZero()              // or of nobody's
	if l.PH = (*quantity.PH)(s.Vat.PH); l.Sour() { // till it is read again, whatever went in
		return l
	}
	if l.PH = nil; s.Vat.PH != nil && (!any || s.Vat.PHAt.After(given)) && !(yesterdays && s.Head.Opening.Until != nil) {
		read := quantity.PH(*s.Vat.PH)
		l.PH = &read
	} else if s.Vat.PH != nil && !yesterdays || s.Head.Opening.Until != nil {
		l.Reckoned = s.reckoned(l)
	}
	return l
}

// reckoned is the pH by what earlier days left, as moved by the day's last reading, with what was given since; nil where it cannot be
// reckoned. What the reducer takes up today is left out: it stands a little high.
func (s State) reckoned(l liquor.State) *quantity.Range[quantity.PH] {
	o := s.Head.Opening
	m, err := liquor.OfRecipe(s.Head.Recipe, 0)
	if err != nil {
		return nil
	}
	m.Spent += o.Spent
	m.Acid += o.Acid - o.Alkali
	read := s.Vat.PH != nil && !s.Vat.PHAt.IsZero()
	before := m
	for _, in := range s.portions {
		p, own := s.Head.Recipe.Powder(in.Powder)
		if !in.Gave() || !own {
			continue
		}
		if m, err = m.Plus(p, in.Mass.Per(l.Fill)); err != nil {
			return nil
		}
		if read && in.At.Before(s.Vat.PHAt) {
			before = m
		}
	}
	reckon := liquor.PHRange
	if read {
		at := cmp.Or(s.phTemp, &l.Recipe.Liquor.Aim)
		a, err := liquor.Reanchor(before, quantity.PH(*s.Vat.PH), *at, liquor.ReadError(s.PHWith()))
		if err != nil {
			return nil
		}
		reckon = a.PHRange
	}
	r, err := reckon(m, l.Warmth())
	if err != nil {
		return nil
	}
	return &r
}

// readFirst asks for a reading of pH before wool or silk goes into a vat that creeps: before the first, and when the last was
// three hours ago. Empty for all else.
func (s State) readFirst(in []Piece, now time.Time) string {
	if !liquor.Creeps(s.Head.Recipe) || s.Vat.PH != nil && now.Sub(s.Vat.PHAt) < liquor.PHHolds.Duration() {
		return ""
	}
	for _, p := range in {
		if f, err := fibre.Parse(p.Spec.Fibre); err == nil && f.Class() == fibre.Protein {
			return "Read pH before it goes in (h): kept warm, this vat gives off carbon dioxide, its pH creeps up, and " + f.String() + " bears " + f.Facts().PH.Value.String() + "."
		}
	}
	return ""
}
