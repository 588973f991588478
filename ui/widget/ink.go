package widget

import (
	"strings"

	"example.org/vatside/model/wording"
	"example.org/vatside/ui/style"
)

// inked is a line that may carry ink with nothing else in it that a terminal would obey: what is no ink of ours, an SGR sequence
// such as ESC [1;34m, passes wording.Show. That no ink stands in what the dyer or a file says is for whoever takes it in
// (wording.Fit): here nobody can tell it from ours.
func inked(line string) string {
	from := strings.IndexByte(line, '\x1b')
	if from < 0 {
		return wording.Show(line).String()
	}
	clean := true
	for rest := line; clean && rest != ""; {
		words, ink := untilInk(rest)
		clean = wording.Show(words).String() == words
		rest = rest[len(words)+ink:]
	}
	if clean {
		return line
	}
	var b strings.Builder
	for rest := line; rest != ""; {
		words, ink := untilInk(rest)
		b.WriteString(wording.Show(words).String())
		b.WriteString(rest[len(words) : len(words)+ink])
		rest = rest[len(words)+ink:]
	}
	return b.String()
}

// untilInk parts a line before its first ink, and tells how long that is; 0 if there is none.
func untilInk(line string) (words string, ink int) {
	for from := 0; ; {
		at := strings.IndexByte(line[from:], '\x1b')
		if at < 0 {
			return line, 0
		}
		at += from
		if n := style.InkAt(line[at:]); n > 0 {
			return line[:at], n
		}
		from = at + 1
	}
}
