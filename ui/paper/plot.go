package paper

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"github.com/charmbracelet/x/ansi"

	"example.org/vatside/model/outlook"
	"example.org/vatside/model/sheet"
	"example.org/vatside/model/wording"
)

// The measures of a plot in HTML, in units of its drawing: it is as wide as the page.
const (
	plotWide  = 720.0
	plotLeft  = 176.0 // of the pictures; before it stand the names and the figures
	plotRight = 696.0 // the name of an instant at the end of the axis needs the rest
	plotHigh  = 46.0  // of one picture
	plotStep  = 62.0  // from one to the next
	plotTop   = 10.0
	pointSize = 2.3
	swatchOf  = 4.2
)

// sameDay is up to how long after one another two readings are joined where days are not.
const sameDay = 18 * time.Hour

// when is a day in words.
func when(t time.Time) string { return t.Format("2 Jan 2006") }

// spoken is a series in a sentence: what was read, and what it works at.
func spoken(s sheet.Series) string {
	words := fmt.Sprintf("%s: %d times, %s to %s, last %s", titled(s), len(s.Points), line(s.Least), line(s.Most), line(s.Last))
	words += wording.If(s.Range != "", "; works at "+line(s.Range))
	return words + "."
}

// titled is a series with its unit, where that does not stand behind its figures.
func titled(s sheet.Series) string {
	return wording.Either(s.Unit == "" || strings.HasSuffix(s.Last, s.Unit), line(s.Name), line(s.Name+", "+s.Unit))
}

func figures(p sheet.Plot) sheet.Table {
	t := sheet.Table{Columns: []sheet.Column{{Head: "what"}, {Head: "times", Figures: true}, {Head: "least", Figures: true}, {Head: "most", Figures: true},
		{Head: "last", Figures: true}, {Head: "works at"}}}
	for _, s := range p.Series {
		t.Rows = append(t.Rows, []sheet.Cell{{Text: titled(s)}, {Text: fmt.Sprint(len(s.Points))}, {Text: s.Least}, {Text: s.Most}, {Text: s.Last}, {Text: s.Range}})
	}
	return t
}

// along is where an instant lies on the axis of time, 0 at its begin and 1 at its end.
func along(p sheet.Plot, at time.Time) float64 {
	whole := p.Till.Sub(p.From)
	if whole <= 0 {
		return 0
	}
	return min(max(float64(at.Sub(p.From))/float64(whole), 0), 1)
}

// up is where a level lies on the axis of its series, 0 at the foot and 1 at the top.
func up(s sheet.Series, l sheet.Level) float64 {
	if !(s.High > s.Low) {
		return 0
	}
	return min(max(float64((l-s.Low)/(s.High-s.Low)), 0), 1)
}

// plot draws the pictures of a plot, black on white: a form a series, full where it was measured, empty where it was judged
// by eye, a cross where it was reckoned; a swatch in its own blue.
func (h *page) plot(p sheet.Plot) {
	if len(p.Series) == 0 {
		return
	}
	h.plots++
	foot := plotTop + plotStep*float64(len(p.Series)) - 8
	high := foot + 16
	if guessed(p) {
		high += 12
	}
	h.put("<svg class=\"plot\" viewBox=\"0 0 %g %g\" role=\"img\" aria-labelledby=\"plot-%d plot-%d-told\">\n", plotWide, high, h.plots, h.plots)
	h.put("<title id=\"plot-%d\">From %s to %s</title>\n<desc id=\"plot-%d-told\">%s</desc>\n", h.plots, when(p.From), when(p.Till), h.plots, text(strings.Join(wording.Each(p.Series, spoken), " ")))
	x := func(at time.Time) float64 { return plotLeft + 8 + along(p, at)*(plotRight-plotLeft-16) }
	for i, s := range p.Series {
		h.works(s, plotTop+plotStep*float64(i))
	}
	for _, m := range p.Marks {
		h.put("<path d=\"M%.1f %.1fV%.1f\" stroke=\"#bbb\" stroke-width=\"0.5\"/>", x(m.At), plotTop, foot)
		h.put("<text x=\"%.1f\" y=\"%.1f\" text-anchor=\"middle\">%s</text>\n", x(m.At), foot+12, text(m.Words))
	}
	for i, s := range p.Series {
		top := plotTop + plotStep*float64(i)
		h.series(s, top, x)
	}
	y := foot + 12
	if slices.ContainsFunc(p.Series, func(s sheet.Series) bool { return s.Works != nil }) {
		h.put("<text class=\"quiet\" x=\"0\" y=\"%.1f\">grey: where it works</text>\n", y)
		y += 11
	}
	if guessed(p) {
		h.put("<text class=\"quiet\" x=\"0\" y=\"%.1f\">empty or dashed: by eye</text>\n", y)
	}
	h.put("</svg>\n")
}

// works draws the range in which a vat works, below all else.
func (h *page) works(s sheet.Series, top float64) {
	if s.Works == nil {
		return
	}
	low, most := up(s, s.Works[0]), up(s, s.Works[1])
	if most > low {
		h.put("<rect x=\"%g\" y=\"%.1f\" width=\"%g\" height=\"%.1f\" fill=\"#eee\"/>\n", plotLeft, top+plotHigh-most*plotHigh, plotRight-plotLeft, (most-low)*plotHigh)
	}
}

func (h *page) series(s sheet.Series, top float64, x func(time.Time) float64) {
	y := func(l sheet.Level) float64 { return top + plotHigh - up(s, l)*plotHigh }
	h.put("<text class=\"name\" x=\"0\" y=\"%.1f\">%s</text>", top+9, text(strings.TrimSuffix(s.Name+", "+s.Unit, ", ")))
	h.put("<text class=\"quiet\" x=\"0\" y=\"%.1f\">%s to %s</text>", top+21, text(s.Least), text(s.Most))
	h.put("<text class=\"quiet\" x=\"0\" y=\"%.1f\">last %s</text>", top+32, text(s.Last))
	h.some(fmt.Sprintf("<text class=\"quiet\" x=\"0\" y=\"%.1f\">works at %%s</text>", top+43), s.Range)
	h.put("\n")
	for i, k := range s.Scale {
		stroke := wording.Either(i == 0, "#111", "#bbb")
		h.put("<path d=\"M%g %.1fH%g\" stroke=\"%s\" stroke-width=\"0.5\"/>", plotLeft, y(k.Level), plotRight, stroke)
		h.put("<text class=\"quiet\" x=\"%g\" y=\"%.1f\" text-anchor=\"end\">%s</text>\n", plotLeft-4, y(k.Level)+3.3, text(k.Words))
	}
	var way strings.Builder
	for i, p := range s.Points {
		to := wording.Either(i > 0 && (s.Through || p.At.Sub(s.Points[i-1].At) < sameDay), "L", "M")
		fmt.Fprintf(&way, "%s%.1f %.1f", to, x(p.At), y(p.Level))
	}
	h.put("<path d=\"%s\" fill=\"none\" stroke=\"#555\" stroke-width=\"0.6\"/>\n", way.String())
	for _, p := range s.Points {
		h.put("%s\n", point(s.Shape, p, x(p.At), y(p.Level)))
	}
}

func point(shape sheet.Shape, p sheet.Point, x, y float64) string {
	fill, r := "#111", pointSize
	if p.Known == outlook.Guessed {
		fill = "#fff"
	}
	form := fmt.Sprintf("fill=\"%s\" stroke=\"#111\" stroke-width=\"0.7\"", fill)
	if hexForm().MatchString(p.Hex) {
		r = swatchOf
		form = fmt.Sprintf("fill=\"%s\" stroke=\"#111\" stroke-width=\"0.5\"", p.Hex)
		form += wording.If(p.Known == outlook.Guessed, " stroke-dasharray=\"1.2 1.2\"")
	}
	switch {
	case p.Known == outlook.Reckoned:
		return fmt.Sprintf("<path d=\"M%.1f %.1fl%g %gm0 %gl%g %g\" fill=\"none\" stroke=\"#111\" stroke-width=\"0.7\"/>", x-r, y-r, 2*r, 2*r, -2*r, -2*r, 2*r)
	case shape == sheet.Circle:
		return fmt.Sprintf("<circle cx=\"%.1f\" cy=\"%.1f\" r=\"%g\" %s/>", x, y, r, form)
	case shape == sheet.Square:
		return fmt.Sprintf("<rect x=\"%.1f\" y=\"%.1f\" width=\"%g\" height=\"%g\" %s/>", x-r, y-r, 2*r, 2*r, form)
	case shape == sheet.Triangle:
		r *= 1.2
		return fmt.Sprintf("<path d=\"M%.1f %.1fL%.1f %.1fH%.1fZ\" %s/>", x, y-r, x+r, y+r*0.8, x-r, form)
	}
	r *= 1.3
	return fmt.Sprintf("<path d=\"M%.1f %.1fL%.1f %.1fL%.1f %.1fL%.1f %.1fZ\" %s/>", x, y-r, x+r, y, x, y+r, x-r, y, form)
}

// The measures of a plot in text, in characters.
const (
	plotRows = 4
	plotName = 8 // before the picture, for the names of levels
)

// plot sets a plot in characters: * measured, o by eye, x reckoned. One axis of time below all.
func (t *setter) plot(p sheet.Plot) {
	cols := t.width - plotName - 1
	col := func(at time.Time) int { return int(along(p, at)*float64(cols-1) + 0.5) }
	for _, s := range p.Series {
		t.fold("", "  ", spoken(s))
		rows := make([][]rune, plotRows)
		for i := range rows {
			rows[i] = []rune(strings.Repeat(" ", cols))
		}
		for _, q := range s.Points {
			sign := cmp.Or(map[outlook.Known]rune{outlook.Guessed: 'o', outlook.Reckoned: 'x'}[q.Known], '*')
			rows[plotRows-1-int(up(s, q.Level)*(plotRows-1)+0.5)][col(q.At)] = sign
		}
		for i, r := range rows {
			name := ""
			if n := len(s.Scale); n > 0 && i == 0 {
				name = s.Scale[n-1].Words
			} else if n > 0 && i == plotRows-1 {
				name = s.Scale[0].Words
			}
			t.put(padded(ansi.Truncate(line(name), plotName-1, ""), plotName-1, true) + " |" + string(r))
		}
	}
	axis, names := []rune(strings.Repeat("-", cols)), ""
	for _, m := range p.Marks {
		axis[col(m.At)] = '+'
		words := line(m.Words)
		at := min(plotName+1+col(m.At)-ansi.StringWidth(words)/2, t.width-ansi.StringWidth(words))
		if at > ansi.StringWidth(names) {
			names = padded(names, at, false) + words
		}
	}
	t.put(strings.Repeat(" ", plotName) + "+" + string(axis))
	t.put(names)
	if guessed(p) {
		t.put("o by eye")
	}
}

// guessed tells whether anything of a plot was judged by eye.
func guessed(p sheet.Plot) bool {
	return slices.ContainsFunc(p.Series, func(s sheet.Series) bool {
		return slices.ContainsFunc(s.Points, func(q sheet.Point) bool { return q.Known == outlook.Guessed })
	})
}
