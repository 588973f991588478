package liquor

import (
	"math"
	"strings"
	"testing"

	"example.org/vatside/model/quantity"
)

func around[T ~float64](low, likely, high T) *quantity.Range[T] {
	return &quantity.Range[T]{Low: low, Likely: likely, High: high}
}

// What was weighed in, less the fill's air and the indigo: 120 g of dithionite in 60 L leave about 113 g; a day under the lid less; a
// dose more; and no more than the strip allows (0.05 g/L where it is blue at once). The book's own goes before.
func TestFreeReducer(t *testing.T) {
	n := vat(t, "soda")
	n.Strip, n.Age = nil, quantity.Minutes(1)
	fresh, ok := n.Free()
	if !ok || math.Abs(fresh.Likely.Grams()-113) > 5 || !fresh.Valid() {
		t.Errorf("fresh it holds %v, %v", fresh, ok)
	}
	n.Age = quantity.Hours(24)
	day, _ := n.Free()
	if !(day.Likely < fresh.Likely) || !(day.Low < fresh.Low) {
		t.Errorf("after a day %v of %v", day, fresh)
	}
	n.GivenToday = map[string]quantity.Mass{"reducer": 30}
	if more, _ := n.Free(); math.Abs((more.Likely-day.Likely).Grams()-30) > 0.1 {
		t.Errorf("30 g more make %v of %v", more, day)
	}
	n.Strip = at(quantity.Seconds(0))
	if weak, _ := n.Free(); weak.High.Grams() > 0.05*60+0.01 {
		t.Errorf("a strip that is blue at once leaves %v", weak)
	}
	if n.Strip, n.Age, n.GivenToday = nil, 0, nil; true {
		if any, _ := n.Free(); any.Low != 0 || any.High < fresh.Likely {
			t.Errorf("of no known age it holds %v", any)
		}
	}
	n.Reducer = around[quantity.Mass](1, 2, 3)
	if by, _ := n.Free(); by != *n.Reducer {
		t.Errorf("its book says %v, not %v", *n.Reducer, by)
	}
	if _, ok := vat(t, "madder-bran").Free(); ok {
		t.Error("a ferment has a reserve of reducer")
	}
}

// Lasts goes by Free: of a fresh vat it is the budget of its build, all of it; what the book says, a dose, a strip and a night change it
// as they change Free.
func TestHowLongItLastsGoesByFree(t *testing.T) {
	for _, id := range []string{"soda", "lye", "thiourea", "mild-soda", "iron-lime"} {
		n := vat(t, id)
		n.Strip, n.Age = nil, JustBuilt
		b := Budget{Recipe: n.Recipe, Fill: n.Fill, Temp: n.Warmth(), Surface: quantity.SquareMetres(0.1), Quiet: Lidded}
		built, err := b.Reserve()
		fresh, err2 := n.Lasts(b)
		off := func(a, b quantity.Range[quantity.Span]) bool {
			return max((a.Low-b.Low).Seconds(), (b.Low-a.Low).Seconds(), (a.Likely-b.Likely).Seconds(), (b.Likely-a.Likely).Seconds(), (a.High-b.High).Seconds(), (b.High-a.High).Seconds()) > 0.001
		}
		if err != nil || err2 != nil || math.Abs((fresh.Free.Likely-built.Free.Likely).Grams()) > 1e-6 || off(fresh.Rest, built.Rest) || off(fresh.Work, built.Work) || fresh.FillWater != built.FillWater {
			t.Errorf("%s: fresh %v for %v, by its budget %v for %v, %v %v", id, fresh.Free, fresh.Work, built.Free, built.Work, err, err2)
		}
		for what, change := range map[string]func(*State){
			"by its book": func(n *State) { n.Reducer = around[quantity.Mass](1, 2, 3) }, "a weak strip": func(n *State) { n.Strip = at(quantity.Seconds(5)) },
			"after a week": func(n *State) { n.Age = quantity.Days(7) }, "of no known age": func(n *State) { n.Age = 0 },
		} {
			m := n
			change(&m)
			free, _ := m.Free()
			if r, err := m.Lasts(b); err != nil || r.Free != free || r.Free == built.Free || r.Rest.Low >= built.Rest.Low && built.Rest.Low < LongestReserve {
				t.Errorf("%s, %s: %v for %v, Free is %v, fresh %v for %v", id, what, r.Free, r.Rest, free, built.Free, built.Rest)
			}
		}
	}
	if _, err := vat(t, "madder-bran").Lasts(Budget{Recipe: vat(t, "madder-bran").Recipe, Fill: 60, Temp: 35}); err == nil {
		t.Error("a ferment has a reserve of reducer")
	}
}

// A mole of dithionite brings a mole of indigo back, 174.1 g for 262.3: 54 g want 35.8, of which 30 g are the most at once; a little of
// it no more than the strip asks for. A strip asks first.
func TestOxidisedIndigoWantsItsReducer(t *testing.T) {
	n := vat(t, "soda")
	n.Indigo = around[quantity.Mass](54, 54, 54)
	n.Strip = at(quantity.Seconds(15))
	usual := Advise(n).Mass
	n.Oxidised = around[quantity.Mass](0, 3, 6)
	if r := n.Reduced(); r.Likely != 51 || r.Low != 48 || r.High != 54 {
		t.Errorf("of 54 g with 3 g blue %v are reduced", r)
	}
	if a := Advise(n); a.Mass != usual || !strings.Contains(a.Why, "3 g of its indigo is blue again") {
		t.Errorf("3 g blue: %v, %q", a.Mass, a.Why)
	}
	n.Oxidised = around[quantity.Mass](40, 54, 54)
	most, _ := Most(n.Recipe, "reducer", n.Fill, 0)
	if a := Advise(n); !(a.Mass > usual) || math.Abs(float64(a.Mass-min(most, 35.8))) > 0.2 || !strings.Contains(a.Why, "35.8 g of reducer") {
		t.Errorf("all blue: %v, usual %v, at most %v", a.Mass, usual, most)
	}
	n.Strip = nil
	if a := Advise(n); a.Mass != 0 || !strings.Contains(a.Why, "blue again") || !strings.Contains(a.Sentence, "pull a strip") {
		t.Errorf("without a strip: %+v", a)
	}
	n.Oxidised, n.Reducer = nil, around[quantity.Mass](0, 0, 0)
	if a := Advise(n); a.Mass != 0 || !strings.Contains(a.Why, "used up") {
		t.Errorf("with none left by its book: %+v", a)
	}
}

// A spent dithionite leaves one sulfite (K): 2 g/L are 11.5 mmol/L, in 60 L 87 g of sodium sulfite. Its second pKa is 7.2, so at a
// vat's end it takes acid of its own. No strip shows it.
func TestSulfite(t *testing.T) {
	n := vat(t, "soda")
	r, ok := n.SpentSulfite()
	if !ok || math.Abs(r.Likely.MillimolesPerLitre()-11.5) > 0.5 || !(r.Low < r.Likely) {
		t.Errorf("it holds %v, %v", r, ok)
	}
	if words := n.SulfiteWords(); words != "43 g to 87 g" {
		t.Errorf("it says %q", words)
	}
	n.Ending = true
	if a := Advise(n); !strings.Contains(a.Why, "sulfite") {
		t.Errorf("at its end: %q", a.Why)
	}
	n.PH = at(quantity.PH(9.5))
	once, ok := n.Citric(8.3, 1)
	n.Spent = quantity.MillimolesPerLitre(60) // fed for months
	kept, ok2 := n.Citric(8.3, 1)
	if !ok || !ok2 || !(kept > once*1.1) {
		t.Errorf("from pH 9.5 to 8.3 it takes %v, and %v with five times the sulfite", once, kept)
	}
	n.Sulfite = around[quantity.Molarity](1, 2, 3)
	if by, _ := n.SpentSulfite(); by != *n.Sulfite {
		t.Errorf("its book says %v, not %v", *n.Sulfite, by)
	}
	if words := vat(t, "sugar-lime").SulfiteWords(); words != "" {
		t.Errorf("of a sugar vat: %q", words)
	}
	if r, _ := vat(t, "thiourea").SpentSulfite(); r.Low != 0 || !(r.High > r.Likely) {
		t.Errorf("of thiourea dioxide: %v", r)
	}
}

// A thermometer may be off by a degree: near 26 °C of a ferment and 55 °C of the rule what is said is not sure, and says so; two degrees
// off it is.
func TestNearAMarkHeatIsNotSure(t *testing.T) {
	says := func(a Advice) string {
		return strings.Join(append(append([]string{a.Why, a.How}, a.Warnings...), a.Cautions...), "; ")
	}
	for _, c := range []struct {
		id     string
		c      float64
		sure   bool
		strip  float64
		reason string
	}{
		{"madder-bran", 25.5, false, 45, "25.5 °C is not sure against 26 °C"},
		{"madder-bran", 26.5, false, 45, "26.5 °C is not sure against 26 °C"},
		{"madder-bran", 24, true, 45, ""}, {"madder-bran", 28, true, 45, ""},
		{"sugar-lime", 54.5, false, 5, "54.5 °C is not sure against 55 °C"},
	} {
		n := vat(t, c.id)
		if c.id == "sugar-lime" { // as one whose own mark is at the rule's
			n.Recipe.Liquor.High = 60
		}
		n.Temp, n.Strip = at(quantity.Celsius(c.c)), at(quantity.Seconds(c.strip))
		if got := says(Advise(n)); strings.Contains(got, "not sure") == c.sure || !strings.Contains(got, c.reason) {
			t.Errorf("%s at %g °C: %q", c.id, c.c, got)
		}
		n.TempOff = 0.1 // a better one
		if got := says(Advise(n)); strings.Contains(got, "not sure") {
			t.Errorf("%s at %g °C by a good thermometer: %q", c.id, c.c, got)
		}
	}
}
