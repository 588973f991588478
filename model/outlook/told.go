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
	Head  string // when it ends, and how good it is; or why there is none
	Rows  []Line // the dips to come, what the vats stand for and the breaks of the hands, by the time
	Done  []Line // of each person, or piece
	Notes []string
}

// Lines are the sentences of the outlook, one a line.
func (t Told) Lines() []string {
	out := []string{t.Head}
	for _, list := range [][]Line{t.Rows, t.Done} {
		for _, l := range list {
			out = append(out, l.At+"  "+l.Words)
		}
	}
	return append(out, t.Notes...)
}

// TellPlan is a plan in words, with the breaks of the hands; at says an instant of it.
func TellPlan(p load.Plan, pieces []load.Piece, breaks []load.Break, at func(quantity.Span) string) Told {
	best := "no order is shorter"
	if !p.Proven {
		best = fmt.Sprintf("at most %s longer than the best", day.Long(p.Gap.Duration()))
	}
	several := slices.ContainsFunc(p.Rows, func(r load.Row) bool { return r.Vat > 1 })
	pairs := slices.ContainsFunc(p.Rows, func(r load.Row) bool { return r.Hand > 1 })
	vat := func(n int, before string) string {
		if several {
			return fmt.Sprintf("%svat %d", before, n)
		}
		return ""
	}
	out := Told{Head: fmt.Sprintf("Last lift at %s, %s; all done at %s.", at(p.LastLift()), best, at(p.Finish()))}
	type row struct {
		from  quantity.Span
		words string
	}
	var rows []row
	for _, b := range breaks {
		if b.From >= p.LastLift() {
			continue
		}
		rows = append(rows, row{b.From, fmt.Sprintf("the hands are away till %s: %s", at(b.To), b.Why)})
	}
	for _, s := range p.Stands {
		rows = append(rows, row{s.From, fmt.Sprintf("%s stands till %s: %s", cmp.Or(vat(s.Vat, ""), "the vat"), at(s.To), s.Kind)})
	}
	for _, r := range p.Rows {
		if !r.Past {
			words := fmt.Sprintf("in %s%s, dip %d%s, out at %s", r.Tag, wording.If(r.Who != "", " of "+r.Who), r.Dip, wording.If(r.Round > 0, fmt.Sprintf(", round %d", r.Round)), at(r.Out))
			words += wording.If(pairs && r.Hand > 0, fmt.Sprintf(", pair %d", r.Hand)) + wording.If(pairs && r.LiftHand != r.Hand, fmt.Sprintf(", out by pair %d", r.LiftHand))
			rows = append(rows, row{r.In, words + vat(r.Vat, ", ")})
		}
	}
	sorted.By(rows, func(a, b row) int { return cmp.Compare(a.from, b.from) })
	out.Rows = wording.Each(rows, func(r row) Line { return Line{at(r.from), r.words} })
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

// Rules tells whether a day goes by its timetable: where many pieces share the vat. A strip of a ladder waits for nobody.
func Rules(s day.State) bool {
	live := func(p day.Piece) bool { return p.Live() && p.Spec.Form != Ladder }
	return !s.Closed && wording.Count(s.Pieces, live) >= Ruled && day.Filled(s)
}

// Advised is a day that goes by its timetable with one that is made afresh, as of its last event, as whoever opens it has it; nil and the
// day as it is where none rules. Later the timetable that was is kept where it can be, and the turns of another opening may differ.
func Advised(s day.State) (day.State, *Table) {
	if !Rules(s) {
		return s, nil
	}
	t := TimetableNow(s, s.At)
	return s.AdvisedBefore(t.Turn(), t.Goes()), &t
}

// Told is the timetable in words, by the clock; what is not on the day of now has its day.
func (t Table) Told(now time.Time) Told {
	switch {
	case t.Fault != "":
		return Told{Head: "No timetable: " + strings.TrimSuffix(t.Fault, ".") + "."}
	case len(t.Pieces) == 0:
		return Told{Head: "No timetable: there is no piece to dip."}
	}
	return TellPlan(t.Plan, t.Pieces, t.Limits.Breaks, func(s quantity.Span) string { return day.DateOf(t.At(s), now) })
}
