package practice

import (
	"slices"
	"strings"

	"example.org/vatside/model/fibre"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/wording"
)

// work are the items that no one is hurt by.
func (l *list) work() {
	c := l.c
	if c.powders() {
		l.other("rinsed", EveningBefore, "the vessel is rinsed, its tap and lid too", "what was in it before is in the vat", "C")
		l.other("powders", EveningBefore, powdersWhat(c), "a build stops for what is missing", "C")
		l.other("scale", BeforePowders, "a scale that shows 0.1 g, a dry scoop and a dry jar for each powder", "one damp scoop spoils a tin", "C, S22")
	} else {
		l.other("powders", EveningBefore, "what feeds the vat is in the house, its tins dry", "a tired vat needs it the same day", "C")
	}
	l.water()
	l.other("readings", AtTheStart, "thermometer, pH strips, a clear glass and strips for the strip test", "a vat is judged by readings", "S1, C")
	if f := c.Recipe.Family; f == recipe.SugarLime || f == recipe.IronLime {
		l.other("net", EveningBefore, "a net or basket that hangs clear of the sediment", "sludge on the cloth is a stain", "C; S1 has 30 cm off the floor")
	}
	l.other("line", AtTheStart, "a drying line in the shade, pegs on it", "dyeing does not wait for a line", "C")
	l.other("tray", AtTheStart, "a drip tray between vat and line", "drips spot the cloth below, and the floor gets slippery", "C")
	l.other("towels", AtTheStart, "towels, one dry by the laptop", "wet hands touch everything", "C")
	l.other("rinse", AtTheStart, rinseWhat(c), "loose dye and alkali go out before they dry in", "C")
	if c.Pieces != 1 || c.Class {
		l.other("tags", EveningBefore, "each piece has its tag: spun-bonded plastic and pencil, or knots", "paper and ink do not survive pH 11", "C")
	}
}

func rinseWhat(c Circumstances) string {
	if slices.Contains(c.Fibres, fibre.Wool) {
		return "clean water for the first rinse, for the wool as warm as the vat, within 5 °C"
	}
	return "clean water for the first rinse, in a vessel of its own"
}

// powdersWhat names what is weighed, with the grams where the fill is known.
func powdersWhat(c Circumstances) string {
	if len(c.Recipe.Powders) == 0 {
		return "the recipe's powders are in the house, enough of each"
	}
	var parts []string
	am, err := recipe.Scale(c.Recipe, c.Fill, recipe.Options{})
	for _, p := range c.Recipe.Powders {
		part := p.Material
		if a, ok := am.Of(p.ID); ok && err == nil && c.Fill > 0 {
			part = a.Grams.Scale(c.System) + " of " + part
		}
		parts = append(parts, part)
	}
	return "enough of each: " + strings.Join(parts, ", ")
}

func (l *list) water() {
	c := l.c
	if c.powders() {
		what := wording.Either(c.Fill > 0, c.Fill.Format(c.System)+" of water", "enough water") + " for the vat, and as much again to rinse"
		what += wording.If(c.hot(), "; hot water, or the stove and pots for it")
		l.other("water", EveningBefore, what, "a build stops for what is missing", "M")
	}
	if c.Hard != No && c.powders() {
		what := "soft water or rain if there is a choice"
		if c.Hard == Yes {
			what = "hard water: take rain if there is some, else expect chalk, and read pH before goods go in"
		}
		l.other("hard-water", EveningBefore, what, "hard water uses up soda ash and makes chalk", "C, M")
	}
	if c.Chlorinated == No || !c.powders() {
		return
	}
	ferment := c.Recipe.Family == recipe.Ferment
	if c.Chlorinated != Yes && !ferment { // any other reducer takes what chlorine there is
		return
	}
	what, why := "chlorinated water stands open overnight", "chlorine uses up reducer"
	if ferment {
		what, why = "water from the tap stands open overnight, or is rain", "chlorine hurts what ferments"
	}
	l.other("chlorine", EveningBefore, what, why, "C, M")
}
