package ui

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"example.org/vatside/model/day"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/answer"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/library"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/widget"
)

// sayKey opens the line on every screen of a day that is written here.
const sayKey = ':'

// speaks tells whether the line can be opened over a screen.
func (m model) speaks(top place) bool {
	v, ok := m.snap.Day(top.day)
	return ok && !v.Looking && !top.typed() && top.at != screen.AtAid
}

// saying puts a line over the screen on top; the zero line takes it away. Not inlined: that was 5 kB of the program.
//
//go:noinline
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

// say carries commands out, one after the other, until one is refused or wants its caution answered. An answer that comes less than
// a second after its caution was told, at, is none.
func (h effects) say(id string, commands []day.Command, at time.Duration) tea.Cmd {
	pressed := h.mono()
	return func() tea.Msg {
		if _, answers := commands[0].(day.Answered); answers && pressed-at < askLeast {
			return saidMsg{id: id, err: day.ErrTooSoon, left: commands, at: at}
		}
		closes, note := false, ""
		for i, c := range commands {
			liked, err := library.Likened(h.home, c)
			if err == nil {
				var made []day.Event
				made, err = h.eng.Do(h.ctx, id, liked)
				err = cmp.Or(err, h.talks(id, made))
				if lists(made) {
					note = h.notice(id, made)
				}
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
		return saidMsg{id: id, note: note}
	}
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
	if v, open := env.Day(); open && env.Height >= widget.LowestYard {
		sheet.Act, sheet.Stage, sheet.BodyTop = strings.ToUpper(sheet.Act), &widget.Stage{Vessel: screen.VesselOf(v.State)}, true
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
		sheet.Caution = &widget.Caution{Text: s.caution, Key: "enter: yes, take it"}
	}
	refused := s.typing.Wrong != ""
	switch {
	case !ok:
	case s.typing.Wrong != "":
		sheet.How, sheet.HowWhole = []string{wording.Sentence("Not taken: " + s.typing.Wrong)}, true
	case s.caution != "":
	case strings.TrimSpace(s.typing.Text) == "" && s.row != "":
		row, _ := answer.Find(s.row)
		_, _, _, wrong := answer.Take(v.State, v.Now, s.said())
		read := answer.Read(v.State, v.Now, s.said())
		switch optional := strings.Contains(row.Say, "["); {
		case read.Err == nil, wrong == nil && optional: // nothing has to be typed
			sheet.How = []string{read.String()}
		case row.Numbered(): // which act is in the question
			does, _, _ := strings.Cut(row.Does, "; ")
			sheet.How = append([]string{wording.Upper(does)}, lastEvents(v)...)
		case row.Say != "":
			sheet.How = []string{row.Say + ": " + row.Does}
		}
	case strings.TrimSpace(s.typing.Text) == "":
		sheet.How = []string{"Such as: " + strings.Join(sayable(v.State, v.Now), " · ")}
	case m.namesPhoto(v.State, s):
		sheet.How = []string{"Enter reads the photograph."}
	default:
		read := answer.Read(v.State, v.Now, s.said())
		sheet.How, refused = []string{read.String()}, read.Err != nil
	}
	switch { // the note is of another act than the words; where room is short it would stand alone
	case sheet.HowWhole:
		sheet.Figure.Note = ""
	case refused && sheet.Figure.Note != "":
		sheet.Figure.Note, sheet.How = strings.Join(sheet.How, " "), nil
	}
	if rows := s.photos.choices(); len(rows) > 0 {
		columns, room := env.Room(sheet)
		sheet.Add(widget.Pick(rows, s.photos.at, columns, room, env.Style))
	}
	return sheet
}

// lastEvents are the last events with their numbers and times, the newest first, where one of them is asked for.
func lastEvents(v engine.View) []string {
	const most = 4
	var out []string
	for _, e := range slices.Backward(v.State.Log[max(0, len(v.State.Log)-most):]) {
		out = append(out, fmt.Sprintf("#%d %s %s", e.Seq, day.DateOf(e.At, v.Now), e.Body.Sentence(v.State.Head.Setup.System())))
	}
	return out
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

// namesPhoto tells whether a line names a photograph instead of saying a look.
func (m model) namesPhoto(s day.State, line sayLine) bool {
	_, _, is := library.PhotoLine(s, line.said())
	return is
}
