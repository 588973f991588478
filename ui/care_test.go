package ui

import (
	"context"
	"fmt"
	"strings"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"example.org/vatside/model/day"
	"example.org/vatside/recipes"
	"example.org/vatside/ui/cue"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/library"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/shelf"
)

// manyVats is a home of so many closed days of a hundred events at so many vats.
func manyVats(t testing.TB, vats, days, events int) shelf.Home {
	t.Helper()
	home := shelf.Open(t.TempDir())
	soda, _ := recipes.Find("soda")
	temp := 35.0
	for v := range vats {
		for d := range days {
			at := time.Date(2019, 1, 1, 9, 0, 0, 0, time.UTC).AddDate(0, 0, 3*d)
			w, err := home.NewDay(day.Head{Vat: fmt.Sprintf("vat-%d", v), Day: at.Format(time.DateOnly), Zone: "UTC", Recipe: soda,
				Opening: day.Opening{Number: d + 2, Built: true}, Setup: day.Setup{Fill: 60, Place: day.Outdoors}})
			if err != nil {
				t.Fatal(err)
			}
			for i := range events {
				var b day.Body = day.Note{Text: "clear yellow-green"}
				switch {
				case i == 0:
					b = day.Opened{How: "tend"}
				case i == events-1:
					b = day.Closed{}
				case i%3 == 0:
					b = day.StripTest{Stayed: 40e9}
				case i%3 == 1:
					temp = 70 - temp
					b = day.PowderAdded{Powder: "reducer", Material: "sodium dithionite", Mass: 3}
				}
				if err := w.Append(day.Event{Seq: i + 1, At: at.Add(time.Duration(i) * time.Minute), Body: b}); err != nil {
					t.Fatal(err)
				}
			}
			if err := w.Close(); err != nil {
				t.Fatal(err)
			}
		}
	}
	return home
}

func effectsOf(t testing.TB, home shelf.Home) effects {
	t.Helper()
	ctx, stop := context.WithCancel(context.Background())
	eng := engine.New(ahead{}, "", &cue.Recorder{})
	eng.Advise(quickly)
	ended := make(chan struct{})
	go func() { eng.Run(ctx); close(ended) }()
	player := cue.New(cue.Settings{}, home, nil)
	t.Cleanup(func() { stop(); <-ended; player.Close() })
	return effects{ctx: ctx, eng: eng, home: home, player: player, cares: &library.Cares{}, looks: &looks{}, asks: &cautions{}}
}

// What vats want comes after the list of them, stays while the list is read again, and puts the overdue one first; c opens the
// care of the chosen one with its whole history, which goes by the day as it stands.
func TestCareOfHome(t *testing.T) {
	home := manyVats(t, 2, 14, 12)
	h := effectsOf(t, home)
	msg := h.load(true)().(homeMsg)
	if len(msg.vats) != 2 || msg.vats[0].Care != nil {
		t.Fatalf("the list waits for what they want: %+v", msg.vats)
	}
	care := h.care(msg.vats)().(careMsg)
	if len(care["vat-0"]) == 0 || care["vat-0"][0].Coming {
		t.Fatalf("nothing was done for months, and it wants %+v", care["vat-0"])
	}
	m := newModel(Options{Home: home}, shelf.Defaults(), h)
	m.snap.Wall = time.Date(2020, 1, 1, 9, 0, 0, 0, time.UTC)
	next, cmd := m.Update(msg)
	if cmd == nil {
		t.Fatal("what they want is not read")
	}
	next, _ = next.Update(care)
	if view := next.View(); !strings.Contains(view, "due now: revive it") {
		t.Errorf("home says nothing of it:\n%s", view)
	}
	next, _ = next.Update(msg)
	if next.(model).home.Vats[1].Care == nil {
		t.Error("while the list is read again it is forgotten")
	}
	next, cmd = next.Update(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune("j")})
	m = next.(model)
	if top := m.stack[len(m.stack)-1]; top.at != screen.AtCare || top.day != "vat-0/2019-02-09" {
		t.Fatalf("j leads to %+v", top)
	}
	if view := m.View(); !strings.Contains(view, "being read") {
		t.Errorf("before its book is read:\n%s", view)
	}
	past := h.past("vat-0")().(pastMsg)
	if past.err != nil || len(past.days) != 14 || cmd == nil {
		t.Fatalf("%d days, %v", len(past.days), past.err)
	}
	next, _ = next.Update(past)
	if view := next.View(); !strings.Contains(view, "Nothing was done to it since 9 Feb") {
		t.Errorf("%s", view)
	}
	m = next.(model)
	if len(m.history("vat-1/2019-02-09")) != 0 {
		t.Error("another vat has its history")
	}
	// A day that is open stands in its history as it is.
	state := past.days[13].State
	state.Closed = false
	m.snap.Days = []engine.View{{ID: "vat-0/2019-02-09", State: state}}
	if got := m.history("vat-0/2019-02-09"); len(got) != 14 || got[13].State.Closed || !m.past.days[13].State.Closed {
		t.Error("the open day is not as it stands")
	}
}

// What a vat wants is read again when something happened to it, and only then.
func TestCareIsKept(t *testing.T) {
	home := manyVats(t, 1, 3, 4)
	h := effectsOf(t, home)
	before := h.cares.Of(h.home, "vat-0")
	if len(before) == 0 {
		t.Fatal("nothing is wanted")
	}
	if got := h.cares.Of(h.home, "vat-0"); len(got) != len(before) || &got[0] != &before[0] {
		t.Error("as before, and read again")
	}
	soda, _ := recipes.Find("soda")
	w, err := home.NewDay(day.Head{Vat: "vat-0", Day: "2019-02-01", Zone: "UTC", Recipe: soda, Opening: day.Opening{Number: 9, Built: true}, Setup: day.Setup{Fill: 60}})
	if err != nil {
		t.Fatal(err)
	}
	if err := w.Append(day.Event{Seq: 1, At: time.Date(2019, 2, 1, 9, 0, 0, 0, time.UTC), Body: day.VatEnded{}}); err != nil {
		t.Fatal(err)
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	if got := h.cares.Of(h.home, "vat-0"); len(got) != 0 {
		t.Errorf("it has ended on a new day, and wants %v", got)
	}
	if got := h.cares.Of(h.home, "none"); got != nil {
		t.Errorf("no vat, and it wants %v", got)
	}
}

// Each round opens the home as a program does that finds the index of the one before it.
func BenchmarkHome(b *testing.B) {
	home := manyVats(b, 20, 50, 100)
	soon := func() time.Time { return time.Now().Add(time.Hour) } // the files are still by then
	index := b.TempDir()
	h := effectsOf(b, home)
	opened := func() { h.home, h.cares = shelf.At(home.Dir(), soon).Indexed(index), &library.Cares{} }
	opened()
	vats := h.load(true)().(homeMsg).vats
	h.care(vats)()
	b.Run("list", func(b *testing.B) {
		for b.Loop() {
			opened()
			h.load(true)()
		}
	})
	b.Run("care", func(b *testing.B) {
		for b.Loop() {
			opened()
			h.care(vats)()
		}
	})
	b.Run("care again", func(b *testing.B) {
		for b.Loop() {
			h.care(vats)()
		}
	})
	h.past("vat-3")()
	b.Run("past", func(b *testing.B) {
		for b.Loop() {
			opened()
			h.past("vat-3")()
		}
	})
}
