package timetable

import (
	"fmt"
	"strings"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/sorted"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/style"
)

// handed is one piece of work of a pair of hands.
type handed struct {
	at    time.Time
	words string // "P4 in", "P3 out"
}

// helpers are a row for each pair of hands, where there is more than one: what it lowers and lifts next, as much as has room.
func (x sight) helpers(columns int) []string {
	if x.t.Limits.Hands < 2 {
		return nil
	}
	all := make([][]handed, x.t.Limits.Hands+1)
	give := func(hand int, at time.Time, words string) {
		if hand > 0 && hand < len(all) {
			all[hand] = append(all[hand], handed{at, words})
		}
	}
	stand := map[string]stood{}
	for _, s := range x.stand() {
		stand[s.is.Tag] = s
	}
	for _, r := range x.t.Plan.Rows {
		s, ok := stand[r.Tag]
		begun := s.is.Dips
		if s.in {
			begun++
		}
		switch {
		case !ok || r.Dip < begun || r.Dip == begun && !s.in:
		case r.Dip == begun:
			give(r.LiftHand, s.due, r.Tag+" out")
		default:
			give(r.Hand, x.t.At(r.Lower), r.Tag+" in")
			give(r.LiftHand, x.t.At(r.Out), r.Tag+" out")
		}
	}
	var out []string
	for n, acts := range all[1:] {
		sorted.By(acts, func(a, b handed) int { return a.at.Compare(b.at) })
		row := x.words(fmt.Sprintf("Pair %d", n+1))
		for _, a := range acts {
			when := wording.Either(!a.at.After(x.now()), "now", day.Clock(a.at.In(x.now().Location())))
			next := row + strings.Repeat(" ", betweenFields) + x.words(a.words+" "+when)
			if style.Width(next) > columns {
				break
			}
			row = next
		}
		out = append(out, x.env.Style.Text.Render(row))
	}
	return append(out, "")
}
