package recipe

import (
	"example.org/vatside/model/wording"
	"fmt"
	"slices"
)

// cautionOf is the headline of each dangerous substance, in the order of danger. From the International Chemical Safety
// Cards 1717, 0360, 0408 and 1135, New Jersey fact sheet 1697, the Health and Safety Executive's "Hydros", and for
// thiourea dioxide, iron sulfate and indigo from suppliers' sheets and memory.
var cautionOf = []struct {
	is   []Substance
	says []string
}{
	{[]Substance{Dithionite, ThioureaDioxide, Sulfoxylate}, []string{
		"Reducer: mask, goggles, gloves. Dry into the liquor in small lots; never water onto the powder, never a heap.",
		"Reducer: keep acid, peroxide, bleach, damp spoons and sawdust away; damp it heats itself and can burn.",
		"Never put acid in this vat, except oxidised, at its end: choking gas. Outdoors or cross-draught; anyone with asthma stays away.",
	}},
	{[]Substance{ThioureaDioxide}, []string{
		"Thiourea dioxide: the spent bath may hold thiourea; gloves on until it is rinsed off.",
	}},
	{[]Substance{Lye}, []string{
		"Lye: face shield, long gloves, apron. Into cold water in its own jug; never water onto lye, never aluminium or zinc.",
		"Lye in the eye or on the skin: rinse at once for 20 minutes, then a doctor.",
	}},
	{[]Substance{SlakedLime, Quicklime}, []string{
		"Lime: tight goggles, mask, gloves, sleeves. In the eye it burns deep: rinse long, doctor at once. No aluminium.",
	}},
	{[]Substance{IronSulfate}, []string{
		"Iron sulfate: poison to small children, lock it away. Swallowed: call the poison line at once. It stains.",
	}},
	{[]Substance{SodaAsh, SodaCrystals, Potash}, []string{
		"Soda ash, potash: glasses and gloves; froths with acid; no aluminium.",
	}},
	{[]Substance{BakingSoda}, []string{
		"Baking soda: into water below 45 °C; froths with acid. It looks like soda ash: read the label.",
	}},
	{[]Substance{IndigoDye}, []string{
		"Indigo: mask against the dust, gloves, glasses; wipe up wet.",
	}},
}

// fermentCaution is for vats that live.
const fermentCaution = "Ferment: cover cuts, wash hands; a heater that runs for days hangs guarded, behind an RCD."

// Cautions are the headline cautions for the powders at hand, gravest first, then heat, weight, children and pots. They
// end by saying who decides. The words are short enough to be read over gloved hands; the steps carry them again.
func Cautions(r Recipe, a Amounts) []string {
	var out []string
	for _, c := range cautionOf {
		if slices.ContainsFunc(a.Powders, func(m Amount) bool { return slices.Contains(c.is, m.Powder.Substance()) }) {
			out = append(out, c.says...)
		}
	}
	hot := r.hottest()
	heat := "Hot water, up to %.0f °C: lidded, at most 4 L a carry from 50 °C on, nobody in the way; no hands in above 45 °C."
	stock := "Little stock, %.2g L: take a narrow jar, filled to the neck, or the air in it uses up the reducer."
	return append(out, wording.Filled(
		wording.If(r.Family == Ferment, fermentCaution),
		wording.If(hot > handsMost, fmt.Sprintf(heat, hot)),
		wording.If(a.Fill >= liftMost, fmt.Sprintf("Fill in place: %.0f L weighs %.0f kg and is never lifted.", a.Fill.Litres(), a.Fill.Litres())),
		wording.If(r.Stock != nil && a.StockVolume < r.Stock.Volume, fmt.Sprintf(stock, a.StockVolume.Litres())),
		"No children at powders, lye or hot water, nor at a vat above 40 °C.",
		"Dye pots, jugs and spoons are never for food again.",
		"Local rules and your supplier's sheet decide.")...)
}

// handsMost is the hottest liquor for hands, in °C: water scalds at 49 °C in 5 minutes (scald table of a children's
// hospital), and gloves hold the heat.
const handsMost = 45

// liftMost is the fill, in L, from which a vessel stays where it is (Health and Safety Executive filter, from memory).
const liftMost = 10

// hottest is the highest °C that any step aims at.
func (r Recipe) hottest() float64 {
	hot := float64(r.Liquor.Build)
	if r.Stock != nil {
		hot = max(hot, float64(r.Stock.Build))
	}
	for _, s := range r.Steps {
		if s.To != nil {
			hot = max(hot, float64(*s.To))
		}
		if s.Do == Simmer {
			hot = max(hot, simmerHeat)
		}
	}
	return hot
}

// simmerHeat is the °C of a pot that just moves.
const simmerHeat = 95
