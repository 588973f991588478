package ui

import (
	"errors"

	tea "github.com/charmbracelet/bubbletea"

	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/rehearse"
	"example.org/vatside/ui/screen"
)

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
		if m.word = r.Word; r.Asks {
			m.fades = m.snap.Wall.Add(engine.StillAsked)
		}
	case screen.Ask:
		return m.openRow(r), nil
	case screen.Set:
		return m, m.effects.set(r.Settings)
	case screen.Rehearse:
		if m.effects.leavesFor(rehearse.ErrWanted); r.Class {
			m.effects.leavesFor(rehearse.ErrClassWanted)
		}
		return m.quit()
	case screen.Quit:
		m.effects.leavesFor(nil)
		return m.quit()
	}
	return m, nil
}
