package screentest

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"sync"
	"testing"
)

// Cell is one character of a painted line. Ink and Ground are as "#rrggbb", of sixteen colours xterm's own, with bold in the
// brighter twin as xterm writes it; empty where they are the terminal's.
type Cell struct {
	Glyph       rune
	Ink, Ground string
	Reversed    bool
}

// sixteen are the colours of xterm's own palette (XTerm-col.ad).
var sixteen = strings.Fields("#000000 #cd0000 #00cd00 #cdcd00 #0000ee #cd00cd #00cdcd #e5e5e5 " +
	"#7f7f7f #ff0000 #00ff00 #ffff00 #5c5cff #ff00ff #00ffff #ffffff")

// Cells reads a painted line of glyphs that are one cell wide, with SGR alone between them; anything else fails the test.
func Cells(t testing.TB, line string) []Cell {
	t.Helper()
	var out []Cell
	var now Cell
	bold, few := false, -1 // few: an ink by SGR 30 to 37
	for line != "" {
		if !strings.HasPrefix(line, "\x1b[") {
			for _, r := range line {
				c := now
				c.Glyph = r
				if few >= 0 && bold {
					c.Ink = sixteen[few+8]
				}
				out = append(out, c)
				line = line[len(string(r)):]
				break
			}
			continue
		}
		sgr, rest, ok := strings.Cut(line[2:], "m")
		if !ok {
			t.Fatalf("no SGR: %q", line)
		}
		line = rest
		var ns []int
		for _, part := range strings.Split(sgr, ";") {
			n, err := strconv.Atoi(part)
			if err != nil && part != "" {
				t.Fatalf("no SGR: %q", sgr)
			}
			ns = append(ns, n)
		}
		for len(ns) > 0 {
			n := ns[0]
			ns = ns[1:]
			switch {
			case n == 0:
				now, bold, few = Cell{}, false, -1
			case n == 1:
				bold = true
			case n == 7:
				now.Reversed = true
			case n >= 30 && n <= 37:
				now.Ink, few = sixteen[n-30], n-30
			case n >= 90 && n <= 97:
				now.Ink, few = sixteen[n-90+8], -1
			case n >= 40 && n <= 47:
				now.Ground = sixteen[n-40]
			case n >= 100 && n <= 107:
				now.Ground = sixteen[n-100+8]
			case (n == 38 || n == 48) && len(ns) >= 2 && ns[0] == 5:
				if set(&now, n, indexedColour(ns[1])) {
					few = -1
				}
				ns = ns[2:]
			case (n == 38 || n == 48) && len(ns) >= 4 && ns[0] == 2:
				if set(&now, n, fmt.Sprintf("#%02x%02x%02x", ns[1], ns[2], ns[3])) {
					few = -1
				}
				ns = ns[4:]
			default:
				t.Fatalf("%d of SGR %q is not known here", n, sgr)
			}
		}
	}
	return out
}

// set gives a cell an ink (38) or a ground (48), and tells whether it was the ink.
func set(c *Cell, what int, colour string) bool {
	if what == 38 {
		c.Ink = colour
		return true
	}
	c.Ground = colour
	return false
}

// indexedColour is one of 256: xterm's sixteen, the cube, the greys.
func indexedColour(n int) string {
	level := func(i int) int { return min(i, 1)*55 + 40*i }
	switch {
	case n < 16:
		return sixteen[n]
	case n < 232:
		n -= 16
		return fmt.Sprintf("#%02x%02x%02x", level(n/36), level(n/6%6), level(n%6))
	}
	return fmt.Sprintf("#%02[1]x%02[1]x%02[1]x", 8+10*(n-232))
}

// Contrast is the contrast ratio of two colours, "#rrggbb" (WCAG 2.2).
func Contrast(t testing.TB, a, b string) float64 {
	t.Helper()
	luminance := func(hex string) float64 {
		if l, is := luminances.Load(hex); is {
			return l.(float64)
		}
		var parts [3]int
		if _, err := fmt.Sscanf(hex, "#%02x%02x%02x", &parts[0], &parts[1], &parts[2]); err != nil {
			t.Fatalf("%q is no colour", hex)
		}
		sum := 0.0
		for i, weight := range []float64{0.2126, 0.7152, 0.0722} {
			v := float64(parts[i]) / 255
			if v <= 0.04045 {
				v /= 12.92
			} else {
				v = math.Pow((v+0.055)/1.055, 2.4)
			}
			sum += weight * v
		}
		luminances.Store(hex, sum)
		return sum
	}
	x, y := luminance(a), luminance(b)
	return (max(x, y) + 0.05) / (min(x, y) + 0.05)
}

// luminances are those of the colours that were asked for: a screen has few.
var luminances sync.Map
