package paper

import (
	"cmp"
	"fmt"
	"strings"

	"example.org/vatside/model/sheet"
	"example.org/vatside/model/wording"
)

// asMarkdown is the sheet as CommonMark with pipe tables.
func asMarkdown(s sheet.Sheet) string {
	var b strings.Builder
	put := func(format string, a ...any) { fmt.Fprintf(&b, format+"\n", a...) }
	if s.Title != "" {
		put("# %s\n", mark(s.Title))
		if s.Subtitle != "" {
			put("%s\n", mark(s.Subtitle))
		}
	}
	for _, block := range s.Blocks {
		switch x := block.(type) {
		case sheet.Heading:
			put("## %s", mark(x.Text))
		case sheet.Paragraph:
			put("%s", mark(x.Text))
		case sheet.Facts:
			for _, f := range x.List {
				value := cmp.Or(mark(f.Value), blank)
				put("- **%s** %s", mark(f.Name), value)
			}
		case sheet.Table:
			pipes(put, x)
		case sheet.Swatches:
			for _, w := range x.Row {
				put("- %s", mark(named(w)))
			}
		case sheet.Ticks:
			for _, k := range x.List {
				markTick(put, k)
			}
		case sheet.Timetable:
			for _, r := range x.Rows {
				box := wording.If(r.Box, "[ ] ")
				words := mark(r.Words) + wording.If(r.Note != "", ", "+mark(r.Note))
				put("- %s**%s** %s", box, mark(span(r)), words)
			}
		case sheet.Cautions:
			for _, c := range x.List {
				put("- **CAUTION** %s", mark(c))
			}
		case sheet.Tags:
			for _, t := range x.List {
				put("- **%s** %s: %s wet out, %s", mark(t.Tag), mark(whose(t)), mark("[ ]"), mark(ticked(t)))
			}
		case sheet.Cards:
			for _, k := range x.List {
				put("- **%s** %s", mark(k.Tag), mark(said(k)))
			}
		case sheet.Slips:
			for _, p := range x.List {
				markSlip(put, p)
			}
		case sheet.Plot:
			put("%s", mark("From "+when(x.From)+" to "+when(x.Till)+"."))
			put("")
			pipes(put, figures(x))
		case sheet.Mask:
			put("%s", mark(aDrawing))
		case sheet.PageBreak:
			put("---")
		}
		put("")
	}
	if s.Foot != "" {
		put("*%s*", mark(s.Foot))
	}
	return b.String()
}

func markTick(put func(string, ...any), k sheet.Tick) {
	figure := wording.If(k.Figure != "", ": **"+mark(k.Figure)+"**")
	put("- [ ] %s%s%s  ", wording.If(k.No > 0, fmt.Sprintf("%d ", k.No)), mark(k.Title), figure)
	if k.Caution != "" {
		put("  **CAUTION** %s  ", mark(k.Caution))
	}
	for _, w := range k.Words {
		put("  %s  ", mark(w))
	}
	if len(k.Write) > 0 {
		put("  %s", strings.Join(wording.Each(k.Write, func(w string) string { return mark(w) + " " + blank }), " "))
	}
}

func markSlip(put func(string, ...any), p sheet.Slip) {
	put("## %s\n", cmp.Or(mark(p.Who), "whose: "+blank))
	for _, w := range p.Pieces {
		put("- %s", mark(w))
	}
	for _, g := range p.Goods {
		put("\n**%s**\n", mark(g.Of))
		for _, k := range g.Steps {
			markTick(put, k)
		}
		put("\n%s", mark("Later: "+strings.Join(g.Care, " ")))
	}
	put("\n%s\n", mark(p.Rubbing))
}

func pipes(put func(string, ...any), t sheet.Table) {
	cols := used(t)
	if len(cols) == 0 {
		return
	}
	row := func(of func(column int) string) { put("| %s |", strings.Join(wording.Each(cols, of), " | ")) }
	row(func(c int) string { return mark(t.Columns[c].Head) })
	row(func(c int) string {
		if t.Columns[c].Figures {
			return "---:"
		}
		return "---"
	})
	for _, r := range t.Rows {
		row(func(c int) string {
			if in(r, c) == (sheet.Cell{Blank: true}) {
				return blank
			}
			return mark(cell(in(r, c)))
		})
	}
}

// meant are the characters that mean something in Markdown wherever they stand.
const meant = "\\`*_[]<>|~&$"

// mark is text as Markdown that reads as that very text. What means something at the beginning of a line only, a hyphen or
// a figure with a point, is marked there only, so that the source reads as well.
func mark(s string) string {
	runes := []rune(line(strings.ReplaceAll(s, hole, " ")))
	figures := 0
	for figures < len(runes) && runes[figures] >= '0' && runes[figures] <= '9' {
		figures++
	}
	var b strings.Builder
	for i, r := range runes {
		ends := i+1 == len(runes) || runes[i+1] == ' '
		switch {
		case strings.ContainsRune(meant, r),
			i == 0 && strings.ContainsRune("-+=#:", r),
			i > 0 && i == figures && ends && (r == '.' || r == ')'):
			b.WriteByte('\\')
		}
		b.WriteRune(r)
	}
	return b.String()
}
