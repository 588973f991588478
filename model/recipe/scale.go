package recipe

import (
	"cmp"
	"fmt"
	"math"
	"strings"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/wording"
)

// The fills that can be reckoned: from a tea glass for a trial to a tank.
const (
	fillLeast = quantity.Volume(0.1)
	fillMost  = quantity.Volume(10000)
)

// jarMost is the most water that is shaken in one jar; above it the paste is split over jars. Common practice.
const jarMost = quantity.Volume(0.7)

// jugWater is the water of a dissolve step that names none: ten times the weight of the powder. Common practice.
const jugWater = quantity.Wetting(10)

// strengthLeast is the weakest indigo that is reckoned with: below it the powder is mostly something else.
const strengthLeast = quantity.Share(0.02)

// Options are what the dyer's own powders change. The zero value takes the recipe's.
type Options struct {
	IndigoStrength quantity.Share            // of every indigo; 0: the recipe's own
	Strength       map[string]quantity.Share // the same by powder id, before IndigoStrength
	IndigoForm     Form                      // what the dyer has; "": the recipe's own
}

// Amounts is what goes into one fill.
type Amounts struct {
	Fill        quantity.Volume
	Powders     []Amount // in the recipe's order
	StockVolume quantity.Volume
	StockWater  quantity.Volume // what the stock jar is filled with, less its own wetting and dissolving waters
	FillWater   quantity.Volume // what is poured from the tap: the fill less jar, rinse, jug, pot and stock
	Cautions    []string
}

// Amount is one powder, weighed, with the waters that go with it.
type Amount struct {
	Powder   Powder
	Grams    quantity.Mass
	Hydrate  quantity.Volume // to wet it
	Rinse    quantity.Volume // to rinse its jars, into the vat
	Dissolve quantity.Volume // in the jug or pot of its dissolve and simmer steps
	Jars     int             // to wet it in; 0 if it goes in dry
}

// Of is the amount of one powder.
func (a Amounts) Of(id string) (Amount, bool) {
	return wording.First(a.Powders, func(m Amount) bool { return m.Powder.ID == id })
}

// PerLitre is a powder's dose for each litre of the whole liquor at the recipe's own strength, also where the recipe
// gives it for each gram of another powder.
func (r Recipe) PerLitre(p Powder) quantity.Concentration {
	if p.PerOther == 0 {
		return p.Dose
	}
	other, _ := r.Powder(p.Of)
	return quantity.Concentration(float64(p.PerOther) * float64(other.Dose))
}

// Scale gives the amounts for a fill. Of another strength only the grams of indigo change, dose × strength / its own,
// so that the pure indigo in each litre stays; reducer, alkali and food stay too, also those reckoned from the indigo.
//
// It refuses, in one sentence, a fill outside 0.1 to 10,000 L, a strength outside 2 to 100 %, a strength for what is
// not indigo, an id that the recipe does not have, indigo of the other form, and indigo so weak that wetting it takes
// more water than the vat holds.
func Scale(r Recipe, fill quantity.Volume, opt Options) (Amounts, error) {
	if err := cmp.Or(checkFill(fill), opt.check(r)); err != nil {
		return Amounts{}, err
	}
	a := Amounts{Fill: fill, FillWater: fill}
	if r.Stock != nil {
		a.StockVolume = quantity.Volume(float64(fill) * float64(r.Stock.PerLitre))
		a.StockWater = a.StockVolume
		a.FillWater -= a.StockVolume
	}
	for _, p := range r.Powders {
		m := r.amount(p, fill, opt)
		if water := m.Hydrate + m.Rinse + m.Dissolve; p.Into == IntoStock {
			a.StockWater -= water
		} else {
			a.FillWater -= water
		}
		a.Powders = append(a.Powders, m)
	}
	least := quantity.Volume(float64(fill) * (1 - watersMost))
	switch {
	case a.StockWater < 0:
		return Amounts{}, fmt.Errorf("the water to wet and dissolve the powders of the stock is more than the %.3g L of stock: take stronger indigo, or less water for each gram", a.StockVolume.Litres())
	case a.FillWater < least:
		return Amounts{}, fmt.Errorf("the water to wet, rinse and dissolve the powders is most of the %.3g L fill: take stronger indigo, or less water for each gram", fill.Litres())
	}
	a.Cautions = Cautions(r, a)
	return a, nil
}

func (r Recipe) amount(p Powder, fill quantity.Volume, opt Options) Amount {
	m := Amount{Powder: p, Grams: quantity.Mass(float64(r.PerLitre(p).Of(fill)) * opt.factor(p))}
	if p.Hydrate > 0 {
		m.Hydrate = p.Hydrate.Of(m.Grams)
		m.Rinse = p.Rinse.Of(m.Grams)
		m.Jars = max(1, int(math.Ceil(float64(m.Hydrate/jarMost)-1e-9)))
	}
	for _, s := range r.Steps {
		if s.Powder != p.ID || s.Do != Dissolve && s.Do != Simmer {
			continue
		}
		water := wording.Either(s.Water == 0 && s.Do == Dissolve, jugWater, s.Water)
		m.Dissolve += water.Of(s.Part.Of(m.Grams))
	}
	return m
}

// factor is what the grams of a powder are multiplied by for the strength that the dyer has.
func (o Options) factor(p Powder) float64 {
	if p.Role != Indigo {
		return 1
	}
	if s, ok := o.Strength[p.ID]; ok {
		return float64(p.Strength / s)
	}
	if o.IndigoStrength != 0 {
		return float64(p.Strength / o.IndigoStrength)
	}
	return 1
}

func (o Options) check(r Recipe) error {
	if o.IndigoStrength != 0 {
		if err := checkStrength("indigo", o.IndigoStrength); err != nil {
			return err
		}
	}
	for _, id := range sortedKeys(o.Strength) {
		p, ok := r.Powder(id)
		switch {
		case !ok:
			return r.unknownPowder(id)
		case p.Role != Indigo:
			return fmt.Errorf("only indigo is weighed by its strength, and %q of recipe %q is %s: leave its strength out", id, r.ID, p.Role)
		}
		if err := checkStrength(id, o.Strength[id]); err != nil {
			return err
		}
	}
	other := func(p Powder) bool { return p.Role == Indigo && p.Form != o.IndigoForm }
	if p, is := wording.First(r.Powders, other); is && o.IndigoForm != "" {
		return wrongForm(r, p.Form, o.IndigoForm)
	}
	return nil
}

// wrongForm names the built-in recipes that fit the indigo at hand.
func wrongForm(r Recipe, want, have Form) error {
	fits := `take "lye", "thiourea", "sugar-lime", "iron-lime" or "madder-bran"`
	if have == PreReduced {
		fits = `take "soda", or "mild-soda" for wool and silk`
	}
	return fmt.Errorf("recipe %q is for %s indigo, and %s indigo never stands in for it: %s", r.ID, want, have, fits)
}

// checkStrength refuses a strength that no indigo has.
func checkStrength(id string, s quantity.Share) error {
	if !(s >= strengthLeast && s <= 1) {
		return fmt.Errorf("%s of %.4g %% strength cannot be weighed: the active share is between 2 %% and 100 %%", id, s.Percent())
	}
	return nil
}

// checkFill refuses a fill that is no vat.
func checkFill(v quantity.Volume) error {
	switch f := float64(v); {
	case math.IsNaN(f) || math.IsInf(f, 0):
		return fmt.Errorf("the fill is not a number of litres")
	case f <= 0:
		return fmt.Errorf("a fill of %.4g L is no vat: it must be above zero", f)
	case v < fillLeast || v > fillMost:
		return fmt.Errorf("a fill of %.4g L is no vat: it must be between 0.1 L and 10,000 L", f)
	}
	return nil
}

func (r Recipe) unknownPowder(id string) error {
	return fmt.Errorf("recipe %q has no powder %q: it has %s", r.ID, id, strings.Join(powderIDs(r.Powders), ", "))
}
