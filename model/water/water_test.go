package water

import (
	"errors"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"example.org/vatside/model/quantity"
	"pgregory.net/rapid"
)

// rows reads a reference table: comments, then a head, then rows.
func rows(t *testing.T, name string) [][]string {
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

// The whole of water.csv (IAPWS-95, 101325 Pa): 0.01 % is allowed. Only differences of enthalpy
// mean anything and at 0 °C it is near nothing: 0.01 % is taken of the heat of one kelvin there.
func TestAgainstIAPWS95(t *testing.T) {
	var worstD, worstH float64
	for _, r := range rows(t, "water.csv") {
		c := quantity.Celsius(figure(t, r[0]))
		d, h := figure(t, r[1]), figure(t, r[3])
		dd := math.Abs(Density(c)*1000-d) / d
		dh := math.Abs(Enthalpy(c)-h) / math.Max(h, 4.2)
		worstD, worstH = math.Max(worstD, dd), math.Max(worstH, dh)
		if dd > 1e-4 || dh > 1e-4 {
			t.Errorf("%v: density %.4f for %.4f, enthalpy %.4f for %.4f", c, Density(c)*1000, d, Enthalpy(c), h)
		}
	}
	t.Logf("largest deviation: density %.5f %%, enthalpy %.5f %%", worstD*100, worstH*100)
}

// heating_mixing.csv, the exact column: 0.2 % is allowed.
func TestAgainstHeatingMixing(t *testing.T) {
	field := func(s string) string { return s[strings.LastIndexAny(s, "= dt")+1:] }
	value := func(s string) float64 { // "V=15 L", "cold 12 C", "15 C", "1000 W"
		for _, f := range strings.Fields(strings.TrimPrefix(s, "V=")) {
			if v, err := strconv.ParseFloat(f, 64); err == nil {
				return v
			}
		}
		t.Fatalf("no number in %q, %q", s, field(s))
		return 0
	}
	worst := 0.0
	for _, r := range rows(t, "heating_mixing.csv") {
		fill, want, got := quantity.Litres(value(r[1])), figure(t, r[5]), 0.0
		b, c := quantity.Celsius(value(r[2])), quantity.Celsius(value(r[3]))
		if r[0] == "heater_min" {
			s, err := HeatMinutes(fill, b, c, quantity.Watts(value(r[4])))
			if err != nil {
				t.Fatal(err)
			}
			got = s.Minutes()
		} else {
			hot, cold, err := Mix(fill, b, c, quantity.Celsius(value(r[4])))
			if err != nil {
				t.Fatal(err)
			}
			switch r[0] {
			case "mix_hot_L":
				got = hot.Litres()
			case "mix_cold_L":
				got = cold.Litres()
			case "mix_hot_massfraction":
				h := MassOf(hot, c).Grams()
				got = h / (h + MassOf(cold, b).Grams())
			default:
				t.Fatalf("unknown row %v", r)
			}
		}
		d := math.Abs(got-want) / want
		worst = math.Max(worst, d)
		if d > 0.002 {
			t.Errorf("%v: %v", r, got)
		}
	}
	t.Logf("largest deviation: %.4f %%", worst*100)
}

// Density falls and enthalpy rises smoothly from 4 °C up; below 4 °C density rises, as water does.
func TestNoJumps(t *testing.T) {
	last := Enthalpy(0)
	for c := 0.01; c <= 100; c += 0.01 {
		h := Enthalpy(quantity.Celsius(c))
		if d := h - last; d < 0.0417 || d > 0.0423 {
			t.Fatalf("%.2f °C: enthalpy rises by %v kJ/kg in 0.01 K", c, d)
		}
		last = h
		if step := Density(quantity.Celsius(c)) - Density(quantity.Celsius(c-0.01)); (c > 4.1 && step >= 0) || (c < 3.9 && step <= 0) {
			t.Fatalf("%.2f °C: density goes by %v", c, step)
		}
	}
}

// Mixed back together, hot and cold have the mass and the heat of the fill.
func TestMixBalances(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cold := rapid.Float64Range(0, 100).Draw(t, "cold")
		hot := rapid.Float64Range(cold, 100).Draw(t, "hot")
		aim := rapid.Float64Range(cold, hot).Draw(t, "aim")
		fill := quantity.Litres(rapid.Float64Range(0, 500).Draw(t, "fill"))
		c, h, a := quantity.Celsius(cold), quantity.Celsius(hot), quantity.Celsius(aim)
		hl, cl, err := Mix(fill, c, h, a)
		if err != nil {
			t.Fatal(err)
		}
		mh, mc, m := MassOf(hl, h).Grams(), MassOf(cl, c).Grams(), MassOf(fill, a).Grams()
		if hl < 0 || cl < 0 || math.Abs(mh+mc-m) > 1e-9*(m+1) {
			t.Fatalf("%v g and %v g for %v g", mh, mc, m)
		}
		if e := mh*Enthalpy(h) + mc*Enthalpy(c) - m*Enthalpy(a); math.Abs(e) > 1e-6*(m+1) {
			t.Fatalf("heat is off by %v J", e)
		}
	})
}

// What comes of two waters is what Mix took them from; what cannot be water changes nothing.
func TestMixed(t *testing.T) {
	hot, cold, err := Mix(15, 12, 60, 40)
	if got := Mixed(cold, 12, hot, 60); err != nil || math.Abs(got.Celsius()-40) > 0.01 {
		t.Errorf("mixed for 40 °C they make %v, %v", got.Celsius(), err)
	}
	for _, got := range []quantity.Temperature{Mixed(0, 40, 0, 12), Mixed(15, 40, 5, 1e300), Mixed(15, 40, 0, 12)} {
		if math.Abs(got.Celsius()-40) > 0.01 {
			t.Errorf("it is at %v", got.Celsius())
		}
	}
}

func TestImpossibleWishes(t *testing.T) {
	mix := func(fill, cold, hot, aim float64) error {
		_, _, err := Mix(quantity.Litres(fill), quantity.Celsius(cold), quantity.Celsius(hot), quantity.Celsius(aim))
		return err
	}
	heat := func(fill, from, to, watts float64) error {
		_, err := HeatMinutes(quantity.Litres(fill), quantity.Celsius(from), quantity.Celsius(to), quantity.Watts(watts))
		return err
	}
	for _, tt := range []struct {
		err  error
		want string
	}{
		{mix(15, 12, 60, 65), "65 °C cannot be mixed from water of 60 °C at most; aim at 60 °C or lower, or heat more"},
		{mix(15, 12, 60, 60.1), "60.1 °C cannot be mixed from water of 60 °C at most; aim at 60 °C or lower, or heat more"},
		{mix(15, 12, 60, 5), "5 °C cannot be mixed from water of 12 °C at least; aim at 12 °C or higher, or cool it with ice"},
		{mix(15, 60, 12, 40), "the hot water, 12 °C, is colder than the cold, 60 °C"},
		{mix(15, 12, 120, 40), "120 °C is outside what water can be here; it goes from 0 °C to 100 °C"},
		{mix(-1, 12, 60, 40), "-1 L is no fill; it must be 0 L or more"},
		{heat(15, 40, 15, 1000), "heating goes up; 15 °C is below 40 °C"},
		{heat(15, 15, 40, 0), "0 W heats nothing; the power must be above 0 W"},
	} {
		var le *LimitError
		if !errors.As(tt.err, &le) || le.Error() != tt.want {
			t.Errorf("got %v\nwant %s", tt.err, tt.want)
		}
	}
	for _, nan := range []error{mix(math.NaN(), 12, 60, 40), mix(15, math.NaN(), 60, 40), mix(15, 12, 60, math.NaN()), mix(math.Inf(1), 12, 60, 40), heat(15, 15, 40, math.NaN())} {
		if nan == nil {
			t.Error("taken")
		}
	}
	for _, ok := range []error{mix(0, 12, 60, 40), mix(15, 12, 60, 60), mix(15, 12, 60, 12), mix(15, 20, 20, 20), heat(0, 15, 40, 0), heat(15, 15, 15, 0)} {
		if ok != nil {
			t.Error(ok)
		}
	}
}
