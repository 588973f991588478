package water

import (
	"fmt"
	"math"
	"testing"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/vessel"
	"pgregory.net/rapid"
)

// The pail on a table in the yard: 15 L from 50 °C in air of 20 °C and 50 %. What an open vat loses in an hour, a lid
// halves for the surface; a lid and 25 mm of foam keep it dyeing warm all day.
func TestPail(t *testing.T) {
	open := Standing{Vessel: pail, Fill: 15, Air: room}
	lid, wrapped := open, open
	lid.Lid = true
	wrapped.Lid, wrapped.Wrap = true, 0.025
	var last [3]quantity.Temperature
	for _, h := range []float64{1, 2, 4} {
		for i, s := range []Standing{open, lid, wrapped} {
			last[i] = must[quantity.Temperature](t)(s.After(50, quantity.Hours(h)))
		}
		if !(last[0]+1 < last[1] && last[1]+1 < last[2]) {
			t.Errorf("%v h: %v", h, last)
		}
		t.Logf("%v h: open %.1f, lid %.1f, lid and wrap %.1f °C", h, last[0].Celsius(), last[1].Celsius(), last[2].Celsius())
	}
}

// A vat goes one way only, to where it comes to rest: at the air's temperature under a lid, between the wet bulb and the
// air when open. Two forecasts one after the other are one. More in the same upright vessel cools slower.
func TestForecast(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawStanding(t)
		from := quantity.Celsius(rapid.Float64Range(0, 100).Draw(t, "from"))
		over, each := quantity.Hours(rapid.Float64Range(0.1, 60).Draw(t, "hours")), quantity.Minutes(rapid.Float64Range(5, 90).Draw(t, "each"))
		ps := must[[]Point](t)(s.Forecast(from, over, each))
		rest := must[quantity.Temperature](t)(s.settles())
		if ps[0] != (Point{0, from}) || ps[len(ps)-1].After != over {
			t.Fatalf("%v … %v", ps[0], ps[len(ps)-1])
		}
		for i, p := range ps[1:] {
			before := ps[i]
			if p.After <= before.After || math.IsNaN(p.Temp.Celsius()) || math.Abs(float64(p.Temp-rest)) > math.Abs(float64(before.Temp-rest))+1e-9 ||
				float64(p.Temp-rest)*float64(from-rest) < -1e-6 {
				t.Fatalf("%v after %v, to rest at %v", p, before, rest)
			}
		}
		if wet := wetBulb(s.Air); float64(rest) < wet-0.05 || rest > s.Air.Temp+0.05 {
			t.Fatalf("comes to rest at %v; air %v, wet bulb %v", rest, s.Air.Temp, wet)
		}
		end := must[quantity.Temperature](t)(s.After(from, over))
		if d := end - ps[len(ps)-1].Temp; math.Abs(float64(d)) > 1e-3 {
			t.Fatalf("%v K between steps and one go", d)
		}
		_, tapers := s.Vessel.Shape.(vessel.Frustum)
		if less := s; from > s.Air.Temp+1 && !tapers { // one that narrows upwards has more wall a litre the fuller it is
			less.Fill *= 0.7
			if cooler := must[quantity.Temperature](t)(less.After(from, over)); cooler > end+1e-3 {
				t.Fatalf("%v of %v are warmer than %v of %v", cooler, less.Fill, end, s.Fill)
			}
		}
	})
}

// wetBulb is the temperature of a wetted thermometer in a draught, by the psychrometer formula with 6.6e-4 /K.
func wetBulb(a Air) float64 {
	lo, hi := -30.0, a.Temp.Celsius()
	for range 60 {
		mid := (lo + hi) / 2
		if p, _ := saturation(mid + 273.15); p-6.6e-4*a.pascals()*(a.Temp.Celsius()-mid) > a.vapour() {
			hi = mid
		} else {
			lo = mid
		}
	}
	return hi
}

// What the liquor and the wall gave off is the loss summed over the time, and with a heater what it put in besides. The
// sum here is by the exact losses at 300 times, without the course's table.
func TestEnergyIsKept(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawStanding(t)
		s.Heater = quantity.Watts(rapid.Float64Range(0, 500).Draw(t, "heater"))
		s.Factor = rapid.Float64Range(0.3, 3).Draw(t, "factor")
		from := quantity.Celsius(rapid.Float64Range(1, 80).Draw(t, "from"))
		over := quantity.Hours(rapid.Float64Range(0.2, 2).Draw(t, "hours"))
		const n = 300
		ps := must[[]Point](t)(s.Forecast(from, over, over/n))
		sum, gross := 0.0, 0.0
		for i, p := range ps[1:] {
			if p.Temp < 0.01 || p.Temp > 99.99 {
				t.Skip("held at the bounds")
			}
			mean := (must[Loss](t)(s.Loss(p.Temp)).Total() + must[Loss](t)(s.Loss(ps[i].Temp)).Total()).Watts() / 2
			seconds := (p.After - ps[i].After).Seconds()
			sum += (s.Heater.Watts() - mean) * seconds
			gross += (s.Heater.Watts() + math.Abs(mean)) * seconds
		}
		b, end := s.body(), ps[len(ps)-1].Temp
		kept := MassOf(s.Fill, weighedAt).Kilograms()*1000*(Enthalpy(end)-Enthalpy(from)) + b.wallHeat*float64(end-from)
		// Two parts in a thousand, and three hundredths of a degree: near the air's temperature the table is the coarser.
		if warmth := kept / float64(end-from); math.Abs(kept-sum) > 2e-3*gross+3e-2*warmth {
			t.Fatalf("%v J kept, %v J passed (%v J in all)", kept, sum, gross)
		}
	})
}

// Until and HeatBack are Forecast read the other way.
func TestUntil(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawStanding(t)
		s.Heater = quantity.Watts(rapid.Float64Range(0, 3000).Draw(t, "heater"))
		from := quantity.Celsius(rapid.Float64Range(1, 95).Draw(t, "from"))
		over := quantity.Hours(rapid.Float64Range(0.1, 20).Draw(t, "hours"))
		end := must[quantity.Temperature](t)(s.After(from, over))
		if d := math.Abs(float64(end - from)); d < 0.01 || end < 0.1 || end > 99.9 || math.Abs(s.course().rate(end.Celsius())) < 1e-6 {
			t.Skip("at rest")
		}
		after, reached, err := s.Until(from, end, 2*over)
		if err != nil || !reached || math.Abs(after.Seconds()-over.Seconds()) > 1+1e-3*over.Seconds() {
			t.Fatalf("%v to %v: %v for %v, %v, %v", from, end, after, over, reached, err)
		}
		if _, reached, _ := s.Until(from, end, over*9/10); reached {
			t.Fatal("reached too soon")
		}
		if after, reached, _ := s.Until(from, min(max(from+(from-end)/2, 0), 100), over); reached || after != over {
			t.Fatal("the wrong way")
		}
		back, ok, err := s.HeatBack(from, end)
		switch {
		case err != nil:
			t.Fatal(err)
		case end < from && (!ok || back != 0):
			t.Fatal("warm enough already")
		case end > from && (!ok || math.Abs(back.Seconds()-over.Seconds()) > 1+1e-3*over.Seconds()):
			t.Fatalf("%v, %v for %v", back, ok, over)
		}
	})
	cold := Standing{Vessel: pail, Fill: 15, Air: room, Heater: 100}
	if back, ok, err := cold.HeatBack(20, 80); ok || back != 0 || err != nil {
		t.Errorf("100 W: %v, %v, %v", back, ok, err)
	}
	cold.Heater = 0
	if _, ok, _ := cold.HeatBack(30, 40); ok {
		t.Error("no heater")
	}
	if _, reached, err := cold.Until(30, 30, 0); !reached || err != nil {
		t.Error("there already")
	}
	if end := must[quantity.Temperature](t)((Standing{Vessel: pail, Fill: 15, Air: room, Heater: 5000}).After(20, quantity.Hours(9))); end != 100 {
		t.Errorf("boils at %v", end)
	}
	if end := must[quantity.Temperature](t)((Standing{Vessel: pail, Fill: 15, Air: Air{-20, 0.5, 0}}).After(20, quantity.Days(9))); end != 0 {
		t.Errorf("freezes at %v", end)
	}
}

// A day in stretches: points at every step and at every change, and each stretch goes on from the one before.
func TestRun(t *testing.T) {
	open := Standing{Vessel: pail, Fill: 15, Air: room}
	lid, heated := open, open
	lid.Lid = true
	heated.Heater = 500
	day := []Stretch{{open, quantity.Minutes(50)}, {lid, quantity.Minutes(70)}, {heated, quantity.Minutes(30)}}
	ps := must[[]Point](t)(Run(45, day, quantity.Minutes(20)))
	var at []float64
	for _, p := range ps {
		at = append(at, p.After.Minutes())
	}
	want := []float64{0, 20, 40, 50, 60, 80, 100, 120, 140, 150}
	if len(at) != len(want) {
		t.Fatal(at)
	}
	for i := range want {
		if at[i] != want[i] {
			t.Fatal(at)
		}
	}
	a := must[quantity.Temperature](t)(open.After(45, quantity.Minutes(50)))
	b := must[quantity.Temperature](t)(lid.After(a, quantity.Minutes(70)))
	c := must[quantity.Temperature](t)(heated.After(b, quantity.Minutes(30)))
	if math.Abs(float64(ps[3].Temp-a)) > 1e-4 || math.Abs(float64(ps[7].Temp-b)) > 1e-4 || math.Abs(float64(ps[9].Temp-c)) > 1e-4 || c < b {
		t.Errorf("%v; %v, %v, %v", ps, a, b, c)
	}
	if ps := must[[]Point](t)(Run(45, nil, 1)); len(ps) != 1 {
		t.Error(ps)
	}
	for _, tt := range []struct {
		err  error
		want string
	}{
		{second(open.Forecast(120, 1, 1)), "120 °C is outside what water can be here; it goes from 0 °C to 100 °C"},
		{second(open.Forecast(40, quantity.Hours(1), 0)), "0 s is no step from point to point; it must be above 0 s"},
		{second(open.Forecast(40, -quantity.Hours(1), 1)), "-1 h is no time to go on; it must be 0 s or more"},
		{second(open.Forecast(40, quantity.Days(300), quantity.Minutes(1))), "a point every 1 min is more than the 100000 that a forecast holds; take longer steps"},
		{second(Run(40, []Stretch{{Standing{}, 1}}, 1)), "no vessel is given, so nothing can be said of its heat"},
	} {
		if tt.err == nil || tt.err.Error() != tt.want {
			t.Errorf("got %v\nwant %s", tt.err, tt.want)
		}
	}
}

func second[T any](_ T, err error) error { return err }

// A small step in a forecast's inputs is a small step in its end.
func TestForecastIsSmooth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawStanding(t)
		from, over := quantity.Celsius(rapid.Float64Range(1, 95).Draw(t, "from")), quantity.Hours(rapid.Float64Range(0, 24).Draw(t, "hours"))
		end := must[quantity.Temperature](t)(s.After(from, over))
		near := func(what string, s Standing, from quantity.Temperature, over quantity.Span) {
			if got := must[quantity.Temperature](t)(s.After(from, over)); math.Abs(float64(got-end)) > 2e-3 {
				t.Fatalf("%s: from %v to %v", what, end, got)
			}
		}
		near("start", s, from+1e-4, over)
		near("time", s, from, over+quantity.Seconds(0.01))
		o := s
		o.Air.Temp += 1e-4
		near("air", o, from, over)
		o = s
		o.Fill *= 1 - 1e-6
		near("fill", o, from, over)
		o = s
		o.Factor = 1 + 1e-6
		near("factor", o, from, over)
	})
}

// Two readings made up with a factor give that factor back, within what half a degree and the prior leave.
func TestFitFindsTheFactor(t *testing.T) {
	s := Standing{Vessel: pail, Fill: 15, Air: room}
	lid := s
	lid.Lid = true
	for _, factor := range []float64{0.5, 0.8, 1, 1.3, 2} {
		made := func(s Standing, hours float64) Pair {
			real := s
			real.Factor = factor
			return Pair{50, must[quantity.Temperature](t)(real.After(50, quantity.Hours(hours))), []Stretch{{s, quantity.Hours(hours)}}}
		}
		one := Fit([]Pair{made(s, 2)})
		more := Fit([]Pair{made(s, 2), made(lid, 3), made(s, 3)})
		if one.Pairs != 1 || more.Pairs != 3 || math.Abs(one.Factor/factor-1) > 0.07 || math.Abs(more.Factor/factor-1) > 0.03 ||
			!(one.Low < factor && factor < one.High) || more.High-more.Low >= one.High-one.Low {
			t.Errorf("%v: %+v, %+v", factor, one, more)
		}
		t.Logf("factor %v: one pair %.3f (%.2f to %.2f), three %.3f (%.2f to %.2f)", factor, one.Factor, one.Low, one.High, more.Factor, more.Low, more.High)
	}
}

// Pairs that teach nothing change nothing, and nothing drives the factor out of bounds.
func TestFitIsRobust(t *testing.T) {
	none := Fit(nil)
	if none.Factor != 1 || none.Pairs != 0 || math.Abs(none.Low*none.High-1) > 1e-12 || none.Low < 0.63 || none.Low > 0.65 {
		t.Errorf("%+v", none)
	}
	s := Standing{Vessel: pail, Fill: 15, Air: room}
	heated, wrong := s, s
	heated.Heater = 300
	wrong.Fill = 99
	hour := quantity.Hours(1)
	useless := []Pair{
		{}, {50, 49, nil}, {50, 50, []Stretch{{s, quantity.Minutes(2)}}}, {50, 48, []Stretch{{s, hour}, {heated, hour}}}, {40, 45, []Stretch{{s, hour}}},
		{50, 40, []Stretch{{wrong, hour}}}, {quantity.Temperature(math.NaN()), 40, []Stretch{{s, hour}}}, {50, quantity.Temperature(math.NaN()), []Stretch{{s, hour}}},
		{20, 19, []Stretch{{s, hour}}}, {50, 40, []Stretch{{s, -hour}}}, {150, 40, []Stretch{{s, hour}}},
	}
	if got := Fit(useless); got != none {
		t.Errorf("%+v", got)
	}
	for _, to := range []quantity.Temperature{0, 50} {
		wild := Pair{50, to, []Stretch{{s, 5 * hour}}}
		f := Fit([]Pair{wild, wild, wild})
		if !(f.Low >= 1./3-1e-9 && f.Low <= f.Factor && f.Factor <= f.High && f.High <= 3+1e-9) || f.Pairs != 3 {
			t.Errorf("%v: %+v", to, f)
		}
	}
}

func BenchmarkForecast12h(b *testing.B) {
	for name, s := range map[string]Standing{
		"open":        {Vessel: pail, Fill: 15, Air: room},
		"lid":         {Vessel: pail, Fill: 15, Air: room, Lid: true},
		"lid_wrapped": {Vessel: pail, Fill: 15, Air: room, Lid: true, Wrap: 0.025},
	} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				if _, err := s.Forecast(50, quantity.Hours(12), quantity.Minutes(10)); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkFit10(b *testing.B) {
	s := Standing{Vessel: pail, Fill: 15, Air: room, Lid: true}
	pairs := make([]Pair, 10)
	for i := range pairs {
		pairs[i] = Pair{50, 42, []Stretch{{s, quantity.Hours(2)}}}
	}
	for b.Loop() {
		Fit(pairs)
	}
}

// A film of water on a wide floor, and a heater far too large: they settle in moments, and a long time ahead costs nothing.
func TestExtremes(t *testing.T) {
	tray := vessel.Vessel{Shape: vessel.Box{Length: 5, Width: 5, Height: 0.3}, Material: vessel.Stainless}
	for _, s := range []Standing{
		{Vessel: tray, Fill: 0.01, Air: room}, {Vessel: tray, Fill: 0.01, Air: room, Lid: true, Wrap: 0.5}, {Vessel: tray, Fill: 0.01, Air: room, Heater: 1e5, Factor: 10},
		{Vessel: tray, Fill: 7500, Air: room, Heater: 1e5}, {Vessel: pail, Fill: pail.Brim(), Air: room, Lid: true, Sheet: true, Wall: 0.2, Wrap: 0.5},
		{Vessel: pail, Fill: 15, Air: Air{100, 1, 110000}}, {Vessel: pail, Fill: 15, Air: Air{-40, 0, 50000}, Factor: 0.001},
	} {
		for _, from := range []quantity.Temperature{0, 20, 50, 100} {
			end := must[quantity.Temperature](t)(s.After(from, quantity.Days(365)))
			rest := must[quantity.Temperature](t)(s.settles())
			if !(end >= 0 && end <= 100) || s.Fill < 100 && s.Wrap == 0 && s.Factor != 0.001 && math.Abs(float64(end-rest)) > 0.01 {
				t.Errorf("%+v from %v: %v, to rest at %v", s, from, end, rest)
			}
		}
	}
}

// The two temperatures of a worked day, for who reads the code: an open pail of 15 L, and with a lid.
func ExampleStanding_After() {
	s := Standing{Vessel: pail, Fill: 15, Air: Air{Temp: 20, Humidity: quantity.Percent(50)}}
	open, _ := s.After(50, quantity.Hours(2))
	s.Lid = true
	lidded, _ := s.After(50, quantity.Hours(2))
	fmt.Println(open, "open,", lidded, "under a lid")
	// Output: 37.5 °C open, 41.5 °C under a lid
}

// settles is the temperature at which the vat comes to rest in the end, between 0 and 100 °C: a little below the air's if
// it is open, with a heater where the losses are as much. Errors are those of Check.
func (s Standing) settles() (quantity.Temperature, error) {
	if err := s.Check(); err != nil {
		return 0, err
	}
	c := s.course()
	lo, hi := Coldest.Celsius(), Hottest.Celsius()
	for range 50 {
		mid := (lo + hi) / 2
		if c.rate(mid) > 0 {
			lo = mid
		} else {
			hi = mid
		}
	}
	return quantity.Celsius((lo + hi) / 2), nil
}

// The fit's cubic through some of the factors is what walking each of them gives.
func TestFitBetweenWalks(t *testing.T) {
	s := Standing{Vessel: pail, Fill: 15, Air: room}
	lid := s
	lid.Lid = true
	p := Pair{60, 30, []Stretch{{s, quantity.Hours(1)}, {lid, quantity.Hours(5)}, {s, quantity.Hours(2)}}}
	courses, span := p.courses(), math.Log(farFactor)
	factor := func(i float64) float64 { return math.Exp(span * (2*i/fitSteps - 1)) }
	var ends []float64
	for i := 0; i <= fitSteps; i += fitApart {
		ends = append(ends, p.end(courses, factor(float64(i))))
	}
	for i := range fitSteps + 1 {
		if got, want := through(ends, float64(i)/fitApart), p.end(courses, factor(float64(i))); math.Abs(got-want) > 2e-4 {
			t.Errorf("factor %.3f: %.5f °C, walked %.5f", factor(float64(i)), got, want)
		}
	}
}

// What is kept changes no figure, whatever was asked before.
func TestKeepingChangesNothing(t *testing.T) {
	s := Standing{Vessel: pail, Fill: 15, Air: room}
	kept := s.Keeping()
	for i := range 40 {
		for _, st := range []*Standing{&s, &kept} {
			st.Lid, st.Fill, st.Factor, st.Heater = i%2 == 1, quantity.Volume(15-i%3), float64(1+i%4)/2, quantity.Power(100*(i%5))
		}
		want := must[quantity.Temperature](t)(s.After(quantity.Celsius(float64(20+i)), quantity.Hours(6)))
		if got := must[quantity.Temperature](t)(kept.After(quantity.Celsius(float64(20+i)), quantity.Hours(6))); math.Abs(float64(got-want)) > 1e-8 {
			t.Errorf("%+v: %v, and kept %v", s, want, got)
		}
	}
	if n := len(*kept.kept); n != 6 {
		t.Errorf("%d ways of standing are kept, of 6", n)
	}
}
