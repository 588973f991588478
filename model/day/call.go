package day

import (
	"cmp"
	"fmt"
	"strings"
	"time"

	"example.org/vatside/model/wording"
)

// Call is what the hands are asked for now. Every front end shows it and words nothing itself.
type Call struct {
	ID      string   // verb, object and attempt, "lift A1 4": a change of wording, its last minute and zero never change it
	Verb    string   // lower case: lift, lower, weigh, add, stir, wait, look, rest, close …
	Object  string   // what of: "A1", "A1 B1", "reducer"; may be empty
	Tags    []string // the pieces that go in or come out together by one press
	Short   string   // at most 12 cells, for large letters: "LIFT A1", "A1 IN"; a long tag is cut to 5 with ~
	Words   string   // the sentence: "Lift A1 out"
	Figure  *float64 // what is still to do, in Unit: grams, litres, °C; of a time the seconds left, negative: over
	Unit    string   // "g", "L", "°C", "s"; empty: none
	Due     *Due     // when; nil: no time runs for it
	Press   string   // what the big key does, as a word; empty: nothing
	Danger  bool     // powder, lye, hot water, heater, acid or lifting a vessel belongs to it
	Caution string   // to be answered first; empty: none, or answered
	How     string
	Why     string
	Act     Act // the act behind it
}

// Compare says which of two calls of several vats rules: danger first, then lifting, then the earliest due, where a call
// without a time wants the hands now. Negative: c does.
func (c Call) Compare(o Call) int {
	rank := func(c Call) int {
		switch {
		case c.Danger:
			return 0
		case c.Verb == "lift":
			return 1
		case c.Act.Kind == ActHold: // it wants nothing
			return 3
		}
		return 2
	}
	left := func(c Call) float64 {
		if c.Due == nil {
			return 0
		}
		return *c.Figure
	}
	return cmp.Or(cmp.Compare(rank(c), rank(o)), cmp.Compare(left(c), left(o)))
}

// Runs tells whether a time runs for the call: to its end, or up, as for a strip that is watched.
func (c Call) Runs() bool { return c.Due != nil || c.Act.Kind == ActStrip }

// Row is the call with its time in one short row, as it stands over other things: "A1 IN, out in 1:55", "LIFT A1 0:40 over",
// "BLUE YET? 0:23". It is empty while no time runs for it.
func (c Call) Row(now time.Time) string {
	switch {
	case !c.Runs():
		return ""
	case c.Due == nil:
		return c.Short + " " + Countdown(time.Duration(*c.Figure*float64(time.Second)))
	}
	left := c.Due.At.Sub(now)
	switch {
	case c.Held(now):
		return c.Short + ", in at zero"
	case left <= 0:
		return c.Short + " " + Countdown(-left) + " over"
	case c.Act.Kind == ActLift && left > LastMinute:
		return c.Short + ", out in " + Countdown(left)
	case c.Act.Kind == ActLift:
		return c.Short + " in " + Countdown(left)
	}
	return c.Short + ", " + Countdown(left) + " left"
}

// Held tells whether the piece of a lift is held over the vat: its dip begins in a moment.
func (c Call) Held(now time.Time) bool { return c.Act.Kind == ActLift && now.Before(c.Act.Piece.Since) }

// Brief is the call in a few words: "B1 in".
func (c Call) Brief() string {
	switch c.Verb {
	case "lift":
		return strings.Join(c.Tags, ", ") + " out"
	case "lower":
		return strings.Join(c.Tags, ", ") + " in"
	}
	return c.lower()
}

// lower are the words of a call within a sentence: a tag stays as it is.
func (c Call) lower() string {
	if tag := c.Act.Piece.Tag; tag != "" && strings.HasPrefix(c.Words, tag) {
		return c.Words
	}
	return wording.Lower(c.Words)
}

// LastMinute is how long before its end a lift says what to do, and one press does it.
const LastMinute = time.Minute

// Facts are what else is to be known of the call, in a few words each: what the piece is, which dip it is about, till when.
func (c Call) Facts(now time.Time) []string {
	a := c.Act
	dip := func(no int) string { return fmt.Sprintf("dip %d of %d", no, max(no, a.Piece.Want())) }
	var out []string
	switch {
	case c.Held(now):
		return wording.Filled(a.Piece.Spec.What, dip(a.Dip), "in at zero")
	case a.Apart() != "":
		out = []string{a.Apart()}
	case len(a.Tags) > 1:
		out = []string{strings.Join(a.Tags, ", ")}
	case a.Kind != ActSkim && a.Kind != ActIdle: // those are about the vat
		out = wording.Filled(a.Piece.Spec.What)
	}
	switch {
	case a.Apart() != "":
	case a.Kind == ActLift, a.Kind == ActEnter:
		out = append(out, dip(a.Dip))
	case a.Kind == ActAir:
		out = append(out, "after "+dip(a.Piece.Dips))
	}
	if c.Due != nil && now.Before(c.Due.At) {
		out = append(out, "till "+DateOf(c.Due.At, now))
	}
	of := wording.Either(a.Load != nil, a.Load, []Piece{a.Piece})
	for _, p := range of {
		if p.Live() && p.Spec.Till != "" {
			out = append(out, wording.Joined(" ", wording.If(len(of) > 1, p.Tag), p.Spec.Who, "leaves", p.Spec.Till))
		}
	}
	return out
}

// Sentence is the call as a sentence with its end, for a place beside the large letters; empty where those say as much.
func (c Call) Sentence() string {
	switch c.Act.Kind {
	case ActLift, ActEnter, ActAir, ActRest:
		return ""
	case ActStep:
		if c.Verb == "read" && c.Act.Press == "" && c.Act.Entry == TempEntry { // How asks for it, with its limit
			return ""
		}
	}
	if strings.HasSuffix(c.Words, "?") {
		return c.Words
	}
	return strings.TrimSuffix(c.Words, ".") + "."
}

// Glance is the call as the shortest state, for a window's title: "3:20 A1", "0:40 A1 out", "LIFT A1 0:10 over", "12:40 wait".
func (c Call) Glance(now time.Time) string {
	if c.Due == nil || c.Held(now) {
		return c.Short
	}
	left := c.Due.At.Sub(now)
	what := strings.Join(c.Tags, " ")
	if what == "" {
		if what = c.Act.Piece.Tag; what == "" {
			what = c.Verb
		}
	}
	switch {
	case left <= 0:
		return c.Short + " " + Countdown(-left) + " over"
	case c.Act.Kind == ActLift && left <= LastMinute:
		return Countdown(left) + " " + what + " out"
	}
	return Countdown(left) + " " + what
}
