package command

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"example.org/vatside/ui/style"
	"example.org/vatside/ui/widget"
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
	text = strings.Join(strings.Fields(text), " ")
	if text == "" {
		p.say("%s", strings.TrimRight(head, " "))
	}
	for _, line := range widget.WrapAfter(text, lineWidth-style.Width(head), lineWidth-style.Width(indent)) {
		p.say("%s", head+line)
		head = indent
	}
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
