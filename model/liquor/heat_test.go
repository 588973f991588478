package liquor

import (
	"strings"
	"testing"

	"example.org/vatside/model/quantity"
	"example.org/vatside/testdata/published"
)

// A vat too hot for what goes in together is told the °C of the one that bears least, at once, and that its heat is why.
func TestTooHotSaysOneTemperature(t *testing.T) {
	for _, c := range []float64{46, 50, 51, 60, 80} {
		weak := quantity.Seconds(5)
		a := Advise(State{Recipe: published.Recipe(t, "mild-soda"), Fill: 60, Temp: celsius(c), Strip: &weak})
		if a.To == nil || *a.To != 45 || !strings.Contains(a.Why, "too hot for soda ash") {
			t.Errorf("%g °C: %s: %s", c, a.Sentence, a.Why)
		}
	}
}

// What ate the alkali is what is in the vat.
func TestWhatEatsTheAlkali(t *testing.T) {
	for id, want := range map[string]string{"iron-lime": "iron and the carbon dioxide of the air", "sugar-lime": "acids of the sugar", "madder-bran": "acids of the ferment", "soda": "spent reducer"} {
		r := published.Recipe(t, id)
		ph := quantity.PH(r.Liquor.PHLow - 0.5)
		if a := Advise(State{Recipe: r, Fill: 60, PH: &ph}); !strings.Contains(a.Why, want) {
			t.Errorf("%s: %s", id, a.Why)
		}
	}
}

func celsius(c float64) *quantity.Temperature { t := quantity.Celsius(c); return &t }
