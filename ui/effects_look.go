package ui

import (
	"slices"
	"strings"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"example.org/vatside/model/wording"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/shelf"
)

// homeApart is how far apart home is read again at least, however often other programs write.
const homeApart = 500 * time.Millisecond

// watching begins to watch the home when it is first asked for.
func (h effects) watching() *looks {
	l := h.looks
	l.once.Do(func() {
		l.watch = h.home.Watch(h.ctx, engine.Seconds)
		l.all = l.watch.Tap("")
		l.changed = engine.Paced(h.ctx, l.all.Changed(), homeApart)
	})
	return l
}

// changes waits for the next change in the home.
func (h effects) changes() tea.Cmd {
	return func() tea.Msg {
		l := h.watching()
		select {
		case <-l.changed:
			return changedMsg(l.all.Vats())
		case <-h.ctx.Done():
			return nil
		}
	}
}

// begin takes the turn to open something; false while it is being opened already. done gives it back.
func (l *looks) begin(what string) bool {
	l.mu.Lock()
	defer l.mu.Unlock()
	if l.opening[what] {
		return false
	}
	if l.opening == nil {
		l.opening = map[string]bool{}
	}
	l.opening[what] = true
	return true
}

func (l *looks) done(what string) {
	l.mu.Lock()
	defer l.mu.Unlock()
	delete(l.opening, what)
}

// writes tells whether the engine writes a day.
func (h effects) writes(id string) bool {
	snap, err := h.eng.Now(h.ctx)
	v, open := snap.Day(id)
	return err == nil && open && !v.Looking
}

// tornWord tells of a torn tail that was set aside.
func tornWord(w *shelf.Writer) string {
	if w.TornFile() == "" {
		return ""
	}
	return "the last line of this day was torn off by a power cut or a full disk: it was set aside"
}

// lookedAt is the banner of a day that another program writes; empty where there is nothing to say. keys tells whether Enter
// does what the banner offers; own is another day of the vat that this program writes itself.
func lookedAt(v engine.View, own string, keys bool) string {
	word, enter := "", ""
	switch {
	case !v.Looking:
		return v.Trouble
	case own != "":
		word = "here it can only be looked at: " + own + " of this vat is open too; close that day first"
	case v.Newer != "":
		word, enter = "the other program has begun another day of this vat, "+v.Newer, ": Enter goes there"
	case v.Free && v.State.Closed:
	case v.Free:
		word, enter = "the other program has left this vat", ": Enter takes the day over"
	case v.Polled:
		word = "another program has this day open: here it can only be looked at; its disk tells of no changes, so it is read once a second"
	default:
		word = "another program has this day open: here it can only be looked at"
	}
	if keys {
		word += enter
	}
	if v.Trouble == "" || word == "" {
		return v.Trouble + word
	}
	return v.Trouble + "; " + word
}

// offered tells that the program of the day in hand has left it since, or begun another one.
func (m model) offered(before engine.Snapshot) bool {
	id := m.stack[len(m.stack)-1].day
	is, was := m.snap.Seen(id), before.Seen(id)
	return is != nil && (is.Free && (was == nil || !was.Free) || is.Newer != "" && (was == nil || was.Newer == ""))
}

// ownDay is the open day of a vat that this program writes while another one is in hand; empty where there is none.
func ownDay(snap engine.Snapshot, id string) string {
	own := func(v engine.View) bool {
		return v.ID != id && vatOf(v.ID) == vatOf(id) && !v.Looking && !v.State.Closed
	}
	v, _ := wording.First(snap.Days, own)
	return strings.TrimPrefix(v.ID, vatOf(id)+"/")
}

// others answers the big key on a day that is only looked at: it takes the day over if its program has left it, or goes to the
// day that was begun after it. False where the key is the screen's.
func (m model) others(top place, k screen.Key) (tea.Cmd, bool) {
	v, ok := m.snap.Day(top.day)
	if !ok || !v.Looking || !k.Done() || top.at == screen.AtAid || top.capturing() {
		return nil, false
	}
	switch {
	case v.Newer != "":
		return m.effects.openDay(vatOf(v.ID) + "/" + v.Newer), true
	case v.Free && !v.State.Closed:
		return m.effects.takeOver(v.ID), true
	}
	return nil, false
}

// followed puts what other programs write on home, as it stands now.
func (m model) followed() model {
	own := false
	for i, c := range m.home.Vats {
		if v := m.snap.Seen(c.ID()); v != nil && (v.Looking || c.Elsewhere || c.Free) {
			if !own {
				m.home.Vats, own = slices.Clone(m.home.Vats), true
			}
			m.home.Vats[i] = held(c, *v)
		}
	}
	return m
}

// changed reads home again, if it is shown and a vat changed that another program writes.
func (m model) changed(vats []string) tea.Cmd {
	ours := func(vat string) bool {
		return slices.ContainsFunc(m.snap.Days, func(v engine.View) bool { return !v.Looking && vatOf(v.ID) == vat })
	}
	if len(m.stack) > 1 || len(vats) > 0 && !slices.ContainsFunc(vats, func(vat string) bool { return !ours(vat) }) {
		return nil
	}
	return m.effects.load(false)
}
