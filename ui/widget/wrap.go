package widget

import (
	"slices"
	"strings"
	"unicode"

	"github.com/charmbracelet/x/ansi"

	"example.org/vatside/model/quantity"
	"example.org/vatside/ui/style"
)

// A broken text is asked for again each second that it stands on the screen.
var wrapped style.Memory[breaking, []string]

type breaking struct {
	text         string
	first, width int // of the first line, and of the others
}

// Wrap breaks a plain sentence into lines of at most width cells, at blanks only: a word is cut only if
// it is wider than the whole line. A figure stays with its unit ("60 L"), and a no-break space holds too. The lines are not to be
// changed.
func Wrap(s string, width int) []string { return WrapAfter(s, width, width) }

// Words are a text in lines of at most width cells, in an ink.
func Words(text string, width int, ink style.Ink, g style.Glyphs) []string {
	return ink.Lines(Wrap(Drawable(text, g), width))
}

// WrapAfter is Wrap with a first line of another width, for a text that begins behind something else.
func WrapAfter(s string, first, width int) []string {
	return wrapped.Of(breaking{text: s, first: max(first, 1), width: max(width, 1)}, func(of breaking) (lines []string) {
		for _, paragraph := range strings.Split(of.text, "\n") {
			lines = append(lines, wrapOne(paragraph, of.first, of.width)...)
			of.first = of.width
		}
		return slices.Clip(lines)
	})
}

func wrapOne(s string, width, others int) []string {
	var lines []string
	line, gap := "", ""
	flush := func() {
		if line != "" {
			lines, line, width = append(lines, line), "", others
		}
	}
	for _, t := range pieces(s) {
		if t.blank {
			gap = t.text
			continue
		}
		word := strings.ReplaceAll(t.text, "\u00a0", " ")
		switch {
		case line == "":
			line = word
		case style.Width(line+gap+word) <= width:
			line += gap + word
		default:
			flush()
			line = word
		}
		gap = ""
		if style.Width(line) <= width {
			continue
		}
		// Too wide even alone: a figure and its unit part again, any other word is cut.
		if before, after, ok := strings.Cut(word, " "); ok && style.Width(before) <= width && style.Width(after) <= width {
			lines, line, width = append(lines, before), after, others
			continue
		}
		for line = word; style.Width(line) > width; width = others {
			part := ansi.Truncate(line, width, "")
			if part == "" { // a character that is wider than the line
				break
			}
			lines, line = append(lines, part), strings.TrimPrefix(line, part)
		}
	}
	flush()
	return lines
}

// balanced wraps like wrap, but leaves no last line of a word or two where as many lines can share the words better.
func balanced(s string, width int) []string {
	lines := Wrap(s, width)
	for len(lines) > 1 && style.Width(lines[len(lines)-1])*3 < width {
		w := style.Widest(lines) - 1 // down to the widest all stays as it is
		if w <= width/2 {
			break
		}
		closer := Wrap(s, w)
		if len(closer) > len(lines) {
			break
		}
		lines = closer
	}
	return lines
}

type piece struct {
	text  string
	blank bool
}

// pieces splits at runs of blanks and joins figures with their units, and the dot between two facts with the first, by a no-break space.
func pieces(s string) []piece {
	var all []piece
	for s != "" {
		n := strings.IndexFunc(s, func(r rune) bool { return r != ' ' })
		if n < 0 {
			n = len(s)
		}
		if n > 0 {
			all, s = append(all, piece{s[:n], true}), s[n:]
			continue
		}
		if n = strings.IndexByte(s, ' '); n < 0 {
			n = len(s)
		}
		all, s = append(all, piece{text: s[:n]}), s[n:]
	}
	var joined []piece
	for i := 0; i < len(all); i++ {
		t := all[i]
		if i+2 < len(all) && all[i+1].text == " " && isFigure(t.text) && quantity.Written(strings.TrimRight(all[i+2].text, ",.;:)")) {
			t.text += "\u00a0" + all[i+2].text
			i += 2
		}
		if i+2 < len(all) && all[i+1].text == " " && (all[i+2].text == "·" || all[i+2].text == "-") {
			t.text += "\u00a0" + all[i+2].text
			i += 2
		}
		joined = append(joined, t)
	}
	return joined
}

func isFigure(w string) bool {
	return w != "" && unicode.IsDigit(rune(w[len(w)-1])) && !strings.ContainsRune(w, ':')
}

// clip cuts a line that may carry colour to width cells, marking the cut.
func clip(s string, width int, ellipsis string) string {
	if style.Width(s) <= width {
		return s
	}
	if width <= style.Width(ellipsis) {
		return ansi.Truncate(s, max(width, 0), "")
	}
	return ansi.Truncate(s, width, ellipsis)
}

// fitParts drops facts set apart by sep from a line until it fits: from its end, or from its start.
func fitParts(s string, width int, sep string, fromStart bool) string {
	parts := strings.Split(s, sep)
	for len(parts) > 1 && style.Width(strings.Join(parts, sep)) > width {
		if fromStart {
			parts = parts[1:]
		} else {
			parts = parts[:len(parts)-1]
		}
	}
	return strings.Join(parts, sep)
}

// wrapFacts breaks a line of facts, set apart by a dot or by three blanks, between them: only a fact wider
// than the line is wrapped inside.
func wrapFacts(s string, width int, dot string) (lines []string) {
	sep := " " + dot + " "
	if !strings.Contains(s, sep) {
		sep = "   "
	}
	line := ""
	for _, fact := range strings.Split(s, sep) {
		fact = strings.TrimSpace(fact)
		switch {
		case fact == "":
		case line != "" && style.Width(line+sep+fact) <= width:
			line += sep + fact
		default:
			lines = append(lines, Wrap(line, width)...)
			line = fact
		}
	}
	return append(lines, Wrap(line, width)...)
}
