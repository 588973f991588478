package liquor

import (
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/water"
)

// tableOf reads a reference table: comments, then a head, then rows by the head's names. A field that is no number is
// in words alone.
func tableOf(t *testing.T, name string) (numbers []map[string]float64, words []map[string]string) {
	t.Helper()
	raw, err := os.ReadFile("../../testdata/reference/" + name)
	if err != nil {
		t.Fatal(err)
	}
	var head []string
	for _, line := range strings.Split(strings.TrimSpace(string(raw)), "\n") {
		if strings.HasPrefix(line, "#") {
			continue
		}
		fields := strings.Split(strings.TrimSpace(line), ",")
		if head == nil {
			head = fields
			continue
		}
		row, text := map[string]float64{}, map[string]string{}
		for i, f := range fields {
			text[head[i]] = f
			if v, err := strconv.ParseFloat(f, 64); err == nil {
				row[head[i]] = v
			}
		}
		numbers, words = append(numbers, row), append(words, text)
	}
	if len(numbers) == 0 {
		t.Fatalf("%s has no rows", name)
	}
	return numbers, words
}

// worst keeps the largest deviation of a table.
type worst struct{ by, at float64 }

func (w *worst) see(got, want, at float64) float64 {
	d := math.Abs(got - want)
	if d > w.by || math.IsNaN(d) {
		*w = worst{d, at}
	}
	return d
}

// carbonate_constants.csv: the carbonate equations and pKw to its last figure; sulfite within 0.002; the Debye–Hückel
// coefficient within 0.6 %, since the table's leaves out the density of water.
func TestConstantsAreThoseOfTheTable(t *testing.T) {
	rows, _ := tableOf(t, "carbonate_constants.csv")
	var pK1, pK2, pKw, sulfite, a worst
	for _, r := range rows {
		c := r["t_C"]
		k := constantsAt(quantity.Celsius(c))
		dh := newDebyeHuckel(c+273.15, water.Density(quantity.Celsius(c)))
		if pK1.see(-k.carbonic1, r["pK1"], c) > 1e-4 || pK2.see(-k.carbonic2, r["pK2"], c) > 1e-4 ||
			pKw.see(-k.water, r["pKw"], c) > 1e-3 || sulfite.see(-k.sulfurous2, r["pKa2_sulfite"], c) > 0.002 ||
			a.see(dh.a/r["A_davies"], 1, c) > 0.006 {
			t.Errorf("%g °C: pK1 %.4f pK2 %.4f pKw %.4f sulfite %.4f A %.5f, table %v", c, -k.carbonic1, -k.carbonic2,
				-k.water, -k.sulfurous2, dh.a, r)
		}
	}
	t.Logf("largest deviation: pK1 %.5f, pK2 %.5f, pKw %.5f, sulfite %.4f, A %.2f %%", pK1.by, pK2.by, pKw.by, sulfite.by, 100*a.by)
}

// leuco_fractions.csv within 0.001, and the solver has the same forms.
func TestLeucoForms(t *testing.T) {
	rows, _ := tableOf(t, "leuco_fractions.csv")
	var w worst
	for _, r := range rows {
		f := LeucoAt(quantity.PH(r["pH"]))
		if w.see(f.Acid.Fraction(), r["acid"], r["pH"]) > 1e-3 || w.see(f.Mono.Fraction(), r["mono"], r["pH"]) > 1e-3 ||
			w.see(f.Di.Fraction(), r["di"], r["pH"]) > 1e-3 {
			t.Errorf("pH %g: %+v", r["pH"], f)
		}
	}
	t.Logf("largest deviation %.5f", w.by)

	// A litre with 5 mmol of leuco indigo and as much lye as its forms at the solved pH hold, and free OH-.
	s := Makeup{Leuco: 5, Lye: quantity.GramsPerLitre(0.007 * 39.997)}.solve(25)
	f := LeucoAt(quantity.PH(s.pH))
	held := 5 * (f.Mono.Fraction() + 2*f.Di.Fraction())
	free := 1000 * math.Pow(10, s.pH-13.995) / power(newDebyeHuckel(298.15, 0.997).log(sizeOH, math.Sqrt(s.strength))) * 0.997
	if math.Abs(held+free-7) > 0.01 {
		t.Errorf("pH %.3f: leuco indigo holds %.3f and %.3f are free, of 7 mmol/L", s.pH, held, free)
	}
}

// molar_masses.csv within 0.02 g/mol, for those that pH is reckoned with.
func TestMolarMassesOfPH(t *testing.T) {
	rows, words := tableOf(t, "molar_masses.csv")
	mine := map[string]MolarMass{"Na2S2O4": MolarDithionite, "Na2CO3": MolarSodaAsh, "Na2CO3(H2O)10": MolarSodaCrystals,
		"Na2CO3(H2O)": MolarSodaMonohydrate, "NaHCO3": MolarBakingSoda, "NaOH": MolarLye, "Ca(OH)2": MolarSlakedLime,
		"CaO": MolarQuicklime, "C6H12O6": MolarFructose, "C16H10N2O2": MolarIndigo, "CH4N2O2S": MolarThioureaDioxide,
		"FeSO4(H2O)7": MolarIronHeptahydrate, "K2CO3": MolarPotash, "C6H12O6(H2O)": MolarGlucoseHydrate}
	seen := 0
	for i, r := range rows {
		if m, ok := mine[words[i]["formula"]]; ok {
			seen++
			if math.Abs(m.GramsPerMole()-r["molar_mass_g_mol"]) > 0.02 {
				t.Errorf("%s: %.3f", words[i]["formula"], m.GramsPerMole())
			}
		}
	}
	if seen != len(mine) {
		t.Errorf("%d of %d in the table", seen, len(mine))
	}
}
