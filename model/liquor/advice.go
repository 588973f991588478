package liquor

import (
	"fmt"
	"math"

	"example.org/vatside/model/fibre"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/water"
)

// The marks of advice.
const (
	handsAtMost   = quantity.Temperature(45) // scald times of S27, with room
	classAtMost   = quantity.Temperature(40) // C
	sprinkleBelow = quantity.Temperature(50) // C, S1 has 60 as ruin
	weakStrip     = quantity.Span(15e9)      // M
	slackStrip    = quantity.Span(30e9)      // M, between weak and the good 45 s of S1
	overStrip     = quantity.Span(180e9)     // S1 has the effect, M the time
)

// Now is where a vat is. What is nil was not read; numbers that are none count as not read.
type Now struct {
	Recipe     recipe.Recipe
	Fill       quantity.Volume
	Temp       *quantity.Temperature
	PH         *quantity.PH // as read
	PHError    float64      // by how much a reading may be off, either way: 0.5 for paper
	Strip      *quantity.Span
	Milky      bool
	GivenToday map[string]quantity.Mass // by powder id
	Finest     quantity.Mass            // the scale's step; 0: 0.1 g below 50 g, 1 g above
	Goods      []fibre.Fibre
	Building   bool           // the steps of its build are open
	Ending     bool           // a day leads to its end, and is past its first step
	Ended      string         // the day it ended, in words; empty: it has not
	Choking    bool           // it smells of burnt sulfur
	SinceFood  *quantity.Span // since its last food, of a ferment vat; nil: not known
	HandsIn    bool           // hands or goods are in the liquor
	HeaterOn   bool
	Heater     quantity.Power // what reaches the liquor; 0: not known
	Class      bool           // a class is at the vat
	System     quantity.System
}

// What an Advice says to do.
const (
	DoAlkali  = "alkali"
	DoWarm    = "warm"
	DoReducer = "reducer"
	DoFood    = "food" // ferment vats only
	DoWait    = "wait"
	DoStop    = "stop"
	DoNothing = "nothing"
)

// Advice is one thing to do, and no second before the recheck.
type Advice struct {
	Do       string // one of the Do constants
	Powder   string // its id, with alkali, reducer and food
	Mass     quantity.Mass
	With     []Amount              // what goes in after it, in the same dose: the lime of an iron–lime vat, the reducer of a mild soda vat
	To       *quantity.Temperature // what to warm to, or to let it cool to
	Sentence string
	Why      string // with the evidence
	How      string
	Cautions []string
	Wait     quantity.Span
	Recheck  string
	Next     string // id of the alkali to look at on the next recheck, as the reducer uses it up
	Warnings []string
	Refused  bool // the goods may not go into this vat; without them it can be asked about again
}

// Advise says the one next thing for a vat. In this order: burnt sulfur; danger; nothing into a vat that has ended or is
// being ended; a vat being built keeps its recipe's own order; goods that the liquor would harm; alkali if pH was read below
// the recipe's low mark; warmth; for a strip that turns blue in less than 15 s cooling first, below 50 °C for a sulfur
// reducer and into the range for all else, then reducer, or food in a ferment vat; rest for one that stays yellow over
// 3 min; alkali for a milky vat.
//
// A pH reads low when it is below the mark as read, by however little: the step is small, and reducer in a vat short of
// alkali is wasted. Where the mark lies within PHError the step is halved, and once alkali was given today that is near
// enough. Doses are within the recipe's at_once and per_day, and on the scale's steps. It never advises acid, and no
// sulfur reducer above 50 °C or in a ferment vat.
func Advise(n Now) Advice {
	n = n.clean()
	var a Advice
	for _, rule := range []func(Now) (Advice, bool){
		choking, danger, ended, building, unfit, unfilled, lowPH, cold, weak, over, milky, hot, slack, well,
	} {
		var says bool
		if a, says = rule(n); says {
			break
		}
	}
	a.Warnings = append(a.Warnings, n.warnings(a)...)
	if a.Mass > 0 {
		a.Cautions = append(n.first(), a.Cautions...)
	}
	return a
}

// clean drops what cannot have been read.
func (n Now) clean() Now {
	if n.Temp != nil && !(*n.Temp >= coldestWater && *n.Temp <= hottestWater) {
		n.Temp = nil
	}
	if n.PH != nil && !(*n.PH >= 0 && *n.PH <= 14) {
		n.PH = nil
	}
	if n.Strip != nil && *n.Strip < 0 {
		n.Strip = nil
	}
	n.PHError = notBelowZero(n.PHError)
	n.Fill = quantity.Volume(notBelowZero(n.Fill.Litres()))
	return n
}

// first is what comes before any powder.
func (n Now) first() []string {
	var out []string
	if n.HeaterOn {
		out = append(out, "heater off and unplugged first")
	}
	if n.HandsIn {
		out = append(out, "hands and goods out first")
	}
	if n.Class {
		out = append(out, "no child at the powders: an adult weighs and adds, the class stands off")
	}
	return out
}

func (n Now) says(t quantity.Temperature) string { return t.Format(n.System) }

// lowPH is alkali first, where pH was read low.
func lowPH(n Now) (Advice, bool) {
	low := quantity.PH(n.Recipe.Liquor.PHLow)
	if n.PH == nil || !(*n.PH < low) {
		return Advice{}, false
	}
	v, s, _ := bears(n.Goods, func(f fibre.Fibre) (fibre.Verdict, string) { return f.BearsPH(low) })
	if v == fibre.Warned { // kept low for these goods; warnings says so
		return Advice{}, false
	}
	if v == fibre.Refused {
		return Advice{Do: DoStop, Refused: true, Sentence: s, Why: "the vat wants alkali up to pH " + low.String() + ", and these goods do not bear that",
			How: "take these goods to another vat, then ask again", Wait: recheckOf(n.Recipe), Recheck: "read pH"}, true
	}
	p, ok := theAlkali(n.Recipe)
	if !ok {
		return Advice{}, false
	}
	step := alkaliStep(n.Recipe, p)
	eats := "the acids of sugar and of ferment use up alkali"
	if n.Recipe.Family == recipe.Ferment {
		eats = "the acids of the ferment use up alkali"
	} else if n.Recipe.Family.SulfurReducer() {
		eats = "spent reducer uses up alkali (1.2 g of soda ash, or 0.46 g of lye, a gram of dithionite, calculated)"
	}
	why := fmt.Sprintf("pH %v is below the recipe's %v; %s", *n.PH, low, eats)
	if near := float64(low-*n.PH) <= n.PHError; near && GivenToday(n.Recipe, p.ID, n.GivenToday) > 0 {
		return Advice{}, false // as near as it can be told
	} else if near {
		step /= 2
		why += fmt.Sprintf("; the reading may be off by %.1f, so half a step", n.PHError)
	}
	a := n.give(DoAlkali, p, step)
	a.Why, a.Recheck = why, "read pH again, then pull a strip"
	return a, true
}

// usualHeater is taken where the heater's power is not known. M
const usualHeater = quantity.Power(1000)

// cold is warmth, never past the recipe's aim or its build, nor past what the goods and a class bear.
func cold(n Now) (Advice, bool) {
	l := n.Recipe.Liquor
	if n.Temp == nil || !(*n.Temp < l.Low) {
		return Advice{}, false
	}
	to := l.Aim
	if l.Build > 0 {
		to = min(to, l.Build)
	}
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
	looks := "looks short of reducer"
	if n.Recipe.Family == recipe.Ferment {
		looks = "its bacteria sleep"
	}
	a := Advice{Do: DoWarm, To: &to, Sentence: "warm it to " + n.says(to), Wait: min(recheckOf(n.Recipe), HeatWait), Recheck: "read °C, then pull a strip",
		Why: n.says(*n.Temp) + " is below the recipe's " + n.says(l.Low) + ": a cold vat reduces slowly, and " + looks,
		How: "hands and goods out; heat in place under the lid; heater off and unplugged before stirring, stir slowly, read °C"}
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
	a.Cautions = []string{"a heater hangs guarded, clear of walls, floor and goods, on a residual-current switch",
		"no hands above " + n.says(handsAtMost) + ", no class above " + n.says(classAtMost) + ": cooling down to that is part of the wait"}
	return a, true
}

// weak is a strip that turns blue at once: reducer, or food and patience in a ferment vat.
func weak(n Now) (Advice, bool) {
	if n.Strip == nil || *n.Strip >= weakStrip {
		return Advice{}, false
	}
	if !n.Recipe.Family.SulfurReducer() {
		if a, says := hot(n); says { // sugar, iron and bacteria work within the range: a dose now would be judged by another vat
			return a, true
		}
	}
	why := fmt.Sprintf("the strip turned blue in %v: weak reduction, below 15 s (from memory); good is about 45 s (S1)", *n.Strip)
	if n.Recipe.Family == recipe.Ferment {
		return ferment(n, why), true
	}
	p, ok := theReducer(n.Recipe)
	if !ok {
		return Advice{}, false
	}
	if n.Temp != nil && *n.Temp > sprinkleBelow && p.SulfurReducer() {
		to := sprinkleBelow
		return Advice{Do: DoWait, To: &to, Sentence: "let it cool to " + n.says(to) + " before any reducer", Why: why, How: "lid on, heater off and unplugged",
			Wait: HeatWait, Recheck: "read °C"}, true
	}
	if Sour(n.PH) && p.SulfurReducer() {
		return Advice{Do: DoStop, Sentence: fmt.Sprintf("no reducer at pH %v: acid frees a choking gas from it", *n.PH), Why: "a liquor below pH 7 holds acid (S20)",
			How: "outdoors, children away; read pH again with fresh paper or the probe rinsed", Wait: recheckOf(n.Recipe), Recheck: "read pH"}, true
	}
	step := reducerStep(n.Recipe, p)
	if protein(n.Goods) {
		step = min(step, gentleReducer)
	}
	lime, hasLime := theAlkali(n.Recipe)
	var a Advice
	if n.Recipe.Family == recipe.IronLime && hasLime {
		a = n.giveBoth(p, lime, step)
	} else {
		a = n.afterAlkali(n.give(DoReducer, p, step), p)
	}
	a.Why, a.Recheck = why, "pull a strip, then read pH"
	if hasLime {
		a.Next = lime.ID
	}
	return a, true
}

// Sour tells whether a liquor was read as acid: no sulfur reducer goes into it (S20).
func Sour(read *quantity.PH) bool { return read != nil && *read < 7 }

// ferment feeds a ferment vat that is weak, three days after its last food and not before; it never gets a chemical
// reducer. S6, C, M
func ferment(n Now, why string) Advice {
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
		a := n.give(DoFood, p, min(quantity.GramsPerLitre(1), n.Recipe.PerLitre(p)))
		a.Why, a.Recheck = why, "smell, pH and a strip; no more food for three days"
		return a
	}
	return Advice{Do: DoWait, Sentence: Patience(n.says(n.Recipe.Liquor.Aim), n.SinceFood), Why: why, How: "lid on, wrapped; slow stir to the floor", Wait: FoodWait,
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
func over(n Now) (Advice, bool) {
	if n.Strip == nil || *n.Strip <= overStrip || !n.Recipe.Family.SulfurReducer() {
		return Advice{}, false
	}
	return Advice{Do: DoWait, Sentence: RestOpen,
		Why: fmt.Sprintf("the strip stayed yellow for %v: over 3 min the vat strips earlier dips (S1; the time from memory)", *n.Strip),
		How: "lid off, goods out; no reducer today until the strip says so", Wait: OverWait, Recheck: "pull a strip: 45 to 60 s is right"}, true
}

// milky is alkali last: white indigo that too little alkali holds. In vats of lime it is stirred sediment.
func milky(n Now) (Advice, bool) {
	if !n.Milky {
		return Advice{}, false
	}
	if p, ok := theAlkali(n.Recipe); ok && n.Recipe.Family.SulfurReducer() {
		if n.PH != nil && float64(*n.PH) >= n.Recipe.Liquor.PHHigh && n.Recipe.Liquor.PHHigh > 0 {
			return Advice{}, false
		}
		a := n.give(DoAlkali, p, alkaliStep(n.Recipe, p))
		a.Why, a.Recheck = "milky greenish-white: reduced indigo that too little alkali holds in solution (S1)", "look for a clear glass, read pH, pull a strip"
		return a, true
	}
	return Advice{Do: DoWait, Sentence: "let it settle, add nothing", Why: "a grey-white cloud in a vat with lime or plant matter is stirred sediment, common practice",
		How: "lid on, no stirring", Wait: SettleWait, Recheck: "a clear glass above the sediment"}, true
}

// hot is a vat above its range.
func hot(n Now) (Advice, bool) {
	l := n.Recipe.Liquor
	if n.Temp == nil || !(*n.Temp > l.High) || !(l.High > 0) {
		return Advice{}, false
	}
	to := l.High
	return Advice{Do: DoWait, To: &to, Sentence: "let it cool to " + n.says(to), Why: n.says(*n.Temp) + " is above the recipe's range; hot liquor dyes paler and duller",
		How: "heater off and unplugged, lid on", Wait: HeatWait, Recheck: "read °C"}, true
}

// slack is a strip a little short of good.
func slack(n Now) (Advice, bool) {
	return Advice{Do: DoWait, Sentence: "lid on and rest it, then pull another strip",
		Why: "the strip is short of 45 s but not yet weak: rest comes before powder, a judgement from memory",
		How: "skim, lid or sheet on, no goods in", Wait: recheckOf(n.Recipe), Recheck: "pull a strip, then read pH"}, n.Strip != nil && *n.Strip < slackStrip
}

// well is nothing to do.
func well(n Now) (Advice, bool) {
	a := Advice{Do: DoNothing, Sentence: "nothing to add", Why: "nothing read or seen asks for it", Wait: recheckOf(n.Recipe), Recheck: "a strip each 5 to 8 loads"}
	if n.Temp == nil || n.Strip == nil {
		a.Sentence, a.Recheck = "read °C and pull a strip before anything is added", "read °C and pull a strip"
	}
	return a, true
}

// warnings are what to say besides.
func (n Now) warnings(a Advice) []string {
	var out []string
	add := func(v fibre.Verdict, s string, _ fibre.Fibre) {
		if v == fibre.Warned || v == fibre.Refused && !a.Refused {
			out = append(out, s)
		}
	}
	l := n.Recipe.Liquor
	if n.PH != nil {
		add(bears(n.Goods, func(f fibre.Fibre) (fibre.Verdict, string) { return Bears(n.Recipe, f, n.PH) }))
		if low := quantity.PH(l.PHLow); *n.PH < low {
			if v, _, f := bears(n.Goods, func(f fibre.Fibre) (fibre.Verdict, string) { return f.BearsPH(low) }); v == fibre.Warned {
				out = append(out, fmt.Sprintf("pH %v is below the recipe's %v, and stays there for the %s: no alkali while it is to be dyed", *n.PH, low, f))
			}
		}
		if l.PHHigh > 0 && float64(*n.PH) > l.PHHigh {
			out = append(out, fmt.Sprintf("pH %v is above the recipe's %.1f: no alkali now, and never acid in a vat", *n.PH, l.PHHigh))
		}
	} else if protein(n.Goods) {
		add(bears(n.Goods, func(f fibre.Fibre) (fibre.Verdict, string) { return Bears(n.Recipe, f, nil) }))
		out = append(out, "read pH before wool or silk goes in")
	}
	if protein(n.Goods) && Creeps(n.Recipe) {
		out = append(out, "kept warm it gives off carbon dioxide and its pH creeps up: read pH before wool or silk, and every three hours")
	}
	if n.Temp != nil {
		add(bears(n.Goods, func(f fibre.Fibre) (fibre.Verdict, string) { return f.BearsHeat(*n.Temp) }))
		if *n.Temp > handsAtMost {
			out = append(out, "no hands in a liquor above "+n.says(handsAtMost))
		}
	} else if a.Do == DoReducer {
		out = append(out, "read °C before the reducer goes in")
	}
	return out
}
