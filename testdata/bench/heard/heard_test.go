package main

import (
	"io"
	"slices"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/practice"
)

// says tells whether words say something, also of several pieces: "P12, P10 in" says "P12 in".
func says(words, of string) bool {
	tag, verb, _ := strings.Cut(of, " ")
	for rest := words; ; {
		_, after, found := strings.Cut(rest, tag)
		switch {
		case !found:
			return false
		case after == "" && verb == "", after != "" && strings.ContainsRune(" ,;", rune(after[0])) && strings.Contains(after, verb):
			return true
		}
		rest = after
	}
}

// By what is heard alone one could dye: before each piece goes in or comes out it was said, and after each powder was weighed how much.
func TestADayCanBeDyedByEar(t *testing.T) {
	for name, o := range map[string]options{"a garden": {recipe: "soda"}, "a workshop": {recipe: "soda", workshop: true}, "wool": {recipe: "mild-soda"}} {
		var events []day.Event
		o.out, o.events = io.Discard, func(e day.Event) { events = append(events, e) }
		heard, err := o.play()
		if err != nil {
			t.Fatal(name, err)
		}
		said := func(of string, until time.Time, within time.Duration) bool {
			for _, c := range heard {
				if !c.at.After(until) && until.Sub(c.at) <= within && says(c.Words.String(), of) {
					return true
				}
			}
			return false
		}
		for _, c := range heard {
			if strings.HasSuffix(c.Words.String(), ", 1 of 2") {
				t.Errorf("%s: a bath is called, and nothing said of how much: %s", name, c.Words)
			}
			if strings.Contains(c.Words.String(), "ICSC") {
				t.Errorf("%s: a source is read aloud: %s", name, c.Words)
			}
		}
		moves := 0
		for _, e := range events {
			switch b := e.Body.(type) {
			case day.CautionAnswered:
				if words := practice.Unsourced(b.Caution); b.Step > 0 && !slices.ContainsFunc(heard, func(c call) bool { return strings.HasSuffix(c.Words.String(), "Caution: "+words) && !c.at.After(e.At) }) {
					t.Errorf("%s: answered at %s, and never said: %s", name, e.At.Format("15:04:05"), words)
				}
			case day.DipBegun:
				moves++
				if !said(b.Tag+" in", e.At, 12*time.Minute) {
					t.Errorf("%s: %s goes in at %s, and nothing said it", name, b.Tag, e.At.Format("15:04:05"))
				}
			case day.DipEnded:
				moves++
				at := e.At
				if b.When != nil {
					at = b.When.Add(time.Second)
				}
				if !said(b.Tag, at, 2*time.Minute) {
					t.Errorf("%s: %s comes out at %s, and nothing said it", name, b.Tag, e.At.Format("15:04:05"))
				}
			case day.PowderAdded:
				if b.Step > 0 && !said(b.Mass.Format(0), e.At, 5*time.Minute) {
					t.Errorf("%s: %s of %s at %s, and nothing said how much", name, b.Mass, b.Material, e.At.Format("15:04:05"))
				}
			}
		}
		if last := heard[len(heard)-1]; moves < 10 || !said("all done, day open", last.at, 24*time.Hour) {
			t.Errorf("%s: %d pieces moved, and the end was not said", name, moves)
		}
	}
}
