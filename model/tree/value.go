package tree

import (
	"math"
	"strconv"
	"strings"
	"time"
)

// value reads one value; false where it is not plain.
func (r *reader) value() (any, bool) {
	switch c := r.next(); c {
	case '"':
		return r.quoted()
	case '[':
		return r.list()
	case '\n':
		return nil, false
	}
	from := r.at
	for r.at < len(r.text) && (bare(r.text[r.at]) || r.text[r.at] == '.' || r.text[r.at] == ':' || r.text[r.at] == '+') {
		r.at++
	}
	word := r.text[from:r.at]
	switch {
	case word == "true":
		return true, true
	case word == "false":
		return false, true
	case len(word) > len(dateForm) && word[4] == '-':
		return instant(word)
	}
	return number(word)
}

func (r *reader) list() (any, bool) {
	r.at++
	out := []any{}
	for {
		r.blanks()
		if r.next() == ']' && len(out) == 0 {
			r.at++
			return out, true
		}
		if r.next() == '[' { // a list of lists
			return nil, false
		}
		v, ok := r.value()
		if !ok {
			return nil, false
		}
		out = append(out, v)
		r.blanks()
		c := r.next()
		r.at++
		switch c {
		case ',':
		case ']':
			return out, true
		default:
			return nil, false
		}
	}
}

// quoted reads a text between double quotes, which may hold escaped quotes, backslashes, tabs and line feeds.
func (r *reader) quoted() (any, bool) {
	rest := r.text[r.at+1:]
	n := strings.IndexAny(rest, "\"\\\n")
	if n < 0 || rest[n] == '\n' {
		return nil, false
	}
	if rest[n] == '"' {
		r.at += n + 2
		return rest[:n], !hasControl(rest[:n]) // of """ the third is no end of the value
	}
	var b strings.Builder
	for {
		if n = strings.IndexAny(rest, "\"\\\n"); n < 0 || rest[n] == '\n' || hasControl(rest[:n]) {
			return nil, false
		}
		b.WriteString(rest[:n])
		if rest[n] == '"' {
			r.at = len(r.text) - len(rest) + n + 1
			return b.String(), true
		}
		if n+1 == len(rest) {
			return nil, false
		}
		switch rest[n+1] {
		case '"', '\\':
			b.WriteByte(rest[n+1])
		case 'n':
			b.WriteByte('\n')
		case 't':
			b.WriteByte('\t')
		default:
			return nil, false
		}
		rest = rest[n+2:]
	}
}

// number reads 12, -3, 0.5 or -0.25: figures, with a point or without, and no zero before others.
func number(word string) (any, bool) {
	figures, minus := strings.CutPrefix(word, "-")
	whole := 0
	for whole < len(figures) && figures[whole] >= '0' && figures[whole] <= '9' {
		whole++
	}
	if whole == 0 || whole > 18 || figures[0] == '0' && whole > 1 {
		return nil, false
	}
	if whole == len(figures) {
		n, err := strconv.ParseInt(word, 10, 64)
		return n, err == nil && (n != 0 || !minus)
	}
	if figures[whole] != '.' || whole+1 == len(figures) {
		return nil, false
	}
	for _, c := range []byte(figures[whole+1:]) {
		if c < '0' || c > '9' {
			return nil, false
		}
	}
	f, err := strconv.ParseFloat(word, 64)
	return f, err == nil && (f != 0 || !minus)
}

// dateForm and what follows it is how an instant is written; a 0 stands for any figure.
const (
	dateForm = "0000-00-00T00:00:00"
	zoneForm = "00:00"
)

// instant reads 2026-11-25T09:30:00+01:00, or with Z, perhaps with a fraction of a second.
func instant(word string) (any, bool) {
	if !formed(word[:len(dateForm)], dateForm) {
		return nil, false
	}
	rest := word[len(dateForm):]
	if rest[0] == '.' {
		figures := 1
		for figures < len(rest) && rest[figures] >= '0' && rest[figures] <= '9' {
			figures++
		}
		if figures == 1 || figures > 10 {
			return nil, false
		}
		rest = rest[figures:]
	}
	if rest != "Z" && (rest == "" || rest[0] != '+' && rest[0] != '-' || !formed(rest[1:], zoneForm)) {
		return nil, false
	}
	t, err := time.ParseInLocation(time.RFC3339Nano, word, time.Local) // as the toml package does
	return t, err == nil
}

// formed tells whether a text has figures where a form has zeros, and the form's own characters elsewhere.
func formed(s, form string) bool {
	if len(s) != len(form) {
		return false
	}
	for i := range len(s) {
		if figure := s[i] >= '0' && s[i] <= '9'; form[i] == '0' && !figure || form[i] != '0' && s[i] != form[i] {
			return false
		}
	}
	return true
}

// Number is a finite number, written with or without a point.
func Number(raw any) (float64, bool) {
	switch n := raw.(type) {
	case int64:
		return float64(n), true
	case float64:
		return n, !math.IsNaN(n) && !math.IsInf(n, 0)
	}
	return 0, false
}
