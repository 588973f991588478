package library

import (
	"net/url"
	"strings"
	"unicode"

	"example.org/vatside/model/day"
	"example.org/vatside/ui/shelf"
)

// PhotoAsked is a text that names photographs instead of saying a look: one or several paths as they are typed, or as a terminal
// pastes them when files are dropped on it; before or behind them wet, and the rungs on the card, such as 1,3,6.
type PhotoAsked struct {
	Paths []string
	Rungs string
	Wet   bool
}

// AsksPhoto reads such a text; false where it is none.
func AsksPhoto(text string) (a PhotoAsked, ok bool) {
	var rungs []string
	plainly := !strings.ContainsAny(text, `'"\`)
	for _, w := range unquoted(text) {
		switch {
		case len(a.Paths) > 0 && !rooted(w.text) && plainly && strings.Trim(w.text, "0123456789,") != "": // of a path with bare blanks
			return bare(text)
		case rooted(w.text) || shelf.NamesPhoto(w.text):
			a.Paths = append(a.Paths, pathOf(w.text))
		case w.text == "wet" && len(a.Paths) == 0:
			a.Wet = true
		case w.text == "dry" && len(a.Paths) == 0:
		case strings.Trim(w.text, "0123456789,") == "":
			rungs = append(rungs, w.text)
		default:
			return PhotoAsked{}, false
		}
	}
	a.Rungs = strings.Join(rungs, ",")
	return a, len(a.Paths) > 0
}

// PhotoLine is a line such as "look A1 wet 1,3,6 /photos/card.jpg": the piece, and the photograph that is to be read; false for any
// other line.
func PhotoLine(s day.State, line string) (p day.Piece, a PhotoAsked, ok bool) {
	p, rest, ok := LookLine(s, line)
	if ok {
		a, ok = AsksPhoto(rest)
	}
	return p, a, ok
}

// LookLine is the piece that a line such as "look A1 dark" is of, and what stands behind it.
func LookLine(s day.State, line string) (p day.Piece, rest string, ok bool) {
	first, rest, _ := strings.Cut(strings.TrimSpace(line), " ")
	tag, rest, _ := strings.Cut(strings.TrimSpace(rest), " ")
	for _, p := range s.Pieces {
		if strings.EqualFold(first, "look") && strings.EqualFold(tag, p.Tag) {
			return p, rest, true
		}
	}
	return p, "", false
}

// bare is a text whose one path runs to its end, blanks and all.
func bare(text string) (a PhotoAsked, ok bool) {
	for _, w := range unquoted(text) {
		if rooted(w.text) || shelf.NamesPhoto(w.text) {
			before, _ := AsksPhoto(text[:w.at] + "/")
			before.Paths = []string{pathOf(strings.TrimSpace(text[w.at:]))}
			return before, true
		}
	}
	return a, false
}

// drive tells whether a text begins as a path of Windows does, where a backslash stands between folders.
func drive(s string) bool {
	return len(s) >= 3 && s[1] == ':' && (s[2] == '\\' || s[2] == '/') && unicode.IsLetter(rune(s[0]))
}

// rooted tells whether a word begins as a path does, and no word of a look.
func rooted(s string) bool {
	for _, begins := range []string{"/", "./", "../", "file://"} {
		if strings.HasPrefix(s, begins) {
			return true
		}
	}
	return drive(s)
}

// pathOf is the path of a word, which may be a file:// address.
func pathOf(s string) string {
	rest, is := strings.CutPrefix(s, "file://")
	if !is {
		return s
	}
	if at := strings.IndexByte(rest, '/'); at > 0 { // behind the name of the machine
		rest = rest[at:]
	}
	if path, err := url.PathUnescape(rest); err == nil {
		rest = path
	}
	if len(rest) > 1 && drive(rest[1:]) {
		rest = rest[1:]
	}
	return rest
}

// word is one word of a text, and at which byte it begins.
type word struct {
	text string
	at   int
}

// unquoted are the words of a text as a shell has them: blanks stand between words except in quotes and behind a backslash.
func unquoted(text string) (out []word) {
	var b strings.Builder
	began, in, quote, escaped := 0, false, rune(0), false
	for at, r := range text {
		if !in && !strings.ContainsRune(" \t\r\n", r) {
			began, in = at, true
		}
		next := text[min(at+1, len(text)):]
		switch {
		case escaped:
			b.WriteRune(r)
			escaped = false
		case quote == '\'' && r != quote, quote == '"' && r != quote && r != '\\':
			b.WriteRune(r)
		case quote != 0 && r == quote:
			quote = 0
		case quote == 0 && (r == '\'' || r == '"'):
			quote = r
		case r == '\\' && (drive(b.String()+`\`) || drive(b.String()) || quote == '"' && !strings.ContainsAny(next[:min(1, len(next))], "\"\\$`")):
			b.WriteRune(r)
		case r == '\\':
			escaped = true
		case strings.ContainsRune(" \t\r\n", r):
			if in {
				out = append(out, word{b.String(), began})
				b.Reset()
				in = false
			}
		default:
			b.WriteRune(r)
		}
	}
	if in {
		out = append(out, word{b.String(), began})
	}
	return out
}
