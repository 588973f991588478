package style

import (
	"reflect"
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"
)

func TestEveryGlyphIsOneCell(t *testing.T) {
	for name, g := range map[string]Glyphs{"blocks": Blocks, "ascii": ASCII} {
		v := reflect.ValueOf(g)
		for i := range v.NumField() {
			field := v.Type().Field(i).Name
			if v.Field(i).Kind() != reflect.String || field == "Ellipsis" {
				continue
			}
			s := v.Field(i).String()
			if ansi.StringWidth(s) != 1 {
				t.Errorf("%s %s: %q is not one cell", name, field, s)
			}
			if g.ASCII && (len(s) != 1 || s[0] < 32 || s[0] > 126) {
				t.Errorf("%s: %q is not ASCII", field, s)
			}
			if twin := ASCII.Text(s); len(twin) == 0 || strings.Contains(twin, "?") {
				t.Errorf("%s: %q has no twin", field, s)
			}
		}
	}
}

func TestNoColourIsNoEscape(t *testing.T) {
	s := New(Options{Theme: SunTheme, PaintGround: true})
	for _, got := range []string{
		s.Caution.Render("x"), s.Now.Render("x"), s.Trouble.Render("x"), s.Act.Render("x"), s.Dim.Render("x"),
		s.Ink(Cloth(1), "x"), s.Ground("x", 1),
	} {
		if got != "x" {
			t.Errorf("%q", got)
		}
	}
	if got := s.Fill(Cloth(1), 2); got != "██" {
		t.Errorf("full cloth is %q", got)
	}
	if got := s.Fill(Cloth(0), 2); got != "  " {
		t.Errorf("undyed cloth is %q", got)
	}
}

func TestTokensHaveTheirColours(t *testing.T) {
	for _, c := range []struct { // 114 comes out as 113: the library cuts instead of rounding
		o    Options
		want string
	}{
		{Options{Theme: DarkTheme, Profile: TrueColour}, "38;2;230;159;0"},
		{Options{Theme: LightTheme, Profile: TrueColour}, "38;2;0;113;178"},
		{Options{Theme: SunTheme, Profile: TrueColour}, "38;2;0;0;0"},
		{Options{Theme: "none such", Profile: Ansi16}, "93"},
	} {
		if got := New(c.o).Now.Render("x"); !strings.Contains(got, c.want) {
			t.Errorf("%+v: %q has no %s", c.o, got, c.want)
		}
	}
}

// The terminal's own ground must not show between two coloured words.
func TestGroundHasNoHoles(t *testing.T) {
	s := New(Options{Theme: LightTheme, Profile: TrueColour, PaintGround: true})
	line := s.Ground(s.Now.Render("now")+" and "+s.Dim.Render("then"), 20)
	if ansi.StringWidth(line) != 20 {
		t.Errorf("%d wide", ansi.StringWidth(line))
	}
	if strings.Count(line, "\x1b[0m") != 1 || !strings.HasSuffix(line, "\x1b[0m") {
		t.Errorf("a bare reset inside %q", line)
	}
}

func TestClothDarkensAllTheWay(t *testing.T) {
	last := 2.0
	for i := range 101 {
		l, _, _ := ClothColour(float64(i) / 100).Lab()
		if l >= last {
			t.Fatalf("at %d %% the cloth is lighter than before", i)
		}
		last = l
	}
	if ClothColour(-1) != ClothColour(0) || ClothColour(2) != ClothColour(1) {
		t.Error("outside the scale it is not the nearer end")
	}
	density := Blank
	for _, d := range named() {
		f, ok := DepthFraction(d.Name)
		if got := Cloth(f); !ok || got.Name != d.Name || got.Density < density {
			t.Errorf("%s: %+v", d.Name, got)
		} else {
			density = got.Density
		}
	}
	if _, ok := DepthFraction("mauve"); ok {
		t.Error("mauve is a depth")
	}
}

// Every cloth and every liquor must be seen against its theme's ground.
func TestShadesAreSeenOnTheirGround(t *testing.T) {
	for name, theme := range themes {
		s := New(Options{Theme: name, Profile: TrueColour})
		ground := mustHex(theme.ground)
		for i := range 21 {
			cloth := Cloth(float64(i) / 20)
			if d := s.Shown(cloth).DistanceCIEDE2000(ground); d < 0.08 && !s.Hemmed(cloth) {
				t.Errorf("%s: cloth %d/20 is %.2f from its ground, and has no hem", name, i, d)
			}
			if s.Shown(cloth) != cloth.Colour {
				t.Errorf("%s: cloth %d/20 is shown as %s, not %s", name, i, s.Shown(cloth).Hex(), cloth.Colour.Hex())
			}
		}
		for st := Water; st <= Tired; st++ {
			if d := s.Shown(Liquor(st)).DistanceCIEDE2000(ground); d < 0.08 {
				t.Errorf("%s: %s is %.2f from its ground", name, Liquor(st).Name, d)
			}
		}
	}
	if Liquor(-1) != Liquor(Water) || Liquor(99) != Liquor(Water) {
		t.Error("an unknown stage is not water")
	}
}

func TestProfileOf(t *testing.T) {
	for _, c := range []struct {
		env  map[string]string
		want Profile
		twin bool
	}{
		{map[string]string{"TERM": "xterm-256color", "COLORTERM": "truecolor", "LANG": "de_DE.UTF-8"}, TrueColour, false},
		{map[string]string{"TERM": "xterm-256color", "LC_ALL": "ja_JP.UTF-8", "LANG": "en_GB.UTF-8"}, Indexed, true},
		{map[string]string{"TERM": "xterm-256color", "COLORTERM": "truecolor", "NO_COLOR": "1", "LC_CTYPE": "C.utf8"}, NoColour, false},
		{map[string]string{"TERM": "dumb", "COLORTERM": "truecolor", "LANG": "en_GB.UTF-8"}, NoColour, true},
		{map[string]string{"TERM": "linux", "LANG": "C"}, Ansi16, true},
		{map[string]string{"WT_SESSION": "x"}, TrueColour, false},
		{nil, NoColour, true},
		{map[string]string{"TERM": "xterm-256color", "CLICOLOR": "0"}, NoColour, true},
		{map[string]string{"TERM": "xterm-256color", "CLICOLOR": "0", "CLICOLOR_FORCE": "1"}, Indexed, true},
		{map[string]string{"TERM": "xterm-256color", "FORCE_COLOR": "0"}, NoColour, true},
		{map[string]string{"TERM": "linux", "FORCE_COLOR": "3"}, TrueColour, true},
		{map[string]string{"FORCE_COLOR": "true"}, Ansi16, true},
		{map[string]string{"TERM": "xterm-256color", "FORCE_COLOR": "1"}, Ansi16, true},
		{map[string]string{"TERM": "xterm-256color", "FORCE_COLOR": "3", "NO_COLOR": "1"}, NoColour, true},
	} {
		getenv := func(k string) string { return c.env[k] }
		if p, twin := ProfileOf(getenv), WantsASCII(getenv); p != c.want || twin != c.twin {
			t.Errorf("%v: %v, ASCII %v", c.env, p, twin)
		}
	}
}

// A text in an ink is what lipgloss writes, line feeds and tabs too.
func TestInkIsThatOfTheLibrary(t *testing.T) {
	for _, p := range []Profile{NoColour, Ansi16, Indexed, TrueColour} {
		s := New(Options{Theme: SunTheme, Profile: p})
		for _, ink := range []Ink{s.Text, s.Dim, s.Now, s.Trouble, s.Caution, s.Digits, s.Text.On("#123456", "#654321")} {
			for _, text := range []string{"", "A1", "two\nlines of it", "a\ttab", "°C ≈"} {
				if got, want := ink.Render(text), ink.of.style.Render(text); got != want {
					t.Errorf("%q is written %q, not %q", text, got, want)
				}
			}
		}
	}
}

// A memory answers right, asks once for what it knows, and does not grow for ever.
func TestMemory(t *testing.T) {
	var m Memory[int, int]
	asked := 0
	twice := func(n int) int { asked++; return 2 * n }
	for n := range 3 * mostKnown {
		first, again := m.Of(n, twice), m.Of(n, twice)
		if first != 2*n || again != 2*n || len(m.known) > mostKnown {
			t.Fatalf("of %d: %d are known", n, len(m.known))
		}
	}
	if asked != 3*mostKnown {
		t.Errorf("asked %d times", asked)
	}
}

// The width that is told without the tables of Unicode is theirs.
func TestWidth(t *testing.T) {
	for r := rune(' '); r < 0x30000; r++ {
		if s := "a" + string(r); OneCell(r) && ansi.StringWidth(s) != 2 {
			t.Errorf("%U is not one cell", r)
		}
	}
	for _, s := range []string{"", "A1 äöü", "\x1b[1;38;5;3mA1\x1b[0m ≈≈", "e\u0301", "e\x1b[1m\u0301", "藍 ☕", "#\ufe0f\u20e3", "\x1b]0;title\a1", "\x1b[2Kx", "\x1b", "a\tb\xff"} {
		if got, want := Width(s), ansi.StringWidth(s); got != want {
			t.Errorf("%q takes %d, not %d", s, got, want)
		}
	}
}
