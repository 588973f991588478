package care

import (
	"fmt"
	"strings"

	"github.com/charmbracelet/x/ansi"

	"example.org/vatside/model/history"
	"example.org/vatside/model/quantity"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/widget"
)

// Measures of the body.
const (
	leastPlot = 6   // rows of a plot with its name and its dates
	mostPlot  = 12  // and no more than that
	twoPlots  = 100 // columns from which they stand in pairs
	between   = 4   // columns between two
	nameWide  = 12  // columns of a fact's name
)

// pages are the parts of the body: one where all has room, else what is said, then the plots as many as fit at a time.
func (s Screen) pages(env screen.Env) []func(columns, rows int) []string {
	last, _ := env.History.Last()
	a := s.answer(env, last)
	_, r := s.sheet(env, last, false)
	_, after := s.sheet(env, last, true)
	text := words(a, env, r.columns)
	plots := plotsOf(a.points, env, last)
	across := 1
	if r.columns >= twoPlots {
		across = 2
	}
	deep := (len(plots) + across - 1) / across
	if len(plots) == 0 || len(text)+1+deep*leastPlot <= r.rows {
		return texts(text, r.rows, after.rows, func(columns, rows int) []string {
			if len(plots) == 0 {
				return text
			}
			return append(append([]string{}, text...), append([]string{""}, grid(plots, across, columns, rows-len(text)-1, env)...)...)
		})
	}
	out := texts(text, r.rows, after.rows, func(int, int) []string { return text })
	each := max(1, after.rows/leastPlot) * across
	for from := 0; from < len(plots); from += each {
		some := plots[from:min(from+each, len(plots))]
		out = append(out, func(columns, rows int) []string { return grid(some, across, columns, rows, env) })
	}
	return out
}

// texts is one page of the text, by what draws it whole; where it is longer than its room, a page for each part of it.
func texts(text []string, first, after int, whole func(columns, rows int) []string) []func(columns, rows int) []string {
	if len(text) <= first {
		return []func(int, int) []string{whole}
	}
	var out []func(int, int) []string
	for room := first; len(text) > 0; room = after {
		some := text[:min(max(room, 1), len(text))]
		text = text[len(some):]
		out = append(out, func(int, int) []string { return some })
	}
	return out
}

// words are what is said under the act: what else is due and comes, how the vat stands, what worked.
func words(a answer, env screen.Env, columns int) []string {
	var out []string
	st := env.Style
	line := func(name, text string) {
		rows := strings.Split(ansi.Wordwrap(st.Glyphs.Text(text), max(10, columns-nameWide), ""), "\n")
		for i, row := range rows {
			head := strings.Repeat(" ", nameWide)
			if i == 0 {
				head = fmt.Sprintf("%-*s", nameWide, name)
			}
			out = append(out, st.Dim.Render(head)+st.Text.Render(row))
		}
	}
	named := func(name string, list []history.Due) {
		for i, d := range list {
			if i > 0 {
				name = ""
			}
			line(name, said(d, env.Now))
		}
	}
	var due, next []history.Due
	for i, d := range a.care {
		switch {
		case i == 0 && (!d.Coming || d.At.IsZero()): // it is the act
		case d.Coming:
			next = append(next, d)
		default:
			due = append(due, d)
		}
	}
	if a.worked != "" {
		line("worked here", a.worked)
	}
	named("also", due)
	if len(next) > 1 {
		named("then", next[1:])
	}
	for _, f := range a.facts {
		line(f.Name, f.Words)
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
	var temps, phs, strips, swatches []widget.Point
	warm, unit := quantity.Temperature.Celsius, "°C"
	if sys == quantity.US {
		warm, unit = quantity.Temperature.Fahrenheit, "°F"
	}
	for _, t := range p.Temps {
		temps = append(temps, widget.Point{When: t.At, Value: warm(t.Temp)})
	}
	for _, t := range p.PHs {
		phs = append(phs, widget.Point{When: t.At, Value: float64(t.PH)})
	}
	for _, t := range p.Strips {
		strips = append(strips, widget.Point{When: t.At, Value: t.Stayed.Seconds()})
	}
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
	each := min(mostPlot, rows/max(deep, 1))
	wide := columns
	if across > 1 {
		wide = (columns - between*(across-1)) / across
	}
	var out []string
	for from := 0; from < len(plots); from += across {
		var row []string
		for i, p := range plots[from:min(from+across, len(plots))] {
			lines := append([]string{env.Style.Dim.Render(ansi.Truncate(p.name, wide, ""))}, widget.Plot(p.of, wide, max(each-2, 2), env.Style)...)
			for n, l := range lines {
				if n >= len(row) {
					row = append(row, strings.Repeat(" ", i*(wide+between)))
				}
				row[n] += strings.Repeat(" ", max(0, i*(wide+between)-ansi.StringWidth(row[n]))) + l
			}
		}
		out = append(out, row...)
		if from+across < len(plots) {
			out = append(out, "")
		}
	}
	return out
}
