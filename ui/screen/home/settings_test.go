package home

import (
	"strings"
	"testing"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/screentest"
	"example.org/vatside/ui/shelf"
)

// line is the keys that choose a line of the settings by its name.
func line(t *testing.T, name string) []string {
	t.Helper()
	keys := []string{","}
	for _, l := range shelf.Table() {
		if l.Label == name {
			return keys
		}
		keys = append(keys, "down")
	}
	t.Fatalf("no setting %q", name)
	return nil
}

// stored is what typing a text into a line stores, the old text rubbed out; false where it is refused.
func stored(t *testing.T, from shelf.Settings, name, text string) (shelf.Settings, bool) {
	t.Helper()
	e := env(60, 20)
	e.Home.Settings = from
	keys := append(line(t, name), "enter")
	for range 30 {
		keys = append(keys, "backspace")
	}
	keys = append(keys, strings.Split(text, "")...)
	s, r := screentest.Press(New(e), e, append(keys, "enter")...)
	if len(r) == 0 {
		if shown := screentest.Shown(t, s, e); !strings.Contains(shown, "leave") && !screen.Capturing(s) {
			t.Errorf("%s %q is refused without a word:\n%s", name, text, shown)
		}
		return from, false
	}
	set, ok := r[0].(screen.Set)
	if !ok || len(r) != 1 {
		t.Fatalf("%s %q asks for %v", name, text, r)
	}
	return set.Settings, true
}

func TestSettingsAreTypedAndCleared(t *testing.T) {
	full := shelf.Settings{
		Units: "metric", Cold: 12, Hot: 60, Emergency: "112", ReadyBy: "10:00",
		Gear: day.Gear{Pot: quantity.Litres(8), Stove: 1800, Heater: 1000, Wrap: quantity.Centimetres(2.5), Humidity: quantity.Percent(60)},
	}
	air := quantity.Celsius(18)
	full.Gear.Air = &air
	us := full
	us.Units = "us"
	airOf := func(s shelf.Settings) any {
		if s.Gear.Air == nil {
			return nil
		}
		return s.Gear.Air.Celsius()
	}
	for _, c := range []struct {
		from       shelf.Settings
		name, text string
		got        func(shelf.Settings) any
		want       any
	}{
		{full, "pot", "7,5", func(s shelf.Settings) any { return s.Gear.Pot }, quantity.Litres(7.5)},
		{full, "pot", "500 mL", func(s shelf.Settings) any { return s.Gear.Pot }, quantity.Litres(0.5)},
		{full, "pot", "", func(s shelf.Settings) any { return s.Gear.Pot }, quantity.Volume(0)},
		{us, "pot", "2", func(s shelf.Settings) any { return s.Gear.Pot.Format(quantity.US) }, "2 gal"},
		{full, "stove", "2 kW", func(s shelf.Settings) any { return s.Gear.Stove }, quantity.Watts(2000)},
		{full, "heater in the vat", "1500", func(s shelf.Settings) any { return s.Gear.Heater }, quantity.Watts(1500)},
		{full, "heater in the vat", "", func(s shelf.Settings) any { return s.Gear.Heater }, quantity.Power(0)},
		{full, "wrap", "20", func(s shelf.Settings) any { return s.Gear.Wrap.Format(quantity.Metric) }, "2 cm"},
		{full, "air", "-3", airOf, -3.0},
		{full, "air", "22", airOf, 22.0},
		{full, "air", "", airOf, nil},
		{us, "air", "68", airOf, 20.0},
		{full, "humidity", "45", func(s shelf.Settings) any { return s.Gear.Humidity }, quantity.Percent(45)},
		{full, "humidity", "", func(s shelf.Settings) any { return s.Gear.Humidity }, quantity.Share(0)},
		{full, "cold water", "9", func(s shelf.Settings) any { return s.Cold }, quantity.Celsius(9)},
		{full, "ready by", "9.30", func(s shelf.Settings) any { return s.ReadyBy }, "09:30"},
		{full, "ready by", "11h", func(s shelf.Settings) any { return s.ReadyBy }, "11:00"},
		{full, "ready by", "7", func(s shelf.Settings) any { return s.ReadyBy }, "07:00"},
		{full, "ready by", "", func(s shelf.Settings) any { return s.ReadyBy }, ""},
		{full, "emergency number", "", func(s shelf.Settings) any { return s.Emergency }, ""},
	} {
		s, ok := stored(t, c.from, c.name, c.text)
		if !ok {
			t.Errorf("%s %q is refused", c.name, c.text)
			continue
		}
		if got := c.got(s); got != c.want {
			t.Errorf("%s %q is stored as %v, not %v", c.name, c.text, got, c.want)
		}
	}
	if air != 18 {
		t.Errorf("typing changed the old settings: the air has %v", air)
	}
}

func TestSettingsRefuseRubbish(t *testing.T) {
	from := shelf.Settings{Units: "metric", Cold: 12, Hot: 60}
	for name, texts := range map[string][]string{
		"pot":               {"x", "8 kg", "-8 L", "0.1", "500", "8 8"},
		"stove":             {"hot", "1800 L", "5", "90 kW"},
		"heater in the vat": {"1 W", "one"},
		"wrap":              {"2 m", "thick", "0.01"},
		"air":               {"warm", "200", "-80", "20 L"},
		"humidity":          {"150", "wet", "-5"},
		"cold water":        {"", "120", "-4", "tap"},
		"hot water":         {"", "300", "kettle"},
		"ready by":          {"noon", "25:00", "10:75", "1000"},
	} {
		for _, text := range texts {
			if s, ok := stored(t, from, name, text); ok {
				t.Errorf("%s %q is stored: %+v", name, text, s)
			}
		}
	}
}

// The list keeps its place whatever is said of a line, and every hint is whole at every size.
func TestTheListOfSettingsStandsStill(t *testing.T) {
	sizes := screentest.Sizes
	for height := 20; height < 44; height++ {
		sizes = append(sizes, [2]int{64, height})
	}
	for _, size := range sizes {
		e := env(size[0], size[1])
		top := -1
		for _, l := range shelf.Table() {
			s, _ := screentest.Press(New(e), e, line(t, l.Label)...)
			shown := screentest.Shown(t, s, e)
			for _, word := range append(strings.Fields(l.Help), strings.Fields(l.Label)...) {
				if !strings.Contains(shown, word) {
					t.Fatalf("%v, %s: %q is missing:\n%s", size, l.Label, word, shown)
				}
			}
			for i, row := range strings.Split(shown, "\n") {
				if !strings.Contains(row, "Settings") {
					continue
				}
				if top < 0 {
					top = i
				}
				if i != top {
					t.Errorf("%v: at %s the list stands in row %d, not %d", size, l.Label, i, top)
				}
			}
		}
	}
}

// A click is the call's anywhere, or what is under it again.
func TestWhatAClickDoesIsSet(t *testing.T) {
	e := env(60, 20)
	for _, want := range []bool{true, false} {
		_, r := screentest.Press(New(e), e, append(line(t, "a click"), "space")...)
		if len(r) != 1 || r[0].(screen.Set).Settings.Anywhere() != want {
			t.Fatalf("%v", r)
		}
		e.Home.Settings = r[0].(screen.Set).Settings
	}
}

// A remote's keys go along the list and change nothing.
func TestARemoteChangesNoSetting(t *testing.T) {
	e := env(60, 20)
	keys := []string{","}
	for range len(shelf.Table()) + 2 {
		keys = append(keys, "pgdown")
	}
	if _, r := screentest.Press(New(e), e, keys...); len(r) > 0 {
		t.Errorf("PageDown asks for %v", r)
	}
	for key, at := range map[string]string{"pgdown": shelf.Table()[1].Label, "pgup": shelf.Table()[len(shelf.Table())-1].Label} {
		s, _ := screentest.Press(New(e), e, ",", key)
		if shown := screentest.Shown(t, s, e); !strings.Contains(shown, "■ "+at) {
			t.Errorf("%s: %s is not chosen:\n%s", key, at, shown)
		}
	}
}

// Left and right choose among words; on a line that is typed they do nothing.
func TestArrowsOnTypedSettings(t *testing.T) {
	for _, l := range shelf.Table() {
		for _, arrow := range []string{"left", "right"} {
			e := env(60, 20)
			_, r := screentest.Press(New(e), e, append(line(t, l.Label), arrow)...)
			if sets := len(r) == 1; sets != (l.Words != nil) {
				t.Errorf("%s on %q asks for %v", arrow, l.Label, r)
			}
		}
	}
}

// From auto the theme goes through all of them, and back to auto.
func TestTheThemeGoesRoundThroughAuto(t *testing.T) {
	e := env(60, 20)
	e.Home.Settings.Theme = "auto"
	for _, want := range []string{"dark", "light", "sun", "auto"} {
		_, r := screentest.Press(New(e), e, append(line(t, "theme"), "right")...)
		set, ok := r[0].(screen.Set)
		if !ok || set.Settings.Theme != want {
			t.Fatalf("after %s comes %+v, not %s", e.Home.Settings.Theme, r, want)
		}
		e.Home.Settings = set.Settings
	}
}
