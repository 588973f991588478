package quantity

import (
	"math"
	"strconv"
)

// A dyer's scale shows 0.1 g below 50 g and 1 g above (common practice); an ounce scale 0.01 oz below 10 oz, 0.1 oz above.
var (
	massMetric = []step{
		{"mg", 0.001, -2, 100},
		{"g", 1, 1, 50},
		{"g", 1, 0, 1000},
		{"kg", 1000, 3, 10},
		{"kg", 1000, 2, 100},
		{"kg", 1000, 1, always},
	}
	massScale = []step{
		{"g", 1, -2, 0.1},
		{"g", 1, 1, 50},
		{"g", 1, 0, always},
	}
	massOunces = []step{
		{"oz", ounce, -2, 0.01},
		{"oz", ounce, 2, 10},
		{"oz", ounce, 1, 160},
		{"lb", pound, 2, always},
	}
)

// Format is the mass for reading: "38.5 g", "120 g", "1.2 kg"; "2 lb 3.1 oz" in US and Imperial.
func (m Mass) Format(sys System) string {
	if sys == Metric {
		return plain(float64(m), "g", massMetric)
	}
	return m.pounds(true)
}

// Scale is what the scale should show: always grams in Metric, with a decimal below 50 g ("20.0 g", "1250 g");
// ounces, or pounds and ounces, elsewhere.
func (m Mass) Scale(sys System) string {
	if sys == Metric {
		f, u := pick(float64(m), "g", massScale)
		return f + " " + u
	}
	return m.pounds(false)
}

// Figure is Scale as one number and its unit, for large digits: ounces up to 10 lb, pounds with decimals from there.
func (m Mass) Figure(sys System) (number, unit string) {
	if sys == Metric {
		return pick(float64(m), "g", massScale)
	}
	return pick(float64(m), "oz", massOunces)
}

// pounds is the mass in ounces below a pound, in pounds and ounces from there: to 0.1 oz below 10 lb, to 1 oz above.
func (m Mass) pounds(trims bool) string {
	total := math.Abs(float64(m)) / ounce
	_, r := round(total, 1)
	if r < 16 || math.IsNaN(r) || math.IsInf(r, 0) {
		f, _ := pick(float64(m), "oz", massOunces)
		if trims {
			f = trim(f)
		}
		return f + " oz"
	}
	if r >= 160 {
		_, r = round(total, 0)
	}
	sign := ""
	if m < 0 {
		sign = "-"
	}
	lb := math.Floor(r / 16)
	decimals := 1
	if r >= 160 {
		decimals = 0
	}
	f, rest := round(r-16*lb, decimals)
	s := sign + strconv.FormatFloat(lb, 'f', 0, 64) + " lb"
	if rest == 0 {
		return s
	}
	if trims {
		f = trim(f)
	}
	return s + " " + f + " oz"
}
