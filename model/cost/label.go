package cost

import (
	"fmt"
	"strconv"

	"example.org/vatside/model/day"
	"example.org/vatside/model/fibre"
	"example.org/vatside/model/wording"
)

// Label is what the buyer of a piece is told, in short sentences.
type Label struct {
	Made    string   // what it is and how it was dyed
	Care    []string // C
	Rubbing []string // the honest word; the study is S18
}

// Rubs is the honest word on rubbing that every piece goes with.
const Rubs = "Blue rubs off onto pale cloth, bags and seats, more when damp: that is so with indigo, and no fault of the dyeing."

// CareOf is how goods of a fibre are washed once they are finished; of an unknown one the gentlest. C
func CareOf(f fibre.Fibre) []string {
	if f.Class() != fibre.Cellulose {
		return []string{
			"Wash it by hand, lukewarm, alone, in neutral soap; do not rub or wring it.",
			"No bleach, no soaking overnight.",
			"Dry it flat in the shade.",
		}
	}
	return []string{
		"Wash it alone the first three times, then with dark blue, at most 30 °C, in neutral soap.",
		"No bleach, no soaking overnight.",
		"Dry it in the shade, inside out.",
	}
}

// LabelOf is the label of a piece: how to wash it by its fibre (C), and that its blue rubs off, most when wet. Where the book
// has a test by rubbing, its grades are told; where it has none, that there was none. Of an unknown fibre the gentlest care.
func LabelOf(p day.Piece) Label {
	f, err := fibre.Parse(p.Spec.Fibre)
	what := p.Spec.Fibre
	if p.Spec.What != "" {
		what = p.Spec.What + ", " + what
	}
	l := Label{Made: fmt.Sprintf("%s: dyed by hand with indigo in a vat, %s.", wording.Upper(what), wording.Counted(p.Dips, "dip"))}
	l.Care = CareOf(f)
	l.Rubbing = append(l.Rubbing, Rubs)
	switch t := p.Rubbed(); {
	case t != nil && t.Dry > 0 && t.Wet > 0:
		l.Rubbing = append(l.Rubbing, fmt.Sprintf("Rubbed on white cotton by hand and judged by eye: %s dry, %s wet, where 5 leaves nothing and 1 the most.",
			grade(t.Dry), grade(t.Wet)))
	case t != nil && t.Wet > 0:
		l.Rubbing = append(l.Rubbing, fmt.Sprintf("Rubbed wet on white cotton by hand and judged by eye: %s, where 5 leaves nothing and 1 the most.", grade(t.Wet)))
	case t != nil && t.Dry > 0:
		l.Rubbing = append(l.Rubbing, fmt.Sprintf("Rubbed dry on white cotton by hand and judged by eye: %s, where 5 leaves nothing and 1 the most. Wet it was not tested.",
			grade(t.Dry)))
	default:
		l.Rubbing = append(l.Rubbing, "This piece was not tested for rubbing.")
	}
	if err == nil && f.Class() != fibre.Protein {
		l.Rubbing = append(l.Rubbing, "In a study of 2021 natural indigo on cotton passed washing, water and light, and failed wet rubbing.")
	}
	return l
}

// grade is a grade of the grey scale, 2.5 as "2 to 3".
func grade(g float64) string {
	whole := int(g)
	if g-float64(whole) >= 0.25 {
		return fmt.Sprintf("%d to %d", whole, whole+1)
	}
	return strconv.Itoa(whole)
}
