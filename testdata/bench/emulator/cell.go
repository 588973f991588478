package emulator

import (
	"cmp"
	"fmt"
	"image/color"
	"strings"

	uv "github.com/charmbracelet/ultraviolet"
	"github.com/charmbracelet/x/ansi"
)

// Attrs are the attributes of a cell.
type Attrs uint8

// The attributes, by SGR 1, 2, 3, 4 or 21, 5 or 6, 7, 8 and 9.
const (
	Bold Attrs = 1 << iota
	Faint
	Italic
	Underline
	Blink
	Reverse
	Hidden
	Strike
)

// theirAttrs are those of x/vt; underlines are kept apart there.
var theirAttrs = [...]uint8{
	uv.AttrBold, uv.AttrFaint, uv.AttrItalic, 0, uv.AttrBlink | uv.AttrRapidBlink, uv.AttrReverse, uv.AttrConceal, uv.AttrStrikethrough,
}

var attrNames = []string{"bold", "faint", "italic", "underlined", "blinking", "reversed", "hidden", "struck"}

// Look is how a cell is drawn. A colour is ansi.BasicColor by SGR 30 to 37 and 90 to 97, ansi.IndexedColor by 38;5, color.RGBA by 38;2.
type Look struct {
	Ink, Ground color.Color // nil: the terminal's own
	Attrs       Attrs
}

// String names it: "bold, ink 4 of 16, ground #12ab34", or "plain".
func (l Look) String() string {
	var parts []string
	for i, name := range attrNames {
		if l.Attrs&(1<<i) != 0 {
			parts = append(parts, name)
		}
	}
	if l.Ink != nil {
		parts = append(parts, "ink "+named(l.Ink))
	}
	if l.Ground != nil {
		parts = append(parts, "ground "+named(l.Ground))
	}
	return cmp.Or(strings.Join(parts, ", "), "plain")
}

// named is a colour in words: "4 of 16", "93 of 256", "#12ab34".
func named(c color.Color) string {
	switch c := c.(type) {
	case ansi.BasicColor:
		return fmt.Sprintf("%d of 16", c)
	case ansi.IndexedColor:
		return fmt.Sprintf("%d of 256", c)
	}
	r, g, b, _ := c.RGBA()
	return fmt.Sprintf("#%02x%02x%02x", r>>8, g>>8, b>>8)
}

// lookOf is a look of x/vt.
func lookOf(s uv.Style) Look {
	l := Look{Ink: s.Fg, Ground: s.Bg}
	for i, theirs := range theirAttrs {
		if s.Attrs&theirs != 0 || s.Underline != ansi.UnderlineNone && Attrs(1)<<i == Underline {
			l.Attrs |= 1 << i
		}
	}
	return l
}

// Cell is one place of the screen.
type Cell struct {
	Text  string // a base character and its marks; a blank is " ", the right half of a wide character ""
	Width int    // cells that it takes: 1 or 2; 0 for the right half of a wide one
	Look
}

var empty = Cell{Text: " ", Width: 1}

// String is what Diff says of it.
func (c Cell) String() string {
	if c.Width == 0 {
		return "the right half of a wide character, " + c.Look.String()
	}
	return fmt.Sprintf("%q %s", c.Text, c.Look)
}

// Seen is the cell without what no eye can tell: of a blank neither the ink nor how a letter would be drawn, unless a line runs
// through it or it is reversed.
func (c Cell) Seen() Cell {
	if c.Text == " " && c.Attrs&(Underline|Reverse|Strike) == 0 {
		c.Ink, c.Attrs = nil, 0
	}
	return c
}

// differences is how many differing cells Diff tells.
const differences = 5

// Diff tells in which cells two screens show something else, and whether their cursors do; empty if the same is seen. Rows and
// columns count from 1, as in CUP.
func Diff(got, want *Screen) string {
	cols, rows := got.vt.Width(), got.vt.Height()
	if cols != want.vt.Width() || rows != want.vt.Height() {
		return fmt.Sprintf("%d columns and %d rows, not %d and %d", cols, rows, want.vt.Width(), want.vt.Height())
	}
	var told []string
	for y := range rows {
		for x := range cols {
			if g, w := got.Cell(x, y).Seen(), want.Cell(x, y).Seen(); g != w {
				told = append(told, fmt.Sprintf("row %d, column %d: %s, not %s", y+1, x+1, g, w))
			}
		}
	}
	if n := len(told) - differences; n > 0 {
		told = append(told[:differences], fmt.Sprintf("and %d more cells", n))
	}
	gx, gy, gShown := got.Cursor()
	wx, wy, wShown := want.Cursor()
	switch {
	case gShown != wShown:
		told = append(told, fmt.Sprintf("cursor shown: %t, not %t", gShown, wShown))
	case gShown && (gx != wx || gy != wy):
		told = append(told, fmt.Sprintf("cursor in row %d, column %d, not %d, %d", gy+1, gx+1, wy+1, wx+1))
	}
	return strings.Join(told, "\n")
}
