package sheet

import (
	"cmp"
	"fmt"
	"strings"

	"example.org/vatside/model/day"
	"example.org/vatside/model/load"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/wording"
)

// OfRecipe is a day to be done: what is weighed, the water, the steps with boxes to tick and room for the times, and the
// pieces with their dips. plan is their timetable, the zero Plan for none; its times count from the first piece. A setup
// that the recipe cannot be scaled to is an error in one sentence.
func OfRecipe(r recipe.Recipe, setup day.Setup, pieces []load.Piece, plan load.Plan) (Sheet, error) {
	steps, err := day.Plan(day.Head{Recipe: r, Setup: setup})
	if err != nil {
		return Sheet{}, err
	}
	am, err := recipe.Scale(r, setup.Fill, recipe.Options{IndigoStrength: setup.Strength})
	if err != nil {
		return Sheet{}, err
	}
	sys := setup.System()
	s := Sheet{
		Title: r.Name, Subtitle: wording.Joined(" · ", setup.Name, setup.Fill.Format(sys), "a day to come"), Edge: edge(),
		Foot: "Source of the doses: " + r.Source + ". Local rules and your supplier's sheet decide.",
	}
	s.Add(Facts{[]Fact{{"date", ""}, {"vat", setup.Name}, {"works at", liquor(r, sys)}}})
	s.Add(Cautions{am.Cautions})
	s.Add(Heading{"To weigh"}, amounts(am, sys))
	s.part("Water", waters(steps, sys))
	s.Add(Heading{"Steps"}, todo(steps, sys))
	if len(pieces) > 0 {
		s.Add(Heading{"Pieces"}, planned(pieces, sys))
		s.hints(plan)
	}
	s.part("Dips, from the first piece in", turns(plan))
	s.Add(Heading{"Notes"}, Facts{[]Fact{{"°C and pH, when", ""}, {"strip, when", ""}, {"seen", ""}}})
	return s, nil
}

// liquor is where the vat works.
func liquor(r recipe.Recipe, sys quantity.System) string {
	l := r.Liquor
	return fmt.Sprintf("%s to %s, best %s; pH %.1f to %.1f", l.Low.Format(sys), l.High.Format(sys), l.Aim.Format(sys), l.PHLow, l.PHHigh)
}

// amounts are the powders, with room for what the scale showed.
func amounts(a recipe.Amounts, sys quantity.System) Table {
	t := Table{Columns: columns("*weigh", "powder", "wet or dissolve in", "into", "weighed", "in")}
	for _, p := range a.Powders {
		into := ""
		switch {
		case p.Powder.Into == recipe.IntoStock:
			into = "stock jar"
		case a.StockVolume > 0:
			into = "vat"
		}
		t.Rows = append(t.Rows, []Cell{text(p.Grams.Scale(sys)), text(p.Powder.Material), text(wetting(p, sys)), text(into), {Blank: true}, {Boxes: 1}})
	}
	return t
}

// wetting is the water that goes with a powder.
func wetting(p recipe.Amount, sys quantity.System) string {
	wet := wording.If(p.Jars > 1, fmt.Sprintf(" in %d jars", p.Jars)) + wording.If(p.Rinse > 0, ", rinse with "+p.Rinse.Format(sys))
	wet = wording.If(p.Hydrate > 0, p.Hydrate.Format(sys)+wet)
	return cmp.Or(wording.Joined("; ", wet, wording.If(p.Dissolve > 0, p.Dissolve.Format(sys))), "goes in dry")
}

// waters are what is poured, cold and hot.
func waters(steps []day.Step, sys quantity.System) Facts {
	var f Facts
	for _, st := range steps {
		if st.Do != recipe.Fill {
			continue
		}
		where := wording.Either(st.Into == recipe.IntoStock, "the stock jar", "the vat")
		cold := st.Cold
		if st.Cold+st.Hot == 0 {
			cold = st.Water
		}
		f.add(where, cold.Format(sys)+" cold"+wording.If(st.Hot > 0, ", then "+st.Hot.Format(sys)+" hot")+degrees(", to ", st.To, sys))
	}
	return f
}

// todo are steps with a box each, their caution before their words, and what is to be written down.
func todo(steps []day.Step, sys quantity.System) Ticks {
	var t Ticks
	for _, st := range steps {
		more := wording.Filled(wording.If(st.Look != "", "Look for "+stopped(st.Look)), wording.If(st.Meanwhile != "", "Meanwhile: "+st.Meanwhile))
		words := append(sentences(st.How), more...)
		t.List = append(t.List, Tick{No: st.No, Title: st.Title, Figure: figure(st, sys), Caution: st.Caution, Words: words, Write: writes(st)})
	}
	return t
}

func stopped(s string) string { return strings.TrimSuffix(s, ".") + "." }

// figure is the amount of a step: its mass, its water, its °C and its time, whichever it has.
func figure(st day.Step, sys quantity.System) string {
	mass := wording.If(st.Mass > 0, st.Mass.Scale(sys))
	water := wording.If(st.Water > 0, wording.If(mass != "", "in ")+st.Water.Format(sys))
	return wording.Joined(", ", wording.Joined(" ", mass, water), degrees("to ", st.To, sys), degrees("at least ", st.AtLeast, sys),
		degrees("liquor at most ", st.AtMost, sys), wording.If(st.For > 0, st.For.Format(sys)))
}

// degrees is a temperature behind a word; empty where there is none.
func degrees(word string, t *quantity.Temperature, sys quantity.System) string {
	if t == nil {
		return ""
	}
	return word + t.Format(sys)
}

// writes is what the hands note at a step.
func writes(st day.Step) []string {
	switch {
	case st.Waits():
		return []string{"from", "to"}
	case st.Judges():
		return []string{"at", "°C", "pH", "strip"}
	case st.To != nil || st.AtMost != nil || st.AtLeast != nil:
		return []string{"at", "°C"}
	case st.Do == recipe.Weigh:
		return []string{"at", "weighed"}
	}
	return []string{"at"}
}

// planned are pieces to come, with a box a dip.
func planned(pieces []load.Piece, sys quantity.System) Table {
	t := Table{Columns: columns("tag", "what", "fibre", "*dry", "depth", "*dips × min", "*air", "who", "done")}
	for _, p := range pieces {
		t.Rows = append(t.Rows, []Cell{
			text(p.Tag), text(p.What), text(p.Fibre.String()), text(p.Dry.Format(sys)), text(p.Depth),
			text(fmt.Sprintf("%d × %s", p.Dips, p.Dip.Format(sys))), text(p.Air.Format(sys)), text(p.Who), {Boxes: p.Dips},
		})
	}
	return t
}

// hints say what the pieces ask of the day.
func (s *Sheet) hints(plan load.Plan) {
	s.Add(Paragraph{"Wet them out: cotton and linen an hour at least, till no bubble rises; squeeze, open out, no dry pocket."})
	if len(plan.Rows) > 0 {
		s.Add(Paragraph{fmt.Sprintf("Last one lifted %s after the first goes in; all done, rinsed and soured, after %s.", from(plan.Makespan), from(plan.Finish()))})
	}
	if len(plan.Warnings) > 0 {
		s.Add(Cautions{sentences(plan.Warnings...)})
	}
}

func turns(plan load.Plan) Timetable {
	return Timetable{wording.Each(plan.Rows, func(r load.Row) Slot {
		return Slot{At: from(r.In), Till: from(r.Out), Words: fmt.Sprintf("%s, dip %d", r.Tag, r.Dip), Box: true}
	})}
}
