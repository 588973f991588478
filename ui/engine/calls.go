package engine

import (
	"math"
	"slices"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/cue"
)

// tellOverdue makes one call of all that ran out while nobody could hear, and counts their calls as made.
func (s *session) tellOverdue(caller cue.Caller) {
	now := s.now()
	var over []day.Due
	var keys []dueKey
	for _, d := range s.dues() {
		if now.Before(d.At) {
			continue
		}
		calls, _ := d.Calls(now)
		if calls <= s.called[key(d)] { // told already
			continue
		}
		s.called[key(d)] = calls
		keys = append(keys, key(d))
		over = append(over, d)
	}
	if len(over) > 0 {
		s.sounds(caller, cue.Call{Cue: cue.Overdue, Words: s.said(day.Together(s.state, over, now, day.Spoken), "; ")}, keys...)
	}
}

// together is how near two calls are told as one: the hands go to the vat once.
const together = 5 * time.Second

// call sounds what is due and was not called as often as it should have been: the most pressing one, with the words of all
// that fall together with it. It tells whether it called.
func (s *session) call(caller cue.Caller, now time.Time) (called bool) {
	best := cue.Call{Level: -1}
	var over, soon []day.Due
	var keys []dueKey
	dues := s.dues()
	present := s.at(now).call
	s.notice(present)
	if len(dues) > 0 && !now.Before(dues[0].At) { // an airing may have ended before what was to be done first
		if d, _, ok := day.EntryDue(s.state, now); ok && s.called[key(d)] == 0 {
			dues = append(slices.Clone(dues), d)
		}
	}
	again := false
	for _, d := range dues {
		if in := d.At.Sub(now); d.Kind == day.DueLift && now.Before(d.Since) {
			s.countIn(caller, d, now)
			continue
		} else if in > 0 {
			before := dueKey{d.Timer, "soon", d.At.Unix()}
			if in <= day.LastMinute && in > day.LastMinute-together && d.At.Sub(d.Since) >= leastSoon && d.Kind != day.DueTurn && s.called[before] == 0 {
				s.called[before] = 1
				soon = append(soon, d)
			}
			continue
		}
		n, level := d.Calls(now)
		if n <= s.called[key(d)] {
			continue
		}
		s.called[key(d)] = n
		keys = append(keys, key(d))
		over = append(over, d)
		again = again || n > 1 && present.Of(d)
		switch late := d.Late(now); {
		case late && best.Cue != cue.Overdue:
			best = cue.Call{Cue: cue.Overdue, Level: level}
		case late == (best.Cue == cue.Overdue) && level > best.Level:
			best.Cue, best.Level = cueOf(d.Kind), level
			if late {
				best.Cue = cue.Overdue
			}
		}
	}
	if best.Level < 0 {
		if len(soon) > 0 {
			caller.Call(cue.Call{Cue: cue.Soon, Words: s.said(day.Together(s.state, soon, now, day.Soon), "; then ")})
		}
		return len(soon) > 0
	}
	for _, d := range dues { // what comes within seconds is called along, once
		if in := d.At.Sub(now); in > 0 && in <= together && s.called[key(d)] == 0 && !now.Before(d.Since) && d.Kind != day.DueTurn {
			s.called[key(d)] = 1
			keys = append(keys, key(d))
			over = append(over, d)
		}
	}
	words := day.Together(s.state, over, now, day.Spoken)
	if again {
		words[len(words)-1] = wording.Joined(", ", words[len(words)-1], day.Stops(s.state, now, s.state.Sound.Heard && s.failed == ""))
	}
	best.Words = s.said(words, "; then ")
	s.sounds(caller, best, keys...)
	return true
}

// leastSoon is the shortest time of which it is said that it is over in a minute.
const leastSoon = 3 * time.Minute

// countIn calls the seconds before a short dip begins: one call, which ticks to the end.
func (s *session) countIn(caller cue.Caller, d day.Due, now time.Time) {
	left := int(math.Ceil(d.Since.Sub(now).Seconds()))
	k := dueKey{d.Timer, "in", d.Since.Unix()}
	if left < 1 || left > 5 || s.called[k] > 0 {
		return
	}
	s.called[k] = left
	caller.Call(cue.Call{Cue: cue.Count, Level: left})
}

func cueOf(k day.DueKind) cue.Cue {
	switch k {
	case day.DueLift:
		return cue.Out
	case day.DueEnter, day.DueFinish:
		return cue.In
	case day.DueTurn:
		return cue.Turn
	}
	return cue.Ready
}
