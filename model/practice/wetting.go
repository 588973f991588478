package practice

import (
	"time"

	"example.org/vatside/model/fibre"
	"example.org/vatside/model/quantity"
)

// Wetting is the soak before the first dip.
type Wetting struct {
	Water    quantity.Volume
	Temp     quantity.Range[quantity.Temperature]
	Time     quantity.Range[quantity.Span]
	How      string
	Check    string
	Evidence string
}

// woolSoak is between the 30 and 60 min of practice: called three quarters of an hour before it goes in. M
const woolSoak = quantity.Span(45 * time.Minute)

// WetOut is the soak for a weight of dry goods: cellulose an hour or overnight, silk 30 min, wool 30 to 60 min in water
// within 5 °C of the vat, as a shock felts it (C). Likely is the least that is good. vat is the liquor's °C; nil: not
// read, and then wool's water is 30 to 40 °C (M). 20 L a kilogram of dry goods (C). Errors are those of ScourFor.
func WetOut(f fibre.Fibre, dry quantity.Mass, vat *quantity.Temperature) (Wetting, error) {
	if !(dry > 0) || dry > quantity.Kilograms(1000) {
		return Wetting{}, &ScourError{"weigh the dry goods first"}
	}
	if f.Class() == fibre.NoClass {
		return Wetting{}, &ScourError{"say the fibre first"}
	}
	facts := f.Facts()
	w := Wetting{Water: quantity.Litres(20 * dry.Kilograms()), Evidence: facts.WetOut.Evidence,
		Temp:  quantity.Range[quantity.Temperature]{Low: 15, Likely: 25, High: 40},
		Time:  quantity.Range[quantity.Span]{Low: facts.WetOut.Value, Likely: facts.WetOut.Value, High: quantity.Hours(12)},
		How:   "a drop of neutral detergent; press it under, open every fold, then squeeze and open it out: no dry pockets",
		Check: "no more bubbles rise"}
	switch f {
	case fibre.Silk:
		w.Time.High = quantity.Hours(1)
	case fibre.Wool:
		w.Time.Likely, w.Time.High = woolSoak, quantity.Hours(1)
		w.Temp = quantity.Range[quantity.Temperature]{Low: 30, Likely: 35, High: 40}
		if vat != nil && *vat >= 0 && *vat <= facts.Heat.Value {
			w.Temp = quantity.Range[quantity.Temperature]{Low: *vat - 5, Likely: *vat, High: *vat + 5}
		}
		w.How += "; the water within 5 °C of the vat: a shock felts wool"
	}
	return w, nil
}
