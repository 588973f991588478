package day

import "slices"

// growing is a state that shares nothing with another of what an event changes, so that it is changed in place.
type growing struct {
	State
	at        map[string]int  // where each tag stands in Pieces
	stretched map[string]int  // how many of Shifts each timer has
	holds     bool            // what is called to go in is kept in mind
	changed   map[string]bool // pieces whose lists are its own too
}

// own is a copy of the state to change. A list that only grows is copied when it does.
func (s State) own() *growing {
	s.Given, s.Scoops, s.portions, s.samples = slices.Clip(s.Given), slices.Clip(s.Scoops), slices.Clip(s.portions), slices.Clip(s.samples)
	s.doneToday, s.seen, s.unsaid = slices.Clip(s.doneToday), slices.Clip(s.seen), slices.Clip(s.unsaid)
	s.Shifts, s.tried = slices.Clone(s.Shifts), slices.Clone(s.tried)
	s.Pieces = slices.Clone(s.Pieces)
	g := &growing{State: s, stretched: map[string]int{}, at: make(map[string]int, len(s.Pieces)), changed: map[string]bool{}}
	for _, sh := range s.Shifts {
		g.stretched[sh.Timer]++
	}
	for i := range g.Pieces {
		if _, twice := g.at[g.Pieces[i].Tag]; !twice {
			g.at[g.Pieces[i].Tag] = i
		}
	}
	return g
}

// piece is a piece to be changed: its lists are copied the first time.
func (s *growing) piece(i int) *Piece {
	p := &s.Pieces[i]
	if !s.changed[p.Tag] {
		s.changed[p.Tag], p.Past, p.Finishing.Behind = true, slices.Clone(p.Past), slices.Clone(p.Finishing.Behind)
	}
	return p
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
