package paper_test

import (
	"encoding/xml"
	"errors"
	"io"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"
	"unicode"

	"github.com/charmbracelet/x/ansi"
	"pgregory.net/rapid"

	"example.org/vatside/model/outlook"
	"example.org/vatside/model/photo"
	"example.org/vatside/model/sheet"
	"example.org/vatside/ui/paper"
)

// parsed is HTML read as XML, strictly: its elements in order, each with its attributes, and all of its text.
func parsed(t interface{ Fatalf(string, ...any) }, page string) (elements []string, text string) {
	d := xml.NewDecoder(strings.NewReader(page))
	var b strings.Builder
	for {
		tok, err := d.Token()
		if errors.Is(err, io.EOF) {
			return elements, b.String()
		}
		if err != nil {
			t.Fatalf("not well formed: %v", err)
		}
		switch tok := tok.(type) {
		case xml.StartElement:
			name := tok.Name.Local
			for _, a := range tok.Attr {
				name += " " + a.Name.Local + "=" + a.Value
			}
			elements = append(elements, name)
		case xml.CharData:
			b.Write(tok)
		}
	}
}

func TestHTMLIsWellFormedAndAlone(t *testing.T) {
	fetches := regexp.MustCompile(`(?i)(https?:|//|url\(|@import|<script|<link|<img|<iframe|javascript:| on[a-z]+=)`)
	for name, s := range sheets(t) {
		page := paper.HTML(s)
		elements, _ := parsed(t, page)
		if !strings.HasPrefix(page, "<!DOCTYPE html>\n<html lang=\"en\">") || len(elements) < 10 {
			t.Errorf("%s does not begin as HTML5 does", name)
		}
		if found := fetches.FindString(page); found != "" {
			t.Errorf("%s fetches or runs something: %q", name, found)
		}
		for _, must := range []string{"@page", "print-color-adjust: exact", "class=\"edge\""} {
			if !strings.Contains(page, must) {
				t.Errorf("%s has no %s", name, must)
			}
		}
	}
}

// A colour never says anything alone: each swatch has its number and its name as text right behind it.
func TestSwatchesAreNamed(t *testing.T) {
	swatch := regexp.MustCompile(`style="background-color:(#[0-9a-f]{6})"></span> (rung \d+: )?([a-z-]+) (#[0-9a-f]{6})`)
	for name, s := range sheets(t) {
		page := paper.HTML(s)
		named := swatch.FindAllStringSubmatch(page, -1)
		if strings.Count(page, "background-color:#") != len(named) {
			t.Errorf("%s has swatches without a name", name)
		}
		for _, m := range named {
			if m[1] != m[4] {
				t.Errorf("%s: the square is %s and the words say %s", name, m[1], m[4])
			}
		}
	}
}

func TestTextKeepsToItsWidth(t *testing.T) {
	for name, s := range sheets(t) {
		for _, l := range strings.Split(paper.Text(s), "\n") {
			if w := ansi.StringWidth(l); w > 78 {
				t.Errorf("%s: %d columns: %s", name, w, l)
			}
		}
	}
}

// whole is a sheet of every kind of block with a dyer's words wherever they may stand.
func whole(w string) sheet.Sheet {
	return sheet.Sheet{Title: w, Subtitle: w, Foot: w, Edge: w, Blocks: []sheet.Block{
		sheet.Heading{Text: w}, sheet.Paragraph{Text: w}, sheet.Facts{List: []sheet.Fact{{Name: "vat", Value: "x" + w}}},
		sheet.Table{Columns: []sheet.Column{{Head: "what"}, {Head: "note", Figures: true}, {Head: "looks"}},
			Rows: [][]sheet.Cell{{{Text: "A"}, {Text: "x" + w}, {Swatch: &sheet.Swatch{Hex: "#102030", Name: w, Note: w}}}}},
		sheet.Swatches{Row: []sheet.Swatch{{Hex: w, Name: w, Rung: 2}}},
		sheet.Ticks{List: []sheet.Tick{{No: 1, Title: w, Figure: "x" + w, Caution: "x" + w, Words: []string{w}, Write: []string{w}}}},
		sheet.Timetable{Rows: []sheet.Slot{{At: "10:00", Words: w, Note: "x" + w, Box: true}}}, sheet.Cautions{List: []string{w}},
		sheet.Tags{List: []sheet.Tag{{Tag: "A1", Who: "x" + w, Words: w, Boxes: 2, Done: 1}}}, sheet.PageBreak{}, sheet.Heading{Text: w},
		sheet.Cards{List: []sheet.Card{{Tag: "A1", What: w, Swatch: &sheet.Swatch{Hex: "#102030", Name: w}, Made: "x" + w, Care: []string{w, "x" + w}, Rubbing: []string{"x" + w}}}},
		sheet.Slips{List: []sheet.Slip{{Who: w, Pieces: []string{w}, Rubbing: "x" + w,
			Goods: []sheet.SlipGoods{{Of: w, Steps: []sheet.Tick{{Title: w, Figure: "x" + w, Caution: w, Words: []string{w}}}, Care: []string{w, "x" + w}}}}}},
		sheet.Mask{Of: "x" + w, Code: photo.CodeOf("a", "b")}, drawn(w),
	}}
}

// drawn is a plot of two series over ten days, with a dyer's words wherever words stand.
func drawn(w string) sheet.Plot {
	at := func(days int) time.Time { return time.Date(2026, 3, 2+days, 9, 0, 0, 0, time.UTC) }
	return sheet.Plot{From: at(0), Till: at(10), Marks: []sheet.Mark{{At: at(2), Words: w}, {At: at(9), Words: w}}, Series: []sheet.Series{
		{Name: w, Unit: w, Low: 0, High: 40, Scale: []sheet.Scale{{Level: 0, Words: w}, {Level: 40, Words: w}}, Works: &[2]sheet.Level{30, 40}, Range: w,
			Points: []sheet.Point{{At: at(0), Level: 10, Words: w, Known: outlook.Measured}, {At: at(0).Add(time.Hour), Level: 40, Words: w, Known: outlook.Measured},
				{At: at(10), Level: 0, Words: w, Known: outlook.Guessed}}, Least: w, Most: w, Last: w},
		{Name: "swatch", Shape: sheet.Square, Low: 0, High: 1, Through: true, Least: w, Most: w, Last: w, Points: []sheet.Point{
			{At: at(0), Level: 1, Known: outlook.Measured, Hex: "#102030"}, {At: at(5), Level: 0.5, Known: outlook.Reckoned, Hex: w},
			{At: at(10), Level: 0, Known: outlook.Guessed, Hex: "#d0d0e0"}}},
	}}
}

// A plot has a name and a telling of its own, a form a series, and the marks of how each point is known; a line runs over
// the night only where a series runs through.
func TestPlotInHTML(t *testing.T) {
	page := paper.HTML(sheet.Sheet{Title: "Bin", Blocks: []sheet.Block{drawn("warmth"), drawn("pH")}})
	elements, text := parsed(t, page)
	count := func(of string) (n int) {
		for _, e := range elements {
			if strings.Contains(e, of) {
				n++
			}
		}
		return n
	}
	for of, want := range map[string]int{
		"svg ": 2, "id=plot-1": 2, "id=plot-2": 2, "aria-labelledby=plot-2 plot-2-told": 1, "role=img": 2,
		"circle ": 6, "circle cx=184.0 cy=44.5 r=2.3 fill=#111": 2, "r=2.3 fill=#fff": 2, // the last °C was judged by eye
		"fill=#102030 stroke=#111 stroke-width=0.5": 2, "fill=#d0d0e0 stroke=#111 stroke-width=0.5 stroke-dasharray": 2,
		"rect x=176 y=10.0 width=520 height=11.5 fill=#eee": 2, // 30 to 40 of 0 to 40
	} {
		if got := count(of); got != want {
			t.Errorf("%d of %q, not %d", got, of, want)
		}
	}
	if n := strings.Count(page, `<path d="M184.0 44.5L186.1 10.0M688.0 56.0" fill="none"`); n != 2 {
		t.Errorf("a line runs where nothing was read: %d", n)
	}
	if n := strings.Count(page, `<path d="M184.0 72.0L436.0 95.0L688.0 118.0" fill="none"`); n != 2 {
		t.Errorf("the swatches are not joined: %d", n)
	}
	if !strings.Contains(text, "From 2 Mar 2026 to 12 Mar 2026") || !strings.Contains(text, "warmth: 3 times, warmth to warmth, last warmth; works at warmth.") {
		t.Errorf("it is not told: %q", text)
	}
}

func TestPlotInText(t *testing.T) {
	got := paper.Text(sheet.Sheet{Blocks: []sheet.Block{drawn("p")}})
	want := "p: 3 times, p to p, last p; works at p.\n" +
		"      p |*\n        |\n        |*\n      p |" + strings.Repeat(" ", 68) + "o\n" +
		"swatch: 3 times, p to p, last p.\n" +
		"        |*\n        |                                  x\n        |\n        |" + strings.Repeat(" ", 68) + "o\n"
	if !strings.HasPrefix(got, want) || !strings.HasSuffix(got, "o by eye\n") || !strings.Contains(got, "+--------------+------") {
		t.Errorf("%s\nnot\n%s", got, want)
	}
	if md := paper.Markdown(sheet.Sheet{Blocks: []sheet.Block{drawn("p")}}); !strings.Contains(md, "From 2 Mar 2026 to 12 Mar 2026.\n\n| what | times | least | most | last | works at |") ||
		!strings.Contains(md, "| swatch | 3 | p | p | p |  |") {
		t.Error(md)
	}
}

// A whole cell stays on its line, in text and in HTML, while another that is wider gives way.
func TestWholeColumns(t *testing.T) {
	long := strings.TrimSpace(strings.Repeat("soda ash ", 9))
	table := sheet.Table{Columns: []sheet.Column{{Head: "day", Whole: true}, {Head: "given"}, {Head: "why"}}, Rows: [][]sheet.Cell{{{Text: "2026-03-02"}, {Text: long}, {Text: long}}}}
	if got := paper.Text(sheet.Sheet{Blocks: []sheet.Block{table}}); !strings.Contains(got, "\n2026-03-02  soda") {
		t.Error(got)
	}
	narrow := table
	narrow.Columns = append([]sheet.Column{{Head: "day", Whole: true}}, make([]sheet.Column, 8)...)
	narrow.Rows = [][]sheet.Cell{{{Text: "2026-03-02"}}}
	for range 8 {
		narrow.Rows[0] = append(narrow.Rows[0], sheet.Cell{Text: long})
	}
	if got := paper.Text(sheet.Sheet{Blocks: []sheet.Block{narrow}}); !strings.Contains(got, "\n2026-03-02  soda") {
		t.Error(got)
	}
	if page := paper.HTML(sheet.Sheet{Blocks: []sheet.Block{table}}); !strings.Contains(page, `<td class="whole">2026-03-02</td><td>soda`) {
		t.Error(page)
	}
}

// A card has all its words, keeps together, and has a square of blue only where there is a blue.
func TestCards(t *testing.T) {
	c := sheet.Cards{List: []sheet.Card{
		{Tag: "A1", What: "runner", Swatch: &sheet.Swatch{Hex: "#102030", Name: "navy", Note: "as seen"}, Made: "Runner, linen.", Care: []string{"Wash.", "Dry."}, Rubbing: []string{"Rubs."}},
		{Tag: "A2", What: "scarf", Made: "Scarf, silk.", Care: []string{"Soak not."}, Rubbing: []string{"Rubs too."}},
	}}
	page := paper.HTML(sheet.Sheet{Title: "Labels", Blocks: []sheet.Block{c}})
	if strings.Count(page, "class=\"swatch\"") != 1 || !strings.Contains(page, "#102030\"></span> navy #102030 (as seen)") || !strings.Contains(page, "tr, li { break-inside: avoid; }") {
		t.Error(page)
	}
	for _, must := range []string{"A1</span> Runner, linen.", "<p>Wash. Dry.</p><p>Rubs.</p></li>", "<p>Soak not.</p><p>Rubs too.</p></li>"} {
		if !strings.Contains(page, must) {
			t.Errorf("no %q", must)
		}
	}
	if got, want := paper.Text(sheet.Sheet{Blocks: []sheet.Block{c}}), "A1      Runner, linen. Its blue: navy #102030 (as seen). Wash. Dry. Rubs.\n\nA2      Scarf, silk. Soak not. Rubs too.\n"; got != want {
		t.Errorf("%q", got)
	}
	if got := paper.Markdown(sheet.Sheet{Blocks: []sheet.Block{c}}); !strings.Contains(got, "- **A2** Scarf, silk. Soak not. Rubs too.\n") {
		t.Errorf("%q", got)
	}
}

// read is text as it reads on paper: blanks do not heap, what cannot be printed is not there.
func read(s string) string {
	return strings.Join(strings.FieldsFunc(strings.ToValidUTF8(s, "\ufffd"), func(r rune) bool {
		return unicode.IsSpace(r) || unicode.IsControl(r) || unicode.In(r, unicode.Cf, unicode.Co) || r == 0xfffe || r == 0xffff
	}), " ")
}

// words are what a dyer may type, and worse.
func words() *rapid.Generator[string] {
	worse := rapid.SampledFrom([]string{
		"</td></tr><script>alert(1)</script>", "| a | b |", "\\| \\", "**bold** _x_ `code` ~~no~~", "<!-- ", "&lt;&amp;", "\"' onload='x", "[a](http://b)",
		"# head", "- item", "1. one", "--- | ---", "a\nb\r\nc", "\x00\x1b[31m", "]]>", "${x}", "}</style>", "\ue000", "Überfärbt, 藍 blau",
	})
	return rapid.OneOf(rapid.String(), worse, rapid.Custom(func(t *rapid.T) string { return worse.Draw(t, "a") + rapid.String().Draw(t, "b") + worse.Draw(t, "c") }))
}

// Whatever is typed stays text: it adds no element, and all of it can be read.
func TestHTMLEscapes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := words().Draw(t, "words")
		if read(w) == "" {
			return
		}
		want, _ := parsed(t, paper.HTML(whole("plain")))
		got, text := parsed(t, paper.HTML(whole(w)))
		if !slices.Equal(got, want) {
			t.Fatalf("%q makes elements:\n%v\n%v", w, got, want)
		}
		if n := strings.Count(strings.Join(strings.Fields(text), " "), read("x"+w)); n < 5 {
			t.Fatalf("%q stands %d times in the text", w, n)
		}
	})
}

// unmarked reads Markdown back: each cell of a row, what a backslash stands before as itself.
func unmarked(row string) []string {
	var cells []string
	var b strings.Builder
	runes := []rune(row)
	for i := 0; i < len(runes); i++ {
		switch {
		case runes[i] == '\\' && i+1 < len(runes):
			i++
			b.WriteRune(runes[i])
		case runes[i] == '|':
			cells = append(cells, strings.TrimSpace(b.String()))
			b.Reset()
		default:
			b.WriteRune(runes[i])
		}
	}
	return append(cells, b.String())
}

// Whatever is typed stays in its cell of a Markdown table, and on its line.
func TestMarkdownEscapes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := words().Draw(t, "words")
		if read(w) == "" {
			return
		}
		plain, got := strings.Split(paper.Markdown(whole("plain")), "\n"), strings.Split(paper.Markdown(whole(w)), "\n")
		if len(plain) != len(got) {
			t.Fatalf("%q makes %d lines of %d", w, len(got), len(plain))
		}
		for i, l := range got {
			if bare := regexp.MustCompile(`\\.`).ReplaceAllString(l, ""); strings.ContainsAny(bare, "<>`&~") || strings.Count(bare, "|") != strings.Count(plain[i], "|") {
				t.Fatalf("%q is not marked in %q", w, l)
			}
			if strings.HasPrefix(l, "| A | x") {
				cells := unmarked(l)
				if len(cells) != 5 || cells[2] != read("x"+w) || cells[3] != read(w)+" #102030 ("+read(w)+")" {
					t.Fatalf("%q becomes %q", w, cells)
				}
			}
		}
	})
}

// Whatever is typed, a line of text is no longer than the paper is wide, and no control character gets to a printer.
func TestTextFolds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := words().Draw(t, "words")
		for _, l := range strings.Split(strings.ReplaceAll(paper.Text(whole(w)), "\f", ""), "\n") {
			if ansi.StringWidth(l) > 78 || strings.ContainsFunc(l, unicode.IsControl) {
				t.Fatalf("%q gives the line %q", w, l)
			}
		}
	})
}
