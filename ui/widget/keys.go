package widget

import (
	"strings"

	"github.com/charmbracelet/x/ansi"

	"example.org/vatside/ui/style"
)

// keyLine drops keys from the middle where the line is short: the first, which goes on, and the last two,
// help and first aid, stay longest.
func keyLine(keys []Key, width int, st style.Style) string {
	keys = append([]Key(nil), keys...)
	long := func() int {
		n := 3 * (len(keys) - 1)
		for _, k := range keys {
			n += ansi.StringWidth(k.Key + " " + k.Does)
		}
		return n
	}
	for len(keys) > 1 && long() > width {
		i := max(1, len(keys)-3)
		keys = append(keys[:i], keys[i+1:]...)
	}
	parts := make([]string, len(keys))
	for i, k := range keys {
		parts[i] = k.Key + " " + k.Does
	}
	return st.Dim.Render(clip(strings.Join(parts, "   "), width, st.Glyphs.Ellipsis))
}
