package plan

import (
	"fmt"
	"strings"

	"example.org/vatside/model/colour"
	"example.org/vatside/model/day"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/shade"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/style"
	"example.org/vatside/ui/widget"
)

// shown is up to how many dips the strip goes.
const shown = 16

// Rows of the strip: the least, from how tall a window on it has patches and figures under it, and below how tall one it
// has a row less.
const leastStrip, roomy, small = 3, 34, 24

// patchRows is what the neighbours take where they are drawn.
const patchRows = 8

// View draws the planner.
func (s Screen) View(env screen.Env) widget.Sheet {
	v, ok := env.Day()
	if !ok {
		return widget.Sheet{Act: "This day is not open"}
	}
	sheet := widget.Sheet{Head: screen.HeadOf(v, ""), Foot: screen.Foot(v, env)[:1]}
	p, there := s.piece(v)
	if !there {
		sheet.Act, sheet.How = "No piece to plan for", []string{"Esc goes back; p adds a piece."}
		return sheet
	}
	b := s.blue(v)
	c, known := b.Pieces[p.Tag]
	n := s.chosen(p, c)
	if s.ends != nil && known {
		s.endToEnd(&sheet, v, b, p)
		return sheet
	}
	sheet.Act, sheet.ActBig, sheet.Aside = strings.ToUpper(dips(n)), true, wish(p)+" · "+p.Name()
	cloth, labs := strip(p, c, known, n)
	tall := env.Height >= roomy && !s.typing.On()
	said := s.says(v, b, p, c, known, n, env)
	sheet.Why = why(b, p, c, known, env)
	if s.typing.On() {
		said, sheet.Why = nil, ""
	}
	columns, rows := s.fit(&sheet, said, env)
	marks := 2
	lightness := known && (tall || env.Style.Profile != style.TrueColour)
	if lightness {
		marks++
	}
	var entry, patches []string
	if s.typing.On() {
		entry = append([]string{""}, s.typing.Lines(env)...)
	}
	if tall && known {
		patches = append([]string{""}, widget.Patches(beside(c, p, n), columns, 3, env.Style).Lines...)
	}
	left := rows - marks - len(entry) - len(patches) - letters(env.Height)
	high := stripRows(env.Height, left, lightness)
	sheet.Body = widget.Swatches(cloth, columns, high, env.Style)
	if !tall { // there the neighbours are sentences: a line of them more or less moves nothing
		for range left - high {
			sheet.How = append(sheet.How, "\u00a0")
		}
	}
	if lightness {
		sheet.Body = append(sheet.Body, widget.Under(labs, columns, env.Style))
	}
	sheet.Body = append(append(sheet.Body, patches...), entry...)
	return sheet
}

// letters is how many rows more the act in big letters may take than in plain ones.
func letters(height int) int {
	if height < roomy {
		return max(2, height/8)
	}
	return min(height/6, 9)
}

// wanted is how high the cloth and the figures of its lightness are together: the same for every number of dips.
func wanted(height int) int {
	switch {
	case height < small:
		return leastStrip
	case height < roomy:
		return leastStrip + 1 + (height-small)*2/3
	}
	return height / 4
}

// stripRows is how high the cloth is.
func stripRows(height, left int, lightness bool) int {
	high := wanted(height)
	if height < roomy && lightness {
		high--
	}
	return max(1, min(high, left))
}

// fit gives the sheet as many of the sentences as leave the strip its least, the first ones first; the claim's own sentence
// goes before the second of them does.
func (s Screen) fit(sheet *widget.Sheet, said []string, env screen.Env) (columns, rows int) {
	least := wanted(env.Height) + 2 + letters(env.Height)
	if env.Height >= roomy && !s.typing.On() {
		least = 2*leastStrip + 3 + letters(env.Height) + patchRows
	}
	try := func(n int, why string) bool {
		sheet.How, sheet.Why = said[:n:n], why
		plain := *sheet
		plain.ActBig = false
		columns, rows = env.Room(plain)
		return rows >= least
	}
	whys := shorter(sheet.Why)
	for n := len(said); n >= min(2, len(said)); n-- {
		for _, why := range whys {
			if try(n, why) {
				return columns, rows
			}
		}
	}
	for n := len(said); n > 0; n-- {
		if try(n, "") {
			return columns, rows
		}
	}
	try(min(1, len(said)), "")
	return columns, rows
}

// shorter are the whole of some sentences, the first two and the first of them.
func shorter(text string) []string {
	all := strings.SplitAfter(text, ". ")
	out := []string{text}
	for n := min(2, len(all)-1); n > 0; n-- {
		out = append(out, strings.TrimSpace(strings.Join(all[:n], "")))
	}
	return out
}

// after is the cloth after so many dips.
func after(c outlook.Coming, known bool, n int) style.Shade {
	if known {
		return screen.After(c, n)
	}
	return screen.ClothOf(n)
}

// strip is the cloth after each dip, and its lightness in figures.
func strip(p day.Piece, c outlook.Coming, known bool, chosen int) (widget.Strip, []string) {
	s := widget.Strip{Wanted: -1, Best: chosen}
	var light []float64
	var labs []string
	for n := range min(max(shown, p.Dips+2), day.MostDips) + 1 {
		cloth := after(c, known, n)
		l, _, _ := cloth.Colour.Lab()
		s.Shades, light, labs = append(s.Shades, cloth), append(light, 100*l), append(labs, fmt.Sprintf("%.0f", 100*l))
	}
	labs[0] = "L* " + labs[0]
	if c.Wish == nil || c.Wished == nil {
		return s, labs
	}
	if c.Answer.High > 0 {
		s.Low, s.High = c.Answer.Low, c.Answer.High
	}
	s.Wanted = place(c.Wished.L, light)
	return s, labs
}

// place is where a lightness lies among those of the dips.
func place(l float64, light []float64) float64 {
	last := len(light) - 1
	for i := range last {
		if l <= light[i] && l > light[i+1] {
			return float64(i) + (light[i]-l)/(light[i]-light[i+1])
		}
	}
	if l > light[0] {
		return 0
	}
	return float64(last) + 0.49 // at the dark end: it may lie beyond
}

// beside are the chosen number of dips, one less and one more, and the wish.
func beside(c outlook.Coming, p day.Piece, n int) []widget.Patch {
	var out []widget.Patch
	for i := max(n-1, p.Dips, 0); i <= n+1; i++ {
		cloth := screen.After(c, i)
		says := []string{dips(i), cloth.Name}
		if st, ok := step(c, i); ok && c.Wished != nil {
			d, seen := off(st.Lab, *c.Wished)
			says = append(says, d, seen)
		}
		out = append(out, widget.Patch{Cloth: cloth, Says: says, Chosen: i == n})
	}
	if c.Wished != nil {
		wished := style.Dyed(*c.Wished)
		out = append(out, widget.Patch{Cloth: wished, Says: []string{aim(c), fmt.Sprintf("L* %.0f", c.Wished.L)}})
	}
	return out
}

// aim is what the likely colour is held against: the wish, or the blue nearest to it where indigo does not give it.
func aim(c outlook.Coming) string {
	if c.Wish.Caution(c.Ground) != "" {
		return "the nearest blue"
	}
	return "the wish"
}

// step is the forecast after so many dips in all.
func step(c outlook.Coming, n int) (shade.Step, bool) {
	if c.Now != nil && c.Now.Dips == n {
		return *c.Now, true
	}
	for _, s := range c.Steps {
		if s.Dips == n {
			return s, true
		}
	}
	return shade.Step{}, false
}

// off is how far a colour lies from another, in figures and in words.
func off(is, wished colour.Lab) (figure, words string) {
	d := colour.Difference(is, wished)
	figure = fmt.Sprintf("ΔE %.1f", d)
	switch {
	case d < 1:
	case is.L > wished.L:
		figure += " paler"
	default:
		figure += " darker"
	}
	return figure, colour.Seen(d)
}
