package sheet

import (
	"fmt"
	"slices"
	"strconv"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/load"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
)

// wentIn are the powders of the build: as the recipe has them, as weighed, and when each went in.
func wentIn(s day.State) Table {
	t := Table{Columns: columns("powder", "*by the recipe", "*weighed", "went in at")}
	sys := s.Head.Setup.System()
	am, err := recipe.Scale(s.Head.Recipe, s.Head.Setup.Fill, recipe.Options{IndigoStrength: s.Head.Setup.Strength})
	if err != nil {
		return t
	}
	for _, a := range am.Powders {
		weighed, at := quantity.Mass(0), ""
		for _, st := range s.Plan {
			if st.Do == recipe.Weigh && st.Powder == a.Powder.ID {
				weighed += s.Weighed(st.No)
			}
		}
		for _, e := range s.Told() {
			if b, ok := e.Body.(day.PowderAdded); ok && b.Powder == a.Powder.ID && b.Step > 0 {
				at = joined(", ", at, clock(e.At))
			}
		}
		row := []Cell{text(a.Powder.Material), text(a.Grams.Scale(sys)), text(weighed.Scale(sys)), text(at)}
		if weighed == 0 {
			row[2] = Cell{Blank: true}
		}
		if at == "" {
			row[3] = Cell{Blank: true}
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// steps are those of the plan that the day had before it, with when each was done; those to come have a box.
func steps(s day.State) Table {
	t := Table{Columns: columns("*no", "step", "amount", "done", "note")}
	sys := s.Head.Setup.System()
	done, note := map[int]time.Time{}, map[int]string{}
	for _, e := range s.Told() {
		st, ok := e.Body.(day.Stepped)
		if !ok || st.StepNo() == 0 {
			continue
		}
		no := st.StepNo()
		switch b := e.Body.(type) {
		case day.CautionAnswered, day.PowderWeighed, day.StepBegun, day.StripTest, day.Reading:
		case day.VatJudged:
			if !b.Ready {
				note[no] = joined("; ", note[no], "not yet at "+clock(e.At)+because(b.Seen))
				continue
			}
			done[no], note[no] = e.At, joined("; ", note[no], "ready"+because(b.Seen))
		case day.StepSkipped:
			done[no], note[no] = e.At, joined("; ", note[no], "left out: "+b.Reason)
		default:
			done[no] = e.At
			if p, ok := e.Body.(day.Presumed); ok && p.IsAssumed() {
				note[no] = joined("; ", note[no], "as planned, not confirmed")
			}
		}
	}
	for _, st := range s.Plan {
		if st.No < s.Head.Opening.Step { // an earlier day's
			continue
		}
		row := []Cell{text(strconv.Itoa(st.No)), text(st.Title), text(figure(st, sys)), text(clock(done[st.No])), text(note[st.No])}
		if done[st.No].IsZero() {
			row[3] = Cell{Boxes: 1}
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

func because(why string) string {
	if why == "" {
		return ""
	}
	return ": " + why
}

// readings are what instruments, strips and the eye said, of the stock jar too. dated: with the date before the time.
func readings(s day.State, dated bool) Table {
	t := Table{Columns: columns("at", "*warmth", "*pH", "*strip", "level", "of, with, seen")}
	sys := s.Head.Setup.System()
	for _, e := range s.Told() {
		at := clock(e.At)
		if dated {
			at = e.At.Format("2 Jan 15:04")
		}
		switch b := e.Body.(type) {
		case day.Reading:
			var temp, ph, level string
			if b.Temp != nil {
				temp = b.Temp.Format(sys)
			}
			if b.PH != nil {
				ph = strconv.FormatFloat(*b.PH, 'f', 1, 64)
				if b.PHTemp != nil {
					ph += " at " + b.PHTemp.Format(sys)
				}
			}
			switch {
			case b.BelowRim != nil:
				level = b.BelowRim.Format(sys) + " below the rim"
			case b.Holds != nil:
				level = b.Holds.Format(sys)
			}
			of := ""
			if b.Of == string(recipe.IntoStock) {
				of = "stock jar"
			}
			t.Rows = append(t.Rows, texts(at, temp, ph, "", level, joined(", ", of, b.With)))
		case day.StripTest:
			t.Rows = append(t.Rows, texts(at, "", "", b.Stayed.Format(sys), "", b.Colour))
		}
	}
	return t
}

// given is what went in beyond the build, with the strip before it and the next one after it. dated: several days.
func given(days []Day, dated bool) Table {
	t := Table{Columns: columns("at", "what", "why", "*strip before", "*strip after")}
	for _, d := range days {
		strip := ""    // of this day: yesterday's says nothing of today
		var wait []int // rows whose strip after is still to come
		sys := d.State.Head.Setup.System()
		put := func(e day.Event, what, why string) {
			at := clock(e.At)
			if dated {
				at = e.At.Format("2 Jan 15:04")
			}
			if why == "build" {
				why = ""
			}
			wait = append(wait, len(t.Rows))
			t.Rows = append(t.Rows, texts(at, what, why, strip, ""))
		}
		for _, e := range d.State.Told() {
			switch b := e.Body.(type) {
			case day.StripTest:
				strip = b.Stayed.Format(sys)
				for _, i := range wait {
					t.Rows[i][4] = text(strip)
				}
				wait = nil
			case day.PowderAdded:
				if b.Step == 0 {
					put(e, b.Mass.Scale(sys)+" "+b.Material, b.Why)
				}
			case day.Fed:
				put(e, b.Mass.Scale(sys)+" "+b.Material, b.Why)
			case day.ToppedUp:
				put(e, b.Water.Format(sys)+" water", "topped up")
			case day.Decanted:
				put(e, b.Liquor.Format(sys)+" drawn off", b.Why)
			}
		}
	}
	return t
}

// looks are the blues of a day's pieces that had a dip, by tag.
func looks(s day.State, b outlook.Blue) map[string]Swatch {
	out := map[string]Swatch{}
	for _, p := range s.Pieces {
		if p.Dips == 0 || p.Phase == day.Dropped {
			continue
		}
		if sw, ok := look(s, b, p); ok {
			out[p.Tag] = sw
		}
	}
	return out
}

// look is how a piece looks: as it was seen, else as it was wished once it is finished, else as its dips so far give it.
func look(s day.State, b outlook.Blue, p day.Piece) (Swatch, bool) {
	lab, known, ok := outlook.Looks(s, p.Tag)
	if !ok {
		return Swatch{}, false
	}
	if known != outlook.Measured && p.Phase != day.FinishedPiece {
		if now := b.Plan(p).Now; now != nil {
			lab, known = now.Lab, outlook.Reckoned
		}
	}
	sw := blue(lab, groundOf(p))
	if sw.Note = seen(known); known == outlook.Reckoned && b.Claim != "calibrated" {
		sw.Note = "a guess by its dips"
	}
	return sw, true
}

// darkest is the darkest colour among swatches; empty where there is none.
func darkest(of map[string]Swatch) string {
	least, hex := 101.0, ""
	for _, sw := range of {
		if l := lightness(sw.Hex); l < least || l == least && sw.Hex < hex {
			least, hex = l, sw.Hex
		}
	}
	return hex
}

// pieces are those of the day, as they look now.
func pieces(s day.State, blues map[string]Swatch) Table {
	t := Table{Columns: columns("tag", "what", "fibre", "*dry", "*dips × min", "looks", "who", "")}
	sys := s.Head.Setup.System()
	for _, p := range s.Pieces {
		row := texts(p.Tag, p.Spec.What, p.Spec.Fibre, p.Spec.Dry.Format(sys), dipped(p), "", p.Spec.Who, phase(p))
		if sw, ok := blues[p.Tag]; ok {
			row[5] = Cell{Swatch: &sw}
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// dipped is how many dips a piece had, and how long one was.
func dipped(p day.Piece) string {
	var sum time.Duration
	n := 0
	for _, d := range p.Past {
		if !d.Ended.IsZero() {
			sum += d.Ended.Sub(d.Begun)
			n++
		}
	}
	of := strconv.Itoa(p.Dips)
	if want := p.Want(); p.Live() && want > p.Dips {
		of += " of " + strconv.Itoa(want)
	}
	if n == 0 {
		return of + " × " + day.Long(p.DipTime().Duration())
	}
	return of + " × " + day.Long(sum/time.Duration(n))
}

// phase is where a piece is, in a word.
func phase(p day.Piece) string {
	return [...]string{"dry", "wetted out", "in the vat", "airing", "aired", "finished", "off the list", "carried over"}[p.Phase]
}

// dips are those that were made, in their order.
func dips(s day.State) Timetable {
	type one struct {
		tag string
		day.Dip
	}
	var all []one
	for _, p := range s.Pieces {
		for _, d := range p.Past {
			all = append(all, one{p.Tag, d})
		}
	}
	slices.SortStableFunc(all, func(a, b one) int { return a.Begun.Compare(b.Begun) })
	var t Timetable
	for _, d := range all {
		slot := Slot{At: clock(d.Begun), Till: clock(d.Ended), Words: fmt.Sprintf("%s, dip %d", d.tag, d.No)}
		switch {
		case d.Ended.IsZero():
			slot.Note, slot.Box = "in the vat", true
		case d.Assumed:
			slot.Note = minutes(d.Ended.Sub(d.Begun)) + ", not confirmed"
		default:
			slot.Note = minutes(d.Ended.Sub(d.Begun))
		}
		t.Rows = append(t.Rows, slot)
	}
	return t
}

// coming are the dips still to come of an open day, by its timetable.
func coming(s day.State, o outlook.Outlook, b outlook.Blue, now time.Time) Timetable {
	var t Timetable
	table := outlook.Timetable(s, o, b, load.Plan{}, now, 0)
	for _, r := range table.Plan.Rows {
		if !r.Past {
			t.Rows = append(t.Rows, Slot{At: clock(table.At(r.In)), Till: clock(table.At(r.Out)), Words: fmt.Sprintf("%s, dip %d", r.Tag, r.Dip), Box: true})
		}
	}
	return t
}

// rungs are the vat's ladder.
func rungs(b outlook.Blue) Swatches {
	var out Swatches
	for _, r := range b.Rungs {
		sw := blue(r.Lab, 0)
		sw.Rung, sw.Note = r.No, seen(r.Known)
		if r.Known == outlook.Guessed { // a rung that was made and not looked at
			sw.Note = "a guess"
		}
		out.Row = append(out.Row, sw)
	}
	return out
}

// notes are the dyer's own lines, the signs that were seen, and who stood at the vat.
func notes(s day.State) Table {
	t := Table{Columns: columns("at", "note")}
	for _, e := range s.Told() {
		words := ""
		switch b := e.Body.(type) {
		case day.Note:
			words = b.Text
		case day.SignSeen, day.HelperChanged, day.Rested, day.CrockTested, day.Soured, day.PieceDropped:
			words = upper(b.Sentence(s.Head.Setup.System()))
		}
		if words != "" {
			t.Rows = append(t.Rows, texts(clock(e.At), words))
		}
	}
	return t
}
