package shelf

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode"

	"github.com/BurntSushi/toml"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/tree"
	"example.org/vatside/model/wording"
)

// Settings are what the dyer set once for all days. A day keeps its own copy of what it goes by.
type Settings struct {
	Units     string               `toml:"units"`              // metric, us, imperial
	GoingOn   bool                 `toml:"going_on"`           // a time that ran out goes on by itself; false: it waits
	NoLook    bool                 `toml:"no_look,omitempty"`  // the look that decides is not asked for
	Theme     string               `toml:"theme"`              // auto, dark, light, sun
	Place     string               `toml:"place"`              // outdoors, cross-draught, closed room; empty: asked each day
	Emergency string               `toml:"emergency"`          // the dyer's own emergency number
	Cold      quantity.Temperature `toml:"cold"`               // of the cold water
	Hot       quantity.Temperature `toml:"hot"`                // of the hot water
	ReadyBy   string               `toml:"ready_by,omitempty"` // when the first piece should go in, 10:00; empty: no wish
	DoneBy    string               `toml:"done_by,omitempty"`  // when every piece should be done
	Hour      quantity.Money       `toml:"hour,omitzero"`      // what an hour of the dyer costs, in the dyer's own currency; 0: not told
	KWh       quantity.Money       `toml:"kwh,omitzero"`       // what a kilowatt-hour of heat costs
	Click     string               `toml:"click"`              // what a click does: ClickUnder or ClickAnywhere
	day.Gear
	Sound Sounds `toml:"sound"`
}

// Sounds are the ways in which a cue may be heard.
type Sounds struct {
	Bell   bool `toml:"bell"`
	Tone   bool `toml:"tone"`
	Speech bool `toml:"speech"`
}

// What a click does: what the thing under it says, or the call's press wherever it is, for a pedal that is a mouse.
const ClickUnder, ClickAnywhere = "under it", "the call anywhere"

// Defaults are the settings of a home that has none.
func Defaults() Settings {
	return Settings{Units: "metric", GoingOn: true, Theme: "auto", Cold: 15, Hot: 60, Click: ClickUnder, Sound: Sounds{Bell: true, Tone: true}}
}

// The words that a setting can be.
var settingWords = map[string][]string{
	"units":    {"metric", "us", "imperial"},
	"theme":    {"auto", "dark", "light", "sun"},
	"place":    {"", "outdoors", "cross-draught", "closed room"},
	"click":    {ClickUnder, ClickAnywhere},
	"stove_by": {"", "gas", "electric", "induction", "immersion"},
}

// Settings reads settings.toml. Keys that are left out are as in Defaults; so is everything when there is an error, which
// names the file and the line.
func (h Home) Settings() (Settings, error) {
	path := h.SettingsFile()
	text, err := readFile(path)
	if errors.Is(err, fs.ErrNotExist) {
		return Defaults(), nil
	}
	if err != nil {
		return Defaults(), fmt.Errorf("the settings cannot be read: %w", err)
	}
	s := Defaults()
	line, err := s.decode(string(text))
	if err != nil {
		return Defaults(), fmt.Errorf("%s:%d: %w; the usual settings are used till it is mended", path, line, wording.ShowError(err))
	}
	return s, nil
}

// decode reads the settings, and says in which line the first fault is, and what would be right.
func (s *Settings) decode(text string) (line int, err error) {
	if line := tree.TooDeep([]byte(text)); line > 0 {
		return line, fmt.Errorf("%s; %s", tree.DeepWords, tree.DeepRight)
	}
	meta, err := toml.Decode(text, s)
	if err != nil {
		line = 1
		var parse toml.ParseError
		if errors.As(err, &parse) {
			line = parse.Position.Line
		} else if m := typeFault().FindStringSubmatch(err.Error()); m != nil {
			line, _ = strconv.Atoi(m[1])
		}
		lines := strings.Split(text, "\n")
		is := strings.TrimSpace(lines[min(max(line, 1), len(lines))-1])
		key, _, _ := strings.Cut(is, "=")
		return line, fmt.Errorf("%s cannot be read; write %s", is, settingForm(strings.TrimSpace(key)))
	}
	if unknown := meta.Undecoded(); len(unknown) > 0 {
		return tree.PlacesOf([]byte(text)).Key(unknown[0].String()).Line, fmt.Errorf("the setting %q is unknown; take the line out, or look at its spelling", unknown[0])
	}
	key, err := s.check()
	if err != nil {
		line = tree.PlacesOf([]byte(text)).Key(key).Line
	}
	return line, err
}

// typeFault is how the decoder tells of the line of a value of another type.
var typeFault = wording.Pattern(`line (\d+) `)

// settingForm is how a setting is written; for a key that is unknown, how any is.
func settingForm(key string) string {
	if words, is := settingWords[key]; is {
		return key + ` = "` + cmp.Or(words[0], words[1]) + `"`
	}
	switch key {
	case "bell", "tone", "speech", "going_on", "no_look":
		return key + " = true or " + key + " = false"
	case "hands":
		return key + " = 1"
	case "cold", "hot", "air":
		return key + ` = "15 °C"`
	case "ready_by", "done_by":
		return key + ` = "10:00"`
	case "hour", "kwh":
		return key + ` = "18.50"`
	case "emergency":
		return key + ` = "112"`
	}
	return `it as a key, = and its value, such as units = "metric"`
}

// SaveSettings puts new settings in the place of the old ones, whole or not at all.
func (h Home) SaveSettings(s Settings) error {
	if _, err := s.check(); err != nil {
		return err
	}
	var w bytes.Buffer
	enc := toml.NewEncoder(&w)
	enc.Indent = ""
	if err := enc.Encode(s); err != nil {
		return fmt.Errorf("the settings cannot be written: %w", err)
	}
	if err := replace(h.SettingsFile(), w.Bytes()); err != nil {
		return fmt.Errorf("the settings cannot be saved: %w", err)
	}
	return nil
}

// SettingsFile is where the settings are.
func (h Home) SettingsFile() string { return filepath.Join(h.dir, "settings.toml") }

// check finds the first setting that cannot be, and its key.
func (s Settings) check() (key string, err error) {
	for _, w := range []struct{ key, value string }{{"units", s.Units}, {"theme", s.Theme}, {"place", s.Place}, {"click", s.Click}, {"stove_by", s.StoveBy}} {
		if words := settingWords[w.key]; !slices.Contains(words, w.value) {
			return w.key, fmt.Errorf("%s is %q; it can be %s", w.key, w.value, strings.TrimPrefix(strings.Join(words, ", "), ", "))
		}
	}
	if strings.ContainsFunc(s.Emergency, func(r rune) bool { return !unicode.IsPrint(r) }) || len(s.Emergency) > 60 {
		return "emergency", errors.New("emergency is not a number to call")
	}
	for _, t := range []struct {
		key string
		is  quantity.Temperature
	}{{"cold", s.Cold}, {"hot", s.Hot}} {
		if !(t.is >= 0 && t.is <= 100) {
			return t.key, fmt.Errorf("%s is %s; water is between 0 °C and 100 °C", t.key, t.is)
		}
	}
	if s.Air != nil && !(*s.Air >= -20 && *s.Air <= 50) {
		return "air", fmt.Errorf("air is %s; nobody dyes below -20 °C or above 50 °C", *s.Air)
	}
	for _, c := range []struct{ key, is string }{{"ready_by", s.ReadyBy}, {"done_by", s.DoneBy}} {
		if _, err := time.Parse("15:04", c.is); err != nil && c.is != "" {
			return c.key, fmt.Errorf("%s is %q; write a time of day, such as 10:00", c.key, c.is)
		}
	}
	for _, m := range []struct {
		key string
		is  quantity.Money
	}{{"hour", s.Hour}, {"kwh", s.KWh}} {
		if m.is < 0 {
			return m.key, fmt.Errorf("%s is %s; it costs nothing or more, such as 18.50", m.key, m.is)
		}
	}
	if s.Hands < 0 || s.Hands > 20 {
		return "hands", fmt.Errorf("hands is %d; say how many pairs, 1 to 20", s.Hands)
	}
	if s.Cold >= s.Hot {
		return "cold", errors.New("cold is not below hot")
	}
	if key, what := day.Beyond(s); what != "" {
		return key, fmt.Errorf("%s of %s", key, what)
	}
	return "", nil
}
