// Package wording puts words together for sentences on screens, in commands and on paper, and knows what of a text may be shown.
package wording

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"
)

// Upper begins a sentence with a capital letter; "pH" stays as it is, and so does a first word with a figure in it, which may be a tag.
func Upper(s string) string {
	if word, _, _ := strings.Cut(s, " "); strings.HasPrefix(s, "pH") || strings.ContainsAny(word, "0123456789") {
		return s
	}
	return first(s, unicode.ToUpper)
}

// Sentence begins with a capital letter and ends with a stop; nothing stays nothing.
func Sentence(s string) string {
	s = strings.TrimSpace(s)
	if s == "" || strings.ContainsRune(".?!", rune(s[len(s)-1])) {
		return Upper(s)
	}
	return Upper(s) + "."
}

// Lower puts the first letter in lower case, for a title inside a sentence.
func Lower(s string) string { return first(s, unicode.ToLower) }

func first(s string, to func(rune) rune) string {
	r, n := utf8.DecodeRuneInString(s)
	if n == 0 || r == utf8.RuneError {
		return s
	}
	return string(to(r)) + s[n:]
}

// Named is the name of a value of an enumeration; of one outside its names the type and the number, such as "Rank(17)".
func Named[T ~int](value T, names ...string) string {
	if value < 0 || int(value) >= len(names) {
		_, kind, _ := strings.Cut(fmt.Sprintf("%T", value), ".")
		return fmt.Sprintf("%s(%d)", kind, value)
	}
	return names[value]
}

// Counted is a number with its noun, "1 dip", "3 dips".
func Counted(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return strconv.Itoa(n) + " " + noun + "s"
}

// Minutes is a stretch of time as a clock counts it, "4:10" or "1:02:30"; what is less than a second is left out. Not below zero.
func Minutes(d time.Duration) string {
	s := int64(d / time.Second)
	out := make([]byte, 0, len("100:00:00"))
	two := func(n int64) { out = append(out, ':', byte('0'+n/10), byte('0'+n%10)) }
	if s >= 3600 {
		out = strconv.AppendInt(out, s/3600, 10)
		two(s / 60 % 60)
	} else {
		out = strconv.AppendInt(out, s/60, 10)
	}
	two(s % 60)
	return string(out)
}

// Nights is how many nights lie between two times by their dates, the first before the second: less than 0 where it is after it.
func Nights(from, to time.Time) int {
	noon := func(t time.Time) time.Time { return time.Date(t.Year(), t.Month(), t.Day(), 12, 0, 0, 0, time.UTC) }
	return int(noon(to).Sub(noon(from)).Hours() / 24)
}

// Thousands is a whole number as it is read, "1,000".
func Thousands(n int) string {
	s := strconv.Itoa(n)
	for i := len(s) - 3; i > 0 && s[i-1] != '-'; i -= 3 {
		s = s[:i] + "," + s[i:]
	}
	return s
}

// Each is a list with something else in the place of each of it; nil where it is empty.
func Each[T, U any](list []T, as func(T) U) (out []U) {
	out = slices.Grow(out, len(list))
	for _, x := range list {
		out = append(out, as(x))
	}
	return out
}

// First is the first of a list that is as asked; false where none is.
func First[T any](list []T, is func(T) bool) (first T, ok bool) {
	if i := slices.IndexFunc(list, is); i >= 0 {
		return list[i], true
	}
	return first, false
}

// Only are those of a list that are as asked.
func Only[T any](list []T, is func(T) bool) []T {
	var out []T
	for _, one := range list {
		if is(one) {
			out = append(out, one)
		}
	}
	return out
}

// Some are what is made of a list, without what it says no to.
func Some[T, U any](list []T, as func(T) (U, bool)) (out []U) {
	for _, one := range list {
		if made, ok := as(one); ok {
			out = append(out, made)
		}
	}
	return out
}

// Once is a list without what stands in it before.
func Once[T comparable](list []T) (out []T) {
	for _, one := range list {
		if !slices.Contains(out, one) {
			out = append(out, one)
		}
	}
	return out
}

// Count is how many of a list are as asked.
func Count[T any](list []T, is func(T) bool) (n int) {
	for _, one := range list {
		if is(one) {
			n++
		}
	}
	return n
}

// Sum is what all of a list come to.
func Sum[T any, N ~int | ~int64 | ~float64](list []T, of func(T) N) (sum N) {
	for _, one := range list {
		sum += of(one)
	}
	return sum
}

// Most is the largest figure of a list; 0 where none is above it.
func Most[T any, N ~int | ~int64 | ~float64](list []T, of func(T) N) (most N) {
	for _, one := range list {
		most = max(most, of(one))
	}
	return most
}

// Told is what was told; where nothing was, what goes instead.
func Told[T any](told *T, instead T) T {
	if told != nil {
		return *told
	}
	return instead
}

// Read sets what is pointed at to what a text says; on error it stays.
func Read[T any](into *T, text []byte, parse func(string) (T, error)) error {
	v, err := parse(string(text))
	if err == nil {
		*into = v
	}
	return err
}

// Filled are the words that are not empty, without the space around them.
func Filled(parts ...string) []string {
	var out []string
	for _, p := range parts {
		if p = strings.TrimSpace(p); p != "" {
			out = append(out, p)
		}
	}
	return out
}

// If is what is said only where something is so; else nothing.
func If(so bool, words string) string {
	if !so {
		return ""
	}
	return words
}

// Either is the one where something is so, else the other.
func Either[T any](so bool, one, other T) T {
	if so {
		return one
	}
	return other
}

// Joined are the words that are not empty, with a separator between.
func Joined(sep string, parts ...string) string { return strings.Join(Filled(parts...), sep) }

// Because is a reason behind a colon; empty where there is none.
func Because(why string) string {
	if why == "" {
		return ""
	}
	return ": " + why
}

// OneLine is an error, or several that were joined, as one line.
func OneLine(err error) string { return strings.ReplaceAll(Of(err), "\n", "; ") }

// Of is an error in words; empty where there is none.
func Of(err error) string {
	if err == nil {
		return ""
	}
	return err.Error()
}

// Typed is what was typed, fit to stand in a sentence: on one line, with nothing that cannot be shown, at most 40 letters.
func Typed(s string) string {
	out := []rune(strings.Map(func(r rune) rune {
		switch {
		case unicode.IsSpace(r):
			return ' '
		case !unicode.IsPrint(r) || r == unicode.ReplacementChar:
			return '?'
		}
		return r
	}, strings.TrimSpace(s)))
	if len(out) < 40 {
		return string(out)
	}
	return strings.TrimSpace(string(out[:39])) + "…"
}

// List is words in a sentence, with commas between them; "none" where there are none.
func List(words []string) string {
	if len(words) == 0 {
		return "none"
	}
	return strings.Join(words, ", ")
}
