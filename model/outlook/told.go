package outlook

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/load"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/sorted"
	"example.org/vatside/model/wording"
)

// Line is a line of a timetable: when, and what.
type Line struct{ At, Words string }

// Told is a timetable in words.
type Told struct {
	Head   string // when it ends, and how good it is; or why there is none
	Dips   []Line // those to come
	Stands []Line // what the vat waits for
	Done   []Line // of each person, or piece
	Notes  []string
}

// Lines are the sentences of the outlook, one a line.
func (t Told) Lines() []string {
	out := []string{t.Head}
	for _, list := range [][]Line{t.Dips, t.Stands, t.Done} {
		for _, l := range list {
			out = append(out, l.At+"  "+l.Words)
		}
	}
	return append(out, t.Notes...)
}

// TellPlan is a plan in words; at says an instant of it.
func TellPlan(p load.Plan, pieces []load.Piece, at func(quantity.Span) string) Told {
	best := "no order is shorter"
	if !p.Proven {
		best = fmt.Sprintf("at most %s longer than the best", day.Long(p.Gap.Duration()))
	}
	several := slices.ContainsFunc(p.Rows, func(r load.Row) bool { return r.Vat > 1 })
	vat := func(n int, before string) string {
		if several {
			return fmt.Sprintf("%svat %d", before, n)
		}
		return ""
	}
	out := Told{Head: fmt.Sprintf("Last lift at %s, %s; all done at %s.", at(p.LastLift()), best, at(p.Finish()))}
	for _, r := range p.Rows {
		if !r.Past {
			out.Dips = append(out.Dips, Line{at(r.In), fmt.Sprintf("in %s, dip %d, out at %s%s", r.Tag, r.Dip, at(r.Out), vat(r.Vat, ", "))})
		}
	}
	stands := slices.Clone(p.Stands)
	sorted.By(stands, func(a, b load.Stand) int { return cmp.Compare(a.From, b.From) })
	for _, s := range stands {
		out.Stands = append(out.Stands, Line{at(s.From), fmt.Sprintf("%s stands till %s: %s", cmp.Or(vat(s.Vat, ""), "the vat"), at(s.To), s.Kind)})
	}
	seats := load.Board(p, pieces)
	sorted.By(seats, func(a, b load.Seat) int { return cmp.Compare(a.Done, b.Done) })
	for _, seat := range seats {
		out.Done = append(out.Done, Line{at(seat.Done), fmt.Sprintf("%s done (%s)", seat.Who, strings.Join(seat.Tags, ", "))})
	}
	out.Notes = p.Warnings
	return out
}

// TimetableNow plans what is left of a day afresh.
func TimetableNow(s day.State, now time.Time) Table {
	o := Of(s, now)
	return Timetable(s, o, Blues(s, o, now), load.Plan{}, now, 0)
}

// Told is the timetable in words, by the clock; what is not on the day of the next dip has its day.
func (t Table) Told() Told {
	switch {
	case t.Fault != "":
		return Told{Head: "No timetable: " + strings.TrimSuffix(t.Fault, ".") + "."}
	case len(t.Pieces) == 0:
		return Told{Head: "No timetable: there is no piece to dip."}
	}
	first, _ := wording.First(t.Plan.Rows, func(r load.Row) bool { return !r.Past })
	return TellPlan(t.Plan, t.Pieces, func(s quantity.Span) string { return day.DateOf(t.At(s), t.At(first.In)) })
}
