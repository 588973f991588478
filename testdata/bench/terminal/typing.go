package main

import (
	"fmt"
	"strings"
	"time"

	"example.org/vatside/testdata/bench/words"
)

// aHand is how soon after a paste a hand presses Enter; what comes at once belongs to the paste.
const aHand = 150 * time.Millisecond

// typings are keys before the first frame, and pastes.
func typings() (all []edge) {
	for _, after := range []time.Duration{0, 2, 5, 10, 20} {
		all = append(all, edge{group: "typing", name: fmt.Sprintf("a key %d ms after the start", after), brief: after == 2, does: func(t *try) {
			t.early(after * time.Millisecond)
		}})
	}
	all = append(all, edge{group: "typing", name: "esc, alone", brief: true, does: (*try).esc})
	for _, p := range []struct {
		name   string
		pieces []string
		text   string // what a text field then holds
		brief  bool
	}{
		{`a paste of "vec+"`, []string{pasted("vec+")}, "vec+", false},
		{`a paste of "q"`, []string{pasted("q")}, "q", false},
		{`a paste of "vec+q", in two pieces`, []string{pasted("vec+q")[:9], pasted("vec+q")[9:]}, "vec+q", true},
		{`a paste of three lines`, []string{pasted("vec\nq\n+")}, "", false},
		{`"vec+vec+vec+" in one write`, []string{"vec+vec+vec+"}, "vec+vec+vec+", false},
		{`"vec+vec+vecq" in one write`, []string{"vec+vec+vecq"}, "vec+vec+vecq", true},
	} {
		all = append(all, edge{group: "typing", name: p.name + " into a day", brief: p.brief, does: func(t *try) { t.pasted(p.pieces) }})
		if p.text != "" {
			all = append(all, edge{group: "typing", name: p.name + " into a text", brief: p.brief, does: func(t *try) { t.pastedText(p.pieces, p.text) }})
		}
	}
	return all
}

// pasted is a text as a terminal brackets it.
func pasted(text string) string { return "\x1b[200~" + text + "\x1b[201~" }

// early types a key while the program starts: it counts.
func (t *try) early(after time.Duration) {
	s := t.home(words.Resting).sit()
	defer s.Kill()
	time.Sleep(time.Until(s.Begun.Add(after)))
	s.Type("?")
	if !s.shows(time.Second, words.HelpFoot) {
		t.bad("the key was lost: %s", firstLine(s.Text()))
	}
}

// esc leaves a text: what waits for the rest of a reply must let go of it.
func (t *try) esc() {
	s := t.home(words.Resting).sit()
	defer s.Kill()
	t.notes(s)
	begun := time.Now()
	s.Type("\x1b")
	if !s.shows(mostEsc, words.Chosen) {
		t.bad("it did nothing within %v", mostEsc)
	}
	t.say("after %d ms", time.Since(begun).Milliseconds())
}

// mostEsc is how long esc may take.
const mostEsc = 300 * time.Millisecond

// between is the time between the pieces of what is sent, where they are not to be read at once.
const between = 60 * time.Millisecond

func (s *seat) send(pieces []string, gap time.Duration) {
	for i, p := range pieces {
		if i > 0 && gap > 0 {
			time.Sleep(gap)
		}
		s.Type(p)
	}
}

// pasted pastes keys into a running day: they do nothing, and a word is said.
func (t *try) pasted(pieces []string) {
	h := t.home(words.Resting)
	s := h.sit()
	defer s.Kill()
	t.opens(s)
	was, events := s.Text(), h.events()
	s.send(pieces, between)
	said := s.Await(500*time.Millisecond, func() bool { return masked(s.Text()) != masked(was) })
	s.settles()
	_, over := s.Ended(0)
	t.must(!over, "it ended the program")
	if n := h.events() - events; n > 0 {
		t.bad("%d acts were taken", n)
	}
	if !strings.Contains(s.Text(), words.DayName) {
		t.bad("another screen came: %s", firstLine(s.Text()))
	}
	if !said {
		t.bad("no word was said")
	}
	t.answers(s)
}

// notes goes to the text field of a note.
func (t *try) notes(s *seat) {
	t.opens(s)
	s.Type("l")
	there := s.shows(time.Second, words.LogTitle)
	s.Type("o")
	there = there && s.shows(time.Second, "write a line into the book") && s.settles()
	t.must(there, "no note can be written: %s", firstLine(s.Text()))
}

// pastedText pastes into a text field: it is text.
func (t *try) pastedText(pieces []string, text string) {
	h := t.home(words.Resting)
	s := h.sit()
	defer s.Kill()
	t.notes(s)
	s.send(pieces, between)
	t.must(s.shows(500*time.Millisecond, text), "it is not in the text: %s", firstLine(s.Text()))
	time.Sleep(aHand)
	s.Type("\r")
	if !s.Await(mostEnd, func() bool { return strings.Contains(h.written(), fmt.Sprintf("%q", text)) }) {
		t.bad("the note is not on disk as %q", text)
	}
}
