package day

import "slices"

// growing is a state that shares nothing with another of what an event changes, so that it is changed in place.
type growing struct {
	State
	at        map[string]int // where each tag stands in Pieces
	stretched map[string]int // how many of Shifts each timer has
	holds     bool           // what is called to go in is kept in mind
}

// own is a copy of the state to change. A list that only grows is copied when it does.
func (s State) own() *growing {
	s.Given, s.Scoops, s.portions, s.samples = slices.Clip(s.Given), slices.Clip(s.Scoops), slices.Clip(s.portions), slices.Clip(s.samples)
	s.doneToday, s.seen, s.unsaid = slices.Clip(s.doneToday), slices.Clip(s.seen), slices.Clip(s.unsaid)
	s.Shifts, s.tried = slices.Clone(s.Shifts), slices.Clone(s.tried)
	s.Pieces = slices.Clone(s.Pieces)
	for i := range s.Pieces {
		p := &s.Pieces[i]
		p.Past, p.Finishing.Behind = slices.Clone(p.Past), slices.Clone(p.Finishing.Behind)
	}
	g := &growing{State: s, stretched: map[string]int{}}
	for _, sh := range s.Shifts {
		g.stretched[sh.Timer]++
	}
	g.index()
	return g
}

// index notes where each piece stands: of two with one tag the first.
func (s *growing) index() {
	s.at = make(map[string]int, len(s.Pieces))
	for i := range s.Pieces {
		if _, twice := s.at[s.Pieces[i].Tag]; !twice {
			s.at[s.Pieces[i].Tag] = i
		}
	}
}

func (s *growing) give(sh Shift) {
	s.Shifts = append(s.Shifts, sh)
	s.stretched[sh.Timer]++
}

// clearShifts forgets what was given to a timer that begins anew.
func (s *growing) clearShifts(timer string) {
	for i := len(s.Shifts) - 1; s.stretched[timer] > 0; i-- {
		if s.Shifts[i].Timer == timer {
			s.Shifts = slices.Delete(s.Shifts, i, i+1)
			s.stretched[timer]--
		}
	}
}
