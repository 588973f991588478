package quantity

import (
	"math"
	"strconv"
	"strings"

	"example.org/vatside/model/wording"
)

// Quantity is what every type here can do for a reader.
type Quantity interface {
	Format(System) string
	String() string
}

// String is Format in Metric.

func (c Concentration) String() string { return c.Format(Metric) }
func (r Ratio) String() string         { return r.Format(Metric) }
func (w Wetting) String() string       { return w.Format(Metric) }
func (m Molarity) String() string      { return m.Format(Metric) }
func (s Share) String() string         { return s.Format(Metric) }
func (p Pressure) String() string      { return p.Format(Metric) }
func (p Power) String() string         { return p.Format(Metric) }
func (e Energy) String() string        { return e.Format(Metric) }
func (l Length) String() string        { return l.Format(Metric) }
func (a Area) String() string          { return a.Format(Metric) }
func (m Mass) String() string          { return m.Format(Metric) }
func (t Temperature) String() string   { return t.Format(Metric) }
func (d TempDiff) String() string      { return d.Format(Metric) }
func (v Volume) String() string        { return v.Format(Metric) }
func (s Span) String() string          { return s.Format(Metric) }

// Both shows a quantity in metric and beside it in another system, for recipes that are shared: "60 L (15.9 US gal)".
// With other Metric, or where the two look the same, it is the metric form alone.
func Both(q Quantity, other System) string {
	a, b := q.Format(Metric), q.Format(other)
	if a == b || other == Metric {
		return a
	}
	whose := wording.Either(other == Imperial, "imp ", "US ")
	for _, u := range []string{"gal", "qt", "pt", "fl oz"} {
		b = strings.Replace(b, u, whose+u, 1)
	}
	return a + " (" + b + ")"
}

// step is one way to show a quantity: in this unit, with these decimals, while the rounded figure is below a bound.
// Because the rounded figure is compared, 999.6 mL goes on to the next step and is shown as 1 L.
type step struct {
	unit     string
	size     float64 // base units in one of the unit
	decimals int     // or -n for n significant figures
	below    float64
}

// unitSteps are the ways to show a quantity in one system of units; zero is the unit that nothing is shown in.
type unitSteps struct {
	zero  string
	steps []step
}

// shown are the ways of each System.
type shown [Imperial + 1]unitSteps

// plain is a figure without trailing zeros and its unit.
func (w shown) plain(v float64, sys System) string { return plain(v, w[sys].zero, w[sys].steps) }

// always is the bound of a last step.
var always = math.Inf(1)

// pick rounds v by the first step that fits; zero is shown in the unit given. The figure keeps its trailing zeros.
func pick(v float64, zero string, steps []step) (figure, unit string) {
	if v == 0 {
		return "0", zero
	}
	for _, s := range steps {
		f, r := round(v/s.size, s.decimals)
		if math.Abs(r) < s.below {
			return f, s.unit
		}
	}
	f, _ := round(v/steps[len(steps)-1].size, 0)
	return f, steps[len(steps)-1].unit
}

// round gives x with so many decimals, or -n for n significant figures, as text and as the number the text says.
func round(x float64, decimals int) (string, float64) {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return "?", x
	}
	if decimals < 0 {
		places := 0
		if x != 0 {
			places = -decimals - 1 - int(math.Floor(math.Log10(math.Abs(x))))
		}
		if places < 0 { // 1234 to two figures is 1200
			r, _ := strconv.ParseFloat(strconv.FormatFloat(x, 'e', -decimals-1, 64), 64)
			x, places = r, 0
		}
		decimals = min(places, 20)
	}
	s := strconv.FormatFloat(x, 'f', decimals, 64)
	r, _ := strconv.ParseFloat(s, 64)
	if r == 0 {
		s = strings.TrimPrefix(s, "-")
	}
	return s, r
}

// TwoFigures is an amount to two figures, where more is not known; nothing for one that is not above zero.
func TwoFigures[T ~float64](m T) T {
	if !(m > 0) {
		return 0
	}
	step := math.Pow(10, math.Floor(math.Log10(float64(m)))-1)
	return T(math.Round(float64(m)/step) * step)
}

// trim drops the zeros after the last figure that says something: "20.0" is "20".
func trim(s string) string {
	if !strings.Contains(s, ".") {
		return s
	}
	return strings.TrimSuffix(strings.TrimRight(s, "0"), ".")
}

// trimmed is v to six decimals without trailing zeros.
func trimmed(v float64) string {
	s, _ := round(v, 6)
	return trim(s)
}

// plain is a figure without trailing zeros and its unit.
func plain(v float64, zero string, steps []step) string {
	f, u := pick(v, zero, steps)
	return trim(f) + " " + u
}
