package liquor

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/water"
	"pgregory.net/rapid"
)

// solved is the pH where the make-up is known to be one that PH takes.
func solved(t testing.TB, m Makeup, c float64) float64 {
	t.Helper()
	p, err := PH(m, quantity.Celsius(c))
	if err != nil {
		t.Fatal(err)
	}
	return float64(p)
}

func TestPureWater(t *testing.T) {
	if p := solved(t, Makeup{}, 25); math.Abs(p-7.00) > 0.005 {
		t.Errorf("pure water at 25 °C has pH %.3f", p)
	}
}

// carbonate_ph_standard.csv, the primary standard (Staples & Bates 1969): ±0.015.
func TestPrimaryStandard(t *testing.T) {
	rows, _ := tableOf(t, "carbonate_ph_standard.csv")
	var w worst
	for _, r := range rows {
		c := r["t_C"]
		molal := 0.025 * water.Density(quantity.Celsius(c)) // mol/L
		m := Makeup{SodaAsh: quantity.GramsPerLitre(molal * 105.988), BakingSoda: quantity.GramsPerLitre(molal * 84.006)}
		if p := solved(t, m, c); w.see(p, r["pHS"], c) > 0.015 {
			t.Errorf("%g °C: pH %.3f, standard %.3f", c, p, r["pHS"])
		}
	}
	t.Logf("largest deviation %.4f at %g °C", w.by, w.at)
}

// soda_ash_ph.csv: ±0.03 up to 10 g/L, ±0.05 at 20, ±0.08 at 30; and the published 11.37 of 1 % by weight at 25 °C.
func TestSodaAsh(t *testing.T) {
	rows, _ := tableOf(t, "soda_ash_ph.csv")
	var w, thin worst
	for _, r := range rows {
		g := r["soda_ash_g_L"]
		allow := 0.03
		if g > 20 {
			allow = 0.08
		} else if g > 10 {
			allow = 0.05
		}
		p := solved(t, Makeup{SodaAsh: quantity.GramsPerLitre(g)}, r["t_C"])
		if w.see(p, r["pH_reference"], g) > allow {
			t.Errorf("%g °C, %g g/L: pH %.3f, table %.3f", r["t_C"], g, p, r["pH_reference"])
		} else if g <= 10 {
			thin.see(p, r["pH_reference"], g)
		}
	}
	t.Logf("largest deviation %.4f at %g g/L; up to 10 g/L %.4f", w.by, w.at, thin.by)
	// 10.08 g/L: the liquor of 1 % weighs 1.008 kg a litre (from memory).
	if p := solved(t, Makeup{SodaAsh: 10.08}, 25); math.Abs(p-11.37) > 0.03 {
		t.Errorf("1 %% by weight at 25 °C: pH %.3f, published 11.37", p)
	} else {
		t.Logf("1 %% by weight at 25 °C: pH %.3f, published 11.37", p)
	}
}

// sulfite_buildup_ph.csv: ±0.05.
func TestSulfiteBuildUp(t *testing.T) {
	rows, words := tableOf(t, "sulfite_buildup_ph.csv")
	var w worst
	for i, r := range rows {
		m := Makeup{SodaAsh: quantity.GramsPerLitre(r["Na2CO3_gL"])}
		x := quantity.MillimolesPerLitre(r["x_mmolL"])
		if words[i]["mode"] == "NaHSO3_added" {
			m.Bisulfite = x
		} else {
			m.Spent = x
		}
		if p := solved(t, m, r["t_C"]); w.see(p, r["pH"], r["x_mmolL"]) > 0.05 {
			t.Errorf("%+v: pH %.3f, table %.3f", m, p, r["pH"])
		}
	}
	t.Logf("largest deviation %.4f at %g mmol/L", w.by, w.at)
}

// A pH without its °C says little: soda loses 0.02 for each kelvin, saturated lime 0.03.
func TestWarmthLowersPH(t *testing.T) {
	for _, c := range []struct {
		m        Makeup
		from, to float64
	}{{Makeup{SodaAsh: 6}, -0.022, -0.017}, {Makeup{Lime: 5}, -0.038, -0.028}} {
		if d := (solved(t, c.m, 40) - solved(t, c.m, 30)) / 10; d < c.from || d > c.to {
			t.Errorf("%+v: %.4f for each kelvin", c.m, d)
		}
	}
}

func TestRefusals(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, c := range []struct {
		m    Makeup
		t    float64
		want string
	}{
		{Makeup{}, -0.5, "pH is reckoned from 0 to 100 °C, not at -0.5 °C"},
		{Makeup{}, nan, "pH is reckoned from 0 to 100 °C, not at NaN °C"},
		{Makeup{SodaAsh: -1}, 20, "soda ash is reckoned from 0 to 100 g/L, not at -1 g/L"},
		{Makeup{Lye: 101}, 20, "lye is reckoned from 0 to 100 g/L, not at 101 g/L"},
		{Makeup{Potash: quantity.Concentration(inf)}, 20, "potash is reckoned from 0 to 100 g/L, not at +Inf g/L"},
		{Makeup{Spent: quantity.Molarity(nan)}, 20, "spent dithionite is reckoned from 0 to 500 mmol/L, not at NaN mmol/L"},
		{Makeup{Acid: -501}, 20, "acid is reckoned from -500 to 500 mmol/L, not at -501 mmol/L"},
		{Makeup{LimeWater: true, Lime: 1}, 20, "a liquor is made with lime water or with lime, not with both"},
	} {
		_, err := PH(c.m, quantity.Celsius(c.t))
		var pe *PHError
		if !errors.As(err, &pe) || pe.Reason != c.want {
			t.Errorf("got %v\nwant %s", err, c.want)
		}
		if _, err := PHRange(c.m, quantity.Celsius(c.t)); err == nil {
			t.Errorf("%s: PHRange takes it", c.want)
		}
		if _, err := Reanchor(c.m, 9, quantity.Celsius(c.t), 0.1); err == nil {
			t.Errorf("%s: Reanchor takes it", c.want)
		}
	}
}

// parts are the inputs of a make-up by name, so that one can be moved. most is what the tests draw up to.
var parts = []struct {
	name string
	most float64
	add  func(*Makeup, float64)
}{
	{"soda ash", 60, func(m *Makeup, x float64) { m.SodaAsh += quantity.Concentration(x) }},
	{"baking soda", 60, func(m *Makeup, x float64) { m.BakingSoda += quantity.Concentration(x) }},
	{"potash", 60, func(m *Makeup, x float64) { m.Potash += quantity.Concentration(x) }},
	{"lye", 60, func(m *Makeup, x float64) { m.Lye += quantity.Concentration(x) }},
	{"lime", 60, func(m *Makeup, x float64) { m.Lime += quantity.Concentration(x) }},
	{"spent", 200, func(m *Makeup, x float64) { m.Spent += quantity.Molarity(x) }},
	{"spent thiourea", 200, func(m *Makeup, x float64) { m.SpentThiourea += quantity.Molarity(x) }},
	{"on indigo", 200, func(m *Makeup, x float64) { m.OnIndigo += quantity.Molarity(x) }},
	{"bisulfite", 200, func(m *Makeup, x float64) { m.Bisulfite += quantity.Molarity(x) }},
	{"leuco", 200, func(m *Makeup, x float64) { m.Leuco += quantity.Molarity(x) }},
	{"iron", 200, func(m *Makeup, x float64) { m.Iron += quantity.Molarity(x) }},
	{"acid", 200, func(m *Makeup, x float64) { m.Acid += quantity.Molarity(x) }},
}

// drawMakeup draws any make-up: each part is left out half of the time.
func drawMakeup(t *rapid.T, only ...string) Makeup {
	var m Makeup
	for _, p := range parts {
		wanted := len(only) == 0
		for _, o := range only {
			wanted = wanted || o == p.name
		}
		if wanted && rapid.Bool().Draw(t, "has "+p.name) {
			p.add(&m, rapid.Float64Range(0, p.most).Draw(t, p.name))
		}
	}
	if len(only) == 0 {
		if rapid.Bool().Draw(t, "negative acid") {
			m.Acid = -m.Acid
		}
		m.LimeWater = m.Lime == 0 && rapid.Bool().Draw(t, "lime water")
	}
	return m
}

// Every make-up at every °C has a finite pH, and its charges balance.
func TestEveryLiquorIsSolvedAndNeutral(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := drawMakeup(t)
		c := quantity.Celsius(rapid.Float64Range(0, 100).Draw(t, "°C"))
		if _, err := PH(m, c); err != nil {
			t.Fatal(err)
		}
		s := m.solve(c)
		if !(s.pH > -1 && s.pH < 16) || !(s.strength >= 0 && s.strength < 30) {
			t.Fatalf("pH %v, ionic strength %v", s.pH, s.strength)
		}
		at := constantsAt(c)
		x := m.totals(at.density)
		b := balance{x: &x, c: at.in(&x, s.strength), na: x.na, sulfate: x.sulfate}
		if b.charge(-s.pH * math.Ln10); math.Abs(b.left) > 1e-8*b.ions || math.Abs(b.strength-s.strength) > 1e-6*s.strength {
			t.Fatalf("pH %v: %g of %g mol/kg of charge is left, ionic strength %g for %g", s.pH, b.left, b.ions, b.strength, s.strength)
		}
		r, err := PHRange(m, c)
		if err != nil || !r.Valid() || math.Abs(float64(r.Likely)-s.pH) > 1e-9 {
			t.Fatalf("%v, %v", r, err)
		}
	})
}

// rises checks that more of one part moves pH one way only, up or down, over liquors of the parts named.
func rises(t *testing.T, part string, up bool, least float64, of ...string) {
	t.Helper()
	t.Run(fmt.Sprintf("%s in %v", part, of), func(t *testing.T) {
		rapid.Check(t, func(t *rapid.T) {
			m := drawMakeup(t, of...)
			c := quantity.Celsius(rapid.Float64Range(0, 100).Draw(t, "°C"))
			before := m.solve(c).pH
			for _, p := range parts {
				if p.name == part {
					p.add(&m, rapid.Float64Range(0, p.most/2).Draw(t, "more "+part))
				}
			}
			after := m.solve(c).pH
			if before < least || after < least {
				return
			}
			if up && after < before-1e-7 || !up && after > before+1e-7 {
				t.Fatalf("from pH %.6f to %.6f: %+v", before, after, m)
			}
		})
	})
}

// More alkali never lowers pH. Soda ash and potash are alkali beside all but lye and lime: in those they are salts, which
// lower the activity of OH- a little; baking soda is alkali only by itself.
func TestMoreAlkaliNeverLowers(t *testing.T) {
	soda := []string{"soda ash", "baking soda", "potash", "spent", "spent thiourea", "on indigo", "bisulfite", "leuco"}
	rises(t, "lye", true, 0, append(soda, "lye")...)
	rises(t, "lime", true, 0, append(soda, "lime", "lye")...)
	rises(t, "soda ash", true, 0, soda...)
	rises(t, "potash", true, 0, soda...)
}

// More of what takes alkali never raises pH of an alkaline liquor.
func TestMoreSpentNeverRaises(t *testing.T) {
	alkalis := []string{"soda ash", "baking soda", "potash", "lye", "leuco"}
	for _, part := range []string{"spent", "spent thiourea", "on indigo", "bisulfite", "leuco", "acid", "iron"} {
		rises(t, part, false, 8, append(alkalis, part)...)
	}
}

// Warmer never raises the pH of a soda liquor that is as warm as a vat may be; in bicarbonate above 80 °C it does.
func TestWarmerNeverRaisesSoda(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := drawMakeup(t, "baking soda", "potash", "spent", "on indigo")
		m.SodaAsh = quantity.Concentration(rapid.Float64Range(0.2, 60).Draw(t, "soda ash"))
		c := rapid.Float64Range(0, 60).Draw(t, "°C")
		d := rapid.Float64Range(0, 70-c).Draw(t, "warmer")
		before, after := m.solve(quantity.Celsius(c)).pH, m.solve(quantity.Celsius(c+d)).pH
		if before > 9 && after > before+1e-7 {
			t.Fatalf("from pH %.4f to %.4f: %+v", before, after, m)
		}
	})
}

// A tiny change of any input is a small change of pH: the kinks of lime and chalk are no jumps. Where nothing buffers, a
// nanomole in a litre of cold pure water still moves pH by 0.006.
func TestNoJumps(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := drawMakeup(t)
		c := rapid.Float64Range(0, 99).Draw(t, "°C")
		before := m.solve(quantity.Celsius(c)).pH
		if d := math.Abs(m.solve(quantity.Celsius(c+1e-5)).pH - before); d > 1e-4 {
			t.Fatalf("%g for 0.00001 °C", d)
		}
		for _, p := range parts {
			if m.LimeWater && p.name == "lime" {
				continue
			}
			with := m
			p.add(&with, 1e-7*p.most/200) // g/L or mmol/L: about a tenth of a nanomole
			if d := math.Abs(with.solve(quantity.Celsius(c)).pH - before); d > 0.02 {
				t.Fatalf("%g for a little %s", d, p.name)
			}
		}
	})
}

// The same over the kinks themselves, step by step.
func TestLimeHasKinksAndNoJumps(t *testing.T) {
	for _, soda := range []float64{0, 0.1, 2} {
		last := solved(t, Makeup{SodaAsh: quantity.Concentration(soda)}, 30)
		for g := 0.005; g < 6; g += 0.005 {
			p := solved(t, Makeup{SodaAsh: quantity.Concentration(soda), Lime: quantity.Concentration(g)}, 30)
			if p < last-1e-9 || g > 0.1 && p > last+0.2 {
				t.Errorf("soda ash %g: at %.3f g/L of lime pH goes from %.4f to %.4f", soda, g, last, p)
			}
			last = p
		}
	}
}

func BenchmarkPH(b *testing.B) {
	for _, c := range []struct {
		name string
		m    Makeup
	}{
		{"soda", Makeup{SodaAsh: 6}},
		{"spent", Makeup{SodaAsh: 6, Lye: 0.14, Spent: 6, Leuco: 3.4}},
		{"lime", Makeup{Lime: 5, Acid: 40, Leuco: 4}},
		{"all", Makeup{SodaAsh: 15, BakingSoda: 3, Potash: 3, Lye: 1, Lime: 4, Spent: 10, Bisulfite: 2, Leuco: 5, OnIndigo: 5, Acid: 20}},
	} {
		b.Run(c.name, func(b *testing.B) {
			for b.Loop() {
				if _, err := PH(c.m, 38); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
	b.Run("range", func(b *testing.B) {
		for b.Loop() {
			if _, err := PHRange(Makeup{SodaAsh: 6, Spent: 6, Leuco: 3.4}, 38); err != nil {
				b.Fatal(err)
			}
		}
	})
}
