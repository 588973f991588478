package prepare

import (
	"example.org/vatside/model/day"
	"example.org/vatside/model/fibre"
	"example.org/vatside/model/practice"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/vessel"
	"example.org/vatside/model/wording"
)

// NextHead is the head of the day after this one, as far as it is known what lies before it: the vat built, or at the step
// where its build stands.
func NextHead(s day.State) day.Head {
	h := s.Head
	h.Opening.Built = h.Opening.Built || s.Vat.Ready || s.Step > len(s.Plan)
	if !h.Opening.Built {
		h.Opening.Step = s.Step
	}
	return h
}

// WithChildren says of a vat that is not for children's hands what to take instead, for goods of these lots; empty for any other, or
// for none. Wool and silk bear no lime.
func WithChildren(h day.Head, lots []Lot) string {
	what := ""
	switch h.Recipe.Family {
	case recipe.DithioniteSoda, recipe.DithioniteLye:
		what = "dithionite"
	case recipe.ThioureaDioxideSoda:
		what = "thiourea dioxide"
	case recipe.IronLime:
		what = "iron"
	default:
		return ""
	}
	what += wording.If(h.Recipe.Family == recipe.DithioniteLye, " and lye")
	instead := practice.WithoutSulfur(h.Recipe, wording.Each(lots, func(l Lot) fibre.Fibre { return l.Fibre })...)
	return "with children about take " + instead + ", not one with " + what + "; adults alone weigh and add, before the children come"
}

// Around is what the checklist goes by, as far as the head and the goods tell it.
func Around(h day.Head, lots []Lot) practice.Circumstances {
	c := practice.Circumstances{
		Recipe: h.Recipe, Fill: h.Setup.Fill, Built: h.Opening.Built, Place: h.Setup.Place, Heater: h.Setup.Heater,
		Pieces: len(lots), System: h.Setup.System(),
	}
	if m, err := vessel.ParseMaterial(h.Setup.Material); err == nil {
		c.Material = m
	}
	for _, l := range lots {
		c.Fibres = append(c.Fibres, l.Fibre)
	}
	return c
}
