package widget

import (
	"slices"
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"

	"example.org/vatside/ui/style"
)

const digits = "0123456789"

var sets = func() map[string]style.Glyphs {
	heavy, heavyASCII := style.Blocks, style.ASCII
	heavy.Heavy, heavyASCII.Heavy = true, true
	return map[string]style.Glyphs{"blocks": style.Blocks, "ascii": style.ASCII, "heavy": heavy, "heavy ascii": heavyASCII}
}()

func TestShapesAreWhole(t *testing.T) {
	for name, f := range map[string]*font{"tall": &tall, "low": &low} {
		for r, g := range f.shapes() {
			if len(g) < f.height || len(g) > f.height+2 {
				t.Errorf("%s %q has %d rows", name, r, len(g))
			}
			for _, row := range g {
				if len(row) != len(g[0]) || strings.Trim(row, "#/.") != "" {
					t.Errorf("%s %q: row %q", name, r, row)
				}
			}
		}
		for _, r := range digits + "ABCDEFGHIJKLMNOPQRSTUVWXYZ:.,-–/%+° abz" {
			if _, ok := f.shape(r); !ok {
				t.Errorf("%s has no %q", name, r)
			}
		}
	}
}

// The heavy cut of the sun theme leaves the degree sign its hole, at every size.
func TestHeavyDegreeIsNoBlock(t *testing.T) {
	for px := 1; px <= 6; px++ {
		for py := 1; py <= 6; py++ {
			c := cut{text: "°", font: &tall, deep: tall.height, px: px, py: py, h: (tall.height*py + 1) / 2, bold: max(1, px/3)}
			hole := false
			for _, row := range c.letter('°', sets["heavy"]) {
				hole = hole || strings.ContainsAny(strings.TrimSpace(row), " ▀▄")
			}
			if !hole {
				t.Errorf("%d×%d: the degree sign is a block", px, py)
			}
		}
	}
}

// The heavy W and M are the same from both sides at every size: with one outer stroke heavier they read as N.
func TestHeavyWAndMAreNoN(t *testing.T) {
	for _, text := range []string{"W", "M"} {
		for px := 1; px < 4; px++ {
			rows := cut{text: text, font: &tall, deep: tall.height, px: px, py: 1, bold: 1, h: 4}.draw(sets["heavy"])
			for _, row := range rows {
				back := []rune(row)
				if slices.Reverse(back); string(back) != row {
					t.Fatalf("%s, %d columns a pixel:\n%s", text, px, strings.Join(rows, "\n"))
				}
			}
		}
	}
}

// A countdown must not jump sideways: any digit may stand where another stood.
func TestDigitsHaveOneWidth(t *testing.T) {
	for name, g := range sets {
		for _, room := range [][2]int{{12, 3}, {20, 5}, {60, 8}, {120, 20}, {200, 40}} {
			want := Big("00:00", room[0], room[1], g)
			for _, a := range digits {
				for _, b := range digits {
					text := "0" + string(a) + ":0" + string(b)
					got := Big(text, room[0], room[1], g)
					if len(got) != len(want) || ansi.StringWidth(got[0]) != ansi.StringWidth(want[0]) {
						t.Fatalf("%s %s at %v: %d×%d, and 00:00 is %d×%d", name, text, room, ansi.StringWidth(got[0]), len(got), ansi.StringWidth(want[0]), len(want))
					}
				}
			}
		}
	}
}

func TestNoTwoLettersLookAlike(t *testing.T) {
	for name, g := range sets {
		for _, room := range [][2]int{{6, 3}, {8, 5}, {6, 7}, {20, 8}, {30, 12}} {
			seen := map[string]rune{}
			for _, r := range digits + ":.-/%+" {
				picture := strings.Join(Big(string(r), room[0], room[1], g), "\n")
				if other, ok := seen[picture]; ok {
					t.Errorf("%s at %v: %q and %q are the same:\n%s", name, room, r, other, picture)
				}
				seen[picture] = r
			}
		}
	}
}

func TestBigKeepsItsBounds(t *testing.T) {
	for name, g := range sets {
		for _, text := range []string{"4:10", "1:02:30", "360", "OUT A1", "10.4–10.9", "g/L", "no drawing: ₤", ""} {
			for w := 1; w <= 130; w += 7 {
				for h := 1; h <= 40; h += 3 {
					rows := Big(text, w, h, g)
					if len(rows) > h {
						t.Fatalf("%s %q in %d×%d: %d rows", name, text, w, h, len(rows))
					}
					for _, r := range rows {
						if got := style.Width(r); got > w || got != style.Width(rows[0]) {
							t.Fatalf("%s %q in %d×%d: a row %d wide", name, text, w, h, got)
						}
					}
				}
			}
		}
	}
}

func TestBigGrowsWithItsRoom(t *testing.T) {
	for name, g := range sets {
		last := 0
		for n := 4; n <= 60; n++ {
			got := len(Big("4:10", 4*n, n, g))
			if got*3 < last*2 { // a little lower where the tall font takes over from the low one
				t.Errorf("%s: %d rows with room for %d, and %d with less", name, got, n, last)
			}
			last = got
		}
		if last < 30 {
			t.Errorf("%s: only %d rows of 60", name, last)
		}
	}
}

// A letter whose pixels are one dot across is its pixels and nothing else: no slope fills the hole of a low D or R.
func TestThinLettersHaveNoSlopes(t *testing.T) {
	for _, f := range []*font{&low, &tall} {
		for _, r := range "DRPBA0689" {
			s, ok := f.shape(r)
			if !ok {
				continue
			}
			for py := 1; py <= 2; py++ {
				c := cut{text: string(r), font: f, deep: f.height, px: 1, py: py, h: (f.height*py + 1) / 2}
				want := 0
				for _, row := range s {
					want += py * strings.Count(row, "#")
				}
				got := 0
				for _, row := range c.letter(r, sets["blocks"]) {
					got += 2*strings.Count(row, "█") + strings.Count(row, "▀") + strings.Count(row, "▄")
				}
				if got != want {
					t.Errorf("%c, pixels 1×%d: %d dots, want %d:\n%s", r, py, got, want, strings.Join(c.letter(r, sets["blocks"]), "\n"))
				}
			}
		}
	}
}
