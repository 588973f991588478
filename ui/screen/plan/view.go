package plan

import (
	"fmt"
	"strings"

	"example.org/vatside/model/colour"
	"example.org/vatside/model/day"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/shade"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/style"
	"example.org/vatside/ui/widget"
)

// shown is up to how many dips the strip goes.
const shown = 16

// roomy is from how many rows on the strip has its lightness in figures under it, and every sentence; a window below small has short
// ones.
const roomy, small = 34, 24

// stripRows is how high the cloth is in a window, with the row of its lightness.
func stripRows(height int) int {
	switch {
	case height < 22:
		return 4
	case height < 30:
		return 6
	}
	return height * 13 / 40
}

// View draws the planner: the cloth of each number of dips, the likely range under it, then the number in hand and what is to be said.
func (s Screen) View(env screen.Env) widget.Sheet {
	v, _ := env.Day()
	sheet := widget.Sheet{Head: screen.HeadOf(v, "how many dips"), BodyTop: true}
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
	sheet.Act, sheet.ActBig, sheet.Halved = strings.ToUpper(dips(n)), true, true
	_, right, halved := widget.Halves(env.Width)
	cloth, labs := strip(p, c, known, n)
	high, columns := stripRows(env.Height), widget.Columns(env.Width)
	lightness := known && (env.Height >= roomy || env.Style.Profile != style.TrueColour)
	if lightness {
		high--
	}
	sheet.Body = widget.Swatches(cloth, columns, high, env.Style)
	if lightness {
		sheet.Body = append(sheet.Body, widget.Under(labs, columns, env.Style))
	}
	if s.typing.On() {
		sheet.Body = append(append(sheet.Body, ""), s.typing.Lines(env)...)
		return sheet
	}
	sheet.How = s.says(v, b, p, c, known, n, halved, env)
	sheet.Why = s.why(v, b, p, c, known, env)
	screen.AskHands(&sheet, v)
	if halved && known {
		sheet.Side = widget.Patches(beside(c, p, n), right, env.Height/4, env.Style).Lines
	}
	return sheet
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
	return wording.Either(c.Wish.Caution(c.Cloth) != "", "the nearest blue", "the wish")
}

// step is the forecast after so many dips in all.
func step(c outlook.Coming, n int) (shade.Step, bool) {
	if c.Now != nil && c.Now.Dips == n {
		return *c.Now, true
	}
	return wording.First(c.Steps, func(s shade.Step) bool { return s.Dips == n })
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
