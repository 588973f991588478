package screen

import (
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
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

// Mass reads the text as a weight; a bare number is in the scale's unit.
func (t Typing) Mass(u quantity.System) (quantity.Mass, error) { return answer.Mass(t.Text, u) }

// Temp reads the text as a temperature; a bare number is in the dyer's own degrees.
func (t Typing) Temp(u quantity.System) (quantity.Temperature, error) {
	return answer.Temperature(t.Text, u)
}

// PH reads a pH, with a point or a comma.
func (t Typing) PH() (float64, error) { return answer.PH(t.Text) }

// Seconds reads how long a strip stayed yellow; 0 is not at all.
func (t Typing) Seconds() (quantity.Span, error) { return answer.Strip(t.Text, quantity.Metric) }

// AskPH asks for a pH.
func AskPH(v engine.View) Typing {
	return Typing{What: "ph", Label: "pH", Unit: "and the " + Degrees(v) + " of the sample, if it is not the vat's"}
}

// PHReading reads a pH as it is noted at the vat: "10.4 25".
func (t Typing) PHReading(u quantity.System) (day.Reading, error) { return answer.PHReading(t.Text, u) }

// Hour reads HH:MM as the last such instant before now.
func (t Typing) Hour(now time.Time) (time.Time, error) { return answer.Hour(t.Text, now) }

// Level asks how full the vat is.
func Level(v engine.View) Typing {
	if v.State.Head.Setup.Measured().Shape == nil {
		return Typing{What: "level", Label: "In the vat now", Unit: "litres"}
	}
	unit := "cm"
	if v.State.Head.Setup.System() != quantity.Metric {
		unit = "in"
	}
	return Typing{What: "level", Label: "From the rim down to the liquor", Unit: unit + "; or what is in it, 28 L"}
}

// Level reads how full the vat is.
func (t Typing) Level(v engine.View) (day.Command, error) {
	r, err := answer.Level(v.State, t.Text)
	return day.Record{Body: r}, err
}

// Heater is what the heater's key means.
func Heater(v engine.View) day.Command { return day.Record{Body: answer.Heater(v.State)} }
