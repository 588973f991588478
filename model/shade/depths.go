// Package shade says how dark a piece becomes. So far it holds the first estimate only: the plain depth names and
// the dips that common practice gives them.
package shade

import (
	"fmt"
	"strings"

	"example.org/vatside/model/quantity"
)

// Depth is one plain name for how dark a piece is, with the dips that usually reach it.
// All figures are common practice or from memory, no published table found: seed values that the dyer's own swatches
// replace.
type Depth struct {
	Name      string
	OnFibre   quantity.Share // net indigotin on weight of dry fibre
	Dips      int            // the usual number
	DipsLow   int            // and the range that practice gives
	DipsHigh  int
	Cellulose quantity.Span // one dip of cotton or linen
	Protein   quantity.Span // one dip of wool
}

// Claim is what may be said of these figures wherever they are shown.
const Claim = "common practice, not yet from your own swatches"

// Depths lists the names from palest to darkest.
func Depths() []Depth {
	m := quantity.Minutes
	p := quantity.Percent
	return []Depth{
		{"milk", p(0.1), 1, 1, 1, m(1), m(1)},
		{"pale", p(0.3), 2, 1, 3, m(2), m(4)},
		{"sky", p(0.6), 3, 2, 4, m(3), m(8)},
		{"mid", p(1.2), 4, 3, 6, m(5), m(12)},
		{"dark", p(2.2), 7, 5, 9, m(8), m(15)},
		{"navy", p(3.5), 10, 8, 14, m(8), m(18)},
		{"blue-black", p(5), 16, 12, 30, m(10), m(20)},
	}
}

// ByName finds a depth; the error lists the names that are known.
func ByName(name string) (Depth, error) {
	var names []string
	for _, d := range Depths() {
		if strings.EqualFold(strings.TrimSpace(name), d.Name) {
			return d, nil
		}
		names = append(names, d.Name)
	}
	return Depth{}, fmt.Errorf("no depth is called %q: say one of %s", name, strings.Join(names, ", "))
}

// AfterDips names the depth that a number of dips usually gives, "undyed" for none.
func AfterDips(dips int) string {
	name := "undyed"
	for _, d := range Depths() {
		if dips >= d.Dips {
			name = d.Name
		}
	}
	return name
}
