package signs

import (
	"slices"

	"example.org/vatside/model/fibre"
	"example.org/vatside/model/liquor"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
)

// Choking is the sign that silences all others, and all readings; chokingID is its cause.
const (
	Choking   = "choking"
	chokingID = "acid-met-reducer"
)

// task is one question: what was seen at which vat, and what the right dose says before any sign is heard.
type task struct {
	s    Seen
	v    Vat
	seen []string
	gate liquor.Advice
}

func (t task) has(ids ...string) bool {
	return slices.ContainsFunc(ids, func(id string) bool { return slices.Contains(t.seen, id) })
}

func (t task) says(x quantity.Temperature) string { return x.Format(t.v.System) }

// tried tells whether a cause was treated already without help.
func (t task) tried(id string) bool {
	return slices.ContainsFunc(t.s.Tried, func(x Tried) bool { return x.Cause == id && (x.Answer == Same || x.Answer == Worse) })
}

// need is a powder and how much of it is wanted.
type need struct {
	powder recipe.Powder
	step   quantity.Concentration // of the whole fill
	mass   quantity.Mass          // instead of step
}

// remedy is what a cause asks for, before the rules of the dose have been heard.
type remedy struct {
	act     Act
	do      string // without the doses; they are added
	needs   []need // with Give
	even    bool   // the needs go in in the same weight: iron and its lime
	topUp   bool   // indigo, in lots a day apart
	after   string // when it is warm and looks the same, instead of do
	anyHeat bool   // not to be put off for warmth: a putrid vat
	tends   bool   // patience with a vat that is kept as it should be: what the readings ask for comes first
	how     string // before the powders' own
	extra   []string
	wait    quantity.Span
	recheck string
	then    string
}

// advised is what the right dose says by the readings alone: danger, goods that the liquor would harm, alkali where pH was
// read low, warmth.
func (t task) advised() liquor.Advice {
	v := t.v
	return liquor.Advise(liquor.Now{Recipe: v.Recipe, Fill: v.Fill, Temp: t.s.Temp, PH: t.s.PH, PHError: t.s.PHError,
		GivenToday: v.GivenToday, Finest: v.Finest, Goods: v.Goods, HandsIn: v.HandsIn, HeaterOn: v.HeaterOn,
		Heater: v.Heater, Class: v.Class, System: v.System, SinceFood: v.SinceFood,
		Building: v.Building, Ending: v.Ending, Ended: v.Ended, Choking: t.has(Choking)})
}

// dangerous tells whether the readings stop everything: hands in with a heater on, hands or a class at a hot vat.
func (t task) dangerous() bool {
	return t.gate.Do == liquor.DoStop && !t.gate.Refused && (t.gate.To != nil || t.v.HandsIn && t.v.HeaterOn)
}

// lowPH tells whether pH was read low in a vat that is not kept low for its goods.
func (t task) lowPH() bool {
	if t.s.PH == nil || !t.has(phLow) {
		return false
	}
	for _, f := range t.v.Goods {
		if verdict, _ := f.BearsPH(quantity.PH(t.v.Recipe.Liquor.PHLow)); verdict != fibre.Fine {
			return false
		}
	}
	return true
}
