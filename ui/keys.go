package ui

import (
	"slices"
	"time"
	"unicode"

	tea "github.com/charmbracelet/bubbletea"

	"example.org/vatside/model/day"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/screen"
)

// keys splits what came in one read into keys: pedals and gloves send several at once.
func (m model) keys(msg tea.KeyMsg) (model, tea.Cmd) {
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
		var cmd tea.Cmd
		m, cmd = m.key(k)
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
	tea.KeyDelete: "delete", tea.KeyHome: "home", tea.KeyEnd: "end", tea.KeyCtrlU: "ctrl+u",
	tea.KeyF1: "f1", tea.KeyF2: "f2", tea.KeyF3: "f3", tea.KeyF4: "f4", tea.KeyF5: "f5", tea.KeyF6: "f6", tea.KeyF7: "f7",
	tea.KeyF8: "f8", tea.KeyF9: "f9", tea.KeyF10: "f10", tea.KeyF11: "f11", tea.KeyF12: "f12",
}

func (m model) key(k screen.Key) (model, tea.Cmd) {
	if presses(k) {
		if next, cmd, taken := m.press(k); taken {
			return next, cmd
		}
		k = forScreen(k)
	}
	if !k.Done() {
		m.effects.unask()
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
				return m.hush(), nil
			}
		case homeKey:
			if len(m.stack) > 1 && top.day != "" && top.at != screen.AtAid && !top.typed() {
				return m.goHome()
			}
		case 'q':
			return m.quit()
		}
	}
	if m.namesGoods(top, k) {
		m, _ = m.goes(screen.Go{To: screen.AtPiece, Day: top.day}, top)
		return m.shown(m.stack[len(m.stack)-1], k)
	}
	if m.bounced(k, top) {
		v, _ := m.snap.Day(top.day)
		c := v.Call()
		return m.refused(&day.Other{Now: c.Brief(), Just: true}), nil
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

// namesGoods tells whether a key begins the tag of a piece, where the call asks what is to be dyed: a capital, as in A1.
func (m model) namesGoods(top place, k screen.Key) bool {
	v, in := m.snap.Day(top.day)
	return in && top.at == screen.AtDay && !top.typed() && !v.Looking && v.Call().Act.Kind == day.ActGoods && unicode.IsUpper(k.Rune)
}

// shown hands a key to the screen on top, or to the line over it, and carries out what that wants.
func (m model) shown(top place, k screen.Key) (model, tea.Cmd) {
	if top.say.on() {
		next, cmd := m.sayTyped(k)
		return next.lined(true, k.Name), cmd
	}
	line := top.typed()
	env := m.env()
	next, wants := top.screen(env).Update(k, env)
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

// escaped is Esc where the screen on top has nothing to close: it leads to the day last shown, from a clock that came by itself to
// what was there before, and from the day nowhere.
func (m model) escaped() (model, tea.Cmd) {
	top := m.stack[len(m.stack)-1]
	if _, in := m.dayInFront(); in && !top.brought {
		return m, nil
	}
	if top.at != screen.AtAid && !top.brought {
		for i := len(m.stack) - 2; i > 0; i-- {
			if m.stack[i].at == screen.AtDay {
				m.stack = m.stack[:i+1]
				return m, nil
			}
		}
	}
	return m.want(screen.Leave{})
}
