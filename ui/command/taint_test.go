package command

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"example.org/vatside/testdata/homes"
	"example.org/vatside/testdata/long"
	"example.org/vatside/testdata/photographs"
	"example.org/vatside/ui/screentest"
	"example.org/vatside/ui/shelf"
)

// Whatever stands in the files of a home, no command prints what a terminal would obey, nor hands it on in JSON; and the words
// themselves are still there. The files keep the bytes that they have; what is answered in --plain comes after them.
func TestNoFileSteersTheTerminal(t *testing.T) {
	home, files := homes.Tainted(t, "../..")
	vats, err := shelf.Open(home).Vats()
	if err != nil {
		t.Fatal(err)
	}
	yard := ""
	for _, v := range vats {
		if strings.HasPrefix(v, "yard") {
			yard = v
		}
	}
	if len(vats) < 5 || yard == "" {
		t.Fatalf("the vats are %q", vats)
	}
	garden := strings.Replace(yard, "yard", "garden", 1)
	tag := "A1" + strings.NewReplacer("\x1b", "\ufffd", "\a", "\ufffd", "\u009b", "\ufffd", "\u202e", "\ufffd", "\u2066", "\ufffd", "\u2028", "\ufffd", "\x7f", "\ufffd", "\r", "\ufffd").Replace(screentest.Taint)
	card := photographed(t, func(*photographs.Shot) {})
	const marked, silent = true, false
	for i, c := range []struct {
		line  string
		marks bool // the mark must come out
		in    string
	}{
		{"", marked, ""}, {"now", marked, ""}, {"book", marked, ""}, {"book every-bin", marked, ""}, {"book " + garden, marked, ""}, {"book verify", marked, ""},
		{"book no-head", silent, ""},
		{"care", marked, ""}, {"care --vat " + garden, marked, ""}, {"care --as ical", marked, ""}, {"load HOME/pieces.toml --recipe soda --fill 60L --as ical", marked, ""}, {"cost " + garden, marked, ""}, {"cost " + garden + " --piece " + tag, marked, ""},
		{"cost every-bin", silent, ""}, {"like --lab 31,-3,-20", marked, ""}, {"signs --vat " + yard + " --seen milky", marked, ""}, {"signs --vat every-bin --seen milky", silent, ""},
		{"settings", marked, ""}, {"stock", marked, ""}, {"stock --recipe soda --fill 60L", marked, ""}, {"recipes", marked, ""}, {"recipes show soda", marked, ""}, {"recipes choose --fibre wool", marked, ""},
		{"recipes check HOME/recipes/second.toml", marked, ""}, {"load HOME/pieces.toml --recipe soda --fill 60L", marked, ""}, {"load HOME/cut.toml --fixed-dips", marked, ""},
		{"prepare --vat " + yard + " --piece 1kglinen", marked, ""}, {"finish --vat " + yard + " --piece 1kglinen", marked, ""},
		{"dips --recipe soda --fill 60L --piece 1kglinen --depth mid", marked, ""}, {"weigh --recipe soda --fill 60L", marked, ""},
		{"sheet " + garden, marked, ""}, {"sheet " + garden + "/2026-05-09", marked, ""}, {"sheet " + yard, marked, ""}, {"sheet " + garden + " --what vat --full", marked, ""},
		{"sheet " + garden + " --what tags", marked, ""}, {"sheet " + garden + " --what slips", marked, ""}, {"sheet " + garden + " --what card --piece " + tag, marked, ""}, {"sheet " + garden + " --what labels", marked, ""}, {"sheet " + garden + " --what cost", marked, ""},
		{"sheet " + garden + " --what safety", marked, ""}, {"sheet every-bin", marked, ""}, {"sheet --recipe soda --fill 60L --pieces HOME/pieces.toml", marked, ""},
		{"look " + card + " --vat " + yard, silent, ""}, {"look " + card + " --vat " + garden + " --piece " + tag + " --rungs 1,3,6", marked, ""},
		{"say " + yard + " sing", silent, ""}, {"say " + yard + " " + tag + " out", silent, ""}, {"say " + garden + " v", silent, ""}, {"begin " + yard, silent, ""},
		{"--plain", marked, "?\nv\nblue\nbench\na\nsigns\nnote \x1b]52;c;\a\np B\u202e linen 1kg mid\nnote sun on the bin\nq\n"},
	} {
		forms := [][]string{nil}
		switch word, _, _ := strings.Cut(c.line, " "); {
		case word == "sheet":
			forms = [][]string{{"--format", "txt"}, {"--format", "md"}, {"--format", "html"}, {"--json"}}
			if !strings.Contains(c.line, "--what") && c.line != "sheet "+garden && !long.Runs() { // each block is in one of the others
				forms = forms[i%len(forms):][:1]
			}
		case strings.Contains(c.line, "--as "):
		case word != "" && word != "--plain" && c.line != "book verify" && !strings.HasPrefix(c.line, "recipes check"):
			forms = [][]string{nil, {"--json"}}
		}
		for _, form := range forms {
			var args []string
			for _, a := range strings.Fields(c.line) {
				args = append(args, strings.Replace(a, "1kglinen", "1 kg linen", 1))
			}
			args = append(args, form...)
			for i := range args { // the home's own name is no argument: it cannot be shown
				if rest, ok := strings.CutPrefix(args[i], "HOME/"); ok {
					t.Chdir(home)
					args[i] = rest
				}
			}
			out, errs, code := typed(t, home, c.in, args...)
			for stream, text := range map[string]string{"stdout": out, "stderr": errs} {
				if bad := screentest.Unshowable(text, false); bad != "" {
					t.Errorf("%q: %s has %s", args, stream, bad)
				}
			}
			if code == 2 || c.marks && !strings.Contains(out+errs, screentest.TaintMark) {
				t.Errorf("%q: code %d, the words do not come out:\n%s%s", args, code, out, errs)
			}
			if len(form) > 0 && form[0] == "--json" && out != "" {
				var v any
				if err := json.Unmarshal([]byte(out), &v); err != nil {
					t.Errorf("%q: %v", args, err)
				}
				walk(v, func(s string) {
					if bad := screentest.Unshowable(s, false); bad != "" {
						t.Errorf("%q: JSON holds %s", args, bad)
					}
				})
			}
		}
	}
	written := 0
	for path, was := range files {
		is, err := os.ReadFile(filepath.Join(home, path))
		if err != nil || !strings.HasPrefix(string(is), string(was)) {
			t.Errorf("%q is not as it was: %v", path, err)
		}
		if more := string(is[min(len(was), len(is)):]); more != "" {
			if written++; !strings.Contains(more, "sun on the bin") || screentest.Unshowable(more, false) != "" {
				t.Errorf("%q has more: %q", path, more)
			}
		}
	}
	if written != 1 {
		t.Errorf("%d files have more than they had: one answer was taken in --plain", written)
	}
}

// walk visits every text of a JSON value, keys too.
func walk(v any, see func(string)) {
	switch v := v.(type) {
	case string:
		see(v)
	case []any:
		for _, x := range v {
			walk(x, see)
		}
	case map[string]any:
		for k, x := range v {
			see(k)
			walk(x, see)
		}
	}
}

// No argument, no folder named by the environment and no file of such a name is echoed as it is, by any command.
func TestNoArgumentSteersTheTerminal(t *testing.T) {
	p := &program{}
	var lines [][]string
	for _, c := range p.root().Commands() {
		lines = append(lines, []string{c.Name()})
		for _, sub := range c.Commands() {
			lines = append(lines, []string{c.Name(), sub.Name()})
		}
	}
	if lines = append(lines, nil); len(lines) < 30 {
		t.Fatalf("only %d commands", len(lines))
	}
	home := filepath.Join(t.TempDir(), screentest.Taint)
	for _, line := range lines {
		for _, more := range [][]string{{screentest.Taint}, {"--" + screentest.Taint}, {"--home", screentest.Taint}, {"--fill", screentest.Taint},
			{"/nowhere/" + screentest.Taint}, {"x", "\xff\xfe"}, {"--recipe=" + screentest.Taint}, {"x/" + screentest.Taint}} {
			out, errs, code := run(t, home, append(append([]string(nil), line...), more...)...)
			if bad := screentest.Unshowable(out+errs, false); bad != "" || code != 1 || !strings.Contains(errs, "argument ") || strings.Count(errs, "\n") != 1 {
				t.Errorf("%q %q: code %d, %s\n%s", line, more, code, bad, errs)
			}
		}
		if len(line) == 1 && line[0] == "rehearse" { // it goes on for hours, and reads no home
			continue
		}
		out, errs, _ := run(t, home, line...)
		if bad := screentest.Unshowable(out+errs, false); bad != "" {
			t.Errorf("%q with such a home: %s", line, bad)
		}
	}
	file := filepath.Join(t.TempDir(), "file \x1b]2;"+screentest.TaintMark+"\a")
	if err := os.WriteFile(file, nil, 0o644); err != nil {
		t.Fatal(err)
	}
	for _, line := range lines {
		if len(line) == 1 && line[0] == "rehearse" {
			continue
		}
		out, errs, _ := run(t, file, line...)
		if bad := screentest.Unshowable(out+errs, false); bad != "" {
			t.Errorf("%q with a home that is a file: %s", line, bad)
		}
	}
}

// The door passes what may be shown, in whatever pieces it is written, and nothing else.
func TestTheDoorTakesPieces(t *testing.T) {
	for _, c := range []struct {
		writes []string
		want   string
	}{
		{[]string{"A1 °", "C\n"}, "A1 °C\n"},
		{[]string{"A1 \xc2", "\xb0C\n"}, "A1 °C\n"},
		{[]string{"\xe2", "\x80", "\xae"}, "\ufffd"},
		{[]string{"a\xc2", "\x9b31m"}, "a\ufffd31m"},
		{[]string{"a\r", "\nb\r", "c"}, "a\r\nb\ufffdc"},
		{[]string{"a\xf0\x9f", "b"}, "a\ufffd\ufffdb"},
		{[]string{"end\xc2"}, "end\ufffd"},
		{[]string{"\x1b]52;c;x\a", "\xff"}, "\ufffd]52;c;x\ufffd\ufffd"},
	} {
		var b strings.Builder
		d := &door{to: &b}
		for _, w := range c.writes {
			if n, err := d.Write([]byte(w)); n != len(w) || err != nil {
				t.Errorf("%q: %d, %v", w, n, err)
			}
		}
		if d.shut(); b.String() != c.want {
			t.Errorf("%q comes out as %q, not %q", c.writes, b.String(), c.want)
		}
	}
}
