package widget_test

import (
	"strings"
	"testing"
	"time"

	"github.com/charmbracelet/x/ansi"

	"example.org/vatside/ui/style"
	"example.org/vatside/ui/widget"
)

var ten = time.Date(2026, 3, 28, 10, 0, 0, 0, time.UTC)

func after(m int) time.Time { return ten.Add(time.Duration(m) * time.Minute) }

// twoHours is a day of 120 min: A1 is in till 10 min, goes in again at 40 for 20 and at 90 for 10; B1 waits for 60.
func twoHours() widget.Lanes {
	return widget.Lanes{
		From: ten, To: after(120), Now: ten, Ends: "done", Fars: "dips",
		Lanes: []widget.Lane{
			{Tag: "A1", Ends: "12:30", Dips: []widget.LaneDip{
				{From: after(-5), To: after(10), Cloth: style.Cloth(0.2), In: true},
				{From: after(40), To: after(60), Cloth: style.Cloth(0.5)},
				{From: after(90), To: after(100), Cloth: style.Cloth(1)},
			}, Airs: []widget.Period{{From: after(10), To: after(30)}}},
			{Tag: "B1", Ends: "12:00", Dips: []widget.LaneDip{{From: after(60), To: after(70), Cloth: style.Cloth(0.1)}}},
		},
	}
}

// cells are a lane's own: what stands between its name and when it is done.
func cells(t *testing.T, line string) []rune {
	t.Helper()
	row := []rune(ansi.Strip(line))
	if len(row) < 4+60+7 {
		t.Fatalf("%q is too short", string(row))
	}
	return row[4 : 4+60]
}

// In 60 cells for two hours a cell is two minutes: a dip stands exactly in the columns of its time, without colour as dense
// as it is deep, airing as dots behind it and nothing where the piece waits; the piece in the vat is marked.
func TestADipStandsAtItsTime(t *testing.T) {
	g := style.Blocks
	st := style.New(style.Options{})
	lines := widget.DrawLanes(twoHours(), 4+60+7, 3, st)
	if len(lines) != 3 {
		t.Fatalf("%d lines", len(lines))
	}
	row := cells(t, lines[0])
	want := map[int]string{0: g.Open, 4: "", 5: " ", 6: g.Coming, 7: " ", 8: g.Coming, 15: " ", 19: " ", 20: "", 29: "", 30: " ", 44: " ", 45: "", 49: "", 50: " ", 59: " "}
	dense := func(f float64) string { return st.Mark(style.Cloth(f).Density) }
	want[4], want[20], want[29], want[45], want[49] = dense(0.2), dense(0.5), dense(0.5), dense(1), dense(1)
	for x, w := range want {
		if string(row[x]) != w {
			t.Errorf("cell %d is %q, not %q: %q", x, row[x], w, string(row))
		}
	}
	if want[4] == want[45] || want[20] == want[45] {
		t.Error("the depths of the test look alike")
	}
	second := cells(t, lines[1])
	if first := strings.IndexFunc(string(second), func(r rune) bool { return r != ' ' }); first != 30 {
		t.Errorf("B1 goes in at cell %d: %q", first, string(second))
	}
	hours := ansi.Strip(lines[2])
	if !strings.HasPrefix(hours, "    now") || !strings.HasSuffix(hours, " done") || !strings.Contains(hours, "11") {
		t.Errorf("the hours are %q", hours)
	}
	if !strings.HasSuffix(ansi.Strip(lines[0]), "  12:30") {
		t.Errorf("when A1 is done is not at the right: %q", ansi.Strip(lines[0]))
	}
}

// In colour a lane is as tall as there is room for, its blocks full, each in its own blue, and the mark stays.
func TestLanesInColour(t *testing.T) {
	st := style.New(style.Options{Profile: style.TrueColour})
	d := twoHours()
	low, tall := widget.DrawLanes(d, 71, 3, st), widget.DrawLanes(d, 71, 9, st)
	if len(low) != 3 || len(tall) != 8 {
		t.Fatalf("%d and %d lines", len(low), len(tall))
	}
	if !strings.Contains(low[0], st.Ink(style.Cloth(0.5), strings.Repeat("■", 10))) {
		t.Errorf("the second dip is not in its blue: %q", low[0])
	}
	for i, l := range tall[:3] {
		in := st.Fill(style.Cloth(0.2), 5)
		if i == 1 { // the row of its words
			in = st.Ink(style.Cloth(0.2), strings.Repeat("▣", 5))
		}
		if !strings.Contains(l, st.Fill(style.Cloth(1), 5)) || !strings.Contains(l, in) {
			t.Errorf("a row of the cloth is %q", l)
		}
	}
	if ansi.Strip(tall[3]) != "" {
		t.Errorf("there is no air under the lane: %q", tall[3])
	}
}

// A rest is blank columns with its name once; two dips never run into one.
func TestStillsAndNeighbours(t *testing.T) {
	st := style.New(style.Options{})
	d := twoHours()
	d.Lanes[0].Airs = []widget.Period{{From: after(10), To: after(40)}}
	d.Rests = []widget.Period{{From: after(14), To: after(34), Name: "rest"}}
	d.Lanes[1].Dips = append(d.Lanes[1].Dips, widget.LaneDip{From: after(70), To: after(80), Cloth: style.Cloth(0.1)})
	lines := widget.DrawLanes(d, 71, 4, st)
	if len(lines) != 4 || strings.Count(strings.Join(lines, ""), "rest") != 1 || !strings.Contains(lines[0], "rest") {
		t.Fatalf("the rest is not named once, over the lanes: %q", lines)
	}
	if got := string(cells(t, lines[1])[7:17]); strings.TrimSpace(got) != "" {
		t.Errorf("the rest is not blank: %q", got)
	}
	if row := cells(t, lines[2]); row[34] != ' ' || row[33] == ' ' || row[35] == ' ' {
		t.Errorf("the two dips are one: %q", string(row))
	}
}

// At any size nothing is wider or higher than the room, and what has none is left out in order.
func TestLanesFit(t *testing.T) {
	d := twoHours()
	d.Lanes[0].What, d.Lanes[1].What = "a tablecloth with a very long name", "scarf"
	d.Lanes[0].Far, d.Lanes[1].Far = "1 of 3", "0 of 1"
	for _, st := range []style.Style{style.New(style.Options{}), style.New(style.Options{ASCII: true}), style.New(style.Options{Profile: style.TrueColour})} {
		for width := 1; width < 160; width += 3 {
			for height := 1; height < 14; height++ {
				lines := widget.DrawLanes(d, width, height, st)
				if len(lines) > height {
					t.Fatalf("%dx%d: %d lines", width, height, len(lines))
				}
				for _, l := range lines {
					if w := ansi.StringWidth(l); width >= 24 && w > width {
						t.Fatalf("%dx%d: a line of %d: %q", width, height, w, l)
					}
				}
			}
		}
	}
	if l := widget.DrawLanes(d, 50, 4, style.New(style.Options{})); strings.Contains(l[0], "tablecloth") || strings.Contains(l[0], "of 3") {
		t.Errorf("names take the times' room: %q", l[0])
	}
	if l := widget.DrawLanes(d, 90, 4, style.New(style.Options{})); !strings.Contains(l[0], "tablecloth") || !strings.Contains(l[0], "1 of 3") {
		t.Errorf("names are left out: %q", l[0])
	}
}
