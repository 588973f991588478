package screen_test

import (
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"

	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/style"
)

// typed is a field after keys: a letter each, or a key by its name in angle brackets.
func typed(f screen.Field, keys string) screen.Field {
	for keys != "" {
		k := screen.Key{Rune: []rune(keys)[0]}
		n := len(string(k.Rune))
		if k.Rune == '<' {
			n = strings.Index(keys, ">") + 1
			k = screen.Key{Name: keys[1 : n-1]}
		}
		f, _, _ = f.Take(k)
		keys = keys[n:]
	}
	return f
}

func TestFieldIsEditedAtItsCursor(t *testing.T) {
	open := screen.Field{What: "line"}
	st := style.New(style.Options{})
	for keys, want := range map[string]string{
		"38 °C":                       "38 °C_",
		"38<left><left>1":             "1_38",
		"lien<left><left><backspace>": "l_en",
		"lien<left><left><delete>":    "li_n",
		"Färberei<home>7<end>!":       "7Färberei!_",
		"ab<left><left><left>c":       "c_ab",
		"ab<right><right>c":           "abc_",
		"a<tab><up>b":                 "ab_",
		"3 L<ctrl+u>8":                "8_",
		"38 g<left><left><ctrl+u>":    "_ g",
	} {
		if got := ansi.Strip(strings.Join(typed(open, keys).Lines(screen.Env{Width: 60, Style: st}), "\n")); strings.ReplaceAll(got, st.Glyphs.Lower, "_") != want {
			t.Errorf("%s: %q, want %q", keys, got, want)
		}
	}
	if f := typed(open, strings.Repeat("x", 200)); len(f.Text) != 120 {
		t.Errorf("%d characters are taken", len(f.Text))
	}
	before := typed(open, "ab<left>")
	_, _ = typed(before, "c"), typed(before, "d")
	if before.Text != "ab" {
		t.Errorf("a copy changed the field to %q", before.Text)
	}
}

func TestFieldEnds(t *testing.T) {
	f := screen.Field{What: "line", Text: "a", Wrong: "no"}
	for name, want := range map[string][2]bool{"enter": {true, false}, "pgdown": {true, false}, "esc": {false, true}, "pgup": {false, true}, "backspace": {false, false}, "left": {false, false}} {
		next, entered, left := f.Take(screen.Key{Name: name})
		if entered != want[0] || left != want[1] || left == next.On() {
			t.Errorf("%s: entered %v, left %v, open %v", name, entered, left, next.On())
		}
		if !entered && next.Wrong != "" {
			t.Errorf("%s: still wrong", name)
		}
	}
	if _, _, left := (screen.Field{What: "line"}).Take(screen.Key{Name: "backspace"}); !left {
		t.Error("Backspace does not leave an empty line")
	}
}

func TestFieldKeepsItsWidthAndItsCursor(t *testing.T) {
	for _, o := range []style.Options{{}, {ASCII: true}} {
		st := style.New(o)
		for w := 1; w <= 60; w++ {
			for behind := 0; behind <= 40; behind += 5 {
				f := screen.Field{What: "line", Label: "Weight on the scale", Text: strings.Repeat("12", 20), Behind: behind, Unit: "g", Hint: "30–50 °C"}
				rows := f.Lines(screen.Env{Width: w, Style: st})
				marks := 0
				for _, l := range rows {
					if ansi.StringWidth(l) > max(20, w) {
						t.Fatalf("%d wide, %d behind: %q", w, behind, l)
					}
					marks += strings.Count(ansi.Strip(l), st.Glyphs.Lower)
				}
				if marks != 1 {
					t.Fatalf("%d wide, %d behind: %d cursors in %q", w, behind, marks, rows)
				}
				if st.Glyphs.Lower == "_" {
					for _, r := range strings.Join(rows, "") {
						if r > 126 {
							t.Fatalf("%q in %q", r, rows)
						}
					}
				}
			}
		}
	}
}

// What Enter gives on an empty line is not said of one that is typed; nothing below it jumps.
func TestTheUsualIsOfferedOnAnEmptyLine(t *testing.T) {
	env := screen.Env{Width: 68, Style: style.New(style.Options{Profile: style.NoColour})}
	for typed, want := range map[string]string{"": "Enter: 16 L; or how deep it stands", "9": "or how deep it stands"} {
		if rows := (screen.Field{Label: "fill", Text: typed, Hint: "Enter: 16 L; or how deep it stands"}).Lines(env); len(rows) != 3 || rows[2] != want {
			t.Errorf("typed %q: %q", typed, rows)
		}
	}
	for _, e := range []screen.Field{{Text: "Z9", Hint: "Enter: A2"}, {Text: "Z9", Unit: "Enter: cotton"}} {
		if text := strings.Join(e.Lines(env), "\n"); strings.Contains(text, "Enter") {
			t.Errorf("%+v: %q", e, text)
		}
	}
	if rows := (screen.Field{Text: "Z9", Hint: "Enter: A2"}).Lines(env); len(rows) != len((screen.Field{Hint: "Enter: A2"}).Lines(env)) {
		t.Errorf("the rows become %q", rows)
	}
}
