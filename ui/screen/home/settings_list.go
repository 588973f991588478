package home

import (
	"errors"
	"strconv"
	"strings"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/style"
)

var waiting, clicks, looks = []string{"going on", "waiting"}, []string{"under it", "the call anywhere"}, []string{"asked for", "not asked for"}

// oneOf is a setting of two words, the second for yes.
func oneOf(words []string, yes bool) string {
	if yes {
		return words[1]
	}
	return words[0]
}

var list = []setting{
	{
		"units", "metric: g, L, cm, °C.  imperial: oz, gal, in, °C.  us: oz, gal, in, °F.", []string{"metric", "us", "imperial"},
		func(s screen.Settings) string { return s.Units },
		func(s *screen.Settings, v string) error { s.Units = v; return nil },
	},
	{
		"at the end of a dip", "Going on: after 30 s of calling the next time runs, marked not confirmed. Waiting: nothing runs without a key.", waiting,
		func(s screen.Settings) string { return oneOf(waiting, s.Waiting) },
		func(s *screen.Settings, v string) error { s.Waiting = v == waiting[1]; return nil },
	},
	{
		"theme", "auto: on the terminal's own ground.  sun: black on white and heavy figures, for the open yard.", []string{"auto", string(style.DarkTheme), string(style.LightTheme), string(style.SunTheme)},
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
			return amount(&s.Gear.Pot, v, system(*s).VolumeUnit(), quantity.ParseVolume, quantity.Litres(0.5), quantity.Litres(100), system(*s))
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
			took, err := quantity.ParseSpan(quantity.WithUnit(v, "min"), system(*s))
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
			return amount(&s.Gear.Wrap, v, system(*s).ThicknessUnit(), quantity.ParseLength, quantity.Centimetres(0.1), quantity.Centimetres(30), system(*s))
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
		func(s *screen.Settings, v string) error { return hour(&s.ReadyBy, v) },
	},
	{
		"done by", "When every piece should be done, rinsed and soured, such as 16:00; the timetable keeps to it. Empty: no wish.", nil,
		func(s screen.Settings) string { return s.DoneBy },
		func(s *screen.Settings, v string) error { return hour(&s.DoneBy, v) },
	},
	{
		"pairs of hands", "At the vat; the timetable reckons with them.", []string{"1", "2", "3", "4"},
		func(s screen.Settings) string { return strconv.Itoa(max(s.Gear.Hands, 1)) },
		func(s *screen.Settings, v string) error { s.Gear.Hands, _ = strconv.Atoi(v); return nil },
	},
	{
		"your hour", "What an hour of yours costs, in your own currency, such as 18.50; empty: hours are not counted.", nil,
		func(s screen.Settings) string { return sum(s.Hour) },
		func(s *screen.Settings, v string) error { return paid(&s.Hour, v) },
	},
	{
		"a kilowatt-hour", "What 1 kWh of heat costs, such as 0.32; empty: heat is not counted.", nil,
		func(s screen.Settings) string { return sum(s.KWh) },
		func(s *screen.Settings, v string) error { return paid(&s.KWh, v) },
	},
	{
		"a click", "Under it: what the thing under it says. The call anywhere: for a pedal that is a mouse, the whole screen is the call.", clicks,
		func(s screen.Settings) string { return oneOf(clicks, s.Anywhere) },
		func(s *screen.Settings, v string) error { s.Anywhere = v == clicks[1]; return nil },
	},
	{
		"enough blue?", "Asked for: after the last airing but two, and each after it, the call is LOOK: stop, one more, or as planned.", looks,
		func(s screen.Settings) string { return oneOf(looks, s.NoLook) },
		func(s *screen.Settings, v string) error { s.NoLook = v == looks[1]; return nil },
	},
}

// hour stores a time of day.
func hour(into *string, typed string) error {
	if typed == "" {
		*into = ""
		return nil
	}
	clock := strings.NewReplacer(".", ":", "h", ":").Replace(typed)
	t, err := time.Parse("15:4", clock)
	if err != nil {
		t, err = time.Parse("15", strings.TrimSuffix(clock, ":")) // the hour alone
	}
	if err != nil {
		return errors.New("type a time of day, such as 10:00")
	}
	*into = t.Format("15:04")
	return nil
}

// sum is a sum of money as it is typed; nothing for none.
func sum(m quantity.Money) string {
	if m == 0 {
		return ""
	}
	return m.String()
}

// paid takes a sum of money, none for nothing.
func paid(m *quantity.Money, v string) error {
	if v == "" {
		*m = 0
		return nil
	}
	got, err := quantity.ParseMoney(v, quantity.Metric)
	if err == nil && got < 0 {
		err = errors.New("it costs nothing or more")
	}
	if err == nil {
		*m = got
	}
	return err
}
