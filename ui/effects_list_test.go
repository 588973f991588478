package ui

import (
	"bytes"
	"context"
	"encoding/json"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
	"example.org/vatside/recipes"
	"example.org/vatside/ui/answer"
	"example.org/vatside/ui/command"
	"example.org/vatside/ui/cue"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/shelf"
)

// The pieces of the day before come again, without the dips that they had; the engine refuses what is on the list already.
func TestPiecesAsBefore(t *testing.T) {
	home := shelf.Open(t.TempDir())
	soda, _ := recipes.Find("soda")
	head := day.Head{Vat: "bin", Day: "2026-03-28", Zone: "UTC", Recipe: soda, Opening: day.Opening{Number: 2, Built: true},
		Setup: day.Setup{Fill: 60, Place: day.Outdoors}}
	w, err := home.NewDay(head)
	if err != nil {
		t.Fatal(err)
	}
	at := time.Date(2026, 3, 28, 9, 0, 0, 0, time.UTC)
	for i, b := range []day.Body{
		day.Opened{How: "tend"},
		day.PieceAdded{OfPiece: day.OfPiece{Tag: "A1"}, PieceSpec: day.PieceSpec{Fibre: "linen", Dry: 420, Depth: "dark", Had: 2}},
		day.PieceAdded{OfPiece: day.OfPiece{Tag: "B1"}, PieceSpec: day.PieceSpec{Fibre: "cotton", Dry: 90, Dips: 2}},
		day.PieceDropped{OfPiece: day.OfPiece{Tag: "B1"}},
		day.Finished{OfPiece: day.OfPiece{Tag: "A1"}, Dips: 2},
		day.Closed{},
	} {
		if err := w.Append(day.Event{Seq: i + 1, At: at, Body: b}); err != nil {
			t.Fatal(err)
		}
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(context.Background())
	eng := engine.New(engine.Machine{}, "", &cue.Recorder{})
	eng.Advise(quickly)
	ended := make(chan struct{})
	go func() { eng.Run(ctx); close(ended) }()
	defer func() { stop(); <-ended }()
	head.Day = "2026-03-29"
	next, err := home.NewDay(head)
	if err != nil {
		t.Fatal(err)
	}
	id := "bin/" + next.Head().Day
	if _, err := eng.Open(ctx, engine.Opening{ID: id, Head: next.Head(), Writer: next}); err != nil {
		t.Fatal(err)
	}
	h := effects{ctx: ctx, home: home, eng: eng}
	if msg := h.list(id, "")().(repliedMsg); msg.err != nil || msg.word != "1 more on the list" {
		t.Errorf("%+v", msg)
	}
	snap, err := eng.Now(ctx)
	if err != nil {
		t.Fatal(err)
	}
	v, _ := snap.Day(id)
	if p, ok := v.State.Piece("A1"); !ok || p.Dips != 0 || p.Spec.Depth != "dark" {
		t.Errorf("%+v", p)
	}
	// Wished like a piece of the book, it gets that one's blue.
	add := day.AddPiece{Tag: "C1", Spec: day.PieceSpec{Fibre: "linen", Dry: 100, Dips: 3, Like: "bin/2026-03-28/A1"}}
	if msg := h.do(id, add)().(repliedMsg); msg.err != nil {
		t.Error(msg.err)
	}
	snap, err = eng.Now(ctx)
	if err != nil {
		t.Fatal(err)
	}
	v, _ = snap.Day(id)
	c1, _ := v.State.Piece("C1")
	if lab, ok := c1.Spec.Colour(); !ok || lab.L < 15 || lab.L > 45 { // dark
		t.Errorf("like A1 it is %+v", c1.Spec)
	}
	for _, like := range []string{"bin/2026-03-28/Z9", "nowhere/2026-03-28/A1", "A1"} {
		bad := day.AddPiece{Tag: "D1", Spec: day.PieceSpec{Fibre: "linen", Dry: 100, Dips: 3, Like: like}}
		if msg := h.do(id, bad)().(repliedMsg); msg.err == nil {
			t.Errorf("like %s it is taken", like)
		}
	}
	if msg := h.list(id, "")().(repliedMsg); msg.err == nil || !strings.Contains(msg.err.Error(), "0 of 1 are on the list; A1 is on the list already") {
		t.Errorf("a second time: %+v", msg)
	}
	if msg := (effects{ctx: ctx, home: home, eng: eng}).list("bin/2026-03-28", "")().(repliedMsg); msg.err == nil {
		t.Error("there is a day before the first")
	}
}

// A piece that was judged dry on the next day looks as it did then, for the command and for every way of wishing another like it.
func TestWishedLikeAPieceThatDriedOverNight(t *testing.T) {
	dir := t.TempDir()
	home := shelf.Open(dir)
	soda, _ := recipes.Find("soda")
	write := func(head day.Head, at time.Time, bodies ...day.Body) day.State {
		t.Helper()
		w, err := home.NewDay(head)
		if err != nil {
			t.Fatal(err)
		}
		var events []day.Event
		for i, b := range bodies {
			events = append(events, day.Event{Seq: i + 1, At: at.Add(time.Duration(i) * 10 * time.Minute), Body: b})
			if err := w.Append(events[i]); err != nil {
				t.Fatal(err)
			}
		}
		head = w.Head()
		if err := w.Close(); err != nil {
			t.Fatal(err)
		}
		s, errs := day.Replay(head, events)
		if len(errs) > 0 {
			t.Fatal(errs)
		}
		return s
	}
	head := day.Head{Vat: "bin", Day: "2026-03-28", Zone: "UTC", Recipe: soda, Opening: day.Opening{Number: 2, Built: true}, Setup: day.Setup{Fill: 60, Place: day.Outdoors}}
	at, a1 := time.Date(2026, 3, 28, 9, 0, 0, 0, time.UTC), day.OfPiece{Tag: "A1"}
	first := write(head, at, day.Opened{How: "tend"}, day.PieceAdded{OfPiece: a1, PieceSpec: day.PieceSpec{Fibre: "linen", Dry: 420, Depth: "dark"}}, day.WettedOut{OfPiece: a1},
		day.DipBegun{OfPiece: a1, Dip: 1, For: quantity.Minutes(10)}, day.DipEnded{OfPiece: a1, Dip: 1}, day.AiringEnded{OfPiece: a1, Dip: 1}, day.Finished{OfPiece: a1, Dips: 1}, day.Closed{})
	next := head
	next.Day, next.Opening = "2026-03-29", outlook.Carry(first)
	write(next, at.Add(24*time.Hour), day.Opened{How: "tend"}, day.LookedAt{OfPiece: a1, Looks: "lab 52.34 -5 -20", Rinsed: true}, day.Closed{})
	other := head
	other.Vat, other.Day = "other", "2026-03-30"
	w, err := home.NewDay(other)
	if err != nil {
		t.Fatal(err)
	}
	if err := w.Append(day.Event{Seq: 1, At: at.Add(48 * time.Hour), Body: day.Opened{How: "tend"}}); err != nil {
		t.Fatal(err)
	}

	// The screens: by a form's command and by the line.
	ctx, stop := context.WithCancel(context.Background())
	eng := engine.New(engine.Machine{}, "", &cue.Recorder{})
	eng.Advise(quickly)
	ended := make(chan struct{})
	go func() { eng.Run(ctx); close(ended) }()
	id := "other/" + w.Head().Day
	if _, err := eng.Open(ctx, engine.Opening{ID: id, Head: w.Head(), Events: []day.Event{{Seq: 1, At: at.Add(48 * time.Hour), Body: day.Opened{How: "tend"}}}, Writer: w}); err != nil {
		t.Fatal(err)
	}
	h := effects{ctx: ctx, home: home, eng: eng}
	for i, like := range []string{"bin/2026-03-28/A1", "bin/2026-03-29/A1"} {
		add := day.AddPiece{Tag: []string{"C1", "C2"}[i], Spec: day.PieceSpec{Fibre: "linen", Dry: 100, Like: like}}
		if msg := h.do(id, add)().(repliedMsg); msg.err != nil {
			t.Fatal(msg.err)
		}
	}
	snap, err := eng.Now(ctx)
	if err != nil {
		t.Fatal(err)
	}
	v, _ := snap.Day(id)
	_, _, commands, err := answer.Take(v.State, v.Now, "piece C3 linen 100 g like bin/2026-03-28/A1")
	if err != nil {
		t.Fatal(err)
	}
	if msg := h.say(id, commands, -time.Hour)().(saidMsg); msg.err != nil {
		t.Fatal(msg.err)
	}
	stop()
	<-ended

	// Plain mode and say.
	cli := func(in string, args ...string) string {
		t.Helper()
		var out, errs bytes.Buffer
		if code := command.Main(args, command.World{In: strings.NewReader(in), Out: &out, Err: &errs, Getenv: func(k string) string {
			return map[string]string{"VATSIDE_HOME": dir}[k]
		}}); code != 0 {
			t.Fatalf("%v: %d %s", args, code, errs.String())
		}
		return out.String()
	}
	cli("piece C4 linen 100 g like bin/2026-03-28/A1\nq\n", "--plain")
	cli("", "say", "other", "piece C5 linen 100 g like bin/2026-03-29/A1")

	var told struct{ Pieces []struct{ Lab [3]float64 } }
	if err := json.Unmarshal([]byte(cli("", "like", "--lab", "50,-5,-20", "--vat", "bin", "--json")), &told); err != nil || len(told.Pieces) != 1 {
		t.Fatal(told, err)
	}
	if told.Pieces[0].Lab != [3]float64{52.34, -5, -20} {
		t.Errorf("like says %v", told.Pieces)
	}
	b, err := home.ReadDay("other", w.Head().Day)
	if err != nil {
		t.Fatal(err)
	}
	s, _ := day.Replay(b.Head, b.Events)
	for _, tag := range []string{"C1", "C2", "C3", "C4", "C5"} {
		if p, ok := s.Piece(tag); !ok || p.Spec.Lab != told.Pieces[0].Lab || p.Spec.Dips != 1 {
			t.Errorf("%s: %+v, and like says %v", tag, p.Spec, told.Pieces[0].Lab)
		}
	}
}
