package screen

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
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

// Seconds reads how long a strip stayed yellow; 0 is not at all.
func (t Typing) Seconds() (quantity.Span, error) {
	f, err := strconv.ParseFloat(strings.TrimSuffix(strings.TrimSpace(t.Text), "s"), 64)
	if err != nil || !(f >= 0 && f <= 3600) {
		return 0, errors.New("type seconds, such as 12; 0 where it showed no yellow")
	}
	return quantity.Seconds(f), nil
}

// AskPH asks for a pH.
func AskPH(v engine.View) Typing {
	return Typing{What: "ph", Label: "pH", Unit: "and the " + Degrees(v) + " of the sample, if it is not the vat's"}
}

// PHReading reads a pH as it is noted at the vat: "10.4", with the °C at which it was read behind it where that is not the
// vat's, "10.4 25" or "10.4 at 25 °C", and the word meter where it was one.
func (t Typing) PHReading(u quantity.System) (day.Reading, error) {
	text, meter := strings.CutSuffix(strings.TrimSpace(strings.ToLower(t.Text)), "meter")
	figure, rest, _ := strings.Cut(strings.TrimSpace(text), " ")
	p, err := Typing{Text: figure}.PH()
	if err != nil {
		return day.Reading{}, err
	}
	r := day.Reading{PH: &p, With: "paper strip"}
	if meter {
		r.With = "meter"
	}
	rest = strings.TrimSpace(strings.TrimPrefix(strings.TrimSpace(rest), "at"))
	if rest == "" {
		return r, nil
	}
	at, err := Typing{Text: strings.ToUpper(rest)}.Temp(u)
	if err != nil {
		return day.Reading{}, fmt.Errorf("behind the pH stands the temperature at which it was read, such as %s 25: %w", figure, err)
	}
	r.PHTemp = &at
	return r, nil
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

// Level reads how full the vat is: bare figures are the distance below the rim, litres where the vessel was not measured.
func (t Typing) Level(v engine.View) (day.Command, error) {
	sys, s := v.State.Head.Setup.System(), strings.TrimSpace(t.Text)
	bare := s != "" && strings.Trim(s, "0123456789.,") == ""
	measured := v.State.Head.Setup.Measured().Shape != nil
	if bare && measured {
		s += map[bool]string{true: " cm", false: " in"}[sys == quantity.Metric]
	} else if bare {
		s += map[bool]string{true: " L", false: " gal"}[sys == quantity.Metric]
	}
	var r day.Reading
	if l, err := quantity.ParseLength(s, sys); err == nil {
		r.BelowRim = &l
	} else if volume, wrong := quantity.ParseVolume(s, sys); wrong == nil {
		r.Holds = &volume
	} else if measured {
		return nil, err
	} else {
		return nil, wrong
	}
	return day.Record{Body: r}, nil
}

// Heater is what the heater's key means.
func Heater(v engine.View) day.Command {
	if v.State.Vat.Heater {
		return day.Record{Body: day.HeaterOff{}}
	}
	return day.Record{Body: day.HeaterOn{Power: v.State.Head.Setup.Heater}}
}
