package screen

import (
	"example.org/vatside/model/day"
	"example.org/vatside/ui/answer"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/style"
	"example.org/vatside/ui/widget"
)

// Typing is a line that is being typed. The zero value is none.
type Typing struct {
	What  string // which line, the screen's own word
	Label string // what is asked
	Unit  string // hint behind the text
	Text  string
	Wrong string // why the last try was not taken
}

// On tells whether something is being typed.
func (t Typing) On() bool { return t.What != "" }

// Take adds a key to the text; entered is true at Enter, left at Esc.
func (t Typing) Take(k Key) (next Typing, entered, left bool) {
	switch {
	case k.Name == "enter" || k.Name == "pgdown":
		return t, true, false
	case k.Name == "esc" || k.Name == "pgup":
		return Typing{}, false, true
	case k.Name == "backspace":
		if r := []rune(t.Text); len(r) > 0 {
			t.Text = string(r[:len(r)-1])
		} else {
			return Typing{}, false, true
		}
	case k.Rune >= ' ' && len(t.Text) < 120:
		t.Text += string(k.Rune)
	}
	t.Wrong = ""
	return t, false, false
}

// Lines draws it.
func (t Typing) Lines(width int, st style.Style) []string {
	return widget.Entry(widget.EntryLine{Label: t.Label, Typed: t.Text, Unit: t.Unit, Error: t.Wrong}, width, st)
}

// Heater is what the heater's key means.
func Heater(v engine.View) day.Command { return day.Record{Body: answer.Heater(v.State)} }
