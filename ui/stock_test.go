package ui

import (
	"context"
	"os"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"

	"example.org/vatside/model/day"
	"example.org/vatside/model/stock"
	"example.org/vatside/recipes"
	"example.org/vatside/ui/cue"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/library"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/shelf"
)

// An act of the shelf goes to stock.toml and comes back with the home; a refusal is said; a rehearsal keeps no list.
func TestTheShelfIsKept(t *testing.T) {
	home := shelf.Open(t.TempDir())
	soda, _ := recipes.Find("soda")
	w, err := home.NewDay(day.Head{Vat: "bin", Day: "2026-03-28", Zone: "UTC", Recipe: soda, Opening: day.Opening{Number: 2, Built: true},
		Setup: day.Setup{Fill: 60, Place: day.Outdoors, Strength: 0.5}})
	if err != nil {
		t.Fatal(err)
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(context.Background())
	eng := engine.New(engine.Machine{}, "", &cue.Recorder{})
	ended := make(chan struct{})
	go func() { eng.Run(ctx); close(ended) }()
	defer func() { stop(); <-ended }()
	player := cue.New(cue.Settings{}, home, nil)
	defer player.Close()
	h := effects{ctx: ctx, eng: eng, home: home, player: player, cares: &library.Cares{}, looks: &looks{}}

	shelfOf := func() screen.Stock {
		return h.stock(h.load(false)().(homeMsg).vats)
	}
	if s := shelfOf(); len(s.Tins) > 0 || s.Next != nil {
		t.Errorf("an empty shelf: %+v", s)
	}
	add := stock.AddTin{New: stock.NewTin{Material: "soda ash", Holds: 1000}}
	if msg := h.keep(add)().(repliedMsg); msg.err != nil || !msg.reload {
		t.Fatalf("%+v", msg)
	}
	if s := shelfOf(); len(s.Tins) != 1 || s.Next == nil || s.Next.Fill != 60 || s.Next.Options.IndigoStrength != 0.5 || s.Trouble != "" {
		t.Errorf("%+v", s)
	}
	if msg := h.keep(stock.WeighTin{Tin: "T1", Mass: 5000})().(repliedMsg); msg.err == nil || !strings.Contains(msg.err.Error(), "cannot hold") {
		t.Errorf("%+v", msg)
	}
	h.rehearsal = &Rehearsal{}
	if msg := h.keep(add)().(repliedMsg); msg.err == nil {
		t.Error("a rehearsal wrote to the list")
	}
	h.rehearsal = nil

	// P on home opens the shelf, and what it asks for is carried out.
	m := newModel(Options{Home: home}, shelf.Defaults(), h)
	msg := h.load(false)().(homeMsg)
	next, _ := m.Update(msg)
	next, _ = next.Update(h.shelfOfPowders(msg.vats)())
	next, _ = next.Update(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune("P")})
	if top := next.(model).stack; top[len(top)-1].at != screen.AtStock || !strings.Contains(next.View(), "soda ash") {
		t.Fatalf("P leads to %v", top)
	}
	_, cmd := next.(model).want(screen.Keep{Command: stock.OpenTin{Tin: "T1"}})
	if msg := cmd().(repliedMsg); msg.err != nil {
		t.Fatal(msg.err)
	}
	if s := shelfOf(); s.Tins[0].Opened == nil {
		t.Errorf("%+v", s.Tins[0])
	}

	data, _ := os.ReadFile(home.StockFile())
	if err := os.WriteFile(home.StockFile(), append(data, "[[event]]\nseq = 9\n# end 9 00000000\n"...), 0o644); err != nil {
		t.Fatal(err)
	}
	if s := shelfOf(); !strings.Contains(s.Trouble, "stock.toml:") || len(s.Tins) != 1 {
		t.Errorf("%+v", s)
	}
}
