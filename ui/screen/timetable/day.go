package timetable

import (
	"cmp"
	"fmt"
	"strings"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/widget"
)

// lanes is the day: a lane a piece, from now to the last lift. Where all have room each keeps its place the whole day; else
// they stand by turns, so that what hangs in the vat and what is due next is on top.
func (s Screen) lanes(x sight, sheet widget.Sheet) (widget.Sheet, span) {
	all := x.stand()
	sheet.Act, sheet.ActBig = "Last lift "+x.clock(x.lastLift()), true
	sheet.How = append(append(sheet.How, wording.Sentence(wording.Joined("; ", "All done "+x.clock(x.done()), x.best()))), x.says(all)...)
	columns, rows := x.env.Room(sheet)
	helpers := x.helpers(columns)
	rows = max(rows-len(helpers), leastRows)
	d := x.picture(all)
	shown := span{0, len(all), len(all)}
	if fits := max(widget.LanesFit(d, rows), 1); fits < len(all) {
		d = x.picture(byTurn(all))
		shown = window(s.top, len(all), fits, 1)
		d.Lanes = d.Lanes[shown.from:shown.to]
		rows -= shown.beside()
	}
	sheet.Body = append(helpers, shown.around(widget.DrawLanes(d, columns, rows, x.env.Style), x.env.Style)...)
	return sheet, shown
}

// leastRows is what the lanes have even where sentences must give way.
const leastRows = 4

// coming is how many dips are to come.
func coming(all []stood) int {
	return wording.Sum(all, func(s stood) int { return len(s.rows) })
}

// best says how good the plan is.
func (x sight) best() string {
	p := x.t.Plan
	switch {
	case coming(x.stand()) < 2:
		return ""
	case p.Proven:
		return "no order is shorter"
	case p.Gap > 0:
		return "at most " + day.Long(p.Gap.Duration()) + " longer than the best"
	}
	return ""
}

// says is what is in the vat, what comes next, and what is wrong.
func (x sight) says(all []stood) []string {
	var in []string
	next := ""
	for _, s := range byTurn(all) {
		switch {
		case s.in && !s.next.After(x.now()):
			in = append(in, s.is.Tag+", out now")
		case s.in:
			in = append(in, s.is.Tag+" till "+x.clock(s.next))
		case next == "":
			next = s.is.Tag + wording.Either(s.next.After(x.now()), " in at "+x.clock(s.next), " in now")
		}
	}
	line := wording.If(len(in) > 0, "In the vat: "+strings.Join(in, "; ")+".")
	late := x.late()
	if next != "" && late == "" {
		line = strings.TrimSpace(line + " Next " + next + ".")
	}
	return wording.Only(append([]string{x.begins(), late, line}, x.t.Plan.Warnings...), func(l string) bool { return l != "" })
}

// picture is the day as the lanes take it.
func (x sight) picture(all []stood) widget.Lanes {
	now := x.now()
	d := widget.Lanes{From: now, To: x.lastLift(), Now: now, Zone: now.Location(), Fars: "dips", Ends: "done"}
	begin := d.To
	for _, s := range all {
		at := s.next
		if s.in {
			at = now
		}
		if at.Before(begin) {
			begin = at
		}
	}
	if begin.Sub(now) > d.To.Sub(begin) { // the wait is longer than the work: it is left out
		d.From = begin
	}
	for _, s := range all {
		l := widget.Lane{Tag: s.is.Tag, What: s.is.Spec.What, Far: fmt.Sprintf("%d of %d", s.is.Dips, s.dips())}
		if a, ok := x.answer(s.is.Tag); ok {
			l.Likely = []string{a.Words(), a.Short()}
		}
		air := s.as.Air.Duration()
		airs := func(from time.Time, dip int) {
			long := air
			if dip >= s.dips() {
				long = s.as.FinalAir.Duration()
			}
			l.Airs = append(l.Airs, widget.Period{From: from, To: from.Add(long)})
		}
		begun := s.is.Dips
		switch {
		case s.in:
			begun++
			to := s.due
			if to.Before(now) {
				to = now
			}
			l.Dips = append(l.Dips, widget.LaneDip{From: s.is.Since, To: to, Cloth: x.cloth(s.is.Tag, begun), In: true})
			l.Now = !s.due.After(now.Add(soon))
			airs(to, begun)
		case s.due.After(now):
			l.Airs = append(l.Airs, widget.Period{From: now, To: s.due})
		}
		for i, r := range s.rows {
			from, to := x.t.At(r.Lower), x.t.At(r.Lifted)
			if i == 0 { // as the call has it; late, it can only go in now
				at := from
				if !s.in {
					at = s.next
				}
				at = day.Latest(at, now)
				from, to = at, at.Add(to.Sub(from))
			}
			if i == 0 && !s.in && !from.After(now.Add(soon)) {
				l.Now = true
			}
			l.Dips = append(l.Dips, widget.LaneDip{From: from, To: to, Cloth: x.cloth(s.is.Tag, r.Dip)})
			airs(to, r.Dip)
			if to.After(d.To) {
				d.To = to
			}
		}
		if at, ok := x.t.Done(s.is.Tag); ok {
			l.Ends = x.clock(at)
		}
		d.Lanes = append(d.Lanes, l)
	}
	for _, stand := range x.t.Plan.Stands {
		if to := x.t.At(stand.To); to.After(d.From) && x.t.Limits.Vats <= 1 {
			d.Rests = append(d.Rests, widget.Period{From: x.t.At(stand.From), To: to, Name: stand.Kind})
		}
	}
	for _, b := range x.t.Limits.Breaks {
		if to := x.t.At(b.To); to.After(d.From) && b.From < x.t.Plan.Makespan {
			name := cmp.Or(b.Why, "break")
			d.Rests = append(d.Rests, widget.Period{From: x.t.At(b.From), To: to, Name: name})
		}
	}
	if d.To.Sub(d.From) < shortest {
		d.To = d.From.Add(shortest)
	}
	return d
}

// soon is how long before its time a piece calls the eye, and shortest is the least stretch of time that is drawn.
const soon, shortest = 15 * time.Second, 20 * time.Minute
