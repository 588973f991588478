package liquor

import (
	"fmt"
	"math"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
)

// Free is the reducer that is left for the air, pure: as its book reckons it; else what the recipe weighs in and what was given today,
// less what water, indigo and, for its age, the air under a lid took, as far as the strip allows. Of a vat of no known age that is
// anything down to none. False for a family of which no budget can be made.
func (s State) Free() (quantity.Range[quantity.Mass], bool) {
	if s.Reducer != nil {
		return *s.Reducer, true
	}
	b := Budget{Recipe: s.Recipe, Fill: s.Fill, Temp: s.Warmth(), Surface: Squat(s.Fill), Quiet: Lidded}
	r, err := b.Reserve()
	if err != nil {
		return quantity.Range[quantity.Mass]{}, false
	}
	left := r.Left()
	for _, p := range s.Recipe.Powders {
		if _, known := reducerKinds[p.Substance()]; known && p.Role == recipe.Reducer {
			left = left.Add(s.GivenToday[p.ID], quantity.Exactly(orWhole(p.Strength)))
		}
	}
	hours := quantity.Mass(notBelowZero(s.Age.Hours()))
	left = left.Spend(quantity.Map(r.RestPerHour, func(m quantity.Mass) quantity.Mass { return m * hours }))
	if s.Age == 0 {
		left.Free.Low = 0
	}
	if s.Strip != nil {
		left = left.Strip(*s.Strip, s.Fill)
	}
	return left.Free, true
}

// JustBuilt is the age of a vat whose build is just over.
const JustBuilt = quantity.Span(1)

// Lasts is how long Free lasts in a vat that stands and is worked as a budget has it, with what the water and the indigo of its build take.
// Errors are those of Budget.Reserve.
func (s State) Lasts(b Budget) (Reserve, error) {
	fresh, err := b.Reserve()
	if err != nil {
		return Reserve{}, err
	}
	free, _ := s.Free()
	r, err := b.Holding(Left{Free: free, Reducer: fresh.Reducer})
	r.Dosed, r.Active, r.FillWater, r.Indigo = fresh.Dosed, fresh.Active, fresh.FillWater, fresh.Indigo
	return r, err
}

// BringsBack is the pure reducer that turns the oxidised indigo back, mole for mole or as its kind does; all 0 where none is known of.
func (s State) BringsBack() quantity.Range[quantity.Mass] {
	p, ok := Reducer(s.Recipe)
	k, known := reducerKinds[p.Substance()]
	if !ok || !known || s.Oxidised == nil {
		return quantity.Range[quantity.Mass]{}
	}
	each := per(k.perIndigo, k.mass, MolarIndigo)
	return quantity.Map(*s.Oxidised, func(m quantity.Mass) quantity.Mass { return each.Of(m) })
}

// Turned is the pure indigo that air has turned blue with the oxygen that so much pure reducer of a kind would have taken: what the
// air goes on to where none is left.
func Turned(sub recipe.Substance, beyond quantity.Mass) quantity.Mass {
	k, known := reducerKinds[sub]
	if !known {
		return 0
	}
	return beyond / quantity.Mass(per(k.perIndigo, k.mass, MolarIndigo))
}

// blueAgain says how much of the indigo is oxidised, and what brings it back; empty below leastBlue of what is in it.
func (s State) blueAgain() string {
	if s.Oxidised == nil || s.Oxidised.Likely < leastBlue*s.Holds().Likely {
		return ""
	}
	back := s.BringsBack()
	if back.Likely <= 0 {
		return ""
	}
	return fmt.Sprintf("by its book about %s of its indigo is blue again (%s to %s): %s of reducer bring it back", s.Oxidised.Likely.Format(s.System),
		s.Oxidised.Low.Format(s.System), s.Oxidised.High.Format(s.System), back.Likely.Format(s.System))
}

// leastBlue is the part of the indigo below which nobody speaks of it. M
const leastBlue = quantity.Mass(0.05)

// usedUp says that by its book, or by its recipe and its age, no reducer is left, whatever the width; empty where some may be.
func (s State) usedUp() string {
	free, ok := s.Free()
	if !ok || s.Strip != nil || free.High > 0 {
		return ""
	}
	return "by what was weighed in and what the air took since, its reducer is used up"
}

// sulfiteKept is the part of the sulfite that is likely still one: air turns it to sulfate, slowly; no rate was found. M
var sulfiteKept = quantity.Range[float64]{Low: 0.5, Likely: 1, High: 1}

// SulfiteOf is the sulfite of a recipe's liquor, by what of its reducer is spent. Of spent thiourea dioxide it is none, by air, up to
// all of it, on indigo (K); half of it is likely (M).
func SulfiteOf(r recipe.Recipe, m Makeup) quantity.Range[quantity.Molarity] {
	if r.Family == recipe.ThioureaDioxideSoda {
		all := m.Spent + m.SpentThiourea
		return quantity.Range[quantity.Molarity]{Likely: all / 2, High: all}
	}
	likely := m.Spent + 2*m.OnIndigo + m.Bisulfite
	return quantity.Map(sulfiteKept, func(part float64) quantity.Molarity { return likely * quantity.Molarity(part) })
}

// SpentSulfite is the sulfite in it: by its book; else what there is once all of its reducer is spent. No strip shows it. False where
// that cannot be reckoned.
func (s State) SpentSulfite() (quantity.Range[quantity.Molarity], bool) {
	if s.Sulfite != nil {
		return *s.Sulfite, true
	}
	m, ok := s.SpentOut()
	return SulfiteOf(s.Recipe, m), ok
}

// SulfiteWords say how much sulfite, which no strip shows, is in it, as sodium sulfite: "43 g to 87 g"; empty where none is.
func (s State) SulfiteWords() string {
	r, ok := s.SpentSulfite()
	grams := func(m quantity.Molarity) quantity.Mass {
		return quantity.Grams(m.MillimolesPerLitre() / 1000 * MolarSulfite.GramsPerMole() * notBelowZero(s.Fill.Litres()))
	}
	if !ok || !(r.High > 0) || s.Fill == 0 {
		return ""
	}
	if low, high := quantity.TwoFigures(grams(r.Low)), quantity.TwoFigures(grams(r.High)); low < high {
		return fmt.Sprintf("%s to %s", low.Format(s.System), high.Format(s.System))
	}
	return "about " + quantity.TwoFigures(grams(r.Likely)).Format(s.System)
}

// SpentOut is the liquor with all of its reducer spent: that of its build, of earlier days and of today, so far as anybody told of it,
// and the acid that readings told of. False where that cannot be reckoned.
func (s State) SpentOut() (Makeup, bool) { return s.spentTo(1) }

func (s State) spentTo(share quantity.Share) (Makeup, bool) {
	m, err := OfRecipe(s.Recipe, share)
	if err != nil || s.Fill == 0 {
		return m, false
	}
	m.Acid += s.Acid
	m.Spent = max(m.Spent, s.Spent)
	for _, p := range s.Recipe.Powders {
		k, known := reducerKinds[p.Substance()]
		given := s.GivenToday[p.ID].Per(s.Fill)
		if p.Role == recipe.Reducer && known && p.SulfurReducer() {
			g := orWhole(p.Strength).Fraction() * notBelowZero(given.GramsPerLitre())
			m.Spent += quantity.MillimolesPerLitre(g / k.mass.GramsPerMole() * 1000) // thiourea dioxide takes as much alkali, mole for mole
		}
	}
	return m, true
}

// Oxidising is so much pure reducer as what it is when air has oxidised it, in a litre of a fill. Thiourea dioxide takes as much alkali
// as dithionite; what others do changes no pH so, and makes no sulfite. An empty kind is dithionite.
func Oxidising(sub recipe.Substance, m quantity.Mass, fill quantity.Volume) quantity.Molarity {
	mass := MolarDithionite
	switch sub {
	case recipe.Dithionite, "":
	case recipe.ThioureaDioxide:
		mass = MolarThioureaDioxide
	default:
		return 0
	}
	if !(fill > 0) {
		return 0
	}
	return quantity.MillimolesPerLitre(m.Grams() / mass.GramsPerMole() * 1000 / fill.Litres())
}

// Citric is the citric acid, without water, for a litre of the vat's liquor with so much of its reducer spent and clear of its sediment,
// at 20 °C: from the pH that was read, else from what is reckoned, down to a pH above 7.5. Its sulfite takes its part.
func (s State) Citric(to quantity.PH, spent quantity.Share) (quantity.Concentration, bool) {
	m, ok := s.spentTo(spent)
	if !ok {
		return 0, false
	}
	m.Lime = min(m.Lime, limeInClear)
	if s.PH != nil {
		read, err := Reanchor(m, *s.PH, endAt, MeterError)
		if err != nil {
			return 0, false
		}
		m = read.Makeup
	}
	each, err := m.CitricTo(to, endAt)
	return each, err == nil
}

// The liquor that is drawn off at a vat's end: its °C, and the lime that clear liquor holds at most. From memory.
const (
	endAt       = quantity.Temperature(20)
	limeInClear = quantity.Concentration(1.7)
)

// ThermometerError is by how much a reading of °C may be off, either way: a kitchen's or a dyer's thermometer. C
const ThermometerError = 1.0

// Squat is the surface of a vessel that was not measured, as if it were as wide as its liquor is deep: π r² with 2 π r³ the fill.
func Squat(fill quantity.Volume) quantity.Area {
	r := math.Cbrt(notBelowZero(fill.Litres()) / 1000 / (2 * math.Pi))
	return quantity.SquareMetres(math.Pi * r * r)
}
