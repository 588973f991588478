package liquor

import (
	"math"

	"example.org/vatside/model/quantity"
)

// The widths of PHRange. Each is about two standard deviations.
const (
	// widthModel is what activities, constants and a meter's own scale leave open in a thin liquor, widthStrength by how
	// much more for each mol/kg of ionic strength: the tables agree within 0.05, published models differ by 0.05 at
	// 30 g/L of soda ash. widthMost is where that ends.
	widthModel    = 0.03
	widthStrength = 0.06
	widthMost     = 0.30
	// widthWarm is added for each kelvin above 50 °C, where no table was checked.
	widthWarm = 0.002
	// widthLime is added where there is lime: how far it dissolves goes with its grain and age, and sugar binds it.
	widthLime = 0.07
	// alkaliShort and alkaliOver: alkali that was damp or had begun to turn to bicarbonate or chalk in the tin, and the
	// weighing. acidOff: what was spent, and the purity of the reducer.
	alkaliShort = 0.95
	alkaliOver  = 1.03
	acidOff     = 0.10
	// carbonic is carbonic acid, or the bicarbonate of a hard water whose lime falls out as chalk, which comes to the
	// same, in mol/L: 0.5 mmol/L of hardness and as much from the air in a day or two. Softer water has less, very hard
	// water has up to three times as much. On the high side it is the same water's bicarbonate.
	carbonic = 0.001
)

// PHRange is the pH of a liquor with its honest width, within which it lies 19 times in 20 if the make-up is right: Likely
// is PH. The width is made of the activity model, of powders that are not what they were and of weighing, of the water's
// own hardness and of carbonic acid from the air, each reckoned through the solver and added as squares. It is about
// −0.12 to +0.04 for a fresh soda liquor, since air, hard water and old alkali all draw pH down; less where spent reducer
// has made a buffer; more where there is little alkali or much salt. For a liquor that was not built by weight, or has
// stood long, it is too narrow: read, and Reanchor.
//
// It refuses what PH refuses.
func PHRange(m Makeup, t quantity.Temperature) (quantity.Range[quantity.PH], error) {
	if err := m.check(t); err != nil {
		return quantity.Range[quantity.PH]{}, err
	}
	at := constantsAt(t)
	s := m.solveAt(&at, usual)
	model := math.Min(widthModel+widthStrength*s.strength, widthMost) + widthWarm*math.Max(t.Celsius()-50, 0)
	if m.Lime > 0 {
		model += widthLime
	}
	weak, strong := m.scaled(alkaliShort, 1+acidOff).solveAt(&at, s).pH, m.scaled(alkaliOver, 1-acidOff).solveAt(&at, s).pH
	x := m.totals(at.density)
	added := carbonic / at.density
	x.carbonate += added
	aired := x.solve(&at, s).pH
	x.na += added
	hard := x.solve(&at, s).pH

	// How far the others lie below s (way 1) or above it (way -1); what lies on the other side is nothing.
	off := func(way float64, others ...float64) float64 {
		sum := 0.0
		for _, o := range others {
			d := math.Max(way*(s.pH-o), 0)
			sum += d * d
		}
		return sum
	}
	return quantity.Range[quantity.PH]{
		Low:    quantity.PH(s.pH - math.Sqrt(model*model+off(1, weak, aired))),
		Likely: quantity.PH(s.pH),
		High:   quantity.PH(s.pH + math.Sqrt(model*model+off(-1, strong, hard))),
	}, nil
}

// scaled is the liquor with its alkalis and its acids multiplied. Baking soda is left: it is either.
func (m Makeup) scaled(alkali, acid float64) Makeup {
	a, b := quantity.Concentration(alkali), quantity.Molarity(acid)
	m.SodaAsh, m.Potash, m.Lye, m.Lime = m.SodaAsh*a, m.Potash*a, m.Lye*a, m.Lime*a
	m.Spent, m.SpentThiourea, m.OnIndigo, m.Bisulfite = m.Spent*b, m.SpentThiourea*b, m.OnIndigo*b, m.Bisulfite*b
	if m.Acid > 0 {
		m.Acid *= b
	}
	return m
}

// The standard deviation of one reading, for Reanchor: half of what it is usually said to be good to.
const (
	StripError = 0.25 // paper strip: ±0.5
	MeterError = 0.05 // meter, set with buffers that day: ±0.1
)

// ReadError is the standard deviation of a reading of pH by what it was read with: "meter", else paper.
func ReadError(with string) float64 {
	if with == "meter" {
		return MeterError
	}
	return StripError
}

// The bounds of Reanchor.
const (
	// mostCorrection is the most strong acid or alkali, in mmol/L, that a reading may put into a liquor: 16 g/L of lye.
	mostCorrection = 400.0
	// mostDoubt is the most by which that may be off either way: where lime holds the pH, a reading says next to nothing
	// of it.
	mostDoubt = 25.0
	// changeError is the standard deviation of a change of pH that is reckoned from the anchor, as a part of it.
	changeError = 0.1
)

// Anchored is a liquor moved to a reading: strong acid (or alkali) was added in thought until the reckoned pH is a
// compromise with what was read. Later pH follows from the same chemistry (see PHRange of it).
type Anchored struct {
	Makeup     Makeup            // at the reading, its Acid corrected
	Correction quantity.Molarity // what was added to Acid; below zero it is alkali
	PH         quantity.PH       // the compromise, at the °C of the reading
	Error      float64           // its standard deviation

	// How much more acid, and how much less, the compromise less or plus twice its error would need.
	more, less quantity.Molarity
}

// Reanchor moves a liquor's reckoned pH to a reading: read is the pH, at the °C that the liquor had when it was read, sd the
// reading's standard deviation (StripError, MeterError, or what the dyer knows of the instrument), above 0 up to 2.
//
// The compromise is the mean of both, weighted by 1/sd². The reckoned pH's sd is half of PHRange's width on the side of the
// reading; where the reading lies further off than both explain, it is widened until it does (the sd that makes such a
// difference likeliest, √(difference² − sd²)), so that a plain contradiction is decided by the reading: a vat that was
// kept for weeks is not what was weighed. A strip that differs by less than its own error hardly moves anything.
//
// The correction is strong acid in mmol/L, as if an acid had got in, or (below zero) as if there were more lye; at most
// 400 either way. It cannot tell an acid from carbonic acid of the air or from powder that was weak; where pH later moves
// far, that makes a difference, which the width grows by. Where the compromise is out of reach, PH is the nearest that is
// in reach.
//
// It refuses, with a *PHError, what PH refuses, a reading outside 0 to 14, and an sd that is not above 0 up to 2.
func Reanchor(m Makeup, read quantity.PH, at quantity.Temperature, sd float64) (Anchored, error) {
	reckoned, err := PHRange(m, at)
	if err != nil {
		return Anchored{}, err
	}
	if !(read >= 0 && read <= 14) {
		return Anchored{}, refuse("a pH that is read lies between 0 and 14, not at %g", float64(read))
	}
	if !(sd > 0 && sd <= 2) {
		return Anchored{}, refuse("the error of a reading is above 0 up to 2, not %g", sd)
	}
	off := float64(read - reckoned.Likely)
	own := float64(reckoned.High-reckoned.Likely) / 2
	if off < 0 {
		own = float64(reckoned.Likely-reckoned.Low) / 2
	}
	variance := math.Max(own*own, off*off-sd*sd)
	mean := float64(reckoned.Likely) + off*variance/(variance+sd*sd)
	a := Anchored{Error: math.Sqrt(variance * sd * sd / (variance + sd*sd))}

	added := m.acidFor(mean, at, 0)
	a.Correction = quantity.Molarity(added)
	a.more = quantity.Molarity(math.Min(m.acidFor(mean-2*a.Error, at, added)-added, mostDoubt))
	a.less = quantity.Molarity(math.Min(added-m.acidFor(mean+2*a.Error, at, added), mostDoubt))
	a.Makeup = a.corrected(m, 0)
	a.PH = quantity.PH(a.Makeup.solve(at).pH)
	return a, nil
}

// acidFor is the strong acid in mmol/L that brings a liquor to a pH, or the nearest that is allowed.
func (m Makeup) acidFor(pH float64, t quantity.Temperature, guess float64) float64 {
	k, near := constantsAt(t), usual
	return search(-mostCorrection, mostCorrection, guess, 1e-7, true, func(added float64) (value, slope float64) {
		with := m
		with.Acid += quantity.Molarity(added)
		near = with.solveAt(&k, near)
		return pH - near.pH, 1
	})
}

// molarCitric is citric acid without water, C6H8O7, and citricGives the acids in a molecule, all given up above pH 8 (pKa 3.1,
// 4.8 and 6.4, from memory).
const (
	molarCitric = 192.12 // g/mol
	citricGives = 3
)

// CitricTo is the citric acid, without water, that brings a liquor down to a pH above 7.5; 0 where it stands lower already.
// It refuses, with a *PHError, what PH refuses.
func (m Makeup) CitricTo(to quantity.PH, t quantity.Temperature) (quantity.Concentration, error) {
	if err := m.check(t); err != nil {
		return 0, err
	}
	milli := max(0, m.acidFor(float64(to), t, 0))
	return quantity.Concentration(milli * molarCitric / citricGives / 1000), nil
}

// corrected is a liquor with the correction and more in its Acid, within what PH takes.
func (a Anchored) corrected(m Makeup, more quantity.Molarity) Makeup {
	m.Acid = min(max(m.Acid+a.Correction+more, -MostMolar), MostMolar)
	return m
}

// PHRange is the pH later: reckoned is the liquor's make-up as it is reckoned then, without any correction (the same as
// given to Reanchor, with what was added and spent since), t its °C. Likely is its pH with the correction. The width is
// the anchor's own error carried over as acid or alkali, so that it narrows where the liquor buffers and widens where it
// does not, and a tenth of the change in pH since the reading; about two standard deviations.
//
// It refuses what PH refuses.
func (a Anchored) PHRange(reckoned Makeup, t quantity.Temperature) (quantity.Range[quantity.PH], error) {
	if err := reckoned.check(t); err != nil {
		return quantity.Range[quantity.PH]{}, err
	}
	k := constantsAt(t)
	is := a.corrected(reckoned, 0).solveAt(&k, usual)
	likely, low, high := is.pH, a.corrected(reckoned, a.more).solveAt(&k, is).pH, a.corrected(reckoned, -a.less).solveAt(&k, is).pH
	change := 2 * changeError * (likely - float64(a.PH))
	return quantity.Range[quantity.PH]{
		Low:    quantity.PH(likely - math.Hypot(math.Max(likely-low, 0), change)),
		Likely: quantity.PH(likely),
		High:   quantity.PH(likely + math.Hypot(math.Max(high-likely, 0), change)),
	}, nil
}
