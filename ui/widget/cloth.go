package widget

import (
	"strings"

	"github.com/charmbracelet/x/ansi"

	"example.org/vatside/ui/style"
)

// Waterline is one row of water in the liquor's colour.
func Waterline(width int, liquor style.Shade, st style.Style) string {
	return st.Ink(liquor, strings.Repeat(st.Glyphs.Water, max(width, 0)))
}

// Ladder is a piece's progress, one cell a dip with a blank between: done dips solid in the colour that each
// gave, the present one open if in is true, coming ones as thin marks. shades[i] is the colour that dip
// i+1 gave or will give; with fewer shades than dips the last holds on.
func Ladder(done int, in bool, planned int, shades []style.Shade, st style.Style) string {
	planned = max(planned, done)
	if in {
		planned = max(planned, done+1)
	}
	cells := make([]string, planned)
	for i := range cells {
		ink := func(glyph string) string { return glyph }
		if len(shades) > 0 {
			shade := shades[min(i, len(shades)-1)]
			ink = func(glyph string) string { return st.Ink(shade, glyph) }
		}
		switch {
		case i < done:
			cells[i] = ink(st.Glyphs.Done)
		case i == done && in:
			cells[i] = ink(st.Glyphs.Open)
		default:
			cells[i] = st.Dim.Render(st.Glyphs.Coming)
		}
	}
	return strings.Join(cells, " ")
}

// Strip is the planner's cloth: Shades[n] as it will be after n dips, Shades[0] undyed.
type Strip struct {
	Shades    []style.Shade
	Wanted    float64 // where the wanted blue lies, in dips; below zero: nowhere
	Low, High int     // the likely range in dips; High 0: none
	Best      int     // dips; 0: none
}

// Swatches draws the strip: rows of cloth across the width, under them the notch and the bracket, and then
// the numbers of dips.
func Swatches(s Strip, width, rows int, st style.Style) []string {
	n := len(s.Shades)
	if n == 0 || width < 1 {
		return nil
	}
	cell := func(i int) (from, to int) { return i * width / n, (i + 1) * width / n }
	var cloth strings.Builder
	for i, shade := range s.Shades {
		from, to := cell(i)
		cloth.WriteString(st.Fill(shade, to-from))
	}
	var out []string
	for range max(rows, 1) {
		out = append(out, cloth.String())
	}
	out = append(out, s.marks(width, cell, st), s.numbers(width, cell, st))
	return out
}

func (s Strip) marks(width int, cell func(int) (int, int), st style.Style) string {
	row := []rune(strings.Repeat(" ", width))
	last := len(s.Shades) - 1
	if s.High > 0 && s.Low <= s.High {
		from, _ := cell(min(max(s.Low, 0), last))
		_, to := cell(min(s.High, last))
		if to-from > 1 {
			row[from], row[to-1] = '[', ']'
		}
	}
	if s.Wanted < 0 {
		return st.Dim.Render(string(row))
	}
	at := min(int((s.Wanted+0.5)*float64(width)/float64(len(s.Shades))), width-1)
	return st.Dim.Render(string(row[:at])) + st.Now.Render(st.Glyphs.Upper) + st.Dim.Render(string(row[at+1:]))
}

// numbers writes each swatch's dips under its middle and leaves out those that would touch; never the best.
func (s Strip) numbers(width int, cell func(int) (int, int), st style.Style) string {
	from, to := cell(1 % len(s.Shades))
	every := 1
	for every*(to-from) < 3 && every < len(s.Shades) {
		every++
	}
	start := func(i int) int {
		from, to := cell(i)
		return min((from+to-1)/2, width-len(itoa(i)))
	}
	var b strings.Builder
	at := 0
	for i := range s.Shades {
		x, number := start(i), itoa(i)
		best := s.Best > 0 && i == s.Best
		if !best && i%every != 0 || x < at {
			continue
		}
		if !best && s.Best > i && s.Best < len(s.Shades) && x+len(number)+1 > start(s.Best) {
			continue
		}
		ink := st.Dim
		if best {
			ink = st.Now
		}
		b.WriteString(strings.Repeat(" ", x-at) + ink.Render(number))
		at = x + ansi.StringWidth(number)
	}
	return b.String()
}
