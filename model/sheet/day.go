package sheet

import (
	"fmt"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/history"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/wording"
)

// Day is one day of a vat, by its name in the book.
type Day = history.Day

// OfDay is one day as it was, or as it stands at now: what went in, the steps with their times, what was read and given,
// the pieces and their dips, the liquor, how the vat ended, and what is open. The liquor of a closed day is that of its last event.
func OfDay(d Day, now time.Time) Sheet {
	s := d.State
	now = endOf(s, now)
	sys := s.Head.Setup.System()
	o := outlook.Of(s, now)
	b := outlook.Blues(s, o, now)
	out := Sheet{Title: s.Head.Name(), Subtitle: wording.Joined(" · ", d.Name, s.Head.Recipe.Name, s.Head.Setup.Fill.Format(sys), state(s, now)), Edge: edge()}
	out.Foot = Marks + " Local rules and your supplier's sheet decide."
	out.Add(setup(s))
	if !s.Closed {
		out.openNow(s, now)
	}
	if o := s.Head.Opening; !o.Built && o.Step <= 1 {
		out.part("What went in", wentIn(s))
	}
	out.part("Steps", steps(s))
	out.part("Read", readings(s, false))
	out.part("Given", given([]Day{d}, false))
	blues := looks(s, b)
	out.part("Pieces", pieces(s, blues))
	if darkest := darkest(blues); darkest != "" {
		out.Edge = darkest
	}
	out.part("Dips", dips(s))
	head := "The liquor as the day ended"
	if !s.Closed {
		out.part("Dips to come", coming(s, o, b, now))
		head = "The liquor at " + clockOf(s, now)
	}
	out.part("The ladder", rungs(b))
	out.part(head, stands(s, o, sys))
	if f, ended := ending(d); ended {
		out.Add(Heading{"Its end"}, f)
	}
	if s.Closed {
		out.left(s, now)
	}
	out.part("Notes", notes(s))
	return out
}

// part adds a block of rows under its heading, if it has any. Not inlined: that was 8 kB of the program.
//
//go:noinline
func (s *Sheet) part(head string, b Block) {
	rows := 0
	switch b := b.(type) {
	case Table:
		rows = len(b.Rows)
	case Timetable:
		rows = len(b.Rows)
	case Facts:
		rows = len(b.List)
	case Ticks:
		rows = len(b.List)
	case Swatches:
		rows = len(b.Row)
	}
	if rows > 0 {
		s.Add(Heading{head}, b)
	}
}

// state is how the day stands, in a few words.
func state(s day.State, now time.Time) string {
	var words string
	switch {
	case s.Ended:
		words = "the vat ended at " + clockOf(s, s.At)
	case s.Closed:
		words = clock(s.Opened) + " to " + clockOf(s, s.At)
	case s.Opened.IsZero():
		words = "open"
	default:
		words = "open since " + clock(s.Opened) + ", as at " + clockOf(s, now)
	}
	words += wording.If(s.Head.Rehearsed, ", rehearsed")
	return words
}

// setup is what the dyer chose before the first step.
func setup(s day.State) Facts {
	h, sys := s.Head, s.Head.Setup.System()
	var f Facts
	f.add("day of the vat", wording.If(h.Opening.Number > 1, fmt.Sprint(h.Opening.Number)))
	vessel := wording.Joined(" ", h.Setup.Vessel, h.Setup.Material)
	if v := h.Setup.Measured(); v.Shape != nil {
		vessel += ", holds " + v.Brim().Format(sys) + " to the brim"
	}
	f.add("vessel", vessel)
	f.add("place", h.Setup.Place)
	f.add("water", wording.If(h.Setup.Cold != 0 && h.Setup.Hot != 0, h.Setup.Cold.Format(sys)+" cold, "+h.Setup.Hot.Format(sys)+" hot"))
	f.add("heater", wording.If(h.Setup.Heater > 0, h.Setup.Heater.Format(sys)))
	f.add("works at", liquor(h.Recipe, sys))
	if h.Setup.DoneBy != nil {
		f.add("done by", clockOf(s, *h.Setup.DoneBy))
	}
	if o := h.Opening; o.Built && o.Until != nil {
		f.add("took over", "pure indigo "+spread(quantity.Range[quantity.Mass]{Low: o.IndigoLow, Likely: o.Indigo, High: o.IndigoHigh}, sys)+
			"; reducer "+spread(quantity.Range[quantity.Mass]{Low: o.ReducerLow, Likely: o.Reducer, High: o.ReducerHigh}, sys))
	}
	return f
}

// spread is a range of masses: the likely one, and the others beside it where they differ.
func spread(r quantity.Range[quantity.Mass], sys quantity.System) string {
	likely, low, high := r.Likely.Format(sys), r.Low.Format(sys), r.High.Format(sys)
	return wording.Either(low == likely && high == likely, likely, likely+" ("+low+" to "+high+")")
}

// openNow is what the hands do now and then.
func (s *Sheet) openNow(st day.State, now time.Time) {
	t := Ticks{[]Tick{{Title: wording.Sentence(day.NowLine(st, now)), Write: []string{"at"}}}}
	if then := day.Upcoming(st, now); then != "" {
		t.List = append(t.List, Tick{Title: "Then: " + stopped(then), Write: []string{"at"}})
	}
	s.Add(Heading{"Now"}, t)
}

// left is what a closed day leaves to be done.
func (s *Sheet) left(st day.State, now time.Time) {
	var t Ticks
	for _, b := range day.Between(st, now) {
		words := wording.Either(!b.At.IsZero(), b.At.Format("Mon 2 Jan 15:04")+": "+b.Words, wording.Upper(b.Words))
		t.List = append(t.List, Tick{Title: words, Write: []string{"at"}})
	}
	for _, p := range st.Pieces {
		if p.Live() || p.Phase == day.Carried {
			t.List = append(t.List, Tick{Title: fmt.Sprintf("%s: %d of %d dips", p.Name(), p.Dips, max(p.Dips, p.Want())), Write: []string{"at"}})
		}
	}
	s.part("Still open", t)
}

// stands is the liquor by what is known of it.
func stands(s day.State, o outlook.Outlook, sys quantity.System) Facts {
	var f Facts
	if o.Empty {
		return f
	}
	if h := o.Heat; h.Known != outlook.Unknown {
		f.add("warmth", h.Now.Format(sys)+" "+h.Known.Mark())
	}
	if p := o.PH; p.Known != outlook.Unknown {
		value := p.Now.Likely.String()
		if p.Now.Low.String() != p.Now.High.String() {
			value = p.Now.Low.String() + " to " + p.Now.High.String()
		}
		f.add("pH", value+" "+p.Known.Mark())
	}
	if r := o.Reducer; r.Known != outlook.Unknown {
		f.add("reducer left", spread(r.Left, sys)+" "+r.Known.Mark())
	}
	if i := o.Indigo; i.Known != outlook.Unknown {
		f.add("pure indigo left", spread(i.Left, sys)+", "+i.PerLitre.Likely.Format(sys)+" "+i.Known.Mark())
		f.add("feed", wording.Sentence(i.Feed))
	}
	if s.Vat.Strip != nil {
		f.add("last strip", s.Vat.Strip.Format(sys)+" at "+clockOf(s, s.Vat.StripAt))
	}
	return f
}
