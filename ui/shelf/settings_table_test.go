package shelf

import (
	"maps"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/BurntSushi/toml"

	"example.org/vatside/model/quantity"
)

// keys are the keys of the fields of a struct, embedded ones and those of tables included.
func keys(t reflect.Type) []string {
	var out []string
	for f := range t.Fields() {
		key, _, _ := strings.Cut(f.Tag.Get("toml"), ",")
		switch {
		case f.Anonymous:
			out = append(out, keys(f.Type)...)
		case f.Type == reflect.TypeFor[Sounds]():
			for _, in := range keys(f.Type) {
				out = append(out, key+"."+in)
			}
		default:
			out = append(out, key)
		}
	}
	return out
}

// Each setting that stands in the file has its row, and each word of a row is one that the file may say and that is shown again.
func TestEachSettingHasItsRow(t *testing.T) {
	want := map[string]bool{}
	for _, key := range keys(reflect.TypeFor[Settings]()) {
		want[key] = true
	}
	labels := map[string]bool{}
	for _, row := range Table() {
		if !want[row.Key] || labels[row.Label] || row.Help == "" {
			t.Errorf("%q, %q: no field has it, or it stands twice, or without help", row.Key, row.Label)
		}
		delete(want, row.Key)
		labels[row.Label] = true
		for _, word := range row.Words {
			s := Defaults()
			if err := row.Put(&s, word); err != nil || row.Shown(s) != word {
				t.Errorf("%s: %q is shown as %q: %v", row.Key, word, row.Shown(s), err)
			}
			if key, err := s.check(); err != nil {
				t.Errorf("%s: %q cannot be in the file: %s, %v", row.Key, word, key, err)
			}
		}
	}
	if len(want) > 0 {
		t.Errorf("without a row: %v", slices.Sorted(maps.Keys(want)))
	}
}

// What a row puts is what the file then says under its key, and nothing else is changed by it.
func TestARowChangesItsKeyAlone(t *testing.T) {
	h := Open(filepath.Join(t.TempDir(), "home"))
	file := func(s Settings) map[string]any {
		must(t, h.SaveSettings(s))
		text, err := os.ReadFile(h.SettingsFile())
		must(t, err)
		out := map[string]any{}
		must(t, toml.Unmarshal(text, &out))
		for key, v := range out["sound"].(map[string]any) {
			out["sound."+key] = v
		}
		delete(out, "sound")
		return out
	}
	usual := file(Defaults())
	for _, row := range Table() {
		s := Defaults()
		for _, value := range append(slices.Clone(row.Words), "9", "25", "71", "112", "1000") { // one of them is another value of any setting
			changed := s
			if row.Put(&changed, value) != nil || row.Shown(changed) == row.Shown(s) {
				continue
			}
			if _, wrong := changed.check(); wrong == nil {
				s = changed
				break
			}
		}
		is := file(s)
		if is[row.Key] == usual[row.Key] {
			t.Errorf("%s: nothing changes it from %q", row.Key, row.Shown(s))
		}
		delete(is, row.Key)
		left := maps.Clone(usual)
		delete(left, row.Key)
		if !reflect.DeepEqual(is, left) {
			t.Errorf("%s: the file is %v, it was %v", row.Key, is, left)
		}
		if got, err := h.Settings(); err != nil || row.Shown(got) != row.Shown(s) {
			t.Errorf("%s: read again it is %q, not %q: %v", row.Key, row.Shown(got), row.Shown(s), err)
		}
		if row.Words != nil {
			continue
		}
		if err := row.Put(&s, ""); row.Key != "cold" && row.Key != "hot" && (err != nil || row.Shown(s) != "") {
			t.Errorf("%s: nothing typed leaves %q: %v", row.Key, row.Shown(s), err)
		}
	}
	// The air is as cold as the file may say, and no colder.
	s, air := Defaults(), Table()[slices.IndexFunc(Table(), func(r Setting) bool { return r.Key == "air" })]
	if err := air.Put(&s, "-25"); err == nil {
		t.Errorf("the air has %s, which the file refuses", *s.Air)
	}
}

// The file names every setting, says the same when it is read again, and each of its examples can be read.
func TestTheFileNamesEverySetting(t *testing.T) {
	h := Open(filepath.Join(t.TempDir(), "home"))
	want := Defaults()
	want.Pot, want.ReadyBy, want.Sound.Speech = quantity.Litres(8), "10:00", true
	if err := h.SaveSettings(want); err != nil {
		t.Fatal(err)
	}
	text, err := os.ReadFile(h.SettingsFile())
	if err != nil {
		t.Fatal(err)
	}
	if got, err := h.Settings(); err != nil || !reflect.DeepEqual(got, want) {
		t.Errorf("read again: %+v, %v\nwant %+v", got, err, want)
	}
	for _, row := range Table() {
		key := row.Key[strings.LastIndex(row.Key, ".")+1:]
		if n := strings.Count(string(text), "\n"+key+" = ") + strings.Count(string(text), "\n# "+key+" = "); n != 1 {
			t.Errorf("%s stands %d times in\n%s", row.Key, n, text)
		}
	}
	examples := strings.ReplaceAll(string(text), "\n# ", "\n")
	var kept []string
	for _, line := range strings.Split(examples, "\n") {
		if key, _, ok := strings.Cut(line, " = "); ok && !strings.Contains(key, " ") || strings.HasPrefix(line, "[") {
			kept = append(kept, line)
		}
	}
	var s Settings
	if at, err := s.decode(strings.Join(kept, "\n")); err != nil {
		t.Errorf("line %d: %v in\n%s", at.Line, err, strings.Join(kept, "\n"))
	}
}
