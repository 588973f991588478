package ui

import (
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"example.org/vatside/model/wording"
	"example.org/vatside/ui/cue"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/screen/home"
	"example.org/vatside/ui/shelf"
	"example.org/vatside/ui/widget"
)

func newModel(o Options, s shelf.Settings, h effects) model {
	getenv := o.Getenv
	if getenv == nil {
		getenv = func(string) string { return "" }
	}
	m := model{effects: h, getenv: getenv, width: 80, height: 24}
	m.fault, m.feet, m.frames, m.boards = &viewFault{}, &screen.Feet{}, &widget.Frames{}, &boards{of: map[string]board{}, last: map[string]page{}}
	m.home.Settings = s
	if g, ok := h.grounds.Of(terminalName(getenv)); ok {
		m.ground = &g
	}
	m = m.restyled()
	m.stack = []place{{at: screen.AtHome, shows: home.New(m.env())}}
	return m
}

// Init reads the home after the first frame, or goes on with it where that has begun.
func (m model) Init() tea.Cmd {
	if m.effects.beginning != nil {
		return tea.Batch(m.first, m.effects.changes())
	}
	return tea.Batch(m.effects.load(true), m.effects.changes())
}

// Update refreshes what is known, or routes a key: help first, then the question about quitting, the keys of everywhere,
// and the screen on top.
func (m model) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	switch msg := msg.(type) {
	case tea.WindowSizeMsg:
		m.width, m.height = msg.Width, msg.Height
	case snapshotMsg:
		was := m.snap
		m.snap = engine.Snapshot(msg)
		if m.offered(was) { // before an answer to a key that did not know of it
			m.word = ""
		}
		if m.noAdvice {
			m.snap = withoutAdvice(m.snap)
		}
		if m.leaving == saving && m.saved() {
			return m, tea.Quit
		}
		if !m.fades.IsZero() && m.snap.Wall.After(m.fades) {
			m.word, m.fades = "", time.Time{}
		}
		m = m.settle().followed().called(was)
		if hour := m.snap.Wall.Unix() / 3600; !m.reading && hour != m.caredAt && m.stack[len(m.stack)-1].at == screen.AtHome { // what was due then is overdue now
			m.caredAt = hour
			return m, tea.Batch(m.boarded(), m.effects.care(m.home.Vats))
		}
		return m, m.boarded()
	case boardMsg:
		m.boards.writing = false
		m.boards.failed(msg.err)
	case homeMsg:
		m.home.Vats, m.home.Recipes, m.home.Own = msg.vats, msg.recipes, msg.own
		if msg.word != "" {
			m.word, m.fades = msg.word, time.Time{}
		}
		if msg.show != "" {
			m = m.push(screen.AtDay, msg.show, "")
		}
		m.caredAt = m.snap.Wall.Unix() / 3600
		m, early := m.cared(nil).read()
		return m, tea.Batch(early, m.effects.care(msg.vats), m.effects.shelfOfPowders(msg.vats))
	case glanceMsg:
		return m.glanced(msg), m.effects.next()
	case settingsReadMsg:
		m.home.Settings = msg.settings
		m = m.restyled()
		if msg.err != nil {
			m.word = msg.err.Error()
		}
		return m, m.effects.next()
	case careMsg:
		m = m.cared(msg)
	case stockMsg:
		m.home.Stock = screen.Stock(msg)
	case pastMsg:
		m.past = msg
		if msg.err != nil {
			m.word = wording.OneLine(msg.err)
		}
	case changedMsg:
		return m, tea.Batch(m.changed(msg), m.effects.changes())
	case openedMsg:
		m.effects.looks.done(msg.what)
		if msg.err != nil {
			m.word = msg.err.Error()
			return m, nil
		}
		m.stack = m.stack[:1]
		if msg.log {
			m = m.push(screen.AtLog, msg.id, "")
		} else {
			m = m.push(screen.AtDay, msg.id, "")
		}
		if msg.word != "" {
			m.word = msg.word
		}
		return m, m.effects.load(false)
	case repliedMsg:
		if msg.acted {
			m.acting--
		}
		m.effects.looks.done(msg.what)
		if msg.err != nil {
			msg.word = msg.err.Error()
		}
		if msg.word != "" {
			m.word, m.fades = msg.word, m.snap.Wall.Add(refusal)
			if msg.asks {
				m.fades = m.snap.Wall.Add(engine.StillAsked)
			}
		}
		if msg.err == nil && msg.reload {
			return m, m.effects.load(false)
		}
	case saidMsg:
		return m.answered(msg)
	case photoMsg:
		return m.photographed(msg), nil
	case costMsg:
		if top := m.stack[len(m.stack)-1]; vatOf(top.day) == msg.cost.Vat {
			m.home.Cost = &msg.cost
		}
	case settingsMsg:
		if msg.err != nil {
			m.word = msg.err.Error()
		} else {
			m.home.Settings = msg.settings
			m = m.restyled()
		}
	case sleepyMsg:
		m.word, m.fades = cue.MaySleep, m.snap.Wall.Add(refusal)
	case groundMsg:
		return m.grounded(msg)
	case tea.MouseMsg:
		return m.seeing().present().mouse(msg)
	case tea.KeyMsg:
		return m.seeing().present().keys(msg)
	}
	return m, nil
}

// read is the root whose home is read; it answers the key that waited, if that still means what it did.
func (m model) read() (model, tea.Cmd) {
	k := m.waits
	m.reading, m.home.Coming, m.waits = false, 0, nil
	if k == nil || m.stack[len(m.stack)-1].at != screen.AtHome || m.help || m.leaving != staying {
		return m, nil
	}
	if home.First(m.env()) != k.on {
		m.word = "the vats were still being read: look again, and press again"
		return m, nil
	}
	return m.key(k.Key)
}
