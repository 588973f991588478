package command

import (
	"encoding/csv"
	"strings"
	"testing"

	"example.org/vatside/model/fibre"
	"example.org/vatside/model/load"
	"example.org/vatside/model/quantity"
)

// The timetable as comma-separated values: old columns first, then whose, which hands, which round.
func TestTimetableAsCSV(t *testing.T) {
	a := load.Piece{Tag: "A, the \"first\"", Who: "Ada", Dry: 100, Dips: 2, Dip: quantity.Minutes(10), Air: quantity.Minutes(20), Fibre: fibre.Cotton, Form: load.Skein}
	plan, err := load.Make([]load.Piece{a}, load.Limits{Hands: 1, Fair: true})
	if err != nil {
		t.Fatal(err)
	}
	plan.Rows[1].Past = true
	want := "tag,dip,vat,lower_min,in_min,out_min,lifted_min,past,who,hand,round\n" +
		"\"A, the \"\"first\"\"\",1,1,0,0.5,10.5,11,,Ada,1,1\n" + "\"A, the \"\"first\"\"\",2,1,31,31.5,41.5,42,past,Ada,1,2\n"
	if got := csvOf(plan); got != want {
		t.Errorf("%q", got)
	}
	if rows, err := csv.NewReader(strings.NewReader(csvOf(plan))).ReadAll(); err != nil || len(rows) != 3 {
		t.Error(err)
	}
}
