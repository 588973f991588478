package liquor

import (
	"fmt"
	"math"

	"example.org/vatside/model/fibre"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/wording"
)

// State is the one state of a liquor: what was weighed in, by its recipe; what was read, each reading with its error; what its
// book reckons; what was given, and what is done with it. Whoever advises, forecasts or lets goods in asks a State and
// nothing else. What is nil was not read; numbers that are none count as not read.
type State struct {
	Recipe  recipe.Recipe
	Fill    quantity.Volume
	Temp    *quantity.Temperature // as read, or as its book reckons it
	TempOff float64               // by how much that may be off, K, either way; 0: as a thermometer
	PH      *quantity.PH          // as read, since something was last given
	PHError float64               // by how much that may be off, either way; 0: as paper
	Strip   *quantity.Span        // how long it stayed yellow, good to StripShare

	// By its book, the readings in it; nil where nobody keeps one.
	Reckoned *quantity.Range[quantity.PH]
	Indigo   *quantity.Range[quantity.Mass] // pure, left
	Oxidised *quantity.Range[quantity.Mass] // of that, what the air has turned blue
	Reducer  *quantity.Range[quantity.Mass] // pure, weighed in and not spent yet
	Sulfite  *quantity.Range[quantity.Molarity]
	// Earlier days: the most dithionite that they and today can leave spent, and the strong acid that readings told of,
	// less alkali given. 0: nobody knows.
	Spent, Acid quantity.Molarity

	JarTemp *quantity.Temperature // of its stock jar, as read
	JarPH   *quantity.PH

	GivenToday map[string]quantity.Mass // by powder id
	IndigoGone quantity.Mass            // pure, that has left it; 0: not known
	SinceFood  *quantity.Span           // since its last food, of a ferment vat; nil: not known
	Age        quantity.Span            // since it was built; 0: not known
	Finest     quantity.Mass            // the scale's step; 0: 0.1 g below 50 g, 1 g above
	Strength   quantity.Share           // of the indigo at hand; 0: the recipe's
	Goods      []fibre.Fibre            // in it, or to go in
	Gate       *State                   // by which a day lets goods in; nil: by this one
	Building   bool                     // the steps of its build are open
	Ending     bool                     // a day leads to its end, and is past its first step
	Ended      string                   // the day it ended, in words; empty: it has not
	Choking    bool                     // it smells of burnt sulfur
	HandsIn    bool                     // hands or goods are in the liquor
	HeaterOn   bool
	Heater     quantity.Power // what reaches the liquor; 0: not known
	Class      bool           // a class is at the vat
	System     quantity.System
}

// The errors of readings where nothing better is known, either way. C
const (
	PaperError = 2 * StripError // of a pH read on paper
	StripShare = 0.3            // of the seconds that a strip stayed yellow: light, hand and eye
	mostError  = 1.0            // of a pH: what may be off by more says nothing of a vat, and counts as read on paper
)

// Clean drops what cannot have been read.
func (s State) Clean() State {
	if s.Temp != nil && !(*s.Temp >= coldestWater && *s.Temp <= hottestWater) {
		s.Temp = nil
	}
	if s.PH != nil && !(*s.PH >= 0 && *s.PH <= 14) {
		s.PH = nil
	}
	if s.JarTemp != nil && !(*s.JarTemp >= coldestWater && *s.JarTemp <= hottestWater) {
		s.JarTemp = nil
	}
	if s.JarPH != nil && !(*s.JarPH >= 0 && *s.JarPH <= 14) {
		s.JarPH = nil
	}
	if s.Strip != nil && *s.Strip < 0 {
		s.Strip = nil
	}
	if s.PHError = notBelowZero(s.PHError); s.PHError == 0 || s.PHError > mostError {
		s.PHError = PaperError
	}
	if s.TempOff = notBelowZero(s.TempOff); s.TempOff == 0 {
		s.TempOff = ThermometerError
	}
	s.Fill = quantity.Volume(notBelowZero(s.Fill.Litres()))
	return s
}

// Warmth is the °C that it was read or reckoned to have, else what the recipe aims at.
func (s State) Warmth() quantity.Temperature {
	return wording.Told(s.Temp, s.Recipe.Liquor.Aim)
}

// Acidity is the pH with its width: as read; else as its book reckons it; else as the recipe gives it at this °C, from fresh
// down to when its reducer is spent. Of a ferment vat that is the pH to which its acids bring it. All of it is 0 where
// nothing can be reckoned and the recipe says nothing.
func (s State) Acidity() quantity.Range[quantity.PH] {
	s = s.Clean()
	switch {
	case s.PH != nil:
		e := quantity.PH(s.PHError)
		return quantity.Range[quantity.PH]{Low: max(*s.PH-e, 0), Likely: *s.PH, High: min(*s.PH+e, 14)}
	case s.Reckoned != nil:
		return *s.Reckoned
	}
	return s.working()
}

// WorkingPH is the pH that a recipe's vat has at a °C while nobody has read any.
func WorkingPH(r recipe.Recipe, t quantity.Temperature) quantity.Range[quantity.PH] {
	return State{Recipe: r, Temp: &t}.working()
}

// working is the pH while nobody has read any: fresh, with the alkali that was given, and with what the reducer may have used up by
// then as its width; of a ferment vat what it is kept at. Where it cannot be reckoned it is the recipe's own.
func (s State) working() quantity.Range[quantity.PH] {
	r, t := s.Recipe, s.Warmth()
	kept := quantity.PH(r.Liquor.PHKept)
	if kept == 0 && r.Family == recipe.Ferment && r.Liquor.PHHigh > 0 {
		kept = quantity.PH(min(max(fermentKept, r.Liquor.PHLow), r.Liquor.PHHigh))
	}
	if kept > 0 {
		return quantity.Range[quantity.PH]{Low: kept - keptWidth, Likely: kept, High: kept + keptWidth}
	}
	own := FreshPH(r)
	out := quantity.Range[quantity.PH]{Low: min(own, quantity.PH(r.Liquor.PHLow)), Likely: own, High: own}
	fresh, err := OfRecipe(r, 0)
	spent, err2 := OfRecipe(r, 1)
	for _, p := range r.Powders {
		given := s.GivenToday[p.ID].Per(s.Fill)
		if p.Role != recipe.Alkali || !(given > 0 && given <= MostAlkali) || err != nil || err2 != nil {
			continue
		}
		fresh, err = fresh.Plus(p, given)
		spent, err2 = spent.Plus(p, given)
	}
	if err != nil || err2 != nil {
		return out
	}
	a, err := PHRange(fresh, t)
	b, err2 := PH(spent, t)
	if err != nil || err2 != nil {
		return out
	}
	return quantity.Range[quantity.PH]{Low: min(a.Low, b), Likely: a.Likely, High: a.High}
}

// The least pH of vats whose reducer takes no alkali. Lime that has all turned to chalk leaves 8.3 in the air (calcite; from
// memory, the textbooks' figure); what ferments is put right long before 7 (M).
const (
	chalkPH   = quantity.PH(8.3)
	fermentPH = quantity.PH(7)
)

// Floor is the least pH that the vat can have come to by itself, when all of its reducer is spent: that of its build, of earlier
// days and of today, so far as anybody told of it; the low end of what is reckoned. False where that cannot be reckoned.
func (s State) Floor() (quantity.PH, bool) {
	r := s.Recipe
	switch {
	case r.Family == recipe.Ferment:
		return fermentPH, true
	case !r.Family.SulfurReducer():
		return chalkPH, true
	}
	m, ok := s.SpentOut()
	if !ok {
		return 0, false
	}
	p, err := PHRange(m, s.Warmth())
	return p.Low, err == nil
}

// Sour tells whether a liquor with a sulfur reducer was read as acid: below 7, whatever the reading's error, acid got in, and the
// gas is near (S20).
func (s State) Sour() bool { return s.Recipe.Family.SulfurReducer() && s.PH != nil && *s.PH < 7 }

// hottestDose is the °C above which no powder is advised in any vat. C
const hottestDose = quantity.Temperature(55)

// hottestJar is the most that a stock jar bears. S1
const hottestJar = quantity.Temperature(60)

// Hottest is the °C above which a powder is not advised: the higher of the recipe's high mark and of what the powder's own step into
// the vat allows, at the latest 55 °C. A sulfur reducer whose step is the stock jar's goes into the vat up to 50 °C.
func (s State) Hottest(p recipe.Powder) quantity.Temperature {
	top := s.Recipe.Liquor.High
	for _, st := range s.Recipe.Steps {
		adds := st.Do == recipe.Add || st.Do == recipe.Sprinkle
		if adds && st.Powder == p.ID && st.Into != recipe.IntoStock && st.AtMost != nil {
			top = max(top, *st.AtMost)
		}
	}
	if p.SulfurReducer() {
		top = max(top, sprinkleBelow)
	}
	return min(top, hottestDose)
}

// lowPart is how much of a step of alkali the pH read asks for, 0 to 1: none at the recipe's low mark, the whole step where it lies
// the reading's error below it, straight between. Where alkali was given today a step within the error is not given again:
// none up to half the error, the whole of it at the error.
func (s State) lowPart(p recipe.Powder) float64 {
	if s.PH == nil {
		return 0
	}
	short, e := s.Recipe.Liquor.PHLow-float64(*s.PH), s.PHError
	if GivenToday(s.Recipe, p.ID, s.GivenToday) > 0 {
		return unit((short - e/2) / (e / 2))
	}
	return unit(short / e)
}

// weakPart is how much of a step of reducer the strip asks for, 0 to 1: the whole step where it is weak whatever its error, none
// where it is not, straight between; half at the mark of 15 s.
func (s State) weakPart() float64 {
	if s.Strip == nil {
		return 0
	}
	mark := WeakStrip.Seconds()
	return unit((mark*(1+StripShare) - s.Strip.Seconds()) / (2 * mark * StripShare))
}

func unit(x float64) float64 { return math.Min(math.Max(x, 0), 1) }

// leastPart is the part of a step below which the vat is near enough: a quarter of it does nothing to be seen. M
const leastPart = 0.25

// LowPH tells whether alkali is wanted by the pH that was read, beyond the reading's error.
func (s State) LowPH() bool {
	s = s.Clean()
	p, ok := Alkali(s.Recipe)
	return ok && s.lowPart(p) >= leastPart || !ok && s.PH != nil && float64(*s.PH) < s.Recipe.Liquor.PHLow
}

// Weak tells whether reducer, or in a ferment vat food and patience, is wanted by the strip, beyond its error.
func (s State) Weak() bool { return s.Clean().weakPart() >= leastPart }

// Near says that a pH is below the recipe's mark by less than can be told; empty where it is not.
func (s State) Near() string {
	s = s.Clean()
	if s.PH == nil || float64(*s.PH) >= s.Recipe.Liquor.PHLow || s.LowPH() {
		return ""
	}
	return "pH " + s.PH.String() + " is near enough to " + quantity.PH(s.Recipe.Liquor.PHLow).String() + ", within the reading's error: no alkali for that"
}

// reckoningWidth is how much lower than reckoned a liquor may well be: see PHRange.
const reckoningWidth = 0.1

// Bears tells what the liquor does to a fibre, by the pH and °C that were read, else reckoned, and says between what. A refusal says
// what would do, and never the kind of vat that is at hand.
func (s State) Bears(f fibre.Fibre) (fibre.Verdict, string) { return s.BearsDip(f, 0) }

// BearsDip is Bears for goods whose planned dip is known; 0 where it is not.
func (s State) BearsDip(f fibre.Fibre, planned quantity.Span) (fibre.Verdict, string) {
	if s = s.Clean(); s.Gate != nil {
		return s.Gate.BearsDip(f, planned)
	}
	if s.Sour() {
		return fibre.Refused, "no goods into this vat: pH " + s.PH.String() + ", acid got in"
	}
	ph := s.Acidity()
	sure, said := ph.Likely, ph.Likely.String()
	if s.PH == nil { // refused only where the reckoning's own width leaves no doubt
		sure -= reckoningWidth
		said = fmt.Sprintf("%v (reckoned, %v to %v, not read)", ph.Likely, ph.Low, ph.High)
	}
	v, words := f.BearsPHSaid(sure, said, planned)
	if wants := quantity.PH(s.Recipe.Liquor.PHLow); v != fibre.Refused && s.LowPH() {
		if wanted, _ := f.BearsPH(wants); wanted == fibre.Refused {
			return wanted, f.String() + " does not bear the alkali that this vat needs, up to pH " + wants.String() + ": take it to another vat, then ask again"
		}
	}
	switch {
	case v == fibre.Refused:
		words += ": " + Instead(s.Recipe, f)
	case v == fibre.Warned && f.Class() == fibre.Protein && Creeps(s.Recipe):
		words += "; or stir in baking soda, 2 g/L at most, and read again"
	}
	if s.Temp != nil {
		if hot, says := f.BearsHeat(*s.Temp); hot > v {
			return hot, says
		}
	}
	return v, words
}

// Unfit tells whether a fibre does not bear the alkali that the recipe itself has: the vat is as it should be, and other goods are for it.
func (s State) Unfit(f fibre.Fibre) bool {
	l := s.Recipe.Liquor
	at, _ := f.BearsPH(s.Acidity().Likely)
	fit, _ := f.BearsPH(quantity.PH(l.PHLow))
	return at == fibre.Refused && fit > fibre.Fine && (s.PH == nil || float64(*s.PH) <= l.PHHigh)
}

// Holds is the pure indigo that is left in it: as its book reckons it, else all that the recipe puts in.
func (s State) Holds() quantity.Range[quantity.Mass] {
	return wording.Told(s.Indigo, quantity.Exactly(PureIndigo(s.Recipe, s.Fill)))
}

// Reduced is what of that is reduced, and dyes: without what its book says to be blue again.
func (s State) Reduced() quantity.Range[quantity.Mass] {
	all := s.Holds()
	if s.Oxidised == nil {
		return all
	}
	low, likely := max(0, all.Low-s.Oxidised.High), max(0, all.Likely-s.Oxidised.Likely)
	return quantity.Range[quantity.Mass]{Low: min(low, likely), Likely: likely, High: max(likely, all.High-s.Oxidised.Low)}
}

// Advice is one thing to do, and no second before the recheck.
type Advice struct {
	Do       string // one of the Do constants
	Cause    string // the cause of model/signs that it is for; empty: nothing ails it
	Powder   string // its id, with alkali, reducer, food and indigo
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

func (n State) says(t quantity.Temperature) string { return t.Format(n.System) }

// Unsure says that the °C of the liquor is too near a mark to be told from it; empty where it is not, or nothing was read.
func (s State) Unsure(mark quantity.Temperature) string {
	s = s.Clean()
	if s.Temp == nil || math.Abs(float64(*s.Temp-mark)) > s.TempOff+1e-9 {
		return ""
	}
	off := wording.Either(s.System != quantity.Metric, "2 °F", "1 °C")
	if s.TempOff != ThermometerError {
		off = fmt.Sprintf("%.1f °C", s.TempOff)
	}
	return fmt.Sprintf("%s is not sure against %s: a thermometer may be off by %s", s.says(*s.Temp), s.says(mark), off)
}
