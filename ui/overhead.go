package ui

import (
	"strings"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/widget"
)

// itself is the day whose own screen shows its call itself, with a line to be typed too; empty: none.
func (m model) itself() string {
	if v, in := m.dayInFront(); in && !m.help && m.leaving == staying {
		return v.ID
	}
	return ""
}

// overhead is the call that stands over what is shown: of the days that are written here and have a time that runs or is over, the one that
// rules; where none has, that of the day in hand. A day's own screen shows its call itself, while nothing stands in front of it.
func (m model) overhead() widget.CallRow {
	if len(m.stack) == 0 || m.inYard() {
		return widget.CallRow{}
	}
	r, of, ok := m.rules(m.itself())
	if !ok {
		return m.untimed()
	}
	row := widget.CallRow{Words: r.call.Row(r.view.Now)}
	if of > 1 {
		row.Vat = vatName(*r.view)
	}
	var left time.Duration
	if r.call.Due != nil {
		left = r.call.Due.At.Sub(r.view.Now)
	}
	switch {
	case r.call.Due == nil: // a strip: its seconds run up, and all of it is the last minute
		row.Tone, row.Big = widget.Now, row.Words
	case left <= 0:
		row.Tone, row.Big = widget.Trouble, r.call.Short+" +"+day.Countdown(-left)
	case left <= day.LastMinute:
		row.Tone, row.Big = widget.Now, r.call.Short+" "+day.Countdown(left)
	}
	row.Big = strings.ToUpper(row.Big)
	if _, instead, _ := m.answers(); m.itself() != "" && !instead && !m.stack[len(m.stack)-1].typed() { // space is for the vat in front
		row.Big = ""
	}
	return row
}

// inYard tells whether home shows its vats: its large letters are the call that rules.
func (m model) inYard() bool {
	home, is := m.stack[len(m.stack)-1].shows.(interface{ Lists() bool })
	return is && home.Lists() && m.bare()
}

// untimed is the call of the day in hand over its other screens, where no time runs anywhere: what the hands are asked for.
func (m model) untimed() widget.CallRow {
	top := m.stack[len(m.stack)-1]
	v, ok := m.snap.Day(top.day)
	if !ok || v.Looking || v.State.Closed || v.ID == m.itself() {
		return widget.CallRow{}
	}
	c := v.Call()
	if c.Act.Kind == day.ActIdle { // nothing wants the hands
		return widget.CallRow{}
	}
	if f, is := top.shows.(interface{ Focus(screen.Env) string }); is && top.at == screen.AtBench && c.Act.Kind == day.ActBench &&
		f.Focus(screen.Env{Days: m.snap, ID: top.day}) == c.Act.Piece.Tag { // the bench shows it itself
		return widget.CallRow{}
	}
	return widget.CallRow{Words: c.Words} // it has the room: no word is cut
}
