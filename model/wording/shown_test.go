package wording

import (
	"errors"
	"io/fs"
	"strings"
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"
)

// What a terminal obeys, and what makes a line read as another, is shown as U+FFFD, one for one; all else stays.
func TestWhatCannotBeShownIsReplaced(t *testing.T) {
	for in, want := range map[string]string{
		"":                               "",
		"A1, 4 \"°C\" — 藍":               "A1, 4 \"°C\" — 藍",
		"\x1b]52;c;aGFja2Vk\a":           "\ufffd]52;c;aGFja2Vk\ufffd",
		"\u009b31m\u202eab\u2066c\u2069": "\ufffd31m\ufffdab\ufffdc\ufffd",
		"one\ntwo\tthree\r\n":            "one two three\ufffd ",
		"\x7f\u2028\u2029\xff\xc3":       "\ufffd\ufffd\ufffd\ufffd\ufffd",
		"\ufffd stays":                   "\ufffd stays",
		"לבן":                            "לבן",
	} {
		if got := Show(in).String(); got != want {
			t.Errorf("%q is shown as %q, not %q", in, got, want)
		}
	}
	if got := ShowPage("a\tb\r\nc\rd\x1b\n\f").String(); got != "a\tb\r\nc\ufffdd\ufffd\n\f" {
		t.Errorf("a page is shown as %q", got)
	}
}

// Of any text at all nothing unfit is left, nothing else is touched, and showing it twice is showing it once.
func TestWhatIsShownCanBeShown(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := string(rapid.SliceOf(rapid.Byte()).Draw(t, "bytes")) + rapid.String().Draw(t, "text") +
			rapid.StringOf(rapid.RuneFrom([]rune("\x1b\a\r\n\t\u009b\u202e\u2067\u2029ab"))).Draw(t, "hostile")
		got := Show(s).String()
		if !utf8.ValidString(got) || strings.ContainsFunc(got, Unfit) {
			t.Fatalf("%q is shown as %q", s, got)
		}
		if Show(got).String() != got {
			t.Fatalf("%q is not shown as itself", got)
		}
		if kept := Fit(s); Show(kept).String() != got || Fit(kept) != kept {
			t.Fatalf("%q is taken as %q, which is shown as %q, not %q", s, kept, Show(kept), got)
		}
		if utf8.RuneCountInString(got) != utf8.RuneCountInString(s) {
			t.Fatalf("%q is shown as %q: not one for one", s, got)
		}
		name, at := Unfitness(s)
		if same := strings.NewReplacer("\r\n", "  ", "\n", " ", "\t", " ", "\f", " ").Replace(s); (name == "") != (Show(same).String() == same) {
			t.Fatalf("%q is called %q at %d", s, name, at)
		}
	})
}

// A refusal names the character and says what would be right, and shows none itself.
func TestARefusalNamesTheCharacter(t *testing.T) {
	for in, want := range map[string]string{
		"A\x1b[31m": `"A` + "\ufffd" + `[31m" holds the character U+001B, which cannot be shown: write it without`,
		"A\u202e":   `"A` + "\ufffd" + `" holds the character U+202E, which cannot be shown: write it without`,
		"A\r\n":     `"A` + "\ufffd" + ` " holds the character U+000D, which cannot be shown: write it without`,
		"A\xff":     `"A` + "\ufffd" + `" holds the byte 0xFF, which is no UTF-8: write it without`,
	} {
		if err := Refusal(in); err == nil || err.Error() != want {
			t.Errorf("%q is refused with %v", in, err)
		}
	}
	for _, in := range []string{"", "A1", "two\nlines\tand a tab\n", "\ufffd"} {
		if err := Refusal(in); err != nil {
			t.Errorf("%q is refused: %v", in, err)
		}
	}
	type inner struct{ Words []string }
	bad := "x\a"
	for _, v := range []any{struct{ In *inner }{&inner{[]string{"a", bad}}}, map[string]any{bad: 1}, map[string]any{"a": []any{bad}}, &bad, [2]string{"a", bad}} {
		if RefusalIn(v) == nil {
			t.Errorf("%#v is taken", v)
		}
	}
	if err := RefusalIn(struct {
		In   *inner
		Some any
	}{}); err != nil {
		t.Error(err)
	}
}

// An error that quotes a file keeps what it wraps.
func TestAnErrorIsShown(t *testing.T) {
	err := ShowError(&fs.PathError{Op: "open", Path: "a\x1bb", Err: fs.ErrNotExist})
	if !errors.Is(err, fs.ErrNotExist) || err.Error() != "open a\ufffdb: file does not exist" {
		t.Errorf("%q", err)
	}
	if ShowError(nil) != nil {
		t.Error("nil is an error")
	}
}
