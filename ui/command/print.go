package command

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"example.org/vatside/model/quantity"
)

// lineWidth is how many columns a line of text takes at most.
const lineWidth = 100

// A table is figures, right-aligned so that they stand in a column, each with what it is of.
type table [][2]string

func (t *table) add(number, text string) { *t = append(*t, [2]string{number, text}) }

func (p *program) table(t table) {
	width := 10
	for _, row := range t {
		width = max(width, utf8.RuneCountInString(row[0]))
	}
	for _, row := range t {
		head := strings.Repeat(" ", width-utf8.RuneCountInString(row[0])) + row[0] + "  "
		p.fold(head, strings.Repeat(" ", width+2), row[1])
	}
}

// note prints a word and a sentence, folded under itself.
func (p *program) note(word, sentence string) {
	if sentence = strings.TrimSuffix(strings.TrimSpace(sentence), "."); sentence == "" {
		return
	}
	first, n := utf8.DecodeRuneInString(sentence)
	if word == "" {
		sentence = string(unicode.ToUpper(first)) + sentence[n:]
	} else {
		word += ": "
	}
	p.fold(word, "  ", sentence+".")
}

// fold prints text after a head, and what does not fit on lines of their own after an indent.
func (p *program) fold(head, indent, text string) {
	line := head
	for i, word := range strings.Fields(strings.ReplaceAll(glued(text), "\n", " ")) {
		word = strings.ReplaceAll(word, "\u00a0", " ")
		switch {
		case i == 0:
			line += word
		case utf8.RuneCountInString(line)+1+utf8.RuneCountInString(word) > lineWidth:
			p.say("%s", line)
			line = indent + word
		default:
			line += " " + word
		}
	}
	p.say("%s", strings.TrimRight(line, " "))
}

// glued keeps a number and its unit on one line.
func glued(text string) string {
	for _, unit := range []string{"°C", "°F", "L", "mL", "g", "mg", "kg", "min", "h", "s", "%", "mg/L", "g/L", "gal", "oz", "lb", "in", "cm", "m²", "kW", "W"} {
		for i := range 10 {
			d := string(rune('0' + i))
			text = strings.ReplaceAll(text, d+" "+unit+" ", d+"\u00a0"+unit+" ")
		}
	}
	return text
}

// between is a range as it is printed: one unit if both ends have the same.
func between(low, high string) string {
	l, lu, _ := strings.Cut(low, " ")
	h, hu, _ := strings.Cut(high, " ")
	switch {
	case low == high:
		return low
	case lu == hu && !strings.ContainsAny(lu, "0123456789"):
		return l + "–" + h + " " + hu
	}
	return low + " to " + high
}

// formatted is a quantity that prints itself.
type formatted interface {
	~int64 | ~float64
	Format(quantity.System) string
}

// rangeOf is a range in words, wide what stands behind the likely figure of one.
func rangeOf[T formatted](r quantity.Range[T], sys quantity.System) string {
	return between(r.Low.Format(sys), r.High.Format(sys))
}

func wide[T formatted](r quantity.Range[T], sys quantity.System) string {
	if r.Low == r.High {
		return ""
	}
	return ", " + rangeOf(r, sys)
}
