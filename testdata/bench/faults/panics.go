package main

import (
	"bytes"
	"fmt"
	"os"
	"time"
)

// goroutines are names that VATSIDE_PANIC takes in a program built with -tags faults: that part panics when it has begun to work.
// testdata/bench/terminal tries every name that there is; these work on a day that is open.
var goroutines = []string{
	"engine", "scribe", "advice", "courier", "dyer", "command", "screen", "view", "screens", "lines", "watch", "changes",
	"home", "keys", "reader", "painter", "window", "terminal", "parting", "drain",
}

// panics break each goroutine of a program that was built for it: it must end with 1, say so in one sentence, leave the
// terminal as it was, and lose nothing.
func panics(b *bench) {
	faulty, err := b.build("vatside-faults", "-tags", "faults")
	text, readErr := os.ReadFile(faulty)
	switchThere := err == nil && readErr == nil && bytes.Contains(text, []byte("VATSIDE_PANIC"))
	for _, name := range goroutines {
		r := b.row("panic in the " + name)
		switch {
		case err != nil:
			r.skip(err.Error())
		case !switchThere:
			r.skip("the program has no switch VATSIDE_PANIC")
		default:
			b.tryPanic(r, name, faulty)
		}
		r.done()
	}
}

// Those that work in plain mode and on the screens, and those whose work can fail while the day goes on.
var (
	both   = map[string]bool{"engine": true, "scribe": true, "advice": true}
	goesOn = map[string]bool{"advice": true, "screen": true, "view": true}
)

func (b *bench) tryPanic(r *row, name, faulty string) {
	env := "VATSIDE_PANIC=" + name
	if name == "command" {
		h := b.home()
		h.program = faulty
		a := b.ask(h, []string{"book", "--home", h.dir}, "", env)
		r.count(1, 0)
		r.ended(a.code, lastLine(a.errs))
		if a.code == 0 {
			r.skip("nothing panics under that name")
			return
		}
		r.sound(a, "")
		return
	}
	for _, plain := range []bool{true, false} {
		if plain != (name == "lines") && !both[name] {
			continue
		}
		h := b.home()
		h.program = faulty
		var verb []string
		if name == "dyer" {
			verb = []string{"rehearse"}
		} else {
			h.open("soda-bin", "note", 2*time.Minute)
		}
		s := b.sitAt(r, h, plain, nil, verb, env)
		if s == nil {
			return
		}
		what := s.kind()
		if s.ready() {
			for n := range 3 {
				if _, over := s.Ended(0); over {
					break
				}
				s.act(fmt.Sprintf("mark-%d", n))
			}
		}
		code, over := s.Ended(3 * time.Second)
		if !over { // advice that fails is switched off, and the day goes on
			var wrong string
			if code, wrong = s.leave(byQ); wrong != "" {
				r.bad("%s: %s", what, wrong)
			}
			if code == 0 && !goesOn[name] {
				r.skip("nothing panics under that name")
			}
		} else if code != 1 {
			r.bad("%s: it ended with %d, not 1", what, code)
		}
		r.remains(s, what)
		b.judge(r, h, s, code, what)
		s.Kill()
	}
}
