package widget

import (
	"strings"

	"example.org/vatside/ui/style"
)

// between is the columns between two keys of the last line.
const between = 3

// keyLine is the last line.
func keyLine(keys []Key, width int, st style.Style) string {
	var parts []string
	for _, i := range keysThatFit(keys, width) {
		parts = append(parts, keys[i].words())
	}
	return st.Dim.Render(clip(strings.Join(parts, strings.Repeat(" ", between)), width, st.Glyphs.Ellipsis))
}

func (k Key) words() string { return k.Key + " " + k.Does }

// keysThatFit drops keys from the middle where the line is short: the first, which goes on, and the last two, help and first
// aid, stay longest.
func keysThatFit(keys []Key, width int) []int {
	fit := make([]int, len(keys))
	for i := range keys {
		fit[i] = i
	}
	long := func() int {
		n := between * (len(fit) - 1)
		for _, i := range fit {
			n += style.Width(keys[i].words())
		}
		return n
	}
	for len(fit) > 1 && long() > width {
		i := max(1, len(fit)-3)
		fit = append(fit[:i], fit[i+1:]...)
	}
	return fit
}
