package shelf

import (
	"cmp"
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"github.com/BurntSushi/toml"

	"example.org/vatside/model/book"
	"example.org/vatside/model/day"
	"example.org/vatside/model/tree"
	"example.org/vatside/model/wording"
)

// Settings reads settings.toml. Keys that are left out are as in Defaults; so is everything when there is an error, which
// names the file, the line and the column.
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
	at, err := s.decode(string(text))
	if err != nil {
		return Defaults(), fmt.Errorf("%s:%d:%d: %w; the usual settings are used till it is mended", path, at.Line, at.Col, wording.ShowError(err))
	}
	return s, nil
}

// decode reads the settings, and says where the first fault is, and what would be right.
func (s *Settings) decode(text string) (at tree.Spot, err error) {
	if line := tree.TooDeep([]byte(text)); line > 0 {
		return tree.Spot{Line: line, Col: 1}, fmt.Errorf("%s; %s", tree.DeepWords, tree.DeepRight)
	}
	meta, err := toml.Decode(text, s)
	if err != nil {
		line, twice := 1, false
		var parse toml.ParseError
		if errors.As(err, &parse) {
			line, twice = parse.Position.Line, strings.HasSuffix(parse.Message, doubled)
		} else if m := typeFault().FindStringSubmatch(err.Error()); m != nil {
			line, _ = strconv.Atoi(m[1])
		}
		lines := strings.Split(text, "\n")
		line = min(max(line, 1), len(lines))
		is := strings.TrimSpace(lines[line-1])
		at = tree.Spot{Line: line, Col: utf8.RuneCountInString(lines[line-1][:strings.Index(lines[line-1], is)]) + 1}
		key, _, _ := strings.Cut(is, "=")
		if twice {
			return at, fmt.Errorf("%s stands twice; keep one of the two", strings.Trim(strings.TrimSuffix(strings.TrimPrefix(parse.Message, "Key"), doubled), " '"))
		}
		return at, fmt.Errorf("%s cannot be read; write %s", is, settingForm(strings.TrimSpace(key)))
	}
	if unknown := meta.Undecoded(); len(unknown) > 0 {
		return tree.PlacesOf([]byte(text)).Key(unknown[0].String()), fmt.Errorf("the setting %q is unknown; take the line out, or look at its spelling", unknown[0])
	}
	key, err := s.check()
	if err != nil {
		at = tree.PlacesOf([]byte(text)).Key(key)
	}
	return at, err
}

// doubled is how the decoder's word of a key that stands twice ends.
const doubled = "has already been defined."

// typeFault is how the decoder tells of the line of a value of another type.
var typeFault = wording.Pattern(`line (\d+) `)

// settingForm is how a setting is written; for a key that is unknown or of any measure, how any is.
func settingForm(key string) string {
	rows := Table()
	i := slices.IndexFunc(rows, func(row Setting) bool { return row.Key == key || strings.HasSuffix(row.Key, "."+key) })
	switch {
	case i >= 0 && rows[i].form != "":
		return key + " = " + rows[i].form
	case i >= 0 && rows[i].Words != nil:
		key = key[strings.LastIndex(key, ".")+1:]
		return key + " = true or " + key + " = false"
	}
	return `it as a key, = and its value, such as units = "metric"`
}

// SaveSettings puts new settings in the place of the old ones, whole or not at all.
func (h Home) SaveSettings(s Settings) error {
	if _, err := s.check(); err != nil {
		return err
	}
	text, err := s.Text()
	if err != nil {
		return fmt.Errorf("the settings cannot be written: %w", err)
	}
	if err := replace(h.SettingsFile(), []byte(text)); err != nil {
		return fmt.Errorf("the settings cannot be saved: %w", err)
	}
	return nil
}

// Text is the settings file: every setting with what it means; one that is not set is a comment with an example.
func (s Settings) Text() (string, error) {
	lines, err := book.Lines(s)
	if err != nil {
		return "", err
	}
	var out strings.Builder
	table := ""
	for _, row := range Table() {
		key := row.Key
		if in, of, ok := strings.Cut(row.Key, "."); ok {
			if key = of; in != table {
				fmt.Fprintf(&out, "\n[%s]\n", in)
				table = in
				lines, _ = book.Lines(s.Sound) // yes or no, each
			}
		}
		line := cmp.Or(lines[key], "# "+settingForm(row.Key))
		fmt.Fprintf(&out, "# %s: %s\n%s\n", row.Label, row.Help, line)
	}
	return out.String(), nil
}

// SettingsFile is where the settings are.
func (h Home) SettingsFile() string { return filepath.Join(h.dir, "settings.toml") }

// check finds the first setting that cannot be, and its key.
func (s Settings) check() (key string, err error) {
	for _, row := range Table() {
		if row.wrong == nil {
			continue
		}
		if what := row.wrong(s); what != "" {
			return row.Key, errors.New(row.Key + " is " + what)
		}
	}
	if s.Cold >= s.Hot {
		return "cold", fmt.Errorf("cold is %s, and not below hot, %s", s.Cold, s.Hot)
	}
	if key, what := day.Beyond(s); what != "" {
		return key, fmt.Errorf("%s of %s", key, what)
	}
	return "", nil
}
