package style_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/lucasb-eyer/go-colorful"

	"example.org/vatside/ui/screentest"
	"example.org/vatside/ui/style"
)

var depths = map[string]style.Profile{"true colour": style.TrueColour, "256": style.Indexed, "16": style.Ansi16}

// textInks is a letter in each ink of text, on its ground.
func textInks(s style.Style) map[string]string {
	out := map[string]string{}
	for name, ink := range map[string]string{
		"plain": "x", "text": s.Text.Render("x"), "dim": s.Dim.Render("x"), "act": s.Act.Render("x"), "now": s.Now.Render("x"), "trouble": s.Trouble.Render("x"),
		"caution": s.Caution.Render("x"), "digits": s.Digits.Render("x"),
		"hem": s.Hem.Render("x"), "call": s.Calls.Runs.Render("x"), "call now": s.Calls.Now.Render("x"), "call over": s.Calls.Trouble.Render("x"),
	} {
		out[name] = s.Ground(ink, 1)
	}
	return out
}

// legible fails where an ink of text has less than 4.5:1 on what is then its ground; own is the terminal's.
func legible(t *testing.T, what string, s style.Style, own string) {
	t.Helper()
	for name, line := range textInks(s) {
		c := screentest.Cells(t, line)[0]
		if c.Ground == "" {
			c.Ground = own
		}
		if c.Ink == "" {
			t.Fatalf("%s: %s is in the terminal's own ink: %q", what, name, line)
		}
		if got := screentest.Contrast(t, c.Ink, c.Ground); got < 4.5 {
			t.Fatalf("%s: %s has %.2f:1, %s on %s: %q", what, name, got, c.Ink, c.Ground, line)
		}
	}
}

// A mark in the colour of any cloth or liquor has 3:1 on every ground; a block of it, which is an area, keeps its colour.
func TestMarksOfClothAreSeenOnEveryGround(t *testing.T) {
	shades := map[string]style.Shade{}
	for i := 0; i <= 20; i += 2 {
		shades[fmt.Sprintf("cloth %d/20", i)] = style.Cloth(float64(i) / 20)
	}
	for l := style.Water; l <= style.Tired; l++ {
		shades[style.Liquor(l).Name] = style.Liquor(l)
	}
	look := func(what string, o style.Options, own string) {
		s := style.New(o)
		for name, shade := range shades {
			c := screentest.Cells(t, s.Ground(s.Ink(shade, "■"), 1))[0]
			if c.Ground == "" {
				c.Ground = own
			}
			if got := screentest.Contrast(t, c.Ink, c.Ground); got < 3 {
				t.Errorf("%s: a mark of %s has %.2f:1, %s on %s", what, name, got, c.Ink, c.Ground)
			}
			if o.Profile == style.TrueColour && !shade.Liquor && screentest.Cells(t, s.Ink(shade, "█"))[0].Ink != screentest.Cells(t, s.Fill(shade, 1))[0].Ink {
				t.Errorf("%s: %s has two colours", what, name)
			}
		}
	}
	for depth, p := range map[string]style.Profile{"true colour": style.TrueColour, "256": style.Indexed} {
		for _, theme := range []style.Theme{style.DarkTheme, style.LightTheme, style.SunTheme} {
			look(depth+" "+string(theme), style.Options{Profile: p, Theme: theme, PaintGround: true}, "")
		}
		for i := range 5 * 5 * 5 {
			part := func(n int) int { return n % 5 * 255 / 4 }
			hex := fmt.Sprintf("#%02x%02x%02x", part(i), part(i/5), part(i/25))
			g, err := colorful.Hex(hex)
			if err != nil {
				t.Fatal(err)
			}
			look(depth+" on "+hex, style.Options{Profile: p}.OnGround(g), hex)
		}
	}
}

// Whatever ground a terminal answers, every text is read on what is then the ground, and every cloth and liquor is seen there.
func TestTextIsReadOnEveryGround(t *testing.T) {
	const steps = 12
	for depth, p := range depths {
		left := map[string]int{}
		for i := range (steps + 1) * (steps + 1) * (steps + 1) {
			part := func(n int) int { return n % (steps + 1) * 255 / steps }
			g, err := colorful.Hex(fmt.Sprintf("#%02x%02x%02x", part(i), part(i/(steps+1)), part(i/(steps+1)/(steps+1))))
			if err != nil {
				t.Fatal(err)
			}
			o := style.Options{Profile: p}.OnGround(g)
			legible(t, fmt.Sprintf("%s on %s %+v", depth, g.Hex(), o), style.New(o), g.Hex())
			if o.PaintGround {
				continue
			}
			left[string(o.Theme)]++
			s := style.New(o)
			for i := 0; s.Coloured() && i <= 20; i++ {
				cloth := style.Cloth(float64(i) / 20)
				if d := s.Shown(cloth).DistanceCIEDE2000(g); d < 0.075 && !s.Hemmed(cloth) {
					t.Errorf("%s: cloth %d/20 is %.3f from %s", depth, i, d, g.Hex())
				}
			}
		}
		if left["dark"] < 10 || left["light"] < 1 {
			t.Errorf("%s: hardly a ground is left to the terminal: %v", depth, left)
		}
	}
}

func TestTextIsReadOnPaintedGrounds(t *testing.T) {
	for depth, p := range depths {
		legible(t, depth+" unknown", style.New(style.Options{Profile: p}.OnUnknownGround()), "")
		for _, theme := range []style.Theme{style.DarkTheme, style.LightTheme, style.SunTheme} {
			legible(t, depth+" "+string(theme), style.New(style.Options{Profile: p, Theme: theme, PaintGround: true}), "")
		}
	}
}

// The sixteen numbers of COLORFGBG, on xterm's palette.
func TestTextIsReadOnNumberedGrounds(t *testing.T) {
	dark := map[int]bool{0: true, 1: true, 2: true, 3: true, 4: true, 5: true, 6: true, 8: true}
	for depth, p := range depths {
		for n := range 16 {
			o, ok := style.Options{Profile: p}.OnNumber(n)
			if !ok || (o.Theme == style.DarkTheme) != dark[n] {
				t.Errorf("%s: %d gives %+v, %v", depth, n, o, ok)
			}
			own := screentest.Cells(t, fmt.Sprintf("\x1b[48;5;%dmx", n))[0].Ground
			legible(t, fmt.Sprintf("%s on %d %+v", depth, n, o), style.New(o), own)
			if kept := n == 0 || n == 15; (kept || n == 1 || n == 8) && kept == o.PaintGround {
				t.Errorf("%s: the ground %d is painted: %v", depth, n, o.PaintGround)
			}
		}
	}
	for _, n := range []int{-1, 16, math.MaxInt, math.MinInt} {
		if _, ok := (style.Options{}).OnNumber(n); ok {
			t.Errorf("%d is a colour of sixteen", n)
		}
	}
}

// Grounds as terminals have them: which theme, and whether it is painted.
func TestKnownGrounds(t *testing.T) {
	for _, c := range []struct {
		ground string
		theme  style.Theme
		paint  bool
	}{
		{"#000000", style.DarkTheme, false},
		{"#1e1e1e", style.DarkTheme, false},
		{"#002b36", style.DarkTheme, false},
		{"#300a24", style.DarkTheme, false},
		{"#282c34", style.DarkTheme, false},
		{"#ffffff", style.LightTheme, false},
		{"#fdf6e3", style.LightTheme, false},
		{"#fafafa", style.LightTheme, false},
		{"#2e3440", style.DarkTheme, true}, // dim text would have 4.2:1
		{"#3f3f3f", style.DarkTheme, true},
		{"#777777", style.LightTheme, true},
		{"#808080", style.LightTheme, true},
		{"#e5e5e5", style.LightTheme, true},
		{"#ff0000", style.LightTheme, true},
		{"#00ff00", style.LightTheme, true},
		{"#0000ee", style.DarkTheme, true},
	} {
		g, err := colorful.Hex(c.ground)
		if err != nil {
			t.Fatal(err)
		}
		o := style.Options{Profile: style.TrueColour}.OnGround(g)
		if o.Theme != c.theme || o.PaintGround != c.paint || o.InkText == c.paint {
			t.Errorf("%s gives %+v", c.ground, o)
		}
	}
}

// Figures of WCAG's own: black on white, and the grey that just fails on white.
func TestContrast(t *testing.T) {
	white := colorful.Color{R: 1, G: 1, B: 1}
	for hex, want := range map[string]float64{"#000000": 21, "#ffffff": 1, "#777777": 4.478, "#767676": 4.542, "#ff0000": 3.998} {
		c, err := colorful.Hex(hex)
		if err != nil {
			t.Fatal(err)
		}
		for _, got := range []float64{style.Contrast(c, white), style.Contrast(white, c), screentest.Contrast(t, hex, "#ffffff")} {
			if math.Abs(got-want) > 0.001 {
				t.Errorf("%s on white is %.4f, not %.3f", hex, got, want)
			}
		}
	}
}

// Without colours nothing is written but the text.
func TestNoColourHasNoGround(t *testing.T) {
	white := colorful.Color{R: 1, G: 1, B: 1}
	on, _ := style.Options{}.OnNumber(1)
	for _, o := range []style.Options{style.Options{}.OnUnknownGround(), style.Options{}.OnGround(white), style.Options{}.OnGround(colorful.Color{}), on} {
		for name, line := range textInks(style.New(o)) {
			if line != "x" {
				t.Errorf("%+v: %s is %q", o, name, line)
			}
		}
	}
}
