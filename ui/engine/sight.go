package engine

import (
	"time"

	"example.org/vatside/model/outlook"
)

// The outlook of a day and its blues take some milliseconds to reckon: that is done beside the engine, so that no event waits for it, and
// shown as soon as it is there. It is made anew after each event and with each minute.

// sight is an outlook that was reckoned.
type sight struct {
	id   string
	of   outlook.Outlook
	blue outlook.Blue
}

// look has a new outlook reckoned if the one at hand is old.
func (s *session) look(to chan<- sight) {
	now := s.now().Truncate(time.Minute)
	if s.looking || s.seen == len(s.state.Log) && s.seenAt.Equal(now) {
		return
	}
	s.looking, s.seen, s.seenAt = true, len(s.state.Log), now
	state, at, id := s.state, s.now(), s.id
	go func() {
		o := outlook.Of(state, at)
		to <- sight{id, o, outlook.Blues(state, o, at)}
	}()
}

// sighted takes an outlook.
func (e *Engine) sighted(x sight) {
	for _, s := range e.days {
		if s.id == x.id {
			s.looking, s.outlook, s.blue = false, &x.of, &x.blue
		}
	}
}
