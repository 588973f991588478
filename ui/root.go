package ui

import (
	"errors"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"example.org/vatside/model/history"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/rehearse"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/screen/home"
	"example.org/vatside/ui/shelf"
	"example.org/vatside/ui/style"
	"example.org/vatside/ui/widget"
)

// refusal is how long a refusal stands when no key takes it away.
const refusal = 20 * time.Second

// model is the root. It is the only tea.Model.
type model struct {
	effects       effects
	style         style.Style
	styled        style.Options // what it was made from
	ground        *groundMsg    // the terminal's answer, of this run or an earlier one; nil: none
	getenv        func(string) string
	width, height int
	snap          engine.Snapshot
	home          screen.Home
	stack         []place
	word          string
	fades         time.Time // when a refusal is stale: the figures in it stand still, the clock does not
	help          bool
	helpFrom      int
	aim           aim               // what a press answers
	fronted       map[string]string // of each day the last call that was due and brought to the front, or was there before
	broughtAt     time.Duration     // when a clock last came to the front by itself, on the machine's monotonic clock; 0: never
	closed        lineEnd           // the last line that was typed
	lastDay       string            // the day last shown, VAT/DAY
	leaving       leaving
	acting        int  // acts that were handed to the engine and not answered yet
	noAdvice      bool // the forecasts failed on the day's own screen: it is shown without them
	fault         *viewFault
	feet          *screen.Feet
	boards        *boards
	frames        *widget.Frames
	care          map[string][]history.Due // what the vats of home want, as last read
	caredAt       int64                    // the hour of that
	past          pastMsg                  // the history of the vat in hand, as last read
	reading       bool                     // the home is being read for the first time
	waits         *earlyKey                // the key that waits for that
	photos        int                      // how many photographs were given; what comes of an earlier one is left
	first         tea.Cmd                  // what is to be done with the first frame
}

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
		if msg.err != nil && m.boards.trouble != msg.err.Error() { // told once
			m.word, m.fades = msg.err.Error(), m.snap.Wall.Add(refusal)
			m.boards.trouble = msg.err.Error()
		}
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
		m.word, m.fades = sleepy, m.snap.Wall.Add(refusal)
	case groundMsg:
		return m.grounded(msg)
	case tea.MouseMsg:
		return m.seeing().present().mouse(msg)
	case tea.KeyMsg:
		return m.seeing().present().keys(msg)
	}
	return m, nil
}

// want carries out what a screen asked for.
func (m model) want(r screen.Request) (model, tea.Cmd) {
	top := m.stack[len(m.stack)-1]
	switch r := r.(type) {
	case screen.Go:
		if r.To == screen.AtDay {
			if _, open := m.snap.Day(r.Day); !open {
				return m, m.effects.openDay(r.Day)
			}
		}
		if r.To == screen.AtHome {
			return m.goHome()
		}
		if r.To == screen.AtLog && r.Day != "" {
			if _, open := m.snap.Day(r.Day); !open {
				return m, m.effects.look(r.Day)
			}
		}
		m = m.push(r.To, r.Day, r.Tag)
		if word := m.troubleOf(r.Day); r.To == screen.AtDay && word != "" {
			m.word = word
		}
		switch r.To {
		case screen.AtCost:
			m.home.Cost = nil
			return m, m.effects.costs(vatOf(r.Day), m.home.Settings)
		case screen.AtCare, screen.AtSigns:
			if vat := vatOf(r.Day); vat != "" {
				return m, m.effects.past(vat)
			}
		}
		return m, nil
	case screen.Leave:
		if len(m.stack) > 1 {
			m.stack = m.stack[:len(m.stack)-1]
		}
		if len(m.stack) == 1 {
			return m, m.effects.load(false)
		}
	case screen.Do:
		m.acting++
		return m, acted(m.effects.do(top.day, m.effects.saw(top.day, r.Command)))
	case screen.List:
		return m, m.effects.list(top.day, r.Path)
	case screen.Photo:
		return m.photograph(r.Tag, r.Asked, true)
	case screen.Begin:
		return m, m.effects.begin(r.Head)
	case screen.NextDay:
		return m, m.effects.nextDay(r.Vat, r.End, m.home.Settings)
	case screen.Keep:
		return m, m.effects.keep(r.Command)
	case screen.Say:
		switch {
		case m.effects.pressed && r.Asks:
			m.effects.ask(r.Word)
		case m.effects.pressed:
			m.effects.sound(errors.New(r.Word))
		}
		m.word = r.Word
	case screen.Ask:
		return m.openRow(r), nil
	case screen.Set:
		return m, m.effects.set(r.Settings)
	case screen.Rehearse:
		if m.effects.leavesFor(rehearse.ErrWanted); r.Class {
			m.effects.leavesFor(rehearse.ErrClassWanted)
		}
		next, cmd := m.quit()
		return next.(model), cmd
	case screen.Quit:
		m.effects.leavesFor(nil)
		next, cmd := m.quit()
		return next.(model), cmd
	}
	return m, nil
}
