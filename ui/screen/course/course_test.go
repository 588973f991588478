package course_test

import (
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/recipes"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/rehearse"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/screen/course"
	"example.org/vatside/ui/screentest"
	"example.org/vatside/ui/style"
)

var noon = time.Date(2026, 3, 28, 12, 0, 0, 0, time.UTC)

// event is something that happened so long after noon.
type event struct {
	after time.Duration
	body  day.Body
}

func read(after time.Duration, c float64) event {
	t := quantity.Celsius(c)
	return event{after, day.Reading{Temp: &t}}
}

// vat is a living soda vat in its bin; change may alter it before its day opens.
func vat(t *testing.T, change func(*day.Head), events ...event) day.State {
	t.Helper()
	r, _ := recipes.Find("soda")
	h := rehearse.Head(r, noon)
	h.Opening = day.Opening{Number: 2, Built: true}
	if change != nil {
		change(&h)
	}
	s, err := day.Begin(h)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range append([]event{{0, day.Opened{How: "tend"}}}, events...) {
		if s, err = day.Apply(s, day.Event{Seq: len(s.Log) + 1, At: noon.Add(e.after), Body: e.body}); err != nil {
			t.Fatal(err)
		}
	}
	return s
}

func env(s day.State, now time.Time, w, h int) screen.Env {
	return screen.Env{
		Now: now, Width: w, Height: h, Style: style.New(style.Options{}), ID: "bin/d",
		Days: engine.Snapshot{Days: []engine.View{engine.View{ID: "bin/d", State: s, Now: now}.At(now)}},
	}
}

func unmeasured(h *day.Head) { h.Setup.Vessel = "" }

// At every size each state says in its act and its sentence what the picture shows, whole.
func TestTheCourseFits(t *testing.T) {
	hour := time.Hour
	for name, c := range map[string]struct {
		change func(*day.Head)
		events []event
		act    string
		says   string
	}{
		"not read":     {nil, nil, "No °C yet", "Read it at the vat"},
		"read once":    {nil, []event{read(0, 36)}, "below 30 °C at", "Two readings half an hour apart"},
		"in the wind":  {nil, []event{read(0, 36), read(hour, 32)}, "below 30 °C at", "times the heat reckoned: wind?"},
		"well wrapped": {nil, []event{read(0, 36), read(hour, 35.5)}, "35 °C, below 30 °C at", "of the heat reckoned: no wind?"},
		"too cold":     {nil, []event{read(0, 24)}, "23 °C: colder than the 30 °C it needs", "Two readings"},
		"hot":          {nil, []event{read(0, 55), {0, day.VatCovered{}}}, "49 °C, below 30 °C at 22", "Two readings"},
		"covered":      {nil, []event{read(0, 36), {0, day.VatCovered{}}}, "below 30 °C at", "Two readings"},
		"not measured": {unmeasured, []event{read(0, 36), read(hour, 33)}, "33 °C", "only readings are shown"},
		"closed":       {nil, []event{read(0, 36), read(hour, 33), {hour, day.Closed{}}}, "33 °C", "The day is closed: these are its readings."},
		"in °F":        {func(h *day.Head) { h.Setup.Units = "us" }, []event{read(0, 36)}, "below 86 °F at", "Two readings"},
	} {
		s := vat(t, c.change, c.events...)
		for _, size := range screentest.Sizes {
			e := env(s, noon.Add(90*time.Minute), size[0], size[1])
			for _, keys := range [][]string{nil, {"r", "3"}, {"r", "x", "enter"}} {
				scr, _ := screentest.Press(course.New(e), e, keys...)
				sheet := scr.View(e)
				if !strings.Contains(sheet.Act, c.act) || len(sheet.How) == 0 || !strings.Contains(sheet.How[0], c.says) {
					t.Errorf("%s: it says %q and %q", name, sheet.Act, sheet.How)
				}
				shown := screentest.Shown(t, scr, e)
				for _, word := range strings.Fields(sheet.Act + " " + strings.Join(sheet.How, " ")) {
					if !strings.Contains(shown, word) {
						t.Fatalf("%s, %v, keys %v: %q is missing:\n%s", name, size, keys, word, shown)
					}
				}
				if len(keys) == 0 && name != "not read" && (!strings.Contains(shown, "low") || !strings.Contains(shown, "now")) {
					t.Errorf("%s, %v: the picture is missing:\n%s", name, size, shown)
				}
			}
		}
	}
}

// With the keys and a refusal on the screen the picture gives way, not the air under it.
func TestThePictureLeavesRoomForTheRoot(t *testing.T) {
	s := vat(t, nil, read(0, 36))
	for _, size := range screentest.Sizes {
		e := env(s, noon.Add(time.Minute), size[0], size[1])
		e.Word = "the heater is on already"
		sheet := course.New(e).View(e)
		bare := e
		bare.Word = ""
		if with, without := len(sheet.Body), len(course.New(bare).View(bare).Body); with >= without && with > 6 {
			t.Errorf("%v: the picture has %d rows with a refusal and %d without", size, with, without)
		}
	}
}

// What the keys ask for.
func TestTheKeys(t *testing.T) {
	s := vat(t, nil, read(0, 36))
	covered := vat(t, nil, read(0, 36), event{0, day.VatCovered{}})
	for _, c := range []struct {
		s    day.State
		keys []string
		want day.Body
	}{
		{s, []string{"c"}, day.VatCovered{}},
		{covered, []string{"c"}, day.VatUncovered{}},
		{s, []string{"e"}, day.HeaterOn{Power: quantity.Watts(1000)}},
	} {
		e := env(c.s, noon.Add(time.Minute), 80, 24)
		_, r := screentest.Press(course.New(e), e, c.keys...)
		if len(r) != 1 || r[0] != (screen.Do{Command: day.Record{Body: c.want}}) {
			t.Errorf("%v asks for %+v", c.keys, r)
		}
	}
	e := env(s, noon.Add(time.Minute), 80, 24)
	_, r := screentest.Press(course.New(e), e, "r", "3", "4", ",", "5", "enter")
	do, ok := r[0].(screen.Do)
	if !ok {
		t.Fatalf("34,5 asks for %v", r)
	}
	if b, ok := do.Command.(day.Record).Body.(day.Reading); !ok || b.Temp == nil || b.Temp.Celsius() != 34.5 || b.PH != nil {
		t.Errorf("34,5 is %+v", do.Command)
	}
	for _, k := range []string{"space", "esc"} {
		if _, r := screentest.Press(course.New(e), e, k); len(r) != 1 || r[0] != (screen.Leave{}) {
			t.Errorf("%s asks for %v", k, r)
		}
	}
}
