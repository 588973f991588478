package timetable_test

import (
	"strings"
	"testing"

	"example.org/vatside/model/day"
	"example.org/vatside/ui/screen/timetable"
	"example.org/vatside/ui/screentest"
)

// The ways stand side by side: as it is ends as the timetable does, one more person gains what the act says, each has what
// it costs, and what gains nothing says so.
func TestWhatIf(t *testing.T) {
	y := open(t, false).pieces(12, 0).goes(5)
	fresh := timetable.New(y.env(80, 24)) // it keeps what it reckoned of other ways, which no window changes
	for _, size := range screentest.Sizes {
		e := y.env(size[0], size[1])
		scr, _ := screentest.Press(fresh, e, "3")
		text := screentest.Shown(t, scr, e)
		for range 5 {
			scr, _ = screentest.Press(scr, e, "down")
			text += screentest.Shown(t, scr, e)
		}
		for _, want := range []string{
			"As it is", "all done " + day.Clock(y.tab.At(y.tab.Plan.Finish())), "One more person", "a second pair of hands at the vat",
			"A second vat like it", "A vat half as large again", "90 L in one vessel", "Dips three quarters as long", "every dip gives less blue", "no sooner",
		} {
			if !strings.Contains(text, want) {
				t.Errorf("%v: %q is missing:\n%s", size, want, text)
			}
		}
		sheet := scr.View(e)
		if gain := sheet.Act; sheet.How[0] != "One more person." || !strings.HasSuffix(gain, " sooner") || strings.Count(text, gain) < 2 {
			t.Errorf("%v: the best is %q, %q", size, gain, sheet.How)
		}
	}
}

// Where the vat tires, feeding and fewer dips are among the ways, and each says what it does for the weak dips.
func TestWhatIfTheVatTires(t *testing.T) {
	y := open(t, false).pieces(6, 0)
	var takes = y.tab.Pieces[0].Takes
	for i := range y.tab.Pieces {
		y.tab.Pieces[i].Takes, y.tab.Pieces[i].Least = takes, takes
	}
	y.tab.Limits.Indigo.Holds, y.tab.Limits.Indigo.Floor = takes*8, 0
	fresh := timetable.New(y.env(80, 24)) // it keeps what it reckoned of other ways, which no window changes
	for _, size := range screentest.Sizes {
		e := y.env(size[0], size[1])
		scr, _ := screentest.Press(fresh, e, "3")
		text := screentest.Shown(t, scr, e)
		for range 8 {
			scr, _ = screentest.Press(scr, e, "down")
			text += screentest.Shown(t, scr, e)
		}
		for _, want := range []string{"in a weak vat", "no dip in a weak vat", "Feed ", "fewer, of ", "later"} {
			if !strings.Contains(text, want) {
				t.Errorf("%v: %q is missing:\n%s", size, want, text)
			}
		}
	}
}

// With one piece and one pair of hands nothing is gained by another.
func TestNothingMakesItSooner(t *testing.T) {
	y := open(t, false).pieces(1, 0)
	for i := range y.tab.Pieces {
		y.tab.Pieces[i].Dips = 1
	}
	y.tab.Plan.Rows = y.tab.Plan.Rows[:1]
	y.tab.Pieces[0].Dip = 60e9
	e := y.env(80, 24)
	scr, _ := screentest.Press(timetable.New(e), e, "3")
	if act := scr.View(e).Act; act != "Nothing makes it sooner" {
		t.Errorf("it says %q", act)
	}
}
