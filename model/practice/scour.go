package practice

import (
	"fmt"
	"slices"
	"strings"

	"example.org/vatside/model/fibre"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/wording"
)

// Scour is one scouring for a weight of dry goods. Amounts are of the powder or soap as it is; ranges are what is common.
type Scour struct {
	Fibre     fibre.Fibre
	State     State
	Dry       quantity.Mass
	Detergent quantity.Range[quantity.Mass]
	Soap      bool // soap instead of neutral detergent
	Alkali    quantity.Range[quantity.Mass]
	AlkaliIs  string // "soda ash", or empty for none
	Water     quantity.Range[quantity.Volume]
	Temp      quantity.Range[quantity.Temperature]
	Time      quantity.Range[quantity.Span] // each bath
	Baths     quantity.Range[int]
	How       string
	Check     string // when it is done
	Cautions  []string
	Evidence  string
}

// Washes is "soap" or "neutral detergent".
func (s Scour) Washes() string {
	return wording.Either(s.Soap, "soap", "neutral detergent")
}

// DropTest is how it is seen that goods are scoured. C
const DropTest = "drop test: a drop of water on the dry goods sinks in within 3 to 5 s; if it stands, scour once more"

// scourRow is scour.csv by the per cent and the litres a kilogram.
type scourRow struct {
	fibres     []fibre.Fibre
	state      State
	detergent  three // % on weight of fibre: low, likely, high
	soap       bool
	alkali     three // % of soda ash
	ratio      three // L/kg
	temp       three // °C
	minutes    three
	baths      [3]int
	how, check string
	evidence   string
}

const dropSinks = "a drop of water on the dry goods sinks in 3 to 5 s"

// scours are the ways to scour, the first of a fibre the one taken where no state is said.
var scours = []scourRow{
	{fibres: []fibre.Fibre{fibre.Cotton}, state: Greige, detergent: three{2, 2, 2}, alkali: three{4, 4, 5},
		ratio: three{20, 25, 30}, temp: three{95, 95, 100}, minutes: three{60, 90, 120}, baths: [3]int{1, 1, 3},
		how:   "simmer, turn now and then; again with fresh water until it stays clear",
		check: dropSinks, evidence: "S1 and C: two recipes 4.4 % for an hour"},
	{fibres: []fibre.Fibre{fibre.Cotton}, state: Raw, detergent: three{2, 2, 2}, alkali: three{4, 5, 5},
		ratio: three{20, 25, 30}, temp: three{95, 98, 100}, minutes: three{120, 180, 300}, baths: [3]int{1, 1, 3},
		how:   "boil for several hours; again with fresh water until it stays clear",
		check: dropSinks, evidence: "S1: soda ash 5 %, several hours; the hours M"},
	{fibres: []fibre.Fibre{fibre.Cotton}, state: Prepared, detergent: three{1, 1, 1}, alkali: three{1, 1.5, 2},
		ratio: three{20, 20, 20}, temp: three{60, 70, 80}, minutes: three{30, 45, 60}, baths: [3]int{1, 1, 1},
		how: "keep it moving gently", check: dropSinks, evidence: "C"},
	{fibres: []fibre.Fibre{fibre.Linen, fibre.Hemp, fibre.Ramie}, state: Greige, detergent: three{2, 2, 2}, alkali: three{4, 4.5, 5},
		ratio: three{25, 25, 25}, temp: three{90, 90, 90}, minutes: three{60, 90, 120}, baths: [3]int{1, 2, 3},
		how:   "simmer; again with fresh water, often twice",
		check: "the water is pale as tea; then a drop sinks in 3 to 5 s", evidence: "C; ramie as linen, M"},
	{fibres: []fibre.Fibre{fibre.Viscose}, state: Prepared, detergent: three{1, 1, 1},
		ratio: three{20, 20, 30}, temp: three{40, 50, 60}, minutes: three{20, 30, 30}, baths: [3]int{1, 1, 1},
		how: "do not wring: wet viscose is weak", check: dropSinks, evidence: "M"},
	{fibres: []fibre.Fibre{fibre.Jute}, state: Greige, detergent: three{2, 2, 2}, alkali: three{0, 1, 2},
		ratio: three{25, 25, 25}, temp: three{50, 60, 60}, minutes: three{30, 45, 60}, baths: [3]int{1, 1, 2},
		how: "no boil and no caustic: strong alkali dissolves what holds jute together", check: dropSinks, evidence: "M"},
	{fibres: []fibre.Fibre{fibre.Silk}, state: Degummed, detergent: three{1, 1, 1},
		ratio: three{30, 30, 30}, temp: three{40, 45, 50}, minutes: three{20, 25, 30}, baths: [3]int{1, 1, 1},
		how: "lay it in, press it under, no rubbing; rinse in water of the same warmth", check: dropSinks, evidence: "C"},
	{fibres: []fibre.Fibre{fibre.Silk}, state: InGum, detergent: three{20, 22.5, 25}, soap: true, alkali: three{0, 0, 0.9},
		ratio: three{50, 60, 70}, temp: three{90, 92, 95}, minutes: three{60, 120, 180}, baths: [3]int{1, 1, 2},
		how:   "in bags, not rolling; old practice boiled 3 to 4 h and took more soap for blues",
		check: "it has lost 20 to 25 % of its weight, and feels soft", evidence: "S31 and C"},
	{fibres: []fibre.Fibre{fibre.Wool}, state: Yarn, detergent: three{0.5, 0.8, 1},
		ratio: three{30, 30, 30}, temp: three{40, 50, 60}, minutes: three{20, 40, 60}, baths: [3]int{1, 1, 1},
		how:   "no agitation, no soda; warm and cool it slowly, all baths equally warm",
		check: "no grease is felt; the water runs clear", evidence: "S1: never above 60 °C; C"},
	{fibres: []fibre.Fibre{fibre.Wool}, state: Greasy, detergent: three{2, 2.5, 3},
		ratio: three{30, 30, 40}, temp: three{55, 58, 60}, minutes: three{20, 20, 20}, baths: [3]int{2, 3, 3},
		how:   "two or three baths of the same warmth, lifted from one to the next without wringing",
		check: "no grease is felt", evidence: "S1 and C"},
}

// ScourFor is the scouring for a weight of dry goods. An empty state is the fibre's usual one. The Unknown fibre, a state
// that it does not have and a weight of nothing give a *ScourError. Wool never gets soda, nor more than 60 °C (S1).
func ScourFor(f fibre.Fibre, state State, dry quantity.Mass) (Scour, error) {
	if !(dry > 0) || dry > quantity.Kilograms(1000) {
		return Scour{}, &ScourError{"weigh the dry goods first"}
	}
	var states []string
	for _, r := range scours {
		for _, of := range r.fibres {
			if of != f {
				continue
			}
			if state == "" || state == r.state {
				return r.of(f, dry), nil
			}
			states = append(states, string(r.state))
		}
	}
	if states == nil {
		return Scour{}, &ScourError{"say the fibre first"}
	}
	return Scour{}, &ScourError{fmt.Sprintf("%v is scoured as %s, not as %q", f, strings.Join(states, " or "), state)}
}

func (r scourRow) of(f fibre.Fibre, dry quantity.Mass) Scour {
	percent := func(p three) quantity.Range[quantity.Mass] {
		return spread(p[0], p[1], p[2], func(x float64) quantity.Mass { return quantity.Percent(x).Of(dry) })
	}
	s := Scour{Fibre: f, State: r.state, Dry: dry, Detergent: percent(r.detergent), Soap: r.soap, Alkali: percent(r.alkali),
		How: r.how, Check: r.check,
		Water:    litresPerKilogram(r.ratio, dry),
		Temp:     degrees(r.temp[0], r.temp[1], r.temp[2]),
		Time:     spans(r.minutes[0], r.minutes[1], r.minutes[2]),
		Baths:    quantity.Range[int]{Low: r.baths[0], Likely: r.baths[1], High: r.baths[2]},
		Evidence: r.evidence}
	s.AlkaliIs = wording.If(s.Alkali.High > 0, "soda ash")
	scald := "scald: a pot with a lid, nobody in the way, let it cool before it is lifted or poured; no class at it"
	s.Cautions = wording.Filled(
		wording.If(s.Temp.High > 50, scald),
		wording.If(s.Alkali.High > 0, "gloves and glasses: soda ash hurts the eyes; powder into water; no aluminium pot"),
		wording.If(f.Class() == fibre.Protein, "no sudden change of warmth"))
	return s
}

// StatesOf are the states in which a fibre is scoured, the usual one first; none of the Unknown fibre.
func StatesOf(f fibre.Fibre) []State {
	return wording.Some(scours, func(r scourRow) (State, bool) { return r.state, slices.Contains(r.fibres, f) })
}
