package piece

import (
	"slices"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
	"example.org/vatside/recipes"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/screentest"
	"example.org/vatside/ui/style"
)

var noon = time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC)

func env(t *testing.T, w, h int) screen.Env {
	t.Helper()
	soda, _ := recipes.Find("soda")
	head := day.Head{Vat: "bin", Day: "2026-11-25", Zone: "UTC", Recipe: soda, Setup: day.Setup{Name: "garden bin", Fill: 60}, Opening: day.Opening{Built: true}}
	state, errs := day.Replay(head, []day.Event{
		{Seq: 1, At: noon, Body: day.Opened{How: "tend"}},
		{Seq: 2, At: noon, Body: day.PieceAdded{OfPiece: day.OfPiece{Tag: "A1"}, PieceSpec: day.PieceSpec{Fibre: "linen", Dry: 420, Depth: "dark"}}},
	})
	if len(errs) > 0 {
		t.Fatal(errs)
	}
	return screen.Env{
		Now: noon, Width: w, Height: h, Style: style.New(style.Options{}), ID: "bin/2026-11-25",
		Days: engine.Snapshot{Wall: noon, Days: []engine.View{engine.View{ID: "bin/2026-11-25", State: state, Now: noon, Saved: 2}.At(noon)}},
	}
}

func TestEveryQuestionFitsEverySize(t *testing.T) {
	for _, size := range screentest.Sizes {
		e := env(t, size[0], size[1])
		s := New(e)
		for _, step := range []struct {
			word string
			keys []string
		}{
			{"Enter: A2", []string{"enter"}},
			{"WHAT IS A2?", []string{"h", "e", "m", "enter"}},
			{"cotton", []string{"enter"}},
			{"WEIGH A2 DRY", []string{"2", "5", "0", "enter"}},
			{"common practice", []string{"8"}},
			{"HOW MANY DIPS?", []string{"enter"}},
			{"bound", nil},
		} {
			if text := screentest.Shown(t, s, e); !strings.Contains(text, step.word) {
				t.Errorf("%v: %q is missing:\n%s", size, step.word, text)
			}
			s, _ = screentest.Press(s, e, step.keys...)
		}
	}
}

func TestAPieceGoesOnTheList(t *testing.T) {
	e := env(t, 80, 24)
	for _, c := range []struct {
		keys []string
		want day.AddPiece
	}{
		{[]string{"space", "space", "space", "3", "8", "0", "enter", "enter", "space"}, day.AddPiece{Tag: "A2", Spec: day.PieceSpec{Fibre: "cotton", Dry: 380, Depth: "mid", Form: "cloth"}}},
		{[]string{"B", "1", "enter", "h", "e", "m", "enter", "2", "1", "k", "g", "enter", "6", "4"}, day.AddPiece{Tag: "B1", Spec: day.PieceSpec{What: "hem", Fibre: "linen", Dry: 1000, Depth: "navy", Form: "bound"}}},
		{[]string{"enter", "enter", "enter", "9", "0", "enter", "9", "r", "u", "n", "g", " ", "3", "enter", "1"}, day.AddPiece{Tag: "A2", Spec: day.PieceSpec{Fibre: "cotton", Dry: 90, Rung: 3, Form: "cloth"}}},
		{[]string{"enter", "enter", "enter", "9", "0", "enter", "9", "l", "a", "b", " ", "3", "1", " ", "-", "3", " ", "-", "2", "0", "enter", "1"}, day.AddPiece{Tag: "A2", Spec: day.PieceSpec{Fibre: "cotton", Dry: 90, Lab: [3]float64{31, -3, -20}, Form: "cloth"}}},
		{[]string{"с", "е", "р", "в", "е", "т", "к", "а", "enter", "enter", "enter", "9", "0", "enter", "8", "7", "enter", "1"}, day.AddPiece{Tag: "серветка", Spec: day.PieceSpec{Fibre: "cotton", Dry: 90, Dips: 7, Form: "cloth"}}},
		{[]string{"enter", "enter", "enter", "9", "0", "enter", "8", "7", "enter", "2"}, day.AddPiece{Tag: "A2", Spec: day.PieceSpec{Fibre: "cotton", Dry: 90, Dips: 7, Form: "skein"}}},
	} {
		_, r := screentest.Press(New(e), e, c.keys...)
		if len(r) != 2 || r[0] != (screen.Do{Command: c.want}) || r[1] != (screen.Leave{}) {
			t.Errorf("%v asks for %v, want %v", c.keys, r, c.want)
		}
	}
}

// A piece is typed whole, in one line, and the next one is asked for.
func TestAPieceInOneLine(t *testing.T) {
	e := env(t, 80, 24)
	s, r := screentest.Press(New(e), e, append(strings.Split("B7 linen 420 g dark", ""), "enter")...)
	want := day.AddPiece{Tag: "B7", Spec: day.PieceSpec{Fibre: "linen", Dry: 420, Depth: "dark"}}
	if len(r) != 1 || r[0] != (screen.Do{Command: want}) {
		t.Errorf("it asks for %v, want %v", r, want)
	}
	if text := screentest.Shown(t, s, e); !strings.Contains(text, "TAG IT") {
		t.Errorf("then it shows\n%s", text)
	}
	s, r = screentest.Press(New(e), e, append(strings.Split("B7 linnen 420 g dark", ""), "enter")...)
	if text := screentest.Shown(t, s, e); len(r) != 0 || !strings.Contains(text, "linnen") {
		t.Errorf("a fibre that nobody knows: %v\n%s", r, text)
	}
}

// Where a piece is somebody's the form asks whose the next one is, and when they are there.
func TestWhoseAPieceIs(t *testing.T) {
	for _, size := range screentest.Sizes {
		e := env(t, size[0], size[1])
		if text := screentest.Shown(t, mustPress(New(e), e, "enter", "enter"), e); strings.Contains(text, "WHOSE") {
			t.Errorf("nobody's pieces:\n%s", text)
		}
		e.Days.Days[0].State.Pieces[0].Spec.Who = "Jon"
		s := mustPress(New(e), e, "enter", "enter")
		if text := screentest.Shown(t, s, e); !strings.Contains(text, "WHOSE IS A2?") {
			t.Errorf("%v: not asked:\n%s", size, text)
		}
		typed := func(text string) screen.Screen {
			return mustPress(s, e, append(strings.Split(strings.ReplaceAll(text, " ", "\x00"), ""), "enter")...)
		}
		if text := screentest.Shown(t, typed("Ida from 10:70"), e); !strings.Contains(text, "no time of day") {
			t.Errorf("%v:\n%s", size, text)
		}
		_, r := screentest.Press(typed("Ida from 10:30 till 15:00 demo"), e, "enter", "9", "0", "enter", "8", "2", "enter", "1")
		want := day.AddPiece{Tag: "A2", Spec: day.PieceSpec{Fibre: "cotton", Dry: 90, Dips: 2, Form: "cloth", Who: "Ida", From: "10:30", Till: "15:00", Demo: true}}
		if len(r) != 2 || r[0] != (screen.Do{Command: want}) {
			t.Errorf("%v: it asks for %+v", size, r)
		}
	}
}

// mustPress is a screen after keys; "\x00" is the space bar.
func mustPress(s screen.Screen, e screen.Env, keys ...string) screen.Screen {
	for i, k := range keys {
		if k == "\x00" {
			keys[i] = "space"
		}
	}
	s, _ = screentest.Press(s, e, keys...)
	return s
}

// While a piece is typed whole its first word is its tag, on the line and in the head; the rest of the line is no part of it.
func TestALineIsNoTag(t *testing.T) {
	e := env(t, 80, 24)
	s := New(e)
	for _, r := range "B7 linen 4" {
		s, _ = s.Update(screen.Key{Rune: r}, e)
		if sheet := s.View(e); r != 'B' && (sheet.Stage.Cloths[0].Tag != "B7" || !strings.HasSuffix(sheet.Head.Left, "add B7")) {
			t.Fatalf("%q hangs, %q is the head", sheet.Stage.Cloths[0].Tag, sheet.Head.Left)
		}
	}
}

func TestWhatWillNotDoIsSaidUnderTheEntry(t *testing.T) {
	e := env(t, 80, 24)
	for _, c := range []struct {
		keys []string
		want string
	}{
		{[]string{"A", "1", "enter"}, "A1 is on the list already"},
		{[]string{"enter", "enter", "enter", "enter"}, "weigh it dry"},
		{[]string{"enter", "enter", "enter", "3", "L", "enter"}, "weight"},
		{[]string{"enter", "enter", "enter", "9", "enter", "8", "9", "9", "enter"}, "1 to 60"},
		{[]string{"enter", "enter", "8"}, "WEIGH A2 DRY"},
		{[]string{"enter", "enter", "enter", "9", "enter", "9", "enter"}, "type a rung of your ladder or a colour"},
		{[]string{"enter", "enter", "enter", "9", "enter", "9", "r", "u", "n", "g", "enter"}, "a rung is one of 1 to 30"},
	} {
		s, r := screentest.Press(New(e), e, c.keys...)
		if text := screentest.Shown(t, s, e); len(r) != 0 || !strings.Contains(text, c.want) {
			t.Errorf("%v: %v, %q is missing:\n%s", c.keys, r, c.want, text)
		}
	}
	s, _ := screentest.Press(New(e), e, "enter", "enter", "down", "down", "down", "down", "down", "down", "down")
	if text := screentest.Shown(t, s, e); !strings.Contains(text, "CAUTION") {
		t.Errorf("wool in soda without a caution:\n%s", text)
	}
}

// With swatches of the vat the planner's dips stand beside each depth, and are what a piece of that depth gets; for cloth
// that they say nothing of the usual stays.
func TestThePlannerAnswersBesideTheDepth(t *testing.T) {
	for _, size := range screentest.Sizes {
		e := env(t, size[0], size[1])
		v := e.Days.Days[0]
		for i, l := range []string{"lab 72 -5 -13", "lab 62 -5 -18", "lab 55 -5 -20", "lab 50 -4.5 -21"} {
			v.State.Head.Opening.Swatches = append(v.State.Head.Opening.Swatches, day.CarriedSwatch{At: noon.AddDate(0, 0, -1), Tag: "L1", Fibre: "cotton",
				Ladder: true, Dips: i + 1, Dip: quantity.Minutes(5), Sure: true, Temp: 36, PH: 10.8, PerLitre: quantity.GramsPerLitre(0.9), Looks: l})
		}
		o := outlook.Of(v.State, v.Now)
		b := outlook.Blues(v.State, o, v.Now)
		v.Outlook, v.Blue = &o, &b
		e.Days.Days[0] = v
		to := []string{"enter", "enter", "1", "2", "5", "0", "enter"}
		s, _ := screentest.Press(New(e), e, to...)
		want := b.Plan(day.Piece{Tag: "A2", Spec: day.PieceSpec{Fibre: "cotton", Dry: 250, Depth: "mid"}}).Answer
		text := screentest.Shown(t, s, e)
		if !strings.Contains(text, want.Short()) || !strings.Contains(text, "by your own swatches") {
			t.Errorf("%v: %q is missing:\n%s", size, want.Short(), text)
		}
		_, r := screentest.Press(s, e, "4", "1")
		if got := r[0].(screen.Do).Command.(day.AddPiece).Spec; got.Depth != "mid" || got.Dips != want.Likely {
			t.Errorf("it is put on the list as %+v, not with %d dips", got, want.Likely)
		}
		s, _ = screentest.Press(New(e), e, "enter", "enter", "down", "down", "down", "down", "down", "down", "enter", "2", "5", "0", "enter")
		if text := screentest.Shown(t, s, e); !strings.Contains(text, "common practice") {
			t.Errorf("%v: cotton swatches tell of other cloth:\n%s", size, text)
		}
	}
}

func TestBackAndAway(t *testing.T) {
	e := env(t, 80, 24)
	s, _ := screentest.Press(New(e), e, "enter", "enter", "esc")
	if got := s.View(e).Act; got != "WHAT IS A2?" {
		t.Errorf("back leads to %q", got)
	}
	if _, r := screentest.Press(New(e), e, "esc"); len(r) != 1 || r[0] != (screen.Leave{}) {
		t.Errorf("esc asks for %v", r)
	}
}

// The bench is one key away on each page, where letters are text too.
func TestTheBenchIsAKeyAway(t *testing.T) {
	e := env(t, 80, 24)
	to := []screen.Request{screen.Leave{}, screen.Go{To: screen.AtBench, Day: e.ID}}
	for _, keys := range [][]string{{"tab"}, {"enter", "tab"}, {"enter", "enter", "tab"}} {
		if _, r := screentest.Press(New(e), e, keys...); !slices.Equal(r, to) {
			t.Errorf("%v wants %v", keys, r)
		}
	}
	if s, r := screentest.Press(New(e), e, "y"); len(r) != 0 || !strings.Contains(screentest.Shown(t, s, e), "add y") {
		t.Error("y is not a tag any more")
	}
}

// The piece hangs over the vat, undyed until a depth is chosen and then in its blue, and the depths stand in theirs.
func TestThePieceHangsInItsBlue(t *testing.T) {
	e := env(t, 120, 40)
	s, _ := screentest.Press(New(e), e, "enter", "enter", "1", "4", "2", "0", "enter")
	mid, _ := screentest.Press(s, e, "up", "down")
	dark, _ := screentest.Press(s, e, "down")
	before, _ := screentest.Press(s, e, "esc")
	of := func(s screen.Screen) style.Shade { return s.View(e).Stage.Cloths[0].Blue }
	if of(before).Name != "undyed" || of(mid) != of(s) || of(dark).Density < of(mid).Density || of(dark) == of(mid) {
		t.Errorf("undyed %+v, mid %+v, dark %+v", of(before), of(mid), of(dark))
	}
	if c := mid.(piece).choices(e.Days.Days[0], day.AddPiece{}); c[3].Colour == nil || c[4].Colour == nil || *c[3].Colour == *c[4].Colour || c[7].Colour != nil {
		t.Errorf("the depths have no blues: %+v", c)
	}
}
