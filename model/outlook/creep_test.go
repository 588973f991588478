package outlook_test

import (
	"testing"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
)

// Kept warm, a mild vat creeps up between two readings, more with its lid off; a soda vat does not.
func TestAMildVatCreepsUpInTheForecast(t *testing.T) {
	later := func(id string, ph float64, lid bool) (after, width float64) {
		v := open(t, id, nil)
		warm := quantity.Celsius(40)
		if lid {
			v.put(day.VatCovered{})
		}
		// A week on its reducer is gone either way: what moves pH after that reading is the air alone.
		v.after(7 * 24 * 60).put(day.Reading{PH: &ph, Temp: &warm, PHTemp: &warm, With: "meter"})
		for range 6 { // kept warm
			v.after(4 * 60).put(day.Reading{Temp: &warm})
		}
		now := v.sight().PH.Now
		return float64(now.Likely), float64(now.High - now.Likely)
	}
	open, wide := later("mild-soda", 8.8, false)
	shut, _ := later("mild-soda", 8.8, true)
	if open <= shut || open < 8.82 || open > 9.2 || wide < 0.02 {
		t.Errorf("a day after pH 8.8 was read it is reckoned %.3f open, %.3f under the lid, %.3f more at most", open, shut, wide)
	}
	if soda, _ := later("soda", 10.2, false); soda > 10.21 {
		t.Errorf("a soda vat creeps up to %.3f", soda)
	}
}
