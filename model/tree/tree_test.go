package tree

import (
	"bytes"
	"os"
	"path/filepath"
	"reflect"
	"testing"

	"github.com/BurntSushi/toml"
	"pgregory.net/rapid"
)

// same compares a text's tree with that of the toml package, where Plain does not step aside.
func same(t testing.TB, text []byte) bool {
	t.Helper()
	got, ok := Plain(text)
	if !ok {
		if got != nil {
			t.Fatalf("a tree of a text that is not plain: %q", text)
		}
		return false
	}
	want := map[string]any{}
	if _, err := toml.Decode(string(text), &want); err != nil {
		t.Fatalf("%q is taken, but %v", text, err)
	}
	if !reflect.DeepEqual(got, want) {
		t.Fatalf("%q:\n%#v\nnot\n%#v", text, got, want)
	}
	return true
}

// texts are the recipes and the days of testdata.
func texts(t testing.TB) [][]byte {
	t.Helper()
	var out [][]byte
	for _, glob := range []string{"../../recipes/*.toml", "../../testdata/recipes/*.toml", "../../testdata/days/*.toml", "../../testdata/old/*.toml"} {
		names, err := filepath.Glob(glob)
		if err != nil || len(names) == 0 {
			t.Fatalf("%s: %d files, %v", glob, len(names), err)
		}
		for _, n := range names {
			text, err := os.ReadFile(n)
			if err != nil {
				t.Fatal(err)
			}
			out = append(out, text)
		}
	}
	return out
}

// blocks are the parts of a day as the book decodes them: without its end lines, and each event without its header.
func blocks(text []byte) [][]byte {
	var out [][]byte
	for _, b := range bytes.Split(text, []byte("\n[[event]]\n")) {
		if end := bytes.LastIndex(b, []byte("\n# end ")); end >= 0 {
			b = b[:end+1]
		}
		out = append(out, b)
	}
	return out
}

func TestTheTreeIsThatOfTheTomlPackage(t *testing.T) {
	plain, all := 0, 0
	for _, text := range texts(t) {
		same(t, text)
		for _, b := range blocks(text) {
			if all++; same(t, b) {
				plain++
			}
		}
	}
	if all < 1500 || plain < all*9/10 {
		t.Errorf("%d of %d blocks are read plainly", plain, all)
	}
	for _, text := range texts(t)[:6] {
		if _, ok := Plain(text); !ok {
			t.Errorf("a recipe of the program is not read plainly: %.60q", text)
		}
	}
}

func TestWhatIsPlain(t *testing.T) {
	for text, plain := range map[string]bool{
		"": true, "\n\n": true, "# a comment": true, " a = 1 # one": true, "a=\"x\"": true, "a = \"\"": true, "a = \"\" # \"": true,
		"a = \"\\\"\\\\\\n\\t\"": true, "a = -0.5": true, "a = 0": true, "a = 0.0": true, "a = [1, 2.5, \"x\", true]": true, "a = []": true, "a = [ ]": true,
		"[a]\nb = 1\n[a.c]\nd = 1\n[[a.e]]\n[[a.e]]\nf = 1": true, "[[a]]\n[[a]]": true, "[a.b]\n[a.c]": true,
		"at = 2026-05-09T09:02:00+02:00": true, "at = 2026-05-09T09:02:00.25Z": true, "at = 2026-05-09T09:02:00-03:30": true,

		"a = 1\na = 2": false, "[a]\n[a]": false, "[a.b]\n[a]": false, "[a]\n[[a]]": false, "[[a]]\n[a]": false, "[[a]]\n[a.b]": false, "a = 1\n[a.b]": false,
		"a = [{}]\n[[a]]": false, "a.b = 1": false, "\"a\" = 1": false, "a = 'x'": false, "a = \"\"\"x\"\"\"": false, "a = \"\"\"\"": false, "a = \"x": false,
		"a = \"\\u0041\"": false, "a = \"\\": false, "a = \"\x7f\"": false, "a = \"\x01\"": false, "a = 1 # \x01": false, "a = \"x\" y": false,
		"a = [1,]": false, "a = [[1]]": false, "a = [1": false, "a = [,]": false, "a = [\n1]": false, "a = {b = 1}": false, "a = 1\r\n": false,
		"a = +1": false, "a = -0": false, "a = -0.0": false, "a = 01": false, "a = 1.": false, "a = .5": false, "a = 1e3": false, "a = 1_000": false,
		"a = 0x1f": false, "a = inf": false, "a = 9999999999999999999": false, "a = ": false, "a": false, "= 1": false, "\ufeffa = 1": false, "a = \"\xff\"": false,
		"at = 2026-05-09": false, "at = 2026-05-09T09:02:00": false, "at = 2026-05-09 09:02:00Z": false, "at = 2026-05-09t09:02:00Z": false,
		"at = 2026-13-09T09:02:00Z": false, "at = 2026-05-09T9:02:00Z": false, "at = 2026-05-09T09:02:60Z": false, "at = 2026-02-30T09:02:00Z": false,
		"at = 2026-05-09T09:02:00.Z": false, "at = 2026-05-09T09:02:00,5Z": false, "[a": false, "[]": false, "[ a ]": false, "[[a]": false, "[a.b.c]": false, "[a]b = 1": false,
	} {
		if got := same(t, []byte(text)); got != plain {
			t.Errorf("%q: read plainly %v", text, got)
		}
	}
}

func TestSpoiltTreesAreThoseOfTheTomlPackage(t *testing.T) {
	all := texts(t)
	rapid.Check(t, func(r *rapid.T) {
		b := blocks(all[rapid.IntRange(0, len(all)-1).Draw(r, "text")])
		text := bytes.Clone(b[rapid.IntRange(0, len(b)-1).Draw(r, "block")])
		for range rapid.IntRange(1, 3).Draw(r, "edits") {
			at := rapid.IntRange(0, len(text)).Draw(r, "at")
			to := min(len(text), at+rapid.IntRange(0, 3).Draw(r, "cut"))
			put := rapid.SampledFrom([]string{"", "\"", "\\", "[", "]", "[[", "]]", ".", "=", "\n", " ", "#", "0", "-", "e", ",", "{", "}", "'", "\t", "\r", "\u00e9", "\x00", "\n[x]\n", "\n[[x]]\n", "a = 1\n"}).Draw(r, "put")
			text = append(text[:at:at], append([]byte(put), text[to:]...)...)
		}
		same(t, text)
	})
}

func FuzzPlain(f *testing.F) {
	for _, text := range texts(f) {
		if len(text) < 8<<10 {
			f.Add(text)
		}
		for _, b := range blocks(text)[:1] {
			f.Add(b)
		}
	}
	f.Add([]byte("a = [1, 2.5, \"\\\"\", true]\nat = 2026-05-09T09:02:00.5+02:00\n[b.c]\n[[b.d]]\n"))
	f.Fuzz(func(t *testing.T, text []byte) {
		same(t, text)
	})
}

func BenchmarkPlain(b *testing.B) {
	text, err := os.ReadFile("../../recipes/soda.toml")
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, ok := Plain(text); !ok {
			b.Fatal("it is not plain")
		}
	}
}
