package day

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"example.org/vatside/model/wording"
)

// Held tells whether the piece of a lift is held over the vat: its dip begins in a moment.
func (c Call) Held(now time.Time) bool {
	return c.Act.Kind == ActLift && now.Before(c.Act.Piece.Since)
}

// Sentence is the call as a sentence with its end, for a place beside the large letters; empty where those say as much.
func (c Call) Sentence() string {
	switch c.Act.Kind {
	case ActLift, ActEnter, ActAir, ActRest:
		return ""
	}
	if strings.HasSuffix(c.Words, "?") {
		return c.Words
	}
	return strings.TrimSuffix(c.Words, ".") + "."
}

// Facts are what else is to be known of the call, in a few words each: what the piece is, which dip it is about, till when.
func (c Call) Facts(now time.Time) []string {
	a := c.Act
	dip := func(no int) string { return fmt.Sprintf("dip %d of %d", no, max(no, a.Piece.Want())) }
	var out []string
	switch {
	case c.Held(now):
		return wording.Filled(a.Piece.Spec.What, dip(a.Dip), "in at zero")
	case len(a.Tags) > 1:
		out = []string{strings.Join(a.Tags, ", ")}
	case a.Kind != ActSkim && a.Kind != ActIdle: // those are about the vat
		out = wording.Filled(a.Piece.Spec.What)
	}
	switch a.Kind {
	case ActLift, ActEnter:
		out = append(out, dip(a.Dip))
	case ActAir:
		out = append(out, "after "+dip(a.Piece.Dips))
	}
	if c.Due != nil && now.Before(c.Due.At) {
		out = append(out, "till "+Clock(c.Due.At))
	}
	return out
}

// Second is the first of what can be done while the call's time runs, in a few words: "meanwhile: is B1 wet through?"; empty
// where there is nothing.
func Second(s State, now time.Time) string {
	for _, c := range Meanwhile(s, now) {
		return "meanwhile: " + c.Brief()
	}
	return ""
}

// Glance is the call with its time to the minute, as it stands on a task bar: "A1 IN, out in 5 min", "LIFT A1 in 1 min", "LIFT
// A1 now".
func (c Call) Glance(now time.Time) string {
	if c.Due == nil {
		return c.Short
	}
	left := c.Due.At.Sub(now)
	minutes := fmt.Sprintf("%.0f min", math.Floor(left.Minutes())+1)
	switch {
	case c.Held(now):
		return c.Short
	case left <= 0:
		return c.Short + " now"
	case c.Act.Kind == ActLift && left > LastMinute:
		return c.Short + ", out in " + minutes
	case c.Act.Kind == ActLift:
		return c.Short + " in " + minutes
	}
	return c.Short + ", " + minutes
}

// Spoken is what is said when a deadline comes: the call, where the deadline is of the call or of a piece in it, else what the
// hands do then.
func Spoken(s State, d Due, now time.Time) string {
	c := CallOf(s, now)
	switch of := c.Due; {
	case of != nil && of.Timer == d.Timer && of.Kind == d.Kind,
		d.Kind == DueLift && c.Verb == "lift" && slices.Contains(c.Tags, d.Tag),
		d.Kind == DueEnter && c.Due == nil && (c.Act.Piece.Tag == d.Tag || slices.Contains(c.Tags, d.Tag)):
		return c.Words
	}
	return s.Says(d, now)
}

// Without is the call with some of what goes in or comes out together left as it is; the id stays. Where nothing would be left,
// or no two pieces are in it, it is the call itself.
func (c Call) Without(s State, tags []string, now time.Time) Call {
	a, ok := s.less(c.Act, tags)
	if !ok {
		return c
	}
	part := s.callOf(a, now)
	part.ID = c.ID
	return part
}

// less is an act on several pieces without some of them; false where that is the act itself, or nothing.
func (s State) less(a Act, tags []string) (Act, bool) {
	var stay []Piece
	for _, tag := range a.Tags {
		if p, ok := s.Piece(tag); ok && !slices.Contains(tags, tag) {
			stay = append(stay, p)
		}
	}
	if len(stay) == 0 || len(stay) == len(a.Tags) {
		return a, false
	}
	switch a.Kind {
	case ActLift:
		var dues []Due
		for i := range stay {
			dues = append(dues, s.liftDue(&stay[i]))
		}
		return s.liftAct(dues), true
	case ActEnter:
		return s.enterAct(stay), true
	case ActWetOut:
		return wetAct(stay), true
	}
	return a, false
}
