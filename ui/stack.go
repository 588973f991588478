package ui

import (
	"slices"

	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/screen/aid"
	"example.org/vatside/ui/screen/bench"
	"example.org/vatside/ui/screen/care"
	"example.org/vatside/ui/screen/clock"
	"example.org/vatside/ui/screen/cost"
	"example.org/vatside/ui/screen/course"
	"example.org/vatside/ui/screen/dose"
	"example.org/vatside/ui/screen/follow"
	"example.org/vatside/ui/screen/ladder"
	"example.org/vatside/ui/screen/logbook"
	"example.org/vatside/ui/screen/piece"
	"example.org/vatside/ui/screen/plan"
	"example.org/vatside/ui/screen/prepare"
	"example.org/vatside/ui/screen/setup"
	"example.org/vatside/ui/screen/signs"
	"example.org/vatside/ui/screen/stock"
	"example.org/vatside/ui/screen/timetable"
	"example.org/vatside/ui/screen/unsaid"
)

// place is one screen on the stack.
type place struct {
	at    screen.Place
	day   string
	tag   string // the piece that it is about
	steps bool   // AtDay: the screen shown is the following, not the clock
	shows screen.Screen
	say   sayLine // over it

	brought bool // AtDay: it came to the front by itself, as its call was due
}

// settle puts the following or the clock on top of a day, as its steps stand.
func (m model) settle() model {
	for i, p := range m.stack {
		if p.at != screen.AtDay {
			continue
		}
		v, ok := m.snap.Day(p.day)
		if !ok {
			continue
		}
		if steps := v.State.Step <= len(v.State.Plan); p.shows == nil || steps != p.steps {
			m.stack = slices.Clone(m.stack)
			m.stack[i].steps = steps
			m.stack[i].shows = clock.New(m.env())
			if steps {
				m.stack[i].shows = follow.New(m.env())
			}
		}
	}
	return m
}

// push opens a place over this one.
func (m model) push(at screen.Place, id, tag string) model {
	p := place{at: at, day: id, tag: tag}
	m.stack = append(slices.Clone(m.stack), p)
	env := m.env()
	top := &m.stack[len(m.stack)-1]
	switch at {
	case screen.AtDay:
		top.shows, top.steps = follow.New(env), true
		m.lastDay = id
		return m.settle()
	case screen.AtSetup:
		top.shows = setup.New(env)
	case screen.AtPiece:
		top.shows = piece.New(env)
	case screen.AtLog:
		top.shows = logbook.New(env)
	case screen.AtAid:
		top.shows = aid.New(env)
	case screen.AtPlan:
		top.shows = plan.New(env)
	case screen.AtTable:
		top.shows = timetable.New(env)
	case screen.AtLadder:
		top.shows = ladder.New(env)
	case screen.AtStock:
		top.shows = stock.New(env)
	case screen.AtDose:
		top.shows = dose.New(env)
	case screen.AtBench:
		top.shows = bench.New(env)
	case screen.AtSigns:
		top.shows = signs.New(env)
	case screen.AtCare:
		top.shows = care.New(env)
	case screen.AtUnsaid:
		top.shows = unsaid.New(env)
	case screen.AtCourse:
		top.shows = course.New(env)
	case screen.AtCost:
		top.shows = cost.New(env)
	case screen.AtPrepare:
		top.shows = prepare.New(env)
	default:
		m.stack = m.stack[:1]
	}
	return m
}
