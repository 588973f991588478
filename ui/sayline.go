package ui

import (
	"errors"
	"slices"
	"strings"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"example.org/vatside/model/day"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/answer"
	"example.org/vatside/ui/library"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/widget"
)

// sayKey opens the line on every screen of a day that is written here.
const sayKey = ':'

// sayLine is a line over a screen of a day, in which the dyer says something in the words of plain mode. The zero value is none.
type sayLine struct {
	typing  screen.Field
	row     string        // the ID of the row whose key opened it, whose words stand before what is typed; empty: any words are typed
	of      string        // the tag or the number that stands between them
	waits   []day.Command // what was said and is not done: the first waits for its caution; empty: nothing waits
	caution string        // that caution
	asks    bool          // the line was opened with it, as a question: what is typed beside it is no other answer
	at      time.Duration // when it was told, on the machine's monotonic clock
	sent    bool          // the engine has it and did not answer yet
	words   string        // what the line was taken for as it was sent
	photos  offers        // several photographs, of which the line takes one
}

// on tells whether the line is open.
func (s sayLine) on() bool { return s.typing.On() }

// saidMsg is what came of a line.
type saidMsg struct {
	id     string
	err    error         // a *day.Pending where a caution stands before the first of left
	left   []day.Command // what is not done
	at     time.Duration // when the caution was told, on the machine's monotonic clock
	closes bool          // the day was closed
}

// capturing tells whether letters are text: on the screen, or in the line over it.
func (p place) capturing() bool { return p.say.on() || p.shows.Capturing() }

// speaks tells whether the line can be opened over a screen.
func (m model) speaks(top place) bool {
	v, ok := m.snap.Day(top.day)
	return ok && !v.Looking && !top.typed() && top.at != screen.AtAid
}

// saying puts a line over the screen on top; the zero line takes it away.
func (m model) saying(s sayLine) model {
	m.stack = slices.Clone(m.stack)
	m.stack[len(m.stack)-1].say = s
	return m
}

// said is the whole line in words.
func (s sayLine) said() string {
	if r, ok := answer.Find(s.row); ok {
		return r.Said(s.of, s.typing.Text)
	}
	return s.typing.Text
}

// openSay opens the line.
func (m model) openSay() model {
	return m.saying(sayLine{typing: screen.Field{What: "say", Label: sayLabel}})
}

const sayLabel = "What was done, read or seen"

// openRow opens the line of a row's key. Where the row's words as they stand want a caution, the line asks it.
func (m model) openRow(a screen.Ask) model {
	s := sayLine{typing: screen.Field{What: a.Row, Label: a.Blank.Label, Unit: a.Blank.Unit}, row: a.Row, of: a.Of}
	if s.waits, s.caution = m.forewarned(s); s.caution != "" {
		s.asks, s.at = true, m.effects.mono()
	}
	return m.saying(s)
}

// forewarned is what a line says, and the caution before it; none where it says nothing yet, or nothing that wants one.
func (m model) forewarned(s sayLine) ([]day.Command, string) {
	v, ok := m.snap.Day(m.stack[len(m.stack)-1].day)
	if !ok {
		return nil, ""
	}
	_, _, commands, err := answer.Take(v.State, v.Now, s.said())
	if err != nil || len(commands) == 0 {
		return nil, ""
	}
	if words := day.CautionOf(v.State, commands[0], v.Now); words != "" {
		return commands, words
	}
	return nil, ""
}

// sayTyped takes a key while the line is open.
func (m model) sayTyped(k screen.Key) (tea.Model, tea.Cmd) {
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
func (m model) sayEntered(top place) (tea.Model, tea.Cmd) {
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

// send hands commands to the engine.
func (m model) send(s sayLine, commands []day.Command) (tea.Model, tea.Cmd) {
	s.sent, s.typing.Wrong = true, ""
	m.acting++
	id := m.stack[len(m.stack)-1].day
	return m.saying(s), acted(m.effects.say(id, commands, s.at))
}

// asked goes to the place that answers a question.
func (m model) asked(r answer.Row, l answer.Line, top place) (tea.Model, tea.Cmd) {
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

// say carries commands out, one after the other, until one is refused or wants its caution answered. An answer that comes less than
// a second after its caution was told, at, is none.
func (h effects) say(id string, commands []day.Command, at time.Duration) tea.Cmd {
	pressed := h.mono()
	return func() tea.Msg {
		if _, answers := commands[0].(day.Answered); answers && pressed-at < askLeast {
			return saidMsg{id: id, err: day.ErrTooSoon, left: commands, at: at}
		}
		closes := false
		for i, c := range commands {
			liked, err := library.Likened(h.home, c)
			if err == nil {
				_, err = h.eng.Do(h.ctx, id, liked)
			}
			if err != nil {
				return saidMsg{id: id, err: err, left: commands[i:], at: h.mono()}
			}
			if a, is := c.(day.Answered); is {
				c = a.Command
			}
			_, is := c.(day.Close)
			closes = closes || is
		}
		if closes {
			return saidMsg{id: id, err: h.eng.Settle(h.ctx, id), closes: true}
		}
		return saidMsg{id: id}
	}
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
		if s.words != "" {
			m.word, m.fades = s.words, m.snap.Wall.Add(refusal)
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

// saySheet is the line over a screen: what is typed, what it will be taken for, and the caution that it waits for. On the day's
// own screen the call keeps its place and its figure.
func (m model) saySheet(behind widget.Sheet, top place, env screen.Env) widget.Sheet {
	s := top.say
	sheet := widget.Sheet{Head: behind.Head, Act: "Say it", Foot: behind.Foot}
	if row, ok := answer.Find(s.row); ok {
		if v, open := env.Day(); open {
			sheet.Act = wording.Upper(row.KeyDoes(v.State))
		}
	}
	if top.at == screen.AtDay {
		sheet = behind
		if sheet.Stage != nil { // no piece is chosen while a line is typed
			still := *sheet.Stage
			still.Cloths = slices.Clone(still.Cloths)
			for i := range still.Cloths {
				still.Cloths[i].Click = false
			}
			sheet.Stage = &still
		}
		sheet.Body, sheet.How, sheet.Why, sheet.Next, sheet.Caution, sheet.Answers, sheet.Spots, sheet.HowTop = nil, nil, "", "", nil, nil, nil, false
	}
	line := s.typing
	line.Wrong = "" // it stands where stood what the words would be taken for, so that nothing moves
	sheet.Body = line.Lines(env)
	v, ok := env.Day()
	if s.caution != "" {
		sheet.Caution = &widget.Caution{Text: s.caution, Key: "enter: so it is"}
	}
	switch {
	case !ok:
	case s.typing.Wrong != "":
		sheet.How = []string{"Not taken: " + s.typing.Wrong + "."}
	case s.caution != "":
	case strings.TrimSpace(s.typing.Text) == "" && s.row != "":
		row, _ := answer.Find(s.row)
		_, _, _, wrong := answer.Take(v.State, v.Now, s.said())
		read := answer.Read(v.State, v.Now, s.said())
		switch optional := strings.Contains(row.Say, "["); {
		case read.Err == nil, wrong == nil && optional: // nothing has to be typed
			sheet.How = []string{read.String()}
		case row.Numbered(): // which event is in the question
			does, _, _ := strings.Cut(row.Does, "; ")
			sheet.How = []string{wording.Upper(does)}
		case row.Say != "":
			sheet.How = []string{row.Say + ": " + row.Does}
		}
	case strings.TrimSpace(s.typing.Text) == "":
		sheet.How = []string{"Such as: " + strings.Join(sayable(v.State, v.Now), " · ")}
	case m.namesPhoto(v.State, s):
		sheet.How = []string{"Enter reads the photograph."}
	default:
		sheet.How = []string{answer.Read(v.State, v.Now, s.said()).String()}
	}
	if rows := s.photos.choices(); len(rows) > 0 {
		columns, room := env.Room(sheet)
		sheet.Add(widget.Pick(rows, s.photos.at, columns, room, env.Style))
	}
	return sheet
}

// mostSayable is how many examples are shown before anything is typed.
const mostSayable = 8

// sayable are some of the things that can be said now, what the call asks for first.
func sayable(s day.State, now time.Time) []string {
	var out []string
	for _, section := range answer.List(s, now) {
		for _, r := range section.Rows {
			if r.Say != "" && len(out) < mostSayable {
				out = append(out, r.Say)
			}
		}
	}
	return out
}
