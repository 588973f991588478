package ui

import (
	"errors"
	"slices"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"

	"example.org/vatside/model/day"
	"example.org/vatside/model/outlook"
	"example.org/vatside/recipes"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/guard"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/shelf"
	"example.org/vatside/ui/widget"
)

// unanswering is a disk that does not answer while the test runs, beside a place that takes all.
type unanswering struct {
	kept chan []day.Event
	let  chan struct{}
}

func (u unanswering) Append(day.Event) error { <-u.let; return nil }
func (unanswering) Close() error             { return nil }
func (unanswering) Away() shelf.Away         { return shelf.Away{} }
func (unanswering) Return() error            { return nil }
func (u unanswering) Keep(events []day.Event) (shelf.Away, error) {
	u.kept <- events
	return shelf.Away{File: "elsewhere.toml", Events: len(events)}, nil
}

// onThatDisk is the root with a day open on such a disk, and its opening not saved.
func onThatDisk(t *testing.T) (model, effects, unanswering) {
	t.Helper()
	home := shelf.Open(t.TempDir())
	h := effectsOf(t, home)
	soda, _ := recipes.Find("soda")
	disk := unanswering{make(chan []day.Event, 1), make(chan struct{})}
	t.Cleanup(func() { close(disk.let) })
	head := day.Head{Vat: "bin", Day: "2026-11-25", Zone: "UTC", Recipe: soda, Opening: day.Opening{Number: 2, Built: true},
		Setup: day.Setup{Fill: 60, Place: day.Outdoors}}
	if _, err := h.eng.Open(h.ctx, engine.Opening{ID: "bin/2026-11-25", Head: head, Writer: disk}); err != nil {
		t.Fatal(err)
	}
	m := newModel(Options{Home: home}, shelf.Defaults(), h)
	return seen(t, m, h), h, disk
}

// seen is the root with the newest snapshot.
func seen(t *testing.T, m model, h effects) model {
	t.Helper()
	snap, err := h.eng.Now(h.ctx)
	if err != nil {
		t.Fatal(err)
	}
	next, _ := m.Update(snapshotMsg(snap))
	return next.(model)
}

func press(m model, r rune) (model, tea.Cmd) {
	next, cmd := m.Update(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{r}})
	return next.(model), cmd
}

// quits tells whether a command, or one in its sequence, ends the program.
func quits(cmd tea.Cmd) bool {
	if cmd == nil {
		return false
	}
	switch msg := guardedCmd(cmd)().(type) {
	case tea.QuitMsg:
		return true
	default:
		for _, c := range commandsIn(msg) {
			if quits(c) {
				return true
			}
		}
	}
	return false
}

func TestLeavingWaitsForTheDisk(t *testing.T) {
	m, h, disk := onThatDisk(t)
	m, cmd := press(m, 'q')
	if quits(cmd) {
		t.Fatal("q throws an act away that is not on disk")
	}
	view := strings.Join(strings.Fields(m.View()), " ")
	for _, part := range []string{"Not yet on disk", "bin: 1 act not yet on disk", "day opened on a living vat", "k tries another place: ", "keep it elsewhere", "leave without it", "esc back"} {
		if !strings.Contains(view, part) {
			t.Errorf("leaving does not say %q:\n%s", part, m.View())
		}
	}
	if m, _ := press(m, 'x'); m.leaving != saving {
		t.Error("any key ends the waiting")
	}
	m, cmd = press(m, 'k')
	if r, ok := cmd().(repliedMsg); !ok || r.err != nil {
		t.Fatalf("keeping: %+v", r)
	}
	if got := <-disk.kept; len(got) != 1 {
		t.Errorf("%d acts are kept elsewhere", len(got))
	}
	for m.unsaved() > 0 {
		m = seen(t, m, h)
	}
	snap, err := h.eng.Now(h.ctx)
	if err != nil {
		t.Fatal(err)
	}
	if _, cmd := m.Update(snapshotMsg(snap)); !quits(cmd) {
		t.Error("all is on disk, and it does not leave by itself")
	}
}

// Trouble with the disk stands beside the answer to a key.
func TestTroubleStandsBesideAnAnswer(t *testing.T) {
	m, _, _ := onThatDisk(t)
	m.snap.Days = slices.Clone(m.snap.Days)
	m.snap.Days[0].Trouble = "1 act kept in /state: the disk is full; make room"
	m = m.push(screen.AtDay, "bin/2026-11-25", "")
	m.word = "first read the thermometer"
	if view := strings.Join(strings.Fields(inWords(m)), " "); !strings.Contains(view, "first read the thermometer; 1 act kept in /state: the disk is full; make room") {
		t.Errorf("it shows\n%s", m.View())
	}
}

func TestLeavingWithoutIsAChoice(t *testing.T) {
	m, _, disk := onThatDisk(t)
	m, _ = press(m, 'q')
	if _, cmd := press(m, 'l'); !quits(cmd) {
		t.Error("l does not leave")
	}
	if len(disk.kept) > 0 {
		t.Error("it was kept all the same")
	}
	m, _ = press(m, 'q')
	if next, _ := m.Update(tea.KeyMsg{Type: tea.KeyEsc}); next.(model).leaving != staying {
		t.Error("esc does not lead back")
	}
}

// An act that was pressed and not answered yet is waited for: its command may not have reached the engine.
func TestLeavingWaitsForAnActUnderWay(t *testing.T) {
	home := shelf.Open(t.TempDir())
	m := newModel(Options{Home: home}, shelf.Defaults(), effectsOf(t, home))
	m, _ = m.want(screen.Do{Command: day.Done{}})
	next, cmd := m.quit()
	if m = next; quits(cmd) || m.leaving != saving {
		t.Fatal("an act under way is left behind")
	}
	answered, _ := m.Update(repliedMsg{acted: true, err: errors.New("refused")})
	if _, cmd := answered.Update(snapshotMsg{}); !quits(cmd) {
		t.Error("answered, and it does not leave")
	}
}

// failing is a screen that fails at a key, or as it is drawn.
type failing struct{ view bool }

func (f failing) Update(screen.Key, screen.Env) (screen.Screen, []screen.Request) {
	var none []int
	return f, []screen.Request{screen.Say{Word: string(rune(none[1]))}}
}
func (f failing) View(screen.Env) widget.Sheet {
	if f.view {
		panic("the bride's linen")
	}
	return widget.Sheet{Act: "Fail"}
}
func (failing) Keys(screen.Env) []widget.Key { return nil }
func TestAScreenThatFailsIsClosed(t *testing.T) {
	defer guard.Forget()
	for _, view := range []bool{false, true} {
		home := shelf.Open(t.TempDir())
		g := guarded{newModel(Options{Home: home}, shelf.Defaults(), effectsOf(t, home))}
		g.stack = append(g.stack, place{at: screen.AtCare, shows: failing{view}})
		out := g.View()
		next, cmd := g.Update(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{'x'}})
		g = next.(guarded)
		if !view {
			out = g.View()
		}
		if len(g.stack) != 1 || quits(cmd) || !strings.Contains(out, "this screen had") || strings.Contains(out, "bride") {
			t.Errorf("a screen fails (as it is drawn: %t): %d on the stack, %s", view, len(g.stack), out)
		}
		// Of home nothing is left to go on with: the program ends in order.
		g.stack[0].shows = failing{}
		if _, cmd = g.Update(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{'x'}}); !quits(cmd) {
			t.Error("home fails, and the program goes on")
		}
		if _, ok := guard.Why(); !ok {
			t.Error("nobody knows why it ends")
		}
		guard.Forget()
	}
}

func TestTheDaysScreenGoesOnWithoutForecasts(t *testing.T) {
	defer guard.Forget()
	m, _, _ := onThatDisk(t)
	m.snap.Days = slices.Clone(m.snap.Days)
	m.snap.Days[0].Outlook = &outlook.Outlook{}
	m.stack = append(m.stack, place{at: screen.AtDay, day: "bin/2026-11-25", shows: blind{}})
	g := guarded{m}
	if out := strings.Join(strings.Fields(g.View()), " "); !strings.Contains(out, "Lift A1 out") || !strings.Contains(out, "the day goes on") {
		t.Errorf("where its forecasts fail the day's screen shows\n%s", out)
	}
	next, cmd := g.Update(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{'~'}})
	if g = next.(guarded); quits(cmd) || !g.noAdvice {
		t.Error("it does not go on without them")
	}
	if _, ends := guard.Why(); ends {
		t.Error("a forecast ends the program")
	}
}

// blind is a day's own screen that fails where there are forecasts.
type blind struct{ failing }

func (blind) Update(screen.Key, screen.Env) (screen.Screen, []screen.Request) { return blind{}, nil }
func (blind) View(env screen.Env) widget.Sheet {
	if v, _ := env.Day(); v.Outlook != nil {
		panic("a slip in a forecast")
	}
	return widget.Sheet{How: []string{"Lift A1 out"}}
}

func TestACommandThatFailsIsTold(t *testing.T) {
	fails := func() tea.Msg { panic("x") }
	for _, cmd := range []tea.Cmd{fails, tea.Batch(fails, fails), tea.Sequence(fails, fails)} {
		told := 0
		var look func(tea.Cmd)
		look = func(c tea.Cmd) {
			msg := c()
			if r, ok := msg.(repliedMsg); ok && r.err != nil {
				told++
			}
			for _, c := range commandsIn(msg) {
				look(c)
			}
		}
		look(guardedCmd(cmd))
		if told == 0 {
			t.Error("a command fails and nobody is told")
		}
	}
	if r := acted(fails)().(repliedMsg); !r.acted || r.err == nil {
		t.Errorf("an act fails: %+v", r)
	}
}

// In the narrowest window every answer stands on the screen.
func TestLeavingInANarrowWindow(t *testing.T) {
	m, _, _ := onThatDisk(t)
	m, _ = press(m, 'q')
	next, _ := m.Update(tea.WindowSizeMsg{Width: 60, Height: 20})
	for _, part := range []string{"Not yet on disk", "1 act", "k keep it elsewhere", "l leave without it", "esc back"} {
		if !strings.Contains(next.View(), part) {
			t.Errorf("no %q:\n%s", part, next.View())
		}
	}
}

// What becomes of the times that run is said as it is: of a rehearsal in a folder that goes, nothing stays; with a home that was named it goes on.
func TestLeavingARehearsalPromisesNoMore(t *testing.T) {
	thrown, err := shelf.Throwaway(nil)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = thrown.Discard() })
	kept := shelf.Open(t.TempDir())
	for _, c := range []struct {
		of   effects
		says string
	}{
		{effects{home: kept}, "told when the program opens again"},
		{effects{home: thrown, rehearsal: &Rehearsal{}}, "nothing of it stays"},
		{effects{home: kept, rehearsal: &Rehearsal{}}, "it goes on from here"},
	} {
		if got := (model{effects: c.of}).after(); !strings.Contains(got, c.says) {
			t.Errorf("it says %q, not that %q", got, c.says)
		}
	}
}
