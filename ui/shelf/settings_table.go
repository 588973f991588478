package shelf

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"sync"
	"time"
	"unicode"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/water"
	"example.org/vatside/model/wording"
)

// Setting is one row of the settings: its key in the file, and how it is said and changed on a screen.
type Setting struct {
	Key   string
	Label string
	Help  string
	Words []string                      // what it can be, in the words of the screen; nil: it is typed
	Shown func(Settings) string         // its value in the dyer's own units; empty: not set
	Put   func(*Settings, string) error // takes one of Words, or what was typed; the error says in a sentence what would be right

	form  string                // its line in the file, as an example
	wrong func(Settings) string // what is wrong with a value of the file; empty: nothing. nil: only day.Beyond says
}

// Table is all settings, in the order in which a screen and the file list them; those of a table of the file stand last.
var Table = sync.OnceValue(func() []Setting {
	return []Setting{
		words("units", "units", "metric: g, L, cm, °C.  us: oz, gal, in, °F.  imperial: oz, gal, in, °C.",
			func(s *Settings) *string { return &s.Units }, false, "metric", "us", "imperial"),
		yesNo("going_on", "at the end of a dip", "Going on: after 30 s of calling the next time runs, marked not confirmed. Waiting: nothing runs without a key.",
			func(s *Settings) *bool { return &s.GoingOn }, "waiting", "going on"),
		words("theme", "theme", "auto: on the terminal's own ground.  sun: black on white and heavy figures, for the open yard.",
			func(s *Settings) *string { return &s.Theme }, false, "auto", "dark", "light", "sun"),
		words("place", "place", "In a closed room no sulfur reducer: make a draught first.",
			func(s *Settings) *string { return &s.Place }, true, day.Outdoors, day.CrossDraught, day.ClosedRoom),
		emergency("emergency", "emergency number", "The number that first aid shows in large figures.",
			func(s *Settings) *string { return &s.Emergency }),
		ofWater("cold", "cold water", "What the cold tap gives, such as 15 °C.",
			func(s *Settings) *quantity.Temperature { return &s.Cold }),
		ofWater("hot", "hot water", "What the hot tap or the kettle gives, such as 60 °C.",
			func(s *Settings) *quantity.Temperature { return &s.Hot }),
		amount("pot", "pot", "What one pot of hot water holds, as you fill it, such as 8 L. Empty: hot water from the tap.",
			func(s *Settings) *quantity.Volume { return &s.Pot }, quantity.ParseVolume, "L", "gal", quantity.Litres(0.5), quantity.Litres(100)),
		amount("stove", "stove", "Its power, such as 1800 W; it tells how long a pot takes.",
			func(s *Settings) *quantity.Power { return &s.Stove }, quantity.ParsePower, "W", "W", leastPower, mostPower),
		potTime("pot_took", "a pot takes", "What one such pot really took from cold to hot, such as 25 min: it corrects the stove.",
			func(s *Settings) *quantity.Span { return &s.PotTook }),
		stove("stove_by", "stove heats by", "How much of its power reaches the water: of gas the least, of induction the most.",
			func(s *Settings) *string { return &s.StoveBy }),
		amount("heater", "heater in the vat", "Its power, such as 1000 W; empty: none. Guarded, clear of the walls, behind a 30 mA RCD.",
			func(s *Settings) *quantity.Power { return &s.Heater }, quantity.ParsePower, "W", "W", leastPower, mostPower),
		amount("wrap", "wrap", "Closed foam round the vat, such as 25 mm; empty: bare.",
			func(s *Settings) *quantity.Length { return &s.Wrap }, quantity.ParseLength, "mm", "in", quantity.Centimetres(0.1), quantity.Centimetres(30)),
		ofAir("air", "air", "Around the vat, such as 20 °C: the colder, the sooner the vat cools.",
			func(s *Settings) **quantity.Temperature { return &s.Air }),
		amount("humidity", "humidity", "Of that air, such as 60 %: dry air takes more heat.",
			func(s *Settings) *quantity.Share { return &s.Humidity }, quantity.ParseShare, "%", "%", quantity.Percent(1), quantity.Percent(100)),
		clock("ready_by", "ready by", "When the first piece should go in, such as 10:00; the build says when to begin. Empty: no wish.",
			func(s *Settings) *string { return &s.ReadyBy }),
		clock("done_by", "done by", "When every piece should be done, rinsed and soured, such as 16:00; the timetable keeps to it. Empty: no wish.",
			func(s *Settings) *string { return &s.DoneBy }),
		pairs("hands", "pairs of hands", "At the vat; the timetable reckons with them.",
			func(s *Settings) *int { return &s.Hands }),
		money("hour", "your hour", "What an hour of yours costs, in your own currency, such as 18.50; empty: hours are not counted.",
			func(s *Settings) *quantity.Money { return &s.Hour }),
		money("kwh", "a kilowatt-hour", "What 1 kWh of heat costs, such as 0.32; empty: heat is not counted.",
			func(s *Settings) *quantity.Money { return &s.KWh }),
		words("click", "a click", "Under it: what the thing under it says. The call anywhere: for a pedal that is a mouse, the whole screen is the call.",
			func(s *Settings) *string { return &s.Click }, false, ClickUnder, ClickAnywhere),
		yesNo("board", "a board for a second screen", "board.html in the vat's folder, made anew as the day runs, where pieces are people's. Open it in a browser.",
			func(s *Settings) *bool { return &s.Board }, "off", "on"),
		yesNo("no_look", "enough blue?", "Asked for: after the last airing but two, and each after it, the call is LOOK: stop, one more, or as planned.",
			func(s *Settings) *bool { return &s.NoLook }, "asked for", "not asked for"),
		yesNo("entries", "at the end of an airing", "Waiting: a piece goes in by your key alone. Going on: the froth counts as skimmed, then the piece as in, each after 30 s of calling, if the lift was answered.",
			func(s *Settings) *bool { return &s.Entries }, "waiting", "going on"),
		yesNo("sound.bell", "bell", "The terminal's own bell, once for each call.",
			func(s *Settings) *bool { return &s.Sound.Bell }, "off", "on"),
		yesNo("sound.tone", "tones", "A rhythm for each kind of call, from the machine's loudspeaker.",
			func(s *Settings) *bool { return &s.Sound.Tone }, "off", "on"),
		yesNo("sound.speech", "speech", "The call spoken, where the machine has a voice.",
			func(s *Settings) *bool { return &s.Sound.Speech }, "off", "on"),
		yesNo("sound.notice", "a word on the desktop", "The call as a notification, where the terminal is known to take one.",
			func(s *Settings) *bool { return &s.Sound.Notice }, "off", "on"),
		yesNo("sound.flash", "the window flashes", "While something is late the window is reversed every other second. Off for those whom flashing harms.",
			func(s *Settings) *bool { return &s.Sound.Flash }, "off", "on"),
	}
})

// The rows by what they hold. A field gives where in the settings it lies.

// words is a setting that is one of some words, the same on the screen and in the file; with unset it can be none.
func words(key, label, help string, field func(*Settings) *string, unset bool, words ...string) Setting {
	return Setting{Key: key, Label: label, Help: help, Words: words, form: `"` + words[0] + `"`,
		Shown: func(s Settings) string { return *field(&s) },
		Put:   func(s *Settings, v string) error { *field(s) = v; return nil },
		wrong: func(s Settings) string {
			if v := *field(&s); !slices.Contains(words, v) && !(unset && v == "") {
				return fmt.Sprintf("%q; it can be %s", v, strings.Join(words, ", "))
			}
			return ""
		}}
}

// stove is what a stove burns; none is shown as the one that is then reckoned with.
func stove(key, label, help string, field func(*Settings) *string) Setting {
	row := words(key, label, help, field, true, water.Gas.String(), water.Electric.String(), water.Induction.String(), water.Immersion.String())
	row.Shown = func(s Settings) string {
		if *field(&s) == "" {
			return water.Electric.String()
		}
		return *field(&s)
	}
	return row
}

// yesNo is a setting of two words, for false and for true in the file. The usual one stands first on the screen.
func yesNo(key, label, help string, field func(*Settings) *bool, no, yes string) Setting {
	usual := Defaults()
	words := wording.Either(*field(&usual), []string{yes, no}, []string{no, yes})
	return Setting{Key: key, Label: label, Help: help, Words: words,
		Shown: func(s Settings) string {
			if *field(&s) {
				return yes
			}
			return no
		},
		Put: func(s *Settings, v string) error { *field(s) = v == yes; return nil }}
}

// optional is a setting that is typed and can be left out: nothing typed unsets it.
func optional[T comparable](key, label, help string, field func(*Settings) *T, shown func(T, quantity.System) string,
	parse func(string, quantity.System) (T, error)) Setting {
	var none T
	return Setting{Key: key, Label: label, Help: help,
		Shown: func(s Settings) string {
			if v := *field(&s); v != none {
				return shown(v, s.System())
			}
			return ""
		},
		Put: func(s *Settings, text string) error {
			v, err := none, error(nil)
			if text != "" {
				v, err = parse(text, s.System())
			}
			if err == nil {
				*field(s) = v
			}
			return err
		}}
}

// measure is a quantity that is typed and printed with its unit.
type measure interface {
	~float64
	Format(quantity.System) string
}

// between reads a measure of a range; bare figures take the unit.
func between[T measure](text, unit string, parse func(string, quantity.System) (T, error), least, most T, sys quantity.System) (T, error) {
	v, err := parse(quantity.WithUnit(text, unit), sys)
	if err == nil && !(v >= least && v <= most) {
		err = fmt.Errorf("it is between %s and %s here", least.Format(sys), most.Format(sys))
	}
	return v, err
}

// What one ring or one heater has: a small one to a gas ring for a cauldron.
const leastPower, mostPower = quantity.Power(50), quantity.Power(20000)

// amount is a measure of a range. Bare figures take the unit, metric or that of the other systems.
func amount[T measure](key, label, help string, field func(*Settings) *T, parse func(string, quantity.System) (T, error), metric, others string, least, most T) Setting {
	row := optional(key, label, help, field, T.Format, func(text string, sys quantity.System) (T, error) {
		unit := wording.Either(sys != quantity.Metric, others, metric)
		return between(text, unit, parse, least, most, sys)
	})
	row.form = strconv.Quote(least.Format(quantity.Metric))
	return row
}

// degree is the unit of a temperature in a system, °C or °F.
func degree(sys quantity.System) string {
	_, unit := quantity.Celsius(0).Figure(sys)
	return unit
}

// ofWater is the temperature of a tap. It is always set.
func ofWater(key, label, help string, field func(*Settings) *quantity.Temperature) Setting {
	const least, most = quantity.Temperature(0), quantity.Temperature(100)
	return Setting{Key: key, Label: label, Help: help, form: `"15 °C"`,
		Shown: func(s Settings) string { return field(&s).Format(s.System()) },
		Put: func(s *Settings, text string) error {
			if text == "" {
				return errors.New("the mix is reckoned from it: type what it has")
			}
			t, err := quantity.ParseTemperature(quantity.WithUnit(text, degree(s.System())), s.System())
			switch {
			case err != nil:
				return err
			case !(t >= least && t <= most):
				return fmt.Errorf("water is between %s and %s", least.Format(s.System()), most.Format(s.System()))
			}
			*field(s) = t
			return nil
		},
		wrong: func(s Settings) string {
			if t := *field(&s); !(t >= least && t <= most) {
				return fmt.Sprintf("%s; water is between %s and %s", t, least, most)
			}
			return ""
		}}
}

// ofAir is the temperature of the air in which one dyes.
func ofAir(key, label, help string, field func(*Settings) **quantity.Temperature) Setting {
	const least, most = quantity.Temperature(-20), quantity.Temperature(50)
	row := optional(key, label, help, field, (*quantity.Temperature).Format, func(text string, sys quantity.System) (*quantity.Temperature, error) {
		t, err := between(text, degree(sys), quantity.ParseTemperature, least, most, sys)
		return &t, err
	})
	row.form = `"15 °C"`
	row.wrong = func(s Settings) string {
		if t := *field(&s); t != nil && !(*t >= least && *t <= most) {
			return fmt.Sprintf("%s; nobody dyes below %s or above %s", *t, least, most)
		}
		return ""
	}
	return row
}

// potTime is how long a pot takes; bare figures are minutes.
func potTime(key, label, help string, field func(*Settings) *quantity.Span) Setting {
	shown := func(took quantity.Span, _ quantity.System) string { return took.String() }
	row := optional(key, label, help, field, shown, func(text string, sys quantity.System) (quantity.Span, error) {
		took, err := quantity.ParseSpan(quantity.WithUnit(text, "min"), sys)
		if err == nil && (took < quantity.Minutes(1) || took > quantity.Hours(12)) {
			err = errors.New("a pot takes between 1 min and 12 h")
		}
		return took, err
	})
	row.form = `"25 min"`
	return row
}

func asTyped(text string, _ quantity.System) string { return text }

// clock is a time of day, 10:00 in the file. It is typed as one likes: 9.30, 9h, 9.
func clock(key, label, help string, field func(*Settings) *string) Setting {
	row := optional(key, label, help, field, asTyped, func(text string, _ quantity.System) (string, error) {
		text = strings.NewReplacer(".", ":", "h", ":").Replace(text)
		t, err := time.Parse("15:4", text)
		if err != nil {
			t, err = time.Parse("15", strings.TrimSuffix(text, ":")) // the hour alone
		}
		if err != nil {
			return "", errors.New("type a time of day, such as 10:00")
		}
		return t.Format("15:04"), nil
	})
	row.form = `"10:00"`
	row.wrong = func(s Settings) string {
		v := *field(&s)
		if _, err := time.Parse("15:04", v); err != nil && v != "" {
			return fmt.Sprintf("%q; write a time of day, such as 10:00", v)
		}
		return ""
	}
	return row
}

// money is a sum in the dyer's own currency, nothing or more.
func money(key, label, help string, field func(*Settings) *quantity.Money) Setting {
	shown := func(m quantity.Money, _ quantity.System) string { return m.String() }
	row := optional(key, label, help, field, shown, func(text string, sys quantity.System) (quantity.Money, error) {
		m, err := quantity.ParseMoney(text, sys)
		if err == nil && m < 0 {
			err = errors.New("it costs nothing or more")
		}
		return m, err
	})
	row.form = `"18.50"`
	row.wrong = func(s Settings) string {
		if m := *field(&s); m < 0 {
			return fmt.Sprintf("%s; it costs nothing or more, such as 18.50", m)
		}
		return ""
	}
	return row
}

// pairs is how many pairs of hands work; 0 is one.
func pairs(key, label, help string, field func(*Settings) *int) Setting {
	return Setting{Key: key, Label: label, Help: help, Words: []string{"1", "2", "3", "4"}, form: "1",
		Shown: func(s Settings) string { return strconv.Itoa(max(*field(&s), 1)) },
		Put:   func(s *Settings, v string) (err error) { *field(s), err = strconv.Atoi(v); return err },
		wrong: func(s Settings) string {
			if n := *field(&s); n < 0 || n > 20 {
				return fmt.Sprintf("%d; say how many pairs, 1 to 20", n)
			}
			return ""
		}}
}

// emergency is a number to call: at most 60 bytes that can be printed.
func emergency(key, label, help string, field func(*Settings) *string) Setting {
	row := optional(key, label, help, field, asTyped, func(text string, _ quantity.System) (string, error) { return text, nil })
	row.form = `"112"`
	row.wrong = func(s Settings) string {
		v := *field(&s)
		if strings.ContainsFunc(v, func(r rune) bool { return !unicode.IsPrint(r) }) || len(v) > 60 {
			return "not a number to call"
		}
		return ""
	}
	return row
}
