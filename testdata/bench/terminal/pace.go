package main

import (
	"math/rand/v2"
	"strings"
	"syscall"
	"time"

	"example.org/vatside/testdata/bench/internal/apart"
	"example.org/vatside/testdata/bench/internal/tty"
	"example.org/vatside/testdata/bench/words"
)

// sizes are windows that are drawn about.
func sizes() []edge {
	return []edge{{group: "size", name: "200 sizes in a second", brief: true, does: (*try).storm}}
}

// storm changes the size 200 times in a second; then the screen is that of a program that was started at the last size.
func (t *try) storm() {
	h := t.home(words.Resting)
	s, twin := h.sit(), h.twin().sit()
	defer s.Kill()
	defer twin.Kill()
	const wide, high = 101, 31
	twin.Resize(wide, high)
	t.opens(s)
	t.opens(twin)
	chance := rand.New(rand.NewPCG(3, 4))
	begun := time.Now()
	for i := range 200 {
		time.Sleep(time.Until(begun.Add(time.Duration(i) * 5 * time.Millisecond)))
		s.Resize(20+chance.IntN(140), 5+chance.IntN(50))
	}
	s.Resize(wide, high)
	begun = time.Now()
	if s.Await(3*time.Second, func() bool { return s.Text() == twin.Text() }) {
		t.say("right %d ms after the last", time.Since(begun).Milliseconds())
	} else {
		t.bad("the screen is not that of a fresh program: %s", differs(s.Text(), twin.Text()))
	}
	t.leave(s)
}

// paces are terminals that are slow to read.
func paces() []edge {
	return []edge{
		{group: "slow", name: "9600 baud for some seconds", does: func(t *try) { t.slow(960, 4*time.Second) }},
		{group: "slow", name: "a terminal that reads nothing for 5 s", does: (*try).stopped},
		{group: "slow", name: "an end while the terminal reads nothing", does: (*try).endStopped},
	}
}

// slow writes a note on a slow terminal: its keys are acted on in their order, and the screen is right once all is read.
func (t *try) slow(pace int, long time.Duration) {
	h := t.home(words.Resting)
	s := h.sit()
	defer s.Kill()
	t.opens(s)
	s.Pace(pace)
	begun := time.Now()
	for range 3 { // so much is written that the terminal falls behind
		for range 6 {
			s.Type("?")
			time.Sleep(20 * time.Millisecond)
		}
	}
	const text = "abcdefghijklmnopqrstuvwxyz"
	for _, key := range append([]string{"l", "o"}, strings.Split(text+"\r", "")...) {
		s.Type(key)
		time.Sleep(40 * time.Millisecond)
	}
	typed := time.Now()
	noted := func() bool { return strings.Contains(h.written(), text) }
	if s.Await(time.Until(begun.Add(long)), noted) {
		t.say("the note was on disk %d ms after its last key", time.Since(typed).Milliseconds())
	}
	time.Sleep(time.Until(begun.Add(long)))
	s.Pace(0)
	drained := time.Now()
	if !s.Await(mostEnd, noted) {
		t.bad("the note is not on disk: %s", firstLine(s.Text()))
	} else if drained.Sub(typed) > 0 && len(t.said) == 0 {
		t.say("the note was on disk only when all was read")
	}
	t.rightNow(s, h)
	t.leave(s)
}

// reads has the terminal read at a pace, and has more written than the system keeps for it.
func (s *seat) reads(pace int) {
	s.Pace(pace)
	for range 40 {
		s.Type("?")
		time.Sleep(10 * time.Millisecond)
	}
}

// stopped plays a rehearsal on a terminal that stops to read: the day goes on, on disk too, and the screen is right afterwards.
func (t *try) stopped() {
	h := t.home("")
	s := h.sit("rehearse", "--speed", "300", "--home", h.dir)
	defer s.Kill()
	began := s.shows(patience, words.Rehearsal) && s.Await(patience, func() bool { return h.events() > 2 })
	t.must(began, "no rehearsal began: %s", firstLine(s.Text()))
	s.reads(tty.Stopped)
	was := h.events()
	time.Sleep(5 * time.Second)
	if n := h.events() - was; n > 0 {
		t.say("%d events meanwhile", n)
	} else {
		t.bad("nothing was written meanwhile")
	}
	s.Pace(0)
	time.Sleep(300 * time.Millisecond)
	t.rightNow(s, h)
	t.leave(s)
}

// endStopped ends the program by a signal while its terminal reads nothing: it goes, with its modes set back at the least.
func (t *try) endStopped() {
	h := t.home(words.Dipping)
	s := h.sit()
	defer s.Kill()
	t.opens(s)
	s.reads(tty.Stopped)
	begun := time.Now()
	apart.Must(s.Cmd.Process.Signal(syscall.SIGTERM))
	code, over := s.Ended(patience)
	t.must(over, "it did not end within %v", patience)
	t.say("exit %d after %d ms", code, time.Since(begun).Milliseconds())
	for _, left := range s.Left() {
		if left == "raw mode" {
			t.bad("the terminal is left in raw mode")
		}
	}
}

// rightNow makes the program paint all anew, by another width and back, and tells whether what stood there before was the same.
// An event between the two makes another screen: then it looks again.
func (t *try) rightNow(s *seat, h *home) {
	for range 5 {
		s.settles()
		events, was := h.events(), masked(s.Text())
		s.Resize(cols+1, rows)
		s.settles()
		s.Resize(cols, rows)
		s.settles()
		if now := masked(s.Text()); h.events() == events {
			if now != was {
				t.bad("the screen was not right: %s", differs(was, now))
			}
			return
		}
	}
	t.say("its day went on too fast to compare screens")
}
