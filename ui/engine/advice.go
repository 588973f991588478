package engine

import (
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/load"
	"example.org/vatside/model/outlook"
	"example.org/vatside/ui/guard"
)

// The outlook of a day takes some milliseconds to reckon, its blues and its timetable a tenth of a second: that is done
// beside the engine, so that no event waits for it, and shown as soon as it is there. All is asked again after each
// event, of the blues only what goes by other facts is reckoned anew; the outlook with each minute, and the blues, which time alone
// changes little, with each quarter of an hour.

// blueLasts is how long the blues hold while nothing happens.
const blueLasts = 15 * time.Minute

// Advised is outlook.Advised; where the forecasts fail the day is as it is.
func Advised(s day.State) (advised day.State, table *outlook.Table) {
	if guard.Try("advice", func() { advised, table = outlook.Advised(s) }) != nil {
		return s, nil
	}
	return advised, table
}

// ruled takes a timetable: it says which pieces go in together, and where many share the vat whose turn it is.
// What is called already goes by it, too, where nothing was done since the day was opened or read anew.
func (s *session) ruled(t *outlook.Table, untouched bool) {
	var turn []string
	if len(t.Pieces) >= outlook.Ruled {
		turn = t.Turn()
	}
	s.table = t
	if untouched && turn != nil {
		s.set(s.state.AdvisedBefore(turn, t.Goes()))
	} else {
		s.set(s.state.Advised(turn, t.Goes(), s.now()))
	}
}

// ledEffort bounds the search of a day that is led at full speed: it waits for its timetable, so that the same day always
// goes the same way.
const ledEffort = 200_000

// plan makes the timetable of a led day at once.
func (s *session) plan() {
	if _, led := s.source.(*Led); !led || s.advice != "" {
		return
	}
	if !outlook.Rules(s.state) {
		return
	}
	var before load.Plan
	if s.table != nil {
		before = s.table.Plan
	}
	if guard.Try("advice", func() {
		t := outlook.Timetable(s.state, outlook.Of(s.state, s.now()), outlook.Blue{}, before, s.now(), ledEffort)
		s.ruled(&t, false)
	}) != nil {
		s.withoutAdvice()
	}
}

// Fully is the effort of forecasts that a dyer goes by, in steps of the search for a timetable; an engine begins with it.
const Fully = load.UsualEffort

// Advise has the days reckoned beside the engine with such an effort, or, with 0, not at all. It waits for nobody.
func (e *Engine) Advise(effort int) {
	if e.effort.Swap(int64(effort)) != int64(effort) {
		signal(e.roused)
	}
}

// reckon has a new outlook reckoned if the one at hand is old.
func (s *session) reckon(to chan<- reckoned, effort int) {
	if _, led := s.source.(*Led); led || effort == 0 || s.advice != "" {
		return // what nobody watches is not reckoned beside it
	}
	now := s.now().Truncate(time.Minute)
	happened := s.seen != len(s.state.Log)
	if s.reckoning || !happened && s.seenAt.Equal(now) {
		return
	}
	s.reckoning, s.seen, s.seenAt = true, len(s.state.Log), now
	happened = happened || s.state.Talks() // what is held back slides
	blues := happened || now.Sub(s.bluesAt) >= blueLasts
	if blues {
		s.bluesAt = now
	}
	state, at, id, before := s.state, s.now(), s.id, s.table
	var last outlook.Blue // of what it goes by only a part changes
	if s.blue != nil {
		last = *s.blue
	}
	x := reckoned{id: id}
	guard.GoThen("advice", func() {
		o := outlook.Of(state, at)
		x.of = &o
		if blues {
			b := last.Again(state, o, at)
			x.blue = &b
			if happened && !o.Empty {
				var plan load.Plan
				if before != nil {
					plan = before.Plan
				}
				t := outlook.Timetable(state, o, b, plan, at, effort)
				x.table = &t
			}
		}
	}, func(c *guard.Crash) {
		if c != nil {
			x = reckoned{id: id, failed: true}
		}
		to <- x
	})
}

// adviceOff is what the screens say once the forecasts of a day have failed.
const adviceOff = "the forecasts failed and are off for this day; its times and calls go on"

// withoutAdvice turns the forecasts of the day off, with the word why.
func (s *session) withoutAdvice() {
	s.advice, s.outlook, s.blue, s.table = adviceOff, nil, nil, nil
	s.set(s.state.Advised(nil, nil, s.now()))
}

// advise puts what was reckoned into its day.
func (e *Engine) advise(x reckoned) {
	s := e.session(x.id)
	if s == nil {
		return
	}
	if s.reckoning = false; x.failed {
		s.withoutAdvice()
		return
	}
	s.outlook = x.of
	if x.blue != nil {
		s.blue = x.blue
	}
	if x.table != nil {
		s.ruled(x.table, s.table == nil && len(s.state.Log) == s.began)
	}
}
