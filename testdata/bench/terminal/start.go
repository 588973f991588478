package main

import (
	"os"
	"strings"
	"time"

	"example.org/vatside/model/wording"
	"example.org/vatside/testdata/bench/internal/apart"
	"example.org/vatside/testdata/bench/internal/tty"
	"example.org/vatside/testdata/bench/words"
)

// What the first frame of each kind of subject says.
var firstWords = map[kind]string{bare: "left", bubble: "left", vat: words.AnyHome}

// window is how long a start is looked at to see when its screen is whole.
const window = 1500 * time.Millisecond

// starts measures the starts, those of the subjects in turn, so that a busy machine is busy for all of them. The first of each
// kind warms up.
func (t *setup) starts(all *costs, runs int) {
	for _, k := range []struct {
		name    string
		answers []tty.Answer
		open    bool
	}{{"empty home, answering terminal", tty.Xterm, false}, {"empty home, silent terminal", nil, false}, {"open day, answering terminal", tty.Xterm, true}, {"open day, silent terminal", nil, true}} {
		of := map[string][]onset{}
		for run := range runs + 1 {
			for _, s := range all.subjects {
				if k.open && s.kind != vat {
					continue
				}
				kind, awaited := "", firstWords[s.kind]
				if k.open {
					kind, awaited = words.Resting, words.VatRests
				}
				o, ok := s.start(t.home(kind), tty.Manner{Answers: k.answers}, awaited, k.open)
				if !ok {
					all.miss(s, "%s: %q was not shown", k.name, awaited)
				} else if run > 0 {
					of[s.name] = append(of[s.name], o)
				}
			}
		}
		for _, s := range all.subjects {
			put := func(what string, limit float64, of []onset, time func(onset) time.Duration) {
				if len(of) > 0 {
					value, text := spread(wording.Each(of, time))
					all.put(k.name+": "+what, "ms", limit, s, value, text)
				}
			}
			put("first byte", 0, of[s.name], func(o onset) time.Duration { return o.first })
			frame := wording.Either(k.open, "its call", "first frame")
			put(frame, 8, of[s.name], func(o onset) time.Duration { return o.frame })
			if k.open {
				put("whole", 25, of[s.name], func(o onset) time.Duration { return o.whole })
			}
		}
	}
}

// onset is when a program wrote its first byte, when words stood on the screen, and when all stood there.
type onset struct{ first, frame, whole time.Duration }

// start starts a subject once. Unless it is to be whole, it is left as soon as the words are there.
func (s subject) start(h *home, m tty.Manner, awaited string, whole bool) (onset, bool) {
	type piece struct {
		at   time.Time
		text string
	}
	var pieces []piece
	there := make(chan struct{})
	found := false
	var first, frame time.Time
	m.Heard = func(at time.Time, n int, text func() string) {
		if first.IsZero() {
			first = at
		}
		if found && !whole {
			return
		}
		now := text()
		pieces = append(pieces, piece{at, now})
		if !found && strings.Contains(now, awaited) {
			found, frame = true, at
			close(there)
		}
	}
	seat := h.sitAt(s.command(h), m)
	defer func() { apart.Must(os.RemoveAll(h.dir)) }()
	select {
	case <-there:
	case <-time.After(10 * time.Second):
		seat.Kill()
		return onset{}, false
	}
	if whole {
		time.Sleep(time.Until(seat.Begun.Add(window)))
	}
	seat.Kill() // from here on nothing is heard
	o := onset{first: first.Sub(seat.Begun), frame: frame.Sub(seat.Begun)}
	last := len(pieces) - 1
	for last > 0 && masked(pieces[last-1].text) == masked(pieces[len(pieces)-1].text) {
		last--
	}
	o.whole = pieces[last].at.Sub(seat.Begun)
	return o, true
}
