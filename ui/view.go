package ui

import (
	"slices"
	"strings"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/widget"
)

func (m model) View() string { return strings.Join(m.lines(), "\n") }

func (m model) lines() []string {
	if m.width < 1 || m.height < 1 {
		return nil
	}
	return m.frames.Draw(m.sheet(), m.width, m.height, m.style)
}

// sheet is what is in front, with the call over it.
func (m model) sheet() widget.Sheet {
	sheet := m.front()
	sheet.Call = m.overhead()
	if m.rehearses() && !strings.Contains(sheet.Head.Left+sheet.Head.Right, rehearsed) {
		sheet.Head.Right = wording.Joined(" · ", rehearsed, sheet.Head.Right)
	}
	return sheet
}

// rehearsed stands at the head of every screen while a day is one.
const rehearsed = "rehearsed"

// rehearses tells whether a day is an invented one.
func (m model) rehearses() bool { return slices.ContainsFunc(m.snap.Days, rehearsedDay) }

// front is the screen on top, with what stands in the way of it.
func (m model) front() widget.Sheet {
	top := m.stack[len(m.stack)-1]
	env := m.env()
	if m.help {
		return m.helpSheet(top, env)
	}
	if m.leaving != staying {
		return m.leavingSheet()
	}
	sheet := top.screen(env).View(env)
	if top.say.on() {
		sheet = m.saySheet(sheet, top, env)
	}
	trouble := "" // with the disk of a day that is written here: it stands, whatever a key was answered with
	if v, ok := env.Day(); ok {
		if top.at == screen.AtAid {
			v.Trouble = "" // the disk can wait
		}
		if !v.Looking {
			trouble = v.Trouble
		}
		sheet.Banner = lookedAt(v, ownDay(m.snap, v.ID), top.at != screen.AtAid)
		switch word := absence(v); {
		case v.Trouble != "" || v.Looking:
		case word != "":
			sheet.Banner = word
		case v.Unheard != "":
			sheet.Banner = v.Unheard
		case v.Advice != "":
			sheet.Banner = v.Advice
		case sheet.Banner == "" && top.at != screen.AtAid:
			sheet.Banner = m.boards.trouble
		}
	}
	if top.at == screen.AtLog && sheet.Banner == "" {
		sheet.Banner = m.troubleOf(top.day)
	}
	if m.word != "" {
		sheet.Banner = wording.Joined("; ", m.word, trouble)
	}
	sheet.Keys = m.keysOf(top, env, 4)
	return sheet
}

// troubleOf is what is wrong with the file of a vat's last day, as home tells it.
func (m model) troubleOf(id string) string {
	v, _ := wording.First(m.home.Vats, func(v screen.Vat) bool { return v.ID() == id })
	return v.Trouble
}

// absence is a sleep or a clock step that was noticed within the last minute and nobody has answered since.
func absence(v engine.View) string {
	if !absent(v.State) {
		return ""
	}
	last := v.State.Log[len(v.State.Log)-1]
	if v.Now.Sub(last.At) > time.Minute {
		return ""
	}
	return last.Body.Sentence(v.State.Head.Setup.System())
}

// absent tells whether a sleep or a clock step is the last that happened.
func absent(s day.State) bool {
	if len(s.Log) == 0 {
		return false
	}
	switch s.Log[len(s.Log)-1].Body.(type) {
	case day.Slept, day.ClockStepped:
		return true
	}
	return false
}
