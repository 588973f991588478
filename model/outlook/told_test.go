package outlook_test

import (
	"slices"
	"testing"
	"time"

	"example.org/vatside/model/load"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
)

// Who is done first is told first, whoever was first in the vat.
func TestWhoIsDoneIsToldInOrder(t *testing.T) {
	piece := func(tag string, dips int) load.Piece {
		return load.Piece{Tag: tag, Who: tag, Dry: 300, Dips: dips, Dip: quantity.Minutes(5), Air: quantity.Minutes(10)}
	}
	pieces := []load.Piece{piece("Ana", 5), piece("Ben", 2), piece("Cid", 3)}
	p, err := load.Make(pieces, load.Limits{Capacity: 1000, Hands: 1, Plain: true})
	if err != nil {
		t.Fatal(err)
	}
	told := outlook.TellPlan(p, pieces, nil, func(s quantity.Span) string { return s.Format(quantity.Metric) })
	var who []string
	for _, l := range told.Done {
		who = append(who, l.Words)
	}
	if want := []string{"Ben done (Ben)", "Cid done (Cid)", "Ana done (Ana)"}; !slices.Equal(who, want) {
		t.Errorf("told is %v", who)
	}
}

// What the vats stand still for and when the hands are away stands among the dips, by the time.
func TestStandsAreToldInOrder(t *testing.T) {
	p := load.Plan{
		Rows:   []load.Row{{Tag: "A", Who: "Mo", Dip: 1, Vat: 1, Hand: 1, LiftHand: 2, Round: 1, In: quantity.Hours(1), Out: quantity.Hours(2)}, {Tag: "A", Dip: 2, Vat: 2, Hand: 2, LiftHand: 2, In: quantity.Hours(4), Out: quantity.Hours(5)}},
		Stands: []load.Stand{{Kind: "rest", From: quantity.Hours(3), To: quantity.Hours(4), Vat: 1}},
	}
	breaks := []load.Break{{From: quantity.Hours(2.5), To: quantity.Hours(3), Why: "a break"}, {From: quantity.Hours(6), To: quantity.Hours(7), Why: "all is done"}}
	var rows []string
	for _, l := range outlook.TellPlan(p, nil, breaks, func(s quantity.Span) string { return s.Format(quantity.Metric) }).Rows {
		rows = append(rows, l.At+" "+l.Words)
	}
	want := []string{"1 h in A of Mo, dip 1, round 1, out at 2 h, pair 1, out by pair 2, vat 1", "2 h 30 min the hands are away till 3 h: a break", "3 h vat 1 stands till 4 h: rest", "4 h in A, dip 2, out at 5 h, pair 2, vat 2"}
	if !slices.Equal(rows, want) {
		t.Errorf("told is %q", rows)
	}
}

// A time that is not on the day on which it is asked has its day, also where the next dip is tomorrow.
func TestTomorrowIsToldWithItsDay(t *testing.T) {
	now := time.Date(2026, 12, 1, 15, 30, 0, 0, time.UTC)
	table := outlook.Table{Zero: now, Pieces: []load.Piece{{Tag: "A"}}, Plan: load.Plan{
		Rows: []load.Row{{Tag: "A", Dip: 1, In: quantity.Hours(14), Out: quantity.Hours(15)}},
	}}
	if rows := table.Told(now).Rows; len(rows) != 1 || rows[0].At != "Wed 2 Dec 05:30" {
		t.Errorf("told the day before are %q", rows)
	}
	if rows := table.Told(now.Add(12 * time.Hour)).Rows; len(rows) != 1 || rows[0].At != "05:30" {
		t.Errorf("told on the day are %q", rows)
	}
}
