package plain

import (
	"bytes"
	"reflect"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/recipes"
	"example.org/vatside/ui/engine"
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
	c, down, holds := quantity.Celsius(35), quantity.Centimetres(40), quantity.Litres(28)
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
		{mass, "d 40 cm", day.Record{Body: day.Reading{BelowRim: &down}}},
		{mass, "d 28 L", day.Record{Body: day.Reading{Holds: &holds}}},
		{mass, "strip 45", day.Record{Body: day.StripTest{Stayed: quantity.Seconds(45)}}},
		{mass, "strip 1 min", day.Record{Body: day.StripTest{Stayed: quantity.Minutes(1)}}},
		{mass, "lid", day.Record{Body: day.VatCovered{}}},
		{mass, "heater", day.Record{Body: day.HeaterOn{}}},
		{mass, "give iron 5 g and lime 7.5 g", day.Dose{Powders: []day.Amount{{Powder: "iron", Mass: 5}, {Powder: "lime", Mass: 7.5}}, Wait: quantity.Minutes(30), Why: "by the dyer"}},
		{mass, "look A1 wet rung 4", day.Record{Body: day.LookedAt{OfPiece: day.OfPiece{Tag: "A1"}, Looks: "rung 4", Wet: true}}},
		{mass, "look A1 dark", day.Record{Body: day.LookedAt{OfPiece: day.OfPiece{Tag: "A1"}, Looks: "dark", Rinsed: true}}},
		{mass, "cut L1 3 lab 62 -7 -21", day.Record{Body: day.SwatchJudged{Swatch: "L1", Dips: 3, Looks: "lab 62 -7 -21"}}},
		{mass, "bench A1", day.Bench{Tag: "A1"}},
		{mass, "rinsed A1", day.Record{Body: day.Rinsed{OfPiece: day.OfPiece{Tag: "A1"}}}},
		{mass, "later A1", day.Stretch{Timer: "bath A1", By: quantity.Minutes(1)}},
		{mass, "soon A1", day.Stretch{Timer: "bath A1", By: -quantity.Minutes(1)}},
		{mass, "crock A1 4 2.5", day.Record{Body: day.CrockTested{OfPiece: day.OfPiece{Tag: "A1"}, Dry: 4, Wet: 2.5}}},
		{mass, "crock A1 trace, much", day.Record{Body: day.CrockTested{OfPiece: day.OfPiece{Tag: "A1"}, Dry: 4, Wet: 2}}},
		{mass, "leave A1 no soap left", day.LeaveOut{Tag: "A1", Reason: "no soap left"}},
		{mass, "leave A1", day.LeaveOut{Tag: "A1"}},
		{mass, "place outdoors", day.Record{Body: day.PlaceChanged{Place: day.Outdoors}}},
		{mass, "place cross-draught", day.Record{Body: day.PlaceChanged{Place: day.CrossDraught}}},
		{mass, "place in a closed room", day.Record{Body: day.PlaceChanged{Place: day.ClosedRoom}}},
		{mass, "goods outdoors", day.Record{Body: day.PlaceChanged{Place: day.Outdoors, Of: day.OfGoods}}},
		{mass, "children", day.Record{Body: day.HelperChanged{Who: "children", Children: true}}},
		{mass, "adults", day.Record{Body: day.HelperChanged{Who: "adults alone"}}},
		{mass, "better", day.Record{Body: day.Rechecked{Answer: "better"}}},
		{mass, "same", day.Record{Body: day.Rechecked{Answer: "the same"}}},
		{mass, "worse", day.Record{Body: day.Rechecked{Answer: "worse"}}},
		{mass, "hot a hot strike", day.Record{Body: day.HotWork{Reason: "a hot strike"}}},
		{mass, "went to the foul sewer", day.Record{Body: day.VatEnded{Why: "used up", Route: "to the foul sewer"}}},
		{mass, "crock A1 9 9", nil},
		{mass, "crock", nil},
		{mass, "leave", nil},
		{mass, "place cellar", nil},
		{mass, "goods", nil},
		{mass, "went", nil},
		{mass, "look A1", nil},
		{mass, "cut L1 lab", nil},
		{mass, "give reducer", nil},
		{mass, "d deep", nil},
		{mass, "strip long", nil},
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

// A dose that is typed rests the vat as long as its powder takes, the slowest of them: the table's wait, not the recipe's
// recheck (lime 1 h, C; in a ferment vat 2 h, S6; iron 4 h, S7).
func TestATypedDoseWaitsByItsPowder(t *testing.T) {
	for _, w := range []struct {
		id, line string
		hours    float64
	}{
		{"madder-bran", "give lime 18 g", 2}, {"sugar-lime", "give lime 24 g", 1}, {"iron-lime", "give lime 20 g", 1},
		{"iron-lime", "give iron 30 g and lime 30 g", 4}, {"iron-lime", "give lime 30 g and iron 30 g", 4}, {"madder-bran", "give bran 60 g", 24},
		{"soda", "give soda 60 g", 0.25}, {"soda", "give reducer 30 g", 0.5},
	} {
		r, _ := recipes.Find(w.id)
		got, err := command(day.State{Head: day.Head{Recipe: r}}, day.Act{}, w.line)
		if d, ok := got.(day.Dose); err != nil || !ok || d.Wait != quantity.Hours(w.hours) {
			t.Errorf("%s, %s: %+v, %v", w.id, w.line, got, err)
		}
	}
}

// The linear mode says of the liquor what the screens show, and what the vat wants.
func TestTheVatInWords(t *testing.T) {
	now := time.Date(2026, 3, 28, 9, 0, 0, 0, time.UTC)
	soda, _ := recipes.Find("soda")
	h := engine.RehearsalHead(soda, now)
	h.Opening = day.Opening{Number: 2, Built: true, Sulfur: true}
	s, err := day.Begin(h)
	if err != nil {
		t.Fatal(err)
	}
	put := func(b day.Body) {
		if s, err = day.Apply(s, day.Event{Seq: len(s.Log) + 1, At: now, Body: b}); err != nil {
			t.Fatal(err)
		}
	}
	temp, low := quantity.Celsius(36), 9.4
	put(day.Opened{How: "tend"})
	put(day.Reading{Temp: &temp, PH: &low})
	var out bytes.Buffer
	term, v := New(nil, &out), engine.View{ID: "bin/d", State: s, Now: now}
	term.vat(v)
	for _, want := range []string{"The vat has 36 °C, measured, below 30 °C at ", "with the lid at ", "pH 8.9 to 9.9, measured"} {
		if !strings.Contains(out.String(), want) {
			t.Errorf("%q is not in\n%s", want, out.String())
		}
	}
	out.Reset()
	term.wants(v)
	for _, want := range []string{"soda ash", "Caution: ", "When it is in, type: give soda ", "Then wait 15 min"} {
		if !strings.Contains(out.String(), want) {
			t.Errorf("%q is not in\n%s", want, out.String())
		}
	}
	// What it says to type is understood.
	_, line, _ := strings.Cut(out.String(), "type: ")
	line, _, _ = strings.Cut(line, "\n")
	if c, err := command(s, day.Act{}, line); err != nil {
		t.Errorf("%q: %v", line, err)
	} else if d := c.(day.Dose); d.Wait != soda.Liquor.Recheck || d.Powders[0].Mass <= 0 {
		t.Errorf("%q is %+v", line, d)
	}
}

// Of the pieces it says what the screens show: how blue, how many dips, and how that is known.
func TestTheBluesInWords(t *testing.T) {
	now := time.Date(2026, 3, 28, 9, 0, 0, 0, time.UTC)
	soda, _ := recipes.Find("soda")
	h := engine.RehearsalHead(soda, now)
	h.Opening = day.Opening{Number: 2, Built: true, Sulfur: true}
	s, err := day.Begin(h)
	if err != nil {
		t.Fatal(err)
	}
	for _, b := range []day.Body{
		day.Opened{How: "tend"},
		day.PieceAdded{OfPiece: day.OfPiece{Tag: "A1"}, PieceSpec: day.PieceSpec{Fibre: "cotton", Dry: 200, Depth: "mid", Dip: quantity.Minutes(5)}},
	} {
		if s, err = day.Apply(s, day.Event{Seq: len(s.Log) + 1, At: now, Body: b}); err != nil {
			t.Fatal(err)
		}
	}
	var out bytes.Buffer
	New(nil, &out).blues(engine.View{ID: "bin/d", State: s, Now: now}, "A1")
	for _, want := range []string{"A1: for mid ", " dips most likely; ", "8 times in 10", "Known as: guess."} {
		if !strings.Contains(out.String(), want) {
			t.Errorf("%q is not in\n%s", want, out.String())
		}
	}
	out.Reset()
	New(nil, &out).blues(engine.View{ID: "bin/d", State: s, Now: now}, "Z9")
	if !strings.Contains(out.String(), "No piece is there") {
		t.Errorf("of a piece that is not there it says %s", out.String())
	}
}
