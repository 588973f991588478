package sheet

import (
	"fmt"
	"strconv"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/history"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/signs"
)

// OfVat is the history of a vat from its days, the oldest first: when it was built, each day, what was read and given, the
// pieces and their blues, the ladder, and the rhythm of its care. now is only for a day that is still open. A vat of no
// days gives an empty sheet.
func OfVat(days []Day, now time.Time) Sheet {
	if len(days) == 0 {
		return Sheet{Title: "No vat", Edge: edge()}
	}
	last := days[len(days)-1].State
	h := last.Head
	out := Sheet{
		Title: name(h), Subtitle: joined(" · ", h.Recipe.Name, h.Setup.Fill.Format(h.Setup.System()), counted(len(days), "day"), state(last, now)),
		Edge: edge(), Foot: Marks + " Local rules and your supplier's sheet decide.",
	}
	out.Add(summary(days))
	out.part("Days", calendar(days))
	out.part("Read", allRead(days))
	out.part("Given", given(days, true))
	blues, darkest := allBlues(days, now)
	if darkest != "" {
		out.Edge = darkest
	}
	out.part("Pieces and their blues", blues)
	end := endOf(last, now)
	if r := rungs(outlook.Blues(last, outlook.Of(last, end), end)); len(r.Row) > 0 {
		out.Add(Heading{"The ladder"}, r)
	}
	if !last.Ended {
		out.part("Care", care(h))
	}
	return out
}

// endOf is the moment as at which a day is told: its last event where it is closed.
func endOf(s day.State, now time.Time) time.Time {
	if s.Closed || now.Before(s.At) {
		return s.At
	}
	return now
}

// summary is the vat's life in figures.
func summary(days []Day) Facts {
	first, last := days[0].State, days[len(days)-1].State
	sys := last.Head.Setup.System()
	f := Facts{[]Fact{{"first day", days[0].Name}}}
	for _, d := range days {
		if !d.State.Head.Opening.Built && d.State.Step > len(d.State.Plan) {
			f.List = append(f.List, Fact{"built", d.Name})
			break
		}
	}
	if first.Head.Opening.Built {
		f.List = append(f.List, Fact{"built", "before these days"})
	}
	n, dry, dips := 0, quantity.Mass(0), 0
	for _, p := range history.GoodsOf(days) {
		if p.Dips > 0 {
			n, dry = n+1, dry+p.Spec.Dry
		}
	}
	for _, d := range days {
		for _, p := range d.State.Pieces {
			dips += len(p.Past)
		}
	}
	f.List = append(f.List, Fact{"dyed", joined(", ", counted(n, "piece"), dry.Format(sys)+" dry", counted(dips, "dip"))})
	return f
}

// calendar is a row a day.
func calendar(days []Day) Table {
	t := Table{Columns: columns("day", "what", "*pieces", "*dips", "*warmth", "*pH", "*indigo left")}
	for _, d := range days {
		s, sys := d.State, d.State.Head.Setup.System()
		what := "built"
		switch {
		case s.Head.Opening.Built:
			what = "tended"
		case s.Step <= len(s.Plan):
			what = "build begun"
		}
		n, dips := 0, 0
		for _, p := range s.Pieces {
			if len(p.Past) > 0 {
				n, dips = n+1, dips+len(p.Past)
			}
		}
		if n > 0 {
			what += ", dyed"
		}
		if s.Ended {
			what += ", ended"
		} else if !s.Closed {
			what += ", open"
		}
		warmth, ph := read(s)
		left := ""
		if i := outlook.Of(s, s.At).Indigo; i.Known != outlook.Unknown {
			left = i.Left.Likely.Format(sys) + " " + i.Known.Mark()
		}
		t.Rows = append(t.Rows, texts(d.Name, what, strconv.Itoa(n), strconv.Itoa(dips), warmth, ph, left))
	}
	return t
}

// read is the range of the °C and of the pH that were read in the vat.
func read(s day.State) (warmth, ph string) {
	var temps []quantity.Temperature
	var phs []float64
	for _, e := range s.Told() {
		if b, ok := e.Body.(day.Reading); ok && b.Of == "" {
			if b.Temp != nil {
				temps = append(temps, *b.Temp)
			}
			if b.PH != nil {
				phs = append(phs, *b.PH)
			}
		}
	}
	sys := s.Head.Setup.System()
	return ends(temps, func(t quantity.Temperature) string { return t.Format(sys) }), ends(phs, func(f float64) string { return fmt.Sprintf("%.1f", f) })
}

// ends are the least and the most of values, as they are said.
func ends[T float64 | quantity.Temperature](of []T, say func(T) string) string {
	if len(of) == 0 {
		return ""
	}
	low, high := of[0], of[0]
	for _, v := range of {
		low, high = min(low, v), max(high, v)
	}
	if say(low) == say(high) {
		return say(low)
	}
	return say(low) + " to " + say(high)
}

// allRead are the readings of all days.
func allRead(days []Day) Table {
	var t Table
	for _, d := range days {
		one := readings(d.State, true)
		t.Columns = one.Columns
		t.Rows = append(t.Rows, one.Rows...)
	}
	return t
}

// allBlues are the pieces with their blues, and the darkest of them.
func allBlues(days []Day, now time.Time) (t Table, dark string) {
	t.Columns = columns("day", "tag", "what", "fibre", "*dry", "*dips × min", "looks", "who")
	blues, of := map[string]Swatch{}, map[string]outlook.Blue{}
	for _, p := range history.GoodsOf(days) {
		if p.Dips == 0 {
			continue
		}
		sys := p.Of.State.Head.Setup.System()
		row := texts(p.Of.Name, p.Tag, p.Spec.What, p.Spec.Fibre, p.Spec.Dry.Format(sys), dipped(p.Piece), "", p.Spec.Who)
		if _, there := of[p.Of.Name]; !there {
			end := endOf(p.Of.State, now)
			of[p.Of.Name] = outlook.Blues(p.Of.State, outlook.Of(p.Of.State, end), end)
		}
		if sw, ok := look(p.Of.State, of[p.Of.Name], p.Piece); ok {
			row[6] = Cell{Swatch: &sw}
			blues[p.Of.Name+"/"+p.Tag] = sw
		}
		t.Rows = append(t.Rows, row)
	}
	return t, darkest(blues)
}

// care is the rhythm of the family, with room for when each was last done.
func care(h day.Head) Table {
	t := Table{Columns: columns("when", "what", "why", "last done")}
	for _, c := range signs.Care(h.Recipe.Family) {
		when := c.When
		if c.Every > 0 {
			when = "each " + c.Every.Format(h.Setup.System())
		}
		t.Rows = append(t.Rows, []Cell{text(when), text(c.What), text(c.Why), {Blank: true}})
	}
	return t
}
