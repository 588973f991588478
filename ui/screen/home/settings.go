package home

import (
	"errors"
	"fmt"
	"strings"
	"time"

	"github.com/charmbracelet/bubbles/key"
	"github.com/charmbracelet/x/ansi"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/water"
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
		"units", "metric: g, L, cm, °C.  imperial: oz, gal, in, °C.  us: oz, gal, in, °F.", []string{"metric", "us", "imperial"},
		func(s screen.Settings) string { return s.Units },
		func(s *screen.Settings, v string) error { s.Units = v; return nil },
	},
	{
		"at the end of a dip", "Going on: after 30 s of calling the next time runs, marked not confirmed. Waiting: nothing runs without a key.", waiting,
		func(s screen.Settings) string {
			if s.Waiting {
				return waiting[1]
			}
			return waiting[0]
		},
		func(s *screen.Settings, v string) error { s.Waiting = v == waiting[1]; return nil },
	},
	{
		"theme", "sun: black on white and heavy figures, for the open yard.", []string{string(style.DarkTheme), string(style.LightTheme), string(style.SunTheme)},
		func(s screen.Settings) string { return s.Theme },
		func(s *screen.Settings, v string) error { s.Theme = v; return nil },
	},
	{
		"place", "In a closed room no sulfur reducer: make a draught first.", []string{day.Outdoors, day.CrossDraught, day.ClosedRoom},
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
		func(s screen.Settings) string { return ofWater(s.Cold, system(s)) },
		func(s *screen.Settings, v string) error { return degrees(&s.Cold, v, system(*s)) },
	},
	{
		"hot water", "What the hot tap or the kettle gives, such as 60 °C.", nil,
		func(s screen.Settings) string { return ofWater(s.Hot, system(s)) },
		func(s *screen.Settings, v string) error { return degrees(&s.Hot, v, system(*s)) },
	},
	{
		"pot", "What one pot of hot water holds, as you fill it, such as 8 L. Empty: hot water from the tap.", nil,
		func(s screen.Settings) string { return shown(s.Gear.Pot, system(s)) },
		func(s *screen.Settings, v string) error {
			return amount(&s.Gear.Pot, v, volumeUnit(system(*s)), quantity.ParseVolume, quantity.Litres(0.5), quantity.Litres(100), system(*s))
		},
	},
	{
		"stove", "Its power, such as 1800 W; it tells how long a pot takes.", nil,
		func(s screen.Settings) string { return shown(s.Gear.Stove, system(s)) },
		func(s *screen.Settings, v string) error {
			return amount(&s.Gear.Stove, v, "W", quantity.ParsePower, leastPower, mostPower, system(*s))
		},
	},
	{
		"a pot takes", "What one such pot really took from cold to hot, such as 25 min: it corrects the stove.", nil,
		func(s screen.Settings) string {
			if s.Gear.PotTook == 0 {
				return ""
			}
			return s.Gear.PotTook.String()
		},
		func(s *screen.Settings, v string) error {
			if v == "" {
				s.Gear.PotTook = 0
				return nil
			}
			if strings.Trim(v, "0123456789.,") == "" {
				v += " min"
			}
			took, err := quantity.ParseSpan(v, system(*s))
			if err == nil && (took < quantity.Minutes(1) || took > quantity.Hours(12)) {
				err = errors.New("a pot takes between 1 min and 12 h")
			}
			if err == nil {
				s.Gear.PotTook = took
			}
			return err
		},
	},
	{
		"stove heats by", "How much of its power reaches the water: of gas the least, of induction the most.", stoves,
		func(s screen.Settings) string {
			if s.Gear.StoveBy == "" {
				return stoves[1]
			}
			return s.Gear.StoveBy
		},
		func(s *screen.Settings, v string) error { s.Gear.StoveBy = v; return nil },
	},
	{
		"heater in the vat", "Its power, such as 1000 W; empty: none. Guarded, clear of the walls, behind a 30 mA RCD.", nil,
		func(s screen.Settings) string { return shown(s.Gear.Heater, system(s)) },
		func(s *screen.Settings, v string) error {
			return amount(&s.Gear.Heater, v, "W", quantity.ParsePower, leastPower, mostPower, system(*s))
		},
	},
	{
		"wrap", "Closed foam round the vat, such as 25 mm; empty: bare.", nil,
		func(s screen.Settings) string { return shown(s.Gear.Wrap, system(s)) },
		func(s *screen.Settings, v string) error {
			return amount(&s.Gear.Wrap, v, wrapUnit(system(*s)), quantity.ParseLength, quantity.Centimetres(0.1), quantity.Centimetres(30), system(*s))
		},
	},
	{
		"air", "Around the vat, such as 20 °C: the colder, the sooner the vat cools.", nil,
		func(s screen.Settings) string {
			if s.Gear.Air == nil {
				return ""
			}
			return s.Gear.Air.Format(system(s))
		},
		func(s *screen.Settings, v string) error {
			if v == "" {
				s.Gear.Air = nil
				return nil
			}
			_, unit := quantity.Celsius(0).Figure(system(*s))
			t := quantity.Celsius(0)
			if err := amount(&t, v, unit, quantity.ParseTemperature, quantity.Celsius(-30), quantity.Celsius(50), system(*s)); err != nil {
				return err
			}
			s.Gear.Air = &t
			return nil
		},
	},
	{
		"humidity", "Of that air, such as 60 %: dry air takes more heat.", nil,
		func(s screen.Settings) string { return shown(s.Gear.Humidity, system(s)) },
		func(s *screen.Settings, v string) error {
			return amount(&s.Gear.Humidity, v, "%", quantity.ParseShare, quantity.Percent(1), quantity.Percent(100), system(*s))
		},
	},
	{
		"ready by", "When the first piece should go in, such as 10:00; the build says when to begin. Empty: no wish.", nil,
		func(s screen.Settings) string { return s.ReadyBy },
		func(s *screen.Settings, v string) error {
			if v == "" {
				s.ReadyBy = ""
				return nil
			}
			clock := strings.NewReplacer(".", ":", "h", ":").Replace(v)
			t, err := time.Parse("15:4", clock)
			if err != nil {
				t, err = time.Parse("15", strings.TrimSuffix(clock, ":")) // the hour alone
			}
			if err != nil {
				return errors.New("type a time of day, such as 10:00")
			}
			s.ReadyBy = t.Format("15:04")
			return nil
		},
	},
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
	if strings.Trim(typed, "-0123456789.,") == "" {
		typed += " " + unit
	}
	v, err := parse(typed, sys)
	switch {
	case err != nil:
		return err
	case !(v >= least && v <= most):
		return fmt.Errorf("it is between %s and %s here", least.Format(sys), most.Format(sys))
	}
	*into = v
	return nil
}

func volumeUnit(sys quantity.System) string {
	if sys == quantity.Metric {
		return "L"
	}
	return "gal"
}

func wrapUnit(sys quantity.System) string {
	if sys == quantity.Metric {
		return "mm"
	}
	return "in"
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
	if strings.Trim(typed, "0123456789.,") == "" {
		_, unit := quantity.Celsius(0).Figure(sys)
		typed += " " + unit
	}
	t, err := quantity.ParseTemperature(typed, sys)
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
		sheet.Act = strings.ToUpper(line.name[:1]) + line.name[1:]
		sheet.Body = widget.Entry(widget.EntryLine{Typed: s.typed, Hint: line.hint, Error: s.wrong}, columns(env), env.Style)
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
	sheet.Body = widget.Pick(choices, s.at, columns(env), max(4, min(len(choices), env.Height-12)), env.Style)
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
	for _, l := range strings.Split(ansi.Wordwrap(hint, min(columns(env), 100), ""), "\n") {
		rows = append(rows, env.Style.Dim.Render(env.Style.Glyphs.Text(l)))
	}
	return rows
}

func (s settings) keys() []key.Binding {
	if s.typing {
		return []key.Binding{bind("enter", "store", "enter", "pgdown"), bind("esc", "leave as it was", "esc")}
	}
	return []key.Binding{bind("space", "change", " ", "enter", "pgdown"), bind("↑ ↓", "choose", "up", "down", "tab"), bind("esc", "back", "esc", "pgup", "s")}
}
