package prepare

import (
	"fmt"
	"strconv"

	"github.com/charmbracelet/x/ansi"

	"example.org/vatside/model/practice"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/style"
	"example.org/vatside/ui/widget"
)

// detail is the words of an item, whole: a warning that ends in the middle is none.
func detail(i practice.Item, columns int, st style.Style) []string {
	words := wording.Sentence(i.When.String()+": "+i.What) + " " + wording.Sentence(i.Why)
	return widget.Wrap(st.Glyphs.Text(words), max(columns-4, 20))
}

// perItems is how many items a page of the checklist of so many rows has: under it stand the longest words of any of them.
func perItems(f facts, columns, rows int, st style.Style) int {
	longest := wording.Most(f.items, func(i practice.Item) int { return len(detail(i, columns, st)) })
	return max(1, rows-1-longest, min(leastItems, rows-1-leastDetail))
}

// leastItems and leastDetail are what a page has of both in the smallest window, where the words may have to be cut.
const leastItems, leastDetail = 4, 3

// empty is the sheet before anything is laid on it.
func (s prepare) empty(f facts) *widget.Sheet {
	return &widget.Sheet{Head: widget.Head{Left: "before the day"}, Foot: []string{f.foot(s)}}
}

// alone tells whether the window has room for one of times and checklist only.
func (s prepare) alone(f facts, env screen.Env) bool {
	_, _, how := s.lay(s.empty(f), f, env)
	return how == one
}

// hidden tells whether the checklist is out of sight: the times stand alone.
func (s prepare) hidden(f facts, env screen.Env) bool { return !s.list && s.alone(f, env) }

// perPage is how many items a page has in the window as it is.
func (s prepare) perPage(f facts, env screen.Env) int {
	s.list = true
	columns, rows, how := s.lay(s.empty(f), f, env)
	switch how {
	case under:
		rows -= timesRows(f, rows) + 1
	case beside:
		columns = halves(columns)
	}
	return perItems(f, columns, rows, env.Style)
}

// pageOf is which items are shown with one of them.
func pageOf(item, n, per int) (from, to int) {
	from = item / per * per
	return from, min(from+per, n)
}

// checklist is a page of items, and the words of the one under the cursor.
func (s prepare) checklist(f facts, columns, rows int, st style.Style) widget.List {
	done := wording.Count(f.items, func(i practice.Item) bool { return s.ticked[i.ID] })
	from, to := pageOf(s.item, len(f.items), perItems(f, columns, rows, st))
	head := fmt.Sprintf("checklist, %d of %d ticked", done, len(f.items))
	head += wording.If(to-from < len(f.items), fmt.Sprintf("; %d to %d", from+1, to))
	out := widget.List{Lines: []string{st.Dim.Render(ansi.Truncate(st.Glyphs.Text(head), columns, ""))}}
	var list []widget.Choice
	for i := from; i < to; i++ {
		box := wording.Either(s.ticked[f.items[i].ID], "[x]", "[ ]")
		no := " "
		if i-from < 9 { // the key that ticks it
			no = strconv.Itoa(i - from + 1)
		}
		list = append(list, widget.Choice{Text: box + " " + no + " " + f.items[i].What})
	}
	picked := widget.Pick(list, s.item-from, columns, len(list), st)
	for _, spot := range picked.Spots {
		out.Spots = append(out.Spots, widget.Spot{Line: spot.Line + len(out.Lines), Row: spot.Row + from})
	}
	out.Lines = append(out.Lines, picked.Lines...)
	words := detail(f.items[s.item], columns, st)
	if left := max(0, rows-len(out.Lines)); left < len(words) {
		words = words[:left]
		if left > 0 {
			words[left-1] = ansi.Truncate(words[left-1]+" "+st.Glyphs.Ellipsis, columns-4, st.Glyphs.Ellipsis)
		}
	}
	for _, l := range words {
		out.Lines = append(out.Lines, "    "+st.Dim.Render(l))
	}
	return out
}
