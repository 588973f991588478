package widget

import (
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/charmbracelet/x/ansi"
	"pgregory.net/rapid"

	"example.org/vatside/ui/style"
)

var plotDay = time.Date(2026, 11, 25, 0, 0, 0, 0, time.UTC)

func hour(h float64) time.Time { return plotDay.Add(time.Duration(h * float64(time.Hour))) }

// vatDay is a vat warmed till 9:30, cooling since, measured three times; with the lid on it stays warm longer.
func vatDay() Course {
	c := Course{
		From: hour(8), To: hour(18), Now: hour(11.5), OtherName: "with the lid", Unit: "°C", Zone: time.UTC,
		Bands:    []Level{{30, "low"}, {35, "aim"}, {40, "high"}},
		Readings: []Point{{hour(8.2), 31.5}, {hour(9.6), 38.4}, {hour(11.2), 36.4}},
		Liquor:   style.Liquor(style.YellowGreen),
	}
	for m := 0.0; m <= 3.5; m += 0.1 {
		v := 31 + 5*m
		if m > 1.5 {
			v = 18 + 20.5*math.Exp(-(m-1.5)/20)
		}
		c.Past = append(c.Past, Point{hour(8 + m), v})
	}
	last := c.Past[len(c.Past)-1].Value
	for m := 0.0; m <= 6.5; m += 0.25 {
		likely := 18 + (last-18)*math.Exp(-m/14)
		c.Coming = append(c.Coming, Spread{hour(11.5 + m), likely - 0.45*m, likely, likely + 0.35*m})
		c.Other = append(c.Other, Point{hour(11.5 + m), 18 + (last-18)*math.Exp(-m/45)})
	}
	return c
}

// plotted draws a course and holds it to the size.
func plotted(t rapid.TB, c Course, w, h int, st style.Style) []string {
	t.Helper()
	lines := Plot(c, w, h, st)
	if len(lines) != h {
		t.Fatalf("%d×%d: %d lines", w, h, len(lines))
	}
	for i, l := range lines {
		if got := ansi.StringWidth(l); got > w {
			t.Fatalf("%d×%d: line %d is %d wide", w, h, i, got)
		}
		lines[i] = ansi.Strip(l)
	}
	return lines
}

func TestPlotIsExactAtEverySize(t *testing.T) {
	c := vatDay()
	for name, o := range looks {
		st := style.New(o)
		wider, higher := 22, 7
		if name == "none" && !testing.Short() {
			wider, higher = 8, 2
		}
		for w := 20; w <= 196; w += wider {
			for h := 6; h <= 40; h += higher {
				lines := plotted(t, c, w, h, st)
				last := lines[h-1]
				if !strings.Contains(last, "now") {
					t.Fatalf("%s %d×%d: no now in %q", name, w, h, last)
				}
				for _, word := range strings.Fields(last) { // labels that touch would be no hours
					if word != "now" && word != st.Glyphs.Text("°C") && len(word) > 2 {
						t.Fatalf("%s %d×%d: %q in %q", name, w, h, word, last)
					}
				}
				text := strings.Join(lines, "\n")
				if n := strings.Count(text, st.Glyphs.Done); n != 3 {
					t.Fatalf("%s %d×%d: %d readings of 3\n%s", name, w, h, n, text)
				}
				for _, figure := range []string{"30", "40"} {
					if !strings.Contains(text, figure) {
						t.Fatalf("%s %d×%d: no level %s\n%s", name, w, h, figure, text)
					}
				}
				if w >= 60 && h >= 10 && !strings.Contains(text, "with the lid") {
					t.Fatalf("%s %d×%d: the second forecast has no name\n%s", name, w, h, text)
				}
				if st.Glyphs.ASCII && strings.ContainsFunc(text, func(r rune) bool { return r > 126 }) {
					t.Fatalf("not ASCII:\n%s", text)
				}
				if st.Profile == style.NoColour && strings.Join(Plot(c, w, h, st), "\n") != text {
					t.Fatalf("%s: an escape sequence", name)
				}
			}
		}
	}
}

func TestPlotGolden(t *testing.T) {
	want := strings.TrimPrefix(`
40 high   -   -   -   -   -   -   -   -   -   -   -   -   -   -   -   -
                  #
               _"++"""""_____
             _"++++++++++++ # %""____"..__  __  __  _       with the lid
35 aim      %+++++++++++++++++%    ..""""_____......."  ""  ""  ""  __
          _"++++++++++++++++++%          .....""""_____..............
         # +++++++++++++++++++%                ........""""______.......
30 low  ++-+++-+++-+++-+++-+++%   -   -   -   -   -   ....-...-.."""""__
        ++++++++++++++++++++++%                             ............
        ++++++++++++++++++++++%                                     ....
        ++++++++++++++++++++++%
C       8     9     10       now 12     13    14    15     16    17   18`, "\n")
	got := strings.Join(plotted(t, vatDay(), 72, 12, style.New(style.Options{ASCII: true})), "\n")
	if got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

// What is no number is left out as if it had not been there, and the order of points does not matter.
func TestPlotSkipsWhatIsNoNumber(t *testing.T) {
	st := style.New(style.Options{})
	want := strings.Join(Plot(vatDay(), 72, 12, st), "\n")
	c := vatDay()
	for _, v := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		c.Past = append(c.Past, Point{hour(9.03), v})
		c.Other = append(c.Other, Point{hour(13.03), v})
		c.Readings = append(c.Readings, Point{hour(10), v})
		c.Coming = append(c.Coming, Spread{hour(13.03), 30, v, 40})
		c.Bands = append(c.Bands, Level{v, "none"})
	}
	slices.Reverse(c.Past)
	slices.Reverse(c.Coming)
	slices.Reverse(c.Other)
	before := slices.Clone(c.Past)
	if got := strings.Join(Plot(c, 72, 12, st), "\n"); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
	for i := range before {
		if before[i].When != c.Past[i].When {
			t.Fatal("the caller's own points were put in another order")
		}
	}
}

// Whatever a caller hands in, the picture has its size, and every sound reading of the window is on it.
func TestPlotOfAnything(t *testing.T) {
	value := rapid.OneOf(rapid.Float64Range(-20, 110), rapid.SampledFrom([]float64{
		math.NaN(), math.Inf(1), math.Inf(-1), math.MaxFloat64, -farthest, 0, 1e-300,
	}))
	at := rapid.OneOf(rapid.Map(rapid.Float64Range(-30, 60), hour), rapid.SampledFrom([]time.Time{{}, hour(8), hour(9), hour(200000)}))
	points := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) Point {
		return Point{at.Draw(t, "when"), value.Draw(t, "value")}
	}), 0, 12)
	rapid.Check(t, func(t *rapid.T) {
		c := Course{
			From: at.Draw(t, "from"), To: at.Draw(t, "to"), Now: at.Draw(t, "now"), Past: points.Draw(t, "past"),
			Other: points.Draw(t, "other"), Readings: points.Draw(t, "readings"), OtherName: "with the lid", Unit: "°C",
		}
		for _, p := range points.Draw(t, "coming") {
			c.Coming = append(c.Coming, Spread{p.When, value.Draw(t, "low"), p.Value, value.Draw(t, "high")})
		}
		for _, p := range points.Draw(t, "bands") {
			c.Bands = append(c.Bands, Level{p.Value, "level"})
		}
		name := rapid.SampledFrom([]string{"dark", "light", "sun", "sixteen", "none", "ascii"}).Draw(t, "look")
		w, h := rapid.IntRange(20, 196).Draw(t, "width"), rapid.IntRange(6, 40).Draw(t, "height")
		st := style.New(looks[name])
		if lines := Plot(c, w, h, st); len(lines) == 1 {
			for _, r := range c.Readings {
				if sound(r.Value) && !r.When.Before(c.From) && !r.When.After(c.To) {
					t.Fatalf("%+v is lost", r)
				}
			}
			return
		}
		text := strings.Join(plotted(t, c, w, h, st), "\n")
		from, to := c.From, c.To
		if to.Before(from) {
			from, to = to, from
		}
		if to.Sub(from) < time.Minute {
			from, to = from.Add(-30*time.Minute), to.Add(30*time.Minute)
		}
		inside := func(at time.Time) bool { return !at.Before(from) && !at.After(to) }
		for _, r := range c.Readings {
			if sound(r.Value) && inside(r.When) && !strings.Contains(text, st.Glyphs.Done) {
				t.Fatalf("%+v is lost in\n%s", r, text)
			}
		}
		if inside(c.Now) != strings.Contains(text, "now") {
			t.Fatalf("now, or not now?\n%s", text)
		}
	})
}

func TestPlotOfLittle(t *testing.T) {
	st := style.New(style.Options{})
	at := hour(9)
	for name, c := range map[string]Course{
		"one point of the past":   {From: hour(8), To: hour(10), Now: at, Past: []Point{{at, 36}}},
		"one point to come":       {From: hour(8), To: hour(10), Now: at, Coming: []Spread{{hour(9.5), 34, 35, 36}}},
		"one point of the second": {From: hour(8), To: hour(10), Now: at, Other: []Point{{hour(9.5), 35}}},
		"one reading":             {From: hour(8), To: hour(10), Now: at, Readings: []Point{{at, 36}}},
		"a window of no length":   {From: at, To: at, Now: at, Past: []Point{{at, 36}}},
		"a window turned round":   {From: hour(10), To: hour(8), Now: at, Past: []Point{{at, 36}}},
	} {
		lines := plotted(t, c, 40, 8, st)
		if !strings.Contains(lines[7], "now") || len(strings.Fields(strings.Join(lines[:7], " "))) == 0 {
			t.Errorf("%s:\n%s", name, strings.Join(lines, "\n"))
		}
	}
	for w := 1; w < 24; w++ { // no window is that small, but none may break it
		for h := 1; h < 8; h++ {
			plotted(t, vatDay(), w, h, st)
		}
	}
	for name, c := range map[string]Course{
		"nothing at all":         {},
		"only levels":            {From: hour(8), To: hour(10), Now: at, Bands: []Level{{30, "low"}}},
		"only what is no number": {From: hour(8), To: hour(10), Now: at, Past: []Point{{at, math.NaN()}}},
		"all outside the window": {From: hour(8), To: hour(10), Now: at, Readings: []Point{{hour(11), 36}}},
	} {
		for w := 20; w < 80; w += 10 {
			if lines := Plot(c, w, 8, st); len(lines) != 1 || lines[0] != "Nothing known yet." {
				t.Errorf("%s: %q", name, lines)
			}
		}
	}
}

func TestPlotHours(t *testing.T) {
	berlin := time.FixedZone("half", 5*3600+1800)
	for _, c := range []struct {
		from, to time.Time
		zone     *time.Location
		want     string
	}{
		{hour(8), hour(18), nil, "8 9 10 11 12 13 14 15 16 17 18"},
		{hour(8.5), hour(12.2), berlin, "14 15 16 17"},
		{hour(8), hour(8.5), nil, "08:00 08:05"},
		{hour(0), hour(48), nil, "Wed 6 12 18 Thu 6 12 18 Fri"},
		{hour(0), hour(24 * 21), nil, "25 Nov"},
	} {
		lines := Plot(Course{From: c.from, To: c.to, Zone: c.zone, Readings: []Point{{c.from.Add(time.Minute), 36}}}, 72, 8, style.New(style.Options{}))
		if got := strings.Join(strings.Fields(lines[7]), " "); !strings.HasPrefix(got, c.want) {
			t.Errorf("%v to %v: %q does not begin with %q", c.from, c.to, got, c.want)
		}
	}
}

func BenchmarkPlot(b *testing.B) {
	c, st := vatDay(), style.New(style.Options{Profile: style.TrueColour})
	for b.Loop() {
		Plot(c, 110, 22, st)
	}
}
