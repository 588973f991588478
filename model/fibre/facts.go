package fibre

import "example.org/vatside/model/quantity"

// Figure is a number and where it comes from: M from memory, C common practice without a source, K calculated,
// S with a number a source in the project's list, or the publication by name.
type Figure[T any] struct {
	Value    T
	Evidence string
}

// Facts are the figures of one fibre.
type Facts struct {
	Density Figure[float64]        // g/cm³, which is kg/L, as usually given
	Regain  Figure[quantity.Share] // the conventional moisture of trade: water on dry weight
	// Natural is the water in the goods as they lie in a room of 65 % humidity and 20 °C, of their dry weight.
	Natural Figure[quantity.Range[quantity.Share]]
	// PickUp is the liquor held after a squeeze at the surface, grams a gram of dry goods.
	PickUp Figure[quantity.Range[quantity.Ratio]]
	// PH is the most alkaline liquor the fibre bears in a vat, dip after dip. Up to 1 above it warns; beyond, refuses.
	PH Figure[quantity.PH]
	// Heat is the hottest liquor the fibre bears in a vat.
	Heat Figure[quantity.Temperature]
	// WetOut is the least soak before the first dip.
	WetOut Figure[quantity.Span]
	// Airing is the least airing between dips, for goods of common thickness.
	Airing Figure[quantity.Span]
}

const (
	density = "Morton & Hearle, Physical Properties of Textile Fibres, table 5.1"
	regain  = "ASTM D1909-13"
	natural = "Morton & Hearle, Physical Properties of Textile Fibres"
)

func shares(low, likely, high float64) quantity.Range[quantity.Share] {
	return quantity.Range[quantity.Share]{Low: quantity.Percent(low), Likely: quantity.Percent(likely), High: quantity.Percent(high)}
}

// pickUp is for all fibres until the dyer has weighed a wet piece: 100 to 150 % of the dry weight.
var pickUp = Figure[quantity.Range[quantity.Ratio]]{quantity.Range[quantity.Ratio]{Low: 1, Likely: 1.25, High: 1.5}, "C"}

// Facts are the figures of the fibre. Those of the Unknown fibre are all zero but for the pick-up.
func (f Fibre) Facts() Facts {
	t := Facts{PickUp: pickUp}
	if f.Class() == Cellulose {
		t.PH = Figure[quantity.PH]{13,
			"C: iron–lime and sugar–lime vats of up to pH 13; the deepest shade is at 11 (Jeong, Lee, Choi & Lee 2000)"}
		t.Heat = Figure[quantity.Temperature]{95, "C, S1: scoured at 90 to 100 °C"}
		t.WetOut = Figure[quantity.Span]{quantity.Hours(1), "C: an hour, or overnight"}
		t.Airing = Figure[quantity.Span]{quantity.Minutes(10), "C"}
	}
	switch f {
	case Cotton:
		t.Density = Figure[float64]{1.54, density}
		t.Regain = Figure[quantity.Share]{quantity.Percent(8.5), regain}
		t.Natural = Figure[quantity.Range[quantity.Share]]{shares(7, 7.5, 8), natural}
	case Linen:
		t.Density = Figure[float64]{1.50, "C"}
		t.Regain = Figure[quantity.Share]{quantity.Percent(12), regain}
		t.Natural = Figure[quantity.Range[quantity.Share]]{shares(7, 7, 7), natural}
	case Hemp:
		t.Density = Figure[float64]{1.50, "M: as linen"}
		t.Regain = Figure[quantity.Share]{quantity.Percent(12), regain}
		t.Natural = Figure[quantity.Range[quantity.Share]]{shares(8, 8, 8), natural}
	case Ramie:
		t.Density = Figure[float64]{1.51, "M"}
		t.Regain = Figure[quantity.Share]{quantity.Percent(7.8), "M"}
		t.Natural = Figure[quantity.Range[quantity.Share]]{shares(6, 7, 8), "M"}
	case Jute:
		t.Density = Figure[float64]{1.46, "M"}
		t.Regain = Figure[quantity.Share]{quantity.Percent(13.75), regain}
		t.Natural = Figure[quantity.Range[quantity.Share]]{shares(12, 12, 12), natural}
		t.PH = Figure[quantity.PH]{11.5, "M: strong alkali dissolves what holds jute together"}
		t.Heat = Figure[quantity.Temperature]{60, "M"}
	case Viscose:
		t.Density = Figure[float64]{1.52, density + ", dry"}
		t.Regain = Figure[quantity.Share]{quantity.Percent(11), "M"}
		t.Natural = Figure[quantity.Range[quantity.Share]]{shares(12, 13, 14), "M"}
		t.PH = Figure[quantity.PH]{12, "M: swells and weakens in strong alkali"}
		t.Heat = Figure[quantity.Temperature]{60, "M: weak when wet"}
	case Silk:
		t.Density = Figure[float64]{1.34, density}
		t.Regain = Figure[quantity.Share]{quantity.Percent(11), regain}
		t.Natural = Figure[quantity.Range[quantity.Share]]{shares(10, 10, 10), natural}
		t.PH = Figure[quantity.PH]{10, "C: 10, or 11 for short dips; S9 says about 9"}
		t.Heat = Figure[quantity.Temperature]{50, "C: degummed silk is washed at 40 to 50 °C"}
		t.WetOut = Figure[quantity.Span]{quantity.Minutes(30), "C"}
		t.Airing = Figure[quantity.Span]{quantity.Minutes(5), "C: thin goods"}
	case Wool:
		t.Density = Figure[float64]{1.31, density}
		t.Regain = Figure[quantity.Share]{quantity.Percent(13.6), regain}
		t.Natural = Figure[quantity.Range[quantity.Share]]{shares(14, 16, 18), natural}
		t.PH = Figure[quantity.PH]{9.5, "C: 9 to 9.5; S9 says about 9"}
		t.Heat = Figure[quantity.Temperature]{50, "C: 45 to 50 °C; S1 has vats of 49 to 60, and wool never above 60"}
		t.WetOut = Figure[quantity.Span]{quantity.Minutes(30), "C: 30 to 60 min, in water within 5 °C of the vat, as a shock felts wool"}
		t.Airing = Figure[quantity.Span]{quantity.Minutes(5), "C: thin goods; S2 has 1 to 2 min"}
	}
	return t
}
