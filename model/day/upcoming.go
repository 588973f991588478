package day

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"example.org/vatside/model/wording"
)

// Upcoming is what comes after the call, in a few words; empty when nothing is known to.
func Upcoming(s State, now time.Time) string { return CallOf(s, now).Upcoming(s, now) }

// Upcoming is the same where the call of that instant is known.
func (c Call) Upcoming(s State, now time.Time) string {
	act := c.Act
	if act.Kind == ActLift {
		return s.afterLift(act, now)
	}
	if end, waits := s.WaitsUntil(); waits && act.Kind == ActRound {
		return "wait, till " + DateOf(end, now)
	}
	if st, ok := s.Open(); ok && (act.Kind == ActGoods || act.Kind == ActReady) {
		return wording.Lower(st.Title)
	}
	if st, ok := s.Open(); ok {
		if d, waits := wording.First(s.stepDues(), func(d Due) bool { return d.Kind == DueRecheck && d.At.After(now) }); waits {
			return "look again at " + DateOf(d.At, now)
		}
		if st.No < len(s.Plan) {
			return wording.Lower(s.Plan[st.No].Title)
		}
		switch {
		case s.Head.Setup.Ending:
			return "the vat has ended; its book stays"
		case len(s.Pieces) > 0:
			return "the first dip"
		}
		return "the pieces"
	}
	if act.Kind == ActBench {
		if words := s.BenchThen(act.Piece); words != "" {
			return words + " of " + act.Piece.Tag
		}
	}
	if act.Kind == ActDecide && act.Dip >= act.Piece.Want() {
		return "no green left in " + act.Piece.Tag + "?"
	}
	if act.Kind == ActWetOut || act.Kind == ActSkim || act.Kind == ActDecide {
		if s.Talks() {
			return act.Piece.Tag + " waits"
		}
		return "in " + act.Piece.Tag + ", edge first"
	}
	for _, d := range Dues(s) {
		if d.Kind == DueEnter && (s.Talks() || act.Kind == ActRest && act.Due.At.After(d.At)) {
			continue
		}
		if act.Due != nil && d.Timer == act.Due.Timer || act.Kind == ActEnter && d.Tag == act.Piece.Tag {
			continue
		}
		words, _, _ := strings.Cut(wording.Lower(d.Words), ":")
		words += wording.If(d.At.After(now), " at "+DateOf(d.At, now))
		return words
	}
	if act.Kind == ActAir && act.Due != nil {
		return wording.Either(s.Talks() && act.Due.Kind == DueEnter, act.Piece.Tag+" waits", wording.Lower(act.Due.Words))
	}
	if act.Kind == ActEnter {
		first := slices.MinFunc(act.Load, func(a, b Piece) int { return cmp.Compare(a.NextDip(), b.NextDip()) })
		return "out " + first.Tag + " after " + first.NextDip().String()
	}
	return ""
}

func (s State) afterLift(act Act, now time.Time) string {
	if in := s.beside(now); len(in) > 0 {
		return "in " + strings.Join(tagsOf(in), ", ") + ", edge first"
	}
	if act.Dip >= act.Piece.Want() {
		return "last airing of " + act.Piece.Tag + ", " + act.Piece.AirTime(true).String()
	}
	return "air " + act.Piece.Tag + ", " + act.Piece.AirTime(false).String()
}

// NowLine is the present moment in one line: "runner A1 in the vat, dip 3 of 7, 4:10 left".
func NowLine(s State, now time.Time) string { return CallOf(s, now).Line(s, now) }

// Line is the call of an instant as one line: what is so, or what the hands do, and how long it has.
func (c Call) Line(s State, now time.Time) string {
	line := c.line(s, now)
	line += wording.If(s.Talks() && !s.Closed && c.Act.Kind != ActHold, "; talking, pieces wait")
	return line
}

func (c Call) line(s State, now time.Time) string {
	a, words := c.Act, c.lower()
	timed := ""
	if c.Due != nil {
		timed = ", " + Countdown(c.Due.At.Sub(now)) + " left"
		if over := now.Sub(c.Due.At); over > 0 {
			timed = ", " + Countdown(over) + " over"
		}
	}
	if timed != "" {
		words = strings.TrimSuffix(words, "?")
	}
	dip := func(no int) string {
		if apart := a.Apart(); apart != "" {
			return ", " + apart
		}
		return fmt.Sprintf(", dip %d of %d", no, max(no, a.Piece.Want()))
	}
	switch a.Kind {
	case ActClosed:
		if st := Between(s, now); len(st) > 0 && !st[0].At.IsZero() {
			return "day closed; " + st[0].Words + " at " + DateOf(st[0].At, now)
		}
		return "day closed"
	case ActStep:
		return fmt.Sprintf("step %d of %d: %s%s", a.Step.No, len(s.Plan), words, timed)
	case ActLift:
		if c.Held(now) {
			return words + dip(a.Dip)
		}
		if c.Due.At.Sub(now) > LastMinute {
			words = s.names(a.Tags) + " in the vat"
		}
		return words + dip(a.Dip) + timed
	case ActAir:
		return fmt.Sprintf("%s airing after%s%s", a.Piece.Name(), strings.TrimPrefix(dip(a.Piece.Dips), ","), timed)
	case ActFinish:
		return a.Piece.Name() + " has aired after" + strings.TrimPrefix(dip(a.Piece.Dips), ",") + timed + ": no green left?"
	case ActDecide:
		return fmt.Sprintf("%s has aired after%s: enough?", a.Piece.Name(), strings.TrimPrefix(dip(a.Piece.Dips), ","))
	case ActBench:
		return a.Piece.Name() + ": " + words + timed
	case ActWetOut, ActSkim, ActEnter:
		tags := wording.Either(len(a.Tags) > 0, a.Tags, []string{a.Piece.Tag})
		goes := wording.Either(len(tags) > 1, "go", "goes")
		return s.names(tags) + " " + goes + " in next" + dip(a.Dip) + ": " + words
	}
	return words + timed
}

func (s State) names(tags []string) string {
	var out []string
	for _, tag := range tags {
		p, _ := s.Piece(tag)
		out = append(out, p.Name())
	}
	return strings.Join(out, ", ")
}
