package paper

import (
	"strings"

	"github.com/charmbracelet/x/ansi"

	"example.org/vatside/model/sheet"
	"example.org/vatside/model/wording"
)

// LineWidth is how many columns a line of what a command prints takes at most; a heading may be longer.
const LineWidth = 100

// Lines are blocks as a command prints them. A heading is one line as it stands; paragraphs and cautions are folded under an
// indent; facts are indented under the line before them, and a name is not said twice in a row; of a table the first column
// are figures, ten columns wide or more, beside the second; a page break is an empty line.
func Lines(blocks ...sheet.Block) wording.Page {
	t := setter{width: LineWidth}
	for _, b := range blocks {
		switch b := b.(type) {
		case sheet.Heading:
			t.put(wording.Show(b.Text).String())
		case sheet.Paragraph:
			t.fold("", "  ", line(b.Text))
		case sheet.Facts:
			t.under(b)
		case sheet.Cautions:
			t.folds("Caution: ", "  ", b.List)
		case sheet.Table:
			t.figures(b)
		case sheet.Ticks:
			for _, k := range b.List {
				t.fold("  [ ] ", "      ", line(k.Title))
			}
		case sheet.PageBreak:
			t.put("")
		default:
			t.block(b)
		}
	}
	return wording.ShowPage(t.b.String())
}

func (t *setter) under(f sheet.Facts) {
	before := ""
	for _, x := range f.List {
		head := ""
		if name := line(x.Name); name != "" {
			if head = name + ": "; name == before {
				head = strings.Repeat(" ", ansi.StringWidth(head))
			}
			before = name
		}
		t.fold("  "+head, "    ", line(x.Value))
	}
}

func (t *setter) figures(b sheet.Table) {
	wide := max(10, widest(b.Rows, func(r []sheet.Cell) string { return cell(r[0]) }))
	for _, r := range b.Rows {
		t.fold(padded(cell(r[0]), wide, true)+"  ", strings.Repeat(" ", wide+2), cell(r[1]))
	}
}
