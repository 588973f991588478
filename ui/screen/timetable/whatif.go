package timetable

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"github.com/charmbracelet/x/ansi"

	"example.org/vatside/model/day"
	"example.org/vatside/model/load"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/style"
	"example.org/vatside/ui/widget"
)

// option is one way to do what is left of the day.
type option struct {
	id     string
	pieces []load.Piece // as it plans them
	name   string
	gain   time.Duration // how much sooner all is done than as it is
	weak   int           // dips that find the vat too weak
	costs  string
	fault  string
	asIs   bool
}

// effort is how far each option is searched: a part of what the timetable itself may take.
const effort = load.UsualEffort / 2

// options are reckoned once for a timetable.
func (s Screen) options(x sight) []option {
	return s.memo.options.Of(x.t, func() []option { return append(x.throughs(), reckon(x)...) })
}

// reckon plans what is left in other ways. All of them begin when the timetable began and take what is in the vat as out at
// its time; so they are compared with one another, and only the difference is told of the timetable.
func reckon(x sight) []option {
	limits := x.t.Limits
	limits.Effort = effort
	ways, err := load.Options(x.left(), limits)
	if err != nil {
		return []option{{name: "As it is", fault: err.Error(), asIs: true}}
	}
	out := make([]option, len(ways))
	for i, w := range ways {
		out[i] = option{
			id: w.ID, pieces: w.Pieces, name: w.Name, gain: (ways[0].Finish - w.Finish).Duration(), weak: w.Plan.Weak, costs: x.costs(w), fault: w.Fault,
			asIs: w.ID == "as it is",
		}
	}
	return out
}

// left are the pieces with the dips that they still want, each from when it can take the next.
func (x sight) left() []load.Piece {
	begin := x.t.At(x.t.Plan.From)
	var out []load.Piece
	for _, s := range x.stand() {
		p := s.as
		p.Dips = len(s.rows)
		from := begin
		switch {
		case s.in && p.Dips > 0:
			from = s.due.Add(p.Air.Duration())
		case s.in, !s.due.IsZero():
			from = s.due
		}
		p.From = quantity.Span(max(0, from.Sub(begin)).Truncate(time.Second))
		out = append(out, p)
	}
	return out
}

// costs is what a way asks for; of the day as it is, its last lift.
func (x sight) costs(w load.Option) string {
	sys := x.v.State.Head.Setup.System()
	fill := x.v.State.Head.Setup.Fill
	switch w.ID {
	case "as it is":
		return "last lift " + x.clock(x.lastLift())
	case "person":
		if n := x.t.Limits.Hands; n > 1 {
			return fmt.Sprintf("%d pairs of hands at the vat, not %d", n+1, n)
		}
		return "a second pair of hands at the vat"
	case "vat":
		return fill.Format(sys) + " more, built and ready by then"
	case "bigger":
		return (fill * 3 / 2).Format(sys) + " in one vessel"
	case "shorter":
		return "every dip gives less blue"
	case "feed":
		return "the stock, and the vat stands meanwhile"
	case "fewer":
		return "those pieces come out paler"
	}
	return ""
}

// sooner is what a way gains.
func (o option) sooner() string {
	switch {
	case o.fault != "":
		return "cannot be planned"
	case o.asIs:
		return ""
	case o.gain >= time.Minute:
		return day.Long(o.gain) + " sooner"
	case o.gain <= -time.Minute:
		return day.Long(-o.gain) + " later"
	}
	return "no sooner"
}

// ends is when all is done, and what of the vat.
func (o option) ends(x sight, base option) string {
	if o.fault != "" {
		return o.fault
	}
	gain := o.gain
	if gain.Abs() < time.Minute {
		gain = 0
	}
	at := "all done " + x.clock(x.done().Add(-gain))
	switch {
	case o.weak > 0:
		at += ", " + wording.Counted(o.weak, "dip") + " in a weak vat"
	case base.weak > 0:
		at += ", no dip in a weak vat"
	}
	return at
}

// rows writes a way out in two rows: beside its name where there is room for that, else under it.
func (o option) rows(x sight, base option, names, columns int) []string {
	text, dim := x.env.Style.Text.Render, x.env.Style.Dim.Render
	name, gain, ends, costs := x.words(o.name), x.words(o.sooner()), x.words(o.ends(x, base)), x.words(o.costs)
	if names > 0 {
		return []string{text(style.Pad(name, names) + wording.Joined(", ", ends, gain)), strings.Repeat(" ", names) + dim(costs)}
	}
	first, second := wording.Joined(": ", name, gain), wording.Joined("; ", ends, costs)
	if style.Width(first) > columns {
		first, second = name, wording.Joined(", ", gain, ends)
	}
	if style.Width(second) > columns-2 && o.fault == "" {
		second = ends
	}
	return []string{text(first), "  " + dim(second)}
}

// words puts a text into the glyph set.
func (x sight) words(s string) string { return x.env.Style.Glyphs.Text(s) }

// whatIf sets the ways side by side, each with what it gives and what it costs.
func (s Screen) whatIf(x sight, sheet widget.Sheet) (widget.Sheet, span) {
	all, st := s.options(x), x.env.Style
	base := all[max(0, slices.IndexFunc(all, func(o option) bool { return o.id == "as it is" }))]
	best := -1
	for i, o := range all {
		if o.fault == "" && o.gain >= time.Minute && (best < 0 || o.gain > all[best].gain) {
			best = i
		}
	}
	sheet.Act, sheet.ActBig = "Nothing makes it sooner", true
	if best >= 0 {
		sheet.Act, sheet.How = day.Long(all[best].gain)+" sooner", []string{all[best].name + "."}
	}
	if begins := x.begins(); begins != "" {
		sheet.How = append([]string{begins}, sheet.How...)
	}
	sheet.Answers = s.offers(x)
	sheet.Next = strings.Join(sheet.Answers, "   ")
	columns, rows := x.env.Room(sheet)
	rows = max(rows, leastRows)
	names, widest := 0, 0
	for _, o := range all {
		names = max(names, style.Width(x.words(o.name))+betweenFields)
		widest = max(widest, style.Width(x.words(wording.Joined(", ", o.ends(x, base), o.sooner()))), style.Width(x.words(o.costs)))
	}
	if names+widest > columns {
		names = 0
	}
	every := 2
	if each := (rows + 1) / len(all); each > 2 { // with air between, and a bar of what is left of the day as thick as there is room for
		every, rows = min(each, tallestWay), rows+1
	}
	shown := window(s.top, len(all), rows, every)
	var list []string
	for i, o := range all[shown.from:shown.to] {
		if i > 0 && every > 2 {
			list = append(list, "")
		}
		for _, l := range o.rows(x, base, names, columns) {
			list = append(list, ansi.Truncate(l, columns, st.Glyphs.Ellipsis))
		}
		for range every - 3 {
			list = append(list, x.bar(o, all, shown.from+i == best, every == 4, columns))
		}
	}
	sheet.Body = shown.around(list, st)
	return sheet, shown
}

// tallestWay is how many rows a way has at most.
const tallestWay = 6

// bar is a row of how long the rest of the day is in a way, the longest over all columns.
func (x sight) bar(o option, all []option, best, thin bool, columns int) string {
	if o.fault != "" {
		return ""
	}
	long := func(o option) time.Duration { return max(0, x.done().Add(-o.gain).Sub(x.now())) }
	longest := time.Minute
	for _, other := range all {
		if other.fault == "" {
			longest = max(longest, long(other))
		}
	}
	ink, of := x.env.Style.Dim, x.env.Style.Glyphs.Full
	if best {
		ink = x.env.Style.Now
	}
	if thin {
		of = x.env.Style.Glyphs.Lower
	}
	return ink.Render(strings.Repeat(of, int(int64(columns)*int64(long(o))/int64(longest))))
}
