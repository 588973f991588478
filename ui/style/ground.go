package style

import (
	"github.com/lucasb-eyer/go-colorful"
	"github.com/muesli/termenv"
)

// What text and what large letters need against their ground: WCAG 2.2, success criterion 1.4.3.
const (
	textContrast  = 4.5
	largeContrast = 3
)

// OnUnknownGround are the options for a terminal of whose ground nothing is known: the light theme on a ground of its own.
func (o Options) OnUnknownGround() Options {
	o.Theme, o.PaintGround, o.InkText = LightTheme, true, false
	return o
}

// OnGround are the options for a terminal whose own ground has this colour. The theme is the one whose text stands out
// better. Where that is too little the ground is painted: dark where the dark theme's text would at least do as large letters (a
// dark grey, a deep blue), else light.
func (o Options) OnGround(ground colorful.Color) Options {
	if o.contrast(DarkTheme, ground) > max(largeContrast, o.contrast(LightTheme, ground)) {
		return o.on(DarkTheme, ground)
	}
	return o.on(LightTheme, ground)
}

// OnNumber are the options for a terminal that says only which of the sixteen colours its ground has; ok is false where
// there is no such colour. 0 to 6 and 8 are dark. Which colours those are the terminal's palette says, which nobody knows
// here: where the text would be too faint on xterm's, the ground is painted.
func (o Options) OnNumber(n int) (on Options, ok bool) {
	switch {
	case n < 0 || n >= len(xterm):
		return o, false
	case n <= 6 || n == 8:
		return o.on(DarkTheme, mustHex(xterm[n])), true
	}
	return o.on(LightTheme, mustHex(xterm[n])), true
}

// on is a theme on the terminal's own ground, or on its own where that ground does not bear it.
func (o Options) on(theme Theme, ground colorful.Color) Options {
	o.Theme = theme
	o.PaintGround = o.contrast(theme, ground) < textContrast
	o.InkText, o.Ground = !o.PaintGround, ground
	return o
}

// contrast is the least that the text inks of a theme have against a ground, as the profile shows them.
func (o Options) contrast(theme Theme, ground colorful.Color) float64 {
	least := 21.0
	text, dim, now, trouble := themes[theme].inks(o.Profile)
	for _, ink := range []string{text, dim, now, trouble} {
		least = min(least, Contrast(o.Profile.shown(ink), ground))
	}
	return least
}

// Contrast is how well two colours stand out from each other, 1 to 21: "contrast ratio" and "relative luminance" of WCAG 2.2.
func Contrast(a, b colorful.Color) float64 {
	la, lb := luminance(a), luminance(b)
	return (max(la, lb) + 0.05) / (min(la, lb) + 0.05)
}

func luminance(c colorful.Color) float64 {
	r, g, b := c.LinearRgb()
	return 0.2126*r + 0.7152*g + 0.0722*b
}

// xterm are the sixteen colours of xterm's own palette (XTerm-col.ad). Every other terminal, and every user, may have others.
var xterm = [16]string{
	"#000000", "#CD0000", "#00CD00", "#CDCD00", "#0000EE", "#CD00CD", "#00CDCD", "#E5E5E5",
	"#7F7F7F", "#FF0000", "#00FF00", "#FFFF00", "#5C5CFF", "#FF00FF", "#00FFFF", "#FFFFFF",
}

// shown is the colour that a terminal shows for a token, "#rrggbb" or a number; of sixteen colours xterm's. Without colours
// there is none: black.
func (p Profile) shown(token string) colorful.Color {
	switch c := p.termenvProfile().Color(token).(type) {
	case termenv.RGBColor: // the library cuts instead of rounding
		exact := mustHex(string(c))
		cut := func(v float64) float64 { return float64(uint8(v*255)) / 255 }
		return colorful.Color{R: cut(exact.R), G: cut(exact.G), B: cut(exact.B)}
	case termenv.ANSIColor:
		return mustHex(xterm[c])
	case termenv.ANSI256Color:
		if int(c) < len(xterm) {
			return mustHex(xterm[c])
		}
		return fixed(int(c) - len(xterm))
	}
	return colorful.Color{}
}
