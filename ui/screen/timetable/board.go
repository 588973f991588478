package timetable

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"github.com/charmbracelet/x/ansi"

	"example.org/vatside/model/day"
	"example.org/vatside/model/load"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/style"
	"example.org/vatside/ui/widget"
)

// turn is one row of the board: a person, or a piece of nobody, with the next turn.
type turn struct {
	who   string
	piece stood
	done  time.Time // the last of the person's pieces
	since time.Time // since when a piece of theirs is ready; zero where none is
	most  bool      // waits longest
}

// turns is the board in the order of the next turns, those in the vat first.
func (x sight) turns() []turn {
	var out []turn
	for _, s := range byTurn(x.stand()) {
		who := s.is.Spec.Who
		i := slices.IndexFunc(out, func(t turn) bool { return who != "" && t.piece.is.Spec.Who == who })
		if i < 0 {
			t := turn{who: who, piece: s}
			if who == "" {
				t.who = s.is.Tag
			}
			i, out = len(out), append(out, t)
		}
		if at, ok := x.t.Done(s.is.Tag); ok && at.After(out[i].done) {
			out[i].done = at
		}
		if at, ready := x.ready(s); ready && (out[i].since.IsZero() || at.Before(out[i].since)) {
			out[i].since = at
		}
	}
	longest := -1
	for i, t := range out { // of those who wait alike, the one who will wait on longest
		if !t.since.IsZero() && (longest < 0 || !t.since.After(out[longest].since)) {
			longest = i
		}
	}
	if longest >= 0 && len(out) > 1 {
		out[longest].most = true
	}
	return out
}

// ready is since when a piece could go in; false while it is in, airs, or the vat cannot take any.
func (x sight) ready(s stood) (time.Time, bool) {
	if s.in || len(s.rows) == 0 || s.due.After(x.now()) || x.begins() != "" {
		return time.Time{}, false
	}
	if !s.due.IsZero() {
		return s.due, true
	}
	if s.is.Phase == day.Aired {
		return s.is.Since, true
	}
	since := x.v.State.Opened
	_, ready := x.v.State.Ready()
	for _, at := range []time.Time{ready, s.is.Listed()} {
		if at.After(since) {
			since = at
		}
	}
	return since, true
}

// when is the next turn in words, and as few of them as are set in big letters.
func (x sight) when(t turn) (big, words string) {
	left := t.piece.next.Sub(x.now())
	word := "in"
	if t.piece.in {
		word = "out"
	}
	switch {
	case !t.piece.in && x.v.State.Talks():
		return "waits", "waits"
	case left <= 0:
		return word + " now", word + " now"
	case left < time.Hour && t.piece.in:
		return "out " + widget.Countdown(left), "out in " + widget.Countdown(left)
	case left < time.Hour:
		return "in " + widget.Countdown(left), "in " + widget.Countdown(left)
	}
	if t.piece.in {
		return "out " + day.Clock(t.piece.next), "out at " + x.clock(t.piece.next)
	}
	return "at " + day.Clock(t.piece.next), "at " + x.clock(t.piece.next)
}

// which is the piece of a turn; its tag is told by the row's name where it is nobody's.
func (t turn) which() string {
	what := t.piece.is.Spec.What
	if t.piece.is.Spec.Who != "" {
		what = strings.TrimSpace(t.piece.is.Tag + " " + what)
	}
	return what
}

// facts are the words of a turn besides who and when, in one line: without room the count of dips goes first, then the goods.
func (x sight) facts(t turn, columns int, first ...string) string {
	dot := " " + x.env.Style.Glyphs.Dot + " "
	which, dips, done, most := t.which(), x.dipOf(t), "", ""
	if !t.done.IsZero() {
		done = "done " + x.clock(t.done)
	}
	if t.most {
		most = waits
	}
	for _, rest := range [][]string{{which, dips, done, most}, {which, done, most}, {t.piece.is.Tag, done, most}, {done, most}} {
		line := x.words(wording.Joined(dot, slices.Concat(first, rest)...))
		if style.Width(line) <= columns {
			return line
		}
	}
	return ansi.Truncate(x.words(wording.Joined(dot, first...)), columns, x.env.Style.Glyphs.Ellipsis)
}

const waits = "waits longest"

func (x sight) dipOf(t turn) string {
	return "dip " + itoa(t.piece.dip()) + " of " + itoa(t.piece.dips())
}

// board is whose turn is next, in letters that are read from three metres where the window has room for them.
func (s Screen) board(x sight, sheet widget.Sheet) (widget.Sheet, span) {
	all := x.turns()
	sheet.Act = "Whose turn"
	sheet.Aside = wording.Joined(" "+x.env.Style.Glyphs.Dot+" ", "all done "+x.clock(x.done()), x.late(), x.round()) // no row of its own comes and goes
	if begins := x.begins(); begins != "" {
		sheet.How = []string{begins}
	}
	columns, rows := x.env.Room(sheet)
	page := x.page(all, s.top, columns, rows)
	for i, t := range all { // who waits longest is told even where the row is on another page
		if t.most && (i < page.from || i >= page.to) {
			sheet.How = append(sheet.How, wording.Sentence(t.who+" "+waits+", since "+x.clock(t.since)))
			_, rows = x.env.Room(sheet)
			page = x.page(all, s.top, columns, rows)
			all[i].most = false // told once
			break
		}
	}
	var list []string
	for i, t := range all[page.from : page.from+page.big] {
		if i > 0 {
			list = append(list, "")
		}
		list = append(list, x.bigRow(t, columns, page)...)
	}
	if small := all[page.from+page.big : page.to]; len(small) > 0 {
		if page.big > 0 {
			list = append(list, "")
		}
		list = append(list, x.plainRows(small, all, columns)...)
	}
	sheet.Body = page.around(list, x.env.Style)
	return sheet, page.span
}

// round says which round is dipped, who is still to go in it, and when those who stand outside the rounds have their turns.
func (x sight) round() string {
	lowered := map[string]int{}
	for _, s := range x.stand() {
		lowered[s.is.Tag] = s.is.Dips
		if s.in {
			lowered[s.is.Tag]++
		}
	}
	r := x.t.Plan.Round(func(row load.Row) bool {
		n, stands := lowered[row.Tag]
		return row.Past || !stands || row.Dip <= n
	})
	if r.No == 0 {
		return ""
	}
	who := wording.List(x.named(r.ToGo))
	if n := len(r.ToGo); n > mostNamed {
		who = itoa(n)
	}
	out := fmt.Sprintf("Round %d; %s to go", r.No, who)
	for _, p := range r.Promised {
		out += "; " + x.named([]string{p.Tag})[0] + ": at " + x.clock(x.t.At(p.In))
	}
	return out + "."
}

// mostNamed is how many are to go in a round that are named; more are counted.
const mostNamed = 4

// named are pieces by whose they are, else by their tags.
func (x sight) named(tags []string) []string {
	var out []string
	for _, tag := range tags {
		if p, _ := x.v.State.Piece(tag); p.Spec.Who != "" {
			tag = p.Spec.Who
		}
		if !slices.Contains(out, tag) {
			out = append(out, tag)
		}
	}
	return out
}

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
		if who := widget.Big(t.who, max(columns-betweenTurns-wide(when), 0), size, g); len(who) == size {
			continue
		}
		if who := widget.Big(t.who, max(columns-betweenTurns-wide(least), 0), leastLetters, g); len(who) >= leastLetters {
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

func wide(lines []string) int {
	n := 0
	for _, l := range lines {
		n = max(n, style.Width(l))
	}
	return n
}

// bigRow is a turn in big letters, who at the left and when at the right, with its words under it.
func (x sight) bigRow(t turn, columns int, page paged) []string {
	st, size := x.env.Style, page.size
	big, words := x.when(t)
	big = stripped(big, page.bare)
	when := widget.Big(big, page.when, size, st.Glyphs)
	who := widget.Big(t.who, columns-betweenTurns-wide(when), size, st.Glyphs)
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
		gap := columns - wide(when) - style.Width(who[i])
		out = append(out, ink.Render(who[i])+strings.Repeat(" ", max(gap, 0))+ink.Render(when[i]))
	}
	var first []string
	if page.bare {
		first = []string{words}
	}
	return append(out, st.Text.Render(x.facts(t, columns, first...)))
}

// plainRows are turns in one line each: who, which piece, the next turn, when done, and who waits longest. In a narrow
// window the goods' names go first, then the count of dips. The columns are those of all turns, so that no page jumps.
func (x sight) plainRows(shown, all []turn, columns int) []string {
	st := x.env.Style
	fields := func(t turn, names, dips bool) []string {
		_, when := x.when(t)
		which := t.piece.is.Tag
		if names {
			which = t.which()
		} else if t.piece.is.Spec.Who == "" {
			which = ""
		}
		out := []string{t.who, when, which, "", "", ""}
		if dips {
			out[3] = x.dipOf(t)
		}
		if !t.done.IsZero() {
			out[4] = "done " + x.clock(t.done)
		}
		if t.most {
			out[5] = waits
		}
		for i := range out {
			out[i] = st.Glyphs.Text(out[i])
		}
		return out
	}
	for _, less := range [][2]bool{{true, true}, {true, false}, {false, false}} {
		var width [6]int
		for _, t := range all {
			for i, f := range fields(t, less[0], less[1]) {
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
		if sum-betweenFields > columns && less != [2]bool{false, false} {
			continue
		}
		out := make([]string, len(shown))
		for i, t := range shown {
			line := ""
			for k, f := range fields(t, less[0], less[1]) {
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
