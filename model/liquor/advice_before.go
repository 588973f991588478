package liquor

import (
	"example.org/vatside/model/fibre"
	"example.org/vatside/model/quantity"
)

// choking is the smell of burnt sulfur: nobody stays, and nothing goes in, whatever else was read. A vat without a sulfur
// reducer does not make it, so something near it does.
func choking(n Now) (Advice, bool) {
	why := "nothing in this vat smells of burnt sulfur: it comes from a tin, a bucket or a vat near it; the gas is toxic, and brings on asthma (S20, S21, S26)"
	if n.Recipe.Family.SulfurReducer() {
		why = "acid frees sulfur dioxide from dithionite and thiourea dioxide: toxic, and it brings on asthma (S20, S21, S26)"
	}
	return Advice{Do: DoStop, Sentence: "stop: goods and hands out, everyone out into fresh air, upwind; add nothing", Why: why,
		How: "doors and windows open from outside; go back only when no smell is left, then look which tin or neighbour vat it comes from, " +
			"and what acid or damp came near it",
		Cautions: []string{"trouble with breathing: call a doctor at once"}, Wait: quantity.Hours(1), Recheck: "no smell, from outside"}, n.Choking
}

// danger is what has no override.
func danger(n Now) (Advice, bool) {
	wait := recheckOf(n.Recipe)
	stop := func(sentence, why string, to quantity.Temperature) (Advice, bool) {
		return Advice{Do: DoStop, To: &to, Sentence: sentence, Why: why, How: "lid off, heater off and unplugged, stir, read °C again",
			Wait: wait, Recheck: "read °C"}, true
	}
	switch {
	case n.HandsIn && n.HeaterOn:
		return Advice{Do: DoStop, Sentence: "hands and goods out, then the heater off at the plug and unplugged",
			Why: "no hand and no cloth is in a liquor with a heater on", How: "dry hands at the plug", Wait: 0, Recheck: "read °C"}, true
	case n.Temp == nil:
	case n.Class && *n.Temp > classAtMost:
		return stop("no class at a vat of "+n.says(*n.Temp)+": "+n.says(classAtMost)+" is the most", "common practice for children and classes", classAtMost)
	case n.HandsIn && *n.Temp > handsAtMost:
		return stop("hands out of a liquor of "+n.says(*n.Temp)+": "+n.says(handsAtMost)+" is the most for hands", "49 °C scalds in minutes (S27)", handsAtMost)
	}
	return Advice{}, false
}

// ended is a vat that has ended, or is led to its end: neither alkali nor anything that reduces goes in.
func ended(n Now) (Advice, bool) {
	if n.Ended != "" {
		return Advice{Do: DoStop, Sentence: "it has ended on " + n.Ended, Why: "nothing goes into a vat that is gone", How: "build a new vat"}, true
	}
	why := "acid may be in it"
	if n.Recipe.Family.SulfurReducer() {
		why += ", and frees a choking gas from reducer (S20)"
	}
	return Advice{Do: DoStop, Sentence: "it is being ended: no alkali, no reducer", Why: why, How: "go on ending it, by its steps"}, n.Ending
}

// building keeps to the recipe's own order.
func building(n Now) (Advice, bool) {
	return Advice{Do: DoWait, Sentence: "the vat is being built: build it to its end first, and add nothing but its recipe",
		Why: "a vat is judged once its reduction wait is over, not before", How: "lid on between the steps; a sign seen now is judged at its look",
		Wait: recheckOf(n.Recipe), Recheck: "after the recipe's wait, its own check: glass, strip, pH, °C"}, n.Building
}

// unfit is goods that the liquor would harm, by the pH that was read or else is reckoned.
func unfit(n Now) (Advice, bool) {
	stop := Advice{Do: DoStop, Refused: true, Wait: recheckOf(n.Recipe), Recheck: "read pH and °C before any goods go in"}
	v, s, f := bears(n.Goods, func(f fibre.Fibre) (fibre.Verdict, string) { return Bears(n.Recipe, f, n.PH) })
	if v == fibre.Refused {
		stop.Sentence, stop.Why, stop.How = s, "the fibre's ceiling of pH: "+f.Facts().PH.Evidence, "these goods stay out of this vat until its pH reads "+f.Facts().PH.Value.String()+" or less"
		return stop, true
	}
	if n.Temp != nil {
		if v, s, f := bears(n.Goods, func(f fibre.Fibre) (fibre.Verdict, string) { return f.BearsHeat(*n.Temp) }); v == fibre.Refused {
			stop.Sentence, stop.Why, stop.How = s, "the fibre's ceiling of heat: "+f.Facts().Heat.Evidence, "lid off, heater off and unplugged, and wait"
			return stop, true
		}
	}
	return Advice{}, false
}

func unfilled(n Now) (Advice, bool) {
	return Advice{Do: DoNothing, Sentence: "without a fill no dose can be reckoned", Recheck: "measure the liquor"}, n.Fill == 0
}
