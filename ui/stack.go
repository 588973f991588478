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
	"example.org/vatside/ui/widget"
)

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

// screens are how the screens are opened but for home, which is always there, and a day's own.
var screens = map[screen.Place]func(screen.Env) screen.Screen{
	screen.AtSetup: setup.New, screen.AtPiece: piece.New, screen.AtLog: logbook.New, screen.AtAid: aid.New, screen.AtPlan: plan.New,
	screen.AtTable: timetable.New, screen.AtLadder: ladder.New, screen.AtStock: stock.New, screen.AtDose: dose.New, screen.AtBench: bench.New,
	screen.AtSigns: signs.New, screen.AtCare: care.New, screen.AtUnsaid: unsaid.New, screen.AtCourse: course.New, screen.AtCost: cost.New,
	screen.AtPrepare: prepare.New,
}

// push opens a place over this one.
func (m model) push(at screen.Place, id, tag string) model {
	m.stack = append(slices.Clone(m.stack), place{at: at, day: id, tag: tag})
	top := &m.stack[len(m.stack)-1]
	if at == screen.AtDay {
		top.shows, top.steps = follow.New(m.env()), true
		m.lastDay = id
		return m.settle()
	}
	if open, ok := screens[at]; ok {
		top.shows = open(m.env())
	} else {
		m.stack = m.stack[:1]
	}
	return m
}

// ofDay tells whether a place is a screen of a day: the keys of the table of answers are carried out there.
func ofDay(at screen.Place) bool {
	return !slices.Contains([]screen.Place{screen.AtHome, screen.AtSetup, screen.AtAid, screen.AtCost, screen.AtStock, screen.AtPrepare}, at)
}

// screen is what is shown at a place. A screen of a day is only asked while that is open; three of them say themselves what they do
// without it.
func (p place) screen(env screen.Env) screen.Screen {
	without := !ofDay(p.at) || p.at == screen.AtPiece || p.at == screen.AtLog || p.at == screen.AtCare
	if _, open := env.Day(); open || without {
		return p.shows
	}
	return notOpen{}
}

// notOpen stands for a screen of a day that is not open: each key leaves it.
type notOpen struct{}

func (s notOpen) Update(screen.Key, screen.Env) (screen.Screen, []screen.Request) {
	return s, []screen.Request{screen.Leave{}}
}
func (notOpen) View(screen.Env) widget.Sheet { return widget.Sheet{Act: "This day is not open"} }
func (notOpen) Keys(screen.Env) []widget.Key { return nil }
