package setup

import (
	"strings"
	"testing"

	"example.org/vatside/model/recipe"
	"example.org/vatside/model/stock"
	"example.org/vatside/ui/screentest"
)

// The last page says what the shelf has of each powder, and nothing where no tin is on it. A common pail takes 16 L:
// 24 g of grains, 96 g of soda ash, 32 g of dithionite (1.5, 6 and 2 g/L).
func TestTheLastPageSaysWhatIsShort(t *testing.T) {
	opened := noon.AddDate(0, 0, -3)
	for _, size := range screentest.Sizes {
		e := env(size[0], size[1], "metric")
		if _, text := summed(t, e, "1"); strings.Contains(text, "enough") || strings.Contains(text, "short") {
			t.Errorf("%v: an empty shelf is spoken of: %s", size, text)
		}
		e.Home.Stock.All = []stock.TinBalance{
			{Tin: stock.Tin{ID: "T1", Material: "soda ash", Substance: recipe.SodaAsh, Holds: 500, Opened: &opened}, Left: 36},
			{Tin: stock.Tin{ID: "T2", Material: "sodium dithionite", Substance: recipe.Dithionite, Holds: 500}, Left: 500},
		}
		s, text := summed(t, e, "1")
		for _, word := range []string{"soda ash 96 g, 60 g short", "sodium dithionite 32 g, enough", "grains 24 g ", "CAUTION"} {
			if !strings.Contains(text, word) {
				t.Errorf("%v: %q is missing:\n%s", size, word, screentest.Shown(t, s, e))
			}
		}
	}
}
