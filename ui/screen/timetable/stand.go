package timetable

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/load"
	"example.org/vatside/model/shade"
	"example.org/vatside/model/sorted"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/style"
)

// stood is one piece that still wants dips or hangs in the vat, as it stands and as it goes on.
type stood struct {
	is    day.Piece
	as    load.Piece
	in    bool
	due   time.Time  // out, or aired; zero where no time runs
	rows  []load.Row // the dips to come
	next  time.Time  // when the hands want it: out, or in; zero never
	first time.Time  // its first dip of the plan, which holds its place on the list
}

// stand is the planned pieces in the order of the plan's first dips.
func (x sight) stand() []stood {
	due := map[string]time.Time{}
	for _, d := range x.v.Dues() {
		if d.Tag != "" {
			due[d.Tag] = d.At
		}
	}
	rows, first := map[string][]load.Row{}, map[string]time.Time{}
	for _, r := range x.t.Plan.Rows {
		rows[r.Tag] = append(rows[r.Tag], r)
		if at, known := first[r.Tag]; !known || x.t.At(r.Lower).Before(at) {
			first[r.Tag] = x.t.At(r.Lower)
		}
	}
	var out []stood
	call := x.v.Call()
	for _, l := range x.t.Pieces {
		p, there := x.v.State.Piece(l.Tag)
		if !there || !p.Live() {
			continue
		}
		s := stood{is: p, as: l, in: p.Phase == day.InVat, due: due[p.Tag], first: first[p.Tag]}
		begun := p.Dips
		if s.in {
			begun++
		}
		for _, r := range rows[p.Tag] {
			if !r.Past && r.Dip > begun {
				s.rows = append(s.rows, r)
			}
		}
		switch {
		case s.in:
			s.next = s.due
		case len(s.rows) > 0:
			if s.next = x.t.At(s.rows[0].Lower); call.Act.Kind == day.ActAir && call.Act.Piece.Tag == p.Tag && call.Due.At.Before(s.next) {
				s.next = call.Due.At // a replan leaves air between dips that were told; the call goes by the airing alone
			}
		default:
			continue
		}
		out = append(out, s)
	}
	sorted.By(out, func(a, b stood) int { return a.first.Compare(b.first) })
	return out
}

// byTurn orders pieces by when the hands want them, those in the vat first.
func byTurn(all []stood) []stood {
	all = slices.Clone(all)
	sorted.By(all, func(a, b stood) int {
		if a.in != b.in {
			return map[bool]int{true: -1, false: 1}[a.in]
		}
		return a.next.Compare(b.next)
	})
	return all
}

// dip is the number of the dip that it is in, or that comes next.
func (s stood) dip() int { return min(s.is.Dips+1, s.dips()) }

// dips are all dips of the piece, planned and done, at least 1.
func (s stood) dips() int { return max(s.as.Dips, s.is.Dips, 1) }

// answer is how many dips the wish of a piece takes; false without a wish, and while that is a guess: then a swatch comes first.
func (x sight) answer(tag string) (shade.Answer, bool) {
	c, ok := x.blue.Pieces[tag]
	return c.Answer, ok && c.Wish != nil && !screen.IsGuess(c.Claim)
}

// cloth is a piece after so many dips: by its forecast, else as usual.
func (x sight) cloth(tag string, dips int) style.Shade {
	if c, ok := x.blue.Pieces[tag]; ok && x.blue.Claim != "" {
		return screen.After(c, dips)
	}
	return screen.ClothOf(dips)
}

// airing says of the pieces that had their last dip till when they air.
func (x sight) airing() []string {
	out := wording.Some(x.v.Dues(), func(d day.Due) (string, bool) {
		return d.Tag + " till " + x.clock(d.At), d.Kind == day.DueFinish && d.At.After(x.now())
	})
	switch len(out) {
	case 0:
		return nil
	case 1:
		return []string{"In its last airing: " + out[0] + "."}
	}
	return []string{"In their last airing: " + strings.Join(out, ", ") + "."}
}

// late says by how much the hands are behind the plan; "" where they are not, or nothing can be done yet. While the class is talked
// to nobody is late.
func (x sight) late() string {
	if x.v.State.Talks() {
		return "Talking: pieces wait."
	}
	var worst stood
	for _, s := range x.stand() {
		if !s.in && s.next.Before(x.now()) && (worst.next.IsZero() || s.next.Before(worst.next)) {
			worst = s
		}
	}
	by := x.now().Sub(worst.next)
	if worst.next.IsZero() || by < time.Minute {
		return ""
	}
	return fmt.Sprintf("%s was to go in at %s: %s late.", worst.is.Tag, x.clock(worst.next), day.Long(by))
}

// begins says from when the plan is reckoned, where that is still to come; "" where it is not.
func (x sight) begins() string {
	at := x.t.At(x.t.Plan.From)
	switch {
	case at.Sub(x.now()) < time.Minute:
		return ""
	case x.v.State.RestUntil.After(x.now()):
		return "The vat rests till " + x.clock(at) + "."
	}
	return "The vat is not ready: reckoned from " + x.clock(at) + "."
}

// done is when the last piece is done, those in their last airing too.
func (x sight) done() time.Time {
	end := x.t.At(x.t.Plan.Finish())
	for _, d := range x.v.Dues() {
		if d.Kind == day.DueFinish && d.At.After(end) {
			end = d.At
		}
	}
	return end
}

// lastLift is when the last piece is called out.
func (x sight) lastLift() time.Time {
	end := x.t.At(x.t.Plan.LastLift())
	for _, s := range x.stand() {
		if s.in && s.due.After(end) {
			end = s.due
		}
	}
	return end
}

// span is which of a list are shown, and how many there are.
type span struct{ from, to, all int }

// window is what is shown from top on where each takes every of the rows: the words of what is out of sight take a row each.
func window(top, all, rows, every int) span {
	if all*every <= rows {
		return span{0, all, all}
	}
	from := max(0, min(top, all-max(1, (rows-1)/every)))
	if from > 0 {
		rows--
	}
	n := rows / every
	if from+n < all {
		n = (rows - 1) / every
	}
	return span{from, min(from+max(n, 1), all), all}
}

// around puts the words of what is out of sight over and under a list.
func (w span) around(list []string, st style.Style) []string {
	if w.from > 0 {
		list = append([]string{st.Dim.Render(fmt.Sprintf("%d above", w.from))}, list...)
	}
	if w.to < w.all {
		list = append(list, st.Dim.Render(fmt.Sprintf("%d more below", w.all-w.to)))
	}
	return list
}

// beside is how many rows the counts above and below the window take.
func (w span) beside() int { return len(w.around(nil, style.Style{})) }
