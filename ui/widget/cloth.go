package widget

import (
	"slices"
	"strconv"
	"strings"

	"example.org/vatside/ui/style"
)

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
	var out []string
	rows = max(rows, 1)
	hem := slices.ContainsFunc(s.Shades, st.Hemmed)
	for y := range rows {
		var cloth strings.Builder
		for i, shade := range s.Shades {
			from, to := cell(i)
			cloth.WriteString(clothRow(shade, to-from, y, rows, hem, st))
		}
		out = append(out, cloth.String())
	}
	out = append(out, s.marks(width, cell, st), s.numbers(width, cell, st))
	return out
}

// marks are the likely range as a thick bar, of which the best number of dips is solid, and the wanted blue in it.
func (s Strip) marks(width int, cell func(int) (int, int), st style.Style) string {
	last, g := len(s.Shades)-1, st.Glyphs
	at, wish := -1, g.Full
	if st.Profile == style.NoColour {
		wish = g.Open
	}
	if s.Wanted >= 0 {
		at = min(int((s.Wanted+0.5)*float64(width)/float64(len(s.Shades))), width-1)
	}
	notch := 1
	if width > wideNotch {
		notch = 2
	}
	var b strings.Builder
	for i := range s.Shades {
		from, to := cell(i)
		for x := from; x < to; x++ {
			switch {
			case at >= 0 && x >= at && x < at+notch:
				b.WriteString(st.Now.Render(wish))
			case i == s.Best && i > 0:
				b.WriteString(st.Text.Render(g.Full))
			case s.High > 0 && i >= s.Low && i <= min(s.High, last):
				b.WriteString(st.Dim.Render(g.Lower))
			default:
				b.WriteByte(' ')
			}
		}
	}
	return strings.TrimRight(b.String(), " ")
}

// wideNotch is from how many columns on the wish is two wide, to be seen from afar.
const wideNotch = 100

// numbers writes each swatch's dips under its middle, those of the likely range bold, and leaves out those that would touch; never
// the best.
func (s Strip) numbers(width int, cell func(int) (int, int), st style.Style) string {
	from, to := cell(1 % len(s.Shades))
	every := 1
	for every*(to-from) < 3 && every < len(s.Shades) {
		every++
	}
	label := func(i int) string {
		if from, to := cell(0); i == 0 && to-from > 3 {
			return "new"
		}
		return strconv.Itoa(i)
	}
	start := func(i int) int {
		from, to := cell(i)
		l := style.Width(label(i))
		return max(0, min((from+to-l)/2, width-l))
	}
	best := s.Best > 0 && s.Best < len(s.Shades)
	var b strings.Builder
	at := 0
	for i := range s.Shades {
		x, word, ink := start(i), label(i), st.Dim
		likely := s.High > 0 && i >= s.Low && i <= s.High
		switch {
		case best && i == s.Best:
			ink = st.Act
		case i%every != 0 || x < at || best && i < s.Best && x+len(word)+1 > start(s.Best):
			continue
		case likely:
			ink = st.Act
		}
		b.WriteString(strings.Repeat(" ", max(0, x-at)) + ink.Render(word))
		at = x + style.Width(word) + 1
		b.WriteByte(' ')
	}
	return clip(b.String(), width, "")
}

// clothRow is row y of so many of a cloth; hem: with one at the upper and lower edge.
func clothRow(shade style.Shade, width, y, rows int, hem bool, st style.Style) string {
	if hem && rows > 2 && (y == 0 || y == rows-1) {
		return st.Edge(shade, width, y == 0)
	}
	return st.Fill(shade, width)
}

// Patch is one swatch that stands for itself: its cloth, and lines about it.
type Patch struct {
	Cloth  style.Shade
	Says   []string // the shorter the better: what has no room is cut, whole lines where none has
	Chosen bool
}

// Patches draws swatches side by side with air between, rows of cloth high, and under each what is said of it. The first
// of the lines is always there; the chosen one's is marked. Of more than fit, those around the chosen are drawn.
func Patches(patches []Patch, width, rows int, st style.Style) List {
	const least, gap, widest = 5, 2, 44
	if len(patches) == 0 || width < least {
		return List{}
	}
	chosen, lines, from := 0, 0, 0
	for i, p := range patches {
		if p.Chosen {
			chosen = i
		}
		lines = max(lines, len(p.Says))
	}
	if most := (width + gap) / (least + gap); len(patches) > most {
		from = min(max(0, chosen-most/2), len(patches)-most)
		patches = patches[from : from+most]
	}
	cell := min((width+gap)/len(patches)-gap, widest)
	said := func(line int) bool { // a line that does not fit all is for the chosen's own sentence
		for _, p := range patches {
			if line > 0 && line < len(p.Says) && style.Width(Drawable(p.Says[line], st.Glyphs)) > cell {
				return false
			}
		}
		return true
	}
	row := func(draw func(p Patch) string) string {
		var b strings.Builder
		for i, p := range patches {
			if i > 0 {
				b.WriteString(strings.Repeat(" ", gap))
			}
			b.WriteString(style.Pad(clip(draw(p), cell, ""), cell))
		}
		return strings.TrimRight(b.String(), " ")
	}
	var out List
	put := func(line string) {
		for i := range patches {
			x := i * (cell + gap)
			out.Spots = append(out.Spots, Spot{Line: len(out.Lines), From: x, To: x + cell, Row: from + i})
		}
		out.Lines = append(out.Lines, line)
	}
	rows = max(rows, 1)
	hem := slices.ContainsFunc(patches, func(p Patch) bool { return st.Hemmed(p.Cloth) })
	for y := range rows {
		put(row(func(p Patch) string { return clothRow(p.Cloth, cell, y, rows, hem, st) }))
	}
	for line := range lines {
		if !said(line) {
			continue
		}
		put(row(func(p Patch) string {
			if line >= len(p.Says) {
				return ""
			}
			text := Drawable(p.Says[line], st.Glyphs)
			switch {
			case !p.Chosen && line == 0:
				return st.Act.Render(text)
			case !p.Chosen:
				return st.Dim.Render(text)
			case line == 0:
				text = st.Glyphs.Done + " " + text
			}
			return st.Now.Render(text)
		}))
	}
	return out
}

// Under writes a word under the middle of each of as many cells as there are words, and leaves out those that would touch,
// evenly.
func Under(words []string, width int, st style.Style) string {
	n, widest := len(words), 0
	for _, w := range words {
		widest = max(widest, style.Width(Drawable(w, st.Glyphs)))
	}
	if n == 0 || widest == 0 || widest > width {
		return ""
	}
	every := 1
	for every < n && every*width/n < widest+1 {
		every++
	}
	var b strings.Builder
	at := 0
	for i := 0; i < n; i += every {
		w := Drawable(words[i], st.Glyphs)
		x := min(max((i*width/n+(i+1)*width/n-style.Width(w))/2, at), width-style.Width(w))
		if x < at {
			break
		}
		b.WriteString(strings.Repeat(" ", x-at) + st.Dim.Render(w))
		at = x + style.Width(w)
	}
	return b.String()
}
