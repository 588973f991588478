package timetable_test

import (
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/ui/screen/timetable"
	"example.org/vatside/ui/screentest"
)

// While the class is talked to the board names no time at which a piece goes in, on the screen and on the page, and nobody is late.
func TestTheBoardWhileTheClassIsTalkedTo(t *testing.T) {
	y := open(t, false).pieces(5, 5).goes(6)
	shown := func() (string, string) {
		e := y.env(120, 40)
		scr, _ := screentest.Press(timetable.New(e), e, "2")
		v, _ := e.Day()
		return screentest.Shown(t, scr, e), timetable.Page(v).Page("").String()
	}
	screen, page := shown()
	if !strings.Contains(page, "<td>in ") || !strings.Contains(page, "<p>Round 1; ") {
		t.Fatalf("before the talk:\n%s\n%s", screen, page)
	}
	if !y.do(day.Record{Body: day.Talking{On: true}}) {
		t.Fatal("no talk")
	}
	y.now = y.now.Add(20 * time.Minute)
	screen, page = shown()
	if strings.Contains(page, "<td>in ") || strings.Count(page, "<td>waits</td>") < 4 || strings.Contains(screen, "late") ||
		!strings.Contains(screen, "Talking: pieces wait") || !strings.Contains(page, "pieces wait") {
		t.Errorf("while it goes on:\n%s\n%s", screen, page)
	}
}
