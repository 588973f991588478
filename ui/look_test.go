package ui

import (
	"fmt"
	"hash/crc32"
	"os"
	"strings"
	"sync"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/ansi"

	"example.org/vatside/model/book"
	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/recipes"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/shelf"
	"example.org/vatside/ui/widget"
)

const garden = "bin/2026-05-09"

// gardenHead is the head of a day of the test's own: what another test left unwritten of a day with the same head, in a home that is
// gone, would be taken for this one's.
func gardenHead(t *testing.T) day.Head {
	t.Helper()
	soda, ok := recipes.Find("soda")
	if !ok {
		t.Fatal("no recipe soda")
	}
	return day.Head{Vat: "bin", Day: "2026-05-09", Zone: "UTC", Recipe: soda, Opening: day.Opening{Number: 2, Built: true},
		Setup: day.Setup{Name: "Bin", Fill: 60, Place: day.Outdoors, Hot: 60 + quantity.Temperature(crc32.ChecksumIEEE([]byte(t.Name()))%1000)/10_000}}
}

// first is the program that writes a day, with the writer that its death would close.
func first(t *testing.T, home shelf.Home) (effects, *shelf.Writer) {
	t.Helper()
	w, err := home.NewDay(gardenHead(t))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = w.Close() })
	h := effectsOf(t, home)
	if msg := h.take(engine.Opening{ID: garden, Head: w.Head(), Writer: w}, ""); msg.err != nil {
		t.Fatal(msg.err)
	}
	return h, w
}

func (h effects) act(t *testing.T, c day.Command) {
	t.Helper()
	if _, err := h.eng.Do(h.ctx, garden, c); err != nil {
		t.Fatal(err)
	}
	if err := h.eng.Settle(h.ctx, garden); err != nil {
		t.Fatal(err)
	}
}

// window is a program's screens in the hand of a test.
type window struct {
	t *testing.T
	h effects
	m model
}

func openWindow(t *testing.T, home shelf.Home) *window {
	t.Helper()
	h := effectsOf(t, home)
	w := &window{t, h, newModel(Options{Home: home}, shelf.Defaults(), h)}
	w.take(h.load(true)())
	return w
}

func (w *window) take(msg tea.Msg) tea.Cmd {
	next, cmd := w.m.Update(msg)
	w.m = next.(model)
	return cmd
}

func (w *window) view() string { return strings.Join(strings.Fields(inWords(w.m)), " ") }

// inWords is what is shown in words and figures, without the line and the vessel of a stage.
func inWords(m model) string {
	return ansi.Strip(widget.Lay(m.sheet(), m.width, m.height, m.style).Text())
}

// shows waits for a snapshot with which the window shows some words, and no others.
func (w *window) shows(words string, not ...string) {
	w.t.Helper()
	limit := time.NewTimer(30 * time.Second)
	defer limit.Stop()
	for {
		got := w.view()
		for _, n := range not {
			if strings.Contains(got, n) {
				got = ""
			}
		}
		if strings.Contains(got, words) {
			return
		}
		select {
		case s := <-w.h.eng.Mail():
			w.take(snapshotMsg(s))
		case <-limit.C:
			w.t.Fatalf("%q is never shown, without %q:\n%s", words, not, w.m.View())
		}
	}
}

var enter = tea.KeyMsg{Type: tea.KeyEnter}

func (w *window) press(keys ...string) (cmd tea.Cmd) {
	for _, k := range keys {
		cmd = w.take(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(k)})
	}
	return cmd
}

const (
	onlyLooked = "another program has this day open: here it can only be looked at"
	hasLeft    = "the other program has left this vat"
	takesOver  = hasLeft + ": Enter takes the day over"
)

// The second window shows what the first writes, offers the day when the first has gone, and goes on with it; the book is whole.
func TestTheSecondWindow(t *testing.T) {
	t.Parallel()
	home := shelf.Open(t.TempDir())
	one, writer := first(t, home)
	two, three := openWindow(t, home), openWindow(t, home)
	two.shows("open elsewhere")
	one.act(t, day.Record{Body: day.Note{Text: "clear"}})
	one.act(t, day.Skip{Reason: "warm already"})
	two.shows(day.NowLine(mustView(t, one).State, mustView(t, one).Now)) // on home

	if cmd := two.take(enter); cmd != nil {
		t.Fatal("a day that is looked at is opened once more")
	}
	two.shows(onlyLooked)
	one.act(t, day.Record{Body: day.Note{Text: "coppery film"}})
	two.press("l")
	two.shows("coppery film")

	// The first one dies.
	if err := writer.Close(); err != nil {
		t.Fatal(err)
	}
	two.shows(takesOver)
	two.press("!")
	two.shows(hasLeft, takesOver) // there Enter is first aid's
	two.take(tea.KeyMsg{Type: tea.KeyEsc})
	two.shows(takesOver)
	two.take(tea.KeyMsg{Type: tea.KeyEsc})
	three.shows("can be taken over") // on home
	three.take(enter)
	three.shows(takesOver)

	cmd := two.take(enter)
	if again := two.take(enter); cmd == nil || again != nil {
		t.Fatal("the day is taken over twice, or not at all")
	}
	two.take(cmd())
	two.shows("this program writes the day now", onlyLooked, takesOver)
	two.h.act(t, day.Record{Body: day.Note{Text: "goes on"}})
	three.shows(onlyLooked)

	// One that is late goes on looking.
	three.m.snap.Days[0].Free = true // as it was a moment ago
	cmd = three.take(enter)
	if cmd == nil {
		t.Fatal("Enter does nothing")
	}
	three.take(cmd())
	three.shows("another program was faster")
	three.take(tea.KeyMsg{Type: tea.KeyUp})
	three.shows(onlyLooked)

	b, err := home.ReadDay("bin", "2026-05-09")
	if err != nil || len(book.Verify(b)) > 0 {
		t.Errorf("the book is not whole: %v %v", err, book.Verify(b))
	}
	if last := b.Events[len(b.Events)-1]; last.Seq != len(b.Events) || last.Body != (day.Note{Text: "goes on"}) {
		t.Errorf("the last event is %+v", last)
	}
}

func mustView(t *testing.T, h effects) engine.View {
	t.Helper()
	snap, err := h.eng.Now(h.ctx)
	v, ok := snap.Day(garden)
	if err != nil || !ok {
		t.Fatal("the day is not open")
	}
	return v
}

// A day that was closed is shown closed and not taken over; the next one is offered.
func TestTheOtherProgramClosesTheDay(t *testing.T) {
	t.Parallel()
	home := shelf.Open(t.TempDir())
	one, _ := first(t, home)
	two := openWindow(t, home)
	two.shows("open elsewhere")
	two.take(enter)
	two.shows(onlyLooked)
	one.act(t, day.Answered{Command: day.Close{}})
	two.shows("enter: home")
	if msg := one.nextDay("bin", false, shelf.Settings{GoingOn: true})().(openedMsg); msg.err != nil {
		t.Fatal(msg.err)
	}
	two.shows("the other program has begun another day of this vat")
	two.take(two.take(enter)())
	two.shows(onlyLooked, "another day")
	if id := two.m.stack[len(two.m.stack)-1].day; id == garden {
		t.Errorf("Enter stays at %s", id)
	}
}

// A day that was closed and left has nothing to be taken over.
func TestAClosedDayThatWasLeft(t *testing.T) {
	home := shelf.Open(t.TempDir())
	one, writer := first(t, home)
	two := openWindow(t, home)
	two.shows("open elsewhere")
	two.take(enter)
	one.act(t, day.Answered{Command: day.Close{}})
	if err := writer.Close(); err != nil {
		t.Fatal(err)
	}
	two.shows("enter: home", onlyLooked, takesOver)
	if word, err := two.h.takenOver(garden); err != nil || word != "the day was closed meanwhile" {
		t.Errorf("%q, %v", word, err)
	}
	if w, _, err := home.OpenDay("bin", "2026-05-09"); err != nil {
		t.Error(err)
	} else if err := w.Close(); err != nil {
		t.Error(err)
	}
}

// A file that went is told on every screen, and what it said stays.
func TestADayWhoseFileWent(t *testing.T) {
	home := shelf.Open(t.TempDir())
	one, _ := first(t, home)
	one.act(t, day.Record{Body: day.Note{Text: "clear"}})
	two := openWindow(t, home)
	two.shows("open elsewhere")
	two.take(enter)
	two.press("l")
	two.shows("clear")
	if err := os.Rename(home.DayFile("bin", "2026-05-09"), home.DayFile("bin", "2026-05-09")+"~"); err != nil {
		t.Fatal(err)
	}
	two.shows("shown is what was read last")
	two.shows("clear")
}

// Home shows a day that another program begins while it is open.
func TestHomeShowsADayThatIsBegunElsewhere(t *testing.T) {
	home := shelf.Open(t.TempDir())
	two := openWindow(t, home)
	if !strings.Contains(two.view(), "no vat yet") {
		t.Errorf("a new home shows\n%s", two.m.View())
	}
	one, _ := first(t, home)
	one.act(t, day.Record{Body: day.Note{Text: "clear"}})
	for len(two.m.home.Vats) == 0 || !two.m.home.Vats[0].Open {
		msg, ok := two.h.changes()().(changedMsg)
		if !ok {
			t.Fatal("no change is told")
		}
		two.take(two.take(msg)().(tea.BatchMsg)[0]())
	}
	two.shows("open elsewhere")
	if v, ok := two.m.snap.Day(garden); !ok || !v.Looking {
		t.Error("it is not looked at")
	}
	if cmd := one.takeChange(t); cmd != nil {
		t.Error("a program reads home again for what it wrote itself")
	}
}

func mustSnap(t *testing.T, h effects) engine.Snapshot {
	t.Helper()
	snap, err := h.eng.Now(h.ctx)
	if err != nil {
		t.Fatal(err)
	}
	return snap
}

// takeChange is what the home of a program does when the garden bin changed.
func (h effects) takeChange(t *testing.T) tea.Cmd {
	m := newModel(Options{Home: h.home}, shelf.Defaults(), h)
	m.snap = mustSnap(t, h)
	return m.changed([]string{"bin"})
}

// Two quick Enters begin one vat, one day.
func TestTwoQuickEntersBeginOnce(t *testing.T) {
	home := settling(t, time.Date(2019, 5, 24, 9, 0, 0, 0, time.UTC), "UTC")
	h := effectsOf(t, home)
	m := newModel(Options{Home: home}, shelf.Defaults(), h)
	head := gardenHead(t)
	head.Vat, head.Day, head.Opening = "", "", day.Opening{Number: 1}
	for _, w := range []screen.Request{screen.Begin{Head: head}, screen.NextDay{Vat: "bin"}} {
		var cmds []tea.Cmd
		for range 2 {
			next, cmd := m.want(w)
			if m = next; cmd != nil {
				cmds = append(cmds, cmd)
			}
		}
		msgs := make(chan tea.Msg, len(cmds))
		for _, cmd := range cmds {
			go func() { msgs <- cmd() }()
		}
		for range cmds {
			msg := (<-msgs).(openedMsg)
			if msg.err != nil {
				t.Errorf("%T: %v", w, msg.err)
			}
			next, _ := m.Update(msg)
			m = next.(model)
		}
	}
	vats, err := home.Vats()
	if err != nil || len(vats) != 2 {
		t.Errorf("there are the vats %v: %v", vats, err)
	}
	if days, err := home.Days("bin"); err != nil || len(days) != 2 {
		t.Errorf("of the bin there are the days %v: %v", days, err)
	}
	if n := len(mustSnap(t, h).Days); n != 2 {
		t.Errorf("%d days are open", n)
	}
	if _, cmd := m.want(screen.Begin{Head: head}); cmd == nil {
		t.Error("no vat can be begun any more")
	}
}

// However many want to open a day at the same moment, it is open once, and written.
func TestADayIsOpenedOnce(t *testing.T) {
	home := shelf.Open(t.TempDir())
	w, err := home.NewDay(gardenHead(t))
	if err != nil {
		t.Fatal(err)
	}
	if err := w.Append(day.Event{Seq: 1, At: time.Date(2026, 5, 9, 9, 0, 0, 0, time.UTC), Body: day.Opened{How: "tend"}}); err != nil {
		t.Fatal(err)
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	h := effectsOf(t, home)
	var all sync.WaitGroup
	errs := make([]error, 12)
	for i := range errs {
		all.Go(func() {
			switch i % 3 {
			case 0:
				errs[i] = h.open("bin", "2026-05-09").err
			case 1:
				errs[i] = h.lookAt("bin", "2026-05-09").err
			default:
				for _, v := range h.load(true)().(homeMsg).vats {
					if v.Trouble != "" {
						errs[i] = fmt.Errorf("home: %s", v.Trouble)
					}
				}
			}
		})
	}
	all.Wait()
	for i, err := range errs {
		if err != nil {
			t.Errorf("%d: %v", i, err)
		}
	}
	snap := mustSnap(t, h)
	if len(snap.Days) != 1 || snap.Days[0].Looking {
		t.Errorf("%d days are open; looked at: %v", len(snap.Days), snap.Days[0].Looking)
	}
	if _, _, err := home.OpenDay("bin", "2026-05-09"); err == nil {
		t.Error("nobody has the lock of the day")
	}
}

// The answer to a key that was pressed before the other program left does not hide what Enter does now.
func TestARefusalHidesNoOffer(t *testing.T) {
	home := shelf.Open(t.TempDir())
	m := newModel(Options{Home: home}, shelf.Defaults(), effectsOf(t, home))
	looked := engine.View{ID: "bin/2026-11-25", Looking: true}
	m.stack = append(m.stack, place{at: screen.AtDay, day: looked.ID, shows: m.stack[0].shows})
	for _, left := range []func(*engine.View){func(v *engine.View) { v.Free = true }, func(v *engine.View) { v.Newer = "2026-11-26" }} {
		m.snap.Days, m.word = []engine.View{looked}, "another program has this day open"
		next, _ := m.Update(snapshotMsg{Days: []engine.View{looked}})
		if m = next.(model); m.word == "" {
			t.Fatal("any snapshot takes the answer away")
		}
		now := looked
		left(&now)
		next, _ = m.Update(snapshotMsg{Days: []engine.View{now}})
		if m = next.(model); m.word != "" {
			t.Errorf("the offer is hidden by %q", m.word)
		}
	}
}
