package screen

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
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
func (t Typing) Mass(u quantity.System) (quantity.Mass, error) {
	s := strings.TrimSpace(t.Text)
	sign := quantity.Mass(1)
	if rest, minus := strings.CutPrefix(s, "-"); minus {
		s, sign = rest, -1
	}
	if s != "" && !strings.ContainsFunc(s, func(r rune) bool { return r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' }) {
		s += map[quantity.System]string{quantity.Metric: " g"}[u]
		if u != quantity.Metric {
			s += " oz"
		}
	}
	m, err := quantity.ParseMass(s, u)
	return sign * m, err
}

// Temp reads the text as a temperature; a bare number is in the dyer's own degrees.
func (t Typing) Temp(u quantity.System) (quantity.Temperature, error) {
	s := strings.TrimSpace(t.Text)
	if s != "" && !strings.ContainsAny(s, "cCfF°") {
		s += " C"
		if u == quantity.US {
			s = strings.TrimSuffix(s, " C") + " F"
		}
	}
	return quantity.ParseTemperature(s, u)
}

// PH reads a pH, with a point or a comma.
func (t Typing) PH() (float64, error) {
	p, err := strconv.ParseFloat(strings.Replace(strings.TrimSpace(t.Text), ",", ".", 1), 64)
	if err != nil || !(p >= 0 && p <= 14) {
		return 0, errors.New("pH is a number between 0 and 14, such as 10.5")
	}
	return p, nil
}

// Hour reads HH:MM as the last such instant before now.
func (t Typing) Hour(now time.Time) (time.Time, error) {
	clean := strings.NewReplacer(".", ":", "h", ":", " ", "").Replace(strings.TrimSpace(t.Text))
	clock, err := time.Parse("15:4", clean)
	if err != nil {
		return time.Time{}, fmt.Errorf("type the time of day, such as %s", day.Clock(now))
	}
	at := time.Date(now.Year(), now.Month(), now.Day(), clock.Hour(), clock.Minute(), 0, 0, now.Location())
	if at.After(now) {
		at = at.AddDate(0, 0, -1)
	}
	return at, nil
}
