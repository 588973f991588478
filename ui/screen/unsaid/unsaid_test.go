package unsaid_test

import (
	"fmt"
	"reflect"
	"strconv"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/recipes"
	"example.org/vatside/ui/answer"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/rehearse"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/screen/unsaid"
	"example.org/vatside/ui/screentest"
	"example.org/vatside/ui/style"
)

var noon = time.Date(2026, 3, 28, 12, 0, 0, 0, time.UTC)

// planned is a day with so many lifts that were taken as planned, a minute apart from 12:01 on.
func planned(t *testing.T, n, w, h int) screen.Env {
	t.Helper()
	r, _ := recipes.Find("soda")
	head := rehearse.Head(r, noon)
	head.Opening = day.Opening{Number: 2, Built: true}
	s, err := day.Begin(head)
	if err != nil {
		t.Fatal(err)
	}
	now := noon
	put := func(bodies ...day.Body) {
		for _, b := range bodies {
			if s, err = day.Apply(s, day.Event{Seq: len(s.Log) + 1, At: now, Body: b}); err != nil {
				t.Fatal(err)
			}
		}
	}
	put(day.Opened{How: "tend"})
	for i := range n {
		of := day.OfPiece{Tag: fmt.Sprintf("A%d", i+1)}
		put(day.PieceAdded{OfPiece: of, PieceSpec: day.PieceSpec{What: "napkin", Fibre: "linen", Dry: 100, Dips: 2}}, day.DipBegun{OfPiece: of, Dip: 1, For: quantity.Minutes(1)})
		now = now.Add(time.Minute)
		put(day.DipEnded{OfPiece: of, Dip: 1, Air: quantity.Minutes(60), Assumption: day.Assumption{Assumed: true}})
	}
	return screen.Env{
		Now: now, Width: w, Height: h, Style: style.New(style.Options{}), ID: "bin/d",
		Days: engine.Snapshot{Days: []engine.View{engine.View{ID: "bin/d", State: s, Now: now}.At(now)}},
	}
}

// asks presses keys and wants these requests of the last.
func asks(t *testing.T, e screen.Env, keys string, want ...screen.Request) screen.Screen {
	t.Helper()
	s, r := screentest.Press(unsaid.New(e), e, strings.Fields(keys)...)
	if len(r) != len(want) || len(r) > 0 && !reflect.DeepEqual(r, want) {
		t.Errorf("%q asks for %+v, want %+v", keys, r, want)
	}
	return s
}

// Each stands with its time, in every window; where there are many the picked one is in sight.
func TestAllAreShown(t *testing.T) {
	for _, size := range screentest.Sizes {
		e := planned(t, 6, size[0], size[1])
		text := screentest.Shown(t, unsaid.New(e), e)
		for i := range 6 {
			if row := fmt.Sprintf("%d  12:%02d  napkin A%d out after dip 1", i+1, i+1, i+1); !strings.Contains(text, row) {
				t.Errorf("%v: %q is not shown:\n%s", size, row, text)
			}
		}
		if !strings.Contains(text, "6 acts unconfirmed: all as planned?") {
			t.Errorf("%v: nothing is asked:\n%s", size, text)
		}
		many := planned(t, 40, size[0], size[1])
		s := asks(t, many, "up up")
		if text := screentest.Shown(t, s, many); !strings.Contains(text, "A39 out") || !strings.Contains(text, "Was it at 12:39?") {
			t.Errorf("%v: the last but one is not in sight:\n%s", size, text)
		}
	}
}

// One press confirms all; a figure or an arrow picks one that was otherwise.
func TestOnePressConfirmsAll(t *testing.T) {
	e := planned(t, 3, 80, 24)
	last := e.Days.Days[0].State.Unsaid()[2].Seq
	all := []screen.Request{screen.Do{Command: day.ConfirmAll{}}, screen.Leave{}}
	asks(t, e, "enter", all...)
	asks(t, e, "k", all...)
	asks(t, e, "down esc enter", all...)
	asks(t, e, "up down enter", all...) // past the last none is picked
	asks(t, e, "esc", screen.Leave{})
	asks(t, e, "pgup", screen.Do{Command: day.Back{}})
	so := screen.Do{Command: day.Confirm{Seq: last}}
	asks(t, e, "3 k", so)
	asks(t, e, "up enter", so)
	asks(t, e, "9")
	number := strconv.Itoa(last)
	asks(t, e, "3 T", screen.Ask{Row: "move", Of: number, Blank: answer.Blank{Label: "When was #" + number + "?", Unit: "time of day, or 2 min ago"}})
	if s, _ := unsaid.New(e).Update(screen.Key{Name: "row", Row: 1}, e); !strings.Contains(screentest.Shown(t, s, e), "Was it at 12:02?") {
		t.Error("a click picks none")
	}
	none := planned(t, 0, 80, 24)
	asks(t, none, "space", screen.Leave{})
	if text := screentest.Shown(t, unsaid.New(none), none); !strings.Contains(text, "Every act is confirmed") {
		t.Errorf("with nothing it says:\n%s", text)
	}
}
