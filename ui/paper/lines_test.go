package paper_test

import (
	"strings"
	"testing"

	"example.org/vatside/model/sheet"
	"example.org/vatside/ui/paper"
)

// What a command prints, block by block: each kind as it stands on the lines.
func TestLines(t *testing.T) {
	long := strings.Repeat("word ", 20) + "end"
	cells := func(s ...string) (out []sheet.Cell) {
		for _, c := range s {
			out = append(out, sheet.Cell{Text: c})
		}
		return out
	}
	got := paper.Lines(
		sheet.Heading{Text: long + " " + long},
		sheet.PageBreak{},
		sheet.Paragraph{Text: long},
		sheet.Cautions{List: []string{long}},
		sheet.Table{Columns: []sheet.Column{{Figures: true}, {}}, Rows: [][]sheet.Cell{cells("9 g", "soda"), cells("", long), cells("more than ten", "x")}},
		sheet.Facts{List: []sheet.Fact{{Value: "Nothing is due."}, {Name: "Next", Value: "stir"}, {Name: "Next", Value: long}, {Name: "pH", Value: "9"}}},
		sheet.Ticks{List: []sheet.Tick{{Title: long}}},
	).String()
	words := func(n int) string { return strings.TrimSuffix(strings.Repeat("word ", n), " ") }
	want := strings.Join([]string{
		long + " " + long, "",
		words(20), "  end",
		"Caution: " + words(18), "  word word end",
		"          9 g  soda", "               " + words(17), "               word word word end", "more than ten  x",
		"  Nothing is due.", "  Next: stir", "        " + words(18), "    word word end", "  pH: 9",
		"  [ ] " + words(19), "      word end", "",
	}, "\n")
	if got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
	for _, l := range strings.Split(paper.Lines(whole("\x1b[31m a long word of the dyer's \u202e").Blocks...).String(), "\n") {
		if strings.ContainsAny(l, "\x1b\u202e") {
			t.Errorf("%q", l)
		}
	}
}
