// Package style turns meanings into ink: tokens, filled by a theme, become one Style that every picture is
// drawn with. It reads no environment and no file and asks the terminal nothing; what it needs is handed in.
package style

import (
	"io"
	"strings"

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
	// InkText writes text in the theme's own ink where the ground is the terminal's, of the colour Ground; else it is in the
	// terminal's.
	InkText bool
	Ground  colorful.Color
}

// Style is everything a picture is drawn with.
type Style struct {
	Text, Dim    Ink
	Act          Ink // the verb and its object
	Now, Trouble Ink
	Caution      Ink // the only reversed thing on a screen
	Digits       Ink
	Hem          Ink   // the edge of cloth that the ground would swallow: see Hemmed
	Calls        Calls // the row of a call that stands over something else
	Glyphs       Glyphs
	Theme        Theme
	Profile      Profile

	base   string         // the escape sequence of text, and of the ground where it is painted; empty where both are the terminal's
	thin   bool           // no bold letters
	ground colorful.Color // what is behind the text, as the terminal shows it
	night  bool           // it is dark
	bare   Ink            // no ink at all
	shades *Memory[colorful.Color, fill]
	inks   *Memory[glyphs, Ink]
	edges  *Memory[glyphs, Ink]
}

// Calls are the inks of the row of a call, on a ground from edge to edge: its time runs, it is due now, it is over time.
type Calls struct{ Runs, Now, Trouble Ink }

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
		thin: o.Profile == Ansi16 && !t.darkGround, ground: o.Profile.shown(t.ground), night: t.darkGround, bare: bare,
		shades: &Memory[colorful.Color, fill]{}, inks: &Memory[glyphs, Ink]{}, edges: &Memory[glyphs, Ink]{},
	}
	if o.InkText && !o.PaintGround {
		s.ground = o.Ground
	}
	s.Hem = s.Dim
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
	// Every reset inside the line would let the terminal's own ground or ink through.
	return s.base + strings.ReplaceAll(line, "\x1b[0m", s.base) + strings.Repeat(" ", max(0, width-Width(line))) + "\x1b[0m"
}
