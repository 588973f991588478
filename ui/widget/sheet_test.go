package widget

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"

	"example.org/vatside/ui/style"
)

var someKeys = []Key{{Key: "space", Desc: "done"}, {Key: "0–9", Desc: "weight"}, {Key: "PgUp", Desc: "back"}, {Key: "?", Desc: "keys"}, {Key: "!", Desc: "first aid"}}

// step is a sheet with every part; its figure is modest.
func step(style.Style) Sheet {
	return Sheet{
		Head:    Head{"garden bin · 60 L · soda vat", "step 4 of 16 · 09:42"},
		Act:     "Weigh the soda ash",
		Figure:  Figure{Number: "360", Unit: "g", Note: "on the scale 212 g, 148 g to go"},
		How:     []string{"Into a dry jar, tared."},
		Why:     "It is the alkali in which reduced indigo dissolves.",
		Caution: &Caution{"the dust hurts eyes: glasses and mask on, no draught", "enter: on"},
		Next:    "then: hydrate the indigo",
		Foot:    []string{"empty · 60 L to come, 21 L of it hot · begin heating by 09:50"},
		Keys:    someKeys,
	}
}

// clock is a sheet for the hands: a big act over a big countdown, a table, a trouble and a caution.
func clock(st style.Style) Sheet {
	return Sheet{
		Head:    Head{"garden bin", "11:26"},
		Banner:  "not yet on disk: 3 events",
		Act:     "OUT A1",
		ActBig:  true,
		Aside:   "in 4:10",
		Big:     true,
		Figure:  Figure{Number: "1:04:10", Tone: Now},
		Body:    []string{st.Now.Render("A1 runner   in the vat, dip 3 of 7"), "C2 scarf   airing"},
		Caution: &Caution{Text: "hands out before the heat", Key: "enter: on"},
		Next:    "then: IN C2, edge first",
		Foot:    []string{"36 °C, 30 at 14:20   pH 10.4–10.9   reducer 3–5 h   indigo 71 g"},
		Keys:    someKeys,
	}
}

var looks = map[string]style.Options{
	"dark":    {Theme: style.DarkTheme, Profile: style.TrueColour},
	"light":   {Theme: style.LightTheme, Profile: style.Indexed, PaintGround: true},
	"sun":     {Theme: style.SunTheme, Profile: style.TrueColour},
	"sixteen": {Profile: style.Ansi16},
	"none":    {},
	"ascii":   {ASCII: true},
}

// forEverySize tries the sizes: in one look every small one, where parts are dropped, else a coarse net.
func forEverySize(t *testing.T, do func(t *testing.T, name string, st style.Style, w, h int)) {
	t.Helper()
	for name, o := range looks {
		st, dense := style.New(o), name == "none" && !testing.Short()
		for w := 20; w <= 220; w += 11 {
			for h := 8; h <= 70; h += 6 {
				do(t, name, st, w, h)
			}
		}
		for w := 20; dense && w <= 72; w += 2 {
			for h := 8; h <= 26; h++ {
				do(t, name, st, w, h)
			}
		}
	}
}

// words is what can be read on a screen, without colour and spacing.
func words(screen string, _ int) string { return strings.Join(strings.Fields(ansi.Strip(screen)), " ") }

func TestEverySheetFillsItsWindowExactly(t *testing.T) {
	t.Parallel()
	forEverySize(t, func(t *testing.T, name string, st style.Style, w, h int) {
		for kind, s := range map[string]Sheet{"step": step(st), "clock": clock(st), "empty": {}} {
			lines := strings.Split(Render(s, w, h, st), "\n")
			if len(lines) != h {
				t.Fatalf("%s %s %d×%d: %d lines", kind, name, w, h, len(lines))
			}
			for i, l := range lines {
				if got := style.Width(l); got > w {
					t.Fatalf("%s %s %d×%d: line %d is %d wide: %q", kind, name, w, h, i, got, l)
				}
			}
		}
	})
}

func TestActFigureAndCautionAreNeverDropped(t *testing.T) {
	t.Parallel()
	forEverySize(t, func(t *testing.T, name string, st style.Style, w, h int) {
		for kind, s := range map[string]Sheet{"step": step(st), "clock": clock(st)} {
			p, screen := planFor(s, w, h, st), Render(s, w, h, st)
			read, bare := words(screen, w), ansi.Strip(screen)
			if n := p.rows(); n > h {
				t.Fatalf("%s %s %d×%d: the plan is %d rows high", kind, name, w, h, n)
			}
			for _, want := range []string{cautionWord + " " + s.Caution.Text, s.Caution.Key} {
				if !strings.Contains(read, want) {
					t.Fatalf("%s %s %d×%d lost %q:\n%s", kind, name, w, h, want, screen)
				}
			}
			if !p.actIsBig && !strings.Contains(read, s.Act) {
				t.Fatalf("%s %s %d×%d lost its act:\n%s", kind, name, w, h, screen)
			}
			if !p.figureIsBig && !strings.Contains(read, s.Figure.Number) {
				t.Fatalf("%s %s %d×%d lost its figure:\n%s", kind, name, w, h, screen)
			}
			for _, big := range []struct {
				on bool
				c  cut
			}{{p.actIsBig, p.actCut}, {p.figureIsBig, p.figure}} {
				if !big.on {
					continue
				}
				for _, l := range big.c.draw(st.Glyphs) {
					if !strings.Contains(bare, strings.TrimRight(l, " ")) {
						t.Fatalf("%s %s %d×%d lost a row of its letters:\n%s", kind, name, w, h, screen)
					}
				}
			}
		}
	})
}

// The parts go in one order, so a part that is there with less room is there with more.
func TestPartsGoInOrder(t *testing.T) {
	st := style.New(style.Options{Profile: style.TrueColour})
	for h := 60; h >= 8; h-- {
		p := planFor(step(st), 80, h, st)
		there := []bool{p.head, len(p.how) > 0, p.keys, len(p.next) > 0, len(p.why) > 0}
		for i := 1; i < len(there); i++ {
			if there[i] && !there[i-1] {
				t.Fatalf("80×%d: head, how, keys, next, why = %v", h, there)
			}
		}
		if h >= 20 && !there[len(there)-1] {
			t.Errorf("80×%d: something was dropped", h)
		}
	}
}

func TestClockDigitsTakeAQuarterOfTheRows(t *testing.T) {
	for name, o := range looks {
		st := style.New(o)
		for w := 60; w <= 220; w += 8 {
			for h := 20; h <= 70; h += 5 {
				s := clock(st)
				for _, number := range []string{"4:10", "12:34", "0:07"} {
					s.Figure.Number = number
					if p := planFor(s, w, h, st); p.figureRows*4 < h {
						t.Fatalf("%s %s %d×%d: %d rows, %d of %d columns", name, number, w, h, p.figureRows, p.figure.w, p.text)
					}
				}
			}
		}
		for _, size := range [][2]int{{60, 20}, {80, 24}, {120, 40}, {200, 60}} {
			for _, number := range []string{"1:02:30", "+3:02", "+12:34"} {
				s := clock(st)
				s.Figure.Number = number
				if p := planFor(s, size[0], size[1], st); p.figureRows*4 < size[1] {
					t.Errorf("%s %s at %v: %d rows", name, number, size, p.figureRows)
				}
			}
		}
	}
}

func TestNoColourHasNoEscapes(t *testing.T) {
	for _, name := range []string{"none", "ascii"} {
		st := style.New(looks[name])
		for _, s := range []Sheet{step(st), clock(st)} {
			screen := Render(s, 80, 24, st)
			if strings.Contains(screen, "\x1b") {
				t.Errorf("%s: an escape in %q", name, screen)
			}
		}
	}
}

func TestTwinIsASCII(t *testing.T) {
	st := style.New(looks["ascii"])
	s := step(st)
	s.How = []string{"38 °C – “slowly” · ½ L × 2 ≥ 10 ± 1 µm → ende, Färberei, 藍"}
	for _, screen := range []string{
		Render(s, 120, 40, st), Render(clock(st), 80, 24, st),
		strings.Join(Pick([]Choice{{Text: "a · b", Aside: "c"}, {Text: "d", Aside: "é"}}, 1, 30, 5, st).Lines, "\n"),
		strings.Join(Swatches(Strip{[]style.Shade{style.Cloth(0), style.Cloth(1)}, 0.5, 0, 1, 1}, 30, 2, st), "\n"),
	} {
		for _, r := range screen {
			if r > 126 || r < 32 && r != '\n' {
				t.Fatalf("%q in\n%s", r, screen)
			}
		}
	}
}

func TestOnlyTheCautionIsReversed(t *testing.T) {
	st := style.New(looks["dark"])
	for _, s := range []Sheet{step(st), clock(st)} {
		for _, l := range strings.Split(Render(s, 80, 24, st), "\n") {
			if reversed := strings.Contains(l, "\x1b[1;7m"); reversed != strings.Contains(l, cautionWord) {
				t.Errorf("reversed %v: %q", reversed, l)
			}
		}
	}
}

// Names come from files that people edit: nothing in them may move the cursor.
func TestControlCharactersAreTakenOut(t *testing.T) {
	st := style.New(style.Options{})
	screen := Render(Sheet{Act: "Weigh\x1b[2J\nthe\x07 ash\u202e", Head: Head{Left: "a\nb\r\x1b]0;x\x07"}}, 40, 10, st)
	if strings.ContainsAny(screen, "\x1b\x07\r\u202e") || strings.Count(screen, "\n") != 9 {
		t.Errorf("%q", screen)
	}
}

// Of a row that carries ink, ink alone passes; and what is shown instead takes its room, so that the row stays as wide as it may be.
func TestOfARowInkAlonePasses(t *testing.T) {
	for in, want := range map[string]string{
		"blue": "blue", "\x1b[1;34mblue\x1b[0m  °": "\x1b[1;34mblue\x1b[0m  °", "\x1b[m": "\x1b[m",
		"\x1b]52;c;aGFja2Vk\ablue\x1b[0m": "\ufffd]52;c;aGFja2Vk\ufffdblue\x1b[0m", "a\u009b31mb": "a\ufffd31mb", "a\u202eb\r": "a\ufffdb\ufffd",
		"\x1b[2J": "\ufffd[2J", "\x1b[1": "\ufffd[1", "\x1b[38:5:1m": "\ufffd[38:5:1m", "\x1b": "\ufffd", "\x1b\x1b[1m": "\ufffd\x1b[1m", "a\nb": "a b",
	} {
		if got := inked(in); got != want {
			t.Errorf("%q passes as %q, not %q", in, got, want)
		}
	}
	for name, o := range looks {
		st := style.New(o)
		screen := Render(Sheet{Act: "DIP", Body: []string{"\x1b]52;c;" + strings.Repeat("a", 40) + "\a" + st.Dim.Render("A1"), "\u009b31m\r\x1b[2J"}}, 40, 10, st)
		for _, l := range strings.Split(screen, "\n") {
			if inked(l) != l || ansi.StringWidth(l) > 40 {
				t.Errorf("%s: %q", name, l)
			}
		}
		if !strings.Contains(screen, "52;c;aaa") {
			t.Errorf("%s: the row is lost:\n%s", name, screen)
		}
	}
}

func TestRoomIsRoom(t *testing.T) {
	for name, o := range looks {
		st := style.New(o)
		s := step(st)
		s.Figure, s.Caution = Figure{}, nil
		for _, size := range [][2]int{{60, 20}, {80, 24}, {120, 40}, {200, 60}} {
			cols, rows := Room(s, size[0], size[1], st)
			full := s
			for i := range rows {
				full.Body = append(full.Body, fmt.Sprintf("row%03d %s", i, strings.Repeat("x", cols-7)))
			}
			read := words(Render(full, size[0], size[1], st), size[0])
			for _, want := range append([]string{s.Why, s.Next, "space done", s.How[0]}, fmt.Sprintf("row%03d", rows-1)) {
				if want = st.Glyphs.Text(want); !strings.Contains(read, want) {
					t.Errorf("%s %v, %d rows: lost %q", name, size, rows, want)
				}
			}
		}
	}
}

func BenchmarkRenderClock(b *testing.B) {
	st := style.New(looks["dark"])
	s := clock(st)
	for b.Loop() {
		Render(s, 200, 60, st)
	}
}

// The row of a call is whole in every window down to one row, the vat's name gives way to it, and the rest is as in a window that
// has one row less.
func TestTheRowOfACall(t *testing.T) {
	s := Sheet{Head: Head{Left: "bin", Right: "10:42"}, Banner: "the disk is full", Act: "Weigh", Figure: Figure{Number: "54", Unit: "g"}, Body: []string{"a", "b", "c"},
		How: []string{"Slowly."}, Caution: &Caution{Text: "lye burns", Key: "y so"}, Next: "then: stir", Foot: []string{"60 L"}, Keys: []Key{{Key: "?", Desc: "keys"}}}
	st := style.New(style.Options{Profile: style.NoColour})
	for _, width := range []int{20, 24, 40, 60, 80, 200} {
		for height := 1; height <= 60; height++ {
			with := s
			with.Call = CallRow{Vat: "the garden bin", Words: "LIFT A1 0:40 over", Tone: Trouble}
			lines := strings.Split(Render(with, width, height, st), "\n")
			at := slices.IndexFunc(lines, func(l string) bool { return strings.Contains(l, with.Call.Words) })
			if at < 0 || at > 1 || len(lines) != height {
				t.Fatalf("%d×%d: the row is at %d:\n%s", width, height, at, strings.Join(lines, "\n"))
			}
			if width >= 40 && !strings.Contains(lines[at], "the garden bin: LIFT") {
				t.Errorf("%d×%d: the vat is not named in %q", width, height, lines[at])
			}
			if rest := slices.Delete(lines, at, at+1); height > 1 && strings.Join(rest, "\n") != Render(s, width, height-1, st) {
				t.Fatalf("%d×%d: beside the row stands\n%s", width, height, strings.Join(rest, "\n"))
			}
		}
	}
	c1, r1 := Room(s, 80, 23, st)
	s.Call.Words = "A1 IN, out in 1:55"
	if c, r := Room(s, 80, 24, st); c != c1 || r != r1 {
		t.Errorf("the room is %d×%d, not %d×%d", c, r, c1, r1)
	}
}
