package liquor

import (
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"example.org/vatside/model/recipe"
)

// rowsOf reads a reference table: comments, a head, then rows.
func rowsOf(t *testing.T, name string) [][]string {
	t.Helper()
	raw, err := os.ReadFile("../../testdata/reference/" + name)
	if err != nil {
		t.Fatal(err)
	}
	var out [][]string
	for _, line := range strings.Split(strings.TrimSpace(string(raw)), "\n") {
		if !strings.HasPrefix(line, "#") {
			out = append(out, strings.Split(strings.TrimSpace(line), ","))
		}
	}
	return out[1:]
}

func figure(t *testing.T, s string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// The whole of molar_masses.csv (IUPAC 2021; an independent table): 0.02 g/mol is allowed.
func TestMolarMasses(t *testing.T) {
	ours := map[string]MolarMass{
		"sodium dithionite": MolarDithionite, "sodium carbonate": MolarSodaAsh, "sodium carbonate decahydrate": MolarSodaCrystals,
		"sodium carbonate monohydrate": MolarSodaMonohydrate, "sodium bicarbonate": MolarBakingSoda, "sodium hydroxide": MolarLye,
		"calcium hydroxide": MolarSlakedLime, "calcium oxide": MolarQuicklime, "fructose": MolarFructose,
		"glucose monohydrate": MolarGlucoseHydrate, "indigo": MolarIndigo, "leuco-indigo (acid form)": MolarLeuco,
		"thiourea dioxide": MolarThioureaDioxide, "iron(II) sulfate heptahydrate": MolarIronHeptahydrate,
		"iron(II) sulfate": MolarIronSulfate, "sodium bisulfite": MolarBisulfite, "sodium sulfite": MolarSulfite,
		"sodium sulfate": MolarSulfate, "calcium sulfate dihydrate": MolarGypsum, "oxygen": MolarOxygen,
		"potassium carbonate": MolarPotash, "zinc": MolarZinc, "water": MolarWater,
	}
	worst := 0.0
	for _, r := range rowsOf(t, "molar_masses.csv") {
		want := figure(t, r[2])
		got, ok := ours[r[0]]
		d := math.Abs(got.GramsPerMole() - want)
		worst = math.Max(worst, d)
		if !ok || d > 0.02 {
			t.Errorf("%s: %.3f g/mol for %.3f", r[0], got, want)
		}
	}
	t.Logf("largest deviation %.4f g/mol", worst)
}

// The figures that the trade's working knowledge marks K, each as given there.
func TestTheTradesCalculatedFigures(t *testing.T) {
	each := func(s recipe.Substance) float64 {
		k := reducerKinds[s]
		return per(k.perIndigo, k.mass, MolarIndigo).GramsPerGram()
	}
	for _, c := range []struct {
		what            string
		got, want, well float64
	}{
		{"dithionite a gram of indigo", each(recipe.Dithionite), 0.664, 0.0005},
		{"of an 88 % grade", each(recipe.Dithionite) / 0.88, 0.754, 0.0005},
		{"thiourea dioxide a gram of indigo", each(recipe.ThioureaDioxide), 0.41, 0.005},
		{"copperas a gram of indigo", each(recipe.IronSulfate), 2.1, 0.05},
		{"soda crystals a gram of soda ash", float64(MolarSodaCrystals / MolarSodaAsh), 2.7, 0.005},
	} {
		if math.Abs(c.got-c.want) > c.well {
			t.Errorf("%s: %.4f for %.4f", c.what, c.got, c.want)
		}
	}
}
