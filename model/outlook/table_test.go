package outlook_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/load"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
	"example.org/vatside/testdata/loadtest"
)

func (v *vat) table(before load.Plan) outlook.Table {
	o := v.sight()
	return outlook.Timetable(v.s, o, outlook.Blues(v.s, o, v.now), before, v.now, 0)
}

// The timetable knows where each piece stands: what hangs in the vat stays, what airs waits, what is finished is gone; and a
// piece that comes later is taken in without moving the others.
func TestTheTimetableOfADay(t *testing.T) {
	v := open(t, "soda", nil)
	v.reads(36)
	add := func(tag string, dips int) {
		v.put(day.PieceAdded{OfPiece: day.OfPiece{Tag: tag}, PieceSpec: day.PieceSpec{Fibre: "cotton", Dry: 300, Dips: dips, Dip: quantity.Minutes(8), Air: quantity.Minutes(12)}},
			day.WettedOut{OfPiece: day.OfPiece{Tag: tag}})
	}
	add("A1", 3)
	add("B1", 2)
	first := v.table(load.Plan{})
	if first.Fault != "" || len(first.Plan.Rows) != 5 {
		t.Fatalf("%s %+v", first.Fault, first.Plan.Rows)
	}
	v.put(day.DipBegun{OfPiece: day.OfPiece{Tag: "A1"}, Dip: 1, For: quantity.Minutes(8)})
	v.after(4)
	within := v.table(first.Plan)
	var in load.Row
	for _, r := range within.Plan.Rows {
		if r.Tag == "A1" && r.Dip == 1 {
			in = r
		}
	}
	if out := within.At(in.Out); !in.Past || out.Sub(v.now) > 5*time.Minute || out.Before(v.now) {
		t.Errorf("what is in the vat comes out at %v, it is %v now: %+v", out, v.now, in)
	}
	v.after(4)
	v.put(day.DipEnded{OfPiece: day.OfPiece{Tag: "A1"}, Dip: 1, Air: quantity.Minutes(12)})
	airing := v.table(within.Plan)
	next, ok := airing.Next("A1")
	if !ok || next.Dip != 2 || airing.At(next.Lower).Before(v.now.Add(12*time.Minute)) {
		t.Errorf("A1 goes in again at %v: %+v", airing.At(next.Lower), next)
	}
	done, ok := airing.Done("B1")
	if !ok || !done.After(v.now) {
		t.Errorf("B1 is done at %v", done)
	}
	add("C1", 1)
	late := v.table(airing.Plan)
	if _, ok := late.Next("C1"); !ok {
		t.Error("the late piece is not in the plan")
	}
	if faults := loadtest.CheckStanding(quantity.Span(v.now.Sub(late.Zero)), standingOf(v.s), late.Pieces, late.Limits, late.Plan); len(faults) > 0 {
		t.Error(faults)
	}
	v.put(day.AiringEnded{OfPiece: day.OfPiece{Tag: "A1"}, Dip: 1}, day.Finished{OfPiece: day.OfPiece{Tag: "A1"}, Dips: 1})
	if _, ok := v.table(late.Plan).Next("A1"); ok {
		t.Error("a finished piece is still planned")
	}
}

// Lowerings at which the hands stay at the vat are one go; what is in, and a later dip, are none of it.
func TestWhatIsLoweredInOneGo(t *testing.T) {
	row := func(tag string, lower int, past bool) load.Row {
		at := quantity.Seconds(float64(lower))
		return load.Row{Tag: tag, Vat: 1, Lower: at, In: at + quantity.Seconds(90), Past: past}
	}
	table := outlook.Table{Plan: load.Plan{Rows: []load.Row{
		row("A1", 0, true), row("B1", 90, false), row("C1", 180, false), row("D1", 300, false), row("E1", 389, false), row("B1", 479, false), row("A1", 900, false),
	}}}
	if got := fmt.Sprint(table.Goes()); got != "[[B1 C1] [D1 E1] [A1]]" {
		t.Errorf("in one go are lowered %s", got)
	}
}

// standingOf is how the pieces stand, for the checker.
func standingOf(s day.State) []load.PieceState {
	var out []load.PieceState
	for _, p := range s.Pieces {
		st := load.PieceState{Tag: p.Tag, Dips: p.Dips}
		switch p.Phase {
		case day.InVat:
			st.Where, st.Since = load.InVat, quantity.Span(p.Since.Sub(s.Opened))
		case day.Airing:
			st.Where, st.Since = load.Airing, quantity.Span(p.Since.Sub(s.Opened))
		}
		out = append(out, st)
	}
	return out
}

// A vat that cools below its range while it is worked stands empty once for its heater; one without a heater does not.
func TestTheTimetableWarmsTheVat(t *testing.T) {
	stands := func(heater quantity.Power) (n int) {
		v := open(t, "soda", func(h *day.Head) { h.Setup.Heater = heater })
		v.reads(33)
		for _, tag := range []string{"A1", "B1", "C1", "D1"} {
			v.put(day.PieceAdded{OfPiece: day.OfPiece{Tag: tag}, PieceSpec: day.PieceSpec{Fibre: "cotton", Dry: 400, Dips: 6, Dip: quantity.Minutes(8)}})
		}
		table := v.table(load.Plan{})
		for _, s := range table.Plan.Stands {
			if s.Kind == "reheat" {
				n++
				// 60 L from 30 to 35 °C at 950 W are 22 min.
				if m := (s.To - s.From).Minutes(); m < 21 || m > 40 {
					t.Errorf("it stands for %.0f min", m)
				}
			}
		}
		return n
	}
	if n := stands(quantity.Watts(1000)); n == 0 {
		t.Error("it is never warmed")
	}
	if n := stands(0); n != 0 {
		t.Errorf("without a heater it stands %d times", n)
	}
}

// When a person comes and leaves, the piece that is shown to all and how many people may be at the vat are the timetable's limits; who was
// to come before the day opened is there.
func TestTheTimetableKnowsItsPeople(t *testing.T) {
	v := open(t, "soda", nil)
	v.reads(36)
	add := func(tag string, from time.Duration, demo bool) {
		spec := day.PieceSpec{Fibre: "cotton", Dry: 300, Dips: 2, Who: tag, From: day.Clock(v.s.Opened.Add(from)), Till: day.Clock(v.s.Opened.Add(4 * time.Hour)), Demo: demo}
		v.put(day.PieceAdded{OfPiece: day.OfPiece{Tag: tag}, PieceSpec: spec})
	}
	add("A1", -30*time.Minute, false)
	add("B1", 2*time.Hour, false)
	add("C1", -30*time.Minute, true)
	v.put(day.HandsTold{Hands: 2, People: 1})
	table := v.table(load.Plan{})
	if l := table.Limits; l.Hands != 2 || l.AtVat != 1 {
		t.Errorf("%d pairs of hands, %d people at most", l.Hands, l.AtVat)
	}
	if p := table.Pieces; p[0].From != 0 || p[1].From != quantity.Hours(2) || p[1].Till != quantity.Hours(4) || p[0].Demo || !p[2].Demo {
		t.Errorf("%+v", p)
	}
	if r := table.Plan.Rows; len(r) != 6 || r[0].Tag != "C1" || r[len(r)-1].Tag != "B1" {
		t.Errorf("%+v", r)
	}
}

// What the vat would harm has no dips in the timetable but the one that it is in, and is named; children at a vat that is too hot are told so.
func TestTheTimetableLeavesOutWhatTheVatRefuses(t *testing.T) {
	v := open(t, "soda", nil)
	v.reads(44)
	ph := 11.6
	v.put(day.Reading{PH: &ph})
	add := func(tag, fibre string) {
		v.put(day.PieceAdded{OfPiece: day.OfPiece{Tag: tag}, PieceSpec: day.PieceSpec{Fibre: fibre, Dry: 300, Dips: 3, Dip: quantity.Minutes(8), Air: quantity.Minutes(12)}},
			day.WettedOut{OfPiece: day.OfPiece{Tag: tag}})
	}
	add("W1", "wool")
	if alone := v.table(load.Plan{}); !strings.Contains(alone.Fault, "W1 stays out of this vat") || len(alone.Plan.Rows) > 0 {
		t.Errorf("alone it is planned: %q %+v", alone.Fault, alone.Plan.Rows)
	}
	add("A1", "cotton")
	if dips, all := v.sight().Indigo.Enough(v.s); dips != 3 || all != 3 {
		t.Errorf("there is indigo for %d of %d dips; A1 alone wants 3", dips, all)
	}
	both := v.table(load.Plan{})
	if _, ok := both.Next("W1"); ok || len(both.Plan.Rows) != 3 || !strings.Contains(strings.Join(both.Plan.Warnings, "\n"), "W1 stays out of this vat") {
		t.Errorf("%v %+v", both.Plan.Warnings, both.Plan.Rows)
	}
	v.put(day.HelperChanged{Who: "children", Children: true})
	if words := strings.Join(v.table(load.Plan{}).Plan.Warnings, "\n"); !strings.Contains(words, "children are at it") {
		t.Errorf("children are planned at a hot vat: %s", words)
	}
	v.put(day.DipBegun{OfPiece: day.OfPiece{Tag: "W1"}, Dip: 1, For: quantity.Minutes(8)}) // it was in before the pH was read
	in := v.table(load.Plan{})
	if rows := slices.DeleteFunc(slices.Clone(in.Plan.Rows), func(r load.Row) bool { return r.Tag != "W1" }); len(rows) != 1 || !rows[0].Past {
		t.Errorf("what is in stays till its dip is over, and has no other: %+v", rows)
	}
}
