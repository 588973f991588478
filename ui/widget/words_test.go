package widget

import (
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/charmbracelet/x/ansi"
	"pgregory.net/rapid"

	"example.org/vatside/ui/style"
)

func TestWrapCutsNoWord(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		given := rapid.SliceOf(rapid.StringMatching(`[a-z0-9°–,.:/-]{1,9}|g|L|min`)).Draw(t, "words")
		width := rapid.IntRange(9, 60).Draw(t, "width")
		var got []string
		for _, l := range Wrap(strings.Join(given, " "), width) {
			if ansi.StringWidth(l) > width {
				t.Fatalf("%q is wider than %d", l, width)
			}
			got = append(got, strings.Fields(l)...)
		}
		if strings.Join(got, " ") != strings.Join(given, " ") {
			t.Fatalf("%q became %q", given, got)
		}
	})
}

// It passes over the widths at which nothing changes: the lines are those that a try of each width gives.
func TestBalancedIsTheBestOfAllWidths(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := strings.Join(rapid.SliceOf(rapid.StringMatching(`[a-z0-9°–✓,.:/-]{1,9}|g|L|min|[a-z]{20,50}`)).Draw(t, "words"), " ")
		width := rapid.IntRange(1, 60).Draw(t, "width")
		want := Wrap(s, width)
		for w := width - 1; len(want) > 1 && w > width/2 && ansi.StringWidth(want[len(want)-1])*3 < width; w-- {
			closer := Wrap(s, w)
			if len(closer) > len(want) {
				break
			}
			want = closer
		}
		if got := balanced(s, width); !slices.Equal(got, want) {
			t.Fatalf("%q in %d: %q, of all widths %q", s, width, got, want)
		}
	})
}

func TestWrapKeepsAFigureWithItsUnit(t *testing.T) {
	for _, l := range Wrap("hydrate in 400 mL of water at 35 °C for 20 min, then stir", 14) {
		if f := strings.Fields(l); isFigure(f[len(f)-1]) {
			t.Errorf("a line ends with %q", l)
		}
	}
	if got := Wrap("unbroken "+strings.Repeat("x", 30), 10); len(got) != 4 {
		t.Errorf("a word wider than the line: %q", got)
	}
}

// The dot between two facts ends a line, and begins none.
func TestWrapBeginsNoLineWithADot(t *testing.T) {
	for width := 9; width < 60; width++ {
		for _, l := range Wrap("1 eyes · 2 skin · 3 breathed in · 20 g · 5 scald - 6 fire", width) {
			if strings.HasPrefix(l, "·") || strings.HasPrefix(l, "-") {
				t.Errorf("%d cells: a line is %q", width, l)
			}
		}
	}
}

func TestTimes(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		{Countdown(4*time.Minute + 10*time.Second), "4:10"},
		{Countdown(4*time.Minute + 9*time.Second + time.Millisecond), "4:10"},
		{Countdown(time.Millisecond), "0:01"},
		{Countdown(0), "0:00"},
		{Countdown(-182 * time.Second), "+3:02"},
		{Countdown(3750 * time.Second), "1:02:30"},
		{Over(182*time.Second + 900*time.Millisecond), "+3:02"},
		{In(250 * time.Second), "in 4:10"},
		{In(0), "now"},
	} {
		if c.got != c.want {
			t.Errorf("got %q, want %q", c.got, c.want)
		}
	}
}

func TestPicturesKeepTheirWidth(t *testing.T) {
	var shades []style.Shade
	var choices []Choice
	for i := range 17 {
		shades = append(shades, style.Cloth(float64(i)/16))
		choices = append(choices, Choice{Text: strings.Repeat("vat ", i%5+1) + strconv.Itoa(i), Aside: "soda · 60 L · last dyed 12 Nov"})
	}
	for name, o := range looks {
		st := style.New(o)
		for w := 1; w <= 120; w++ {
			var all []string
			all = append(all, Swatches(Strip{shades, 6.3, 5, 8, 7}, w, 2, st)...)
			all = append(all, Patches([]Patch{{shades[1], []string{"1", "pale", "L* 61="}, false}, {shades[9], []string{"2", "medium to dark"}, true}, {shades[16], nil, false}}, w, 2, st).Lines...)
			all = append(all, Pick(choices, 9, w, 5, st).Lines...)
			for _, l := range all {
				if ansi.StringWidth(l) > w {
					t.Fatalf("%s, %d wide: %q", name, w, l)
				}
			}
		}
	}
}

func TestPickShowsTheChosen(t *testing.T) {
	st := style.New(style.Options{})
	for n := 1; n < 20; n++ {
		choices := make([]Choice, n)
		for i := range choices {
			choices[i].Text = "v" + strconv.Itoa(i) + "."
		}
		for rows := 1; rows < 12; rows++ {
			for chosen := range n {
				got := Pick(choices, chosen, 30, rows, st).Lines
				if len(got) > rows || !strings.Contains(strings.Join(got, "\n"), "■ v"+strconv.Itoa(chosen)+".") {
					t.Fatalf("%d of %d in %d rows: %q", chosen, n, rows, got)
				}
			}
		}
	}
}

func TestHelpAndFirstAidStayLongest(t *testing.T) {
	st := style.New(style.Options{})
	if got := keyLine(someKeys, 40, st); got != "space done   ? keys          ! first aid" {
		t.Errorf("%q", got)
	}
}

// The likely range is a bar under its numbers, the best of them solid, and no number touches another.
func TestTheStripIsNumbered(t *testing.T) {
	st := style.New(style.Options{})
	var shades []style.Shade
	for i := range 17 {
		shades = append(shades, style.Cloth(float64(i)/16))
	}
	for _, c := range []struct{ low, high, best int }{{4, 6, 5}, {1, 30, 1}, {20, 30, 0}, {16, 16, 16}} {
		for _, width := range []int{57, 76, 113, 188} {
			got := Swatches(Strip{Shades: shades, Wanted: -1, Low: c.low, High: c.high, Best: c.best}, width, 1, st)
			marks, numbers := []rune(got[1]+strings.Repeat(" ", width)), got[2]
			for i := range shades {
				want, middle := ' ', (i*width/17+(i+1)*width/17)/2
				switch {
				case i == c.best && i > 0:
					want = '█'
				case i >= c.low && i <= c.high:
					want = '▄'
				}
				if marks[middle] != want {
					t.Errorf("%d wide, %d–%d: under %d is %c in %q", width, c.low, c.high, i, marks[middle], got[1])
				}
			}
			if best := strconv.Itoa(c.best); c.best > 0 && !slices.Contains(strings.Fields(numbers), best) {
				t.Errorf("%d wide: %q has no %q", width, numbers, best)
			}
			last := -1
			for _, word := range strings.Fields(numbers) {
				if n, err := strconv.Atoi(word); err == nil && n <= last {
					t.Errorf("%d wide: %q", width, numbers)
				} else if err == nil {
					last = n
				}
			}
		}
	}
}
