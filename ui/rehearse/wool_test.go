package rehearse_test

import (
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/outlook"
	"example.org/vatside/recipes"
	"example.org/vatside/ui/rehearse"
)

// Wool and silk are dyed through an invented day in the mild soda vat and in a ferment: pH is read before the first dip and
// within its bounds, the liquor stays in the recipe's range, and what the forecast knows of pH holds what was read.
func TestWoolThroughADay(t *testing.T) {
	for id, most := range map[string]float64{"mild-soda": 9.5, "madder-bran": 10.5} {
		t.Run(id, func(t *testing.T) {
			dips := 0
			r, _ := recipes.Find(id)
			s, _, _ := rehearsedOf(t, rehearse.DyeingHead(r, morning), func(s day.State, now time.Time, o outlook.Outlook) {
				last := s.Log[len(s.Log)-1].Body
				if _, in := last.(day.DipBegun); !in {
					return
				}
				dips++
				l := s.Head.Recipe.Liquor
				switch {
				case s.Vat.PH == nil || *s.Vat.PH > most || *s.Vat.PH < l.PHLow:
					t.Errorf("dip %d: pH %v", dips, s.Vat.PH)
				case id == "mild-soda" && now.Sub(s.Vat.PHAt) > 3*time.Hour:
					t.Errorf("dip %d: pH was read %v ago", dips, now.Sub(s.Vat.PHAt))
				case o.Heat.Now < l.Low:
					t.Errorf("dip %d at %v, below the recipe's %v", dips, o.Heat.Now, l.Low)
				}
				if id == "mild-soda" && (o.PH.Now.Likely < 8.6 || o.PH.Now.Likely > 9.5) {
					t.Errorf("dip %d: pH is reckoned %v", dips, o.PH.Now.Likely)
				}
			})
			if dips != 7 || !s.Closed {
				t.Errorf("%d dips, closed %v", dips, s.Closed)
			}
			for _, p := range s.Pieces {
				if f := p.Spec.Fibre; p.Phase != day.FinishedPiece || !strings.Contains("wool silk", f) {
					t.Errorf("%s of %s ended in phase %d", p.Tag, f, p.Phase)
				}
			}
		})
	}
}
