package ui

import (
	"cmp"
	"errors"
	"slices"

	tea "github.com/charmbracelet/bubbletea"

	"example.org/vatside/model/day"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/answer"
	"example.org/vatside/ui/library"
	"example.org/vatside/ui/screen"
)

// sayTyped takes a key while the line is open.
func (m model) sayTyped(k screen.Key) (model, tea.Cmd) {
	top := m.stack[len(m.stack)-1]
	s := top.say
	next, entered, left := s.typing.Take(k)
	switch {
	case left:
		return m.saying(sayLine{}), nil
	case s.sent:
		return m, nil
	case len(s.photos.seen) > 0 && s.caution == "" && (k.Name == "up" || k.Name == "down" || k.Name == "row"):
		row, on := k.On(len(s.photos.seen))
		switch {
		case on && s.photos.seen[row].Err == nil:
			s.photos.at = row
		case k.Name == "up":
			s.photos = s.photos.step(-1)
		case k.Name == "down":
			s.photos = s.photos.step(1)
		}
		s.typing.Text, s.typing.Behind, s.typing.Wrong = s.photos.line(), 0, ""
		return m.saying(s), nil
	case entered && s.asks:
		waits, words := m.forewarned(s)
		if words != s.caution { // it is another by now: it is asked for itself
			s.asks, s.waits, s.caution = false, nil, ""
			return m.saying(s).sayEntered(top)
		}
		s.waits = waits
		fallthrough
	case entered && len(s.waits) > 0:
		answered := append([]day.Command{day.Answered{Command: s.waits[0]}}, s.waits[1:]...)
		return m.send(s, answered)
	case entered:
		return m.sayEntered(top)
	}
	if next.Text != s.typing.Text && !s.asks { // other words leave what waited
		s.waits, s.caution = nil, ""
	}
	s.typing = next
	return m.saying(s), nil
}

// sayEntered carries out what is typed: an act by its commands, a question by the place that answers it.
func (m model) sayEntered(top place) (model, tea.Cmd) {
	s := m.stack[len(m.stack)-1].say
	v, ok := m.snap.Day(top.day)
	if !ok || s.said() == "" {
		s.typing.Wrong = "nothing is typed; done is the press"
		return m.saying(s), nil
	}
	if p, asked, is := library.PhotoLine(v.State, s.said()); is {
		return m.photograph(p.Tag, asked, true)
	}
	r, l, commands, err := answer.Take(v.State, v.Now, s.said())
	if err != nil {
		s.typing.Wrong = err.Error()
		return m.saying(s), nil
	}
	if r.Asks() {
		return m.saying(sayLine{}).asked(r, l, top)
	}
	for i, c := range commands {
		if d, is := c.(day.Done); is && d.Call == "" { // the press is for the call that was seen
			d.Call = v.Call().ID
			commands[i] = d
		}
	}
	s.words = answer.Read(v.State, v.Now, s.said()).Words
	return m.send(s, commands)
}

// asked goes to the place that answers a question.
func (m model) asked(r answer.Row, l answer.Line, top place) (model, tea.Cmd) {
	to := screen.Place(r.Opens)
	switch {
	case r.ID == "help":
		m.help = true
		return m, nil
	case r.ID == "ails":
		to = screen.AtSigns
	}
	if to == "" || to == top.at {
		return m, nil
	}
	tag := ""
	if p, ok := l.State.Piece(l.Rest); ok {
		tag = p.Tag
	}
	return m.want(screen.Go{To: to, Day: top.day, Tag: tag})
}

func (m model) send(s sayLine, commands []day.Command) (model, tea.Cmd) {
	s.sent, s.typing.Wrong = true, ""
	m.acting++
	id := m.stack[len(m.stack)-1].day
	return m.saying(s), acted(m.effects.say(id, commands, s.at))
}

// answered puts what came of a line where it was typed, or says it where that is closed.
func (m model) answered(msg saidMsg) (model, tea.Cmd) {
	m.acting--
	var s sayLine
	at := -1
	for i, p := range m.stack {
		if p.day == msg.id && p.say.sent {
			at, s = i, p.say
		}
	}
	s.sent = false
	pending := (*day.Pending)(nil)
	switch {
	case errors.As(msg.err, &pending):
		s.waits, s.caution, s.at = msg.left, pending.Caution, msg.at
	case errors.Is(msg.err, day.ErrTooSoon):
		s.typing.Wrong = "too soon after the last one: read once more, then Enter"
	case msg.err != nil:
		s.waits, s.caution, s.typing.Wrong = nil, "", wording.OneLine(msg.err)
	default:
		if words := cmp.Or(msg.note, s.words); words != "" {
			m.word, m.fades = words, m.snap.Wall.Add(refusal)
		}
		m.closed = lineEnd{"enter", m.effects.mono()}
		left := s.photos.taken()
		if s = (sayLine{}); len(left.seen) > 0 {
			s.photos = left
			s.typing = screen.Field{What: "say", Label: sayLabel, Text: left.line()}
		}
	}
	switch {
	case at >= 0:
		m.stack = slices.Clone(m.stack)
		m.stack[at].say = s
	case msg.err != nil:
		m.word, m.fades = "not done: "+wording.OneLine(msg.err), m.snap.Wall.Add(refusal)
	}
	if msg.closes {
		return m, m.effects.load(false)
	}
	return m, nil
}
