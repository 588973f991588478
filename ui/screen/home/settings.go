package home

import (
	"errors"
	"fmt"
	"strings"

	"github.com/charmbracelet/bubbles/key"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/water"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/style"
	"example.org/vatside/ui/widget"
)

// settings is the short list of what the dyer sets once. Each change is stored as it is made.
type settings struct {
	at    int
	typed screen.Field
}

// setting is one line. Either it is turned through its words, or it is typed.
type setting struct {
	name  string
	hint  string
	words []string
	get   func(screen.Settings) string
	put   func(*screen.Settings, string) error
}

var stoves = []string{water.Gas.String(), water.Electric.String(), water.Induction.String(), water.Immersion.String()}

// shown is an amount as the list shows it, empty where it is not set.
func shown[T interface {
	~float64
	Format(quantity.System) string
}](v T, sys quantity.System) string {
	if v == 0 {
		return ""
	}
	return v.Format(sys)
}

// What one ring or one heater has: a small one to a gas ring for a cauldron.
const leastPower, mostPower = quantity.Power(50), quantity.Power(20000)

// amount stores an amount that was typed; bare figures take the usual unit, and nothing typed unsets it.
func amount[T interface {
	~float64
	Format(quantity.System) string
}](into *T, typed, unit string, parse func(string, quantity.System) (T, error), least, most T, sys quantity.System) error {
	if typed == "" {
		*into = 0
		return nil
	}
	v, err := parse(quantity.WithUnit(typed, unit), sys)
	switch {
	case err != nil:
		return err
	case !(v >= least && v <= most):
		return fmt.Errorf("it is between %s and %s here", least.Format(sys), most.Format(sys))
	}
	*into = v
	return nil
}

func system(s screen.Settings) quantity.System { return day.Setup{Units: s.Units}.System() }

// ofWater is a temperature that is stored in °C, in the dyer's own degrees.
func ofWater(stored string, sys quantity.System) string {
	t, err := quantity.ParseTemperature(stored, quantity.Metric)
	if err != nil {
		return stored
	}
	return t.Format(sys)
}

// degrees stores a temperature in °C, as the settings hold it.
func degrees(into *string, typed string, sys quantity.System) error {
	if typed == "" {
		return errors.New("the mix is reckoned from it: type what it has")
	}
	t, err := quantity.ParseTemperature(quantity.WithUnit(typed, sys.DegreeUnit()), sys)
	switch {
	case err != nil:
		return err
	case !(t >= 0 && t <= 100):
		return fmt.Errorf("water is between %s and %s", quantity.Celsius(0).Format(sys), quantity.Celsius(100).Format(sys))
	}
	text, err := t.MarshalText()
	if err == nil {
		*into = string(text)
	}
	return err
}

// update answers one key; open is false when the list is left.
func (s settings) update(k screen.Key, env screen.Env) (next settings, open bool, r []screen.Request) {
	if s.typed.On() {
		return s.edit(k, env)
	}
	if row, ok := k.On(len(list)); ok {
		s.at, k = row, screen.Key{Name: "enter"}
	}
	line := list[s.at]
	switch {
	case k.Name == "esc" || k.Name == "pgup" || k.Rune == ',':
		return s, false, nil
	case k.Rune == 'q':
		return s, true, []screen.Request{screen.Quit{}}
	case k.Name == "down" || k.Name == "tab":
		s.at = (s.at + 1) % len(list)
	case k.Name == "up":
		s.at = (s.at + len(list) - 1) % len(list)
	case k.Rune >= '1' && int(k.Rune-'0') <= len(list):
		s.at = int(k.Rune - '1')
	case k.Done() && line.words == nil:
		s.typed = screen.Field{What: line.name, Text: line.get(env.Home.Settings), Hint: line.hint}
	case line.words != nil && (k.Done() || k.Name == "right" || k.Name == "left"):
		step := 1
		if k.Name == "left" {
			step = len(line.words) - 1
		}
		now := 0
		for i, w := range line.words {
			if w == line.get(env.Home.Settings) {
				now = i
			}
		}
		set := env.Home.Settings
		_ = line.put(&set, line.words[(now+step)%len(line.words)]) // a word of the list always fits
		return s, true, []screen.Request{screen.Set{Settings: set}}
	}
	return s, true, nil
}

// edit answers a key while a line is typed.
func (s settings) edit(k screen.Key, env screen.Env) (settings, bool, []screen.Request) {
	switch {
	case k.Name == "esc":
		s.typed = screen.Field{}
	case k.Rune == '!':
		return s, true, []screen.Request{screen.Go{To: screen.AtAid}}
	case k.Name == "enter" || k.Name == "pgdown":
		set := env.Home.Settings
		if err := list[s.at].put(&set, strings.TrimSpace(s.typed.Text)); err != nil {
			s.typed.Wrong = err.Error()
			return s, true, nil
		}
		s.typed = screen.Field{}
		return s, true, []screen.Request{screen.Set{Settings: set}}
	default:
		s.typed = s.typed.Edit(k)
	}
	return s, true, nil
}

func (s settings) view(env screen.Env) widget.Sheet {
	sheet := widget.Sheet{
		Head: widget.Head{Left: "vatside · settings", Right: env.Now.Format("15:04")},
		Act:  "Set once, for every vat", Edge: style.Cloth(0), Liquor: style.Liquor(style.Water),
		Foot: []string{"stored as you change it"},
	}
	line := list[s.at]
	if s.typed.On() {
		sheet.Act = wording.Upper(line.name)
		sheet.Body = s.typed.Lines(env)
		return sheet
	}
	var choices []widget.Choice
	for _, l := range list {
		v := l.get(env.Home.Settings)
		if v == "" {
			v = "not set"
		}
		choices = append(choices, widget.Choice{Text: l.name, Aside: v})
	}
	sheet.Add(widget.Pick(choices, s.at, columns(env), max(4, min(len(choices), env.Height-12)), env.Style))
	if env.Height < 20 {
		sheet.Why = line.hint
		return sheet
	}
	// What is said of a line stands in as many rows for each, so that the list keeps its place.
	rows := 0
	for _, l := range list {
		rows = max(rows, len(says(l.hint, env)))
	}
	sheet.Body = append(append(sheet.Body, ""), says(line.hint, env)...)
	for n := len(says(line.hint, env)); n < rows; n++ {
		sheet.Body = append(sheet.Body, "")
	}
	return sheet
}

// columns is the room for the list and for what is typed.
func columns(env screen.Env) int { return max(20, env.Width-8) }

// says is a hint in rows.
func says(hint string, env screen.Env) []string {
	var rows []string
	for _, l := range widget.Wrap(hint, min(columns(env), 100)) {
		rows = append(rows, env.Style.Dim.Render(env.Style.Glyphs.Text(l)))
	}
	return rows
}

func (s settings) keys() []key.Binding {
	if s.typed.On() {
		return []key.Binding{screen.Bind("enter", "store", "enter", "pgdown"), screen.Bind("esc", "leave as it was", "esc")}
	}
	return []key.Binding{screen.Bind("enter", "change", " ", "enter", "pgdown"), screen.Bind("↑ ↓", "choose", "up", "down", "tab"), screen.Bind("esc", "back", "esc", "pgup")}
}
