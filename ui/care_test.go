package ui

import (
	"context"
	"fmt"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/recipes"
	"example.org/vatside/ui/cue"
	"example.org/vatside/ui/engine"
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
			at := time.Date(2026, 1, 1, 9, 0, 0, 0, time.UTC).AddDate(0, 0, 3*d)
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

func handsOf(t testing.TB, home shelf.Home) hands {
	t.Helper()
	ctx, stop := context.WithCancel(context.Background())
	eng := engine.New(engine.Machine{}, "", &cue.Recorder{})
	ended := make(chan struct{})
	go func() { eng.Run(ctx); close(ended) }()
	player := cue.New(cue.Settings{}, home, nil)
	t.Cleanup(func() { stop(); <-ended; player.Close() })
	return hands{ctx: ctx, eng: eng, home: home, player: player, cares: &cares{}}
}

func BenchmarkHome(b *testing.B) {
	home := manyVats(b, 20, 50, 100)
	h := handsOf(b, home)
	var vats []screen.Vat
	b.Run("list", func(b *testing.B) {
		for b.Loop() {
			vats = h.load(true)().(homeMsg).vats
		}
	})
	b.Run("care", func(b *testing.B) {
		for b.Loop() {
			h.cares = &cares{}
			h.care(vats)()
		}
	})
	b.Run("care again", func(b *testing.B) {
		for b.Loop() {
			h.care(vats)()
		}
	})
	b.Run("past", func(b *testing.B) {
		for b.Loop() {
			h.past("vat-3")()
		}
	})
}
