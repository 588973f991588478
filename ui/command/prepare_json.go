package command

import (
	"example.org/vatside/model/practice"
	"example.org/vatside/model/prepare"
	"example.org/vatside/model/quantity"
)

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
