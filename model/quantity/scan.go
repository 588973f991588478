package quantity

import (
	"cmp"
	"math"
	"strconv"
	"strings"
	"unicode/utf8"

	"example.org/vatside/model/wording"
)

// term is one number as typed and the text after it, which should be a unit.
type term struct {
	number
	unit string
}

// number is a number as typed: decimal figures and a power of ten, plus a fraction for "1 1/2".
type number struct {
	figures  string // digits with at most one point
	exponent int
	fraction float64 // 0 to 1, on top of figures
	negative bool
}

// value is the number times 10^ten, rounded once. It may be ±Inf, which the caller refuses.
func (n number) value(ten int) float64 {
	v, _ := strconv.ParseFloat(n.figures+"e"+strconv.Itoa(n.exponent+ten), 64)
	if n.fraction != 0 {
		v += n.fraction * math.Pow10(n.exponent+ten)
	}
	if n.negative && v != 0 {
		return -v
	}
	return v
}

// tidy maps what keyboards, phones and copied pages put in place of plain signs.
var tidy = strings.NewReplacer(
	"\u00a0", " ", "\u2007", " ", "\u2009", " ", "\u200a", " ", "\u202f", " ", "\t", " ", // spaces that do not break
	"\u2212", "-", "\ufe63", "-", "\uff0d", "-", // minus signs
	"\u00ba", "°", "\u02da", "°", "\u2103", "°C", "\u2109", "°F", // what stands for the degree sign
	"\u2044", "/", "\u2215", "/", // fraction and division slashes
	"¼", " 1/4", "½", " 1/2", "¾", " 3/4", "⅓", " 1/3", "⅔", " 2/3", "⅛", " 1/8", "⅜", " 3/8", "⅝", " 5/8", "⅞", " 7/8",
)

// isTidy tells of a text in which tidy has nothing to do: of ASCII without a tab, and degree signs.
func isTidy(s string) bool {
	return !strings.ContainsFunc(s, func(r rune) bool { return r >= utf8.RuneSelf && r != '°' || r == '\t' })
}

// tidied is a text with plain signs, and no blanks around it.
func tidied(s string) string {
	if !isTidy(s) {
		s = tidy.Replace(s)
	}
	return strings.TrimSpace(s)
}

type scanner struct {
	input string // as typed, for the sentences
	s     string // tidied
	i     int
	want  trait
}

func (sc *scanner) fail(c Code, reason string) error {
	return &ParseError{Input: sc.input, Want: sc.want.name, Code: c, Reason: reason}
}

func digit(s string, i int) bool { return i < len(s) && s[i] >= '0' && s[i] <= '9' }

func digits(s string, i int) int {
	for digit(s, i) {
		i++
	}
	return i
}

// terms reads the whole text as number, unit, number, unit …
func (sc *scanner) terms() ([]term, error) {
	sc.s = tidied(sc.input)
	if sc.s == "" {
		return nil, sc.fail(Empty, "nothing was typed; "+sc.want.article+" is needed, such as "+sc.want.example)
	}
	if !utf8.ValidString(sc.input) {
		return nil, sc.fail(BadNumber, "the text cannot be read; "+sc.want.article+" is needed, such as "+sc.want.example)
	}
	var out []term
	for sc.i < len(sc.s) {
		n, err := sc.number(len(out) == 0)
		if err != nil {
			return nil, err
		}
		out = append(out, term{n, sc.unit()})
	}
	return out, nil
}

// unit takes the text up to the next number. A 2 or 3 that closes a unit, as in "ft2" or "in3", belongs to it.
func (sc *scanner) unit() string {
	start := sc.i
	for sc.i < len(sc.s) && !digit(sc.s, sc.i) && !(sc.s[sc.i] == '.' && digit(sc.s, sc.i+1)) {
		sc.i++
	}
	text := sc.s[start:sc.i]
	if sc.i < len(sc.s) && (sc.s[sc.i] == '2' || sc.s[sc.i] == '3') && sc.powerEnds(text) {
		text = text + sc.s[sc.i:sc.i+1]
		sc.i++
		for sc.i < len(sc.s) && sc.s[sc.i] == ' ' {
			sc.i++
		}
	}
	return strings.TrimSpace(text)
}

// powerEnds tells whether the 2 or 3 at hand is a power: after "m", "cm", "dm", "in", "ft", "yd" with no space, and
// last in the text. "5 ft3 in" is then five feet and three inches, as it looks.
func (sc *scanner) powerEnds(text string) bool {
	if strings.TrimSpace(sc.s[sc.i+1:]) != "" {
		return false
	}
	switch strings.ToLower(strings.TrimSpace(strings.TrimSuffix(text, "^"))) {
	case "m", "cm", "dm", "in", "ft", "yd":
		return !strings.HasSuffix(text, " ")
	}
	return false
}

// number reads a sign (on the first number only), figures in the ways people write them, a power of ten, a fraction.
func (sc *scanner) number(first bool) (number, error) {
	var n number
	s := sc.s
	if first && (s[sc.i] == '-' || s[sc.i] == '+') {
		n.negative = s[sc.i] == '-'
		for sc.i++; sc.i < len(s) && s[sc.i] == ' '; sc.i++ {
		}
	}
	start := sc.i
	if !digit(s, sc.i) && !(sc.i < len(s) && (s[sc.i] == '.' || s[sc.i] == ',') && digit(s, sc.i+1)) {
		return n, sc.noNumber()
	}
	sc.i = digits(s, sc.i)
	// Thousands set apart by a space, "1 500 g": one to three figures, then groups of exactly three.
	if w := sc.i - start; w >= 1 && w <= 3 {
		for sc.i+1 < len(s) && s[sc.i] == ' ' && digits(s, sc.i+1) == sc.i+4 && !(sc.i+4 < len(s) && s[sc.i+4] == '/') {
			sc.i += 4
		}
	}
	n.figures = strings.ReplaceAll(s[start:sc.i], " ", "")
	whole := true
	if sc.i < len(s) && (s[sc.i] == '.' || s[sc.i] == ',') && digit(s, sc.i+1) {
		whole = false
		comma := s[sc.i] == ','
		end := digits(s, sc.i+1)
		decimals := s[sc.i+1 : end]
		if end < len(s) && (s[end] == '.' || s[end] == ',') && digit(s, end+1) {
			return n, sc.fail(Ambiguous, wording.Typed(sc.input)+" has two decimal marks; write thousands without a mark, such as 1500.5")
		}
		if comma && len(decimals) == 3 {
			return n, sc.threeFigures(n.figures, decimals, s[end:])
		}
		n.figures += "." + decimals
		sc.i = end
	}
	if sc.i < len(s) && (s[sc.i] == 'e' || s[sc.i] == 'E') {
		j := sc.i + 1
		if j < len(s) && (s[j] == '-' || s[j] == '+') {
			j++
		}
		if digit(s, j) {
			end := digits(s, j)
			if end-j > 4 {
				return n, sc.fail(OutOfRange, wording.Typed(sc.input)+" is too large or too small a number")
			}
			n.exponent, _ = strconv.Atoi(s[sc.i+1 : end])
			sc.i, whole = end, false
		}
	}
	if whole {
		return n, sc.fraction(&n)
	}
	return n, nil
}

// fraction reads "1/2" when the figures so far are its upper part, or " 1/2" after a whole number.
func (sc *scanner) fraction(n *number) error {
	s, j := sc.s, sc.i
	upper := n.figures
	mixed := false
	if j < len(s) && s[j] == ' ' && digit(s, j+1) {
		end := digits(s, j+1)
		upper, j, mixed = s[j+1:end], end, true
	}
	if j >= len(s) || s[j] != '/' || !digit(s, j+1) {
		return nil
	}
	end := digits(s, j+1)
	a, _ := strconv.ParseFloat(upper, 64)
	b, _ := strconv.ParseFloat(s[j+1:end], 64)
	if b == 0 || math.IsInf(a, 0) || math.IsInf(b, 0) {
		return sc.fail(BadNumber, wording.Typed(sc.input)+" holds a fraction that cannot be reckoned")
	}
	n.fraction = a / b
	if !mixed {
		n.figures = "0"
	}
	sc.i = end
	return nil
}

// noNumber says what is wrong where a number should begin.
func (sc *scanner) noNumber() error {
	low := strings.ToLower(strings.TrimLeft(sc.s, "+-"))
	for _, w := range []string{"nan", "inf"} {
		if strings.HasPrefix(low, w) {
			return sc.fail(BadNumber, wording.Typed(sc.input)+" is not a number; "+sc.want.article+" is needed, such as "+sc.want.example)
		}
	}
	return sc.fail(BadNumber, wording.Typed(sc.input)+" does not begin with a number; "+sc.want.article+" is needed, such as "+sc.want.example)
}

// threeFigures refuses a comma with exactly three figures after it: a thousand to some, a decimal to others.
func (sc *scanner) threeFigures(before, after, rest string) error {
	before = cmp.Or(before, "0")
	small := before
	if d := strings.TrimRight(after, "0"); d != "" {
		small += "." + d
	}
	large := cmp.Or(strings.TrimLeft(before+after, "0"), "0")
	rest = wording.Typed(rest)
	if rest != "" {
		large, small = large+" "+rest, small+" "+rest
	}
	return sc.fail(Ambiguous, wording.Typed(sc.input)+" could be "+large+" or "+small+"; write it without the comma")
}
