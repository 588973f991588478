package widget

import (
	"strings"

	"example.org/vatside/model/wording"
	"example.org/vatside/ui/style"
)

// between is the columns between two keys of the last line.
const between = 3

// keyLine is the last line.
func keyLine(keys []Key, width int, st style.Style) string {
	var b strings.Builder
	at := 0
	for _, k := range placed(keys, width) {
		b.WriteString(strings.Repeat(" ", max(0, k.from-at)) + label(k.Key))
		at = max(at, k.from) + style.Width(label(k.Key))
	}
	return st.Dim.Render(clip(b.String(), width, st.Glyphs.Ellipsis))
}

// A keyAt is the key of a number, with the column at which it begins.
type keyAt struct {
	Key
	no, from int
}

// placed are the keys that fit, one after the other; first aid stands at the right end, where it is on every screen.
func placed(keys []Key, width int) []keyAt {
	var out []keyAt
	from := 0
	for _, i := range keysThatFit(keys, width) {
		k := keyAt{keys[i], i, from}
		if k.Key.Key == "!" {
			k.from = max(from, width-style.Width(label(k.Key)))
		}
		out = append(out, k)
		from = k.from + style.Width(label(k.Key)) + between
	}
	return out
}

// label is a key and what it does.
func label(k Key) string { return k.Key + " " + k.Desc }

// keysThatFit drops keys from the middle where the line is short: the first, which goes on, and the last two, help and first
// aid, stay longest.
func keysThatFit(keys []Key, width int) []int {
	fit := make([]int, len(keys))
	for i := range keys {
		fit[i] = i
	}
	long := func() int {
		return between*(len(fit)-1) + wording.Sum(fit, func(i int) int { return style.Width(label(keys[i])) })
	}
	for len(fit) > 1 && long() > width {
		i := max(1, len(fit)-3)
		fit = append(fit[:i], fit[i+1:]...)
	}
	return fit
}
