package engine

import (
	"time"

	"example.org/vatside/model/load"
	"example.org/vatside/model/outlook"
)

// The outlook of a day and its blues take some milliseconds to reckon: that is done beside the engine, so that no event waits for it, and
// shown as soon as it is there. It is made anew after each event and with each minute.

// sight is an outlook that was reckoned.
type sight struct {
	id    string
	of    outlook.Outlook
	blue  outlook.Blue
	table *outlook.Table // nil: as it was
}

// look has a new outlook reckoned if the one at hand is old.
func (s *session) look(to chan<- sight) {
	now := s.now().Truncate(time.Minute)
	if s.looking || s.seen == len(s.state.Log) && s.seenAt.Equal(now) {
		return
	}
	s.looking, s.seen, s.seenAt = true, len(s.state.Log), now
	state, at, id := s.state, s.now(), s.id
	before, planned := s.table, s.planned == len(s.state.Log)
	s.planned = len(s.state.Log)
	go func() {
		o := outlook.Of(state, at)
		x := sight{id: id, of: o, blue: outlook.Blues(state, o, at)}
		if !planned && !o.Empty { // the pieces stand as they stood, unless something happened
			var plan load.Plan
			if before != nil {
				plan = before.Plan
			}
			table := outlook.Timetable(state, o, x.blue, plan, at)
			x.table = &table
		}
		to <- x
	}()
}

// sighted takes an outlook.
func (e *Engine) sighted(x sight) {
	for _, s := range e.days {
		if s.id == x.id {
			s.looking, s.outlook, s.blue = false, &x.of, &x.blue
			if x.table != nil {
				s.table = x.table
			}
		}
	}
}
