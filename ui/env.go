package ui

import (
	"slices"
	"strings"

	"example.org/vatside/model/history"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/screen"
)

// cared puts what the vats want beside them; what was read before stands until it is read anew.
func (m model) cared(care map[string][]history.Due) model {
	if care != nil {
		m.care = care
	}
	m.home.Vats = slices.Clone(m.home.Vats)
	for i := range m.home.Vats {
		m.home.Vats[i].Care = m.care[m.home.Vats[i].Vat]
	}
	return m
}

// history is the history of the vat that a day belongs to, with the day as it stands now; nil while it is not read.
func (m model) history(id string) history.Vat {
	vat, name, _ := strings.Cut(id, "/")
	if vat == "" || m.past.vat != vat {
		return nil
	}
	if v, ok := m.snap.Day(id); ok {
		return m.past.days.With(history.Day{Name: name, State: v.State})
	}
	return m.past.days
}

// env is what the screen on top may know.
func (m model) env() screen.Env {
	call := m.overhead()
	rows := min(call.Rows(m.width, m.height, m.style), m.height-1) // they are not the screen's
	e := screen.Env{Now: m.snap.Wall, Width: m.width, Height: m.height - rows, Call: call, CallRows: rows, Style: m.style, Days: m.snap, Home: m.home, Word: m.word, Feet: m.feet}
	if n := len(m.stack); n > 0 {
		e.ID, e.Tag = m.stack[n-1].day, m.stack[n-1].tag
	}
	e.History = m.history(e.ID)
	if v, ok := e.Day(); ok {
		e.Now = v.Now
	} else if last, ok := e.History.Last(); ok && last.State.Head.Rehearsed {
		e.Now = last.State.At // nobody plays it: it stands at its last event
	} else if i := slices.IndexFunc(m.snap.Days, rehearsedDay); i >= 0 {
		e.Now = m.snap.Days[i].Now // its home has no other days
	}
	return e
}

// withoutAdvice are the days without their forecasts.
func withoutAdvice(snap engine.Snapshot) engine.Snapshot {
	days := append([]engine.View(nil), snap.Days...)
	for i := range days {
		days[i].Outlook, days[i].Blue, days[i].Table = nil, nil, nil
	}
	snap.Days = days
	return snap
}

func rehearsedDay(v engine.View) bool { return v.State.Head.Rehearsed }
