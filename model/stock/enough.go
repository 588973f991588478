package stock

import (
	"time"

	"example.org/vatside/model/liquor"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
)

// Wish is a vat that is to be built.
type Wish struct {
	Recipe  recipe.Recipe
	Fill    quantity.Volume
	Options recipe.Options
}

// Need is one powder of a wished vat: what it takes, what of that the shelf has, and what is short. Needed is There plus
// Short. All are in grams of the powder as the recipe weighs it: a weaker indigo, or a reducer that the dyer's own test
// found weaker, counts for less than it weighs, and an opened reducer without such a test for the least that its age leaves.
type Need struct {
	Powder recipe.Powder
	Needed quantity.Mass
	There  quantity.Mass
	Short  quantity.Mass
	From   []string // the tins that it comes out of
	Listed bool     // a tin of this powder is or was on the list: the dyer keeps account of it
	Test   []string // it is short only if these tins are as weak as their age allows; a test decides
	Stead  *Stead   // what could stand in for what is short; nil: nothing on the shelf
}

// Stead is another form of a powder that is short: never counted, for the dyer decides.
type Stead struct {
	Tin      string
	Material string
	Needed   quantity.Mass // of it, for all that is short
	There    quantity.Mass
}

// Enough tells whether the shelf is enough. A weighing of half a gram decides nothing.
func (n Need) Enough() bool { return n.Short < half }

// Perhaps tells that the shelf may be enough all the same: the tins in Test are to be tested.
func (n Need) Perhaps() bool { return len(n.Test) > 0 }

// half is below what a kitchen scale shows. C
const half = quantity.Mass(0.5)

// Purchase is a powder to buy.
type Purchase struct {
	Material string
	Mass     quantity.Mass
}

// Enough is what a vat takes of each powder in the recipe's order, and what the tins have of it: opened ones first, oldest
// first, then sealed ones. now is for the age of reducers. The error is recipe.Scale's.
func Enough(r recipe.Recipe, fill quantity.Volume, opt recipe.Options, tins []TinBalance, now time.Time) ([]Need, error) {
	needs, _, err := Buy([]Wish{{r, fill, opt}}, tins, now)
	if err != nil {
		return nil, err
	}
	return needs[0], nil
}

// Buy is Enough for several vats, the first of them served first, and what to buy for all of them together: not what a
// test may show to be there.
func Buy(wishes []Wish, tins []TinBalance, now time.Time) (needs [][]Need, buy []Purchase, err error) {
	s := shelf{tins: tins, left: make([]quantity.Mass, len(tins)), now: now}
	for i, t := range tins {
		s.left[i] = t.Left
	}
	for _, w := range wishes {
		am, err := recipe.Scale(w.Recipe, w.Fill, w.Options)
		if err != nil {
			return nil, nil, err
		}
		var of []Need
		for _, a := range am.Powders {
			n := s.take(a, w.strength(a.Powder))
			of = append(of, n)
			if !n.Enough() && !n.Perhaps() {
				buy = wanted(buy, n)
			}
		}
		needs = append(needs, of)
	}
	return needs, buy, nil
}

// wanted adds what is short to what is to be bought.
func wanted(buy []Purchase, n Need) []Purchase {
	for i, b := range buy {
		t := Tin{Material: b.Material, Substance: substanceOf(b.Material), Form: formOf(b.Material)}
		if t.same(n.Powder.Material, n.Powder.Substance(), formOf(n.Powder.Material)) {
			buy[i].Mass += n.Short
			return buy
		}
	}
	return append(buy, Purchase{n.Powder.Material, n.Short})
}

// strength is the share that the grams of a powder are reckoned at.
func (w Wish) strength(p recipe.Powder) quantity.Share {
	if p.Role != recipe.Indigo {
		return 1
	}
	if s, ok := w.Options.Strength[p.ID]; ok {
		return s
	}
	if w.Options.IndigoStrength > 0 {
		return w.Options.IndigoStrength
	}
	return p.Strength
}

// shelf is the tins, and what of each is not promised yet.
type shelf struct {
	tins []TinBalance
	left []quantity.Mass
	now  time.Time
}

// take promises what a powder needs.
func (s shelf) take(a recipe.Amount, at quantity.Share) Need {
	n := Need{Powder: a.Powder, Needed: a.Grams}
	form := formOf(a.Powder.Material)
	if a.Powder.Role == recipe.Indigo && a.Powder.Form != "" {
		form = a.Powder.Form
	}
	var sealed, open []int
	for i, t := range s.tins {
		if !t.same(a.Powder.Material, a.Powder.Substance(), form) {
			continue
		}
		n.Listed = true
		switch t.Fitness() {
		case Sealed:
			sealed = append(sealed, i)
		case Open:
			at := len(open)
			for at > 0 && s.tins[open[at-1]].Opened.After(*t.Opened) {
				at--
			}
			open = append(open[:at], append([]int{i}, open[at:]...)...)
		}
	}
	atBest := quantity.Mass(0) // what would be there if no reducer had lost more than it must
	var faded []string
	for _, i := range append(open, sealed...) {
		own := s.tins[i].worth(s.now)
		least, most := 1.0, 1.0
		if own.Low > 0 && at > 0 {
			least, most = own.Low.Fraction()/at.Fraction(), own.High.Fraction()/at.Fraction()
		}
		if least < most && s.left[i] > 0 {
			faded = append(faded, s.tins[i].ID)
		}
		atBest += quantity.Mass(float64(s.left[i]) * most)
		m := min(quantity.Mass(float64(s.left[i])*least), n.Needed-n.There)
		if m <= 0 {
			continue
		}
		s.left[i] = max(0, s.left[i]-quantity.Mass(float64(m)/least))
		n.There += m
		n.From = append(n.From, s.tins[i].ID)
	}
	n.Short = max(0, n.Needed-n.There)
	if !n.Enough() {
		if n.Needed-atBest < half {
			n.Test = faded
		}
		n.Stead = s.stead(a.Powder.Substance(), n.Short)
	}
	return n
}

// crystals is how much soda crystals, with their ten waters, hold what soda ash holds: 2.700 (K).
var crystals = float64(liquor.MolarSodaCrystals) / float64(liquor.MolarSodaAsh)

// stead is soda crystals for soda ash that is short, or ash for crystals: the tin with the most in it.
func (s shelf) stead(of recipe.Substance, short quantity.Mass) *Stead {
	other, times := recipe.SodaCrystals, crystals
	switch of {
	case recipe.SodaAsh:
	case recipe.SodaCrystals:
		other, times = recipe.SodaAsh, 1/crystals
	default:
		return nil
	}
	var best *Stead
	for i, t := range s.tins {
		if t.Substance == other && t.Usable() && s.left[i] >= half && (best == nil || s.left[i] > best.There) {
			best = &Stead{t.ID, t.Material, quantity.Mass(float64(short) * times), s.left[i]}
		}
	}
	return best
}
