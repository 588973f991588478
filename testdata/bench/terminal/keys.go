package main

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"sync"
	"time"

	"example.org/vatside/testdata/bench/internal/tty"
	"example.org/vatside/testdata/bench/words"
)

// taps measures the time from a key to its first byte on the terminal and to what it does being shown.
func (t *setup) taps(all *costs, keys int) {
	for _, s := range all.subjects {
		if s.kind == bare {
			continue
		}
		e, h := &ear{}, t.home(map[kind]string{vat: words.Resting}[s.kind])
		seat := h.sitAt(s.command(h), tty.Manner{Answers: tty.Xterm, Heard: e.heard})
		switch {
		case s.kind == bubble && seat.shows(patience, "left"):
			all.tapped("a help page on and off", s, e.tap(seat, keys, has("MARK"), "x", "x"))
		case s.kind == bubble:
			all.miss(s, "it shows no countdown")
		case !seat.day():
			all.miss(s, "the day did not open")
		default:
			all.tapped("a help page on and off", s, e.tap(seat, keys, has(words.HelpFoot), "?", "?"))
			if seat.Type("l"); seat.shows(patience, words.LogTitle) && seat.settles() {
				all.tapped("up and down in a list", s, e.tap(seat, keys, marked, "\x1b[A", "\x1b[B"))
			} else {
				all.miss(s, "the log did not open")
			}
		}
		seat.Kill()
	}
}

// taken are the times of the keys that did something, and how many did nothing.
type taken struct {
	first, shown []time.Duration
	missed       int
}

func (c *costs) tapped(what string, s subject, k taken) {
	if k.missed > 0 {
		c.miss(s, "%d keys of %q did nothing", k.missed, what)
	}
	if len(k.shown) == 0 {
		return
	}
	slices.Sort(k.first)
	slices.Sort(k.shown)
	for _, l := range []struct {
		name         string
		times        []time.Duration
		middle, most float64
	}{{"first byte", k.first, 0, 0}, {"shown", k.shown, 1, 4}} {
		middle, most := ms(part(l.times, 0.5)), ms(part(l.times, 0.99))
		c.put("key to paint, "+what+": "+l.name, "ms", l.middle, s, middle, fmt.Sprintf("%.2f", middle))
		c.put("key to paint, "+what+": "+l.name+", 99th part", "ms", l.most, s, most, fmt.Sprintf("%.2f", most))
	}
}

// has tells whether words are shown.
func has(words string) func(string) string {
	return func(text string) string { return fmt.Sprint(strings.Contains(text, words)) }
}

// marked is the row that is chosen in the log.
func marked(text string) string {
	for line := range strings.Lines(text) {
		if rest, ok := strings.CutPrefix(strings.TrimLeft(line, " "), words.Chosen); ok {
			return rest
		}
	}
	return ""
}

// ear waits for what a key does.
type ear struct {
	mu    sync.Mutex
	state func(string) string // of the screen: it changes by the key; nil: nothing is waited for
	was   string
	first time.Time
	done  chan time.Time
}

func (e *ear) heard(at time.Time, _ int, text func() string) {
	e.mu.Lock()
	defer e.mu.Unlock()
	if e.state == nil {
		return
	}
	if e.first.IsZero() {
		e.first = at
	}
	if e.state(text()) != e.was {
		e.state = nil
		e.done <- at
	}
}

// tap types two keys in turn, at moments that have nothing to do with the program's own.
func (e *ear) tap(s *seat, n int, state func(string) string, keys ...string) (k taken) {
	chance := rand.New(rand.NewPCG(1, 2))
	for i := range n {
		time.Sleep(time.Duration(10+chance.IntN(40)) * time.Millisecond)
		was := state(s.Text())
		e.mu.Lock()
		e.state, e.was, e.first, e.done = state, was, time.Time{}, make(chan time.Time, 1)
		e.mu.Unlock()
		begun := time.Now()
		s.Type(keys[i%len(keys)])
		select {
		case at := <-e.done:
			e.mu.Lock()
			k.first, k.shown = append(k.first, e.first.Sub(begun)), append(k.shown, at.Sub(begun))
			e.mu.Unlock()
		case <-time.After(time.Second):
			k.missed++
		}
	}
	e.mu.Lock()
	e.state = nil
	e.mu.Unlock()
	return k
}
