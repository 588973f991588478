package main

import (
	"fmt"
	"math/rand/v2"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"time"

	"example.org/vatside/model/wording"
	"example.org/vatside/testdata/bench/days"
	"example.org/vatside/testdata/bench/internal/apart"
)

// library is a home with several played days of two vats, and the names that the commands want.
func (b *bench) library() (*home, days.Place) {
	h := b.home()
	for _, name := range []string{"soda-bin", "soda-bin-second-day", "sugar-lime-pail", "sugar-lime-pail-next-day"} {
		text := apart.Day(name)
		h.put(string(headVat.FindSubmatch(text)[1]), string(headDay.FindSubmatch(text)[1]), text)
	}
	text := apart.Day("soda-bin")
	h.vat, h.day = string(headVat.FindSubmatch(text)[1]), string(headDay.FindSubmatch(text)[1])
	out := filepath.Join(h.temp, "out")
	return h, days.Place{Home: h.dir, Vat: h.vat, Day: h.day, Tag: "A1", Out: out}
}

var headDay = regexp.MustCompile(`(?m)^day = "([^"]+)"`)

// listed are the commands that the program's help lists.
var listed = regexp.MustCompile(`(?m)^  ([a-z]+)  +[A-Z]`)

// mutants feeds spoilt days to every command and every screen.
func mutants(b *bench) {
	b.row("commands that the help lists", b.knownCommands)
	n := wording.Either(b.short, 10, 300)
	for _, signed := range []bool{false, true} {
		name := wording.Either(signed, "the same, signed as if the program wrote them", "spoilt days through all commands")
		chance := b.rand(name)
		var tries []mutant
		for range n {
			tries = append(tries, spoilt(chance, signed))
		}
		b.row(name, func(r *row) { b.tryCommands(r, tries) })
	}
	b.row("one digit or year of a time, through all commands", func(r *row) { b.tryCommands(r, digits(b.rand("digits"), n/2)) })
	b.row("spoilt days through all screens", func(r *row) {
		var tries []mutant
		chance := b.rand(r.fault)
		for i := range max(6, n/6) {
			if i%2 == 0 {
				tries = append(tries, spoilt(chance, chance.IntN(2) == 0))
			} else {
				tries = append(tries, digits(chance, 1)[0])
			}
		}
		apart.Together(4, tries, func(m mutant) {
			h, _ := b.library()
			h.put(h.vat, h.day, m.text)
			b.walk(r, h, m.name, nil)
		})
	})
}

// knownCommands tells of a command of the program that the bench does not try.
func (b *bench) knownCommands(r *row) {
	h := b.home()
	lines := append(days.Place{Home: h.dir}.Commands(), days.Others(h.dir)...)
	for _, m := range listed.FindAllStringSubmatch(b.ask(h, []string{"--help"}, "").out, -1) {
		r.count(1, 0)
		if !slices.ContainsFunc(lines, func(l []string) bool { return len(l) > 0 && l[0] == m[1] }) {
			r.bad("%s is not tried: add it to testdata/bench/days", m[1])
		}
	}
	for _, l := range days.Others(h.dir) {
		a := b.ask(h, l, "")
		r.count(1, 0)
		r.sound(a, strings.Join(l, " ")+": ")
	}
}

// A mutant is a spoilt day and how it came about.
type mutant struct {
	name string
	text []byte
}

// spoilt is a day with a few edits.
func spoilt(chance *rand.Rand, signed bool) mutant {
	edits := make([]byte, days.EditSize*(1+chance.IntN(4)))
	for i := range edits {
		edits[i] = byte(chance.IntN(256))
	}
	return mutant{fmt.Sprintf("edits %x", edits), days.Spoil(apart.Day("soda-bin"), edits, signed)}
}

// digits are days with one digit of one time changed.
func digits(chance *rand.Rand, n int) (out []mutant) {
	text := apart.Day("soda-bin")
	d := days.Parse(text)
	for i := range n {
		edit := []byte{2, 0, 0, byte(chance.IntN(10)), byte(chance.IntN(256))}
		if i%2 == 0 {
			edit[3] = byte(days.Years + i/2%8)
		}
		block := 1 + chance.IntN(len(d.Blocks)-1)
		where := block + len(d.Blocks)*chance.IntN(14)
		edit[1], edit[2] = byte(where>>8), byte(where)
		out = append(out, mutant{fmt.Sprintf("edits %x", edit), days.Spoil(text, edit, false)})
	}
	return out
}

// tryCommands puts each spoilt day into a home of good ones and asks every command.
func (b *bench) tryCommands(r *row, tries []mutant) {
	apart.Together(2, tries, func(m mutant) {
		h, p := b.library()
		h.put(h.vat, h.day, m.text)
		for _, l := range p.Commands() {
			a := b.ask(h, l, "")
			r.count(1, 0)
			what := fmt.Sprintf("%s: vatside %s: ", m.name, strings.Join(l[:len(l)-2], " "))
			r.sound(a, what)
			if a.code != 0 && a.errs == "" && a.out == "" {
				r.bad("%sended with %d and said nothing", what, a.code)
			}
		}
		a := b.ask(h, []string{"--plain", "--home", h.dir}, "note x\nq\n")
		r.sound(a, m.name+": vatside --plain: ")
		r.ended(a.code, "vatside --plain: "+lastLine(a.errs))
	})
}

// A path is a walk from the day's screen to another one and back.
var paths = []string{"l", "\t", "p", "a", "u", "j", "g", "m", "L", "B", "o", "s", "?", "!", "v", "d", "h", "r", "x"}

// escTime is longer than the program waits for what may belong to an Esc, on a terminal that answers nothing: a key that comes sooner
// goes with it.
const escTime = 300 * time.Millisecond

// walk opens the day of a home, or its log when it is closed, and goes to every screen and back. look sees what was written.
func (b *bench) walk(r *row, h *home, name string, look func(s *seat)) {
	s := b.sit(r, h, false, nil)
	defer s.Kill()
	r.count(1, 0)
	r.must(s.await(mostTime, func(t string) bool { return strings.TrimSpace(t) != "" }), "%s: no first screen within %s", name, mostTime)
	s.await(300*time.Millisecond, func(t string) bool { return strings.Contains(t, "1 ") })
	where := "home"
	// The help page comes and goes: who shows it has read all keys before.
	answers := func() bool {
		if _, over := s.Ended(0); over {
			return true // told below
		}
		shown := func(t string) bool { return strings.Contains(t, "any other key goes back") }
		for range 2 { // where text is typed, Esc ends that first
			s.Type("?")
			if s.await(mostTime/2, shown) {
				s.Type("\x1b")
				return s.await(mostTime, func(t string) bool { return !shown(t) })
			}
			s.Type("\x1b")
			s.await(escTime, func(string) bool { return false })
		}
		return false
	}
	home := []string{",", "P", "b", "C", "l", "j", "N"}
	for i, key := range append(append(home, "\r"), paths...) {
		where = fmt.Sprintf("key %q at home", key)
		if i > len(home) {
			where = fmt.Sprintf("key %q in the day", key)
		}
		s.Type(key)
		s.await(60*time.Millisecond, func(string) bool { return false })
		memory := memoryOf(s.Cmd.Process.Pid)
		r.must(memory <= mostMemory, "%s: %s: %d MB", name, where, memory)
		if key == "\r" {
			continue
		}
		s.Type("\x1b")
		s.await(escTime, func(string) bool { return false })
		if (i%4 == 3 || i == len(home)+len(paths)) && !answers() {
			r.bad("%s: %s: it answers no key any more: %s", name, where, s.dump(name))
			return
		}
	}
	if look != nil {
		look(s)
	}
	code := s.leave(r, byQ, name+": "+where)
	if dumped(s.Raw()) || code == 2 {
		r.bad("%s: %s: broke down: %s", name, where, firstPanic(s.Raw()))
	}
	r.remains(s, name+": "+where)
	r.ended(code, lastLine(s.Text()))
}
