package clock

import (
	"slices"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/screen"
)

// standing is how the chosen piece stood as it was chosen, and which lift was due then.
type standing struct {
	phase day.Phase
	dips  int
	due   string    // the id of that call; empty: none
	asked time.Time // when it was asked whether it comes out long before its time; zero: not
}

// answer is the big key while a piece is chosen.
func (s Screen) answer(v engine.View) (Screen, screen.Request) {
	c := v.Call()
	if slices.Equal(c.Tags, []string{s.chosen}) && (c.Verb == "lift" || c.Verb == "lower") { // it is the call
		return s, screen.Do{Command: screen.Press(v)}
	}
	for _, d := range v.Dues() {
		left, since := d.At.Sub(v.Now), v.Now.Sub(s.stood.asked)
		switch {
		case d.Kind != day.DueLift || d.Tag != s.chosen || left <= day.LastMinute || since >= engine.LeastAsked && since <= engine.StillAsked:
		case since < engine.LeastAsked:
			return s, screen.Say{Word: "not taken: it came too soon after the first; press once more"}
		default:
			s.stood.asked = v.Now
			return s, screen.Say{Word: s.chosen + ": " + day.Countdown(left) + " left, and it would come out now; press once more", Asks: true}
		}
	}
	return s, screen.Do{Command: command(v.State, s.chosen)} // the choice stays until it is done
}

// pick chooses a piece; empty: none.
func (s Screen) pick(tag string, v engine.View) Screen {
	p, _ := v.State.Piece(tag)
	s.chosen, s.stood = tag, standing{phase: p.Phase, dips: p.Dips}
	if c, due := dueLift(v); due {
		s.stood.due = c.ID
	}
	return s
}

// held is the screen without a choice whose act is done.
func (s Screen) held(v engine.View) Screen {
	p, ok := v.State.Piece(s.chosen)
	if s.chosen != "" && (!ok || p.Phase != s.stood.phase || p.Dips != s.stood.dips) {
		return s.pick("", v)
	}
	return s
}

// overtaken tells whether another lift has fallen due since the piece was chosen.
func (s Screen) overtaken(v engine.View) (day.Call, bool) {
	c, due := dueLift(v)
	return c, due && s.chosen != "" && c.ID != s.stood.due && !slices.Contains(c.Tags, s.chosen)
}

// shown is the screen as it stands: with the choice as long as a press is for it.
func (s Screen) shown(v engine.View) Screen {
	s = s.held(v)
	if _, is := s.overtaken(v); is {
		s.chosen = ""
	}
	return s
}

// dueLift is the call where it is a lift whose time is over.
func dueLift(v engine.View) (day.Call, bool) {
	c := v.Call()
	return c, c.Verb == "lift" && c.Due != nil && !v.Now.Before(c.Due.At)
}
