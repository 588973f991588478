package home

import (
	"strings"

	"github.com/charmbracelet/bubbles/key"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/style"
	"example.org/vatside/ui/widget"
)

// settings is the short list of what the dyer sets once. Each change is stored as it is made.
type settings struct {
	at     int
	typing bool
	typed  string
	wrong  string
}

// setting is one line. Either it is turned through its words, or it is typed.
type setting struct {
	name  string
	hint  string
	words []string
	get   func(screen.Settings) string
	put   func(*screen.Settings, string) error
}

var waiting = []string{"going on", "waiting"}

var list = []setting{
	{
		"units", "", []string{"metric", "us", "imperial"},
		func(s screen.Settings) string { return s.Units },
		func(s *screen.Settings, v string) error { s.Units = v; return nil },
	},
	{
		"at the end of a dip", "", waiting,
		func(s screen.Settings) string {
			if s.Waiting {
				return waiting[1]
			}
			return waiting[0]
		},
		func(s *screen.Settings, v string) error { s.Waiting = v == waiting[1]; return nil },
	},
	{
		"theme", "", []string{string(style.DarkTheme), string(style.LightTheme), string(style.SunTheme)},
		func(s screen.Settings) string { return s.Theme },
		func(s *screen.Settings, v string) error { s.Theme = v; return nil },
	},
	{
		"place", "", []string{day.Outdoors, day.CrossDraught, day.ClosedRoom},
		func(s screen.Settings) string { return s.Place },
		func(s *screen.Settings, v string) error { s.Place = v; return nil },
	},
	{
		"emergency number", "The number that first aid shows in large figures.", nil,
		func(s screen.Settings) string { return s.Emergency },
		func(s *screen.Settings, v string) error { s.Emergency = v; return nil },
	},
	{
		"cold water", "What the cold tap gives, such as 15 °C.", nil,
		func(s screen.Settings) string { return s.Cold },
		func(s *screen.Settings, v string) error { return degrees(&s.Cold, v, system(*s)) },
	},
	{
		"hot water", "What the hot tap or the kettle gives, such as 60 °C.", nil,
		func(s screen.Settings) string { return s.Hot },
		func(s *screen.Settings, v string) error { return degrees(&s.Hot, v, system(*s)) },
	},
}

func system(s screen.Settings) quantity.System { return day.Setup{Units: s.Units}.System() }

// degrees stores a temperature in °C, as the settings hold it.
func degrees(into *string, typed string, sys quantity.System) error {
	if typed == "" {
		*into = ""
		return nil
	}
	if strings.Trim(typed, "0123456789.,") == "" {
		_, unit := quantity.Celsius(0).Figure(sys)
		typed += " " + unit
	}
	t, err := quantity.ParseTemperature(typed, sys)
	if err != nil {
		return err
	}
	text, err := t.MarshalText()
	if err == nil {
		*into = string(text)
	}
	return err
}

// update answers one key; open is false when the list is left.
func (s settings) update(k screen.Key, env screen.Env) (next settings, open bool, r []screen.Request) {
	if s.typing {
		return s.edit(k, env)
	}
	line := list[s.at]
	switch {
	case k.Name == "esc" || k.Name == "pgup" || k.Rune == 's':
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
		s.typing, s.typed, s.wrong = true, line.get(env.Home.Settings), ""
	case k.Done() || k.Name == "right" || k.Name == "left":
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
		s.typing, s.wrong = false, ""
	case k.Rune == '!':
		return s, true, []screen.Request{screen.Go{To: screen.AtAid}}
	case k.Name == "enter" || k.Name == "pgdown":
		set := env.Home.Settings
		if err := list[s.at].put(&set, strings.TrimSpace(s.typed)); err != nil {
			s.wrong = err.Error()
			return s, true, nil
		}
		s.typing, s.wrong = false, ""
		return s, true, []screen.Request{screen.Set{Settings: set}}
	case k.Name == "backspace" || k.Name == "delete":
		if n := []rune(s.typed); len(n) > 0 {
			s.typed, s.wrong = string(n[:len(n)-1]), ""
		}
	case k.Rune >= ' ' && len(s.typed) < 40:
		s.typed, s.wrong = s.typed+string(k.Rune), ""
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
	if s.typing {
		sheet.Act = "Type the " + line.name
		sheet.Body = widget.Entry(widget.EntryLine{Label: line.name, Typed: s.typed, Hint: line.hint, Error: s.wrong}, max(20, env.Width-8), env.Style)
		return sheet
	}
	switch line.name {
	case "at the end of a dip":
		sheet.Why = "Going on: after 30 s of calling the next time runs, marked not confirmed. Waiting: nothing runs without a key."
	case "place":
		sheet.Why = "In a closed room no sulfur reducer: make a draught first."
	case "theme":
		sheet.Why = "sun: black on white and heavy figures, for the open yard."
	default:
		sheet.Why = line.hint
	}
	var choices []widget.Choice
	for _, l := range list {
		v := l.get(env.Home.Settings)
		if v == "" {
			v = "not set"
		}
		choices = append(choices, widget.Choice{Text: l.name, Aside: v})
	}
	sheet.Body = widget.Pick(choices, s.at, max(20, env.Width-8), len(choices), env.Style)
	return sheet
}

func (s settings) keys() []key.Binding {
	if s.typing {
		return []key.Binding{bind("enter", "store", "enter", "pgdown"), bind("esc", "leave as it was", "esc")}
	}
	return []key.Binding{bind("space", "change", " ", "enter", "pgdown"), bind("↑ ↓", "choose", "up", "down", "tab"), bind("esc", "back", "esc", "pgup", "s")}
}
