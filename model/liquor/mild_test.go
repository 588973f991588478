package liquor_test

import (
	"math"
	"strings"
	"testing"

	"example.org/vatside/model/fibre"
	"example.org/vatside/model/liquor"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
)

// spentOf is so many g/L of dithionite, spent.
func spentOf(grams float64) quantity.Molarity { return quantity.Molarity(grams / 174.107 * 1000) }

// Soda ash 2 and baking soda 6 g/L at 45 °C: pH 9.3 fresh, 8.8 when the build's gram of dithionite is spent, 8.7 after another
// gram that 1.2 g of soda ash went in before, 7.7 after one without.
func TestTheMildVatNeedsItsAshFirst(t *testing.T) {
	r := builtin(t)["mild-soda"]
	for _, p := range []struct {
		id    string
		grams quantity.Concentration
	}{{"soda", 2}, {"bicarbonate", 6}, {"reducer", 1}} {
		if w, _ := r.Powder(p.id); r.PerLitre(w) != p.grams {
			t.Errorf("%s: %v", p.id, r.PerLitre(w))
		}
	}
	bare := liquor.Makeup{SodaAsh: 2, BakingSoda: 6}
	for _, c := range []struct {
		spent float64
		ash   quantity.Concentration
		want  float64
	}{{0, 0, 9.3}, {1, 0, 8.8}, {2, 1.2, 8.7}, {2, 0, 7.7}} {
		m := bare
		m.Spent, m.SodaAsh = spentOf(c.spent), m.SodaAsh+c.ash
		if got := pH(t, m, 45); math.Abs(got-c.want) > 0.05 {
			t.Errorf("%g g/L spent, %v of soda ash more: pH %.2f, want %.1f", c.spent, c.ash, got, c.want)
		}
		// The grains bring the salt of their own indigo with them: that lifts the last to 7.9, the others by no more than 0.03.
		with := makeup(t, r, 0)
		with.Spent, with.SodaAsh = spentOf(c.spent), with.SodaAsh+c.ash
		if got := pH(t, with, 45); got < c.want-0.05 || got > c.want+0.2 || c.want > 8 && got > c.want+0.06 {
			t.Errorf("with the grains, %g g/L spent, %v of soda ash more: pH %.2f, want %.1f", c.spent, c.ash, got, c.want)
		}
	}
	if reducer, _ := r.Powder("reducer"); reducer.AtOnce != 0.5 || reducer.AlkaliFirst != 1.2 {
		t.Errorf("%+v", reducer)
	}
}

// A weak mild vat gets its soda ash before the reducer, in one dose; where pH was read at the top of its range, none.
func TestTheMildVatIsFedAshFirst(t *testing.T) {
	n := liquor.State{Recipe: builtin(t)["mild-soda"], Fill: 60, Temp: new(quantity.Celsius(42)), Strip: new(quantity.Seconds(5)), Goods: []fibre.Fibre{fibre.Wool}}
	a := liquor.Advise(n)
	if a.Do != liquor.DoReducer || a.Powder != "soda" || a.Mass != 36 || len(a.With) != 1 || a.With[0] != (liquor.Amount{Powder: "reducer", Mass: 30}) ||
		a.Sentence != "add 36.0 g of soda ash, then 30.0 g of sodium dithionite" || !strings.HasPrefix(a.How, "first the soda ash:") {
		t.Errorf("%+v", a)
	}
	if words := strings.Join(a.Warnings, "; "); !strings.Contains(words, "creeps up: read pH before wool or silk, and every three hours") || strings.Contains(words, "at its best") {
		t.Error(words)
	}
	n.PH = new(quantity.PH(9.5))
	if a := liquor.Advise(n); a.Powder != "reducer" || len(a.With) != 0 {
		t.Errorf("ash at pH 9.5: %+v", a)
	}
	n.PH, n.Recipe = nil, builtin(t)["soda"]
	n.Goods = nil
	if a := liquor.Advise(n); a.Powder != "reducer" || len(a.With) != 0 {
		t.Errorf("ash in a vat that does not ask for it: %+v", a)
	}
}

// What goods meet where nobody has read a pH: the fresh vat, of a ferment the one that is kept, whether its recipe says it or not.
func TestWorkingPH(t *testing.T) {
	all := builtin(t)
	for id, want := range map[string]float64{"soda": 11, "lye": 10.9, "mild-soda": 9.3, "madder-bran": 10.2} {
		w := liquor.WorkingPH(all[id], all[id].Liquor.Build)
		if id == "lye" {
			want = all[id].Liquor.PHFresh
		}
		if math.Abs(float64(w.Likely)-want) > 0.06 || w.Low >= w.Likely || w.High <= w.Likely {
			t.Errorf("%s: %v to %v, likely %v; want %v", id, w.Low, w.High, w.Likely, want)
		}
	}
	bran := all["madder-bran"]
	if bran.Liquor.PHKept = 0; liquor.WorkingPH(bran, bran.Liquor.Aim).Likely != 10.2 {
		t.Error("a ferment of an old book is not reckoned at the pH that it is kept at")
	}
	if bran.Liquor.PHHigh = 9.8; liquor.WorkingPH(bran, bran.Liquor.Aim).Likely != 9.8 {
		t.Error("a ferment is reckoned above its own range")
	}
	for id, r := range all {
		given := r.Liquor.PHFresh
		r.Liquor.PHFresh = 0
		if got := float64(liquor.FreshPH(r)); math.Abs(got-given) > 0.15 {
			t.Errorf("%s: ph_fresh left out is reckoned %.2f, the recipe has %g", id, got, given)
		}
	}
	unknown := recipe.Recipe{Powders: []recipe.Powder{{Material: "wood ash", Role: recipe.Alkali, Dose: 5, Strength: 1}}}
	if liquor.FreshPH(unknown) != 0 {
		t.Error("a pH is reckoned from an alkali of unknown strength")
	}
}

// Where no pH was read the gate goes by the reckoned one and says between what; nobody is sent to the vat at hand; silk has one
// caution from 10 to 11 and no refusal.
func TestBearsByTheReckonedPH(t *testing.T) {
	all := builtin(t)
	at := func(ph quantity.PH) *quantity.PH { return &ph }
	for _, c := range []struct {
		id   string
		f    fibre.Fibre
		read *quantity.PH
		want fibre.Verdict
		says string
		not  string
	}{
		{"mild-soda", fibre.Wool, nil, fibre.Fine, "", "pH"},
		{"mild-soda", fibre.Silk, nil, fibre.Fine, "", "pH"},
		{"mild-soda", fibre.Wool, at(9.8), fibre.Warned, "stir in baking soda, 2 g/L at most, and read again", "use"},
		{"mild-soda", fibre.Wool, at(10.8), fibre.Refused, "baking soda", "mild-soda"},
		{"madder-bran", fibre.Wool, nil, fibre.Warned, "10.2 (reckoned, 9.7 to 10.7, not read)", "use"},
		{"madder-bran", fibre.Wool, at(11), fibre.Refused, "let it come down by itself, or use the mild soda vat", "ferment"},
		{"soda", fibre.Wool, nil, fibre.Refused, "use the mild soda vat (recipe mild-soda), or a ferment vat", "soda ash"},
		{"soda", fibre.Silk, nil, fibre.Warned, "dip short", "use"},
		{"soda", fibre.Silk, at(10.5), fibre.Warned, "dip short, rinse soon", "use"},
		{"soda", fibre.Cotton, nil, fibre.Fine, "", "pH"},
		{"sugar-lime", fibre.Jute, at(12.8), fibre.Refused, "use a vat with soda", ""},
		{"soda", fibre.Jute, at(12.8), fibre.Refused, "give no alkali", "use a vat with soda"},
	} {
		v, words := (liquor.State{Recipe: all[c.id], PH: c.read}).Bears(c.f)
		if v != c.want || !strings.Contains(words, c.says) || c.not != "" && strings.Contains(words, c.not) {
			t.Errorf("%s in %s: %v %q", c.f, c.id, v, words)
		}
	}
}

// A mild vat gives off carbon dioxide: by far most of it stays for a day, more goes warm, open and less alkaline, and pH rises.
func TestAMildVatCreepsUp(t *testing.T) {
	m := liquor.Makeup{SodaAsh: 2, BakingSoda: 6}
	lost := func(m liquor.Makeup, c quantity.Temperature, q liquor.Quiet, hours float64) float64 {
		t.Helper()
		r, err := liquor.CarbonDioxideLost(m, c, quantity.SquareMetres(0.12), q, 60, quantity.Hours(hours))
		if err != nil || !r.Valid() {
			t.Fatal(r, err)
		}
		return float64(r.Likely)
	}
	day := lost(m, 45, liquor.Open, 24)
	if day < 0.3 || day > 3 {
		t.Errorf("%.2f mmol/L in a day", day)
	}
	spent := m
	spent.Spent = spentOf(1)
	if lost(m, 25, liquor.Open, 24) >= day || lost(m, 45, liquor.Lidded, 24) >= day || lost(spent, 45, liquor.Open, 24) <= 2*day {
		t.Error("warmth, air and spent reducer do not drive it off")
	}
	before, after := pH(t, m, 45), pH(t, m.Aired(quantity.Molarity(day)), 45)
	week := pH(t, m.Aired(quantity.Molarity(7*day)), 45)
	if after <= before || after > before+0.1 || week < before+0.1 {
		t.Errorf("pH %.3f, after a day %.3f, after a week %.3f", before, after, week)
	}
	if got := lost(liquor.Makeup{SodaAsh: 6}, 45, liquor.Open, 24); got != 0 {
		t.Errorf("a vat without baking soda loses %g", got)
	}
	if all := m.Aired(1e6); all.BakingSoda != 0 || all.SodaAsh < 5.7 || all.SodaAsh > 5.8 {
		t.Errorf("all of it gone: %+v", all)
	}
}

// Two grams a litre of baking soda bring a mild vat that has crept up down by 0.15 to 0.5.
func TestBakingSodaBringsAMildVatDown(t *testing.T) {
	for _, aired := range []quantity.Molarity{15, 20, 28} {
		m := liquor.Makeup{SodaAsh: 2, BakingSoda: 6}.Aired(aired)
		more := m
		more.BakingSoda += 2
		if down := pH(t, m, 42) - pH(t, more, 42); down < 0.15 || down > 0.5 {
			t.Errorf("%v of carbon dioxide gone: pH %.2f, baking soda brings it down by %.2f", aired, pH(t, m, 42), down)
		}
	}
}
