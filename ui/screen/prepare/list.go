package prepare

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/charmbracelet/x/ansi"

	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/style"
	"example.org/vatside/ui/widget"
)

// detailRows is what the item under the cursor has for its words.
const detailRows = 3

// perItems is how many items a page of the checklist of so many rows has.
func perItems(rows int) int { return max(1, rows-1-detailRows) }

// empty is the sheet before anything is laid on it.
func (s prepare) empty(f facts) *widget.Sheet {
	return &widget.Sheet{Head: widget.Head{Left: "before the day"}, Foot: []string{f.foot(s)}}
}

// alone tells whether the window has room for one of times and checklist only.
func (s prepare) alone(f facts, env screen.Env) bool {
	_, _, how := s.lay(s.empty(f), f, env)
	return how == one
}

// perPage is the same for the window as it is.
func (s prepare) perPage(f facts, env screen.Env) int {
	s.list = true
	_, rows, how := s.lay(s.empty(f), f, env)
	if how == under {
		rows -= timesRows(f, rows) + 1
	}
	return perItems(rows)
}

// pageOf is which items are shown with one of them.
func pageOf(item, n, per int) (from, to int) {
	from = item / per * per
	return from, min(from+per, n)
}

// checklist is a page of items, and the words of the one under the cursor.
func (s prepare) checklist(f facts, columns, rows int, st style.Style) []string {
	done := 0
	for _, i := range f.items {
		if s.ticked[i.ID] {
			done++
		}
	}
	from, to := pageOf(s.item, len(f.items), perItems(rows))
	head := fmt.Sprintf("checklist, %d of %d ticked", done, len(f.items))
	if to-from < len(f.items) {
		head += fmt.Sprintf("; %d to %d", from+1, to)
	}
	out := []string{st.Dim.Render(ansi.Truncate(st.Glyphs.Text(head), columns, ""))}
	var list []widget.Choice
	for i := from; i < to; i++ {
		box := "[ ]"
		if s.ticked[f.items[i].ID] {
			box = "[x]"
		}
		no := " "
		if i-from < 9 { // the key that ticks it
			no = strconv.Itoa(i - from + 1)
		}
		list = append(list, widget.Choice{Text: box + " " + no + " " + f.items[i].What})
	}
	out = append(out, widget.Pick(list, s.item-from, columns, len(list), st)...)
	at := f.items[s.item]
	words := ansi.Wordwrap(st.Glyphs.Text(sentence(at.When.String()+": "+at.What)+" "+sentence(at.Why)), max(columns-4, 20), "")
	for i, l := range strings.Split(words, "\n") {
		if i < detailRows && len(out) < rows {
			out = append(out, "    "+st.Dim.Render(l))
		}
	}
	return out
}
