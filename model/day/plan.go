package day

import (
	"fmt"
	"time"

	"example.org/vatside/model/practice"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/water"
	"example.org/vatside/model/wording"
)

// Plan is the day's steps: the whole recipe for a vat to be built, warming and a look for one that lives, the way to its
// end for one that is to end.
func Plan(h Head) ([]Step, error) {
	switch {
	case h.Opening.Built && h.Setup.Ending:
		return endPlan(h), nil
	case h.Opening.Built:
		return tendPlan(h), nil
	}
	am, err := recipe.Scale(h.Recipe, h.Setup.Fill, recipe.Options{IndigoStrength: h.Setup.Strength})
	if err != nil {
		return nil, err
	}
	var steps []Step
	for i, rs := range h.Recipe.Steps {
		st := Step{
			No: i + 1, Do: rs.Do, Powder: rs.Powder, Into: rs.Into, To: rs.To, For: rs.For, AtLeast: rs.AtLeast, AtMost: rs.AtMost,
			Cover: rs.Cover, How: rs.How, Why: rs.Why, Look: rs.Look, Caution: rs.Caution, Meanwhile: rs.Meanwhile,
		}
		if p, ok := h.Recipe.Powder(rs.Powder); ok {
			st.Material, st.Role = p.Material, p.Role
			if a, ok := am.Of(p.ID); ok {
				st.Mass, st.Water = a.Grams, a.Hydrate
				if rs.Do == recipe.Dissolve || rs.Do == recipe.Simmer {
					st.Water = a.Dissolve
				}
			}
			if rs.Part > 0 {
				st.Mass = quantity.Mass(st.Mass.Grams() * rs.Part.Fraction())
				st.Water = quantity.Volume(st.Water.Litres() * rs.Part.Fraction())
			}
			if st.Do == recipe.Add || st.Do == recipe.Sprinkle || st.Do == recipe.Weigh {
				st.Water = 0
			}
		}
		if err := st.fill(h, am); err != nil {
			return nil, err
		}
		st.words(h)
		steps = append(steps, st)
	}
	return steps, nil
}

// fill gives a filling or stock step its water.
func (s *Step) fill(h Head, am recipe.Amounts) error {
	stockStep := s.Into == recipe.IntoStock
	switch {
	case s.Do == recipe.Fill && stockStep:
		s.Water = am.StockWater
	case s.Do == recipe.Fill:
		s.Water = am.FillWater
	case s.Do == recipe.Add && s.Powder == "" && h.Recipe.Stock != nil:
		s.Water = am.StockVolume
		s.Material = "stock"
		return nil
	default:
		return nil
	}
	if s.To == nil {
		return nil
	}
	cold, hot := h.Setup.Waters()
	if s.To.Celsius() <= cold.Celsius() {
		s.Cold = s.Water
		return nil
	}
	hotV, coldV, err := water.Mix(s.Water, cold, hot, *s.To)
	if err != nil {
		return err
	}
	s.Hot, s.Cold = hotV, coldV
	return nil
}

// tendPlan is the beginning of a day at a vat that lives: read it, warm it, look at it.
func tendPlan(h Head) []Step {
	aim := h.Recipe.Liquor.Aim
	low := h.Recipe.Liquor.Low
	takes, from := "", wording.Told(h.Setup.Air, NightAir)
	if t := h.Setup.Warms(from, aim); t > 0 {
		takes = fmt.Sprintf(": about %s from %s with its heater", Long(t.Duration()), from.Format(h.Setup.System()))
	} else if h.Setup.Heater <= 0 && h.Setup.Kept != KeptByHeater && from < aim {
		in := wording.Told(h.Opening.Holds, h.Setup.Fill)
		takes = "; without a heater " + h.Setup.jars(in, from, aim) + " from " + from.Format(h.Setup.System())
	}
	steps := []Step{
		{Do: recipe.Warm, To: &aim, AtMost: nil,
			Title:   "Warm the vat",
			How:     fmt.Sprintf("Read the %s first. Below %s warm it in place, lid on, to %s%s.", h.Setup.System().DegreeUnit(), low.Format(h.Setup.System()), aim.Format(h.Setup.System()), takes),
			Why:     "A cold vat reduces slowly and dyes pale and uneven.",
			Caution: heaterCaution},
		{Do: recipe.Check,
			Title: "Look: is it ready?",
			How:   "Skim a little froth aside, lift liquor in a clear glass, pull a strip test.",
			Why:   "The liquor under the film tells more than the film.",
			Look:  "clear yellow-green under a coppery film; a strip that stays yellow about 45 s"},
	}
	if !h.Recipe.Family.SulfurReducer() { // no strip of 45 s: it looks as its recipe says
		steps[1].How, steps[1].Look = "Skim a little froth aside, lift liquor in a clear glass.", "a clear glass, a coppery film, a dark froth"
		for _, st := range h.Recipe.Steps {
			if st.Do == recipe.Check && st.Look != "" && st.Into != recipe.IntoStock {
				steps[1].Look = st.Look
			}
		}
	}
	for i := range steps {
		steps[i].No = i + 1
	}
	return steps
}

// endPlan is the end of a vat: used up, oxidised, left alone for an hour, settled, drawn off, brought to a mild pH, and
// gone where the local authority says.
func endPlan(h Head) []Step {
	sys := h.Setup.System()
	fill := h.Setup.Fill
	low, sulfite, thiourea := endLow, "", ""
	if h.Recipe.Family.SulfurReducer() || h.Opening.Sulfur {
		held := "the sulfite,"
		if words := lastLiquor(h).SulfiteWords(); words != "" {
			held += " " + words + " by reckoning,"
		}
		low, sulfite = endLowSulfur, fmt.Sprintf(" Never below %g: the strip proves the reducer gone, not %s which frees sulfur dioxide.", float64(endLowSulfur), held)
	}
	if h.Recipe.Family == recipe.ThioureaDioxideSoda {
		thiourea = " It may hold thiourea: say so when you ask; anyone pregnant stays away."
	}
	steps := []Step{
		{Do: DoUseUp, Title: "Use it up: is a swatch white?",
			How:  "Dip scrap and pale goods until a swatch of two minutes, aired and rinsed, stays white.",
			Why:  "What is left of the indigo would be thrown away.",
			Look: "a two-minute swatch that stays white in the air; if it turns blue, dye another day"},
		{Do: DoWhisk, For: quantity.Minutes(30), Title: "Whisk air in",
			How:     "Outdoors. Whisk, pour or pump air through it to the floor, on and off over hours, until all of it is blue; at least half an hour.",
			Why:     "Reducer that is left would free a choking gas from acid.",
			Caution: "outdoors, gloves and glasses on, children away; a heater off and out of it; no acid near it yet"},
		{Do: recipe.Wait, For: airOff, Title: "Leave it alone, air off",
			Meanwhile: "No air, no hands. If it turns green or yellow again, reducer is left.",
			Why:       "An hour without air tells whether anything in it still reduces."},
		{Do: DoSpent, Title: "Has it stayed blue?",
			How: "Look below the surface, pull a strip and time it: t. No yellow at all on it, and blue to the floor, then y; else n, and whisk again.",
			Why: "There is no way round this look: acid in a vat that reduces frees sulfur dioxide."},
		{Do: recipe.Settle, For: quantity.Span(12 * time.Hour), Title: "Let the pigment settle", Cover: true,
			Meanwhile: "Overnight, lid on, out of reach of children. The day can be closed.",
			Why:       "The blue on the floor is indigo: washed and dried it can be used again."},
		{Do: DoDecant, Title: "Draw the clear liquor off the blue",
			How:     "Siphon or bail at most 8 to 10 L a carry into a plastic tub; stop above the blue. Pigment: wash it, dry it, label it.",
			Why:     "Neither a full vessel nor a filled tub is lifted." + thiourea,
			Caution: "gloves and glasses on; siphon by a pump or a filled hose, never by mouth; no filled vessel is lifted"},
		{Do: DoAcid, Mass: acidLot.Of(fill), Material: "citric acid", Title: "Bring it to a mild pH, in small lots",
			How: fmt.Sprintf("Ask first whether it is taken as it is: then read its pH, h, and leave this out, s. Else, read above %g: one lot of citric acid, dissolved in a jug, poured slowly, stirred, then space; read again. From %g to %g: done.%s",
				float64(endHigh), float64(low), float64(endHigh), acidInAll(h)),
			Why:     "An alkaline liquor burns pipes, skin and soil life. It froths: chalk and soda give off gas." + sulfite,
			Caution: "outdoors, glasses on, anyone with asthma stays away; a choking smell: stop, leave it, into fresh air"},
		{Do: DoEnd, Title: "Ask where it may go, and write it down",
			How:     "Only as the local authority or the water utility says. Never a lawn, compost, stream or storm drain. Say where it went: W." + thiourea,
			Why:     "Old reducer, lye and tins go to the hazardous-waste point, dry and labelled: " + fill.Format(sys) + " and its pH stand in the book.",
			Caution: "no filled vessel is lifted: at most 8 to 10 L a carry"},
	}
	acid, _ := practice.ChemicalNamed("citric acid")
	for i := range steps {
		steps[i].No = i + 1
		if steps[i].Do == DoAcid {
			steps[i].Caution += "; " + acid.Card()
		}
	}
	return steps
}

// What the end of a vat asks for that no building does. They stand in the book as what was done.
const (
	DoUseUp  recipe.Do = "use up"
	DoWhisk  recipe.Do = "whisk"
	DoSpent  recipe.Do = "blue"   // has it stayed blue?
	DoDecant recipe.Do = "decant" // draw the clear liquor off
	DoAcid   recipe.Do = "acid"
	DoEnd    recipe.Do = "end" // where it went, and the end of the vat
)

// The pH that a liquor is brought to before it leaves, where it is not taken as it is (common practice; the local authority
// may want another). With a sulfur reducer in its past it is kept above endLowSulfur, where sulfite frees no gas to speak of
// (its second pKa is 7.2); below endStop nothing goes in any more.
const (
	endLow       = quantity.PH(6)
	endLowSulfur = quantity.PH(8)
	endHigh      = quantity.PH(8.5)
	endAim       = quantity.PH(8.3)
	endStop      = quantity.PH(7)
)

// acidInAll is about how much citric acid a vat takes in all; empty where that cannot be reckoned. A sulfur reducer is taken as
// spent, and the rest as half to one and a half of the reckoned (from memory: a kept vat was given alkali, and sediment holds some);
// sugar and food as half spent, from all to nothing of the acids that they make.
func acidInAll(h Head) string {
	takes := func(spent quantity.Share) quantity.Mass {
		each, _ := lastLiquor(h).Citric(endHigh, spent)
		return each.Of(h.Setup.Fill)
	}
	all := takes(1)
	low, high := all/2, all*3/2
	if !h.Recipe.Family.SulfurReducer() {
		low, all, high = all, takes(0.5), takes(0)
	}
	if high <= 0 {
		return ""
	}
	about := func(m quantity.Mass) string { return quantity.TwoFigures(m).Format(h.Setup.System()) }
	if low < all/10 {
		return fmt.Sprintf(" In all %s at most, by reckoning: set it out in lots.", about(high))
	}
	return fmt.Sprintf(" In all about %s, %s to %s, by reckoning: set it out in lots.", about(all), about(low), about(high))
}

// airOff is how long a vat stays blue by itself before acid comes near it. C
const airOff = quantity.Span(time.Hour)

// acidLot is citric acid for a litre of liquor, one lot; the pH is read after each. From memory.
const acidLot = quantity.Concentration(0.5)
