package wording

import (
	"fmt"
	"reflect"
	"strings"
	"unicode/utf8"
)

// Shown is one line that may be shown: on a terminal, in a window's title, on a sheet, and said by a speaker. Only Show makes
// one, so that whoever takes a Shown need not look at it again.
//
// It holds none of these characters, for a terminal obeys them, or they make a line read as another than it is:
//   - controls: U+0000 to U+001F, U+007F, U+0080 to U+009F (ESC and CSI steer a terminal, BEL rings, CR writes over the line);
//   - the separators of lines and paragraphs, U+2028 and U+2029;
//   - the marks that turn the direction of writing round, U+202A to U+202E and U+2066 to U+2069;
//   - bytes that are no UTF-8.
//
// Text of scripts that are written from right to left needs none of them.
type Shown struct{ text string }

// Page is several such lines: line feeds and tabs stand in it too, and the form feed that begins a printer's next page.
type Page struct{ text string }

// instead stands for each character that cannot be shown.
const instead = utf8.RuneError

// Show makes a text one that may be shown: a line feed or a tab becomes a space, each other character that cannot be shown
// U+FFFD, one for one.
func Show(s string) Shown {
	s = Fit(s)
	if strings.IndexByte(s, '\n') >= 0 || strings.IndexByte(s, '\t') >= 0 {
		s = spaces.Replace(s)
	}
	return Shown{s}
}

// spaces puts a text of several lines on one.
var spaces = strings.NewReplacer("\n", " ", "\t", " ")

// ShowPage is Show for a text of several lines: line feeds, CRLF too, tabs and form feeds stay.
func ShowPage(s string) Page { return Page{replaced(s, true)} }

// Fit is a text from a file as it is taken into memory: with U+FFFD for what cannot be shown, but with its line feeds and tabs,
// for a note may hold some. What is shown of it is the same as what is shown of the file's own text.
func Fit(s string) string { return replaced(s, false) }

// String is the line.
func (s Shown) String() string { return s.text }

// String is the lines.
func (p Page) String() string { return p.text }

// Unfit tells whether a character cannot be shown.
func Unfit(r rune) bool {
	switch {
	case r < 0x20, r >= 0x7f && r < 0xa0, r == 0x2028, r == 0x2029, r >= 0x202a && r <= 0x202e, r >= 0x2066 && r <= 0x2069:
		return true
	}
	return false
}

// unfit is the first byte of s from which something cannot be shown, and how many bytes that takes; len(s) and 0 if all can.
// Line feeds and tabs can; on a page a CR before a line feed and a form feed too.
func unfit(s string, page bool) (at, size int) {
	for i := 0; i < len(s); {
		c := s[i]
		if c >= 0x20 && c < 0x7f {
			i++
			continue
		}
		if c == '\n' || c == '\t' || page && (c == '\f' || c == '\r' && strings.HasPrefix(s[i+1:], "\n")) {
			i++
			continue
		}
		r, n := utf8.DecodeRuneInString(s[i:])
		if Unfit(r) || r == utf8.RuneError && n == 1 {
			return i, n
		}
		i += n
	}
	return len(s), 0
}

// replaced is the text with something else for what cannot be shown; a text that can is left as it is.
func replaced(s string, page bool) string {
	at, n := unfit(s, page)
	if n == 0 {
		return s
	}
	var b strings.Builder
	for ; n > 0; at, n = unfit(s, page) {
		b.WriteString(s[:at])
		b.WriteRune(instead)
		s = s[at+n:]
	}
	b.WriteString(s)
	return b.String()
}

// Unfitness says of a file's text which of its characters cannot be shown first, "the character U+001B, which cannot be shown",
// and at which byte it stands; empty if all can. Line feeds, CRLF too, and tabs are no fault.
func Unfitness(text string) (what string, at int) { return unfitness(text, true) }

func unfitness(s string, page bool) (what string, at int) {
	at, n := unfit(s, page)
	if n == 0 {
		return "", at
	}
	if r, _ := utf8.DecodeRuneInString(s[at:]); r != utf8.RuneError {
		return fmt.Sprintf("the character U+%04X, which cannot be shown", r), at
	}
	return fmt.Sprintf("the byte 0x%02X, which is no UTF-8", s[at]), at
}

// quotedMost is how much of a text that is not taken is quoted, in characters.
const quotedMost = 40

// Refusal is why a word or a sentence from outside is not taken: which of its characters cannot be shown, and what would be
// right. Nil if all can be. Line feeds and tabs are no fault: they are shown as spaces.
func Refusal(s string) error {
	what, _ := unfitness(s, false)
	if what == "" {
		return nil
	}
	quoted := []rune(Show(s).text)
	if len(quoted) > quotedMost {
		quoted = append(quoted[:quotedMost], '…')
	}
	return fmt.Errorf("%q holds %s: write it without", string(quoted), what)
}

// RefusalIn is Refusal for every text in a value, however deep: fields, lists, keys and what pointers lead to.
func RefusalIn(v any) error { return refusalIn(reflect.ValueOf(v)) }

func refusalIn(v reflect.Value) error {
	switch v.Kind() {
	case reflect.String:
		return Refusal(v.String())
	case reflect.Pointer, reflect.Interface:
		if !v.IsNil() {
			return refusalIn(v.Elem())
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if !v.Type().Field(i).IsExported() { // of other packages, such as time.Time: it holds none of the dyer's words
				continue
			}
			if err := refusalIn(v.Field(i)); err != nil {
				return err
			}
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			if err := refusalIn(v.Index(i)); err != nil {
				return err
			}
		}
	case reflect.Map:
		for key, value := range v.Seq2() {
			if err := refusalIn(key); err != nil {
				return err
			}
			if err := refusalIn(value); err != nil {
				return err
			}
		}
	}
	return nil
}

// ShowError is an error whose sentence may be shown, for one that quotes a file; nil stays nil.
func ShowError(err error) error {
	if err == nil {
		return nil
	}
	if shown := ShowPage(err.Error()).text; shown != err.Error() {
		return shownError{shown, err}
	}
	return err
}

type shownError struct {
	text string
	err  error
}

func (e shownError) Error() string { return e.text }
func (e shownError) Unwrap() error { return e.err }
