package liquor

import (
	"cmp"
	"math"

	"example.org/vatside/model/fibre"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/vessel"
	"example.org/vatside/model/wording"
)

// Quiet is how the vat stands between acts.
type Quiet int

// Open to the air, under a lid, or under a sheet or film that floats on the liquor.
const (
	Open Quiet = iota
	Lidded
	Sheeted
)

// letsThrough is the part of the air's loss at an open surface that still gets in: all, three tenths under a lid that
// keeps most of it off, a tenth under a floating sheet. M
func (q Quiet) letsThrough() float64 {
	switch q {
	case Lidded:
		return 0.3
	case Sheeted:
		return 0.1
	}
	return 1
}

// Work is a rhythm of work at the vat. One with no goods, dips or stirs takes those of Usual.
type Work struct {
	Dry          quantity.Mass // goods in one dip, by their dry weight
	DipsPerHour  float64       // dips of that weight an hour, 0 up
	StirsPerHour float64       // slow stirs of a minute or two an hour, 0 up
	DryGoods     bool          // goods go in dry, and carry their air in
}

// Usual is a usual rhythm for a fill: the goods that it takes at once at 30 L a kilogram, four dips an hour (5 min in and
// 10 out), two slow stirs. C
func Usual(fill quantity.Volume) Work {
	dry, _ := vessel.AtOnce(fill)
	return Work{Dry: dry, DipsPerHour: 4, StirsPerHour: 2}
}

// or is the work, or the usual one where none is given; what is below zero or no number counts as nothing.
func (w Work) or(fill quantity.Volume) Work {
	if w.Dry == 0 && w.DipsPerHour == 0 && w.StirsPerHour == 0 {
		u := Usual(fill)
		u.DryGoods = w.DryGoods
		return u
	}
	w.Dry = quantity.Mass(notBelowZero(float64(w.Dry)))
	w.DipsPerHour, w.StirsPerHour = notBelowZero(w.DipsPerHour), notBelowZero(w.StirsPerHour)
	return w
}

// notBelowZero is x, or 0 for what is below it, infinite or no number.
func notBelowZero(x float64) float64 {
	if !(x > 0) || math.IsInf(x, 0) {
		return 0
	}
	return x
}

// Part is one of the things that take reducer: its part of the likely loss, and why it does.
type Part struct {
	ID    string // stable: surface, stirring, lifting, goods_water, goods_air, carried_out
	Name  string
	Grams quantity.Range[quantity.Mass] // in an hour, of pure reducer
	Share quantity.Share                // of the likely loss
	Why   string                        // with the evidence
}

// reducerKind is what a reducer is worth. The ratios are moles.
type reducerKind struct {
	mass      MolarMass
	perIndigo float64
	perOxygen quantity.Range[float64]
	fades     bool // loses strength in an opened tin
}

// reducerKinds are the reducers of which a budget can be reckoned.
var reducerKinds = map[recipe.Substance]reducerKind{
	// 1 overall (ECHA dossier 15288); measured 1.2 ± 0.2 at 25 °C, 1.7 ± 0.1 at 37 °C (Tao, Goodisman & Souid).
	recipe.Dithionite: {MolarDithionite, 1, quantity.Range[float64]{Low: 1, Likely: 1.2, High: 1.7}, true},
	// Its sulfur gives two electrons to sulfite and two more to sulfate, and O₂ takes four: 1 mole if all goes to
	// sulfate, 2 if it stops at sulfite (K); between them, M.
	recipe.ThioureaDioxide: {MolarThioureaDioxide, 1, quantity.Range[float64]{Low: 1, Likely: 1.5, High: 2}, true},
	// One electron an iron, four an O₂, two an indigo (K).
	recipe.IronSulfate: {MolarIronHeptahydrate, 2, quantity.Range[float64]{Low: 4, Likely: 4, High: 4}, false},
}

// measuredAt are the two temperatures at which dithionite's ratio to oxygen was measured, 1.2 and 1.7 (Tao, Goodisman &
// Souid); between them it is taken as straight, outside as constant.
var measuredAt = [2]quantity.Temperature{25, 37}

// at is the kind at a temperature: a warmer vat spends more dithionite on the same oxygen.
func (k reducerKind) at(t quantity.Temperature) reducerKind {
	if k.mass != MolarDithionite {
		return k
	}
	part := float64((t - measuredAt[0]) / (measuredAt[1] - measuredAt[0]))
	k.perOxygen.Likely += (k.perOxygen.High - k.perOxygen.Likely) * math.Min(math.Max(part, 0), 1)
	return k
}

// grams is the reducer that so many moles of oxygen spend.
func (k reducerKind) grams(oxygen quantity.Range[float64]) quantity.Range[quantity.Mass] {
	m := times(oxygen, k.perOxygen)
	return quantity.Map(m, func(moles float64) quantity.Mass { return quantity.Grams(moles * float64(k.mass)) })
}

// times is the product of two ranges that are not below zero.
func times(a, b quantity.Range[float64]) quantity.Range[float64] {
	return quantity.Range[float64]{Low: a.Low * b.Low, Likely: a.Likely * b.Likely, High: a.High * b.High}
}

// scaled is a range by a number of 0 or more.
func scaled[T ~float64](a quantity.Range[T], by float64) quantity.Range[T] {
	return quantity.Map(a, func(v T) T { return T(float64(v) * by) })
}

// together is the sum of losses that are estimated apart: their likely values add up, their widths as independent ones,
// in squares. It stays within the sums of the ends, so never falls below zero.
func together(parts []Part) quantity.Range[quantity.Mass] {
	var sum, down, up float64
	for _, p := range parts {
		sum += p.Grams.Likely.Grams()
		down += math.Pow((p.Grams.Likely - p.Grams.Low).Grams(), 2)
		up += math.Pow((p.Grams.High - p.Grams.Likely).Grams(), 2)
	}
	return quantity.Range[quantity.Mass]{
		Low:    quantity.Grams(math.Max(0, sum-math.Sqrt(down))),
		Likely: quantity.Grams(sum),
		High:   quantity.Grams(sum + math.Sqrt(up)),
	}
}

// The estimates behind the losses.
var (
	// quietSurface is the dithionite that a quiet open warm surface takes, g/(m²·h): an estimate, see the facts of
	// leuco indigo; the air getting in sets the pace (Kawagoe & Robinson 1981 have zero order in oxygen).
	quietSurface = quantity.Range[float64]{Low: 1, Likely: 3, High: 8}
	// airTaken is the part of whisked-in air whose oxygen goes into the liquor; the rest escapes as bubbles. M
	airTaken = quantity.Range[float64]{Low: 0.3, Likely: 0.5, High: 0.8}
	// stirAir is the air that one slow stir draws in, litres a m² of surface. M
	stirAir = quantity.Range[float64]{Low: 0.5, Likely: 1.5, High: 5}
	// liftAir is the air that gets in as goods go in, move and are lifted, litres a kg of dry goods and dip. M
	liftAir = quantity.Range[float64]{Low: 0.05, Likely: 0.2, High: 0.5}
	// wetFolds and dryFolds are the air in the folds and the yarn, litres a kg of dry goods: "everything that goes in
	// wet takes less air with it" (S1); the figures M.
	wetFolds = quantity.Range[float64]{Low: 0.03, Likely: 0.1, High: 0.3}
	dryFolds = quantity.Range[float64]{Low: 0.5, Likely: 1, High: 2}
)

const (
	// usualDip is how long goods are in at a dip, and the vat open: minutes. C
	usualDip = 5.0
	// dryFirst is the part of the dips that are a dry piece's first, of four. M
	dryFirst = 0.25
	// soaking is the °C of the water in which goods are wetted out, unless the vat is colder. C
	soaking = quantity.Temperature(20)
)

// surfacePart is the loss an hour at the surface, of which so much of the time is spent open and the rest at quiet.
func (k reducerKind) surfacePart(a quantity.Area, q Quiet, open float64) Part {
	through := open + (1-open)*q.letsThrough()
	// grams of dithionite → moles of oxygen → grams of this reducer; the estimate is for warm vats as they are
	d, equal := reducerKinds[recipe.Dithionite], 1.0
	if k.mass != d.mass {
		equal = float64(k.mass) * k.perOxygen.Likely / (float64(d.mass) * d.perOxygen.Likely)
	}
	p := Part{ID: "surface", Name: "air at the surface",
		Grams: quantity.Map(quietSurface, func(g float64) quantity.Mass {
			return quantity.Grams(g * a.SquareMetres() * through * equal)
		}),
		Why: "an open warm surface takes 1 to 8 g of dithionite a m² and hour, an estimate"}
	p.Why += wording.If(q != Open, "; a lid lets about three tenths of that through, a floating sheet a tenth, from memory")
	return p
}

// workParts are the losses of an hour of work in a vat that holds so much free reducer. What goods carry out is reckoned
// at half of what is free now, the mean while it runs down to nothing.
func (b Budget) workParts(k reducerKind, free quantity.Range[quantity.Mass]) []Part {
	return b.parts(k, free, b.Work.or(b.Fill), dryFirst, 0.5)
}

// Dip is what one dip of goods costs a vat that holds so much reducer: air with the goods, and what they carry out at the
// strength that the liquor has now. Dry goods carry their air in at their first dip. The surface is not in it, as it loses
// all the time. Errors are those of Reserve.
func (b Budget) Dip(l Left, dry quantity.Mass, dryGoods bool) (quantity.Range[quantity.Mass], error) {
	return b.act(l, Work{Dry: dry, DipsPerHour: 1, DryGoods: dryGoods})
}

// Stir is what one slow stir of a minute or two costs.
func (b Budget) Stir(l Left) (quantity.Range[quantity.Mass], error) {
	return b.act(l, Work{StirsPerHour: 1})
}

// act is the cost of an hour with that one act in it, without what the surface takes in any case.
func (b Budget) act(l Left, w Work) (quantity.Range[quantity.Mass], error) {
	sub, err := b.check()
	if err != nil {
		return quantity.Range[quantity.Mass]{}, err
	}
	parts := b.parts(reducerKinds[sub], l.tidy().Free, w.or(b.Fill), 1, 1)
	return together(partsOf(parts[1:], b.factor())), nil
}

// parts are the losses of an hour, the surface first. Of dry goods dryPart of the dips go in dry; the liquor that goods
// carry out holds carried times what is free in the vat.
func (b Budget) parts(k reducerKind, free quantity.Range[quantity.Mass], w Work, dryPart, carried float64) []Part {
	kg := w.Dry.Kilograms() * w.DipsPerHour // dipped in an hour
	pick := quantity.Map(fibre.Unknown.Facts().PickUp.Value, quantity.Ratio.GramsPerGram)
	air := func(litres quantity.Range[float64], of float64) quantity.Range[quantity.Mass] {
		return k.grams(scaled(times(litres, airTaken), of*airOxygen))
	}
	parts := []Part{k.surfacePart(b.Surface, b.Quiet, math.Min(1, w.DipsPerHour*usualDip/60))}
	parts = append(parts,
		Part{ID: "stirring", Name: "stirring", Grams: air(stirAir, b.Surface.SquareMetres()*w.StirsPerHour),
			Why: "each slow stir draws in about 1.5 L of air a m², half of which escapes, from memory"},
		Part{ID: "lifting", Name: "moving and lifting the goods", Grams: air(liftAir, kg),
			Why: "about 0.2 L of air a kilogram and dip, half of which escapes, from memory"})

	wet, dry := kg, 0.0
	if w.DryGoods {
		wet, dry = kg*(1-dryPart), kg*dryPart
	}
	oxygen, _ := Oxygen(max(min(soaking, b.Temp), 0), b.Pressure) // checked before
	inWater := scaled(pick, wet*oxygen.GramsPerLitre()/float64(MolarOxygen))
	parts = append(parts, Part{ID: "goods_water", Name: "air in the water of the goods", Grams: k.grams(inWater),
		Why: "goods hold 1 to 1.5 L of water a kilogram, common practice, with 9 mg/L of oxygen at 20 °C (Benson & Krause 1984)"})

	folds, why := air(wetFolds, wet), "about 0.1 L of air a kilogram of wet goods and dip, from memory"
	if w.DryGoods {
		d := air(dryFolds, dry)
		folds = quantity.Range[quantity.Mass]{Low: folds.Low + d.Low, Likely: folds.Likely + d.Likely, High: folds.High + d.High}
		why = "about 1 L of air a kilogram of dry goods, from memory, and a litre can spend 1.5 g of dithionite, calculated"
	}
	parts = append(parts, Part{ID: "goods_air", Name: "air in the folds of the goods", Grams: folds, Why: why})

	at := func(m quantity.Mass, pick float64) quantity.Mass {
		return m * quantity.Mass(min(pick*kg/b.Fill.Litres()*carried, 1))
	}
	out := quantity.Range[quantity.Mass]{Low: at(free.Low, pick.Low), Likely: at(free.Likely, pick.Likely), High: at(free.High, pick.High)}
	return append(parts, Part{ID: "carried_out", Name: "liquor carried out in the goods", Grams: out,
		Why: "goods lift 1 to 1.5 L of liquor a kilogram at each dip, common practice, and the air uses up the reducer in it"})
}

// partsOf fills in each part's share of the likely loss, and speeds all of them by the dyer's own factor.
func partsOf(parts []Part, factor float64) []Part {
	sum := wording.Sum(parts, func(p Part) quantity.Mass { return p.Grams.Likely })
	for i := range parts {
		if sum > 0 {
			parts[i].Share = quantity.Share(parts[i].Grams.Likely / sum)
		}
		parts[i].Grams = scaled(parts[i].Grams, factor)
	}
	return parts
}

// Left is the pure reducer that a vat still holds, moved along by losses, doses and what was seen. More time never
// leaves more in it, a dose never less, a longer strip never less.
type Left struct {
	Free    quantity.Range[quantity.Mass]
	Reducer recipe.Substance // "": dithionite
}

// Left is where the running down begins.
func (r Reserve) Left() Left { return Left{r.Free, r.Reducer} }

// tidy holds a range to what can be: no number as nothing, never below 0, in its order.
func (l Left) tidy() Left {
	f := &l.Free
	f.Low = quantity.Mass(notBelowZero(float64(f.Low)))
	f.Likely = max(f.Low, quantity.Mass(notBelowZero(float64(f.Likely))))
	f.High = max(f.Likely, quantity.Mass(notBelowZero(float64(f.High))))
	return l
}

// Spend takes off what was spent at once, such as by a stir beyond the usual. Nothing falls below 0.
func (l Left) Spend(m quantity.Range[quantity.Mass]) Left {
	l, m = l.tidy(), Left{Free: m}.tidy().Free
	l.Free = quantity.Range[quantity.Mass]{
		Low: max(0, l.Free.Low-m.High), Likely: max(0, l.Free.Likely-m.Likely), High: max(0, l.Free.High-m.Low),
	}
	return l
}

// Add puts in a dose of powder of a strength; the zero strength is the whole.
func (l Left) Add(m quantity.Mass, strength quantity.Range[quantity.Share]) Left {
	l = l.tidy()
	m = quantity.Mass(notBelowZero(float64(m)))
	if strength == (quantity.Range[quantity.Share]{}) {
		strength = quantity.Exactly(quantity.Share(1))
	}
	s := quantity.Map(strength, func(v quantity.Share) quantity.Mass {
		return min(quantity.Mass(notBelowZero(v.Fraction())), 1) * m
	})
	l.Free.Low += s.Low
	l.Free.Likely += s.Likely
	l.Free.High += s.High
	return l.tidy()
}

// stripBands are what a strip that stayed yellow so long allows: free reducer as dithionite, g/L, straight lines between.
// Below 15 s weak, about 45 s good, above 3 min over-reduced (S1 has the 45 s and the effect, the rest M); what that is
// in g/L is a judgement, M.
var stripBands = []struct{ seconds, low, high float64 }{
	{0, 0, 0.05}, {15, 0, 0.15}, {45, 0.1, 3}, {180, 0.5, 6},
}

// leastBand is the narrowest that a strip can claim, g/L of dithionite. M
const leastBand = 0.05

// Strip re-anchors what is left by a strip test in a vat of this fill: what was reckoned is brought within what the strip
// allows. Where the two do not meet, the strip is right. It never narrows to a single figure what was not one before.
func (l Left) Strip(stayed quantity.Span, fill quantity.Volume) Left {
	l = l.tidy()
	k, known := reducerKinds[cmp.Or(l.Reducer, recipe.Dithionite)]
	if v := notBelowZero(fill.Litres()); !known || v == 0 {
		return l
	}
	low, high := stripBand(stayed.Seconds())
	perGram := float64(k.mass) * k.perIndigo / float64(MolarDithionite) * fill.Litres()
	bottom, top, w := quantity.Mass(low*perGram), quantity.Mass(high*perGram), quantity.Mass(leastBand*perGram)
	f := &l.Free
	f.Low = min(max(f.Low, bottom), max(bottom, top-w))
	f.High = max(min(f.High, top), bottom+w)
	f.Likely = min(max(f.Likely, f.Low), f.High)
	return l
}

// stripBand is the lowest and the highest at so many seconds; beyond three minutes nothing bounds it above.
func stripBand(s float64) (low, high float64) {
	last := stripBands[0]
	if !(s > last.seconds) {
		return last.low, last.high
	}
	for _, b := range stripBands[1:] {
		if s <= b.seconds {
			u := (s - last.seconds) / (b.seconds - last.seconds)
			return last.low + u*(b.low-last.low), last.high + u*(b.high-last.high)
		}
		last = b
	}
	return last.low, math.Inf(1)
}

// Episode is a stretch between two good strips: what was reckoned lost in it, likely and at a factor of 1, and what pure
// reducer had to be added.
type Episode struct{ Reckoned, Added quantity.Mass }

// FitFactor is how much faster than reckoned a vat loses its reducer, by the dyer's own top-ups: the mean of the ratios,
// as ratios go, each held to 0.3–3, and drawn to 1 as by two episodes that came out as reckoned. Episodes with nothing
// reckoned are passed over; without any it is 1.
func FitFactor(doses []Episode) float64 {
	var sum, n float64
	for _, e := range doses {
		if !(e.Reckoned > 0) || math.IsInf(float64(e.Reckoned), 0) || !(e.Added >= 0) {
			continue
		}
		sum += math.Log(min(max(float64(e.Added)/float64(e.Reckoned), slowestFactor), fastestFactor))
		n++
	}
	return min(max(math.Exp(sum/(n+2)), slowestFactor), fastestFactor)
}
