package liquor

import (
	"fmt"
	"math"

	"example.org/vatside/model/fibre"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/water"
	"example.org/vatside/model/wording"
)

// The marks of advice.
const (
	handsAtMost   = quantity.Temperature(45) // scald times of S27, with room
	classAtMost   = quantity.Temperature(40) // C
	sprinkleBelow = quantity.Temperature(50) // C, S1 has 60 as ruin
	WeakStrip     = quantity.Span(15e9)      // M
	SlackStrip    = quantity.Span(30e9)      // M, between weak and the good 45 s of S1
	OverStrip     = quantity.Span(180e9)     // S1 has the effect, M the time
)

// What an Advice says to do.
const (
	DoAlkali  = "alkali"
	DoWarm    = "warm"
	DoReducer = "reducer"
	DoFood    = "food" // ferment vats only
	DoIndigo  = "indigo"
	DoWait    = "wait"
	DoStop    = "stop"
	DoNothing = "nothing"
)

// Advise says the one next thing for a vat, by what was read of it; of what was seen model/signs asks this too. Safety first: burnt sulfur;
// acid in a vat with a sulfur reducer; hands and heaters; nothing into a vat that has ended or is being ended; a vat being built keeps its
// recipe's own order; goods that the liquor would harm; a pH that the vat cannot have come to by itself, too low or too high. Then heat: no
// powder into a liquor too hot for it. Then alkali for a pH read low, warmth, and reducer, or food in a ferment vat; rest for a strip that
// stays yellow over 3 min.
//
// A dose follows what is wanting, with the reading's width (lowPart, weakPart): no step at a mark. Below a quarter of a step it
// is near enough. Doses are within the recipe's at_once and per_day, and on the scale's steps. It never advises acid, and no
// sulfur reducer in a ferment vat.
func Advise(n State) Advice {
	n = n.Clean()
	var a Advice
	for _, rule := range []func(State) (Advice, bool){
		choking, acid, danger, ended, building, unfit, unfilled, beyond, above, lowPH, cold, weak, over, hot, slack, well,
	} {
		var says bool
		if a, says = rule(n); says {
			break
		}
	}
	a.Warnings = append(a.Warnings, n.warnings(a)...)
	if a.Mass > 0 {
		a.Cautions = append(n.First(), a.Cautions...)
	}
	return a
}

// First is what comes before any powder.
func (n State) First() []string {
	return wording.Filled(
		wording.If(n.HeaterOn, "heater off and unplugged first"),
		wording.If(n.HandsIn, "hands and goods out first"),
		wording.If(n.Class, "no child at the powders: an adult weighs and adds, the class stays away"))
}

// lowPH is alkali first, where pH was read low.
func lowPH(n State) (Advice, bool) {
	low := quantity.PH(n.Recipe.Liquor.PHLow)
	if !n.LowPH() {
		return Advice{}, false
	}
	v, _, _ := bears(n.Goods, func(f fibre.Fibre) (fibre.Verdict, string) { return f.BearsPH(low) })
	if v == fibre.Warned { // kept low for these goods; warnings says so
		return Advice{}, false
	}
	p, ok := Alkali(n.Recipe)
	if !ok {
		return Advice{}, false
	}
	if a, hot := n.TooHot(p); hot {
		return a, true
	}
	eats := "the acids of the sugar use up alkali"
	switch {
	case n.Recipe.Family == recipe.Ferment:
		eats = "the acids of the ferment use up alkali"
	case n.Recipe.Family == recipe.IronLime:
		eats = "iron and the carbon dioxide of the air use up lime"
	case n.Recipe.Family.SulfurReducer():
		eats = "spent reducer uses up alkali (1.2 g of soda ash, or 0.46 g of lye, a gram of dithionite, calculated)"
	}
	part := n.lowPart(p)
	a := n.give(DoAlkali, p, AlkaliStep(n.Recipe, p), part)
	a.Cause, a.Recheck = "alkali-eaten", "read pH again, then pull a strip"
	a.Why = fmt.Sprintf("pH %v is below the recipe's %v; %s", *n.PH, low, eats)
	if part < 1 {
		a.Why += fmt.Sprintf("; the reading may be off by %.1f, so %.0f %% of a step", n.PHError, 100*part)
	}
	return a, true
}

// usualHeater is taken where the heater's power is not known. M
const usualHeater = quantity.Power(1000)

// cold is warmth, never past the recipe's aim or its build, nor past what the goods and a class bear.
func cold(n State) (Advice, bool) {
	l := n.Recipe.Liquor
	if n.Temp == nil || !(*n.Temp < l.Low) {
		return Advice{}, false
	}
	to := wording.Either(l.Build > 0, min(l.Aim, l.Build), l.Aim)
	for _, f := range n.Goods {
		if f.Class() != fibre.NoClass {
			to = min(to, f.Facts().Heat.Value)
		}
	}
	if n.Class {
		to = min(to, classAtMost)
	}
	if !(to > *n.Temp) {
		return Advice{}, false
	}
	near := wording.If(n.Unsure(l.Low) != "", ", though not surely: "+n.Unsure(l.Low))
	looks := wording.Either(n.Recipe.Family == recipe.Ferment, "its bacteria slow down", "looks short of reducer")
	a := Advice{Do: DoWarm, Cause: "cold", To: &to, Sentence: "warm it to " + n.says(to), Wait: min(recheckOf(n.Recipe), HeatWait), Recheck: "read " + n.System.DegreeUnit() + ", then pull a strip",
		Why: n.says(*n.Temp) + " is below the recipe's " + n.says(l.Low) + near + "; a cold vat reduces slowly, and " + looks,
		How: "hands and goods out; heat in place under the lid; heater off and unplugged before stirring, stir slowly, read " + n.System.DegreeUnit()}
	heats := func(w quantity.Power) quantity.Span {
		heating, err := water.HeatMinutes(n.Fill, *n.Temp, to, w)
		if err != nil {
			return 0
		}
		return quantity.Minutes(math.Ceil(max(0, min(heating, LongestReserve)).Minutes()))
	}
	if a.Wait += heats(n.Heater); !(n.Heater > 0) { // a heater that nobody named
		a.Wait += heats(usualHeater)
		a.Recheck = "when it reads " + n.says(to) + ": pull a strip"
		a.How += fmt.Sprintf("; until it reads %s: %v with 2 kW in the liquor, %v with 1, %v with half", n.says(to), heats(2*usualHeater), heats(usualHeater), heats(usualHeater/2))
	}
	a.Cautions = []string{"a heater hangs guarded, clear of walls, floor and goods, behind an RCD",
		"no hands above " + n.says(handsAtMost) + ", no class above " + n.says(classAtMost) + ": cooling down to that is part of the wait"}
	return a, true
}

// weak is a strip that turns blue at once: reducer, or food and patience in a ferment vat.
func weak(n State) (Advice, bool) {
	part := n.weakPart()
	if part < leastPart {
		return Advice{}, false
	}
	why := fmt.Sprintf("the strip turned blue in %v: weak reduction, below 15 s (from memory); good is about 45 s (S1)", *n.Strip)
	if n.Recipe.Family == recipe.Ferment {
		return ferment(n, why), true
	}
	p, ok := Reducer(n.Recipe)
	if !ok {
		return Advice{}, false
	}
	a, says := n.Reduce(ReducerStep(n.Recipe, p), part)
	if a.Cause == "hot" { // why it waits is its heat
		return a, says
	}
	if back := n.blueAgain(); back != "" {
		why += "; " + back
	}
	if a.Why = why; part < 1 {
		a.Why += fmt.Sprintf("; a strip may be off by 30 %%, so %.0f %% of a step", 100*part)
	}
	return a, says
}

// Reduce is a step of the vat's reducer, or so much of it; an iron–lime vat's goes in with as much lime. False where the recipe
// has none.
func (n State) Reduce(step quantity.Concentration, part float64) (Advice, bool) {
	n = n.Clean()
	p, ok := Reducer(n.Recipe)
	if !ok {
		return Advice{}, false
	}
	lime, hasLime := Alkali(n.Recipe)
	if hasLime && (p.AlkaliFirst > 0 || n.Recipe.Family == recipe.IronLime) && n.Hottest(lime) < n.Hottest(p) { // it goes in with the reducer
		if a, hot := n.TooHot(lime); hot {
			return a, true
		}
	}
	if a, hot := n.TooHot(p); hot {
		return a, true
	}
	if back := (n.BringsBack().Likely / quantity.Mass(orWhole(p.Strength))).Per(n.Fill); back > step*quantity.Concentration(part) { // what is blue again wants more
		step, part = back, 1
	}
	if protein(n.Goods) {
		step = min(step, gentleReducer)
	}
	var a Advice
	top := n.Recipe.Liquor.PHHigh
	high := n.PH != nil && top > 0 && float64(*n.PH) >= top // then the iron alone
	if n.Recipe.Family == recipe.IronLime && hasLime && !high {
		a = n.giveBoth(p, lime, step, part)
	} else {
		a = n.afterAlkali(n.give(DoReducer, p, step, part), p)
	}
	if a.Cause, a.Recheck = "air-in", "pull a strip, then read pH"; !n.Recipe.Family.SulfurReducer() {
		a.Cause = "air-in-lime"
	}
	if hasLime {
		a.Next = lime.ID
	}
	return a, true
}

// TooHot is to let a vat cool before a powder goes in, where it was read too hot for it.
func (n State) TooHot(p recipe.Powder) (Advice, bool) {
	to := n.Hottest(p)
	if n.Temp == nil || !(to > 0) || !(*n.Temp > to) {
		return Advice{}, false
	}
	unsure := ""
	if words := n.Unsure(to); words != "" {
		unsure = ", or may be (" + words + ")"
	}
	return Advice{Do: DoWait, Cause: "hot", To: &to, Sentence: "let it cool to " + n.says(to) + " before any powder",
		Why: n.says(*n.Temp) + " is too hot for " + p.Material + unsure + ": hot liquor throws steam and powder back, and its pH and strip are not those that it will have",
		How: "hands out, heater off and unplugged, lid on", Wait: HeatWait, Recheck: "read " + n.System.DegreeUnit() + ", then pH, then pull a strip"}, true
}

// ferment feeds a ferment vat that is weak, three days after its last food and not before; it never gets a chemical
// reducer. S6, C, M
func ferment(n State, why string) Advice {
	why += "; bacteria do the reducing here: no chemical reducer"
	for _, p := range n.Recipe.Powders {
		if p.Role != recipe.Food {
			continue
		}
		if GivenToday(n.Recipe, p.ID, n.GivenToday) > 0 {
			n.SinceFood = new(quantity.Span)
		}
		if n.SinceFood == nil || *n.SinceFood < FoodEvery {
			break
		}
		if a, hot := n.TooHot(p); hot {
			return a
		}
		a := n.give(DoFood, p, FoodStep(n.Recipe, p), 1)
		a.Cause, a.Why, a.Recheck = "slow-ferment", why, "smell, pH and a strip; no more food for three days"
		return a
	}
	if a, says := hot(n); says {
		return a
	}
	return Advice{Do: DoWait, Cause: "slow-ferment", Sentence: Patience(n.says(n.Recipe.Liquor.Aim), n.SinceFood), Why: why, How: "lid on, wrapped; slow stir to the floor", Wait: FoodWait,
		Recheck: "smell, pH and a strip"}
}

// Patience is what a ferment vat that is slow is told while it may not be fed: aim is its °C in words, since is how long
// ago its last food was, nil where nobody knows.
func Patience(aim string, since *quantity.Span) string {
	s := "no reducer: keep it at " + aim + " and stir once a day; "
	if since == nil {
		return s + "when was it last fed? no food before three days since"
	}
	if *since < quantity.Days(1) {
		return s + "no food before three days since the last, which was today"
	}
	return s + fmt.Sprintf("no food before three days since the last, %.1f days ago", since.Hours()/24)
}

// RestOpen is what is done to a vat that strips. S1 (effect), M (time)
const RestOpen = "rest it open for 45 min with one gentle stir, then a quarter of an hour under the lid"

// over is a strip that stays yellow too long in a vat with a sulfur reducer.
func over(n State) (Advice, bool) {
	if n.Strip == nil || *n.Strip <= OverStrip || !n.Recipe.Family.SulfurReducer() {
		return Advice{}, false
	}
	return Advice{Do: DoWait, Cause: "over-reduced", Sentence: RestOpen,
		Why: fmt.Sprintf("the strip stayed yellow for %v: over 3 min the vat strips earlier dips (S1; the time from memory)", *n.Strip),
		How: "lid off, goods out; no reducer today until the strip says so", Wait: OverWait, Recheck: "pull a strip: 45 to 60 s is right"}, true
}

// hot is a vat above its range.
func hot(n State) (Advice, bool) {
	l := n.Recipe.Liquor
	if n.Temp == nil || !(*n.Temp > l.High) || !(l.High > 0) {
		return Advice{}, false
	}
	to := l.High
	return Advice{Do: DoWait, Cause: "hot", To: &to, Sentence: "let it cool to " + n.says(to), Why: n.says(*n.Temp) + " is above the recipe's range; hot liquor dyes paler and duller",
		How: "heater off and unplugged, lid on", Wait: HeatWait, Recheck: "read " + n.System.DegreeUnit()}, true
}

// slack is a strip a little short of good.
func slack(n State) (Advice, bool) {
	a := Advice{Do: DoWait, Cause: "short-strip", Sentence: "lid on and rest it, then pull another strip",
		Why: "the strip is short of 45 s but not yet weak: rest comes before powder, a judgement from memory",
		How: "skim, lid or sheet on, no goods in", Wait: recheckOf(n.Recipe), Recheck: "pull a strip, then read pH"}
	a.Why += wording.If(n.weakPart() > 0, "; it is near enough, within the strip's own error of 30 %")
	return a, n.Strip != nil && *n.Strip < SlackStrip
}

// well is nothing to do.
func well(n State) (Advice, bool) {
	a := Advice{Do: DoNothing, Sentence: "nothing to add", Why: "nothing read or seen asks for it", Wait: recheckOf(n.Recipe), Recheck: "a strip each 5 to 8 loads"}
	for _, words := range []string{n.usedUp(), n.blueAgain()} {
		if words != "" && n.Strip == nil {
			a.Why = words + ", if a strip asks for it"
		}
	}
	switch {
	case n.Temp == nil && n.Strip == nil:
		a.Recheck = "read " + n.System.DegreeUnit() + " and pull a strip"
	case n.Temp == nil:
		a.Recheck = "read " + n.System.DegreeUnit()
	case n.Strip == nil:
		a.Recheck = "pull a strip"
	default:
		return a, true
	}
	a.Sentence = a.Recheck + " before anything is added"
	return a, true
}
