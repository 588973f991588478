package plain

import (
	"bytes"
	"context"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/recipes"
	_ "example.org/vatside/testdata/long" // collects garbage less often
	"example.org/vatside/ui/cue"
	"example.org/vatside/ui/engine"
)

// paper is a disk that takes all.
type paper struct{}

func (paper) Append(day.Event) error { return nil }
func (paper) Close() error           { return nil }

// atADay types lines at an open day, with a clock that is set by hand, and gives what is said to each.
func atADay(t *testing.T, built bool) (types func(after time.Duration, line string) string, log func() []day.Event) {
	t.Helper()
	const id = "bin/2026-11-25"
	ctx, stop := context.WithCancel(context.Background())
	e := engine.New(engine.Machine{}, "", cue.Silent{})
	parted := e.Start(ctx)
	t.Cleanup(func() { stop(); <-parted })
	soda, _ := recipes.Find("soda")
	now := time.Date(2026, 11, 25, 9, 0, 0, 0, time.UTC)
	led := engine.NewLed(now)
	head := day.Head{Vat: "bin", Day: "2026-11-25", Zone: "UTC", Recipe: soda, Opening: day.Opening{Number: 2, Built: built},
		Setup: day.Setup{Fill: 60, Place: day.Outdoors, Material: "HDPE"}}
	v, err := e.Open(ctx, engine.Opening{ID: id, Head: head, Writer: paper{}, Source: led})
	if err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	term := New(nil, &out)
	types = func(after time.Duration, line string) string {
		now = now.Add(after)
		led.Set(now)
		out.Reset()
		term.Answer(ctx, e, id, present(ctx, e, v), line)
		said := out.String()
		term.tell(present(ctx, e, v))
		return said
	}
	return types, func() []day.Event { return present(ctx, e, v).State.Log }
}

// kindsFrom are the kinds of the events from a number on.
func kindsFrom(log []day.Event, n int) string {
	var out []string
	for _, e := range log[n:] {
		out = append(out, e.Body.Kind())
	}
	return strings.Join(out, ", ")
}

// A caution is told first; an empty line answers it after a second, the same words at once, and any others leave it.
func TestACautionIsAnsweredByAnEmptyLine(t *testing.T) {
	types, log := atADay(t, true)
	said := types(0, "give reducer 20 g")
	if !strings.HasPrefix(said, "Caution: Sodium dithionite: ") || len(log()) != 1 {
		t.Fatalf("it says %s", said)
	}
	if said = types(500*time.Millisecond, ""); !strings.HasPrefix(said, "Too soon") || len(log()) != 1 {
		t.Errorf("half a second later it says %q", said)
	}
	if said = types(time.Second, ""); said != "" || kindsFrom(log(), 1) != "caution answered, powder added, rested" {
		t.Errorf("then it says %q and writes %s", said, kindsFrom(log(), 1))
	}
	n := len(log())
	types(time.Minute, "give reducer 5 g")
	if said = types(time.Second, "note not now"); !strings.HasPrefix(said, "Not done: give reducer 5 g") || kindsFrom(log(), n) != "note" {
		t.Errorf("other words say %q and write %s", said, kindsFrom(log(), n))
	}
	types(time.Minute, "")
	if strings.Contains(kindsFrom(log(), n), "powder") {
		t.Errorf("a dose that was left was given: %s", kindsFrom(log(), n))
	}
	n = len(log())
	types(time.Minute, "close the day")
	if types(0, "close the day"); kindsFrom(log(), n) != "caution answered, closed" {
		t.Errorf("the same words once more write %s", kindsFrom(log(), n))
	}
}

// A letter is the key of its row, as on the screens, and writes what its words write.
func TestALetterIsTheKeyOfItsRow(t *testing.T) {
	for letter, words := range map[string]string{"r 36": "36 C", "h 10.4 25": "ph 10.4 25", "t 45": "strip 45", "o grey": "note grey", "c": "lid", "i": "company", "s warm": "skip warm"} {
		var wrote [2]string
		for i, line := range []string{letter, words} {
			types, log := atADay(t, true)
			types(time.Minute, line)
			types(2*time.Second, "")
			for _, e := range log()[1:] {
				wrote[i] += e.Body.Sentence(quantity.Metric) + "; "
			}
		}
		if wrote[0] == "" || wrote[0] != wrote[1] {
			t.Errorf("%q writes %q, %q %q", letter, wrote[0], words, wrote[1])
		}
	}
	types, log := atADay(t, true)
	for _, gone := range []string{"b", "H a strike"} {
		if said := types(time.Minute, gone); !strings.Contains(said, "not understood") || len(log()) != 1 {
			t.Errorf("%q says %q", gone, said)
		}
	}
}

// The list is of what can be said now, what the act asks for first; what it shows is understood.
func TestTheListOfAnswers(t *testing.T) {
	types, _ := atADay(t, true)
	types(0, "")
	said := types(2*time.Second, "?")
	now, rest, _ := strings.Cut(said, "What you read or see:")
	for _, w := range []string{"Now:\n", "done", "36 C, or r: "} {
		if !strings.Contains(now, w) {
			t.Errorf("%q is not in the first part of\n%s", w, said)
		}
	}
	for _, w := range []string{"lid on: ", "top up 2 L", "close the day", "Asking:", "first aid"} {
		if !strings.Contains(rest, w) {
			t.Errorf("%q is not in\n%s", w, rest)
		}
	}
	for _, w := range []string{"90 g", "went WHERE", "bench TAG"} {
		if strings.Contains(said, w) {
			t.Errorf("%q is listed and cannot be said", w)
		}
	}
	if said := types(0, "sing"); !strings.HasPrefix(said, "\"sing\" is not understood. The call is: ") || !strings.Contains(said, "help: ") {
		t.Errorf("it says %s", said)
	}
}

// The timetable is told as load prints it, and writes nothing.
func TestTheTimetableInWords(t *testing.T) {
	types, log := atADay(t, true)
	if said := types(0, "timetable"); !strings.Contains(said, "there is no piece to dip") {
		t.Errorf("without a piece it says %s", said)
	}
	types(time.Second, "piece A1 linen 420 g 2 dips")
	n := len(log())
	said := types(time.Second, "timetable")
	for _, w := range []string{"Last lift at ", "in A1, dip 1, out at ", "in A1, dip 2, out at ", "A1 done (A1)"} {
		if !strings.Contains(said, w) {
			t.Errorf("%q is not in\n%s", w, said)
		}
	}
	if len(log()) != n {
		t.Errorf("it writes %s", kindsFrom(log(), n))
	}
}

// An empty line answers the call that was told, not one that has come since.
func TestAnEmptyLineIsForTheCallThatWasTold(t *testing.T) {
	types, log := atADay(t, true)
	for _, line := range []string{"skip warm", "ready", "piece A1 linen 420 g 3 dips", "wet A1", "", "A1 in", "A1 out", "skimmed"} {
		types(time.Minute, line)
	}
	n := len(log())
	if said := types(time.Hour, ""); !strings.HasPrefix(said, "Not taken. Now ") || len(log()) != n {
		t.Errorf("an empty line for a call that is over says %q and writes %s", said, kindsFrom(log(), n))
	}
	if said := types(time.Second, ""); said != "" || len(log()) == n {
		t.Errorf("then it is told, and an empty line says %q", said)
	}
}
