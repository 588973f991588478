// Package style turns meanings into ink: tokens, filled by a theme, become one Style that every picture is
// drawn with. It reads no environment and no file and asks the terminal nothing; what it needs is handed in.
package style

import (
	"io"
	"math"
	"strconv"
	"strings"
	"sync"

	"github.com/charmbracelet/lipgloss"
	"github.com/charmbracelet/x/ansi"
	"github.com/lucasb-eyer/go-colorful"

	_ "example.org/vatside/ui/style/quiet" // whoever draws must not stall at the start
)

// Options say which Style is wanted.
type Options struct {
	Theme   Theme // dark if empty or unknown
	Profile Profile
	ASCII   bool
	// PaintGround lays the theme's own ground under everything, for a theme that does not match the
	// terminal's. The sun theme always does.
	PaintGround bool
	// InkText writes text in the theme's own ink where the ground is the terminal's; else it is in the terminal's.
	InkText bool
}

// Style is everything a picture is drawn with.
type Style struct {
	Text, Dim    lipgloss.Style
	Act          lipgloss.Style // the verb and its object
	Now, Trouble lipgloss.Style
	Caution      lipgloss.Style // the only reversed thing on a screen
	Digits       lipgloss.Style
	Glyphs       Glyphs
	Theme        Theme
	Profile      Profile

	base        string // the escape sequence of text, and of the ground where it is painted; empty where both are the terminal's
	thin        bool   // no bold letters
	lowL, highL float64
	renderer    *lipgloss.Renderer
}

// New builds the Style.
func New(o Options) Style {
	t, ok := themes[o.Theme]
	if !ok {
		o.Theme, t = DarkTheme, themes[DarkTheme]
	}
	// An own renderer with both answers given: the default one would ask the terminal.
	r := lipgloss.NewRenderer(io.Discard)
	r.SetColorProfile(o.Profile.termenvProfile())
	r.SetHasDarkBackground(t.darkGround)

	text, dim, now, trouble := t.inks(o.Profile)
	ink := func(c string) lipgloss.Style { return r.NewStyle().Foreground(lipgloss.Color(c)) }
	s := Style{
		Text: r.NewStyle(), Dim: ink(dim), Now: ink(now), Trouble: ink(trouble), Digits: r.NewStyle(),
		Glyphs: Blocks, Theme: o.Theme, Profile: o.Profile,
		thin: o.Profile == Ansi16 && !t.darkGround, lowL: t.lowL, highL: t.highL, renderer: r,
	}
	s.Act, s.Now, s.Trouble, s.Caution = s.Bold(s.Text), s.Bold(s.Now), s.Bold(s.Trouble), s.Bold(s.Text).Reverse(true)
	if o.ASCII {
		s.Glyphs = ASCII
	}
	if o.Theme == SunTheme {
		s.Glyphs.Heavy = true
		s.Dim, s.Text, s.Digits = s.Bold(s.Text), s.Bold(s.Text), s.Bold(s.Text)
	}
	p := o.Profile.termenvProfile()
	switch {
	case o.Profile == NoColour:
	case o.PaintGround || o.Theme == SunTheme:
		s.base = "\x1b[0;" + p.Color(text).Sequence(false) + ";" + p.Color(t.ground).Sequence(true) + "m"
	case o.InkText:
		s.base = "\x1b[0;" + p.Color(text).Sequence(false) + "m"
	}
	return s
}

// Bold is an ink in bold letters. With sixteen colours on a light ground they stay thin: xterm and others write bold in the
// brighter twin of its colour, and black would be grey, red too pale.
func (s Style) Bold(ink lipgloss.Style) lipgloss.Style {
	if s.thin {
		return ink
	}
	return ink.Bold(true)
}

// Coloured tells whether cloth and liquor can be shown in their own colours; else by density and name.
func (s Style) Coloured() bool { return s.Profile >= Indexed }

// Ink writes text in a shade's colour, moved into the range of lightness that the ground leaves visible.
func (s Style) Ink(shade Shade, text string) string {
	if !s.Coloured() {
		return text
	}
	ink := s.Shown(shade).Hex()
	if s.Profile == Indexed { // the library's own nearest goes by hue, and turns pale blues violet or green
		ink = strconv.Itoa(indexed(s.Shown(shade)))
	}
	return s.renderer.NewStyle().Foreground(lipgloss.Color(ink)).Render(text)
}

// fixed is one of the 240 colours of 256 that no terminal's own theme moves, from 16 on: the cube and the greys.
func fixed(i int) colorful.Color {
	level := func(i int) float64 {
		if i == 0 {
			return 0
		}
		return float64(55+40*i) / 255
	}
	if i >= 216 {
		grey := float64(8+10*(i-216)) / 255
		return colorful.Color{R: grey, G: grey, B: grey}
	}
	return colorful.Color{R: level(i / 36), G: level(i / 6 % 6), B: level(i % 6)}
}

// fixedLab are all of them as L*a*b*.
var fixedLab = sync.OnceValue(func() (out [240][3]float64) {
	for i := range out {
		l, a, b := fixed(i).Lab()
		out[i] = [3]float64{l, a, b}
	}
	return out
})

// indexed is the nearest of them, a hue or a lightness off counting more than how vivid it is.
func indexed(c colorful.Color) int {
	best, least := 0, math.Inf(1)
	l, a, b := c.Lab()
	for i, f := range fixedLab() {
		fl, fa, fb := f[0], f[1], f[2]
		vivid := math.Hypot(fa, fb) - math.Hypot(a, b)
		d := 2*(l-fl)*(l-fl) + 3*((a-fa)*(a-fa)+(b-fb)*(b-fb)-vivid*vivid) + vivid*vivid/2
		if d < least {
			best, least = i, d
		}
	}
	return 16 + best
}

// Shown is the colour that Ink uses for a shade.
func (s Style) Shown(shade Shade) colorful.Color {
	l, a, b := shade.Colour.Lab()
	return colorful.Lab(s.lowL+l*(s.highL-s.lowL), a, b).Clamped()
}

// Fill is n cells of a shade: solid in its colour, or its density.
func (s Style) Fill(shade Shade, n int) string {
	n = max(n, 0)
	if s.Coloured() {
		if n == 0 {
			return ""
		}
		return s.Ink(shade, strings.Repeat(s.Glyphs.Full, n))
	}
	return strings.Repeat(s.Mark(shade.Density), n)
}

// Mark is the one glyph of a density.
func (s Style) Mark(d Density) string {
	switch d {
	case Light:
		return s.Glyphs.Light
	case Medium:
		return s.Glyphs.Medium
	case Dark:
		return s.Glyphs.Dark
	case Full:
		return s.Glyphs.Full
	}
	return s.Glyphs.Blank
}

// Ground lays the ground under one finished line, as wide as the window, and gives its text the theme's ink; where both are the
// terminal's the line is left as it is.
func (s Style) Ground(line string, width int) string {
	if s.base == "" {
		return line
	}
	line += strings.Repeat(" ", max(0, width-ansi.StringWidth(line)))
	// Every reset inside the line would let the terminal's own ground or ink through.
	return s.base + strings.ReplaceAll(line, "\x1b[0m", s.base) + "\x1b[0m"
}
