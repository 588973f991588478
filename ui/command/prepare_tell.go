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
		rows.add(clockOn(a.At, ready.Ready), a.What+wording.If(a.For > 0, ", "+prepare.Lasting(a.For.Duration())))
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
	baths := "bath" + wording.If(s.Baths.Likely != 1, "s") + wording.If(s.Baths.Low < s.Baths.High, fmt.Sprintf(", %d to %d", s.Baths.Low, s.Baths.High))
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
	return at.Format(wording.Either(ready.Sub(at) > 6*24*time.Hour, "2 Jan 15:04", "Mon 15:04"))
}

// preparedOf are the keys of prepare --json. scour is null for goods that are scoured.
func preparedOf(ready prepare.Schedule, items []practice.Item, warnings, notes []string, sys quantity.System) object {
	return object{
		{"ready_at", stamp(ready.Ready)}, {"begin_at", stamp(ready.Begin())},
		{"pieces", each(ready.Lots, func(l prepare.Prepared) object {
			name := l.Name(sys)
			if l.Scoured && l.State == "" {
				l.State = "scoured"
			}
			return object{
				{"piece", name}, {"fibre", l.Fibre.String()}, {"dry_g", tidy(l.Dry.Grams())}, {"state", l.State}, {"scour", scourOf(l.Scour)},
				{"wet_out", object{
					{"water_l", tidy(l.Wet.Water.Litres())}, {"temp_c", spreadOf(l.Wet.Temp, quantity.Temperature.Celsius)}, {"time_min", spreadOf(l.Wet.Time, quantity.Span.Minutes)},
					{"how", l.Wet.How}, {"check", l.Wet.Check}, {"evidence", l.Wet.Evidence}}},
			}
		})},
		{"checklist", each(items, func(i practice.Item) object {
			return object{{"id", i.ID}, {"what", i.What}, {"why", i.Why}, {"when", i.When.String()}, {"safety", i.Safety}, {"evidence", i.Evidence}}
		})},
		{"schedule", each(ready.Tasks, func(t prepare.Task) object {
			return object{{"at", stamp(t.At)}, {"for_min", tidy(t.For.Minutes())}, {"what", t.What}, {"how", t.How}, {"check", t.Check}}
		})},
		{"warnings", warnings}, {"notes", notes},
	}
}

func scourOf(s *practice.Scour) object {
	if s == nil {
		return nil
	}
	return object{
		{"detergent", s.Washes()}, {"detergent_g", spreadOf(s.Detergent, quantity.Mass.Grams)}, {"alkali", some(s.AlkaliIs)}, {"alkali_g", spreadOf(s.Alkali, quantity.Mass.Grams)},
		{"water_l", spreadOf(s.Water, quantity.Volume.Litres)}, {"temp_c", spreadOf(s.Temp, quantity.Temperature.Celsius)}, {"time_min", spreadOf(s.Time, quantity.Span.Minutes)},
		{"baths", spreadOf(s.Baths, whole)}, {"how", s.How}, {"check", s.Check}, {"cautions", list(s.Cautions)}, {"evidence", s.Evidence},
	}
}
