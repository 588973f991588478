package ui

import (
	"os"
	"strings"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"example.org/vatside/testdata/homes"
	"example.org/vatside/ui/shelf"
)

func daysHome(t *testing.T) shelf.Home {
	return shelf.At(t.TempDir(), func() time.Time { return time.Date(2026, 11, 29, 12, 0, 0, 0, time.UTC) })
}

// A day that was dated later and closed hides no day that was begun after it: it stands on home, and Enter goes on with it.
func TestALaterDateHidesNoOpenDay(t *testing.T) {
	home := daysHome(t)
	homes.Tend(t, home, "2026-11-26", "Pacific/Kiritimati", "2026-11-26T09:00:00+14:00", true)
	homes.Tend(t, home, "2026-11-25", "UTC", "2026-11-25T21:00:00Z", false)
	h := effectsOf(t, home)
	msg := h.load(true)().(homeMsg)
	if len(msg.vats) != 1 || msg.vats[0].ID() != "bin/2026-11-25" || !msg.vats[0].Open {
		t.Fatalf("%+v", msg.vats)
	}
	if o := h.nextDay("bin", false, shelf.Settings{GoingOn: true})().(openedMsg); o.err != nil || o.id != "bin/2026-11-25" {
		t.Errorf("%+v", o)
	}
	if names, err := home.Days("bin"); err != nil || len(names) != 2 {
		t.Errorf("another day was begun: %v %v", names, err)
	}
}

// Two open days of one vat both stand on home, and each leads to itself.
func TestTwoOpenDaysStandOnHome(t *testing.T) {
	home := daysHome(t)
	homes.Tend(t, home, "2026-11-24", "UTC", "2026-11-24T09:00:00Z", false)
	homes.Tend(t, home, "2026-11-25", "UTC", "2026-11-25T09:00:00Z", false)
	homes.Tend(t, home, "2026-11-26", "UTC", "2026-11-26T09:00:00Z", true)
	h := effectsOf(t, home)
	msg := h.load(false)().(homeMsg)
	m := newModel(Options{Home: home}, shelf.Defaults(), h)
	m.snap.Wall = time.Date(2026, 11, 29, 12, 0, 0, 0, time.UTC)
	next, _ := m.Update(msg)
	view := next.View()
	for _, must := range []string{"bin, 2026-11-24, day open", "bin, 2026-11-25, day open", "1 vat"} {
		if !strings.Contains(view, must) {
			t.Errorf("no %q on home:\n%s", must, view)
		}
	}
	for keys, want := range map[string]string{"1": "bin/2026-11-24", "2": "bin/2026-11-25"} {
		next, _ := next.Update(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(keys)})
		_, cmd := next.Update(tea.KeyMsg{Type: tea.KeyEnter})
		if cmd == nil {
			t.Fatalf("%s: Enter does nothing", keys)
		}
		if o, ok := cmd().(openedMsg); !ok || o.err != nil || o.id != want {
			t.Errorf("%s leads to %+v, not to %s", keys, o, want)
		}
	}
}

// Of two open days of one vat the newest is written, so that its times are called; the other one says what it waits for.
func TestTheNewestOfTwoOpenDaysIsWritten(t *testing.T) {
	home := daysHome(t)
	homes.Tend(t, home, "2026-11-24", "UTC", "2026-11-24T09:00:00Z", false)
	homes.Tend(t, home, "2026-11-25", "UTC", "2026-11-25T09:00:00Z", false)
	h := effectsOf(t, home)
	next, _ := newModel(Options{Home: home}, shelf.Defaults(), h).Update(h.load(true)())
	m := seen(t, next.(model), h)
	next, _ = m.Update(h.load(false)())
	m = next.(model)
	if old, new := m.snap.Days[1], m.snap.Days[0]; new.ID != "bin/2026-11-25" || new.Looking || !old.Looking {
		t.Fatalf("%s looked at: %t, %s looked at: %t", new.ID, new.Looking, old.ID, old.Looking)
	}
	m, _ = press(m, '1')
	if view := shown(m); strings.Contains(view, "open elsewhere") || strings.Contains(view, "another program") || !strings.Contains(view, "to look at only until 2026-11-25 is closed") {
		t.Errorf("home:\n%s", m.View())
	}
	next, _ = m.Update(tea.KeyMsg{Type: tea.KeyEnter})
	if view := shown(next); !strings.Contains(view, "here it can only be looked at: 2026-11-25 of this vat is open too; close that day first") {
		t.Errorf("the older day:\n%s", next.View())
	}
}

// A newest day that cannot be read hides no vat: the vat is shown by the day before, with the word what cannot be read.
func TestAnUnreadableDayHidesNoVat(t *testing.T) {
	home := daysHome(t)
	homes.Tend(t, home, "2026-11-24", "UTC", "2026-11-24T09:00:00Z", true)
	homes.Tend(t, home, "2026-11-25", "UTC", "2026-11-25T09:00:00Z", true)
	if err := os.WriteFile(home.DayFile("bin", "2026-11-25"), make([]byte, 400), 0o644); err != nil {
		t.Fatal(err)
	}
	h := effectsOf(t, home)
	m := newModel(Options{Home: home}, shelf.Defaults(), h)
	m.snap.Wall = time.Date(2026, 11, 29, 12, 0, 0, 0, time.UTC)
	next, _ := m.Update(h.load(true)())
	if view := next.View(); !strings.Contains(view, "last day 2026-11-24") || !strings.Contains(view, "day 2026-11-25 is left out: its first lines cannot be read") {
		t.Errorf("home:\n%s", view)
	}
	o := h.nextDay("bin", false, shelf.Settings{GoingOn: true})().(openedMsg)
	if o.err != nil || !strings.Contains(o.word, "day 2026-11-25 is left out") {
		t.Errorf("%+v", o)
	}
	// Where nothing can be read the vat is there all the same, and Enter says why.
	home = daysHome(t)
	homes.Tend(t, home, "2026-11-25", "UTC", "2026-11-25T09:00:00Z", true)
	if err := os.WriteFile(home.DayFile("bin", "2026-11-25"), make([]byte, 400), 0o644); err != nil {
		t.Fatal(err)
	}
	h = effectsOf(t, home)
	m = newModel(Options{Home: home}, shelf.Defaults(), h)
	next, _ = m.Update(h.load(true)())
	if view := next.View(); !strings.Contains(view, "none of its days can be read") || strings.Contains(view, "no vat yet") {
		t.Errorf("home:\n%s", view)
	}
	for _, k := range []rune{'j', 'C', 'l', 'X'} {
		if m, cmd := press(next.(model), k); cmd != nil && quits(cmd) || len(m.stack) > 1 || !strings.Contains(shown(m), "vatside book verify says what is wrong") {
			t.Errorf("%c:\n%s", k, m.View())
		}
	}
	if o := h.nextDay("bin", false, shelf.Settings{GoingOn: true})().(openedMsg); o.err == nil || !strings.Contains(o.err.Error(), "its first lines cannot be read") {
		t.Errorf("%+v", o)
	}
}
