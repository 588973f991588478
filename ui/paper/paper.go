// Package paper sets a sheet of model/sheet as plain text, Markdown or HTML.
//
// The rules: nothing is fetched and nothing runs, so that a file can be kept, mailed and printed anywhere; what the dyer
// typed is text and never markup; a colour always has its number and its name beside it; every box to tick is a box in
// each form.
package paper

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"example.org/vatside/model/sheet"
	"example.org/vatside/model/wording"
)

// Forms are the names of the forms, the plainest first.
func Forms() []string { return []string{"txt", "md", "html"} }

// Set is the sheet in one of the forms.
func Set(s sheet.Sheet, form string) (wording.Page, error) {
	switch form {
	case "txt":
		return wording.ShowPage(asText(s)), nil
	case "md":
		return wording.ShowPage(asMarkdown(s)), nil
	case "html":
		return wording.ShowPage(asHTML(s)), nil
	}
	return wording.Page{}, fmt.Errorf("a sheet is txt, md or html, not %q", form)
}

// line is text on one line: what is no printable character becomes a blank, and blanks do not heap.
func line(s string) string {
	return strings.Join(strings.FieldsFunc(strings.ToValidUTF8(s, "\ufffd"), func(r rune) bool { return unicode.IsSpace(r) || !printable(r) }), " ")
}

// printable tells whether a character may stand on paper, and in XML.
func printable(r rune) bool {
	return !unicode.IsControl(r) && !unicode.In(r, unicode.Cf, unicode.Cs, unicode.Co) && r&0xfffe != 0xfffe
}

// used are the columns of a table in which any cell says something; the others are left out.
func used(t sheet.Table) []int {
	var out []int
	for i := range t.Columns {
		if slices.ContainsFunc(t.Rows, func(r []sheet.Cell) bool { return in(r, i) != (sheet.Cell{}) }) {
			out = append(out, i)
		}
	}
	return out
}

// in is the cell of a column; an empty one where the row ends before it.
func in(row []sheet.Cell, column int) sheet.Cell {
	if column < len(row) {
		return row[column]
	}
	return sheet.Cell{}
}

// named is a swatch in words: name, number, rung, and how it is known.
func named(s sheet.Swatch) string {
	words := []string{line(s.Name), line(s.Hex)}
	if s.Rung > 0 {
		words = slices.Insert(words, 0, fmt.Sprintf("rung %d:", s.Rung))
	}
	if s.Note != "" {
		words = append(words, "("+line(s.Note)+")")
	}
	return strings.Join(words, " ")
}

// hole is the inside of a box while lines are broken: no dyer can have typed it, since line drops it.
const hole = "\ue000"

// boxes are so many boxes as text, a hole in each.
func boxes(n int) string { return strings.TrimSpace(strings.Repeat("["+hole+"] ", max(0, n))) }

// ticked are the boxes of a tag, those behind it ticked.
func ticked(t sheet.Tag) string {
	done := min(max(t.Done, 0), max(t.Boxes, 0))
	return strings.TrimSpace(strings.Repeat("[x] ", done) + boxes(t.Boxes-done))
}

// whose is the words of a tag with whose it is.
func whose(t sheet.Tag) string {
	return wording.If(t.Who != "", "of "+line(t.Who)+", ") + line(t.Words)
}

// said is a card in running words, its tag left out.
func said(k sheet.Card) string {
	parts := []string{line(k.Made)}
	if k.Swatch != nil {
		parts = append(parts, "Its blue: "+named(*k.Swatch)+".")
	}
	return strings.Join(append(parts, wording.Each(slices.Concat(k.Care, k.Rubbing), line)...), " ")
}
