package cost

import (
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/wording"
)

// Unpriced stands for a sum of which no price and no rate was told.
const Unpriced = "?"

// Sums are the sums of a vat or a piece as they are shown: Unpriced where nothing was told of what they are made of.
type Sums struct {
	Powders, Heat, Tended string // of a piece: its share of the vat's
	Work                  string // its own hours; of a vat those of all its pieces, which are not in Total
	Total                 string
	WithWork              string // of a vat: Total and Work
	Partly                bool   // something is in no sum, as no price or rate was told of it
}

// Work is what the pieces' own hours cost, which no vat's Total has.
func (v Vat) Work() quantity.Money {
	return wording.Sum(v.Pieces, func(p Piece) quantity.Money { return p.Work })
}

// PowdersCost is what the powders cost, as far as their prices are told.
func (v Vat) PowdersCost() quantity.Money {
	return wording.Sum(v.Powders, func(p Powder) quantity.Money { return p.Cost })
}

// Priced tells what of a vat has a price or a rate, or costs nothing as there is nothing of it.
func (v Vat) Priced() (powders, heat, hours bool) {
	any, all := false, true
	worked := v.Tending
	for _, p := range v.Powders {
		any = any || p.Priced > 0 || p.Cost > 0
		all = all && !(p.Mass > 0)
	}
	for _, p := range v.Pieces {
		worked += p.Hours
	}
	return any || all && !v.Made, v.HeatCost > 0 || v.Heat <= 0, v.Tended > 0 || v.Work() > 0 || worked <= 0
}

// Sums are the sums of the vat.
func (v Vat) Sums() Sums {
	powders, heat, hours := v.Priced()
	any := powders || heat || hours
	s := Sums{
		Powders: shown(v.PowdersCost(), powders), Heat: shown(v.HeatCost, heat), Tended: shown(v.Tended, hours), Work: shown(v.Work(), hours),
		Total: shown(v.Total, any), WithWork: shown(v.Total+v.Work(), any), Partly: v.Made || !heat || !hours,
	}
	for _, p := range v.Powders {
		s.Partly = s.Partly || p.Mass-p.Priced > 1e-6
	}
	return s
}

// SumsOf are the sums of one piece of the vat.
func (v Vat) SumsOf(p Piece) Sums {
	powders, heat, hours := v.Priced()
	return Sums{
		Powders: shown(p.Powders, powders), Heat: shown(p.Heat, heat), Tended: shown(p.Tended, hours), Work: shown(p.Work, hours),
		Total: shown(p.Total, powders || heat || hours), Partly: v.Sums().Partly,
	}
}

// Shown is the powder's own sum.
func (p Powder) Shown() string { return shown(p.Cost, p.Priced > 0 || p.Cost > 0 || !(p.Mass > 0)) }

func shown(m quantity.Money, told bool) string {
	if !told {
		return Unpriced
	}
	return m.String()
}
