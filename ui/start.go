package ui

import (
	"slices"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"example.org/vatside/ui/guard"
	"example.org/vatside/ui/library"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/screen/home"
)

// The start. While the screens are made ready the home is read beside them: the settings, then a glance at the open days, then
// all of it. The first frame has what is there by then, and waits for no slow disk. Until all is read a key on home waits: what
// it would act on is not known.

// patience is how long the first frame waits for the home, once the screens are ready.
const patience = 4 * time.Millisecond

// secondPatience is how long what takes the processors waits for the frame behind it, with the whole home: a terminal may be slow.
const secondPatience = 250 * time.Millisecond

// readHome reads the home, part by part; the settings beside the glance.
func (h effects) readHome() {
	glanced := make(chan glanceMsg, 1)
	var g glanceMsg
	guard.GoThen("glance", func() { g = h.glance() }, func(c *guard.Crash) {
		if c != nil {
			g = glanceMsg{of: -1}
		}
		glanced <- g
	})
	h.beginning <- h.readSettings()
	h.beginning <- <-glanced
	var whole tea.Msg
	if c := guard.Try("command", func() { whole = h.load(true)() }); c != nil {
		whole = homeMsg{word: c.Error()}
	}
	h.beginning <- whole
}

func (h effects) readSettings() settingsReadMsg {
	s, err := h.home.Settings()
	if h.cries != nil {
		h.cries.set(s.Sound)
	}
	return settingsReadMsg{s, err}
}

// next waits for the next part of the beginning; nil where there is none.
func (h effects) next() tea.Cmd {
	if h.beginning == nil {
		return nil
	}
	return func() tea.Msg {
		select {
		case msg := <-h.beginning:
			return msg
		case <-h.ctx.Done():
			return nil
		}
	}
}

// glance looks at the newest day of each vat. Only what is sure of itself is shown: a day whose file is not whole waits for the
// rest, which tells what is wrong with it.
func (h effects) glance() glanceMsg {
	open, of := library.Glance(h.home)
	g := glanceMsg{of: of}
	for _, d := range open {
		g.vats = append(g.vats, standing(screen.Vat{Vat: d.Vat, Name: d.Vat, Day: d.Name}, d))
	}
	return g
}

// glanced shows what was seen at a glance.
func (m model) glanced(g glanceMsg) model {
	m.home.Vats, m.home.Coming = g.vats, -1
	if g.of >= 0 {
		m.home.Coming = g.of - len(g.vats)
	}
	return m
}

// whole tells whether the home is read, and the engine has told of the days of it that it has taken up.
func (m model) whole() bool {
	return !m.reading && (len(m.snap.Days) > 0 || !slices.ContainsFunc(m.home.Vats, func(v screen.Vat) bool { return v.Open && v.Trouble == "" }))
}

// early keeps the first key that comes on home before that is read, for then; those after it are not taken. False where a key
// need not wait.
func (m model) early(k screen.Key) (model, bool) {
	if !m.reading || m.stack[len(m.stack)-1].at != screen.AtHome {
		return m, false
	}
	if m.waits == nil && k.Name != "row" && (m.home.Coming == 0 || len(m.home.Vats) > 0) { // else nothing was there that it could mean; a row may be another one by then
		m.waits = &earlyKey{k, home.First(m.env())}
	}
	return m, true
}
