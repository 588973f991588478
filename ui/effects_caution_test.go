package ui

import (
	"errors"
	"reflect"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
)

// The same key answers a caution that no screen asks for: not at once, not after a minute, not for another day or another act.
func TestTheSameKeyAnswersACaution(t *testing.T) {
	on, other := day.Record{Body: day.HeaterOn{Power: 1000}}, day.Record{Body: day.Note{Text: "rain"}}
	nine := time.Date(2026, 3, 28, 9, 0, 0, 0, time.UTC)
	at := func(after time.Duration) func() time.Time { return func() time.Time { return nine.Add(after) } }
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
