package sheet

import (
	"fmt"
	"slices"
	"strconv"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/history"
	"example.org/vatside/model/load"
	"example.org/vatside/model/outlook"
)

// looks are the blues of a day's pieces that had a dip, by tag.
func looks(s day.State, b outlook.Blue) map[string]Swatch {
	out := map[string]Swatch{}
	for _, p := range history.BluesOf(history.Vat{{State: s}}) {
		if sw, ok := look(p, b); ok {
			out[p.Piece.Tag] = sw
		}
	}
	return out
}

// look is how a piece looks: as it was seen, else as it was wished once it is finished, else as its dips so far give it. blues are
// those of the last of its days.
func look(p history.Blue, blues outlook.Blue) (Swatch, bool) {
	lab, known := p.Lab, p.Sureness()
	if !day.Filled(p.Of.State) {
		return Swatch{}, false
	}
	if known != outlook.Measured && p.Piece.Phase != day.FinishedPiece {
		if now := blues.Plan(p.Piece).Now; now != nil {
			lab, known = now.Lab, outlook.Reckoned
		}
	}
	sw := blue(lab, p.Ground())
	if sw.Note = seen(known); known == outlook.Reckoned && blues.Claim != "calibrated" {
		sw.Note = "a guess by its dips"
	}
	return sw, known != outlook.Unknown
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
		row := texts(p.Tag, p.Spec.What, p.Spec.Fibre, p.Spec.Dry.Format(sys), dipped(p), "", p.Spec.Who, p.Phase.Word())
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
		slot := Slot{At: clockOf(s, d.Begun), Till: clockOf(s, d.Ended), Words: fmt.Sprintf("%s, dip %d", d.tag, d.No)}
		switch {
		case d.Ended.IsZero():
			slot.Note, slot.Box = "in the vat", true
		case d.Assumed:
			slot.Note = day.Long(d.Ended.Sub(d.Begun)) + ", not confirmed"
		default:
			slot.Note = day.Long(d.Ended.Sub(d.Begun))
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
			t.Rows = append(t.Rows, Slot{At: clockOf(s, table.At(r.In)), Till: clockOf(s, table.At(r.Out)), Words: fmt.Sprintf("%s, dip %d", r.Tag, r.Dip), Box: true})
		}
	}
	return t
}

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
