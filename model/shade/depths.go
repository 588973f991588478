package shade

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/wording"
)

// Depth is one plain name for how dark a piece is, with the dips that usually reach it.
// All figures are common practice or from memory, no published table found (testdata/reference/depths.csv): seed values
// that the dyer's own swatches replace.
type Depth struct {
	Name      string
	OnFibre   quantity.Share // net indigotin on weight of dry fibre
	Dips      int            // the usual number
	DipsLow   int            // and the range that practice gives
	DipsHigh  int
	Cellulose quantity.Span // one dip of cotton or linen
	Protein   quantity.Span // one dip of wool
	// From and To are the range of OnFibre that goes by the name. Neighbours overlap, as the names do.
	From, To quantity.Share
}

// Claim is what may be said of these figures wherever they are shown.
const Claim = "common practice, not yet from your own swatches"

// Depths lists the names from palest to darkest.
func Depths() []Depth { return slices.Clone(depths) }

var depths = []Depth{
	{"milk", quantity.Percent(0.1), 1, 1, 1, quantity.Minutes(1), quantity.Minutes(1), quantity.Percent(0.05), quantity.Percent(0.2)},
	{"pale", quantity.Percent(0.3), 2, 1, 3, quantity.Minutes(2), quantity.Minutes(4), quantity.Percent(0.2), quantity.Percent(0.5)},
	{"sky", quantity.Percent(0.6), 3, 2, 4, quantity.Minutes(3), quantity.Minutes(8), quantity.Percent(0.4), quantity.Percent(0.9)},
	{"mid", quantity.Percent(1.2), 4, 3, 6, quantity.Minutes(5), quantity.Minutes(12), quantity.Percent(0.8), quantity.Percent(1.8)},
	{"dark", quantity.Percent(2.2), 7, 5, 9, quantity.Minutes(8), quantity.Minutes(15), quantity.Percent(1.6), quantity.Percent(3)},
	{"navy", quantity.Percent(3.5), 10, 8, 14, quantity.Minutes(8), quantity.Minutes(18), quantity.Percent(2.5), quantity.Percent(4.5)},
	{"blue-black", quantity.Percent(5), 16, 12, 30, quantity.Minutes(10), quantity.Minutes(20), quantity.Percent(4), quantity.Percent(7)},
}

// ByName finds a depth; the error lists the names that are known.
func ByName(name string) (Depth, error) {
	wanted := strings.TrimSpace(name)
	if d, ok := wording.First(depths, func(d Depth) bool { return strings.EqualFold(wanted, d.Name) }); ok {
		return d, nil
	}
	names := wording.Each(depths, func(d Depth) string { return d.Name })
	return Depth{}, fmt.Errorf("no depth is called %q: say one of %s", name, strings.Join(names, ", "))
}

// AfterDips names the depth that a number of dips usually gives, "undyed" for none.
func AfterDips(dips int) string {
	name := undyed
	for _, d := range depths {
		if dips >= d.Dips {
			name = d.Name
		}
	}
	return name
}

// KS is a depth of blue: Kubelka and Munk's K/S of the dye at 660 nm with the undyed cloth's own taken off. 0 is undyed,
// about 10 a mid blue, 40 blue-black; never below 0. Twice the dye has twice the K/S.
type KS float64

const (
	undyed = "undyed"
	// leastSeen is the depth below which cloth goes as undyed: its blue is about as far from white as an eye tells. M
	leastSeen = KS(0.1)
)

// Band is what goes by a depth's name, in K/S: its range of % on fibre by the likely 8 per 1 %. The name is defined so;
// that the % is uncertain by twofold makes the name no wider.
func Band(d Depth) quantity.Range[KS] {
	k := perPercentPrior().Likely
	return quantity.Range[KS]{Low: KS(d.From.Percent() * k), Likely: KS(d.OnFibre.Percent() * k), High: KS(d.To.Percent() * k)}
}

// Name is the one name that a depth goes by: "undyed", "milk" … "blue-black". Where two bands overlap the border is the
// geometric middle of the overlap.
func Name(s KS) string {
	if !(s >= leastSeen) {
		return undyed
	}
	all := depths
	for i, d := range all[:len(all)-1] {
		if s < KS(math.Sqrt(float64(Band(d).High*Band(all[i+1]).Low))) {
			return d.Name
		}
	}
	return all[len(all)-1].Name
}

// Coarse is the name of a depth in the three words that a guess may use: up to sky pale, up to mid medium, above it dark.
func Coarse(name string) string {
	switch name {
	case undyed, "milk", "pale", "sky":
		return "pale"
	case "mid":
		return "medium"
	}
	return "dark"
}

func coarse(s KS) string { return Coarse(Name(s)) }
