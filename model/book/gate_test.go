package book

import (
	"fmt"
	"math"
	"reflect"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/stock"
)

// undated is for a reader that does not know what day it is.
var undated time.Time

var gateDay = time.Date(2026, 11, 29, 16, 0, 0, 0, time.UTC)

// edited is the sample day with one text in the place of another, as a hand or a disk may leave it.
func edited(t *testing.T, old, new string) []byte {
	t.Helper()
	data, _ := sampleFile(t)
	if !strings.Contains(string(data), old) {
		t.Fatalf("the day has no %q", old)
	}
	return []byte(strings.Replace(string(data), old, new, 1))
}

// A time or a figure that cannot be sets its event aside, alone, with a sentence of what is wrong; with today or without.
func TestWhatCannotBeIsSetAside(t *testing.T) {
	for _, c := range []struct{ old, new, on, off string }{
		{"at = 2026-11-25T09:04", "at = 3026-11-25T09:04", "its time is in the year 3026, 1,000 years from today; mend the year", "its time is in the year 3026, where no day of a vat is"},
		{"at = 2026-11-25T09:04", "at = 0001-11-25T09:04", "its time is in the year 1, 2,025 years from today", "its time is in the year 1, "},
		{"at = 2026-11-25T09:04", "at = 2127-11-25T09:04", "its time is in the year 2127, 101 years from today", "its time is in the year 2127, 101 years from the events beside it; mend the year"},
		{"at = 2026-11-25T09:00", "at = 1916-11-25T09:00", "its time is in the year 1916, 110 years from today", "its time is in the year 1916, 110 years from the events beside it; mend the year"},
		{"at = 2026-11-25T09:44", "at = 1926-09-25T09:44", "its time is in the year 1926, 100 years from today", "its time is in the year 1926, 100 years from the events beside it"},
		{"to = 2026-11-25T09:31", "to = 2226-11-25T09:31", "its to is in the year 2226, 200 years from today", "its to is in the year 2226, where no day"},
		{"to = 2026-11-25T09:31", "to = 1901-11-25T09:31", "its to is in the year 1901, 125 years from today", "its to is in the year 1901, 125 years from its time; mend the year"},
		{`temp = "33.5 °C"`, `temp = "33500 °C"`, "its temp of 33500 °C cannot be: no liquor is below -100 or above 300 °C; mend the figure", ""},
		{"ph = 11.0\n", "ph = 110.0\n", "its ph of 110 cannot be: a pH goes from 0 to 14; mend the figure", ""},
		{`mass = "120.5 g"`, `mass = "120.5e30 g"`, "its mass of 1.205e+32 g cannot be", ""},
		{`mass = "-0.5 g"`, `mass = "-0.5e30 g"`, "its mass of -5e+29 g cannot be", ""},
		{"step = 3\npowder", "step = 300000000\npowder", "its step of 300000000 cannot be: no recipe has more than 100,000 steps", ""},
		{"step = 3\npowder", "step = -3\npowder", "its step of -3 cannot be", ""},
		{"dip = 4\nfor", "dip = 400000000\nfor", "its dip of 400000000 cannot be: no piece has more than 10,000", ""},
		{`for = "8 min"`, `for = "8000000 min"`, "its for of 15 years cannot be: nothing here takes longer than a year", ""},
		{`air = "12 min"`, `air = "12000000 min"`, "its air of 23 years cannot be", ""},
		{`by = "-1 h"`, `by = "-2500000 h"`, "its by of -285 years cannot be: no time here is longer than 200 years", ""},
		{"of = 9\n", "of = 900000001\n", "its of of 900000001 cannot be", ""},
		{"seq = 2\n", "seq = 2147483646\n", "its seq 2147483646 cannot be: no day has so many events; mend the number", ""},
	} {
		if c.off == "" {
			c.off = c.on
		}
		for today, want := range map[time.Time]string{gateDay: c.on, {}: c.off} {
			b := ReadOn(today, "day.toml", edited(t, c.old, c.new))
			if len(b.Unread) != 1 || !strings.Contains(b.Unread[0].What, want) || len(b.Events) != len(sampleEvents())-1 || b.HeadErr != nil {
				t.Errorf("%s: %d events, want %q, unread %+v", c.new, len(b.Events), want, b.Unread)
				continue
			}
			if u := b.Unread[0]; !strings.HasPrefix(u.Text, eventLine) || u.Line == 0 {
				t.Errorf("%s: it is kept as %+v", c.new, u)
			}
			if b.NextSeq() != len(sampleEvents())+1 {
				t.Errorf("%s: the next event is number %d", c.new, b.NextSeq())
			}
		}
	}
}

// Of neighbours that are too far apart the wrong one goes: the one that today or most of the others stand against. One wrong
// time at the beginning takes nothing with it.
func TestOneWrongTimeTakesNoOtherWithIt(t *testing.T) {
	head, err := EncodeHead(sampleHead(t))
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		years []int
		today int // 0: nobody knows
		kept  []int
	}{
		{[]int{1910, 2026, 2026, 2026}, 2026, []int{2026, 2026, 2026}},
		{[]int{1910, 2026, 2026, 2026}, 0, []int{2026, 2026, 2026}},
		{[]int{1910, 2026, 2026, 2026}, 1970, []int{2026, 2026, 2026}}, // a machine without a clock of its own
		{[]int{3026, 2026}, 2026, []int{2026}},
		{[]int{2026, 2190}, 0, []int{2026}},
		{[]int{2100, 1990}, 2040, []int{1990}}, // which of two is wrong, today decides
		{[]int{2100, 1990}, 2050, []int{2100}},
		{[]int{1970, 2026, 2026}, 2026, []int{1970, 2026, 2026}}, // a clock that was set in the midst of a day
		{[]int{2026, 1, 9998, 2026, 3026}, 2026, []int{2026, 2026}},
		{[]int{2026, 2150, 2150, 2026, 2026, 2026}, 0, []int{2026, 2026, 2026, 2026}},
		{[]int{3026, 3026, 3026}, 2026, nil},
	} {
		data := append([]byte(nil), head...)
		for i, y := range c.years {
			block, err := EncodeEvent(day.Event{Seq: i + 1, At: time.Date(y, 11, 25, 9, i, 0, 0, time.UTC), Body: day.Note{Text: "sun"}})
			if err != nil {
				t.Fatal(err)
			}
			data = append(append(data, '\n'), block...)
		}
		today := time.Time{}
		if c.today > 0 {
			today = time.Date(c.today, 6, 1, 0, 0, 0, 0, time.UTC)
		}
		b := ReadOn(today, "day.toml", data)
		var kept []int
		for _, e := range b.Events {
			kept = append(kept, e.At.Year())
		}
		if !reflect.DeepEqual(kept, c.kept) || len(kept)+len(b.Unread) != len(c.years) {
			t.Errorf("%v in %d: kept %v, want %v; %+v", c.years, c.today, kept, c.kept, b.Unread)
		}
		for i := 1; i < len(b.Unread); i++ {
			if b.Unread[i].Line <= b.Unread[i-1].Line {
				t.Errorf("%v: told out of order", c.years)
			}
		}
	}
}

// A head keeps its day: what cannot be in it is left out and told. Without a fill there is no day.
func TestAHeadIsFreedOfWhatCannotBe(t *testing.T) {
	h := sampleHead(t)
	until, ready := morning.Add(-16*time.Hour), morning.Add(time.Hour)
	h.Setup.ReadyBy, h.Setup.Heater, h.Setup.PotTook = &ready, 1000, quantity.Minutes(20)
	h.Opening.Held = day.Held{Indigo: 40, Until: &until}
	h.Opening.Swatches = []day.CarriedSwatch{{At: until, Tag: "L1", Fibre: "cotton", Dips: 3, Dip: quantity.Minutes(4), Looks: "rung 3"}}
	whole, err := EncodeHead(h)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		old, new, told string
		gone           func(day.Head) bool
	}{
		{"since = 2026", "since = 3026", "the head's opening.since is left out: its since is in the year 3026, 1,000 years from today; mend the year", func(h day.Head) bool { return h.Opening.Since == nil }},
		{"ready_by = 2026", "ready_by = 0026", "the head's setup.ready_by is left out: its ready_by is in the year 26", func(h day.Head) bool { return h.Setup.ReadyBy == nil }},
		{"reckoned = 2026", "reckoned = 9026", "the head's reckoning of what the liquor held is left out: its reckoned is in the year 9026", func(h day.Head) bool { return h.Opening.Held == day.Held{} }},
		{`indigo = "40 g"`, `indigo = "40e20 g"`, "the head's reckoning of what the liquor held is left out: its indigo of 4e+21 g", func(h day.Head) bool { return h.Opening.Held == day.Held{} }},
		{"at = 2026", "at = 3026", "the head's opening.swatch 1 is left out: its at is in the year 3026", func(h day.Head) bool { return len(h.Opening.Swatches) == 0 }},
		{"dips = 3", "dips = 3000000", "the head's opening.swatch 1 is left out: its dips of 3000000", func(h day.Head) bool { return len(h.Opening.Swatches) == 0 }},
		{`dry = "420 g"`, `dry = "420e10 g"`, "the head's opening.piece 1 is left out: its dry of 4.2e+12 g", func(h day.Head) bool {
			return len(h.Opening.Pieces) == 1 && h.Opening.Pieces[0].Tag == "A2"
		}},
		{`heater = "1000 W"`, `heater = "1e30 W"`, "the head's setup.heater is left out: its heater of 1e+30 W cannot be", func(h day.Head) bool { return h.Setup.Heater == 0 }},
		{"ph = 10.8", "ph = 1e300", "the head's opening.ph is left out: its ph of 1e+300", func(h day.Head) bool { return h.Opening.PH == nil }},
		{"number = 2", "number = 2000000000", "the head's opening.number is left out", func(h day.Head) bool { return h.Opening.Number == 0 }},
	} {
		text := strings.Replace(string(whole), c.old, c.new, 1)
		if text == string(whole) {
			t.Fatalf("no %q in\n%s", c.old, whole)
		}
		b := ReadOn(gateDay, "day.toml", []byte(text))
		if !b.HeadWhole || !c.gone(b.Head) {
			t.Errorf("%s: %v %+v", c.new, b.HeadErr, b.Head.Opening)
		}
		if len(b.Marks) != 2 || b.Marks[0].What != "the head was mended by hand: its checksum fails" || !strings.HasPrefix(b.Marks[1].What, c.told) {
			t.Errorf("%s: told %v", c.new, b.Marks)
		}
	}
	b := ReadOn(gateDay, "day.toml", []byte(strings.Replace(string(whole), `fill = "60 L"`, `fill = "6e30 L"`, 1)))
	if b.HeadErr == nil || b.HeadErr.Error() != "setup: its fill of 6e+30 L cannot be: no vat holds 1,000 m³; mend the figure" {
		t.Error(b.HeadErr)
	}
	// What would not be read is not written either: a day that was killed before it opened has a step since the year 1.
	h.Opening.Since = &time.Time{}
	again, err := EncodeHead(h)
	if err != nil || strings.Contains(string(again), "since") {
		t.Errorf("%v\n%.400s", err, again)
	}
	h.Setup.Fill = 6e30
	if _, err := EncodeHead(h); err == nil || !strings.Contains(err.Error(), "its fill of 6e+30 L cannot be") {
		t.Error(err)
	}
}

// A day that is as its recipe and its bounds allow, by what a program decides, is read as it was written.
func TestWhatIsDecidedIsRead(t *testing.T) {
	head := sampleHead(t)
	encoded, err := EncodeHead(head)
	if err != nil {
		t.Fatal(err)
	}
	scale := []float64{0, 1e-9, 0.5, 1, 100, 104.9, 150, 9999, 1e5, 2e8, 1e12, 1e30, 1e300}
	rapid.Check(t, func(t *rapid.T) {
		s, err := day.Begin(head)
		if err != nil {
			t.Fatal(err)
		}
		at := time.Unix(rapid.Int64Range(0, 2e9).Draw(t, "at"), 0).UTC() // 1970 to 2033: also of a machine whose clock stands
		began := at
		data, events := append([]byte(nil), encoded...), 0
		happen := func(b day.Body) {
			events++
			e := day.Event{Seq: events, At: at, Body: b}
			s, _ = day.Apply(s, e)
			block, err := EncodeEvent(e)
			if err != nil {
				t.Fatal(err)
			}
			data = append(append(data, '\n'), block...)
		}
		happen(day.Opened{How: "tend"})
		for range rapid.IntRange(1, 12).Draw(t, "commands") {
			at = at.Add(time.Duration(rapid.Int64Range(0, 3e9).Draw(t, "later")) * time.Second / time.Duration(rapid.SampledFrom([]int{1, 1e6, 1e8}).Draw(t, "of")))
			if at.After(gateDay.AddDate(50, 0, 0)) || at.After(began.AddDate(50, 0, 0)) { // no further than the gate lets times be apart
				break
			}
			body := reflect.New(reflect.TypeOf(rapid.SampledFrom(day.Kinds()).Draw(t, "kind"))).Elem()
			draw(t, body, false)
			enlarge(t, body, scale)
			var c day.Command = day.Record{Body: body.Interface().(day.Body)}
			switch rapid.IntRange(0, 9).Draw(t, "instead") {
			case 0, 1, 2:
				c = day.Done{}
			case 3:
				c = day.AddPiece{Tag: "B1", Spec: day.PieceSpec{Fibre: "linen", Dry: quantity.Mass(rapid.SampledFrom(scale).Draw(t, "dry")),
					Had: rapid.IntRange(0, 1e6).Draw(t, "had"), Dips: rapid.IntRange(0, 60).Draw(t, "dips"), Dip: quantity.Span(rapid.Int64Range(0, 1<<62).Draw(t, "dip"))}}
			case 4:
				c = day.Dose{Powders: []day.Amount{{Powder: "reducer", Mass: quantity.Mass(rapid.SampledFrom(scale).Draw(t, "mass"))}}, Wait: quantity.Span(rapid.Int64Range(0, 1<<62).Draw(t, "wait"))}
			case 5:
				c = day.RestVat{For: quantity.Span(rapid.Int64Range(0, 1<<62).Draw(t, "rest"))}
			}
			bodies, err := day.Decide(s, c, at)
			if err != nil {
				continue
			}
			for _, b := range bodies {
				happen(b)
			}
		}
		b := ReadOn(gateDay, "day.toml", data)
		if len(b.Events) != events || len(b.Unread)+len(b.Marks) > 0 {
			t.Fatalf("%d of %d events are read: %+v %+v", len(b.Events), events, b.Unread, b.Marks)
		}
	})
}

// enlarge makes some of the figures of a body as large as their types hold.
func enlarge(t *rapid.T, v reflect.Value, scale []float64) {
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() {
			enlarge(t, v.Elem(), scale)
		}
	case reflect.Struct:
		if at, is := v.Interface().(time.Time); is {
			v.Set(reflect.ValueOf(time.Unix(at.Unix()/2, 0).UTC()))
			return
		}
		for i := range v.NumField() {
			enlarge(t, v.Field(i), scale)
		}
	case reflect.Float64:
		if _, share := v.Interface().(quantity.Share); !share && rapid.Bool().Draw(t, "large") {
			v.SetFloat(rapid.SampledFrom(scale).Draw(t, "figure"))
		}
	case reflect.Int64:
		if rapid.Bool().Draw(t, "long") {
			v.SetInt(rapid.Int64Range(0, 1<<62).Draw(t, "span"))
		}
	}
}

// The same of the list of tins.
func TestWhatCannotBeOfATinIsSetAside(t *testing.T) {
	price := quantity.Money(1250)
	data := EncodeStockHead()
	for i, b := range []stock.Body{
		stock.Bought{OfTin: stock.OfTin{Tin: "T1"}, Material: "soda ash", Holds: 1000, Price: &price, When: &morning},
		stock.Weighed{OfTin: stock.OfTin{Tin: "T1"}, Mass: 900},
		stock.Opened{OfTin: stock.OfTin{Tin: "T1"}, When: &morning},
	} {
		block, err := EncodeStock(stock.Event{Seq: i + 1, At: morning, Body: b})
		if err != nil {
			t.Fatal(err)
		}
		data = append(append(data, '\n'), block...)
	}
	for _, c := range []struct{ old, new, told string }{
		{`holds = "1000 g"`, `holds = "1e12 kg"`, "its holds of 1e+15 g cannot be"},
		{`price = "12.50"`, `price = "92233720368547758.07"`, "its price of 92233720368547758.07 cannot be"},
		{`mass = "900 g"`, `mass = "900e9 g"`, "its mass of 9e+11 g cannot be"},
		{"when = 2026", "when = 3026", "its when is in the year 3026"},
		{"at = 2026", "at = 3026", "its time is in the year 3026"},
	} {
		s := ReadStock(gateDay, "stock.toml", []byte(strings.Replace(string(data), c.old, c.new, 1)))
		if len(s.Events) != 2 || len(s.Unread) != 1 || !strings.Contains(s.Unread[0].What, c.told) {
			t.Errorf("%s: %d events, %+v", c.new, len(s.Events), s.Unread)
		}
	}
	if s := ReadStock(gateDay, "stock.toml", data); len(s.Events) != 3 {
		t.Errorf("%+v", s.Unread)
	}
	large := quantity.Money(1<<62 + 1)
	if _, err := stock.Decide(stock.List{}, stock.AddTin{New: stock.NewTin{Material: "soda ash", Holds: 1, Price: &large}}, morning); err == nil || !strings.Contains(err.Error(), "price: ") {
		t.Errorf("a tin that cannot be is bought: %v", err)
	}
}

// A day that the tables tell of and that a reader would set aside is not imported.
func TestATableOfTheYear3026IsRefused(t *testing.T) {
	data, _ := sampleFile(t)
	x := Export(undated, []Leaf{{"garden-bin", "2026-11-25", data}})
	events := strings.Replace(string(x.Tables[1].Text), ",2026-11-25T09:04", ",3026-11-25T09:04", 1)
	m := Import(gateDay, x.Tables[0].Text, []byte(events), anyVat)
	if len(m.Wrong) != 1 || !strings.Contains(m.Wrong[0].Error(), "event 2 of garden-bin/2026-11-25 cannot be: its time is in the year 3026") {
		t.Errorf("%v", m.Wrong)
	}
	if m := Import(gateDay, x.Tables[0].Text, x.Tables[1].Text, anyVat); len(m.Wrong) > 0 {
		t.Errorf("%v", m.Wrong)
	}
}

func BenchmarkReadOrdinary(b *testing.B) {
	data, _ := sampleFile(b)
	block, err := EncodeEvent(sampleEvents()[1])
	if err != nil {
		b.Fatal(err)
	}
	n := 0
	for i := len(sampleEvents()) + 1; len(data) < 32<<20; i++ {
		e := strings.Replace(string(block), "seq = 2", fmt.Sprintf("seq = %d", i), 1)
		text := e[:strings.Index(e, "# end")]
		data = append(append(data, '\n'), closed([]byte(text), i)...)
		n++
	}
	for b.Loop() {
		if got := ReadOn(gateDay, "day.toml", data); len(got.Events) != n+len(sampleEvents()) {
			b.Fatalf("%d events, %d unread", len(got.Events), len(got.Unread))
		}
	}
	b.ReportMetric(float64(n), "events")
}

// Each figure that a book can hold has a bound: one of a type that bounds.go does not know would go past every gate.
func TestEveryFigureHasABound(t *testing.T) {
	seen := 0
	var look func(where string, of reflect.Type)
	look = func(where string, of reflect.Type) {
		for of.Kind() == reflect.Pointer || of.Kind() == reflect.Slice || of.Kind() == reflect.Array {
			of = of.Elem()
		}
		v := reflect.New(of).Elem()
		switch {
		case of == reflect.TypeFor[time.Time]():
		case of.Kind() == reflect.Struct:
			for _, f := range fieldsOf(of) {
				look(where+"."+f.name, of.FieldByIndex(f.index).Type)
			}
		case v.CanInt(), v.CanUint(), v.CanFloat():
			seen++
			if v.CanFloat() {
				v.SetFloat(math.MaxFloat64)
			} else {
				v.SetInt(math.MaxInt64)
			}
			if _, what := day.BeyondAt(where[strings.LastIndex(where, ".")+1:], v.Interface()); what == "" {
				t.Errorf("%s, a %v, has no bound in model/day/bounds.go", where, of)
			}
		}
	}
	for _, all := range []map[string]reflect.Type{kinds, stockKinds} {
		for kind, of := range all {
			look(kind, of)
		}
	}
	look("setup", reflect.TypeFor[day.Setup]())
	look("opening", reflect.TypeFor[day.Opening]())
	if seen < 100 {
		t.Errorf("only %d figures are looked at", seen)
	}
}
