package widget

import (
	"slices"
	"strings"

	"example.org/vatside/ui/style"
)

// cautionLines is the block of a caution, every line equally wide: text, and the key at the right of the
// last one.
func cautionLines(c *Caution, width int, reversed bool) []string {
	if c == nil {
		return nil
	}
	text := strings.TrimSpace(strings.TrimPrefix(c.Text, cautionWord))
	text = cautionWord + "  " + text
	inner := width - 2
	if inner < leastSentence || !reversed {
		inner = width // the block has a margin only where it is seen as one
	}
	lines := slices.Clone(Wrap(text, inner))
	last := len(lines) - 1
	if c.Key != "" {
		free := inner - style.Width(c.Key)
		if style.Width(lines[last])+2 > free {
			lines, last = append(lines, ""), last+1
		}
		lines[last] = clip(style.Pad(lines[last], free)+c.Key, inner, "")
	}
	for i := range lines {
		lines[i] = style.Pad(lines[i], inner)
		if inner < width {
			lines[i] = " " + lines[i] + " "
		}
	}
	return lines
}

// shortened is a caution in fewer rows: its first words and its key stay.
func shortened(lines []string, rows int, dots string) []string {
	if n := len(lines); n > max(rows, 2) {
		rows = max(rows, 2)
		key := lines[n-1]
		lines = slices.Clone(lines[:rows-1])
		last := &lines[rows-2]
		wide := style.Width(*last)
		*last = style.Pad(clip(strings.TrimRight(*last, " ")+" "+dots+dots, wide, dots), wide)
		lines = append(lines, key)
	}
	return lines
}
