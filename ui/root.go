package ui

import (
	"errors"
	"slices"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"example.org/vatside/model/history"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/engine"
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
	ground        *groundMsg // the terminal's answer, of this run or an earlier one; nil: none
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
	frames        *widget.Frames
	care          map[string][]history.Due // what the vats of home want, as last read
	caredAt       int64                    // the hour of that
	past          pastMsg                  // the history of the vat in hand, as last read
	reading       bool                     // the home is being read for the first time
	waits         *earlyKey                // the key that waits for that
	first         tea.Cmd                  // what is to be done with the first frame
}

func newModel(o Options, s shelf.Settings, h effects) model {
	getenv := o.Getenv
	if getenv == nil {
		getenv = func(string) string { return "" }
	}
	m := model{effects: h, getenv: getenv, width: 80, height: 24}
	m.fault, m.feet, m.frames = &viewFault{}, &screen.Feet{}, &widget.Frames{}
	m.home.Settings = s
	m.home.Dir = o.Home.Dir()
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
			return m, m.effects.care(m.home.Vats)
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
		m.word, m.fades = sleepy(string(msg)), m.snap.Wall.Add(refusal)
	case groundMsg:
		return m.grounded(msg)
	case tea.MouseMsg:
		return m.seeing().present().mouse(msg)
	case tea.KeyMsg:
		return m.seeing().present().keys(msg)
	}
	return m, nil
}

// keys splits what came in one read into keys: pedals and gloves send several at once.
func (m model) keys(msg tea.KeyMsg) (tea.Model, tea.Cmd) {
	if msg.Paste {
		return m.pasted(msg.Runes)
	}
	if msg.Type == tea.KeyCtrlC {
		return m.quit()
	}
	if msg.Type != tea.KeyRunes && msg.Type != tea.KeySpace {
		name, ok := keyNames[msg.Type]
		if !ok {
			return m, nil
		}
		return m.key(screen.Key{Name: name})
	}
	var cmds []tea.Cmd
	word := ""
	for _, r := range msg.Runes {
		k := screen.Key{Rune: r}
		switch r {
		case ' ':
			k.Name = "space"
		case '\n', '\r', '\t':
			k = screen.Key{Name: "space", Rune: ' '}
		default:
			if wording.Unfit(r) {
				word = unfitWord(r)
				continue
			}
		}
		next, cmd := m.key(k)
		m = next.(model)
		cmds = append(cmds, cmd)
	}
	if word != "" {
		m.word, m.fades = word, m.snap.Wall.Add(refusal)
	}
	return m, tea.Sequence(cmds...)
}

// keyNames are the keys that are no letter. A line feed is Enter: some remotes send it.
var keyNames = map[tea.KeyType]string{
	tea.KeyEnter: "enter", tea.KeyCtrlJ: "enter", tea.KeyPgUp: "pgup", tea.KeyPgDown: "pgdown", tea.KeyUp: "up", tea.KeyDown: "down",
	tea.KeyLeft: "left", tea.KeyRight: "right", tea.KeyEsc: "esc", tea.KeyTab: "tab", tea.KeyBackspace: "backspace",
	tea.KeyDelete: "delete", tea.KeyHome: "home", tea.KeyEnd: "end",
	tea.KeyF1: "f1", tea.KeyF2: "f2", tea.KeyF3: "f3", tea.KeyF4: "f4", tea.KeyF5: "f5", tea.KeyF6: "f6", tea.KeyF7: "f7",
	tea.KeyF8: "f8", tea.KeyF9: "f9", tea.KeyF10: "f10", tea.KeyF11: "f11", tea.KeyF12: "f12",
}

// key routes one key.
func (m model) key(k screen.Key) (tea.Model, tea.Cmd) {
	if presses(k) {
		if next, cmd, taken := m.press(k); taken {
			return next, cmd
		}
		k = forScreen(k)
	}
	if k.Rune == '!' { // first aid comes before any question
		m.leaving, m.help, m.helpFrom = staying, false, 0
	}
	if m.leaving != staying {
		return m.leave(k)
	}
	if m.help {
		switch {
		case k.Name == "down" || k.Name == "pgdown":
			m.helpFrom++
		case k.Name == "up" || k.Name == "pgup":
			m.helpFrom = max(0, m.helpFrom-1)
		default:
			m.help, m.helpFrom = false, 0
		}
		return m, nil
	}
	top := m.stack[len(m.stack)-1]
	m.word, m.fades = "", time.Time{}
	if k.Rune == '!' { // first aid comes before any text that is being typed; it is kept
		if top.at != screen.AtAid {
			return m.push(screen.AtAid, top.day, top.tag), nil
		}
		return m, nil
	}
	if !top.capturing() {
		switch k.Rune {
		case '?':
			m.help = true
			return m, nil
		case sayKey:
			if m.speaks(top) {
				return m.openSay(), nil
			}
		case hushKey:
			if ofDay(top.at) {
				return m.hush()
			}
		case homeKey:
			if m.leadsHome(top) {
				return m.goHome()
			}
		case 'q':
			return m.quit()
		}
	}
	if m.bounced(k, top) {
		return m.notTaken(top), nil
	}
	if k.Name == "esc" && m.leadsBack(top) {
		return m.push(screen.AtDay, m.lastDay, ""), nil
	}
	if m, waits := m.early(k); waits {
		return m, nil
	}
	m.effects.player.Hush()
	if cmd, taken := m.others(top, k); taken {
		return m, cmd
	}
	if m, cmd, taken := m.dayKey(top, k); taken {
		return m, cmd
	}
	return m.shown(top, k)
}

// shown hands a key to the screen on top, or to the line over it, and carries out what that wants.
func (m model) shown(top place, k screen.Key) (tea.Model, tea.Cmd) {
	if top.say.on() {
		next, cmd := m.sayTyped(k)
		return next.(model).lined(true, k.Name), cmd
	}
	line := top.typed()
	next, wants := top.shows.Update(k, m.env())
	m.stack = slices.Clone(m.stack)
	m.stack[len(m.stack)-1].shows = next
	var cmds []tea.Cmd
	m.effects.pressed = k.Done() && (top.at == screen.AtDay || top.at == screen.AtBench)
	for _, w := range wants {
		var cmd tea.Cmd
		if _, leaves := w.(screen.Leave); leaves && k.Name == "esc" {
			m, cmd = m.escaped()
		} else {
			m, cmd = m.want(w)
		}
		if cmd != nil {
			cmds = append(cmds, cmd)
		}
	}
	m.effects.pressed = false
	return m.lined(line, k.Name), tea.Sequence(cmds...)
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
		m.effects.leavesFor(true)
		next, cmd := m.quit()
		return next.(model), cmd
	case screen.Quit:
		m.effects.leavesFor(false)
		next, cmd := m.quit()
		return next.(model), cmd
	}
	return m, nil
}
