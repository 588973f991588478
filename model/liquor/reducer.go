package liquor

import (
	"fmt"
	"math"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/sorted"
)

// LongestReserve is the longest that a reserve is said to last. Kept from air dithionite would last 50 days and more
// (Telfeyan 2019), but nobody's vat is.
const LongestReserve = quantity.Span(30 * 24 * 3600 * 1e9)

// The bounds of the dyer's own factor.
const (
	slowestFactor = 0.3
	fastestFactor = 3.0
)

// Budget is a vat whose reducer is to be reckoned.
type Budget struct {
	Recipe   recipe.Recipe
	Fill     quantity.Volume
	Temp     quantity.Temperature
	Pressure quantity.Pressure // of the air at the place; 0: the standard atmosphere
	Surface  quantity.Area     // open to the air
	Quiet    Quiet             // how the vat stands between acts
	Work     Work              // the rhythm of work; zero: Usual
	Opened   quantity.Span     // how long ago the tin was opened; 0: now
	Strength quantity.Share    // the reducer's strength by the dyer's own test, before Opened; 0: not tested
	Factor   float64           // how much faster than reckoned this vat loses it, 0.3–3; 0: 1
}

// Reserve is what becomes of the reducer. All masses but Dosed are of the pure substance.
type Reserve struct {
	Reducer   recipe.Substance
	Dosed     quantity.Mass                 // of the powder, on the scale
	Active    quantity.Range[quantity.Mass] // what reduces in it
	FillWater quantity.Range[quantity.Mass] // eaten by the air dissolved in the fill
	Indigo    quantity.Range[quantity.Mass] // taken by the indigo
	Free      quantity.Range[quantity.Mass] // left for the air, never below 0

	RestPerHour, WorkPerHour quantity.Range[quantity.Mass]
	Rest, Work               quantity.Range[quantity.Span] // how long Free lasts, 0 to LongestReserve
	RestParts, WorkParts     []Part                        // each loss of an hour
	Longer                   []Change                      // what would lengthen it, best first
}

// Change is one thing that would make the reserve last longer.
type Change struct {
	ID       string // stable: lid, sheet, fewer_stirs, wet_goods, squeeze
	Sentence string
	Gain     quantity.Span // likely
	AtRest   bool          // the gain is of the time at rest, else of the time in work
}

// NoBudgetError tells why a vat's reducer cannot be reckoned: one sentence, without a full stop.
type NoBudgetError struct {
	Family recipe.Family
	Reason string
}

// Error is the sentence.
func (e *NoBudgetError) Error() string { return e.Reason }

// Reserve reckons a fresh fill by its recipe: what the water and the indigo take, what is left for the air, and how long
// that lasts at rest and in work. The time of work is for one unbroken stretch in which goods carry liquor out, reckoned
// at the mean of what they carry while it runs down.
//
// A sugar–lime or ferment vat, one without a reducer that is known here, and figures that cannot be give a
// *NoBudgetError; a temperature or pressure that cannot be an *OxygenError.
func (b Budget) Reserve() (Reserve, error) { return b.reserve(nil) }

// Holding is Reserve for a vat that holds what is left, not a fresh dose: Dosed, Active, FillWater and Indigo are 0.
func (b Budget) Holding(l Left) (Reserve, error) { return b.reserve(&l) }

// AtRest is RestPerHour of Reserve and Holding, which is the same for both, without the rest of them. Its errors are theirs.
func (b Budget) AtRest() (quantity.Range[quantity.Mass], error) {
	sub, err := b.check()
	if err != nil {
		return quantity.Range[quantity.Mass]{}, err
	}
	return together(b.restParts(reducerKinds[sub].at(b.Temp))), nil
}

// restParts is each loss of an hour at rest.
func (b Budget) restParts(k reducerKind) []Part {
	return partsOf([]Part{k.surfacePart(b.Surface, b.Quiet, 0)}, b.factor())
}

func (b Budget) reserve(l *Left) (Reserve, error) {
	sub, err := b.check()
	if err != nil {
		return Reserve{}, err
	}
	k := reducerKinds[sub].at(b.Temp)
	r := Reserve{Reducer: sub}
	if l != nil {
		r.Free = l.tidy().Free
	} else if err := b.dose(&r, k); err != nil {
		return Reserve{}, err
	}
	r.RestParts = b.restParts(k)
	r.WorkParts = partsOf(b.workParts(k, r.Free), b.factor())
	r.RestPerHour, r.WorkPerHour = together(r.RestParts), together(r.WorkParts)
	r.Rest, r.Work = lasts(r.Free, r.RestPerHour), lasts(r.Free, r.WorkPerHour)
	r.Longer = b.longer(k, r)
	return r, nil
}

// check refuses what has no budget, and names the reducer.
func (b Budget) check() (recipe.Substance, error) {
	no := func(s string) error { return &NoBudgetError{b.Recipe.Family, s} }
	switch b.Recipe.Family {
	case recipe.SugarLime:
		return "", no("sugar goes on reducing for days: the strip test tells, not a reckoning")
	case recipe.Ferment:
		return "", no("the bacteria go on reducing as long as they are fed and warm: the strip test tells, not a reckoning")
	}
	if !(b.Fill > 0) || math.IsInf(b.Fill.Litres(), 0) {
		return "", no("a reserve needs a fill above 0 L")
	}
	if !(b.Surface >= 0) || math.IsInf(b.Surface.SquareMetres(), 0) {
		return "", no("a surface is 0 m² or more")
	}
	if _, err := Oxygen(b.Temp, b.Pressure); err != nil {
		return "", err
	}
	for _, p := range b.Recipe.Powders {
		if p.Role != recipe.Reducer {
			continue
		}
		if _, known := reducerKinds[p.Substance()]; !known {
			return "", no("nothing is known here of how air uses up " + p.Material + ": the strip test tells, not a reckoning")
		}
		return p.Substance(), nil
	}
	return "", no("the recipe holds no reducer, so there is nothing to reckon")
}

// dose fills in what a fresh fill holds and what water and indigo take of it.
func (b Budget) dose(r *Reserve, k reducerKind) error {
	var indigo, preReduced quantity.Mass
	for _, p := range b.Recipe.Powders {
		m := b.Recipe.PerLitre(p).Of(b.Fill)
		switch other, known := reducerKinds[p.Substance()]; {
		case p.Role == recipe.Reducer && known:
			// a second reducer of another kind counts as its equal in indigo
			equal := float64(k.mass) * k.perIndigo / (float64(other.mass) * other.perIndigo)
			r.Dosed += m * quantity.Mass(equal)
			s := b.strength(other)
			own := quantity.Mass(equal) * orWhole(p.Strength).Of(m)
			r.Active.Low += s.Low.Of(own)
			r.Active.Likely += s.Likely.Of(own)
			r.Active.High += s.High.Of(own)
		case p.Role == recipe.Indigo && p.Form == recipe.PreReduced:
			preReduced += orWhole(p.Strength).Of(m)
		case p.Role == recipe.Indigo:
			indigo += orWhole(p.Strength).Of(m)
		}
	}
	o, err := Oxygen(b.Temp, b.Pressure)
	if err != nil {
		return err
	}
	r.FillWater = k.grams(quantity.Exactly(o.Of(b.Fill).Grams() / float64(MolarOxygen)))
	each := per(k.perIndigo, k.mass, MolarIndigo)
	blue := scaled(turnedBlue, preReduced.Grams())
	r.Indigo = quantity.Map(blue, func(g float64) quantity.Mass { return each.Of(indigo + quantity.Grams(g)) })
	r.Free = quantity.Range[quantity.Mass]{
		Low:    max(0, r.Active.Low-r.FillWater.High-r.Indigo.High),
		Likely: max(0, r.Active.Likely-r.FillWater.Likely-r.Indigo.Likely),
		High:   max(0, r.Active.High-r.FillWater.Low-r.Indigo.Low),
	}
	return nil
}

// turnedBlue is the part of pre-reduced indigo that air has turned back by the time it is in the vat. M
var turnedBlue = quantity.Range[float64]{Low: 0, Likely: 0.1, High: 0.2}

// orWhole is a strength, or all of it where none is given.
func orWhole(s quantity.Share) quantity.Share {
	if !(s > 0) {
		return 1
	}
	return min(s, 1)
}

// strength is what is left of a reducer's strength: the dyer's own test, else by the age of the opened tin.
func (b Budget) strength(k reducerKind) quantity.Range[quantity.Share] {
	if b.Strength > 0 {
		return quantity.Exactly(min(b.Strength, 1))
	}
	if !k.fades {
		return quantity.Exactly(quantity.Share(1))
	}
	return StrengthLeft(b.Opened)
}

// StrengthLeft is what a tin of dithionite or thiourea dioxide still has, so long after it was opened: all at first; after
// six months in a tight tin likely three quarters, half if it drew damp, nine tenths at best. From memory; no published
// shelf life was found. A tin that is caked, warm or smells sharp is not used at all.
func StrengthLeft(opened quantity.Span) quantity.Range[quantity.Share] {
	months := math.Max(0, opened.Hours()/(24*30.44))
	at := func(lost, least float64) quantity.Share { return quantity.Share(math.Max(least, 1-lost*months/6)) }
	return quantity.Range[quantity.Share]{Low: at(0.5, 0.3), Likely: at(0.25, 0.5), High: at(0.1, 0.8)}
}

// factor is by how much the dyer's own vat uses its reducer faster than reckoned, within its bounds.
func (b Budget) factor() float64 {
	if !(b.Factor > 0) {
		return 1
	}
	return min(max(b.Factor, slowestFactor), fastestFactor)
}

// lasts is how long a reserve holds at a loss, the least for most and the most for least.
func lasts(free, perHour quantity.Range[quantity.Mass]) quantity.Range[quantity.Span] {
	return quantity.Range[quantity.Span]{
		Low:    spanOf(free.Low, perHour.High),
		Likely: spanOf(free.Likely, perHour.Likely),
		High:   spanOf(free.High, perHour.Low),
	}
}

func spanOf(free, perHour quantity.Mass) quantity.Span {
	if !(free > 0) {
		return 0
	}
	if h := float64(free) / float64(perHour); h < LongestReserve.Hours() {
		return quantity.Hours(h)
	}
	return LongestReserve
}

// longer tries each thing that could be done otherwise and keeps what gains a minute or more.
func (b Budget) longer(k reducerKind, r Reserve) []Change {
	var out []Change
	try := func(id, what string, atRest bool, loss quantity.Range[quantity.Mass]) {
		was, when := r.Work.Likely, "in work"
		if atRest {
			was, when = r.Rest.Likely, "at rest"
		}
		c := Change{ID: id, AtRest: atRest, Gain: spanOf(r.Free.Likely, loss.Likely) - was}
		if c.Gain >= quantity.Minutes(1) {
			c.Sentence = fmt.Sprintf("%s: %s longer %s", what, SayReserve(quantity.Exactly(c.Gain)), when)
			out = append(out, c)
		}
	}
	with := func(change func(*Budget)) Budget { n := b; n.Work = b.Work.or(b.Fill); change(&n); return n }
	atRest := func(n Budget) quantity.Range[quantity.Mass] { return together(n.restParts(k)) }
	inWork := func(n Budget) quantity.Range[quantity.Mass] {
		return together(partsOf(n.workParts(k, r.Free), n.factor()))
	}
	if b.Quiet == Open {
		try("lid", "a lid between acts", true, atRest(with(func(n *Budget) { n.Quiet = Lidded })))
	}
	if b.Quiet != Sheeted {
		try("sheet", "a sheet afloat on the liquor between acts", true, atRest(with(func(n *Budget) { n.Quiet = Sheeted })))
	}
	try("fewer_stirs", "half as many stirs", false, inWork(with(func(n *Budget) { n.Work.StirsPerHour /= 2 })))
	if b.Work.DryGoods {
		try("wet_goods", "goods wetted out before they go in", false, inWork(with(func(n *Budget) { n.Work.DryGoods = false })))
	}
	// pressed down to the least pick-up, goods carry that much less out
	squeezed := r.WorkPerHour
	for _, p := range r.WorkParts {
		if p.ID == "carried_out" {
			squeezed.Likely -= p.Grams.Likely * squeezeSaves
		}
	}
	try("squeeze", "goods squeezed harder at the surface before they leave it", false, squeezed)
	sorted.By(out, func(x, y Change) int { return int(min(max(y.Gain-x.Gain, -1), 1)) })
	return out
}

// squeezeSaves is the part of the liquor carried out that stays if goods are pressed to a pick-up of 100 % and not 125. C
const squeezeSaves = 0.2

// SayReserve is a reserve in words, as coarse as it is known: "3–5 h", "40–90 min", "40 min to 5 h", "about 5 h", "5 h to
// more than a day"; "more than a day" if all of it is. The low end of a range is rounded down. Below zero counts as
// nothing.
func SayReserve(r quantity.Range[quantity.Span]) string {
	day := quantity.Hours(24)
	low, high := max(0, min(r.Low, r.High)), max(0, r.Low, r.High)
	switch {
	case high < quantity.Minutes(1):
		return "none"
	case low >= day:
		return "more than a day"
	}
	down := math.Floor
	if low == high {
		down = math.Round
	}
	n, u := coarse(low, down)
	if high > day {
		if n == "0" {
			return "up to a day or more"
		}
		return n + " " + u + " to more than a day"
	}
	m, v := coarse(high, math.Round)
	// in minutes both where the higher is at most two hours
	if high <= quantity.Hours(2) {
		n, u = coarseMinutes(low, down)
		m, v = coarseMinutes(high, math.Round)
	}
	switch {
	case n == "0":
		return "at most " + m + " " + v
	case n == m && u == v:
		return "about " + m + " " + v
	case u == v:
		return n + "–" + m + " " + v
	}
	return n + " " + u + " to " + m + " " + v
}

// coarse is a span in minutes below 90 of them, in half hours below three, in hours from there.
func coarse(s quantity.Span, round func(float64) float64) (number, unit string) {
	switch h := s.Hours(); {
	case h < 1.5:
		return coarseMinutes(s, round)
	case h < 3:
		return fmt.Sprint(round(h*2) / 2), "h"
	default:
		return fmt.Sprint(round(h)), "h"
	}
}

// coarseMinutes is a span in minutes, to five of them from twenty up.
func coarseMinutes(s quantity.Span, round func(float64) float64) (number, unit string) {
	m := round(s.Minutes())
	if m >= 20 {
		m = round(s.Minutes()/5) * 5
	}
	return fmt.Sprint(m), "min"
}
