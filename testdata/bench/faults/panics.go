package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"time"

	"example.org/vatside/testdata/bench/internal/apart"
)

// guarded finds the names that VATSIDE_PANIC takes in a program built with -tags faults: that part panics when it has begun to work.
var guarded = regexp.MustCompile(`guard\.(?:Go|GoThen|Try)\("([^"]+)"`)

// guardedParts are all of them, as the source has them.
func guardedParts() (names []string) {
	for _, folder := range []string{"ui", "ui/*", "ui/*/*"} {
		for _, path := range apart.Got(filepath.Glob(folder + "/*.go")) {
			if strings.HasSuffix(path, "_test.go") {
				continue
			}
			for _, m := range guarded.FindAllStringSubmatch(string(apart.Got(os.ReadFile(path))), -1) {
				names = append(names, m[1])
			}
		}
	}
	slices.Sort(names)
	return slices.Compact(names)
}

// panics break each part of a program that was built for it: it must end with 1, say so in one sentence, leave the terminal as it was,
// and lose nothing.
func panics(b *bench) {
	faulty, err := b.build("vatside-faults", "-tags", "faults")
	text, readErr := os.ReadFile(faulty)
	switchThere := err == nil && readErr == nil && bytes.Contains(text, []byte("VATSIDE_PANIC"))
	beside(b, 4, guardedParts(), func(name string) string { return "panic in the " + name }, func(r *row, name string) {
		switch {
		case err != nil:
			r.skip(err.Error())
		case !switchThere:
			r.skip("the program has no switch VATSIDE_PANIC")
		case name == "command":
			h := b.home()
			h.program = faulty
			a := b.ask(h, []string{"book", "--home", h.dir}, "", "VATSIDE_PANIC="+name)
			r.count(1, 0)
			r.ended(a.code, lastLine(a.errs))
			if r.sound(a, ""); a.code == 0 {
				r.bad("nothing panics under that name")
			}
		default:
			// What works in one of the seats alone works there, what works only at the end at one of the ends.
			worked := b.tryPanic(r, name, faulty, leaving{true, byQ})
			if !b.tryPanic(r, name, faulty, leaving{false, byQ}) && !worked && !b.tryPanic(r, name, faulty, leaving{false, byTerm}) {
				r.skip("nothing panics under that name")
			}
		}
	})
}

// goesOn are those whose work can fail while the day goes on.
var goesOn = map[string]bool{"advice": true, "screen": true, "view": true}

// tryPanic tells whether the part worked, and so failed.
func (b *bench) tryPanic(r *row, name, faulty string, l leaving) (worked bool) {
	h := b.home()
	h.program = faulty
	var verb []string
	if name == "dyer" {
		verb = []string{"rehearse"}
	} else {
		h.open("soda-bin", "note", 2*time.Minute)
	}
	s := b.sitAt(r, h, l.plain, nil, verb, "VATSIDE_PANIC="+name)
	defer s.Kill()
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
		code = s.leave(r, l.way, what)
	}
	if over && code == 0 || code > 1 || code < 0 { // below 0 only a signal ended it
		r.bad("%s: it ended with %d, not 1", what, code)
	}
	r.remains(s, what)
	b.judge(r, h, s, code, what)
	return over || code != 0 || goesOn[name]
}
