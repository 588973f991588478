package outlook_test

import (
	"slices"
	"testing"

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
	told := outlook.TellPlan(p, pieces, func(s quantity.Span) string { return s.Format(quantity.Metric) })
	var who []string
	for _, l := range told.Done {
		who = append(who, l.Words)
	}
	if want := []string{"Ben done (Ben)", "Cid done (Cid)", "Ana done (Ana)"}; !slices.Equal(who, want) {
		t.Errorf("told is %v", who)
	}
}

// What the vats stand still for is told by the time, whatever kind it is and whichever vat.
func TestStandsAreToldInOrder(t *testing.T) {
	p := load.Plan{Stands: []load.Stand{
		{Kind: "rest", From: quantity.Hours(3), To: quantity.Hours(4), Vat: 1}, {Kind: "rest", From: quantity.Hours(5), To: quantity.Hours(6), Vat: 2},
		{Kind: "a break", From: quantity.Hours(2), To: quantity.Hours(2.5)},
	}}
	var at []string
	for _, l := range outlook.TellPlan(p, nil, func(s quantity.Span) string { return s.Format(quantity.Metric) }).Stands {
		at = append(at, l.At)
	}
	if want := []string{"2 h", "3 h", "5 h"}; !slices.Equal(at, want) {
		t.Errorf("told is %v", at)
	}
}
