package sheet

import (
	"strconv"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/wording"
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
		for _, p := range s.Portions() {
			if p.Way == day.Added && p.Powder == a.Powder.ID && p.Step > 0 {
				at = wording.Joined(", ", at, clockOf(s, p.At))
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
	var sour quantity.Mass
	for e := range s.Corrected() {
		switch b := e.Body.(type) {
		case day.PowderAdded:
			if b.Powder == acid {
				sour += b.Mass
			}
		case day.VatEnded: // it has no step of its own: saying where the liquor went does the last one
			for _, st := range s.Plan {
				if st.Do == day.DoEnd {
					done[st.No] = e.At
				}
			}
		}
		st, ok := e.Body.(day.Stepped)
		if !ok || st.StepNo() == 0 {
			continue
		}
		no := st.StepNo()
		switch b := e.Body.(type) {
		case day.CautionAnswered, day.PowderWeighed, day.StepBegun, day.StripTest, day.Reading:
		case day.VatJudged:
			if !b.Ready {
				note[no] = wording.Joined("; ", note[no], "not yet at "+clockOf(s, e.At)+wording.Because(b.Seen))
				continue
			}
			done[no], note[no] = e.At, wording.Joined("; ", note[no], "ready"+wording.Because(b.Seen))
		case day.StepSkipped:
			done[no], note[no] = e.At, wording.Joined("; ", note[no], "left out: "+b.Reason)
		default:
			done[no] = e.At
			if p, ok := e.Body.(day.Presumed); ok && p.IsAssumed() {
				note[no] = wording.Joined("; ", note[no], "as planned, not confirmed")
			}
		}
	}
	for _, st := range s.Plan {
		if st.No < s.Head.Opening.Step { // an earlier day's
			continue
		}
		amount := figure(st, sys)
		if st.Do == day.DoAcid {
			amount = lots(st, sour, !done[st.No].IsZero(), sys)
		}
		row := []Cell{text(strconv.Itoa(st.No)), text(st.Title), text(amount), text(clockOf(s, done[st.No])), text(note[st.No])}
		if done[st.No].IsZero() {
			row[3] = Cell{Boxes: 1}
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// acid is the powder of a vat's end, as its lots stand in the book.
const acid = "citric acid"

// lots is how much acid went in at a step that has a lot as its mass: the sum; before the first, how much a lot is.
func lots(st day.Step, sum quantity.Mass, done bool, sys quantity.System) string {
	switch {
	case sum > 0:
		return sum.Scale(sys) + " in all"
	case done:
		return "none"
	}
	return st.Mass.Scale(sys) + " a lot"
}

// readings are what instruments, strips and the eye said, of the stock jar too. dated: with the date before the time.
func readings(s day.State, dated bool) Table {
	t := Table{Columns: columns("at", "*warmth", "*pH", "*strip", "level", "of, with, seen")}
	sys := s.Head.Setup.System()
	for e := range s.Corrected() {
		at := clockOf(s, e.At)
		if dated {
			at = e.At.Format("2 Jan 15:04")
		}
		switch b := e.Body.(type) {
		case day.Reading:
			var ph, level string
			if b.PH != nil {
				ph = strconv.FormatFloat(*b.PH, 'f', 1, 64) + degrees(" at ", b.PHTemp, sys)
			}
			switch {
			case b.BelowRim != nil:
				level = b.BelowRim.Format(sys) + " below the rim"
			case b.Holds != nil:
				level = b.Holds.Format(sys)
			}
			of := wording.If(b.Of == string(recipe.IntoStock), "stock jar")
			t.Rows = append(t.Rows, texts(at, degrees("", b.Temp, sys), ph, "", level, wording.Joined(", ", of, b.With)))
		case day.StripTest:
			t.Rows = append(t.Rows, texts(at, "", "", b.Stayed.Format(sys), "", b.Colour))
		}
	}
	return t
}

// given is what went in beyond the build, with the strip before it and the next one after it; the acid of a vat's end, which
// mends nothing, without them. dated: several days.
func given(days []Day, dated bool) Table {
	t := Table{Columns: columns("at", "what", "why", "*strip before", "*strip after")}
	for _, d := range days {
		strip := ""    // of this day: yesterday's says nothing of today
		var wait []int // rows whose strip after is still to come
		sys := d.State.Head.Setup.System()
		put := func(e day.Event, what, why string, mends bool) {
			at := clockOf(d.State, e.At)
			if dated {
				at = e.At.Format("2 Jan 15:04")
			}
			if why == "build" {
				why = ""
			}
			if !mends {
				t.Rows = append(t.Rows, texts(at, what, why, "", ""))
				return
			}
			wait = append(wait, len(t.Rows))
			t.Rows = append(t.Rows, texts(at, what, why, strip, ""))
		}
		for e := range d.State.Corrected() {
			switch b := e.Body.(type) {
			case day.StripTest:
				strip = b.Stayed.Format(sys)
				for _, i := range wait {
					t.Rows[i][4] = text(strip)
				}
				wait = nil
			case day.PowderAdded:
				if b.Step == 0 {
					put(e, b.Mass.Scale(sys)+" "+b.Material, b.Why, (recipe.Powder{Material: b.Material}).Substance() != recipe.Acid)
				}
			case day.Fed:
				put(e, b.Mass.Scale(sys)+" "+b.Material, b.Why, true)
			case day.ToppedUp:
				what := b.Water.Format(sys) + " water" + wording.If(b.Temp != 0, " at "+b.Temp.Format(sys))
				put(e, what, "topped up", true)
			case day.DrawnOff:
				put(e, b.Liquor.Format(sys)+" drawn off", b.Why, true)
			case day.Decanted:
				put(e, b.Liquor.Format(sys)+" drawn off", b.Why, true)
			}
		}
	}
	return t
}

// notes are the dyer's own lines, the signs that were seen, and who stood at the vat.
func notes(s day.State) Table {
	t := Table{Columns: columns("at", "note")}
	for e := range s.Corrected() {
		words := ""
		switch b := e.Body.(type) {
		case day.Note:
			words = b.Text
		case day.SignSeen, day.HelperChanged, day.Rested, day.CrockTested, day.Soured, day.PieceDropped:
			words = wording.Upper(b.Sentence(s.Head.Setup.System()))
		}
		if words != "" {
			t.Rows = append(t.Rows, texts(clockOf(s, e.At), words))
		}
	}
	return t
}
