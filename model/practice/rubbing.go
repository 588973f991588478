package practice

import (
	"fmt"
	"math"
)

// Rubbing is the rubbing test by hand as near as it comes to ISO 105-X12: a finger of 16 mm pressed with 9 N, to and fro on 104 mm
// of the goods (S32), ten times in ten seconds (M); white cotton over the finger, once dry, once wet. 9 N is 0.92 kg on a kitchen
// scale (calculated).
const Rubbing = "white cotton over a finger, rubbed to and fro along 10 cm of the goods, 10 times in 10 s, pressed as 0.9 kg presses a kitchen scale; " +
	"once dry, once with the cotton wet"

// rubbingEvidence is where that comes from.
const rubbingEvidence = "S32: ISO 105-X12, 9 N, a finger of 16 mm, a track of 104 mm; 10 times in 10 s M; 30 rubs by hand C"

// Staining is one grade of the grey scale for staining, ISO 105-A03: how far the stained white lies from the clean one.
type Staining struct {
	Grade      float64 // 5 to 1 in halves
	Difference float64 // CIELAB, of the scale's own pair of greys
}

// GreyScale is the grey scale for staining, best first. From memory: read the card itself where it counts.
func GreyScale() []Staining {
	return []Staining{{5, 0}, {4.5, 2.2}, {4, 4.3}, {3.5, 6.0}, {3, 8.5}, {2.5, 12.0}, {2, 16.9}, {1.5, 24.0}, {1, 34.1}}
}

// StainGrade is the grade of the grey scale that lies nearest to a colour difference (CIELAB) of stained and clean white. It
// refuses what is no difference.
func StainGrade(difference float64) (float64, error) {
	if !(difference >= 0) || math.IsInf(difference, 1) {
		return 0, fmt.Errorf("a colour difference is 0 or more, not %g", difference)
	}
	best := Staining{}
	for _, s := range GreyScale() {
		if best.Grade == 0 || math.Abs(s.Difference-difference) < math.Abs(best.Difference-difference) {
			best = s
		}
	}
	return best.Grade, nil
}
