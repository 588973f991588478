package clock_test

import (
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/screen/clock"
	"example.org/vatside/ui/screentest"
	"example.org/vatside/ui/style"
)

// Two lifts that were taken as planned are offered at a pause, and k opens their list; one is confirmed by k at once.
func TestUnconfirmedActsAreOffered(t *testing.T) {
	minutes := func(n int) time.Duration { return time.Duration(n) * time.Minute }
	wet := func(tag string) day.Command { return day.Record{Body: day.WettedOut{OfPiece: day.OfPiece{Tag: tag}}} }
	one := []any{piece("A1", "", 3), piece("B1", "", 3), wet("A1"), wet("B1"), day.Lower{Tag: "A1"}, minutes(9), day.Lift{Tag: "A1", Assumed: true}}
	two := append(one[:len(one):len(one)], day.Lower{Tag: "B1"}, minutes(9), day.Lift{Tag: "B1", Assumed: true})
	s, now := vat(t, one...)
	e := env(s, now, 80, 24, style.New(style.Options{}))
	if _, r := screentest.Press(clock.New(e), e, "k"); len(r) != 1 || r[0] != (screen.Do{Command: day.Confirm{Seq: s.Unsaid()[0].Seq}}) {
		t.Errorf("with one k asks for %+v", r)
	}
	s, now = vat(t, two...)
	e = env(s, now, 80, 24, style.New(style.Options{}))
	if _, r := screentest.Press(clock.New(e), e, "k"); len(r) != 1 || r[0] != (screen.Go{To: screen.AtUnsaid, Day: e.ID}) {
		t.Errorf("with two k asks for %+v", r)
	}
	if how := strings.Join(clock.New(e).View(e).How, " "); !strings.Contains(how, "2 acts unconfirmed, all as planned? k: look at them.") {
		t.Errorf("it says %q", how)
	}
}

// A strip that is watched stands beside a dip, and is the call where nothing is in the vat.
func TestAStripOnTheClock(t *testing.T) {
	pulled := day.Record{Body: day.StripBegun{}}
	s, now := vat(t, piece("A1", "", 3), day.Record{Body: day.WettedOut{OfPiece: day.OfPiece{Tag: "A1"}}}, day.Lower{Tag: "A1"}, time.Minute, pulled, 20*time.Second)
	e := env(s, now, 80, 24, style.New(style.Options{}))
	if sheet := clock.New(e).View(e); sheet.Figure.Number != "6:40" || !strings.Contains(strings.Join(sheet.How, " "), "The strip is yellow, 0:20: t when it turns blue.") {
		t.Errorf("beside a dip it shows %+v, %q", sheet.Figure, sheet.How)
	}
	if _, r := screentest.Press(clock.New(e), e, "t"); len(r) != 1 || r[0] != (screen.Do{Command: day.StripBlue{}}) {
		t.Errorf("t asks for %+v", r)
	}
	s, now = vat(t, pulled, 20*time.Second)
	e = env(s, now, 80, 24, style.New(style.Options{}))
	if sheet := clock.New(e).View(e); sheet.Figure.Number != "0:20" || sheet.Figure.Key != "t" {
		t.Errorf("it shows %+v", sheet.Figure)
	}
}
