package vessel

import (
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"example.org/vatside/model/quantity"
	"pgregory.net/rapid"
)

// drawJug is a vessel of any form, with marks a hand could have made: none nearer than a twentieth of the rim's height.
func drawJug(t *rapid.T) Jug {
	height := rapid.Float64Range(0.05, 5).Draw(t, "height")
	n := rapid.IntRange(1, 8).Draw(t, "marks")
	var marks []Mark
	h, v := 0.0, 0.0
	for range n {
		step := height * rapid.Float64Range(0.05, 0.12).Draw(t, "step")
		across := rapid.Float64Range(0.02, 2).Draw(t, "across")
		h += step
		v += step * math.Pi / 4 * across * across * 1000
		marks = append(marks, Mark{quantity.Litres(v), quantity.Metres(h)})
	}
	j, err := NewJug(marks, quantity.Metres(height))
	if err != nil {
		t.Fatal(err)
	}
	return j
}

// The surface is above nothing from floor to rim, and has no jumps; the volume goes through every mark.
func TestJugSurface(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := drawJug(t)
		const n = 2000
		last, widest := 0.0, 0.0
		for i := 0; i <= n; i++ {
			widest = math.Max(widest, j.Surface(j.Height*quantity.Length(i)/n).SquareMetres())
		}
		for i := 0; i <= n; i++ {
			a := j.Surface(j.Height * quantity.Length(i) / n).SquareMetres()
			// Within a step of a twentieth of the height the surface goes at most up and down once.
			if !(a > 0) || (i > 0 && math.Abs(a-last) > 0.15*widest) {
				t.Fatalf("%v: %v m² after %v m²", j, a, last)
			}
			last = a
		}
		for _, m := range j.marks() {
			if got := j.Volume(m.Depth); math.Abs(float64(got-m.Poured)) > 1e-12*float64(m.Poured) {
				t.Fatalf("%v holds %v at %v", j, got, m)
			}
		}
	})
}

// pail_frustum.csv, measured with a jug: marks at its own volumes and depths. Volumes within 1 %, surface within 3 %.
func TestJugOfPail(t *testing.T) {
	raw, err := os.ReadFile("../../testdata/reference/pail_frustum.csv")
	if err != nil {
		t.Fatal(err)
	}
	var all []Mark
	var areas []float64
	for _, line := range strings.Split(strings.TrimSpace(string(raw)), "\n") {
		c := strings.Split(strings.TrimSpace(line), ",")
		if c[0] != "A_pail5" {
			continue
		}
		var n [3]float64
		for i, k := range []int{1, 2, 4} {
			if n[i], err = strconv.ParseFloat(c[k], 64); err != nil {
				t.Fatal(err)
			}
		}
		all = append(all, Mark{quantity.Litres(n[1]), quantity.Metres(n[0])})
		areas = append(areas, n[2])
	}
	for name, pick := range map[string][]int{"all rows": {0, 1, 2, 3, 4, 5}, "three rows": {1, 3, 5}, "not to the brim": {0, 1, 2, 3}} {
		var marks []Mark
		for _, i := range pick {
			marks = append(marks, all[i])
		}
		j, err := NewJug(marks, 0.368)
		if err != nil {
			t.Fatal(err)
		}
		var worstV, worstA, worstW float64
		top := marks[len(marks)-1].Depth // above it nothing was measured
		for i := range all {             // the table's rows
			if all[i].Depth > top {
				continue
			}
			worstV = math.Max(worstV, math.Abs(j.Volume(all[i].Depth).Litres()/all[i].Poured.Litres()-1))
			worstA = math.Max(worstA, math.Abs(j.Surface(all[i].Depth).SquareMetres()/areas[i]-1))
		}
		for d := quantity.Length(0.01); d <= top; d += 0.001 { // and all depths between, by the frustum that fits them
			worstV = math.Max(worstV, math.Abs(j.Volume(d).Litres()/pail.Volume(d).Litres()-1))
			worstA = math.Max(worstA, math.Abs(float64(j.Surface(d)/pail.Surface(d))-1))
			worstW = math.Max(worstW, math.Abs(float64(j.WettedWall(d)/pail.WettedWall(d))-1))
		}
		if worstV > 0.01 || worstA > 0.03 || worstW > 0.03 {
			t.Errorf("%s: volume off by %.2f %%, surface by %.2f %%, wall by %.2f %%", name, worstV*100, worstA*100, worstW*100)
		}
		t.Logf("%s: largest deviation up to the last mark: volume %.2f %%, surface %.2f %%, wall %.2f %%; at the rim: volume %.2f %%, surface %.2f %%", name,
			worstV*100, worstA*100, worstW*100, float64(j.Volume(1)/pail.Volume(1)-1)*100, float64(j.Surface(1)/pail.Surface(1)-1)*100)
	}
}

func TestParseJug(t *testing.T) {
	for typed, want := range map[string]string{
		"jug 5L=8.4cm 10L=16.1cm 36.8cm":                  "jug 5L=8.4cm 10L=16.1cm 36.8cm",
		"Jug 5 L = 8,4 cm 10 L=16.1 cm 36.8 cm stainless": "jug 5L=8.4cm 10L=16.1cm 36.8cm stainless",
		"jug 5L =8.4cm 36.8cm hdpe":                       "jug 5L=8.4cm 36.8cm HDPE",
		"jug 500mL=2cm 2cm":                               "jug 0.5L=2cm 2cm",
	} {
		v, err := Parse(typed, quantity.Metric)
		if err != nil || v.String() != want {
			t.Errorf("%q: %v, %v", typed, v, err)
		}
	}
	for typed, want := range map[string]string{
		"jug":                           jugForm,
		"jug 36.8cm":                    jugForm,
		"jug 5L=8.4cm":                  jugForm,
		"jug 5L 8.4cm 36.8cm":           "5L is no jug mark; " + jugForm,
		"jug 5L=8.4cm 5L=9cm 36.8cm":    "a jug table rises in litres and in depth; 5L=9cm does not lie above 5L=8.4cm",
		"jug 5L=8.4cm 10L=8.4cm 36.8cm": "a jug table rises in litres and in depth; 10L=8.4cm does not lie above 5L=8.4cm",
		"jug 5L=8.4cm 10L=40cm 36.8cm":  "10L=40cm lies above the rim, which is at 36.8 cm",
		"jug 0L=0cm 10L=16.1cm 36.8cm":  "a jug mark is above 0 L and above 0 cm; 0L=0cm is given",
		"jug 5cm=8.4L 36.8cm":           "5cm is a length; a volume is needed, such as 60 L",
		"jug 5L=8.4cm 10L=16.1cm 600cm": "a vessel has no measure above 500 cm; 600 cm is given",
		"jug 5000L=8.4cm 36.8cm":        "up to 5000L=8.4cm the vessel would be 870.6 cm across; no vat is below 1 cm or above 500 cm",
		"jug 5L=8.4cm 5.001L=16cm 36cm": "between 5L=8.4cm and 5.001L=16cm the vessel would be 4.1 mm across; no vat is below 1 cm or above 500 cm",
		"jug 5L=8.4cm 36.8cm plastic":   "plastic is of several kinds; look at the mark underneath and write HDPE (2), LDPE (4) or PP (5)",
	} {
		if _, err := Parse(typed, quantity.Metric); err == nil || err.Error() != want {
			t.Errorf("%q:\n got %v\nwant %s", typed, err, want)
		}
	}
	if _, err := NewJug(make([]Mark, MostMarks+1), 1); err == nil || err.Error() != "a jug table holds 24 marks at most; leave out those that lie close together" {
		t.Error(err)
	}
	var none Jug
	if none.Volume(1) != 0 || none.Depth(1) != 0 || none.Surface(1) != 0 || none.WettedWall(1) != 0 {
		t.Error("the zero jug")
	}
}
