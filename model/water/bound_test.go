package water

import (
	"math"
	"reflect"
	"testing"

	"pgregory.net/rapid"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/vessel"
)

// drawnStanding is any vat that Check lets through.
func drawnStanding(t *rapid.T) Standing {
	for {
		text := rapid.SampledFrom([]string{"frustum 36 cm 44 cm 62 cm", "cylinder 26 cm 30 cm", "box 60 cm 80 cm 50 cm", "cylinder 120 cm 100 cm", "cylinder 8 cm 20 cm"}).Draw(t, "vessel")
		v, err := vessel.Parse(text, quantity.Metric)
		if err != nil {
			t.Fatal(err)
		}
		part := func(name string) float64 { return rapid.Float64Range(0, 1).Draw(t, name) }
		s := Standing{
			Vessel: v, Fill: quantity.Volume(v.Brim().Litres() * (0.02 + 0.98*part("full"))), Lid: rapid.Bool().Draw(t, "lid"), Sheet: rapid.Bool().Draw(t, "sheet"),
			Air:  Air{Temp: quantity.Celsius(math.Round(45*part("air")*10) / 10), Humidity: quantity.Share(part("humidity"))},
			Wrap: quantity.Metres(0.5 * part("wrap")), Heater: quantity.Watts(rapid.SampledFrom([]float64{0, 0, 300, 1000, 3000, 100_000}).Draw(t, "heater")),
			Factor: 10 * part("factor"),
		}
		if s.Check() == nil {
			return s
		}
	}
}

// walked is walk without a bound, and in how many paces.
func walked(c *course, t, seconds float64) (end float64, paces int) {
	for took := 0.0; took < seconds; paces++ {
		h, rate, going := c.pace(t)
		if !going {
			break
		}
		h = min(h, seconds-took)
		t, took = c.step(t, rate, h), took+h
	}
	return t, paces
}

// The bound on the paces of a walk is far beyond what any vat takes to come to rest, so it changes no figure: over weeks, and
// over the 292 years that a span holds.
func TestPacesAreFarFromTheirBound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawnStanding(t)
		from := rapid.Float64Range(0, 100).Draw(t, "°C")
		over := rapid.SampledFrom([]quantity.Span{quantity.Minutes(5), quantity.Hours(12), quantity.Days(21), quantity.Days(70), math.MaxInt64}).Draw(t, "over")
		want, paces := walked(s.course(), from, over.Seconds())
		if paces > mostPaces/3 {
			t.Fatalf("it takes %d paces of %d", paces, mostPaces)
		}
		if got, _, _ := s.course().walk(from, over.Seconds(), math.NaN()); got != want {
			t.Errorf("%v, not %v", got, want)
		}
	})
}

// A forecast has its points where they were before spans of centuries were minded.
func TestForecastOfWeeks(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawnStanding(t)
		from := quantity.Celsius(rapid.Float64Range(0, 100).Draw(t, "°C"))
		over := quantity.Minutes(float64(rapid.IntRange(0, 60*24*30).Draw(t, "minutes")))
		each := max(quantity.Minutes(float64(rapid.IntRange(1, 600).Draw(t, "each"))), over/200)
		got, err := Run(from, []Stretch{{s, over}, {s, over / 3}}, each)
		if err != nil {
			t.Fatal(err)
		}
		want, at, now := []Point{{0, from}}, from.Celsius(), quantity.Span(0)
		for _, long := range []quantity.Span{over, over / 3} {
			c, end := s.course(), now+long
			for now < end {
				next := min(end, now-now%each+each)
				at, _ = walked(c, at, (next - now).Seconds())
				now = next
				want = append(want, Point{now, quantity.Celsius(at)})
			}
		}
		if !reflect.DeepEqual(got, want) {
			t.Errorf("%v, not %v", got, want)
		}
	})
}

// The longest spans there are: no overflow, no end of points.
func TestForecastOfCenturies(t *testing.T) {
	v, err := vessel.Parse("frustum 36 cm 44 cm 62 cm", quantity.Metric)
	if err != nil {
		t.Fatal(err)
	}
	s := Standing{Vessel: v, Fill: 50, Air: Air{Temp: 20, Humidity: 0.6}}
	const long = quantity.Span(math.MaxInt64)
	for _, list := range [][]Stretch{{{s, long}}, {{s, long}, {s, long}}, {{s, long - 1}, {s, 7}, {s, long}}} {
		points, err := Run(50, list, long/96)
		if err != nil || len(points) > 96*len(list)+3 {
			t.Fatalf("%d points, %v", len(points), err)
		}
		for i := 1; i < len(points); i++ {
			if points[i].After <= points[i-1].After || points[i].Temp > points[i-1].Temp {
				t.Errorf("%v after %v", points[i], points[i-1])
			}
		}
		if rest, _ := s.settles(); math.Abs((points[len(points)-1].Temp - rest).Celsius()) > 0.01 {
			t.Errorf("after centuries it has %v, and settles at %v", points[len(points)-1].Temp, rest)
		}
	}
}
