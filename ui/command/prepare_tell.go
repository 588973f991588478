package command

import (
	"fmt"
	"strconv"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/practice"
	"example.org/vatside/model/prepare"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/sheet"
	"example.org/vatside/model/wording"
)

// tellPrepare prints what prepare found: the goods, the times, the checklist.
func tellPrepare(ready prepare.Schedule, items []practice.Item, warnings, notes []string, sys quantity.System) (tell telling) {
	for _, l := range ready.Lots {
		tell.line("%s:", l.Name(sys))
		tell.add(tellScour(l.Scour, sys)...)
		w := l.Wet
		tell.note("Wet out", fmt.Sprintf("%s of %s, %s; %s; till %s", w.Water.Format(sys), rangeOf(w.Temp, sys), rangeOf(w.Time, sys), w.How, w.Check))
		tell.line("")
	}
	tell.line("%s", ready.Ready.Format("For the first piece at 15:04 on Monday 2 January:"))
	var rows table
	for _, a := range ready.Tasks {
		what := a.What
		what += wording.If(a.For > 0, ", "+prepare.Lasting(a.For.Duration()))
		rows.add(clockOn(a.At, ready.Ready), what)
	}
	tell.table(rows)
	tell.notes("Mind", warnings)
	tell.notes("Note", notes)
	for _, when := range []practice.Moment{practice.EveningBefore, practice.AtTheStart, practice.BeforePowders} {
		head := when.String()
		for _, i := range items { // what guards eyes, skin and lungs stands first in it
			if i.When != when {
				continue
			}
			if head != "" {
				tell.line("")
				tell.line("%s:", wording.Upper(head))
				head = ""
			}
			tell.add(sheet.Ticks{List: []sheet.Tick{{Title: i.What}}})
		}
	}
	return tell
}

func tellScour(s *practice.Scour, sys quantity.System) (tell telling) {
	if s == nil {
		tell.note("", "scoured already")
		return tell
	}
	var rows table
	rows.add(s.Detergent.Likely.Scale(sys), "of "+s.Washes()+wide(s.Detergent, sys))
	switch {
	case s.Alkali.Likely > 0:
		rows.add(s.Alkali.Likely.Scale(sys), "of "+s.AlkaliIs+wide(s.Alkali, sys))
	case s.Alkali.High > 0:
		rows.add("none", "of "+s.AlkaliIs+", or up to "+s.Alkali.High.Scale(sys))
	}
	rows.add(s.Water.Likely.Format(sys), "of water"+wide(s.Water, sys))
	rows.add(s.Temp.Likely.Format(sys), "hot"+wide(s.Temp, sys))
	rows.add(s.Time.Likely.Format(sys), "each bath"+wide(s.Time, sys))
	baths := "bath" + wording.If(s.Baths.Likely != 1, "s")
	baths += wording.If(s.Baths.Low < s.Baths.High, fmt.Sprintf(", %d to %d", s.Baths.Low, s.Baths.High))
	rows.add(strconv.Itoa(s.Baths.Likely), baths)
	tell.table(rows)
	tell.note("Scour", s.How)
	tell.note("Done", s.Check)
	tell.notes("Caution", s.Cautions)
	return tell
}

// clockOn is a time of day, with the weekday where it is not that of the start.
func clockOn(at, ready time.Time) string {
	if at.YearDay() == ready.YearDay() && at.Year() == ready.Year() {
		return day.Clock(at)
	}
	if ready.Sub(at) > 6*24*time.Hour {
		return at.Format("2 Jan 15:04")
	}
	return at.Format("Mon 15:04")
}
