package practice

import (
	"slices"

	"example.org/vatside/model/quantity"
)

// Accident is one accident at a vat: what to do at once, in the order of the hands.
type Accident struct {
	Name  string
	Act   string
	How   []string
	Water bool // water runs for 20 minutes
}

// HelpDecides stands under every accident.
const HelpDecides = "Local rules and licensed help decide; this is only what the hands do until help comes."

// accidents are those of a vat. Rinsing times, fresh air and no vomiting are those of the chemical safety cards of
// dithionite and lye (S21); the hours after sulfur gas that of sulfur dioxide (ICSC 0074, from memory); the fire is the card of
// dithionite; scald, shock and child are common first-aid guidance, no source.
var accidents = []Accident{
	{"eyes", "Rinse the eyes", []string{
		"Water at once, both lids held open, from the nose outward.",
		"15 to 20 minutes, lenses out if they come easily.",
		"Lime or lye: call while rinsing; a doctor in every case.",
	}, true},
	{"skin", "Rinse the skin", []string{
		"Wet clothes and gloves off; brush dry powder off first.",
		"Running water, 15 to 20 minutes.",
		"Lye, or skin that burns or whitens: call a doctor.",
	}, true},
	{"breathed in", "Out to fresh air", []string{
		"Bring the hurt person out, sit them upright.",
		"A biting smell of sulfur: nobody goes back in.",
		"Cough, tight chest, asthma: call at once.",
		"Sulfur gas may hurt the lungs hours later: rest, and a doctor today, even if it feels well.",
	}, false},
	{"swallowed", "Do not vomit", []string{
		"Rinse the mouth, spit out; nothing by force.",
		"Call at once; iron, lye or a child: no waiting.",
		"Have the label at hand.",
	}, false},
	{"scald", "Cool the scald", []string{
		"Cool running water, 20 minutes; no ice, no grease.",
		"Wet clothes and rings off, not what sticks.",
		"Larger than the hand, face, or a child: call.",
	}, true},
	{"fire", "Get out, call", []string{
		"Everybody out and upwind; the smoke chokes.",
		"Dithionite: a flood of water, CO2 or dry sand; a little water makes it worse.",
		"A tin that is hot or smokes: leave it, call the fire service.",
	}, false},
	{"shock", "Cut the power first", []string{
		"Touch nobody and no liquor: pull the plug, or the fuse, first.",
		"No breath, no sign of life: call, and press the chest.",
		"A doctor in every case: the heart may fail later.",
	}, false},
	{"child in the vat", "Lift the child out", []string{
		"Heater: power off first. Face up, mouth clear; no breath: breathe for it, call.",
		"Wet clothes off; running water on the eyes first, then all the skin, 20 minutes, lukewarm, kept warm.",
		"Call at once in every case, also if it cries and looks well.",
	}, true},
}

// FirstAid lists the accidents in the order of their keys. The list is the caller's; its slices are shared.
func FirstAid() []Accident { return slices.Clone(accidents) }

// Scald is how soon water of a temperature scalds the skin of a grown person; a child's goes sooner.
type Scald struct {
	At     quantity.Temperature
	Within string
}

// Scalds is the scald table of a children's hospital (S27), the coolest first.
func Scalds() []Scald {
	return []Scald{
		{49, "more than 5 min"}, {52, "1.5 to 2 min"}, {54, "30 s"}, {57, "10 s"}, {60, "less than 5 s"}, {66, "1.5 s"},
	}
}

// NoOverride are the rules that no key of the program passes over.
func NoOverride() []string {
	return []string{
		"Acid only after its gate: two rinses and full airing, outdoors or in a cross-draught; never into a vat, a stock jar or skimmings.",
		"No children at powders, lye or hot water, nor at a liquor above 40 °C.",
		"No heater on with hands or goods in the vat: off and unplugged first.",
		"No sulfur reducer in a closed room: a draught first, or a sugar and lime or a ferment vat instead, for wool and silk a ferment.",
		"No vessel of aluminium or galvanised iron for any alkali.",
	}
}

// WhoDecides is who has the last word on disposal, wiring and law.
const WhoDecides = "Local rules and licensed practice decide on disposal, wiring and transport; the supplier's sheet on each powder."
