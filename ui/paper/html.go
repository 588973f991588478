package paper

import (
	"cmp"
	_ "embed"
	"fmt"
	"html"
	"strings"
	"unicode/utf8"

	"example.org/vatside/model/sheet"
	"example.org/vatside/model/wording"
)

// style is the look of a printed sheet: much white, quiet type, no frames but the boxes to tick, and the edge of the cloth
// down the left of the page. EDGE is its colour. In black and white the edge turns grey and nothing is lost.
//
//go:embed sheet.css
var style string

// hexForm is all that may stand as a colour in a style.
var hexForm = wording.Pattern(`^#[0-9a-f]{6}$`)

// asHTML is the sheet as one HTML5 file that is well-formed XML as well: no script, nothing fetched. It prints on A4 and on
// Letter; the edge of the cloth runs down the left of each page.
func asHTML(s sheet.Sheet) string {
	h := &page{}
	title := cmp.Or(text(s.Title), "vatside")
	edge := wording.Either(hexForm().MatchString(s.Edge), s.Edge, "#22324f")
	h.put("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\"/>\n")
	h.put("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>\n<title>%s</title>\n<style>\n", title)
	h.put("%s</style>\n</head>\n<body>\n", strings.ReplaceAll(style, "EDGE", edge))
	h.put("<div class=\"edge\"></div>\n<main>\n")
	h.some("<h1>%s</h1>\n", s.Title)
	h.some("<p class=\"under\">%s</p>\n", s.Subtitle)
	for _, b := range s.Blocks {
		h.block(b)
	}
	h.shut()
	h.some("<p class=\"foot\">%s</p>\n", s.Foot)
	h.put("</main>\n</body>\n</html>\n")
	return h.b.String()
}

// page collects HTML. A heading opens a section that the next one closes.
type page struct {
	b       strings.Builder
	open    bool
	newPage bool
	plots   int // so far: each has names of its own
}

func (h *page) put(format string, a ...any) { fmt.Fprintf(&h.b, format, a...) }

// some puts a text that was typed; nothing where there is none.
func (h *page) some(format, typed string) {
	if typed != "" {
		h.put(format, text(typed))
	}
}

func (h *page) shut() {
	if h.open {
		h.put("</section>\n")
	}
	h.open = false
}

// text is what was typed, as text.
func text(s string) string { return html.EscapeString(line(s)) }

func (h *page) block(b sheet.Block) {
	switch b := b.(type) {
	case sheet.Heading:
		h.shut()
		class := wording.If(h.newPage, " class=\"new\"")
		h.put("<section%s>\n<h2>%s</h2>\n", class, text(b.Text))
		h.open, h.newPage = true, false
	case sheet.Paragraph:
		h.put("<p>%s</p>\n", text(b.Text))
	case sheet.Facts:
		h.facts(b)
	case sheet.Table:
		h.table(b)
	case sheet.Swatches:
		items(h, "row", b.Row, func(s sheet.Swatch) { h.put("<li>%s</li>\n", swatch(s)) })
	case sheet.Ticks:
		h.ticks(b)
	case sheet.Timetable:
		h.times(b)
	case sheet.Cautions:
		for _, c := range b.List {
			h.put("<p class=\"caution\"><strong>CAUTION</strong> %s</p>\n", text(c))
		}
	case sheet.Tags:
		h.tags(b)
	case sheet.Cards:
		h.cards(b)
	case sheet.Slips:
		h.slips(b)
	case sheet.Plot:
		h.plot(b)
	case sheet.Mask:
		h.mask(b)
	case sheet.PageBreak:
		h.newPage = true
	}
}

// items is a list of a class; nothing where there is no item.
func items[T any](h *page, class string, list []T, item func(T)) {
	if len(list) == 0 {
		return
	}
	h.put("<ul class=\"%s\">\n", class)
	for _, x := range list {
		item(x)
	}
	h.put("</ul>\n")
}

func (h *page) facts(f sheet.Facts) {
	if len(f.List) == 0 {
		return
	}
	h.put("<dl>\n")
	for _, x := range f.List {
		value := cmp.Or(text(x.Value), "<span class=\"write long\"></span>")
		h.put("<div><dt>%s</dt><dd>%s</dd></div>\n", text(x.Name), value)
	}
	h.put("</dl>\n")
}

func (h *page) table(t sheet.Table) {
	cols := used(t)
	if len(cols) == 0 {
		return
	}
	class := func(c int) string {
		switch {
		case t.Columns[c].Figures:
			return " class=\"figures\""
		case t.Columns[c].Whole:
			return " class=\"whole\""
		}
		return ""
	}
	h.put("<table%s>\n<thead><tr>", size(t, cols))
	for _, c := range cols {
		if head := text(t.Columns[c].Head); head != "" {
			h.put("<th scope=\"col\"%s>%s</th>", class(c), head)
		} else {
			h.put("<td></td>")
		}
	}
	h.put("</tr></thead>\n<tbody>\n")
	for _, r := range t.Rows {
		h.put("<tr>")
		for _, c := range cols {
			h.put("<td%s>%s</td>", class(c), inCell(in(r, c)))
		}
		h.put("</tr>\n")
	}
	h.put("</tbody>\n</table>\n")
}

// manyRows is from how many rows on a table is set small, so that it does not fill a page.
const manyRows = 30

// size is the class of a table: short ones do not run across the page, those that hold much are set small.
func size(t sheet.Table, cols []int) string {
	most := 0
	for _, r := range t.Rows {
		most = max(most, wording.Sum(cols, func(c int) int { return utf8.RuneCountInString(line(in(r, c).Text)) }))
	}
	switch {
	case len(cols) <= 2 && most < 70:
		return " class=\"short\""
	case len(cols) >= 6 && most > 160, len(t.Rows) > manyRows:
		return " class=\"dense\""
	}
	return ""
}

func inCell(c sheet.Cell) string {
	switch {
	case c.Text != "":
		return text(c.Text)
	case c.Swatch != nil:
		return swatch(*c.Swatch)
	case c.Boxes > 0:
		return squares(c.Boxes, 0)
	case c.Blank:
		return "<span class=\"write\"></span>"
	}
	return ""
}

func swatch(s sheet.Swatch) string {
	square := wording.If(hexForm().MatchString(s.Hex), fmt.Sprintf("<span class=\"swatch\" style=\"background-color:%s\"></span> ", s.Hex))
	return square + text(named(s))
}

// squares are boxes to tick, the first of them ticked.
func squares(n, done int) string {
	done = min(max(done, 0), max(n, 0))
	return strings.Repeat("<span class=\"box\">×</span>", done) + strings.Repeat("<span class=\"box\"></span>", max(n, 0)-done)
}

// manySteps is from how many steps on they are set small, so that they stay on two pages.
const manySteps = 18

func (h *page) ticks(t sheet.Ticks) {
	class := "ticks" + wording.If(len(t.List) > manySteps, " dense")
	items(h, class, t.List, func(k sheet.Tick) {
		h.put("<li><span class=\"box\"></span><div>")
		if k.No > 0 {
			h.put("<span class=\"no\">%d</span> ", k.No)
		}
		h.put("<strong>%s</strong>", text(k.Title))
		h.some(" <span class=\"figure\">%s</span>", k.Figure)
		h.some("<p class=\"caution\"><strong>CAUTION</strong> %s</p>", k.Caution)
		h.some("<p>%s</p>", strings.Join(k.Words, " "))
		h.put("</div><div class=\"rooms\">")
		for _, w := range k.Write {
			h.put("<span>%s <span class=\"write\"></span></span> ", text(w))
		}
		h.put("</div></li>\n")
	})
}

func (h *page) times(t sheet.Timetable) {
	items(h, "times", t.Rows, func(r sheet.Slot) {
		box := wording.If(r.Box, squares(1, 0)+" ")
		h.put("<li>%s<span class=\"span\">%s</span> %s", box, text(span(r)), text(r.Words))
		h.some(", <span class=\"note\">%s</span>", r.Note)
		h.put("</li>\n")
	})
}

func (h *page) tags(t sheet.Tags) {
	items(h, "tags", t.List, func(g sheet.Tag) {
		h.put("<li><span class=\"tag\">%s</span><p>%s</p><p>%s wet out</p><p>%s</p></li>\n", text(g.Tag), text(whose(g)), squares(1, 0), squares(g.Boxes, g.Done))
	})
}

func (h *page) cards(c sheet.Cards) {
	items(h, "cards", c.List, func(k sheet.Card) {
		h.put("<li><p class=\"made\"><span class=\"tag\">%s</span> %s</p>", text(k.Tag), text(k.Made))
		if k.Swatch != nil {
			h.put("<p class=\"blue\">%s</p>", swatch(*k.Swatch))
		}
		h.some("<p>%s</p>", strings.Join(k.Care, " "))
		h.some("<p>%s</p>", strings.Join(k.Rubbing, " "))
		h.put("</li>\n")
	})
}

func (h *page) slips(s sheet.Slips) {
	items(h, "slips", s.List, func(p sheet.Slip) {
		who := cmp.Or(text(p.Who), "whose: <span class=\"write\"></span>")
		h.put("<li><p class=\"whose\">%s</p>\n", who)
		for _, w := range p.Pieces {
			h.put("<p>%s</p>\n", text(w))
		}
		for _, g := range p.Goods {
			h.put("<p class=\"of\">%s</p>\n", text(g.Of))
			h.ticks(sheet.Ticks{List: g.Steps})
			h.put("<p>%s</p>\n", text("Later: "+strings.Join(g.Care, " ")))
		}
		h.put("<p>%s</p></li>\n", text(p.Rubbing))
	})
}
