package plain

import (
	"bytes"
	"reflect"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
)

func TestTimesAreToldOnce(t *testing.T) {
	var out bytes.Buffer
	term := New(nil, &out)
	at := time.Date(2026, 11, 25, 10, 0, 0, 0, time.UTC)
	d := day.Due{Timer: "dip A1", At: at, Words: "Lift A1 out"}
	for left := 12 * time.Minute; left >= -6*time.Minute; left -= 500 * time.Millisecond {
		term.time(d, at.Add(-left))
	}
	want := "10 min left|5 min left|2 min left|1 min left|Now|5 min over"
	var got []string
	for line := range strings.Lines(out.String()) {
		word, rest, _ := strings.Cut(line, ": ")
		if rest != "Lift A1 out.\n" {
			t.Errorf("%q", line)
		}
		got = append(got, word)
	}
	if s := strings.Join(got, "|"); s != want {
		t.Errorf("told %s, want %s", s, want)
	}
}

func TestCommands(t *testing.T) {
	mass, temp := day.Act{Entry: day.MassEntry}, day.Act{Entry: day.TempEntry}
	c := quantity.Celsius(35)
	for _, w := range []struct {
		act  day.Act
		line string
		want day.Command
	}{
		{mass, "", day.Done{}},
		{mass, "r", day.Judge{Ready: true}},
		{mass, "n", day.Judge{}},
		{mass, "b", day.Back{}},
		{mass, "54", day.PutScoop{Mass: 54}},
		{mass, "1,5 kg", day.PutScoop{Mass: 1500}},
		{mass, "-4 g", day.PutScoop{Mass: -4}},
		{temp, "35", day.Record{Body: day.Reading{Temp: &c}}},
		{mass, "t 35 °C", day.Record{Body: day.Reading{Temp: &c}}},
		{mass, "s spilt it", day.Skip{Reason: "spilt it"}},
		{mass, "p A1 linen 420 g dark", day.AddPiece{Tag: "A1", Spec: day.PieceSpec{Fibre: "linen", Dry: 420, Depth: "dark"}}},
		{mass, "p A1 linen 420g 5", day.AddPiece{Tag: "A1", Spec: day.PieceSpec{Fibre: "linen", Dry: 420, Dips: 5}}},
		{day.Act{}, "54", nil},
		{mass, "what", nil},
		{mass, "p A1", nil},
		{mass, "ph strong", nil},
		{mass, "y", nil},
	} {
		got, err := command(day.State{}, w.act, w.line)
		if (err == nil) != (w.want != nil) || w.want != nil && !reflect.DeepEqual(got, w.want) {
			t.Errorf("%q: %#v, %v; want %#v", w.line, got, err, w.want)
		}
	}
}
