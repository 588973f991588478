package load_test

import (
	"encoding/csv"
	"strings"
	"testing"

	"example.org/vatside/model/load"
)

// The timetable as comma-separated values.
func TestCSV(t *testing.T) {
	a := dips("A, the \"first\"", 2)
	a.Form = load.Skein
	p := plan(t, []load.Piece{a}, load.Limits{})
	want := "tag,dip,vat,lower_min,in_min,out_min,lifted_min,past\n" +
		"\"A, the \"\"first\"\"\",1,1,0,0.5,10.5,11,\n" + "\"A, the \"\"first\"\"\",2,1,31,31.5,41.5,42,\n"
	if got := p.CSV(); got != want {
		t.Errorf("%q", got)
	}
	if rows, err := csv.NewReader(strings.NewReader(p.CSV())).ReadAll(); err != nil || len(rows) != 3 {
		t.Error(err)
	}
}
