package clock

import (
	"fmt"
	"slices"
	"strings"

	"example.org/vatside/model/day"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/screen"
)

// part is what of several pieces that go in or come out together stays as it is at the next press; it holds for one call.
type part struct {
	of   string   // the id of the call
	tags []string // what is left out of it
}

// left are the pieces that are left out of a call.
func (p part) left(c day.Call) []string {
	if p.of != c.ID {
		return nil
	}
	return p.tags
}

// call is what the hands are asked for, without what was left out of it.
func (s Screen) call(v engine.View) day.Call {
	c := v.Call()
	return c.Without(v.State, s.left(c), v.Now)
}

// press is the big key.
func (s Screen) press(v engine.View) day.Command {
	c := v.Call()
	if left := s.left(c); len(left) > 0 {
		return day.Done{Call: c.ID, Without: strings.Join(left, "\t")}
	}
	return screen.Press(v)
}

// parts tells whether figures leave pieces out of a call: of a lift from its last minute on, and of what goes in where nothing is
// asked beside a rung.
func (s Screen) parts(v engine.View, c day.Call) bool {
	if len(c.Tags) < 2 || s.chosen != "" {
		return false
	}
	if c.Act.Kind == day.ActLift {
		left, _ := c.Act.Left(v.Now)
		return left <= day.LastMinute
	}
	if _, asked := v.Look(); asked { // its figures answer it
		return false
	}
	_, looked, ok := s.compared(v)
	return c.Act.Kind == day.ActEnter && (len(rungs(v)) == 0 || !ok || looked)
}

// leave leaves the piece on a peg out of the call, or takes it in again; false where figures mean something else. The last one stays
// in it.
func (s Screen) leave(v engine.View, peg int) (Screen, bool) {
	c := v.Call()
	if !s.parts(v, c) {
		return s, false
	}
	if peg > len(v.State.Pieces) || !slices.Contains(c.Tags, v.State.Pieces[peg-1].Tag) {
		return s, true
	}
	tag, left := v.State.Pieces[peg-1].Tag, slices.Clone(s.left(c))
	if at := slices.Index(left, tag); at >= 0 {
		left = slices.Delete(left, at, at+1)
	} else if len(left) < len(c.Tags)-1 {
		left = append(left, tag)
	}
	s.part = part{c.ID, left}
	return s, true
}

// partly says that one press is for several pieces, and which of them are left out.
func (s Screen) partly(v engine.View) string {
	c := v.Call()
	if !s.parts(v, c) {
		return ""
	}
	if left := s.left(c); len(left) > 0 {
		return fmt.Sprintf("Left out: %s; its peg's number takes it in again.", strings.Join(left, ", "))
	}
	all := "both"
	if n := len(c.Tags); n > 2 {
		all = fmt.Sprintf("all %d", n)
	}
	return "One press for " + all + "; a peg's number leaves it out."
}
