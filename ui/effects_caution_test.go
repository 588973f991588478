package ui

import (
	"errors"
	"reflect"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/shelf"
)

// The machine's clock says when: in a rehearsal at sixty times the pace a second of the day is no second of the hands.
func TestASecondIsTheMachines(t *testing.T) {
	v := happened(t, true)
	v.State.Head.Setup.Heater = 1000
	h := effectsOf(t, shelf.Open(t.TempDir()))
	k := talking(t, h, v, screen.AtDay)
	on := day.Record{Body: day.HeaterOn{Power: 1000}}
	_ = h.do(spoken, on)()
	k.led.Set(k.now.Add(20 * time.Second)) // of the day
	if _ = h.do(spoken, on)(); k.view().State.Vat.Heater {
		t.Error("a bounce is taken, since the day's clock runs ahead")
	}
	skipped.Add(int64(time.Second))
	if _ = h.do(spoken, on)(); !k.view().State.Vat.Heater {
		t.Error("a second press after a second is not taken")
	}
}

// The same key answers a caution that no screen asks for: not at once, not after a minute, not for another day or another act.
func TestTheSameKeyAnswersACaution(t *testing.T) {
	on, other := day.Record{Body: day.HeaterOn{Power: 1000}}, day.Record{Body: day.Note{Text: "rain"}}
	at := func(after time.Duration) time.Duration { return time.Hour + after } // on the machine's monotonic clock
	for _, c := range []struct {
		name  string
		press func(a *cautions) day.Command
		want  day.Command
	}{
		{"at once", func(a *cautions) day.Command { return a.answer("bin/d", on, at(900*time.Millisecond)) }, on},
		{"after a second", func(a *cautions) day.Command { return a.answer("bin/d", on, at(time.Second)) }, day.Answered{Command: on}},
		{"a bounce, then after a second", func(a *cautions) day.Command {
			a.answer("bin/d", on, at(100*time.Millisecond))
			_ = a.ask("bin/d", on, at(100*time.Millisecond), &day.Pending{Caution: "hands out"})
			return a.answer("bin/d", on, at(time.Second))
		}, day.Answered{Command: on}},
		{"after a minute", func(a *cautions) day.Command { return a.answer("bin/d", on, at(61*time.Second)) }, on},
		{"a press, whose question the engine keeps", func(a *cautions) day.Command {
			a.c = nil
			_ = a.ask("bin/d", day.Done{Call: "lift A1"}, at(0), &day.Pending{Caution: "3:13 left"})
			return a.answer("bin/d", day.Done{Call: "lift A1"}, at(27*time.Second))
		}, day.Done{Call: "lift A1"}},
		{"of another day", func(a *cautions) day.Command { return a.answer("pail/d", on, at(2*time.Second)) }, on},
		{"after another act", func(a *cautions) day.Command {
			a.answer("bin/d", other, at(2*time.Second))
			return a.answer("bin/d", on, at(4*time.Second))
		}, on},
		{"twice", func(a *cautions) day.Command {
			a.answer("bin/d", on, at(2*time.Second))
			return a.answer("bin/d", on, at(4*time.Second))
		}, on},
	} {
		a := &cautions{}
		if got := a.answer("bin/d", on, at(0)); !reflect.DeepEqual(got, day.Command(on)) {
			t.Errorf("%s: the first press is %#v", c.name, got)
		}
		err := a.ask("bin/d", on, at(0), &day.Pending{Caution: "hands out"})
		if err == nil || !strings.Contains(err.Error(), "hands out; the same key again") {
			t.Errorf("%s: it says %v", c.name, err)
		}
		if got := c.press(a); !reflect.DeepEqual(got, c.want) {
			t.Errorf("%s: it is %#v", c.name, got)
		}
	}
	wrong := errors.New("the disk is full")
	if err := (&cautions{}).ask("bin/d", on, at(0), wrong); err != wrong {
		t.Errorf("another error is %v", err)
	}
}
