package plain

import (
	"fmt"
	"strconv"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/wording"
)

// Questions are what a new day needs to be asked.
type Questions struct {
	Vats    []string // that live
	Recipes []string
	Units   string
	Place   string // as set; empty: asked
}

// Answers are what the dyer said. Vat is -1 for a new vat; End leads a living one to its end.
type Answers struct {
	End         bool
	Vat, Recipe int
	Name, Place string
	Fill        quantity.Volume
}

// Ask asks for a new day, one question a line; false when the input ended or q was typed.
func (t *Terminal) Ask(q Questions) (Answers, bool) {
	a := Answers{Vat: -1, Place: q.Place}
	sys, _ := quantity.ParseSystem(q.Units)
	t.say("No day is open. A new one; q leaves.")
	if len(q.Vats) > 0 {
		n, ok := t.choose("Which vat", append(append([]string(nil), q.Vats...), "a new vat"))
		if !ok {
			return a, false
		}
		if n < len(q.Vats) {
			a.Vat = n
			what, ok := t.choose("What is the day for", []string{"dyeing or tending it", "ending it, or going on with its end"})
			a.End = what == 1
			return a, ok
		}
	}
	var ok bool
	if a.Recipe, ok = t.choose("Which recipe", q.Recipes); !ok {
		return a, false
	}
	if a.Name, ok = t.question("What is the vat called"); !ok {
		return a, false
	}
	for a.Fill == 0 {
		s, ok := t.question("How much liquor in all, such as 60 L")
		if !ok {
			return a, false
		}
		v, err := quantity.ParseVolume(s, sys)
		if err != nil {
			t.say("Not taken: %s.", err)
			continue
		}
		a.Fill = v
	}
	if a.Place == "" {
		places := []string{day.Outdoors, day.CrossDraught, day.ClosedRoom}
		n, ok := t.choose("Where", places)
		if !ok {
			return a, false
		}
		a.Place = places[n]
	}
	return a, true
}

// question asks until something is typed.
func (t *Terminal) question(words string) (string, bool) {
	for {
		t.say("%s?", words)
		line, more := <-t.lines
		if !more || line == "q" {
			return "", false
		}
		if err := wording.Refusal(line); err != nil {
			t.say("Not taken: %s.", err)
		} else if line != "" {
			return line, true
		}
	}
}

// choose asks for one of a numbered list.
func (t *Terminal) choose(words string, of []string) (int, bool) {
	for i, s := range of {
		t.say("  %d  %s", i+1, s)
	}
	for {
		line, ok := t.question(fmt.Sprintf("%s, 1 to %d", words, len(of)))
		if !ok {
			return 0, false
		}
		if n, err := strconv.Atoi(line); err == nil && n >= 1 && n <= len(of) {
			return n - 1, true
		}
	}
}
