package timetable

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
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
	last  string    // the last of the person's pieces
	done  time.Time // when that is done
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
			out[i].last, out[i].done = s.is.Tag, at
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
	word := wording.Either(t.piece.in, "out", "in")
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

// facts are the words of a turn besides who and when, in one line: without room what the wish takes goes first, then the count of dips,
// then the goods.
func (x sight) facts(t turn, columns int, first ...string) string {
	dot := " " + x.env.Style.Glyphs.Dot + " "
	which, dips, done, most := t.which(), x.dipOf(t, false), x.ends(t), ""
	if t.most {
		most = waits
	}
	for _, rest := range [][]string{{which, x.dipOf(t, true), done, most}, {which, dips, done, most}, {which, done, most}, {t.piece.is.Tag, done, most}, {done, most}} {
		line := x.words(wording.Joined(dot, slices.Concat(first, rest)...))
		if style.Width(line) <= columns {
			return line
		}
	}
	return ansi.Truncate(x.words(wording.Joined(dot, first...)), columns, x.env.Style.Glyphs.Ellipsis)
}

// ends are when the piece of a turn is done, then when the last of its person's is, where that is another, and when the person leaves:
// "done 14:10, A5 15:20, leaves 15:00".
func (x sight) ends(t turn) string {
	own, _ := x.t.Done(t.piece.is.Tag)
	till := t.piece.is.Spec.Till
	return wording.Joined(", ", wording.If(!own.IsZero(), "done "+x.clock(own)),
		wording.If(t.last != t.piece.is.Tag && t.done.After(own), t.last+" "+x.clock(t.done)), wording.If(till != "", "leaves "+till))
}

const waits = "waits longest"

// dipOf is which of its dips a piece comes to, and where it is asked for how many its wish takes.
func (x sight) dipOf(t turn, likely bool) string {
	words := "dip " + strconv.Itoa(t.piece.dip()) + " of " + strconv.Itoa(t.piece.dips())
	if a, ok := x.answer(t.piece.is.Tag); ok && likely {
		words += ", " + a.Words()
	}
	return words
}

// board is whose turn is next, in letters that are read from three metres where the window has room for them.
func (s Screen) board(x sight, sheet widget.Sheet) (widget.Sheet, span) {
	all := x.turns()
	sheet.Act = "Whose turn"
	sheet.Aside = wording.Joined(" "+x.env.Style.Glyphs.Dot+" ", "all done "+x.clock(x.done()), x.late())
	sheet.How = append(sheet.How, wording.Filled(x.begins())...)
	columns, _ := x.env.Room(sheet)
	sheet.How = append(sheet.How, wording.Filled(x.round(columns))...) // beside "all done" a narrow window has no room for it
	helpers := x.helpers(columns)
	lay := func() paged {
		_, rows := x.env.Room(sheet)
		return x.page(all, s.top, columns, rows-len(helpers))
	}
	page := lay()
	for i, t := range all { // who waits longest is told even where the row is on another page
		if t.most && (i < page.from || i >= page.to) {
			sheet.How = append(sheet.How, wording.Sentence(t.who+" "+waits+", since "+x.clock(t.since)))
			page = lay()
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
	sheet.Body = append(helpers, page.around(list, x.env.Style)...)
	return sheet, page.span
}

// round says which round is dipped, who is still to go in it, and when those who stand outside the rounds have their turns:
// as many of these as one line has room for, since each has its time in its own row too.
func (x sight) round(columns int) string {
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
		who = strconv.Itoa(n)
	}
	out := fmt.Sprintf("Round %d; %s to go", r.No, who)
	for _, p := range r.Promised {
		next := out + "; " + x.named([]string{p.Tag})[0] + ": at " + x.clock(x.t.At(p.Lower))
		if style.Width(x.words(next)) >= columns {
			break
		}
		out = next
	}
	return out + "."
}

// mostNamed is how many are to go in a round that are named; more are counted.
const mostNamed = 4

// named are pieces by whose they are, else by their tags.
func (x sight) named(tags []string) []string {
	return wording.Once(wording.Each(tags, func(tag string) string {
		p, _ := x.v.State.Piece(tag)
		return cmp.Or(p.Spec.Who, tag)
	}))
}
