package timetable

import (
	"strings"

	"github.com/charmbracelet/x/ansi"

	"example.org/vatside/ui/style"
	"example.org/vatside/ui/widget"
)

// paged is a page of the board: the first big of its turns stand in letters of size rows, the others in a line each.
type paged struct {
	span
	big, size int
	when      int  // columns that the big times may have
	bare      bool // the big times are without their word, which stands under them
}

// Measures of the board.
const (
	leastLetters  = 3 // rows of big letters
	mostLetters   = 14
	farLetters    = 7 // that are worth more than half of the rows
	mostBig       = 4 // turns in them beside others in lines
	besideLetters = 2 // rows of a big turn: its words, and air
	betweenTurns  = 4 // columns from who to when
	betweenFields = 3
)

// page sets all turns in big letters where they have room, else the first ones: one or two in half of the rows, more where
// even so all the others have a line each. Times are without their word where it would take all the room.
func (x sight) page(all []turn, top, columns, rows int) paged {
	for _, bare := range []bool{false, true} {
		for size := min((rows+1)/len(all)-besideLetters, mostLetters); size >= leastLetters; size-- {
			if when := x.fit(all, columns, size, bare); when > 0 {
				return paged{span{0, len(all), len(all)}, len(all), size, when, bare}
			}
		}
		for turns := min(mostBig, len(all)-1); turns > 0; turns-- {
			for size := min(rows/turns, mostLetters); size >= leastLetters; size-- {
				more := turns * (size + besideLetters - 1) // rows that the big ones take beyond a line each
				whole := size >= farLetters && rows-more >= len(all)
				if !whole && (turns > 2 || more > rows/2) {
					continue
				}
				if when := x.fit(all, columns, size, bare); when > 0 {
					return paged{window(top, len(all), rows-more, 1), turns, size, when, bare}
				}
			}
		}
	}
	return paged{span: window(top, len(all), rows, 1)}
}

// fit is how many columns the times may have for names to have room beside them in letters of a size; 0: there is none.
func (x sight) fit(all []turn, columns, size int, bare bool) int {
	for _, when := range []int{columns, columns * 2 / 3} { // lean in the second
		if x.fits(all, columns, when, size, bare) {
			return when
		}
	}
	return 0
}

// fits tells it of times of so many columns. A name that is too long even for the smallest letters stands in a line of its own height;
// more than half of them must not.
func (x sight) fits(all []turn, columns, room, size int, bare bool) bool {
	g := x.env.Style.Glyphs
	widest := stripped(widest, bare)
	when, least := widget.Big(widest, room, size, g), widget.Big(widest, room, leastLetters, g)
	if len(when) != size {
		return false
	}
	long := 0
	for _, t := range all {
		if who := widget.Big(t.who, max(columns-betweenTurns-style.Widest(when), 0), size, g); len(who) == size {
			continue
		}
		if who := widget.Big(t.who, max(columns-betweenTurns-style.Widest(least), 0), leastLetters, g); len(who) >= leastLetters {
			return false
		}
		long++
	}
	return 2*long <= len(all)
}

// widest is the widest time there is, so that the letters keep their size while the times run.
const widest = "out 00:00"

// stripped is a time without its word, but for a word that stands alone.
func stripped(big string, bare bool) string {
	word, figure, _ := strings.Cut(big, " ")
	switch {
	case !bare:
		return big
	case figure == "now", figure == "":
		return word
	}
	return figure
}

// bigRow is a turn in big letters, who at the left and when at the right, with its words under it.
func (x sight) bigRow(t turn, columns int, page paged) []string {
	st, size := x.env.Style, page.size
	big, words := x.when(t)
	big = stripped(big, page.bare)
	when := widget.Big(big, page.when, size, st.Glyphs)
	who := widget.Big(t.who, columns-betweenTurns-style.Widest(when), size, st.Glyphs)
	if len(who) < size { // a shorter time takes no room of the name
		when = widget.Big(big, style.Widest(widget.Big(stripped(widest, page.bare), page.when, size, st.Glyphs)), size, st.Glyphs)
		who = widget.Big(t.who, columns-betweenTurns-style.Widest(when), size, st.Glyphs)
	}
	for len(who) < size {
		who = append([]string{""}, who...)
	}
	for len(when) < size {
		when = append([]string{""}, when...)
	}
	ink := st.Digits
	if !t.piece.next.After(x.now().Add(soon)) {
		ink = st.Now
	}
	out := make([]string, 0, size+1)
	for i := range size {
		gap := columns - style.Widest(when) - style.Width(who[i])
		out = append(out, ink.Render(who[i])+strings.Repeat(" ", max(gap, 0))+ink.Render(when[i]))
	}
	var first []string
	if page.bare {
		first = []string{words}
	}
	return append(out, st.Text.Render(x.facts(t, columns, first...)))
}

// plainRows are turns in one line each: who, which piece, the next turn, when done, and who waits longest. In a narrow window what the
// wishes take goes first, then the goods' names, then the count of dips. The columns are those of all turns, so that no page jumps.
func (x sight) plainRows(shown, all []turn, columns int) []string {
	st := x.env.Style
	fields := func(t turn, names, dips, likely bool) []string {
		_, when := x.when(t)
		which := t.piece.is.Tag
		if names {
			which = t.which()
		} else if t.piece.is.Spec.Who == "" {
			which = ""
		}
		out := []string{t.who, when, which, "", "", ""}
		if dips {
			out[3] = x.dipOf(t, likely)
		}
		out[4] = x.ends(t)
		if t.most {
			out[5] = waits
		}
		for i := range out {
			out[i] = st.Glyphs.Text(out[i])
		}
		return out
	}
	for _, less := range [][3]bool{{true, true, true}, {true, true, false}, {true, false, false}, {}} {
		var width [6]int
		for _, t := range all {
			for i, f := range fields(t, less[0], less[1], less[2]) {
				width[i] = max(width[i], style.Width(f))
			}
		}
		width[1] = max(width[1], len("out in 00:00"))
		sum := 0
		for _, w := range width {
			if w > 0 {
				sum += w + betweenFields
			}
		}
		if sum-betweenFields > columns && less != [3]bool{} {
			continue
		}
		out := make([]string, len(shown))
		for i, t := range shown {
			line := ""
			for k, f := range fields(t, less[0], less[1], less[2]) {
				if width[k] > 0 {
					line += f + strings.Repeat(" ", width[k]-style.Width(f)+betweenFields)
				}
			}
			ink := st.Text
			if !t.piece.next.After(x.now().Add(soon)) {
				ink = st.Now
			}
			out[i] = ink.Render(ansi.Truncate(strings.TrimRight(line, " "), columns, st.Glyphs.Ellipsis))
		}
		return out
	}
	return nil
}
