package command

import (
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/water"
)

// The published tables of testdata/reference, through the commands. Each file's head names its source.

// reference is a table, a row a map.
func reference(t *testing.T, name string) []map[string]string {
	t.Helper()
	f, err := os.Open(filepath.Join("..", "..", "testdata", "reference", name))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	all, err := r.ReadAll()
	if err != nil || len(all) < 2 {
		t.Fatalf("%s: %v", name, err)
	}
	var out []map[string]string
	for _, row := range all[1:] {
		m := map[string]string{}
		for i, k := range all[0] {
			m[k] = row[i]
		}
		out = append(out, m)
	}
	return out
}

func figure(t *testing.T, s string) float64 {
	t.Helper()
	f, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// near tells how a figure of a command compares with a published one.
func near(t *testing.T, line string, want, allow float64, path ...string) {
	t.Helper()
	if got := of(t, answer(t, line), path...); !(math.Abs(got-want) <= allow) {
		t.Errorf("%s: %v is %v, published %v ± %v", line, path, got, want, allow)
	}
}

// soda_ash_ph.csv: a geochemical speciation code; the widths are those of the table's README.
func TestSodaAsh(t *testing.T) {
	for _, r := range reference(t, "soda_ash_ph.csv") {
		g := figure(t, r["soda_ash_g_L"])
		allow := 0.03
		switch {
		case g > 20:
			allow = 0.08
		case g > 10:
			allow = 0.05
		}
		line := fmt.Sprintf("reckon ph --soda %sg/L --temp %sC", r["soda_ash_g_L"], r["t_C"])
		want := figure(t, r["pH_reference"])
		near(t, line, want, allow, "ph")
		m := answer(t, line)
		if want < of(t, m, "ph_low") || want > of(t, m, "ph_high") {
			t.Errorf("%s: %v lies outside %v", line, want, m)
		}
	}
	// Published anchor: 1 % by weight at 25 °C is 11.37 (Kirk-Othmer, Sodium Carbonate). 10 g in 1000 g, of 1.008 kg/L (from memory).
	near(t, "reckon ph --soda 10.08g/L --temp 25C", 11.37, 0.03, "ph")
}

// carbonate_ph_standard.csv: 0.025 mol/kg of each (Staples & Bates 1969; NIST). Grams per litre by the molar masses and the
// density of water; the salts' own volume is left out, which a buffer does not feel.
func TestCarbonateStandard(t *testing.T) {
	for _, r := range reference(t, "carbonate_ph_standard.csv") {
		at := figure(t, r["t_C"])
		perLitre := 0.025 * water.Density(quantity.Celsius(at))
		line := fmt.Sprintf("reckon ph --bicarbonate %.5fg/L --soda %.5fg/L --temp %sC", 84.0066*perLitre, 105.9884*perLitre, r["t_C"])
		near(t, line, figure(t, r["pHS"]), 0.015, "ph")
	}
}

// carbonate_constants.csv: pKw (IAPWS R11) and the Davies coefficient. Lye alone is pKw + log c + log γ; 1 g/L are 0.025 mol/L,
// and an activity of the water of 1 changes nothing at that.
func TestLyeAndPotash(t *testing.T) {
	for _, r := range reference(t, "carbonate_constants.csv") {
		for _, g := range []float64{0.1, 1} {
			c := g / 39.997
			root := math.Sqrt(c)
			want := figure(t, r["pKw"]) + math.Log10(c) - figure(t, r["A_davies"])*(root/(1+root)-0.3*c)
			near(t, fmt.Sprintf("reckon ph --lye %gg/L --temp %sC", g, r["t_C"]), want, 0.02, "ph")
		}
	}
	// Mole for mole potash is soda ash with another metal (molar_masses: 138.21 and 105.99), which hardly pairs: a little higher.
	for _, g := range []float64{0.5, 2, 5} {
		soda := of(t, answer(t, fmt.Sprintf("reckon ph --soda %gg/L --temp 25C", g)), "ph")
		near(t, fmt.Sprintf("reckon ph --potash %gg/L --temp 25C", g*138.2055/105.9884), soda+0.02, 0.03, "ph")
	}
}

// sulfite_buildup_ph.csv: a stoichiometric model.
func TestSpentReducer(t *testing.T) {
	flag := map[string]string{"dithionite_oxidised": "spent", "NaHSO3_added": "bisulfite"}
	for _, r := range reference(t, "sulfite_buildup_ph.csv") {
		line := fmt.Sprintf("reckon ph --soda %sg/L --%s %smmol/L --temp %sC", r["Na2CO3_gL"], flag[r["mode"]], r["x_mmolL"], r["t_C"])
		near(t, line, figure(t, r["pH"]), 0.05, "ph")
	}
}

// lime_water_ph.csv: NBS secondary standard, saturated at 25 °C; the README allows 0.05 from 20 to 50 °C.
func TestLimeWater(t *testing.T) {
	n := 0
	for _, r := range reference(t, "lime_water_ph.csv") {
		if at := figure(t, r["t_C"]); at >= 20 && at <= 50 {
			near(t, "reckon ph --lime saturated --temp "+r["t_C"]+"C", figure(t, r["pHS_lit"]), 0.05, "ph")
			n++
		}
	}
	if n < 7 {
		t.Errorf("only %d rows", n)
	}
}

// oxygen_saturation.csv: Benson & Krause 1984, published for 0–40 °C, at one atmosphere and at 0.9.
func TestOxygen(t *testing.T) {
	n := 0
	for _, r := range reference(t, "oxygen_saturation.csv") {
		if figure(t, r["t_C"]) > 40 {
			continue
		}
		line := "reckon oxygen --temp " + r["t_C"] + "C"
		near(t, line, figure(t, r["benson_krause_mg_L"]), 0.02, "mg_per_l")
		near(t, line+" --pressure 101325Pa", figure(t, r["benson_krause_mg_L"]), 0.02, "mg_per_l")
		near(t, line+" --pressure 91192.5Pa", figure(t, r["benson_krause_0.9atm_mg_L"]), 0.02, "mg_per_l")
		near(t, line+" --pressure 0.9atm", figure(t, r["benson_krause_0.9atm_mg_L"]), 0.02, "mg_per_l")
		n++
	}
	if n < 41 {
		t.Errorf("only %d rows", n)
	}
}

// heating_mixing.csv: IAPWS-95; 0.2 % of the exact column.
func TestHeatingAndMixing(t *testing.T) {
	seen := map[string]bool{}
	for _, r := range reference(t, "heating_mixing.csv") {
		want := figure(t, r["exact"])
		word := func(k string) string {
			f := strings.FieldsFunc(r[k], func(c rune) bool { return c == ' ' || c == '=' })
			if u := f[len(f)-1]; u == "L" || u == "C" || u == "W" {
				return f[len(f)-2] + u
			}
			return f[len(f)-1]
		}
		mix := fmt.Sprintf("warm --fill %s --cold %s --hot %s --aim %s", word("a"), word("b"), word("c"), word("d"))
		seen[r["kind"]] = true
		switch r["kind"] {
		case "heater_min":
			near(t, fmt.Sprintf("reckon heat --fill %s --from %s --to %s --power %s", word("a"), word("b"), word("c"), word("d")), want, want*0.002, "minutes")
		case "mix_hot_L":
			near(t, mix, want, want*0.002, "hot_l")
		case "mix_cold_L":
			near(t, mix, want, want*0.002, "cold_l")
		}
	}
	if !seen["heater_min"] || !seen["mix_hot_L"] || !seen["mix_cold_L"] {
		t.Error(seen)
	}
}

// pail_frustum.csv: an external trade size, 0.1 %. Both ways: the litres of a depth, the depth of the litres.
func TestPail(t *testing.T) {
	for _, r := range reference(t, "pail_frustum.csv") {
		cm, litres, m2 := figure(t, r["h_m"])*100, figure(t, r["V_L"]), figure(t, r["surface_area_m2"])
		line := fmt.Sprintf("reckon fill --vessel pail --depth %gcm", cm)
		near(t, line, litres, litres*0.001, "litres")
		near(t, line, m2, m2*0.001, "surface_m2")
		near(t, line, 22.1455, 0.022, "brim_l")
		near(t, line, 36.8-cm, 0.001, "below_rim_cm")
		near(t, fmt.Sprintf("reckon fill --vessel pail --litres %gL", math.Min(litres, 22.1454)), cm, cm*0.001, "depth_cm")
	}
	// The jug of the contract stands at its marks where they were read.
	near(t, "reckon fill --vessel jug --litres 5L", 8.4, 0.001, "depth_cm")
	near(t, "reckon fill --vessel jug --depth 16.1cm", 10, 0.001, "litres")
	near(t, "reckon fill --vessel box+60cm+40cm+50cm --depth 25cm", 60, 0.001, "litres")
	near(t, "reckon fill --vessel cylinder+40cm+60cm --depth 25cm", math.Pi*10, 0.001, "litres")
}

// trade.md §3, Capacity: kg = V·g/L·purity·usable ÷ (10·% on fibre), usable 0.6. Its rows, with built-in recipes of those
// doses and strengths: sugar–lime is 2.5 g/L at 45 %, the lye vat 1.5 g/L at 95 %. The table has two figures.
func TestCapacity(t *testing.T) {
	for _, c := range []struct {
		line string
		want map[string]float64
	}{
		{"reckon capacity --recipe sugar-lime --fill 20L", map[string]float64{"pale": 4.5, "mid": 1.1, "dark": 0.6, "navy": 0.4}},
		{"reckon capacity --recipe sugar-lime --fill 50L", map[string]float64{"pale": 11, "mid": 2.8, "dark": 1.5, "navy": 1.0}},
		{"reckon capacity --recipe lye --fill 50L", map[string]float64{"pale": 14, "mid": 3.6, "dark": 1.9, "navy": 1.2}},
		// The same formula for the pre-reduced grains: 60 L · 1.5 g/L · 60 % · 0.6.
		{"reckon capacity --recipe soda --fill 60L", map[string]float64{"milk": 32.4, "pale": 10.8, "sky": 5.4, "mid": 2.7, "dark": 1.473, "navy": 0.926, "blue-black": 0.648}},
	} {
		depths := answer(t, c.line)["depths"].([]any)
		if len(depths) != 7 {
			t.Errorf("%s: %d depths", c.line, len(depths))
		}
		found := 0
		for _, d := range depths {
			m := d.(map[string]any)
			want, ok := c.want[m["depth"].(string)]
			if !ok {
				continue
			}
			found++
			step := math.Pow(10, math.Floor(math.Log10(want))-1) / 2 // of the table's last figure
			if want < 1 {
				step = 0.05
			}
			low, likely, high := of(t, m, "kg_left", "low"), of(t, m, "kg_left", "likely"), of(t, m, "kg_left", "high")
			if math.Abs(likely-want) > step+1e-9 || math.Abs(low-likely*2/3) > 0.001*likely || math.Abs(high-likely*4/3) > 0.001*likely {
				t.Errorf("%s: %v, want %v ± %v, and usable 0.4 to 0.8 round 0.6", c.line, m, want, step)
			}
			if today := of(t, m, "kg_today"); today > likely+1e-9 || today <= 0 {
				t.Errorf("%s: today %v of %v", c.line, today, likely)
			}
		}
		if found != len(c.want) {
			t.Errorf("%s: %d of %d depths", c.line, found, len(c.want))
		}
	}
}
