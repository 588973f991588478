package main

import (
	"fmt"
	"path/filepath"
	"strings"
	"time"

	"example.org/vatside/model/wording"
	"example.org/vatside/testdata/bench/internal/apart"
)

// calls lets one system call after the other fail: the n-th of its kind on the book, and all from the n-th on.
func calls(b *bench) {
	type call struct{ name, errno string }
	all := []call{
		{"write", "EIO"}, {"write", "ENOSPC"}, {"pwrite64", "EIO"}, {"fsync", "EIO"}, {"ftruncate", "EIO"}, {"openat", "EIO"}, {"openat", "EMFILE"},
		{"mkdirat", "ENOSPC"}, {"renameat", "EIO"}, {"flock", "ENOLCK"}, {"newfstatat", "EIO"}, {"fstat", "EIO"},
	}
	beside(b, 2, all, func(c call) string { return c.name + " fails with " + c.errno + " at call n" }, func(r *row, c call) {
		r.needsStrace()
		var whens []string
		for n := 1; n <= 12; n++ {
			whens = append(whens, fmt.Sprint(n), fmt.Sprintf("%d+", n))
		}
		if b.short { // one single failure and one that stays
			n := b.rand(r.fault).IntN(8)
			whens = []string{whens[2*n+1], whens[2*((n+3)%8)]}
		}
		apart.Together(2, whens, func(when string) { b.tryCall(r, c.name+":error="+c.errno+":when="+when, when) })
	})
	b.row("any call of a rehearsal fails", b.callsOfRehearsal)
}

// tryCall opens a day in the plain mode while a call on the book's folder or on the day fails, takes three acts and leaves
// by q.
func (b *bench) tryCall(r *row, inject, when string) {
	h := b.home()
	h.open("soda-bin", "note", 2*time.Minute)
	before := append(traced(inject), "-P", h.file(), "-P", filepath.Dir(h.file()))
	s := b.sit(r, h, true, before)
	defer s.Kill()
	if s.ready() {
		for n := range 3 {
			s.act(fmt.Sprintf("mark-%d", n))
		}
	} else if code, over := s.Ended(2 * time.Second); !over {
		r.bad("call %s: it neither opened the day nor ended", when)
	} else if code != 1 {
		r.bad("call %s: it did not open the day and ended with %d: %s", when, code, plainly(lastLine(s.Text())))
	}
	b.judge(r, h, s, s.leave(r, byQ, "call "+when), "call "+when)
	if !strings.Contains(inject, "openat") && !strings.Contains(inject, "stat") { // the book is whole whatever failed
		if a := b.ask(h, []string{"book", "verify", "--home", h.dir}, ""); a.code != 0 && !strings.Contains(strings.ToLower(a.out+a.errs), "torn") && !strings.Contains(strings.ToLower(a.out+a.errs), "spill") {
			r.bad("call %s: book verify ends with %d: %s", when, a.code, plainly(lastLine(a.out+a.errs)))
		}
	}
}

// callsOfRehearsal lets any call at all fail in a rehearsal at full speed, whatever file it is on.
func (b *bench) callsOfRehearsal(r *row) {
	r.needsStrace()
	tries := wording.Either(b.short, 6, 60)
	chance := b.rand(r.fault)
	var injects []string
	for range tries {
		call := []string{"pwrite64", "fsync", "openat", "mkdirat", "newfstatat", "flock"}[chance.IntN(6)]
		errno := []string{"EIO", "ENOSPC", "EACCES", "EROFS"}[chance.IntN(4)]
		stays := []string{"", "+", "+7"}[chance.IntN(3)]
		injects = append(injects, fmt.Sprintf("%s:error=%s:when=%d%s", call, errno, 1+chance.IntN(60), stays))
	}
	apart.Together(4, injects, func(inject string) {
		h := b.home()
		vat := filepath.Join(h.dir, "vats", "garden-bin")
		day := filepath.Join(vat, time.Now().In(apart.Got(time.LoadLocation(h.zone))).Format(time.DateOnly)+".toml")
		words := traced(inject)
		for _, path := range []string{h.dir, filepath.Dir(vat), vat, filepath.Join(vat, ".lock"), day} {
			words = append(words, "-P", path)
		}
		b.rehearse(r, h, words)
	})
}
