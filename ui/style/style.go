// Package style turns meanings into ink: tokens, filled by a theme, become one Style that every picture is
// drawn with. It reads no environment and no file and asks the terminal nothing; what it needs is handed in.
package style

import (
	"io"
	"math"
	"strings"
	"sync"

	"github.com/charmbracelet/lipgloss"
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
	Text, Dim    Ink
	Act          Ink // the verb and its object
	Now, Trouble Ink
	Caution      Ink // the only reversed thing on a screen
	Digits       Ink
	Calls        Calls // the row of a call that stands over something else
	Glyphs       Glyphs
	Theme        Theme
	Profile      Profile

	base        string // the escape sequence of text, and of the ground where it is painted; empty where both are the terminal's
	thin        bool   // no bold letters
	lowL, highL float64
	bare        Ink // no ink at all
	shades      *Memory[colorful.Color, Ink]
}

// Calls are the inks of the row of a call, on a ground from edge to edge: its time runs, it is due now, it is over time.
type Calls struct{ Runs, Now, Trouble Ink }

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
	bare := inkOf(r.NewStyle())
	s := Style{
		Text: bare, Dim: bare.On(dim, ""), Now: bare.On(now, ""), Trouble: bare.On(trouble, ""), Digits: bare,
		Glyphs: Blocks, Theme: o.Theme, Profile: o.Profile,
		thin: o.Profile == Ansi16 && !t.darkGround, lowL: t.lowL, highL: t.highL, bare: bare, shades: &Memory[colorful.Color, Ink]{},
	}
	s.Act, s.Now, s.Trouble, s.Caution = s.bold(s.Text), s.bold(s.Now), s.bold(s.Trouble), inkOf(s.bold(s.Text).of.style.Reverse(true))
	if o.ASCII {
		s.Glyphs = ASCII
	}
	if o.Theme == SunTheme {
		s.Glyphs.Heavy = true
		s.Dim, s.Text, s.Digits = s.bold(s.Text), s.bold(s.Text), s.bold(s.Text)
	}
	switch turned := s.Caution; {
	case o.Profile == NoColour: // marks set it apart
		s.Calls = Calls{bare, bare, bare}
	case o.Profile == Ansi16:
		s.Calls = Calls{turned, turned, turned}
	default:
		s.Calls = Calls{s.bold(bare.On(t.text, t.tint)), s.bold(bare.On(t.ground, now)), s.bold(bare.On(t.ground, trouble))}
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

// fixedLab are the 240 fixed colours of a terminal as L*a*b*.
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
	line += strings.Repeat(" ", max(0, width-Width(line)))
	// Every reset inside the line would let the terminal's own ground or ink through.
	return s.base + strings.ReplaceAll(line, "\x1b[0m", s.base) + "\x1b[0m"
}
