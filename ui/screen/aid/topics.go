package aid

import (
	"strconv"

	"example.org/vatside/ui/style"
)

// topic is one accident: what to do at once, in the order of the hands.
type topic struct {
	name  string
	act   string
	how   []string
	water bool // water runs for 20 minutes
}

// rules stands under every topic.
const rules = "Local rules and licensed help decide; this is only what the hands do until help speaks."

// topics are the accidents of a vat. Rinsing times, fresh air and no vomiting are those of the chemical safety cards of
// dithionite and lye; the fire is the card of dithionite; the scald is common first-aid guidance, no source.
var topics = []topic{
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
		"Leave the room, take the hurt one along, sit upright.",
		"Sharp sulfur smell: nobody goes back in.",
		"Cough, tight chest, asthma: call at once.",
	}, false},
	{"swallowed", "Do not make sick", []string{
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
}

// which lists the accidents for the first page.
func which(st style.Style) []string {
	var lines []string
	for i, t := range topics {
		lines = append(lines, st.Act.Render(strconv.Itoa(i+1)+"  "+t.name))
	}
	return lines
}
