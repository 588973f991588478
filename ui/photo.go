package ui

import (
	"fmt"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"example.org/vatside/model/day"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/library"
	"example.org/vatside/ui/screen"
)

// looker is a screen on which the look of a piece may be typed, which can be read off a photograph too.
type looker interface {
	Looks(env screen.Env) (tag, typed string, ok bool)
	Read(words string) screen.Screen
}

// dropped reads the photograph whose path was pasted, as a terminal does with a file that is dropped on it; false where the text
// is no path, or is typed like any other.
func (m model) dropped(text string) (model, tea.Cmd, bool) {
	asked, is := library.AsksPhoto(text)
	if !is {
		return m, nil, false
	}
	top := m.stack[len(m.stack)-1]
	v, open := m.snap.Day(top.day)
	behind := func(typed string) library.PhotoAsked { // wet and the rungs are typed before it
		if both, is := library.AsksPhoto(typed + " " + text); is {
			return both
		}
		return asked
	}
	if l, is := top.shows.(looker); is && open && !top.say.on() {
		if tag, typed, on := l.Looks(m.env()); on {
			next, cmd := m.photograph(tag, behind(typed), true)
			return next, cmd, true
		}
	}
	if top.say.on() {
		p, typed, is := library.LookLine(v.State, top.say.said())
		switch {
		case is && open:
			next, cmd := m.photograph(p.Tag, behind(typed), true)
			return next, cmd, true
		case top.say.said() != "":
			return m, nil, false
		}
	} else if top.capturing() {
		return m, nil, false
	}
	if tag, wet, is := looksAt(v); is && open && !top.say.on() && m.speaks(top) {
		asked.Wet = asked.Wet || wet
		next, cmd := m.photograph(tag, asked, false)
		return next, cmd, true
	}
	m.word = "a photograph of the card is read where a look is asked for, or behind the words: look A1"
	m.fades = m.snap.Wall.Add(refusal)
	return m, nil, true
}

// looksAt is the piece whose look the call asks for, and whether it is wet then.
func looksAt(v engine.View) (tag string, wet, ok bool) {
	if look, is := v.Look(); is {
		return look.Act.Piece.Tag, true, true
	}
	a := v.Call().Act
	return a.Piece.Tag, false, a.Kind == day.ActBench && !a.Shut && a.Bench.ID == day.Looked
}

// photograph has a photograph read for the look of a piece of the day in hand, beside the screen.
func (m model) photograph(tag string, asked library.PhotoAsked, typed bool) (model, tea.Cmd) {
	id := m.stack[len(m.stack)-1].day
	v, _ := m.snap.Day(id)
	p, ok := v.State.Piece(tag)
	if !ok {
		return m, nil
	}
	m.photos++
	m.word, m.fades = "reading the photograph", time.Time{}
	if n := len(asked.Paths); n > 1 {
		m.word = fmt.Sprintf("reading %d photographs", n)
	}
	msg := photoMsg{no: m.photos, id: id, tag: tag, wet: asked.Wet, typed: typed}
	return m, func() tea.Msg {
		msg.seen = library.SeePiece(asked, p)
		return msg
	}
}

// photographed puts what was read into the line where the look is typed, for Enter to take and Esc to leave, and tells of it; of several
// each is a row below the line.
func (m model) photographed(msg photoMsg) model {
	top := m.stack[len(m.stack)-1]
	if msg.no != m.photos {
		return m
	}
	said := "look " + msg.tag + wording.If(msg.wet, " wet") + " "
	rows := offers{before: said, seen: msg.seen, at: len(msg.seen) - 1}.step(1)
	several, err := len(msg.seen) > 1, msg.seen[0].Err
	words := rows.line()
	if err != nil && !several {
		if !msg.typed && top.day == msg.id && m.speaks(top) { // for the rungs to be typed
			m = m.openSay()
			m.stack[len(m.stack)-1].say.typing.Text = said
		}
		m.word, m.fades = wording.Show(wording.OneLine(err)).String(), m.snap.Wall.Add(refusal)
		return m
	}
	v, _ := m.snap.Day(top.day)
	here, field := top.day == msg.id && !m.help && m.leaving == staying, false
	l, looks := top.shows.(looker)
	if looks && here && !top.say.on() {
		tag, _, on := l.Looks(m.env())
		field = on && tag == msg.tag
	}
	p, _, line := library.LookLine(v.State, top.say.said())
	line = line && here && top.say.on() && !top.say.sent && p.Tag == msg.tag
	m.word, m.fades = "", time.Time{}
	switch {
	case field && !msg.wet && !several: // the bench asks for it dry
		m = m.saying(sayLine{})
		m.stack[len(m.stack)-1].shows = l.Read(msg.seen[0].Words)
	case line, field, !msg.typed && here && m.speaks(top):
		m = m.openSay()
		say := &m.stack[len(m.stack)-1].say
		if say.typing.Text = words; several {
			say.photos = rows
			m.word = wording.Counted(len(msg.seen), "photograph") + ": ↑ ↓ chooses, Enter takes one, Esc leaves all"
			return m
		}
	case msg.typed: // Esc has left the line
		return m
	default:
		m.word = rows.choices()[rows.at].Text + "; to take it type : " + words
		return m
	}
	m.word, m.fades = msg.seen[0].Told+". Enter takes it, Esc leaves it", time.Time{}
	return m
}
