package vessel

import (
	"strings"
	"unicode"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/wording"
)

// FormError tells why a text is no vessel: one sentence, without a full stop.
type FormError struct {
	Input  string
	Reason string
}

// Error is the sentence.
func (e *FormError) Error() string { return e.Reason }

// The least and the most that an inside measure may be. Beyond them a unit has been mistaken. M
const (
	smallest = quantity.Length(0.01)
	largest  = quantity.Length(5)
)

// forms are the shapes as they are typed.
var forms = []struct {
	word, measures string
	make           func(m []quantity.Length) Shape
	example        string
	count          int
}{
	{"frustum", "BOTTOM TOP HEIGHT", func(m []quantity.Length) Shape { return Frustum{m[0], m[1], m[2]} }, "frustum 25.4cm 29.9cm 36.8cm", 3},
	{"cylinder", "DIAMETER HEIGHT", func(m []quantity.Length) Shape { return Cylinder{m[0], m[1]} }, "cylinder 40cm 60cm", 2},
	{"box", "LENGTH WIDTH HEIGHT", func(m []quantity.Length) Shape { return Box{m[0], m[1], m[2]} }, "box 60cm 40cm 50cm", 3},
}

const allForms = "frustum BOTTOM TOP HEIGHT, cylinder DIAMETER HEIGHT, box LENGTH WIDTH HEIGHT or jug LITRES=DEPTH … HEIGHT, inside measures such as frustum 25.4cm 29.9cm 36.8cm"

// ParseShape reads the one-line form: "frustum 25.4cm 29.9cm 36.8cm" (diameters of floor and rim, height), "cylinder 40cm
// 60cm" (diameter, height), "box 60cm 40cm 50cm" (length, width, height), "jug 5L=8.4cm 10L=16.1cm 36.8cm" (litres poured so
// far and the depth then, as often as measured, and the height of the rim); inside measures. A space between number and unit
// is accepted. Errors are *FormError, or *quantity.ParseError for a measure that cannot be read.
func ParseShape(s string, sys quantity.System) (Shape, error) {
	words := strings.Fields(s)
	if len(words) == 0 {
		return nil, &FormError{s, "no vessel is given; write " + allForms}
	}
	if strings.EqualFold("jug", words[0]) {
		return parseJug(s, strings.Join(words[1:], " "), sys)
	}
	for _, f := range forms {
		if !strings.EqualFold(f.word, words[0]) {
			continue
		}
		measures := join(words[1:])
		if len(measures) != f.count {
			return nil, &FormError{s, "a " + f.word + " is written " + f.word + " " + f.measures + ", such as " + f.example}
		}
		lengths := make([]quantity.Length, f.count)
		for i, m := range measures {
			l, err := quantity.ParseLength(m, sys)
			if err != nil {
				return nil, err
			}
			lengths[i] = l
		}
		shape := f.make(lengths)
		return shape, check(s, shape)
	}
	return nil, &FormError{s, wording.Typed(words[0]) + " is not a shape known here; write " + allForms}
}

// join puts a unit that stands apart back to its number: "25.4", "cm" is one measure, and so is "5", "L=8.4".
func join(words []string) []string {
	var out []string
	for _, w := range words {
		head, _, _ := strings.Cut(w, "=")
		if n := len(out); n > 0 && !strings.ContainsFunc(head, unicode.IsDigit) && endsInDigit(out[n-1]) {
			out[n-1] += " " + w
			continue
		}
		out = append(out, w)
	}
	return out
}

func endsInDigit(s string) bool {
	last := rune(s[len(s)-1])
	return unicode.IsDigit(last)
}

// check refuses a vessel that cannot be: a measure of nothing, or one that no vat has.
func check(input string, s Shape) error {
	for _, m := range s.measures() {
		switch {
		case !(m >= smallest):
			return &FormError{input, "a vessel has no measure below " + smallest.String() + "; " + m.String() + " is given"}
		case m > largest:
			return &FormError{input, "a vessel has no measure above " + largest.Format(quantity.Metric) + "; " + m.String() + " is given"}
		}
	}
	if j, ok := s.(Jug); ok {
		return j.fault(input)
	}
	return nil
}

func (f Frustum) measures() []quantity.Length  { return []quantity.Length{f.Bottom, f.Top, f.Height} }
func (c Cylinder) measures() []quantity.Length { return []quantity.Length{c.Diameter, c.Height} }
func (b Box) measures() []quantity.Length      { return []quantity.Length{b.Length, b.Width, b.Height} }

// String is "frustum BOTTOM TOP HEIGHT", exact.
func (f Frustum) String() string { return line("frustum", f) }

// String is "cylinder DIAMETER HEIGHT", exact.
func (c Cylinder) String() string { return line("cylinder", c) }

// String is "box LENGTH WIDTH HEIGHT", exact.
func (b Box) String() string { return line("box", b) }

func line(word string, s Shape) string {
	for _, m := range s.measures() {
		word += " " + bare(m)
	}
	return word
}
