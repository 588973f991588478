package quantity

import (
	"math"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// The conversion factors against units.csv (GNU units 2.22, NIST SP 811 definitions), to nine figures.
func TestUnitsAgainstTable(t *testing.T) {
	names := map[string]string{ // the table's names, as they are typed here
		"usgallon": "usgal", "brgallon": "impgal", "usquart": "usqt", "brquart": "impqt", "uscup": "uscup", "metriccup": "metriccup",
		"uspint": "uspt", "brpint": "imppt", "usfloz": "usfloz", "brfloz": "impfloz", "ustablespoon": "ustbsp", "usteaspoon": "ustsp",
		"brtablespoon": "imptbsp", "brteaspoon": "imptsp", "lb/usgallon": "lb/usgal", "oz/usgallon": "oz/usgal", "g/L": "g/L",
		"ft^3": "ft^3", "inch^3": "in^3", "yard^2": "yd^2", "btu/hour": "btu/hour", "gram": "g", "litre": "L",
	}
	// Units that no quantity here is given in.
	elsewhere := map[string]bool{"australiatablespoon": true, "cal_th": true, "cal_IT": true, "btu/hour/ft^2/degF": true, "oz/yard^2": true, "denier": true}
	raw, err := os.ReadFile("../../testdata/reference/units.csv")
	if err != nil {
		t.Fatal(err)
	}
	checked := 0
	for _, line := range strings.Split(string(raw), "\n") {
		cells := strings.Split(strings.TrimSpace(line), ",")
		if len(cells) != 3 || cells[0] == "from" || elsewhere[cells[0]] {
			continue
		}
		want, err := strconv.ParseFloat(cells[2], 64)
		if err != nil {
			t.Fatal(err)
		}
		if number, found := strings.CutPrefix(cells[0], "tempF("); found {
			sameTemperature(t, strings.TrimSuffix(number, ")")+" F", want, cells[2], false)
			checked++
			continue
		}
		if number, found := strings.CutPrefix(cells[0], "tempC("); found {
			sameTemperature(t, strings.TrimSuffix(number, ")")+" C", want, cells[2], true)
			checked++
			continue
		}
		typed := func(name string) string {
			if n := names[name]; n != "" {
				name = n
			}
			return "1 " + name
		}
		ok := false
		for _, p := range parsers {
			a, errA := p(typed(cells[0]), Metric)
			b, errB := p(typed(cells[1]), Metric)
			if errA == nil && errB == nil {
				ok = true
				if math.Abs(a/b-want) > 1e-9*want {
					t.Errorf("%s in %s: %.12g, want %.12g", cells[0], cells[1], a/b, want)
				}
				checked++
			}
		}
		if !ok {
			t.Errorf("%s to %s: not known", cells[0], cells[1])
		}
	}
	if checked < 45 {
		t.Errorf("only %d lines of the table were checked", checked)
	}
}

// sameTemperature allows half of the table's last figure (37.77777778 is 100 °F cut to ten figures), at least 1e-9.
func sameTemperature(t *testing.T, typed string, want float64, written string, inF bool) {
	t.Helper()
	c, err := ParseTemperature(typed, Metric)
	got := c.Celsius()
	if inF {
		got = c.Fahrenheit()
	}
	allow := 1e-9 * math.Max(1, math.Abs(want))
	if _, d, cut := strings.Cut(written, "."); cut && len(d) >= 8 {
		allow = 0.5001 * math.Pow10(-len(d))
	}
	if err != nil || math.Abs(got-want) > allow {
		t.Errorf("%s: %v, %v; want %v", typed, got, err, want)
	}
}

// Powers of ten cost nothing: the number is the one that its figures say.
func TestPowersOfTenAreExact(t *testing.T) {
	if v, _ := ParseLength("25.4 cm", Metric); v != 0.254 {
		t.Errorf("%v", float64(v))
	}
	if v, _ := ParseVolume("35 mL", Metric); v != 0.035 {
		t.Errorf("%v", float64(v))
	}
	if v, _ := ParseShare("57 %", Metric); v != 0.57 {
		t.Errorf("%v", float64(v))
	}
}

// No name means two things, and every name is read back as the unit it belongs to.
func TestUnitNames(t *testing.T) {
	seen := map[string]int{}
	for i, u := range units {
		for _, n := range append(append([]string{}, u.names...), u.cased...) {
			if slices.Contains(u.names, n) {
				n = strings.ToLower(n)
			}
			if j, dup := seen[n]; dup && j != i {
				t.Errorf("%q names two units", n)
			}
			seen[n] = i
			got, ok, _ := resolve(n, Metric, u.kind)
			if !ok || got.kind != u.kind || got.by != u.by || got.ten != u.ten {
				t.Errorf("%q is read as %+v", n, got)
			}
		}
	}
}
