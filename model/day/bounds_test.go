package day_test

import (
	"strings"
	"testing"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
)

// What no reader would take is not decided.
func TestNoFigureBeyondAllBoundsIsDecided(t *testing.T) {
	h := head(t, "soda")
	h.Opening.Built = true
	s, err := day.Begin(h)
	if err != nil {
		t.Fatal(err)
	}
	ph := 100.0
	for _, c := range []struct {
		b    day.Body
		told string
	}{
		{day.ToppedUp{Water: 1e30}, "water: 1e+30 L cannot be: no vat holds 1,000 m³"},
		{day.VatEnded{PH: &ph}, "ph: 100 cannot be"},
		{day.HeaterOn{Power: 1e300}, "power: 1e+300 W cannot be"},
		{day.Fed{Powder: "bran", Mass: 1e300}, "mass: 1e+300 g cannot be"},
		{day.StripTest{Stayed: quantity.Days(365 * 250)}, "stayed: 250 years cannot be: no time here is longer than 200 years"},
	} {
		if _, err := day.Decide(s, day.Record{Body: c.b}, morning); err == nil || !strings.HasPrefix(err.Error(), c.told) {
			t.Errorf("%T: %v", c.b, err)
		}
	}
}
