package logbook

import (
	"slices"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/recipes"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/screentest"
	"example.org/vatside/ui/style"
)

var noon = time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC)

// env is a day with one piece, one dip ended as planned and never confirmed; the last event is not on disk.
func env(t *testing.T, w, h int) screen.Env {
	t.Helper()
	soda, _ := recipes.Find("soda")
	head := day.Head{Vat: "bin", Day: "2026-11-25", Zone: "UTC", Recipe: soda, Setup: day.Setup{Name: "garden bin", Fill: 60}, Opening: day.Opening{Built: true}}
	a1 := day.OfPiece{Tag: "A1"}
	bodies := []day.Body{
		day.Opened{How: "tend"},
		day.PieceAdded{OfPiece: a1, PieceSpec: day.PieceSpec{What: "runner", Fibre: "linen", Dry: 420, Depth: "dark"}},
		day.WettedOut{OfPiece: a1},
		day.DipBegun{OfPiece: a1, Dip: 1, For: quantity.Minutes(8)},
		day.DipEnded{OfPiece: a1, Dip: 1, Air: quantity.Minutes(12), Assumption: day.Assumption{Assumed: true}},
	}
	var log []day.Event
	for i, b := range bodies {
		log = append(log, day.Event{Seq: i + 1, At: noon.Add(time.Duration(i-6) * 8 * time.Minute), Body: b})
	}
	state, errs := day.Replay(head, log)
	if len(errs) > 0 {
		t.Fatal(errs)
	}
	return screen.Env{
		Now: noon, Width: w, Height: h, Style: style.New(style.Options{}), ID: "bin/2026-11-25",
		Days: engine.Snapshot{Wall: noon, Days: []engine.View{engine.View{ID: "bin/2026-11-25", State: state, Now: noon, Saved: 4}.At(noon)}},
	}
}

func TestLogFitsEverySize(t *testing.T) {
	for _, size := range screentest.Sizes {
		e := env(t, size[0], size[1])
		text := screentest.Shown(t, New(e), e)
		for _, word := range []string{"What happened", "not confirmed", "not yet on disk", "A1 out after dip 1", "#5"} {
			if !strings.Contains(text, word) {
				t.Errorf("%v: %q is missing:\n%s", size, word, text)
			}
		}
	}
}

func TestWhatTheLogAsksFor(t *testing.T) {
	e := env(t, 80, 24)
	for _, c := range []struct {
		keys []string
		want screen.Request
	}{
		{[]string{"k"}, screen.Do{Command: day.Confirm{Seq: 5}}},
		{[]string{"U"}, screen.Do{Command: day.Undo{Seq: 5}}},
		{[]string{"up", "up", "U"}, screen.Do{Command: day.Undo{Seq: 3}}},
		{[]string{"up", "tab", "k"}, screen.Do{Command: day.Confirm{Seq: 5}}},
		{[]string{"T", "1", "1", ":", "4", "2", "enter"}, screen.Do{Command: day.Move{Seq: 5, To: time.Date(2026, 11, 25, 11, 42, 0, 0, time.UTC)}}},
		{[]string{"o", "h", "i", "enter"}, screen.Do{Command: day.Record{Body: day.Note{Text: "hi"}}}},
		{[]string{"esc"}, screen.Leave{}},
	} {
		if _, r := screentest.Press(New(e), e, c.keys...); len(r) != 1 || r[0] != c.want {
			t.Errorf("%v asks for %v, want %v", c.keys, r, c.want)
		}
	}
}

func TestMarksFollowCorrections(t *testing.T) {
	d, _ := env(t, 80, 24).Day()
	s := d.State
	at := slices.IndexFunc(s.Log, func(e day.Event) bool { return e.Seq == 5 })
	if !assumed(s, s.Log[at]) {
		t.Fatal("the act is not taken as planned")
	}
	s, _ = day.Apply(s, day.Event{Seq: s.Seq + 1, At: s.At, Body: day.Corrected{Of: 5, Way: "confirmed"}})
	if assumed(s, s.Log[at]) {
		t.Error("a confirmed act still counts as not confirmed")
	}
	s, _ = day.Apply(s, day.Event{Seq: s.Seq + 1, At: s.At, Body: day.Corrected{Of: s.Seq, Way: "undone"}})
	if !assumed(s, s.Log[at]) {
		t.Error("a confirmation that was taken back still counts")
	}
}
