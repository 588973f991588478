package colour

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"example.org/vatside/model/wording"
)

// mostOpponent bounds a and b as typed. What sRGB can show reaches ±108, what any surface can ±150 or so (from memory).
const mostOpponent = 160

// example stands in every refusal.
const example = "write L, a and b, such as 31 -3 -20"

// String is the colour to one decimal as ParseLab reads it: "lab 31.0 -3.0 -20.0". It names no viewing condition.
func (l Lab) String() string {
	one := func(v float64) string {
		s := strconv.FormatFloat(v, 'f', 1, 64)
		if s == "-0.0" {
			return "0.0"
		}
		return s
	}
	return "lab " + one(l.L) + " " + one(l.A) + " " + one(l.B)
}

// ParseLab reads a colour as it is typed or copied from an instrument, and the viewing condition that it names, D65At2 if it
// names none: "31,-3,-20", "31 -3 -20", "31; -3; -20", "[31.0, -3.0, -20.0]", "lab 31 -3 -20", "lab@D50/10 31 -3 -20".
// L is from 0 to 100, a and b within ±160. A minus sign may be − too. The comma is a decimal comma where nothing else can
// be meant, with semicolons or only spaces between the numbers: "31,5; -3,2; -20,1"; where either could be meant it is refused.
//
// The error is an *Error with one sentence; for an unknown condition it lists the known ones.
func ParseLab(s string) (Lab, Observer, error) {
	observer, rest, err := cutCondition(strings.TrimSpace(s))
	if err != nil {
		return Lab{}, D65At2, err
	}
	parts, err := threeParts(unbracket(rest))
	if err != nil {
		return Lab{}, D65At2, err
	}
	var v [3]float64
	for i, name := range [3]string{"L", "a", "b"} {
		if v[i], err = number(name, parts[i]); err != nil {
			return Lab{}, D65At2, err
		}
	}
	if v[0] < 0 || v[0] > 100 {
		return Lab{}, D65At2, fault(fmt.Sprintf("L is %g, and it goes from 0, black, to 100, white", v[0]))
	}
	for i, name := range [2]string{"a", "b"} {
		if math.Abs(v[i+1]) > mostOpponent {
			return Lab{}, D65At2, fault(fmt.Sprintf("%s is %g, and no cloth goes beyond %d", name, v[i+1], mostOpponent))
		}
	}
	return Lab{v[0], v[1], v[2]}, observer, nil
}

// cutCondition takes "lab" or "lab@D65/10" off the front.
func cutCondition(s string) (Observer, string, error) {
	if len(s) >= 3 && strings.EqualFold(s[:3], "lab") {
		s = strings.TrimLeft(s[3:], " \t")
	}
	if !strings.HasPrefix(s, "@") {
		return D65At2, s, nil
	}
	name, rest := s[1:], ""
	if i := strings.IndexAny(name, " \t[(:"); i >= 0 {
		name, rest = name[:i], name[i:]
	}
	o, err := ParseObserver(name)
	return o, rest, err
}

// unbracket takes off the signs that stand around the numbers: a colon before, one pair of brackets.
func unbracket(s string) string {
	s = strings.TrimSpace(strings.TrimPrefix(strings.TrimSpace(s), ":"))
	for _, pair := range [2]string{"[]", "()"} {
		if len(s) >= 2 && s[0] == pair[0] && s[len(s)-1] == pair[1] {
			return strings.TrimSpace(s[1 : len(s)-1])
		}
	}
	return s
}

// threeParts splits the text into three numbers, with a point for the decimal sign.
func threeParts(s string) ([3]string, error) {
	if s == "" {
		return [3]string{}, fault("no colour is given: " + example)
	}
	s = strings.ReplaceAll(s, "\u2212", "-")
	if parts := strings.Split(s, ";"); len(parts) > 1 {
		return three(s, parts, true)
	}
	spaced := strings.Fields(s)
	if !strings.Contains(s, ",") {
		return three(s, spaced, false)
	}
	if len(spaced) == 3 && inWords(spaced) {
		return three(s, spaced, true)
	}
	parts := strings.Split(s, ",")
	for i, p := range parts {
		parts[i] = strings.TrimSpace(p)
	}
	if n := len(strings.Fields(strings.Join(parts, " "))); len(parts) != n || n != 3 && decimals(s) {
		return [3]string{}, fault(fmt.Sprintf("the commas in %q can be read in two ways: write 31.5 -3.2 -20.1, with points", wording.Typed(s)))
	}
	return three(s, parts, false)
}

// inWords says that the commas stand inside the words, as decimal commas do, and never between them.
func inWords(words []string) bool {
	return !slices.ContainsFunc(words, func(w string) bool { return strings.HasPrefix(w, ",") || strings.HasSuffix(w, ",") })
}

// decimals says whether a comma stands between two digits.
func decimals(s string) bool {
	digit := func(i int) bool { return i >= 0 && i < len(s) && s[i] >= '0' && s[i] <= '9' }
	for i := range len(s) {
		if s[i] == ',' && digit(i-1) && digit(i+1) {
			return true
		}
	}
	return false
}

// three takes three parts, and counts the others.
func three(s string, parts []string, decimalComma bool) ([3]string, error) {
	if len(parts) != 3 {
		return [3]string{}, fault(fmt.Sprintf("a colour is three numbers, and %q has %d: %s", wording.Typed(s), len(parts), example))
	}
	var out [3]string
	for i, p := range parts {
		out[i] = strings.TrimSpace(p)
		if decimalComma && !strings.Contains(p, ".") {
			out[i] = strings.Replace(out[i], ",", ".", 1)
		}
	}
	return out, nil
}

// number reads digits with a sign and a point, and nothing else that Go would take for a number.
func number(name, s string) (float64, error) {
	v, err := strconv.ParseFloat(s, 64)
	if err != nil || strings.Trim(s, "+-.0123456789") != "" {
		return 0, fault(fmt.Sprintf("%q is not a number for %s: %s", wording.Typed(s), name, example))
	}
	if v == 0 {
		v = 0 // not −0
	}
	return v, nil
}
