package care

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"github.com/charmbracelet/x/ansi"

	"example.org/vatside/model/history"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/style"
	"example.org/vatside/ui/widget"
)

// Measures of the body.
const (
	leastPlot = 5  // rows of a plot, its name and its dates among them
	mostPlot  = 18 // and no more than that

	beyondPlots = 8   // rows of a window that plots at its side do not have
	twoPlots    = 100 // columns from which they stand in pairs
	between     = 4   // columns between two
	nameWide    = 13  // columns of a fact's name
)

// page is one part of the body, and what of it is said in large letters.
type page struct{ lines, large []string }

// pages are the parts of the body: one where all has room, else what is said, then the plots as many as fit at a time. There
// is at least one.
func (s Screen) pages(env screen.Env) []page {
	last, _ := env.History.Last()
	a := s.answer(env, last)
	columns, first := s.room(env, last, false)
	_, later := s.room(env, last, true)
	text := words(a, last, env, columns, false)
	plots := plotsOf(a.points, env, last)
	across := 1
	if columns >= twoPlots {
		across = 2
	}
	if atSide(env, plots) { // they stand beside what is said, and there is room for what else is due
		plots = nil
		others, rest := alsoDue(a, last, env.Now), slices.Concat(words(a, last, env, columns, true)...)
		if list, ok := widget.Large(others, -1, columns, first-len(rest)-1, env.Style); ok {
			for i, o := range others {
				list.Large[i] = o.Text + ", " + o.Aside
			}
			return []page{{slices.Concat(list.Lines, []string{""}, rest), list.Large}}
		}
	}
	said, deep := slices.Concat(text...), (len(plots)+across-1)/across
	if len(said)+deep*(leastPlot+1) <= first {
		if len(plots) > 0 {
			said = append(append(said, ""), grid(plots, across, columns, first-len(said)-1, env)...)
		}
		return []page{{lines: said}}
	}
	out := parts(text, first, later)
	each := max(1, (later+1)/(leastPlot+1)) * across
	for from := 0; from < len(plots); from += each {
		out = append(out, page{lines: grid(plots[from:min(from+each, len(plots))], across, columns, later, env)})
	}
	return out
}

// atSide tells whether a window is wide enough for plots to stand beside what is said.
func atSide(env screen.Env, plots []plot) bool {
	_, _, halved := widget.Halves(env.Width)
	return halved && len(plots) > 0
}

// parts sets what is said on as many pages as it needs, each saying whole.
func parts(text [][]string, first, later int) []page {
	var out []page
	var some []string
	room := first
	put := func() {
		out = append(out, page{lines: some})
		some, room = nil, later
	}
	for _, t := range text {
		if len(some)+len(t) > room && (len(some) > 0 || len(out) == 0) {
			put()
		}
		some = append(some, t...)
	}
	if len(some) > 0 || len(out) == 0 {
		put()
	}
	return out
}

// words are what is said under the act, each saying in its lines: what worked, what else is due and comes, how the vat stands.
// apart leaves out what else is due: it stands in letters of its own.
func words(a answer, last history.Day, env screen.Env, columns int, apart bool) [][]string {
	var out [][]string
	st := env.Style
	line := func(name, text string) {
		var lines []string
		for i, row := range widget.Wrap(st.Glyphs.Text(text), max(10, columns-nameWide)) {
			head := strings.Repeat(" ", nameWide)
			if i == 0 {
				head = fmt.Sprintf("%-*s", nameWide, name)
			}
			lines = append(lines, st.Dim.Render(head)+st.Text.Render(row))
		}
		out = append(out, lines)
	}
	if a.worked != "" {
		line("worked here", a.worked)
	}
	coming, before := 0, ""
	for i, d := range a.care {
		name := "also"
		if d.Coming {
			if coming++; coming == 1 && d.ID != "revive" { // it stands over the foot
				continue
			}
			name = "then"
		}
		if i == 0 || apart && !d.Coming {
			continue // it is the act
		}
		if name == before {
			line("", said(d, last, env.Now))
			continue
		}
		before = name
		line(name, said(d, last, env.Now))
	}
	for _, f := range a.facts {
		if !inFoot(f) {
			line(f.Name, f.Words)
		}
	}
	return out
}

// alsoDue is what is due besides the act.
func alsoDue(a answer, last history.Day, now time.Time) []widget.Choice {
	var out []widget.Choice
	for i, d := range a.care {
		if i > 0 && !d.Coming {
			out = append(out, widget.Choice{Text: wording.Lower(d.Words(last.State.Head.Setup.System())), Aside: d.When(now)})
		}
	}
	return out
}

// plot is one quantity over the vat's life.
type plot struct {
	name string
	of   widget.Course
}

// plotsOf are the plots of what was read at least twice.
func plotsOf(p history.Points, env screen.Env, last history.Day) []plot {
	l := last.State.Head.Recipe.Liquor
	sys := last.State.Head.Setup.System()
	from := env.Now
	begin := func(points []widget.Point) {
		if len(points) > 1 && points[0].When.Before(from) {
			from = points[0].When
		}
	}
	var swatches []widget.Point
	warm, unit := quantity.Temperature.Celsius, "°C"
	if sys == quantity.US {
		warm, unit = quantity.Temperature.Fahrenheit, "°F"
	}
	temps := wording.Each(p.Temps, func(t history.Temps) widget.Point { return widget.Point{When: t.At, Value: warm(t.Temp)} })
	phs := wording.Each(p.PHs, func(t history.PHs) widget.Point { return widget.Point{When: t.At, Value: float64(t.PH)} })
	strips := wording.Each(p.Strips, func(t history.Strips) widget.Point { return widget.Point{When: t.At, Value: t.Stayed.Seconds()} })
	dips := 0
	for _, s := range p.Compared() {
		swatches, dips = append(swatches, widget.Point{When: s.At, Value: float64(s.KS)}), s.Dips
	}
	var out []plot
	add := func(name, unit string, points []widget.Point, bands ...widget.Level) {
		if begin(points); len(points) > 1 {
			out = append(out, plot{name, widget.Course{Past: points, Readings: points, Bands: bands, Unit: unit}})
		}
	}
	add("warmth", unit, temps, widget.Level{Value: warm(l.Low), Name: "low"}, widget.Level{Value: warm(l.High), Name: "high"})
	add("pH", "pH", phs, widget.Level{Value: l.PHLow, Name: "low"}, widget.Level{Value: l.PHHigh, Name: "high"})
	add("strip, seconds yellow", "s", strips, widget.Level{Value: 15, Name: "weak"}, widget.Level{Value: 45, Name: "good"})
	name := "swatch, K/S: higher is darker"
	if dips > 0 {
		name = fmt.Sprintf("swatch after dip %d, K/S: higher is darker", dips)
	}
	add(name, "K/S", swatches)
	for i := range out {
		c := &out[i].of
		c.From, c.To, c.Now, c.Zone = from, env.Now, env.Now, env.Now.Location()
		c.Liquor = screen.LiquorOf(last.State)
	}
	return out
}

// grid draws plots in so many rows, each under its name.
func grid(plots []plot, across, columns, rows int, env screen.Env) []string {
	deep := (len(plots) + across - 1) / across
	each := min(mostPlot, (rows+1)/max(deep, 1)-1) // a blank row between two
	wide := columns
	if across > 1 {
		wide = (columns - between*(across-1)) / across
	}
	var out []string
	for from := 0; from < len(plots); from += across {
		var row []string
		for i, p := range plots[from:min(from+across, len(plots))] {
			lines := append([]string{env.Style.Dim.Render(ansi.Truncate(p.name, wide, ""))}, widget.Plot(p.of, wide, max(each-1, 2), env.Style)...)
			row = style.Beside(row, lines, i*(wide+between))
		}
		out = append(out, row...)
		if from+across < len(plots) {
			out = append(out, "")
		}
	}
	return out
}
