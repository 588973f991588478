package main

import (
	"fmt"
	"strings"
	"time"

	"example.org/vatside/model/wording"
	"example.org/vatside/testdata/bench/words"
)

// replies are what terminals reply to questions, and what else they say of themselves: none of it is ever a key.
func replies() (all []edge) {
	for _, r := range []struct{ name, bytes string }{
		{"OSC 11, closed by ST", "\x1b]11;rgb:1e1e/1e1e/2e2e\x1b\\"},
		{"OSC 11, closed by BEL", "\x1b]11;rgb:ffff/ffff/ffff\a"},
		{"DA1", "\x1b[?62;22c"},
		{"DA2", "\x1b[>41;370;0c"},
		{"DECRPM of 2026", "\x1b[?2026;2$y"},
		{"CPR", "\x1b[24;80R"},
		{"XTVERSION", "\x1bP>|xterm(370)\x1b\\"},
		{"the focus, lost and back", "\x1b[O\x1b[I"},
		{"the mouse moved", "\x1b[<35;10;5M"},
	} {
		all = append(all,
			edge{group: "reply", name: r.name + ", whole, split in two, and byte by byte", brief: r.name == "OSC 11, closed by ST", does: func(t *try) { t.replied(r.bytes) }},
			edge{group: "reply", name: r.name + ", 3 s after the start", does: func(t *try) { t.late(r.bytes) }})
	}
	return all
}

// way is a way for a reply to come.
type way struct {
	name   string
	pieces []string
	gap    time.Duration
}

// ways are all ways for a reply to come; a few of the slow ones in a short run.
func ways(reply string, short bool) (all []way) {
	all = append(all, way{"whole", []string{reply}, 0}, way{"byte by byte", strings.Split(reply, ""), 0})
	for _, gap := range []time.Duration{0, between} {
		for at := 1; at < len(reply); at++ {
			if !short || gap == 0 && at%4 == 1 || at == 1 || at == 9 {
				all = append(all, way{fmt.Sprintf("split behind byte %d, %d ms between", at, gap.Milliseconds()), []string{reply[:at], reply[at:]}, gap})
			}
		}
	}
	if !short {
		all = append(all, way{"byte by byte, 60 ms between", strings.Split(reply, ""), between})
	}
	return all
}

// heed is how long it is looked at whether a reply did something.
const heed = 100 * time.Millisecond

// replied sends a reply in every way into a text field, where each key would stand, and in some into a day, where it would act.
func (t *try) replied(reply string) {
	all, wrong := ways(reply, t.short), 0
	var s *seat
	drop := func() {
		if s != nil {
			s.Kill()
		}
		s = nil // the next begins anew
	}
	defer drop()
	for _, into := range []string{"a text", "a day"} {
		for _, w := range all {
			if into == "a day" && len(w.pieces) == 2 {
				continue
			}
			if s == nil {
				s = t.home(words.Resting).sit()
				wording.Either(into == "a text", t.notes, t.opens)(s)
			}
			if did := s.heeds(w.pieces, w.gap); did != "" {
				wrong++
				t.bad("%s, into %s: %s", w.name, into, did)
				drop()
			}
		}
		drop()
	}
	if tries := len(all) + 3; wrong > 0 {
		t.wrong = append([]string{fmt.Sprintf("%d of %d ways are taken as keys", wrong, tries)}, t.wrong...)
	} else {
		t.say("%d ways", tries)
	}
}

// heeds sends pieces and tells what they did to the screen or the book; empty if nothing.
func (s *seat) heeds(pieces []string, gap time.Duration) string {
	was, events := s.Text(), s.h.events()
	s.send(pieces, gap)
	changed := s.Await(heed, func() bool { return masked(s.Text()) != masked(was) })
	switch _, over := s.Ended(0); {
	case over:
		return "it ended the program"
	case s.h.events() != events:
		return "an act was taken"
	case changed:
		return differs(s.Text(), was)
	}
	return ""
}

// late sends a reply long after the start, into a day.
func (t *try) late(reply string) {
	s := t.home(words.Resting).sit()
	defer s.Kill()
	t.opens(s)
	time.Sleep(time.Until(s.Begun.Add(3 * time.Second)))
	if did := s.heeds([]string{reply}, 0); did != "" {
		t.bad("%s", did)
	}
}
