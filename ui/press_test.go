package ui

import (
	"context"
	"fmt"
	"reflect"
	"strings"
	"sync"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"example.org/vatside/model/day"
	"example.org/vatside/ui/cue"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/shelf"
)

// clocks are a machine's instruments, all of which show how long it has run.
type clocks struct {
	mu  sync.Mutex
	ran time.Duration
}

func (c *clocks) Mono() time.Duration         { c.mu.Lock(); defer c.mu.Unlock(); return c.ran }
func (c *clocks) Wall() time.Time             { return clickedAt.Add(c.Mono()) }
func (c *clocks) Boot() (time.Duration, bool) { return c.Mono(), true }
func (c *clocks) run(d time.Duration)         { c.mu.Lock(); defer c.mu.Unlock(); c.ran += d }

// heard is a terminal that counts bells.
type heard struct {
	mu    sync.Mutex
	bells int
}

func (h *heard) Write(b []byte) (int, error) {
	h.mu.Lock()
	defer h.mu.Unlock()
	h.bells += strings.Count(string(b), "\a")
	return len(b), nil
}

// A press for a call that is gone, or that has just come, or that bounced, does nothing, says why, and sounds.
func TestAPressThatIsNotTakenSaysWhy(t *testing.T) {
	home := shelf.Open(t.TempDir())
	h := effectsOf(t, home)
	h.pressed = true
	in := &clocks{ran: time.Hour}
	ctx, stop := context.WithCancel(context.Background())
	h.eng = engine.New(in, "", cue.Silent{})
	h.eng.Advise(quickly)
	ended := make(chan struct{})
	go func() { h.eng.Run(ctx); close(ended) }()
	t.Cleanup(func() { stop(); <-ended })
	head := happened(t, true).State.Head
	head.Vat, head.Day = "bin", "2026-03-28"
	w, err := home.NewDay(head)
	if err != nil {
		t.Fatal(err)
	}
	id := "bin/" + w.Head().Day
	if _, err := h.eng.Open(ctx, engine.Opening{ID: id, Head: w.Head(), Writer: w}); err != nil {
		t.Fatal(err)
	}
	do := func(c day.Command) {
		t.Helper()
		if _, err := h.eng.Do(ctx, id, c); err != nil {
			t.Fatalf("%#v: %v", c, err)
		}
		in.run(2 * time.Second)
	}
	do(day.Skip{Reason: "warm already"})
	do(day.Judge{Ready: true})
	for _, tag := range []string{"A1", "B1"} {
		do(day.AddPiece{Tag: tag, Spec: day.PieceSpec{Fibre: "linen", Dry: 2000, Dips: 3, Dip: 480e9, Air: 720e9}})
		do(day.Record{Body: day.WettedOut{OfPiece: day.OfPiece{Tag: tag}}})
	}
	call := func() string {
		snap, err := h.eng.Now(ctx)
		if err != nil {
			t.Fatal(err)
		}
		v, _ := snap.Day(id)
		return day.CallOf(v.State, v.Now).ID
	}
	taken := fmt.Sprint(error(nil))
	says := func(seen, want string) {
		t.Helper()
		term := &heard{}
		h.player = cue.New(cue.Settings{Bell: true}, nil, term)
		got := h.do(id, day.Done{Call: seen})().(repliedMsg)
		h.player.Close()
		if word := fmt.Sprint(got.err); word != want {
			t.Errorf("the press for %q says %q, want %q", seen, word, want)
		}
		if term.bells != 1 {
			t.Errorf("the press for %q rings %d times", seen, term.bells)
		}
	}
	skim := call()
	says(skim, taken)
	says(skim, "Not taken. Now A1 in.")
	says(call(), "Not taken: it has just changed. Now A1 in.")
	in.run(650 * time.Millisecond)
	says(call(), "Not taken: it has just changed. Now A1 in.")
	in.run(50 * time.Millisecond)
	says(call(), taken)
	in.run(time.Second)
	says(call(), "not taken: it came too soon after the last one")
}

// A press of a call sounds, whatever comes of it; other keys do not.
func TestTheBigKeySounds(t *testing.T) {
	h := effectsOf(t, shelf.Open(t.TempDir()))
	v := dipping(t)
	for _, c := range []struct {
		at    screen.Place
		keys  []string
		bells int
	}{
		{screen.AtDay, []string{"space"}, 1}, {screen.AtDay, []string{"enter"}, 1}, {screen.AtDay, []string{"pgdown"}, 1},
		{screen.AtDay, []string{"down", "down", "space"}, 1}, {screen.AtBench, []string{"space"}, 1}, {screen.AtDay, []string{"k"}, 0},
		{screen.AtDay, []string{"space", "k"}, 1}, {screen.AtLog, []string{"space"}, 1}, {screen.AtLog, []string{"enter"}, 0}, {screen.AtAid, []string{"space"}, 0},
	} {
		term := &heard{}
		h.player = cue.New(cue.Settings{Bell: true}, nil, term)
		m := scene{at: c.at, view: v}.open(clickable(h, v))
		for _, name := range c.keys {
			k := screen.Key{Name: name}
			if len(name) == 1 {
				k = screen.Key{Rune: rune(name[0])}
			}
			next, cmd := m.key(k)
			m = next
			carryOut(cmd)
		}
		h.player.Close()
		if term.bells != c.bells {
			t.Errorf("%v on %s rings %d times, want %d", c.keys, c.at, term.bells, c.bells)
		}
	}
}

// carryOut runs a command and all that it is made of.
func carryOut(cmd tea.Cmd) {
	if cmd == nil {
		return
	}
	if all := reflect.ValueOf(cmd()); all.Kind() == reflect.Slice {
		for i := range all.Len() {
			if one, is := all.Index(i).Interface().(tea.Cmd); is {
				carryOut(one)
			}
		}
	}
}
