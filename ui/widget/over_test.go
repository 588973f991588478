package widget

import (
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"

	"example.org/vatside/ui/style"
)

// Under a call in large letters a low window has the act's rows for the list; a high one has both.
func TestALowWindowUnderALargeCallHasItsList(t *testing.T) {
	s := Sheet{Head: Head{Left: "crock"}, Act: "LAST LIFT 14:18", ActBig: true, Call: CallRow{Words: "BLUE YET? 0:04"}}
	for _, c := range []struct {
		height int
		large  bool // whether the act keeps its letters under the large call
	}{{24, false}, {40, true}} {
		under := s
		under.Call.Big = "BLUE YET? 0:04"
		st := style.Style{}
		height := c.height - under.Call.Rows(80, c.height, st)
		if got := planFor(under, 80, height, st).actIsBig; got != c.large {
			t.Errorf("in %d rows the act under the call is large: %v", c.height, got)
		}
		if !planFor(s, 80, height, st).actIsBig {
			t.Errorf("in %d rows the act under a call in words is not large", c.height)
		}
	}
	_, words := Room(s, 80, 24, style.Style{})
	s.Call.Big = "BLUE YET? 0:04"
	if _, large := Room(s, 80, 24, style.Style{}); large < words-1 {
		t.Errorf("a list has %d rows under a call in words, %d under a large one", words, large)
	}
}

// The letters of a call over a stage stand on their ground from edge to edge: at its end they would be white on paper.
func TestTheLettersOverAStageHaveTheirGround(t *testing.T) {
	s := vatStage(0)
	s.Call = CallRow{Words: "REST, 0:40 left", Big: "REST 0:40", Tone: Now}
	st := style.New(style.Options{Theme: style.LightTheme, Profile: style.TrueColour, PaintGround: true})
	lines, a := strings.Split(Render(s, 120, 40, st), "\n"), anchorsOf(120, 40, false)
	paper := strings.Split(st.Ground("", 1), " ")[0]
	for y := a.over; y < a.call+a.callRows; y++ {
		if y < a.call && y > a.over {
			continue // the row between
		}
		if strings.HasPrefix(lines[y], paper+" ") {
			t.Errorf("row %d begins on paper: %q", y, lines[y])
		}
	}
}

// What is said beside the yard is whole, or not there.
func TestTheYardSaysNoHalfSentence(t *testing.T) {
	st := style.New(style.Options{})
	hangs := Line{Cloths: vatStage(3).Stage.Cloths, Says: []string{"Powders for another soda vat, 60 L: enough of what is on the list."}, Dues: []Choice{{Text: "LOOK", Aside: "due now"}}, Told: []string{"due now: look at it"}}
	for rows := leastYard; rows < 40; rows++ {
		list := Yard([]Place{{Name: "bin", Vessel: Vessel{Top: 1, Floor: 0.8, Fill: 0.7}}}, hangs, 74, rows, st)
		text := ""
		for _, l := range list.Lines {
			text += " " + strings.TrimSpace(ansi.Cut(l, 49, 80))
		}
		text = strings.Join(strings.Fields(text), " ")
		if len(list.Lines) > rows || strings.Contains(text, "Powders") != strings.Contains(text, hangs.Says[0]) {
			t.Errorf("%d rows: %q", rows, text)
		}
		if rows > 20 && !strings.Contains(text, "due now") {
			t.Errorf("%d rows do not say what is due: %q", rows, text)
		}
	}
}
