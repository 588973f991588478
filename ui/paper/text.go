package paper

import (
	"cmp"
	"fmt"
	"strings"

	"github.com/charmbracelet/x/ansi"

	"example.org/vatside/model/sheet"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/widget"
)

// width is how many columns a line of text takes at most: what any printer sets on A4 and on Letter.
const width = 78

// blank is room to write.
const blank = "________"

// setter collects lines of text of so many columns at most.
type setter struct {
	b     strings.Builder
	width int
}

// asText is the sheet as plain text of 78 columns. A sheet without a title is its blocks alone.
func asText(s sheet.Sheet) string {
	t := setter{width: width}
	if s.Title != "" {
		t.fold("", "", strings.ToUpper(line(s.Title)))
		t.fold("", "", line(s.Subtitle))
	}
	headed := s.Title == ""
	for _, b := range s.Blocks {
		if !headed {
			t.gap()
		}
		t.block(b)
		_, headed = b.(sheet.Heading)
	}
	if s.Foot != "" {
		t.gap()
		t.fold("", "", line(s.Foot))
	}
	return t.b.String()
}

func (t *setter) put(s string) {
	t.b.WriteString(strings.TrimRight(strings.ReplaceAll(s, hole, " "), " ") + "\n")
}

// gap is an empty line, one at most.
func (t *setter) gap() {
	if s := t.b.String(); s != "" && !strings.HasSuffix(s, "\n\n") {
		t.b.WriteString("\n")
	}
}

// fold puts text of one line after a head, further lines under an indent.
func (t *setter) fold(head, indent, text string) {
	if text == "" {
		t.put(head)
	}
	for _, l := range widget.WrapAfter(text, t.width-ansi.StringWidth(head), t.width-ansi.StringWidth(indent)) {
		t.put(head + l)
		head = indent
	}
}

func (t *setter) block(b sheet.Block) {
	switch b := b.(type) {
	case sheet.Heading:
		t.fold("", "", line(b.Text))
		t.put(strings.Repeat("-", min(t.width, ansi.StringWidth(line(b.Text)))))
	case sheet.Paragraph:
		t.fold("", "", line(b.Text))
	case sheet.Facts:
		t.facts(b)
	case sheet.Table:
		t.table(b)
	case sheet.Swatches:
		for _, s := range b.Row {
			t.fold("  ", "    ", named(s))
		}
	case sheet.Ticks:
		spaced(t, b.List, t.tick)
	case sheet.Timetable:
		t.times(b)
	case sheet.Cautions:
		t.folds("CAUTION  ", "         ", b.List)
	case sheet.Tags:
		for _, tag := range b.List {
			t.fold(fmt.Sprintf("%-6s  ", line(tag.Tag)), "        ", whose(tag))
			t.fold("        [ ] wet out   ", "                      ", ticked(tag))
		}
	case sheet.Cards:
		spaced(t, b.List, func(k sheet.Card) { t.fold(fmt.Sprintf("%-6s  ", line(k.Tag)), "        ", said(k)) })
	case sheet.Slips:
		spaced(t, b.List, t.slip)
	case sheet.Plot:
		t.plot(b)
	case sheet.Mask:
		t.fold("", "", aDrawing)
	case sheet.PageBreak:
		t.b.WriteString("\f\n")
	}
}

// spaced sets a list with an empty line between its items.
func spaced[T any](t *setter, list []T, item func(T)) {
	for i, x := range list {
		if i > 0 {
			t.gap()
		}
		item(x)
	}
}

// folds puts texts after a head each.
func (t *setter) folds(head, indent string, texts []string) {
	for _, s := range texts {
		t.fold(head, indent, line(s))
	}
}

func (t *setter) facts(f sheet.Facts) {
	wide := widest(f.List, func(x sheet.Fact) string { return line(x.Name) })
	for _, x := range f.List {
		value := cmp.Or(line(x.Value), strings.Repeat("_", 30))
		head := padded(line(x.Name), wide, false) + "  "
		t.fold(head, strings.Repeat(" ", ansi.StringWidth(head)), value)
	}
}

// slip is between two rules that show where to cut.
func (t *setter) slip(p sheet.Slip) {
	t.put(strings.TrimSuffix(strings.Repeat("- ", t.width/2), " "))
	who := cmp.Or(line(p.Who), "whose: "+blank)
	t.fold("", "", who)
	t.folds("  ", "    ", p.Pieces)
	for _, g := range p.Goods {
		t.gap()
		t.fold("", "", line(g.Of))
		for _, k := range g.Steps {
			t.tick(k)
		}
		t.fold("Later: ", "  ", line(strings.Join(g.Care, " ")))
	}
	t.gap()
	t.fold("", "", line(p.Rubbing))
}

// widest is how many columns the widest text of a list takes.
func widest[T any](list []T, text func(T) string) (wide int) {
	for _, x := range list {
		wide = max(wide, ansi.StringWidth(text(x)))
	}
	return wide
}

// padded fills text with blanks up to a width, at its left for figures.
func padded(s string, wide int, figures bool) string {
	fill := strings.Repeat(" ", max(0, wide-ansi.StringWidth(s)))
	return wording.Either(figures, fill+s, s+fill)
}

func cell(c sheet.Cell) string {
	switch {
	case c.Text != "":
		return line(c.Text)
	case c.Swatch != nil:
		return named(*c.Swatch)
	case c.Boxes > 0:
		return boxes(c.Boxes)
	case c.Blank:
		return blank
	}
	return ""
}

// table sets its columns side by side; where the line is too short, the widest give way and fold.
func (t *setter) table(b sheet.Table) {
	cols := used(b)
	rows := [][]string{wording.Each(cols, func(c int) string { return line(b.Columns[c].Head) })}
	for _, r := range b.Rows {
		rows = append(rows, wording.Each(cols, func(c int) string { return cell(in(r, c)) }))
	}
	wides, least := make([]int, len(cols)), make([]int, len(cols))
	for i, c := range cols {
		wides[i] = widest(rows, func(r []string) string { return r[i] })
		if least[i] = narrowest; b.Columns[c].Whole {
			least[i] = min(wides[i], mostWhole)
		}
	}
	narrow(wides, least, t.width-2*(len(wides)-1))
	for _, r := range rows {
		lines := make([][]string, len(r))
		most := 0
		for i, s := range r {
			lines[i] = widget.Wrap(s, wides[i])
			most = max(most, len(lines[i]))
		}
		for n := range most {
			var parts []string
			for i, l := range lines {
				s := ""
				if n < len(l) {
					s = l[n]
				}
				parts = append(parts, padded(s, wides[i], b.Columns[cols[i]].Figures))
			}
			t.put(strings.Join(parts, "  "))
		}
	}
}

// narrowest is how far a column gives way; mostWhole is up to which width one that is not to be broken does not.
const narrowest, mostWhole = 4, 12

// narrow takes from the widest that can give way until all fit.
func narrow(wides, least []int, room int) {
	for sum := wording.Sum(wides, func(w int) int { return w }); sum > room; sum-- {
		widest := -1
		for i, w := range wides {
			if w > least[i] && (widest < 0 || w > wides[widest]) {
				widest = i
			}
		}
		if widest < 0 {
			return
		}
		wides[widest]--
	}
}

// tick is a box with what is to be done: its caution first, then how, then what to write.
func (t *setter) tick(k sheet.Tick) {
	head := "[ ] " + wording.If(k.No > 0, fmt.Sprintf("%2d  ", k.No))
	indent := strings.Repeat(" ", len(head))
	title := line(k.Title) + wording.If(k.Figure != "", ": "+line(k.Figure))
	t.fold(head, indent, title)
	if k.Caution != "" {
		t.fold(indent+"CAUTION  ", indent+"         ", line(k.Caution))
	}
	t.folds(indent, indent, k.Words)
	if len(k.Write) > 0 {
		t.fold(indent, indent, strings.Join(wording.Each(k.Write, func(w string) string { return line(w) + " " + blank }), "  "))
	}
}

func (t *setter) times(b sheet.Timetable) {
	wide := widest(b.Rows, span)
	for _, r := range b.Rows {
		box := wording.If(r.Box, "[ ] ")
		words := line(r.Words) + wording.If(r.Note != "", ", "+line(r.Note))
		head := box + padded(span(r), wide, false) + "  "
		t.fold(head, strings.Repeat(" ", ansi.StringWidth(head)), words)
	}
}

// span is from when till when.
func span(r sheet.Slot) string {
	return line(r.At) + wording.If(r.Till != "", " to "+line(r.Till))
}
