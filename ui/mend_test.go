package ui

import (
	"bytes"
	"os"
	"strings"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"example.org/vatside/model/day"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/shelf"
)

// holed cuts event 2 out of the only day of the vat bin, and closes that day or not.
func holed(t *testing.T, closed bool) (home shelf.Home, id, told string) {
	t.Helper()
	home = settling(t, time.Date(2019, 5, 24, 9, 0, 0, 0, time.UTC), "UTC")
	path := home.DayFile("bin", "2019-05-24")
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	at := bytes.Index(text, []byte("[[event]]\nseq = 2"))
	if err := os.WriteFile(path, text[:at], 0o644); err != nil {
		t.Fatal(err)
	}
	w, _, err := home.OpenDay("bin", "2019-05-24")
	if err != nil {
		t.Fatal(err)
	}
	var b day.Body = day.Note{Text: "clear"}
	if closed {
		b = day.Closed{}
	}
	if err := w.Append(day.Event{Seq: 4, At: time.Date(2019, 5, 24, 10, 0, 0, 0, time.UTC), Body: b}); err != nil {
		t.Fatal(err)
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return home, "bin/2019-05-24", "bin/2019-05-24 is not whole: events 2 to 3 are missing before line"
}

// shown is a screen's text on one line.
func shown(m tea.Model) string {
	if own, is := m.(model); is {
		return strings.Join(strings.Fields(inWords(own)), " ")
	}
	return strings.Join(strings.Fields(inWords(m.(guarded).model)), " ")
}

// A day that is not whole is told on home, where it is opened, all the while in its log, with its care and its cost.
func TestADayThatIsNotWholeIsTold(t *testing.T) {
	home, id, told := holed(t, false)
	h := effectsOf(t, home)
	var m tea.Model = newModel(Options{Home: home}, shelf.Defaults(), h)
	m, _ = m.Update(tea.WindowSizeMsg{Width: 140, Height: 40})
	msg := h.load(true)().(homeMsg)
	if len(msg.vats) != 1 || !strings.HasPrefix(msg.vats[0].Trouble, told) {
		t.Fatalf("home: %+v", msg.vats)
	}
	m, _ = m.Update(msg)
	if !strings.Contains(shown(m), told) {
		t.Errorf("home:\n%s", m.View())
	}
	snap, err := h.eng.Now(h.ctx)
	if err != nil {
		t.Fatal(err)
	}
	m, _ = m.Update(snapshotMsg(snap))
	enter := tea.KeyMsg{Type: tea.KeyEnter}
	m, _ = m.Update(enter)
	if top := m.(model).stack; top[len(top)-1].at != screen.AtDay || !strings.Contains(shown(m), told) {
		t.Errorf("the day:\n%s", m.View())
	}
	m, _ = m.(model).want(screen.Go{To: screen.AtLog, Day: id})
	for range 2 { // a key takes a word away, but not this one
		if !strings.Contains(shown(m), told) {
			t.Errorf("the log:\n%s", m.View())
		}
		m, _ = m.Update(tea.KeyMsg{Type: tea.KeyUp})
	}
	if past := h.past("bin")().(pastMsg); past.err == nil || !strings.HasPrefix(past.err.Error(), told) || past.days[0].Damage == "" {
		t.Errorf("care: %v", past.err)
	} else if m, _ = m.Update(past); !strings.Contains(shown(m), told) {
		t.Errorf("care:\n%s", m.View())
	}
	if cost := h.costs("bin", shelf.Settings{GoingOn: true})().(costMsg); !strings.HasPrefix(cost.cost.Trouble, told) {
		t.Errorf("cost: %q", cost.cost.Trouble)
	}
}

// A closed one says so as its log is opened; a torn tail that was set aside is no trouble any more.
func TestAClosedDayThatIsNotWholeIsTold(t *testing.T) {
	home, id, told := holed(t, true)
	h := effectsOf(t, home)
	if o := h.look(id)().(openedMsg); !o.log || o.err != nil || !strings.HasPrefix(o.word, told) {
		t.Errorf("%+v", o)
	}

	whole := settling(t, time.Date(2019, 5, 24, 9, 0, 0, 0, time.UTC), "UTC")
	path := whole.DayFile("bin", "2019-05-24")
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, append(text, "\n[[event]]\nseq = 3"...), 0o644); err != nil {
		t.Fatal(err)
	}
	h = effectsOf(t, whole)
	if msg := h.load(false)().(homeMsg); !strings.Contains(msg.vats[0].Trouble, "the last block is torn") {
		t.Errorf("%q", msg.vats[0].Trouble)
	}
	if o := h.look(id)().(openedMsg); o.word != "the last line of this day was torn off by a power cut or a full disk: it was set aside" {
		t.Errorf("%+v", o)
	}
	if msg := h.load(false)().(homeMsg); msg.vats[0].Trouble != "" {
		t.Errorf("%q", msg.vats[0].Trouble)
	}
}
