package main

import (
	"fmt"
	"os/exec"
	"strings"
	"time"

	"example.org/vatside/model/wording"
	"example.org/vatside/testdata/bench/internal/apart"
)

// said writes notes by the command say while the disk is full, each by a program of its own: what ends with 0 is in the book.
func (b *bench) said() {
	for _, second := range []bool{false, true} {
		b.row("say to a day on a full disk"+wording.If(second, ", state folder too"), func(r *row) { b.trySay(r, second) })
	}
}

func (b *bench) trySay(r *row, second bool) {
	h := b.home()
	if mount(h.dir, "size=96k") != nil {
		r.skip(noMount)
	}
	defer exec.Command("umount", "-l", h.dir).Run()
	apart.Quiet(h.dir)
	h.open("soda-bin", "note", 2*time.Minute)
	h.pad(page - 1200) // the first act still fits into the page
	if second {
		h.second()
	}
	var taken []string
	for n := range 5 {
		if n == 1 {
			apart.Must(fill(h))
		}
		mark := fmt.Sprintf("mark-%d-%s", n, strings.Repeat("-", 900))
		a := b.ask(h, []string{"say", h.vat, "note " + mark, "--home", h.dir}, "")
		last := lastLine(a.errs)
		r.ended(a.code, last)
		r.count(1, 1)
		switch w := a.broken(); {
		case w != "":
			r.bad("%s", w)
		case a.code == 0:
			taken = append(taken, mark)
		case !tells.MatchString(last) || !strings.Contains(last, mark):
			r.bad("it ends with %d and does not say that nothing was written: %s", a.code, plainly(last))
		default:
			r.told++
		}
	}
	notes, err := b.notes(h)
	r.must(err == nil, "%v", err)
	for _, mark := range r.missing(taken, notes, "") {
		r.loses(1, "say ended with 0, and the book has no "+mark)
	}
}
