package style

import (
	"strconv"
	"strings"

	"github.com/lucasb-eyer/go-colorful"
)

// Coloured tells whether cloth and liquor can be shown in their own colours; else by density and name.
func (s Style) Coloured() bool { return s.Profile >= Indexed }

// liquorAtNight is the part of its lightness that liquor keeps on a dark ground: our own choice.
const liquorAtNight = 0.7

// Shown is the colour of a shade as an area: cloth in its own on every ground, with a hem where Hemmed says so.
func (s Style) Shown(shade Shade) colorful.Color {
	if shade.Liquor && s.night {
		l, a, b := shade.Colour.Lab()
		return colorful.Lab(l*liquorAtNight, a*liquorAtNight, b*liquorAtNight).Clamped()
	}
	return shade.Colour
}

// fill is how an area is drawn: a glyph in an ink.
type fill struct {
	ink   Ink
	glyph string
}

// Fill is n cells of a shade: in its colour, solid or, with 256 colours, dithered of two; or its density.
func (s Style) Fill(shade Shade, n int) string {
	if n <= 0 {
		return ""
	}
	if !s.Coloured() {
		return strings.Repeat(s.Mark(shade.Density), n)
	}
	if s.Glyphs.ASCII { // its glyphs do not cover their cells
		return s.Ink(shade, strings.Repeat(s.Glyphs.Full, n))
	}
	f := s.shades.Of(s.Shown(shade), func(c colorful.Color) fill {
		if s.Profile == Indexed {
			t := toneOf(c)
			return fill{s.bare.On(strconv.Itoa(t.over), strconv.Itoa(t.under)), s.Mark(t.density)}
		}
		return fill{s.bare.On(s.token(c), ""), s.Glyphs.Full}
	})
	return f.ink.Render(strings.Repeat(f.glyph, n))
}

// Ink writes glyphs in a shade's colour. Blocks, which are areas of it, are in its own; all others are marks, and where those
// would have less than 3:1 on the ground, they are as light or as dark as that takes.
func (s Style) Ink(shade Shade, text string) string {
	if !s.Coloured() {
		return text
	}
	return s.inks.Of(glyphs{s.Shown(shade), s.areas(text)}, func(of glyphs) Ink {
		if !of.areas {
			of.colour = s.legible(of.colour)
		}
		return s.bare.On(s.token(of.colour), "")
	}).Render(text)
}

// glyphs are what is written in a colour: blocks or marks.
type glyphs struct {
	colour colorful.Color
	areas  bool
}

// Hemmed tells whether cloth of a shade needs an edge in the ink Hem to be seen on the ground: it has less than 3:1 there (WCAG
// 2.2, success criterion 1.4.11), or is drawn blank.
func (s Style) Hemmed(shade Shade) bool {
	if !s.Coloured() {
		return shade.Density == Blank
	}
	return Contrast(s.Shown(shade), s.ground) < largeContrast
}

// Edge is n cells of the upper or lower edge of cloth, with the thin line of a hem.
func (s Style) Edge(shade Shade, n int, upper bool) string {
	switch {
	case n <= 0:
		return ""
	case s.Profile == Indexed && !s.Glyphs.ASCII && upper: // a cell has two colours, and dithered cloth takes both
		return s.Hem.Render(strings.Repeat("▂", n))
	case s.Profile == Indexed && !s.Glyphs.ASCII:
		return s.Fill(shade, n)
	case s.Coloured() && !s.Glyphs.ASCII && upper: // the line is what the glyph leaves of its cell
		return s.edges.Of(glyphs{s.Shown(shade), true}, func(of glyphs) Ink { return s.bare.On(s.token(of.colour), s.Hem.Colour()) }).
			Render(strings.Repeat("▆", n))
	case s.Coloured() && !s.Glyphs.ASCII:
		return s.edges.Of(glyphs{s.Shown(shade), false}, func(of glyphs) Ink { return s.Hem.On("", s.token(of.colour)) }).
			Render(strings.Repeat("▂", n))
	case upper:
		return s.Hem.Render(strings.Repeat(s.Glyphs.Upper, n))
	}
	return s.Hem.Render(strings.Repeat(s.Glyphs.Lower, n))
}

// areas tells whether all glyphs of a text are blocks.
func (s Style) areas(text string) bool {
	return !s.Glyphs.ASCII && strings.Trim(text, "█▀▄▌▐▖▗▘▝▙▛▜▟▚▞") == ""
}

// Token is the colour of a shade as Ink.On takes it.
func (s Style) Token(shade Shade) string { return s.token(s.Shown(shade)) }

// MarkToken is the same for a mark, which has 3:1 on the ground.
func (s Style) MarkToken(shade Shade) string { return s.token(s.legible(s.Shown(shade))) }

// token is a colour as an ink takes it: with 256 colours the nearest of them.
func (s Style) token(c colorful.Color) string {
	if s.Profile == Indexed { // the library's own nearest goes by hue, and turns pale blues violet or green
		return strconv.Itoa(indexed(c))
	}
	return c.Hex()
}

// legible is a colour moved away from the ground in lightness, until a mark in it has 3:1.
func (s Style) legible(c colorful.Color) colorful.Color {
	const step = 0.01
	l, a, b := c.Lab()
	by := step
	if luminance(s.ground) > 0.18 { // from there on black stands out better than white
		by = -step
	}
	for ; l >= 0 && l <= 1; l += by {
		moved := colorful.Lab(l, a, b).Clamped()
		if Contrast(s.Profile.shown(s.token(moved)), s.ground) >= largeContrast {
			return moved
		}
	}
	return c
}
