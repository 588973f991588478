package water

import (
	"errors"
	"math"
	"testing"

	"example.org/vatside/model/quantity"
	"pgregory.net/rapid"
)

func TestStoves(t *testing.T) {
	for _, s := range Stoves() {
		if back, err := ParseStove(s.String()); err != nil || back != s || !(s.Reaches() > 0 && s.Reaches() < 1) {
			t.Errorf("%v: %v, %v", s, back, err)
		}
	}
	if s, err := ParseStove(" Gas "); s != Gas || err != nil {
		t.Error(s, err)
	}
	if none := Stove(0); none.String() != "" || none.Reaches() != 0 || Stove(9).String() != "" || Stove(-1).String() != "" {
		t.Error("none")
	}
	// 15 L from 15 to 40 °C at 1000 W is 26.1 min when all reaches the water (heating_mixing.csv), so 65.3 on gas.
	if s, err := HeatTime(15, 15, 40, 1000, Gas.Reaches()); err != nil || math.Abs(s.Minutes()-26.1/0.4) > 0.1 {
		t.Error(s, err)
	}
	for want, err := range map[string]error{
		"no stove is given; write gas, electric, induction or immersion":                                                                               second(ParseStove("")),
		"fire%?[1m is not a stove known here; write gas, electric, induction or immersion":                                                             second(ParseStove("fire%\x1b[1m")),
		"0 % is no part of a power that can reach the water; it is above 0 % and at most 100 %":                                                        second(HeatTime(15, 15, 40, 1000, 0)),
		"120 % is no part of a power that can reach the water; it is above 0 % and at most 100 %":                                                      second(HeatTime(15, 15, 40, 1000, 1.2)),
		"15 L from 15 °C to 40 °C takes 26 min 7 s with all of 1 kW, so it cannot have taken 20 min; look again at the power, the volume and the time": second(Timed(15, 15, 40, quantity.Minutes(20), 1000)),
		"15 L from 15 °C to 15 °C tells nothing; time a pot that gets warmer":                                                                          second(Timed(15, 15, 15, quantity.Minutes(20), 1000)),
		"0 s is no time for a pot; it must be above 0 s":                                                                                               second(Timed(15, 15, 40, 0, 1000)),
		"0 W heats nothing; the power must be above 0 W":                                                                                               second(Timed(15, 15, 40, quantity.Minutes(20), 0)),
	} {
		var le *LimitError
		if !errors.As(err, &le) || le.Error() != want {
			t.Errorf("got %v\nwant %s", err, want)
		}
	}
}

// A pot timed as HeatTime foretells gives its part back, up to 100 % and no further.
func TestTimed(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := quantity.Litres(rapid.Float64Range(0.5, 50).Draw(t, "volume"))
		from := quantity.Celsius(rapid.Float64Range(0, 90).Draw(t, "from"))
		to := from + quantity.Celsius(rapid.Float64Range(1, 10).Draw(t, "rise"))
		p, part := quantity.Watts(rapid.Float64Range(100, 5000).Draw(t, "power")), quantity.Share(rapid.Float64Range(0.05, 1).Draw(t, "part"))
		took := must[quantity.Span](t)(HeatTime(v, from, to, p, part))
		if back := must[quantity.Share](t)(Timed(v, from, to, took, p)); math.Abs(float64(back-part)) > 1e-6 || back > 1 {
			t.Fatalf("%v for %v", back, part)
		}
		if _, err := Timed(v, from, to, quantity.Seconds(took.Seconds()*part.Fraction()*0.99), p); err == nil {
			t.Fatal("more than 100 % is taken")
		}
	})
}

// poured is what comes of the rest poured onto what is there: mass, and temperature by the heat balance.
func poured(f Filling, r Rest) (kilos float64, at quantity.Temperature) {
	there, c, h := MassOf(f.Have, f.HaveAt).Kilograms(), MassOf(r.Cold, f.Cold).Kilograms(), MassOf(r.Hot, f.Hot).Kilograms()
	kilos = there + c + h
	return kilos, holding((there*Enthalpy(f.HaveAt) + c*Enthalpy(f.Cold) + h*Enthalpy(f.Hot)) / kilos)
}

func drawFilling(t *rapid.T) Filling {
	f := Filling{Fill: quantity.Litres(rapid.Float64Range(1, 200).Draw(t, "fill")), Cold: quantity.Celsius(rapid.Float64Range(2, 25).Draw(t, "cold"))}
	f.Hot = f.Cold + quantity.Celsius(rapid.Float64Range(5, 70).Draw(t, "hotter"))
	f.Aim = f.Cold + (f.Hot-f.Cold)*quantity.Temperature(rapid.Float64Range(0, 1).Draw(t, "aim"))
	if rapid.Bool().Draw(t, "pots") {
		f.Pot = quantity.Litres(rapid.Float64Range(0.5, 20).Draw(t, "pot"))
	}
	return f
}

// The rest poured onto what is there gives the fill at its aim, in mass and heat, whenever nothing is said; otherwise what
// is said comes true. Nothing is ever below nothing, and the vessel never holds more than the fill.
func TestRestBalances(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := drawFilling(t)
		f.Have = f.Fill * quantity.Volume(rapid.Float64Range(0, 1.1).Draw(t, "have"))
		f.HaveAt = quantity.Celsius(rapid.Float64Range(0, 100).Draw(t, "have at"))
		r := must[Rest](t)(f.Rest())
		if r.Cold < 0 || r.Hot < 0 || r.Pots < 0 || r.ColdCarries < 0 || r.HotCarries < 0 {
			t.Fatalf("%+v", r)
		}
		kilos, at := poured(f, r)
		full := VolumeOf(quantity.Kilograms(kilos), at)
		if math.Abs(float64(at-r.Reaches)) > 0.1*math.Max(1, 0.001*80/f.Fill.Litres()) { // less than a millilitre is left out
			t.Fatalf("%+v: reaches %v", r, at)
		}
		if f.Have <= f.Fill && full > f.Fill+max(0.0011, f.Fill*1e-9) && r.Cold+r.Hot > 0 {
			t.Fatalf("%+v: %v", r, full)
		}
		if r.Short == "" && (math.Abs(float64(at-f.Aim)) > 0.6 || math.Abs(float64(full-f.Fill)) > 0.0021+float64(f.Fill)*4e-4) {
			t.Fatalf("%+v: %v at %v", r, full, at)
		}
		if r.Short != "" && f.Have <= f.Fill && math.Abs(float64(at-f.Aim)) < 0.4 {
			t.Fatalf("%+v: %v at %v", r, full, at)
		}
		even := func(n int, each, all, most quantity.Volume) {
			if math.Abs(float64(n)*float64(each)-float64(all)) > 1e-9*float64(all) || each > most*(1+1e-8) || (n > 1 && float64(n-1)*float64(most) >= float64(all)) {
				t.Fatalf("%d of %v for %v", n, each, all)
			}
		}
		even(r.ColdCarries, r.ColdCarry, r.Cold, 8)
		if f.Hot >= 50 {
			even(r.HotCarries, r.HotCarry, r.Hot, 4)
		} else {
			even(r.HotCarries, r.HotCarry, r.Hot, 8)
		}
		if f.Pot > 0 {
			even(r.Pots, r.PotFill, r.Hot, f.Pot)
		} else if r.Pots != 0 || r.PotFill != 0 {
			t.Fatalf("%+v", r)
		}
	})
}

// With an empty vessel the rest is Mix. A part of it poured, and read right, leaves the other part to pour.
func TestRestHalfWay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := drawFilling(t)
		hot, cold, err := Mix(f.Fill, f.Cold, f.Hot, f.Aim)
		if err != nil {
			t.Fatal(err)
		}
		near := func(a, b quantity.Volume) bool { return math.Abs(float64(a-b)) <= 0.001+1e-7*f.Fill.Litres() }
		r := must[Rest](t)(f.Rest())
		if !near(r.Hot, hot) || !near(r.Cold, cold) || r.Short != "" || r.Reaches != f.Aim {
			t.Fatalf("%+v for %v and %v", r, hot, cold)
		}
		c, h := cold*quantity.Volume(rapid.Float64Range(0.05, 0.95).Draw(t, "cold in")), hot*quantity.Volume(rapid.Float64Range(0.05, 0.95).Draw(t, "hot in"))
		kilos, at := poured(f, Rest{Cold: c, Hot: h})
		f.Have, f.HaveAt = VolumeOf(quantity.Kilograms(kilos), at), at
		r = must[Rest](t)(f.Rest())
		if !near(r.Hot, hot-h) || !near(r.Cold, cold-c) || r.Short != "" || math.Abs(float64(r.Reaches-f.Aim)) > 1e-3 {
			t.Fatalf("%+v for %v and %v", r, hot-h, cold-c)
		}
	})
}

func TestRestSays(t *testing.T) {
	f := Filling{Fill: 15, Aim: 40, Cold: 12, Hot: 60, Pot: 4}
	r := must[Rest](t)(f.Rest())
	if math.Abs(r.Cold.Litres()-6.20) > 0.01 || math.Abs(r.Hot.Litres()-8.83) > 0.01 || r.Pots != 3 || r.HotCarries != 3 || r.ColdCarries != 1 {
		t.Errorf("%+v", r)
	}
	for _, tt := range []struct {
		have     quantity.Volume
		at       quantity.Temperature
		hot      quantity.Temperature
		want, us string
	}{
		{10, 60, 60, "what is there is too warm: with all the rest cold the fill ends at 44 °C, not at 40 °C; let it cool, or take some out",
			"what is there is too warm: with all the rest cold the fill ends at 111 °F, not at 104 °F; let it cool, or take some out"},
		{10, 20, 60, "what is there is too cold: with all the rest hot the fill ends at 33 °C, not at 40 °C; heat the rest more, or take some out",
			"what is there is too cold: with all the rest hot the fill ends at 92 °F, not at 104 °F; heat the rest more, or take some out"},
		{17, 40, 60, "17 L is in the vessel already, more than the fill of 15 L; nothing is to be poured",
			"4.49 gal is in the vessel already, more than the fill of 3.96 gal; nothing is to be poured"},
		{15, 36, 60, "the fill is in, at 36 °C, not at 40 °C; let it cool, or heat it", "the fill is in, at 97 °F, not at 104 °F; let it cool, or heat it"},
		{15, 40.2, 60, "", ""},
		{10, 38, 60, "", ""},
	} {
		f.Have, f.HaveAt, f.Hot = tt.have, tt.at, tt.hot
		r := must[Rest](t)(f.Rest())
		if r.Short != tt.want || r.ShortIn(quantity.US) != tt.us || r.ShortIn(quantity.Metric) != tt.want {
			t.Errorf("%v at %v: %q, %q", tt.have, tt.at, r.Short, r.ShortIn(quantity.US))
		}
	}
	nan := math.NaN()
	for want, f := range map[string]Filling{
		"65 °C cannot be mixed from water of 60 °C at most; aim at 60 °C or lower, or heat more": {Fill: 15, Aim: 65, Cold: 12, Hot: 60},
		"the hot water, 12 °C, is colder than the cold, 60 °C":                                   {Fill: 15, Aim: 40, Cold: 60, Hot: 12, Have: 3, HaveAt: 20},
		"? °C is outside what water can be here; it goes from 0 °C to 100 °C":                    {Fill: 15, Aim: 40, Cold: 12, Hot: 60, Have: 3, HaveAt: quantity.Temperature(nan)},
		"-1 L is no fill; it must be 0 L or more":                                                {Fill: 15, Aim: 40, Cold: 12, Hot: 60, Have: -1},
	} {
		if _, err := f.Rest(); err == nil || err.Error() != want {
			t.Errorf("got %v\nwant %s", err, want)
		}
	}
}
