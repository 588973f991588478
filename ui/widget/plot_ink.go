package widget

import (
	"strings"

	"github.com/lucasb-eyer/go-colorful"

	"example.org/vatside/ui/style"
)

// cell is one glyph with its inks.
type cell struct {
	glyph   string
	on, off ink // in front and behind
}

// picture turns pixels into rows.
func (p *plot) picture() []string {
	lines := make([]string, p.rows)
	for row := range lines {
		if p.margin > 0 {
			lines[row] = p.st.Dim.Render(style.Pad(p.labels[row], p.margin))
		}
		cells := make([]cell, p.cols)
		for x := range cells {
			cells[x] = p.cell(row, x)
		}
		if p.name != "" && row == p.nameRow {
			for i, r := range []rune(p.name) { // words are one cell a letter
				if x := p.nameColumn + i; x < p.cols {
					cells[x] = cell{string(r), second, cells[x].off}
				}
			}
		}
		lines[row] = clip(lines[row]+p.inked(cells), p.width, "")
	}
	return lines
}

// tinted tells whether the inks are colours that fill cells; else glyphs of different density tell them apart:
// of 256 colours the nearest to body and mist are often the same grey, and in the sun there is only black.
func (p *plot) tinted() bool {
	return p.st.Profile == style.TrueColour && p.st.Theme != style.SunTheme && !p.st.Glyphs.ASCII
}

func (p *plot) cell(row, x int) cell {
	up, down := p.pixels[2*row][x], p.pixels[2*row+1][x]
	behind := bare
	switch top := max(up, down); {
	case !p.tinted():
	case top < second:
		behind = top
	case top == surface && sound(p.past[x]):
		behind = body
	case top == surface:
		behind = mist
	}
	g := p.st.Glyphs
	switch {
	case p.marks[[2]int{row, x}]:
		return cell{g.Done, solid, behind}
	case !p.tinted() && x != p.now && (p.marks[[2]int{row, x - 1}] || p.marks[[2]int{row, x + 1}]):
		return cell{glyph: " "} // so that the mark is not lost in the line
	case p.dotted[row] && p.dot(up, down) && (x+dotEvery/2)%dotEvery == 0:
		return cell{g.Dot, faint, behind}
	case p.tinted():
		return p.tint(up, down)
	}
	return p.density(up, down)
}

// dot tells whether a level's dot may stand there: not in an outline, and not where it would be a hole.
func (p *plot) dot(up, down ink) bool {
	if p.tinted() || p.st.Glyphs.ASCII {
		return up == down && up < second
	}
	return up == bare && down == bare
}

// tint shows both halves in their own ink.
func (p *plot) tint(up, down ink) cell {
	g := p.st.Glyphs
	switch {
	case up == down && up == bare:
		return cell{glyph: " "}
	case up == down:
		return cell{g.Full, up, bare}
	case up == bare:
		return cell{g.Lower, down, bare}
	}
	return cell{g.Upper, up, down}
}

// density shows the stronger ink of the two halves.
func (p *plot) density(up, down ink) cell {
	g := p.st.Glyphs
	full := g.Full
	if g.ASCII {
		full = g.Dark // the full one is a reading's
	}
	top := max(up, down)
	switch {
	case top == bare:
		return cell{glyph: " "}
	case top == mist:
		return cell{g.Light, top, bare}
	case top == body:
		return cell{g.Medium, top, bare}
	case up == down || top == present && up != bare:
		return cell{full, top, bare}
	case up == surface && down == body && !g.ASCII:
		return cell{g.Dark, top, bare} // an upper half would leave a gap over the body
	case up == top:
		return cell{g.Upper, top, bare}
	}
	return cell{g.Lower, top, bare}
}

// inked writes cells, as few colour changes as there are.
func (p *plot) inked(cells []cell) string {
	var b strings.Builder
	for i := 0; i < len(cells); {
		j, text := i, ""
		for ; j < len(cells) && cells[j].on == cells[i].on && cells[j].off == cells[i].off; j++ {
			text += cells[j].glyph
		}
		switch {
		case cells[i].on == bare && cells[i].off == bare && j == len(cells): // nothing more on this line
		case cells[i].on == bare && cells[i].off == bare:
			b.WriteString(text)
		default:
			b.WriteString(p.brush(cells[i].on, cells[i].off).Render(text))
		}
		i = j
	}
	return b.String()
}

func (p *plot) brush(on, off ink) style.Ink {
	if known, ok := p.brushes[[2]ink{on, off}]; ok {
		return known
	}
	s := p.st.Text
	switch {
	case on == present:
		s = p.st.Now
	case on == faint && off != bare: // on a tint
		s = p.st.Text
	case on == faint, on == second:
		s = p.st.Dim
	case on != solid && on != bare && p.tinted():
		s = s.On(p.colour(on), "")
	case on != solid && on != bare && p.st.Coloured() && p.st.Theme != style.SunTheme: // its glyphs are marks
		s = s.On(p.st.MarkToken(p.Liquor), "")
	case on < second && p.st.Profile != style.NoColour:
		s = p.st.Dim
	}
	if off != bare {
		s = s.On("", p.colour(off))
	}
	p.brushes[[2]ink{on, off}] = s
	return s
}

// colour of an ink of the liquor's: body and mist go towards the ground.
func (p *plot) colour(of ink) string {
	switch of {
	case present:
		return p.st.Now.Colour()
	case second:
		return p.st.Dim.Colour()
	}
	l, a, b := p.Liquor.Colour.Lab()
	if share := map[ink]float64{mist: 0.85, body: 0.55}[of]; p.tinted() {
		ground := 0.0
		if p.st.Theme != style.DarkTheme {
			ground = 1
		}
		l += (ground - l) * share
		a, b = a*(1-share*paling), b*(1-share*paling)
	}
	shade := style.Shade{Colour: colorful.Lab(l, a, b).Clamped()}
	return p.st.Token(shade)
}
