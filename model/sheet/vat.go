package sheet

import (
	"fmt"
	"slices"
	"strconv"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/history"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/practice"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/wording"
)

// shortLife is up to how many readings and doses a vat's sheet has each of them: about half a page.
const shortLife = 30

// OfVat is the history of a vat from its days, the oldest first: when it was built, a plot of what was read, each day, the
// pieces and their blues, the ladder, and the rhythm of its care or how it ended. Each reading and each dose stand in it for a
// short life, or if full is asked for; of a long one the days have their sums, so that it keeps to two pages. now is only for a
// day that is still open. A vat of no days gives an empty sheet.
func OfVat(days []Day, now time.Time, full bool) Sheet {
	if len(days) == 0 {
		return Sheet{Title: "No vat", Edge: edge()}
	}
	last := days[len(days)-1].State
	h := last.Head
	out := Sheet{
		Title: h.Name(), Subtitle: wording.Joined(" · ", h.Recipe.Name, h.Setup.Fill.Format(h.Setup.System()), wording.Counted(len(days), "day"), state(last, now)),
		Edge: edge(), Foot: Marks + " Local rules and your supplier's sheet decide.",
	}
	pieces := history.BluesOf(days)
	out.Add(summary(days, pieces))
	if p, ok := plotOf(days); ok {
		out.Add(Heading{"What was read"}, p)
	}
	read, gave := allRead(days), given(days, true)
	brief := !full && len(read.Rows)+len(gave.Rows) > shortLife
	out.part("Days", calendar(days, brief))
	if brief {
		out.Add(Paragraph{fmt.Sprintf("Each reading (%d) and all that was given (%d): vatside sheet %s --what vat --full, or vatside book %s.",
			len(read.Rows), len(gave.Rows), h.Vat, h.Vat)})
	} else {
		out.part("Read", read)
		out.part("Given", gave)
	}
	blues, darkest := allBlues(pieces, now, brief)
	if darkest != "" {
		out.Edge = darkest
	}
	out.part("Pieces and their blues", blues)
	end := endOf(last, now)
	out.part("The ladder", rungs(outlook.Blues(last, outlook.Of(last, end), end)))
	if f, ended := ending(days[len(days)-1]); ended {
		out.Add(Heading{"Its end"}, f)
	} else {
		out.part("Care", care(h))
	}
	return out
}

// ending is how a vat ended; false for one that has not.
func ending(d Day) (Facts, bool) {
	var f Facts
	sys := d.State.Head.Setup.System()
	if b, at := d.State.End(); b != nil {
		f.add("day", d.Name+" at "+clock(at))
		f.add("why", b.Why)
		f.add("liquor", wording.If(b.Liquor > 0, b.Liquor.Format(sys)))
		if b.PH != nil {
			f.add("its pH", fmt.Sprintf("%.1f", *b.PH))
		}
		f.List = append(f.List, Fact{"went to", b.Route}) // a line to write on where it was not said
	}
	return f, d.State.Ended
}

// endOf is the moment as at which a day is told: its last event where it is closed.
func endOf(s day.State, now time.Time) time.Time {
	if s.Closed || now.Before(s.At) {
		return s.At
	}
	return now
}

// summary is the vat's life in figures.
func summary(days []Day, pieces []history.Blue) Facts {
	first, last := days[0].State, days[len(days)-1].State
	sys := last.Head.Setup.System()
	f := Facts{[]Fact{{"first day", days[0].Name}}}
	for _, d := range days {
		if !d.State.Head.Opening.Built && d.State.Step > len(d.State.Plan) {
			f.add("built", d.Name)
			break
		}
	}
	if first.Head.Opening.Built {
		f.add("built", "before these days")
	}
	dry := wording.Sum(pieces, func(p history.Blue) quantity.Mass { return p.Piece.Spec.Dry })
	dips := wording.Sum(days, func(d Day) int { return wording.Sum(d.State.Pieces, func(p day.Piece) int { return len(p.Past) }) })
	f.add("dyed", wording.Joined(", ", wording.Counted(len(pieces), "piece"), dry.Format(sys)+" dry", wording.Counted(dips, "dip")))
	return f
}

// calendar is a row a day. brief: with the first and the last strip of the day and what it was
// given in all; its warmth stands in the plot.
func calendar(days []Day, brief bool) Table {
	t := Table{Columns: columns("|day", "what", "*pieces", "*dips", "*warmth", "*pH", "*indigo left")}
	if brief {
		t.Columns = columns("|day", "what", "*|pH", "*|strip", "given", "*|indigo left")
	}
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
		switch {
		case n > 0 && !brief:
			what += ", dyed"
		case n > 0 && s.Head.Opening.Built: // who dyes tends as well
			what = wording.Counted(n, "piece") + ", " + wording.Counted(dips, "dip")
		case n > 0:
			what += ", " + wording.Counted(n, "piece") + ", " + wording.Counted(dips, "dip")
		}
		switch {
		case s.Ended && what == "tended":
			what = "ended"
		case s.Ended:
			what += ", ended"
		case !s.Closed:
			what += ", open"
		}
		warmth, ph := read(s)
		left := ""
		if i := outlook.Of(s, s.At).Indigo; i.Known != outlook.Unknown {
			left = i.Left.Likely.Format(sys) + " " + i.Known.Mark()
		}
		if !brief {
			t.Rows = append(t.Rows, texts(d.Name, what, strconv.Itoa(n), strconv.Itoa(dips), warmth, ph, left))
			continue
		}
		t.Rows = append(t.Rows, texts(d.Name, what, ph, strips(s), gave(s), left))
	}
	return t
}

// strips are the first and the last strip of a day.
func strips(s day.State) string {
	var all []string
	for e := range s.Corrected() {
		if b, ok := e.Body.(day.StripTest); ok {
			all = append(all, b.Stayed.Format(s.Head.Setup.System()))
		}
	}
	if len(all) == 0 {
		return ""
	}
	return between(all[0], all[len(all)-1], " → ")
}

// gave is what went in beyond the build on a day, each powder in one sum, and what was drawn off.
func gave(s day.State) string {
	var order []string
	powders := map[string]quantity.Mass{}
	var water, drawn quantity.Volume
	give := func(material string, m quantity.Mass) {
		if _, there := powders[material]; !there {
			order = append(order, material)
		}
		powders[material] += m
	}
	for e := range s.Corrected() {
		switch b := e.Body.(type) {
		case day.PowderAdded:
			if b.Step == 0 {
				give(b.Material, b.Mass)
			}
		case day.Fed:
			give(b.Material, b.Mass)
		case day.ToppedUp:
			water += b.Water
		case day.DrawnOff:
			drawn += b.Liquor
		case day.Decanted:
			drawn += b.Liquor
		}
	}
	sys := s.Head.Setup.System()
	out := wording.Each(order, func(m string) string { return powders[m].Format(sys) + " " + m })
	out = append(out, wording.If(water > 0, water.Format(sys)+" water"), wording.If(drawn > 0, drawn.Format(sys)+" drawn off"))
	return wording.Joined(", ", out...)
}

// read is the range of the °C and of the pH that were read in the vat.
func read(s day.State) (warmth, ph string) {
	var temps []quantity.Temperature
	var phs []float64
	for e := range s.Corrected() {
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
	return between(say(slices.Min(of)), say(slices.Max(of)), " to ")
}

func allRead(days []Day) Table {
	var t Table
	for _, d := range days {
		one := readings(d.State, true)
		t.Columns = one.Columns
		t.Rows = append(t.Rows, one.Rows...)
	}
	return t
}

// allBlues are the pieces with their blues, and the darkest of them. brief: a line a piece.
func allBlues(of []history.Blue, now time.Time, brief bool) (t Table, dark string) {
	t.Columns = columns("|day", "tag", "what", "fibre", "*dry", "*dips × min", "looks", "who")
	if brief {
		t.Columns = columns("|day", "tag", "what", "*|dry", "*|dips × min", "looks", "who")
	}
	blues := map[string]Swatch{}
	look := lookers(now)
	for _, b := range of {
		p, day := b.Piece, b.Of.Name
		dry := p.Spec.Dry.Format(b.Of.State.Head.Setup.System())
		row := texts(day, p.Tag, p.Spec.What, p.Spec.Fibre, dry, dipped(p), "", p.Spec.Who)
		if brief {
			row = texts(day, p.Tag, wording.Joined(", ", p.Spec.What, p.Spec.Fibre), dry, dipped(p), "", p.Spec.Who)
		}
		if sw, ok := look(b); ok {
			row[len(row)-2] = Cell{Swatch: &sw}
			blues[day+"/"+p.Tag] = sw
		}
		t.Rows = append(t.Rows, row)
	}
	return t, darkest(blues)
}

// lookers tells how pieces look on the last of their days; each day is reckoned once.
func lookers(now time.Time) func(history.Blue) (Swatch, bool) {
	of := map[string]outlook.Blue{}
	return func(p history.Blue) (Swatch, bool) {
		d := p.Of
		if _, there := of[d.Name]; !there {
			end := endOf(d.State, now)
			of[d.Name] = outlook.Blues(d.State, outlook.Of(d.State, end), end)
		}
		return look(p, of[d.Name])
	}
}

// care is the rhythm of the family, with room for when each was last done.
func care(h day.Head) Table {
	t := Table{Columns: columns("when", "what", "why", "last done")}
	for _, c := range practice.CareOf(h.Recipe) {
		when := wording.Either(c.Every > 0, "each "+c.Every.Format(h.Setup.System()), c.When)
		what := c.What
		if c.ID == "evening" {
			what = day.EveningRound(h, h.Setup.Fill, func(string) quantity.Mass { return 0 })
		}
		t.Rows = append(t.Rows, []Cell{text(when), text(what), text(c.Why), {Blank: true}})
	}
	return t
}
