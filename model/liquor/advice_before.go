package liquor

import (
	"fmt"

	"example.org/vatside/model/fibre"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/wording"
)

// choking is the smell of burnt sulfur: nobody stays, and nothing goes in, whatever else was read. A vat without a sulfur
// reducer does not make it, so something near it does.
func choking(n State) (Advice, bool) {
	why := "nothing in this vat smells of burnt sulfur: it comes from a tin, a bucket or a vat near it; the gas is toxic, and brings on asthma (S20, S21, S26)"
	if n.Recipe.Family.SulfurReducer() {
		why = "acid frees sulfur dioxide from dithionite and thiourea dioxide: toxic, and it brings on asthma (S20, S21, S26)"
	}
	return Advice{Do: DoStop, Cause: "acid-met-reducer", Sentence: "stop: goods and hands out, everyone out into fresh air, upwind; add nothing", Why: why,
		How: "doors and windows open from outside; go back only when no smell is left, then look which tin or neighbour vat it comes from, " +
			"and what acid or damp came near it",
		Cautions: []string{"trouble with breathing: call a doctor at once"}, Wait: quantity.Hours(1), Recheck: "no smell, from outside"}, n.Choking
}

// acid is a vat with a sulfur reducer that was read as acid: this alone, whatever else was read or seen, at its end too.
func acid(n State) (Advice, bool) {
	if !n.Sour() || n.Ended != "" {
		return Advice{}, false
	}
	var plug string
	if n.HeaterOn {
		plug = "; its heater off at the plug only from where nothing stings"
	}
	return Advice{Do: DoStop, Cause: "acid-in-vat", Sentence: "stop: hands and goods out, step upwind, send everyone else away; nothing goes into this vat",
		Why:      fmt.Sprintf("pH %v: below 7 acid got in, and it frees choking sulfur dioxide from the reducer and from what is left of it (S20); soda would froth the gas out beside the face", *n.PH),
		How:      "leave it alone, the lid off" + plug + "; one more reading only outdoors, where nothing stings, of a ladled sample at arm's length, with fresh paper",
		Cautions: []string{"trouble with breathing: call a doctor at once; it may come hours later"}, Wait: quantity.Hours(1), Recheck: "no smell, from outside; then one reading of a ladled sample"}, true
}

// beyond is a pH that the vat cannot have come to by itself, whatever its reading is off: nothing goes in on that.
func beyond(n State) (Advice, bool) {
	if n.PH == nil || float64(*n.PH) >= n.Recipe.Liquor.PHLow {
		return Advice{}, false
	}
	floor, ok := n.Floor()
	if !ok || !(*n.PH < floor-quantity.PH(n.PHError)) {
		return Advice{}, false
	}
	reaches := "such a vat comes to by itself"
	if n.Recipe.Family.SulfurReducer() {
		reaches = "this vat can reach when its reducer is spent, by what is known of it"
	}
	return Advice{Do: DoWait, Cause: "acid-or-strip", Sentence: "add nothing: read pH again with a fresh strip, outdoors",
		Why: fmt.Sprintf("pH %v is below %v, the least that %s: either acid got in or the strip is wrong", *n.PH, floor, reaches),
		How: "from a ladled sample, at arm's length; no powder, no goods; if anything stings, all go upwind. If a fresh strip reads the same: say what else it was given", Wait: quantity.Minutes(5), Recheck: "read pH"}, true
}

// above is a pH higher than the recipe's range and than the vat has when fresh, whatever its reading is off. Lime gives no more however
// much is in (12.7 at 20 °C, K; the books' 11 to 13 for iron and lime is wider): there a reading by its whole error above is one too.
func above(n State) (Advice, bool) {
	l := n.Recipe.Liquor
	if n.PH == nil || !(l.PHHigh > 0) {
		return Advice{}, false
	}
	over := float64(*n.PH) - l.PHHigh - n.PHError
	if limes := n.Recipe.Family == recipe.IronLime || n.Recipe.Family == recipe.SugarLime; over < -1e-9 || over <= 1e-9 && !limes {
		return Advice{}, false
	}
	top := n.working().High
	if m, err := OfRecipe(n.Recipe, 0); err == nil { // the air has taken all the carbon dioxide of its baking soda
		if aired, err := PH(m.Aired(MostMolar), n.Warmth()); err == nil {
			top = max(top, aired)
		}
	}
	if *n.PH <= top+quantity.PH(n.PHError) {
		return Advice{}, false
	}
	return Advice{Do: DoWait, Cause: "alkali-high", Sentence: "add nothing, no hands and no goods in it; read pH again with a fresh strip",
		Why:  fmt.Sprintf("pH %v is above the recipe's %.1f and above what this vat has when fresh: either too much alkali or lye got in, or the strip is wrong", *n.PH, l.PHHigh),
		How:  "goggles and gloves: so much alkali burns skin and eyes, and harms wool and silk; never acid in a vat. If a fresh strip reads the same: draw some off, and warm water in its place",
		Wait: quantity.Minutes(5), Recheck: "read pH"}, true
}

// danger is what has no override.
func danger(n State) (Advice, bool) {
	wait := recheckOf(n.Recipe)
	stop := func(sentence, why string, to quantity.Temperature) (Advice, bool) {
		return Advice{Do: DoStop, Cause: "danger", To: &to, Sentence: sentence, Why: why, How: "lid off, heater off and unplugged, stir, read " + n.System.DegreeUnit() + " again",
			Wait: wait, Recheck: "read " + n.System.DegreeUnit()}, true
	}
	switch {
	case n.HandsIn && n.HeaterOn:
		return Advice{Do: DoStop, Cause: "danger", Sentence: "hands and goods out, then the heater off at the plug and unplugged",
			Why: "no hand and no cloth is in a liquor with a heater on", How: "dry hands at the plug", Wait: 0, Recheck: "read " + n.System.DegreeUnit()}, true
	case n.Temp == nil:
	case n.Class && *n.Temp > classAtMost:
		return stop("no class at a vat of "+n.says(*n.Temp)+": "+n.says(classAtMost)+" is the most", "common practice for children and classes", classAtMost)
	case n.HandsIn && *n.Temp > handsAtMost:
		return stop("hands out of a liquor of "+n.says(*n.Temp)+": "+n.says(handsAtMost)+" is the most for hands", "49 °C scalds in minutes (S27)", handsAtMost)
	}
	return Advice{}, false
}

// ended is a vat that has ended, or is led to its end: neither alkali nor anything that reduces goes in.
func ended(n State) (Advice, bool) {
	if n.Ended != "" {
		return Advice{Do: DoStop, Sentence: "it has ended on " + n.Ended, Why: "nothing goes into a vat that is gone", How: "build a new vat"}, true
	}
	why := "acid may be in it"
	if n.Recipe.Family.SulfurReducer() {
		why += ", and frees a choking gas from reducer and from the sulfite that no strip shows (S20)"
	}
	return Advice{Do: DoStop, Sentence: "it is being ended: no alkali, no reducer", Why: why, How: "go on ending it, by its steps"}, n.Ending
}

// building keeps to the recipe's own order.
func building(n State) (Advice, bool) {
	return Advice{Do: DoWait, Sentence: "the vat is being built: build it to its end first, and add nothing but its recipe",
		Why: "a vat is judged once its reduction wait is over, not before", How: "lid on between the steps; a sign seen now is judged at its look",
		Wait: recheckOf(n.Recipe), Recheck: "after the recipe's wait, its own check: glass, strip, pH, °C"}, n.Building
}

// unfit is goods that the liquor would harm.
func unfit(n State) (Advice, bool) {
	stop := Advice{Do: DoStop, Cause: "alkali-high", Refused: true, Wait: recheckOf(n.Recipe), Recheck: "read pH and °C before any goods go in"}
	v, s, f := bears(n.Goods, n.Bears)
	if v != fibre.Refused {
		return Advice{}, false
	}
	stop.Sentence = s
	if hot, _ := f.BearsHeat(wording.Told(n.Gate, n).Warmth()); hot == fibre.Refused {
		stop.Cause, stop.Why, stop.How = "hot", "the fibre is at its best up to "+f.Facts().Heat.Value.String(), "lid off, heater off and unplugged, and wait"
		return stop, true
	}
	if n.Unfit(f) {
		stop.Cause = "goods-unfit"
	}
	stop.Why, stop.How = "the fibre is at its best up to pH "+f.Facts().PH.Value.String(), "these goods stay out of this vat until its pH reads "+f.Facts().PH.Value.String()+" or less"
	return stop, true
}

func unfilled(n State) (Advice, bool) {
	return Advice{Do: DoNothing, Sentence: "without a fill no dose can be reckoned", Recheck: "measure the liquor"}, n.Fill == 0
}
