package main

import (
	"encoding/json"
	"fmt"
	"os"
	"regexp"
	"strings"
	"syscall"
	"time"

	"example.org/vatside/model/wording"
	"example.org/vatside/testdata/bench/internal/apart"
)

// How long a player runs before it is killed; at speed max a whole day goes by in a moment.
const (
	leastPlay = 5 * time.Millisecond
	mostPlay  = 400 * time.Millisecond
	mostAtMax = 80 * time.Millisecond
	barren    = 100 // days in a row that were over before they could be killed: then the times do not fit the machine
)

// A player's home is one book with what is known to be in it.
type played struct {
	*home
	said  []string          // VAT/DAY#SEQ printed so far, in order
	known map[string]string // VAT/DAY#SEQ → kind and time, as the book had it after an earlier kill
}

// kills plays rehearsed days and kills the player at random moments; the same home is played on until its day is over, then a new
// one begins. After each kill `book verify` must end well or with torn tails alone; every line VAT/DAY#SEQ that was printed must be in
// `book --json`; no event seen there before may have changed or gone, and no seq may be missing or double; `now` must say something,
// the same twice, and what can be reckoned from the events.
func kills(b *bench) {
	n := wording.Either(b.short, 30, 500)
	b.row(fmt.Sprintf("kill -9, %d times", n), func(r *row) { b.kill(r, n) })
}

func (b *bench) kill(r *row, n int) {
	chance := b.rand("kill")
	whole := func() bool { return len(r.wrong)+r.lost == 0 }
	for homes, without := 0, 0; r.tries < n && whole(); homes++ {
		speed, most := "36000", mostPlay
		if homes%2 > 0 {
			speed, most = "max", mostAtMax
		}
		h, before := &played{home: b.home(), known: map[string]string{}}, r.tries
		for over := false; !over && r.tries < n && whole(); {
			over = h.play(r, speed, leastPlay+time.Duration(chance.Int64N(int64(most-leastPlay))))
			apart.Try(func() { b.found(r, h) })
		}
		if without++; r.tries > before {
			without = 0
		}
		if without >= barren {
			r.bad("%d days in a row were over before they could be killed", barren)
		}
		if !whole() {
			if kept, err := os.MkdirTemp("", "vatside-kill-"); err == nil && os.CopyFS(kept, os.DirFS(h.dir)) == nil {
				r.bad("the home is kept: %s", kept)
			}
		}
	}
}

// onDisk is the beginning of a line that tells of an event on disk.
var onDisk = regexp.MustCompile(`^(\S+/\S+#\d+)(\s|$)`)

// play starts a rehearsal and kills it at a moment, unless the day is over first.
func (h *played) play(r *row, speed string, moment time.Duration) (over bool) {
	a := h.run([]string{h.program, "rehearse", "--plain", "--speed", speed, "--home", h.dir}, "", syscall.SIGKILL, moment)
	switch over = a.code == 0; { // else it was killed, or the day was over in the same moment
	case a.code > 0:
		r.bad("rehearse ended with %d: %s", a.code, plainly(lastLine(a.errs)))
	case !over && a.errs != "":
		r.bad("rehearse complained before it was killed: %s", plainly(lastLine(a.errs)))
	case !over:
		r.count(1, 0)
	}
	for line := range strings.Lines(a.out) {
		if m := onDisk.FindStringSubmatch(line); m != nil && strings.HasSuffix(line, "\n") { // else the kill cut it off
			h.said = append(h.said, m[1])
		}
	}
	if over && len(h.said) == 0 {
		r.bad("a whole rehearsed day printed no line that begins with VAT/DAY#SEQ")
	}
	return over
}

// found looks at what the program finds after a kill.
func (b *bench) found(r *row, h *played) {
	ask := func(words ...string) answer {
		a := b.ask(h.home, append(words, "--home", h.dir), "")
		r.sound(a, strings.Join(words, " ")+": ")
		return a
	}
	verify := ask("book", "verify", "--json")
	var told struct {
		Findings []struct {
			File, What string
			Line       int
			Whole      bool
		}
	}
	if err := json.NewDecoder(strings.NewReader(verify.out)).Decode(&told); err != nil {
		r.bad("book verify --json ended with %d: %v", verify.code, err)
	}
	torn := false
	for _, f := range told.Findings {
		if strings.Contains(f.What, "torn") || strings.Contains(f.What, "ends inside its head") {
			torn = true
		} else if !f.Whole {
			r.bad("book verify ended with %d and told more than torn tails: %s:%d: %s", verify.code, f.File, f.Line, f.What)
		}
	}
	if verify.code != 0 && !torn {
		r.bad("book verify ended with %d: %s", verify.code, plainly(lastLine(verify.errs)))
	}
	book := ask("book", "--json")
	events, err := eventsOf[event](book)
	r.must(err == nil && book.code == 0, "book --json ended with %d: %v", book.code, err)
	h.compare(r, events)
	if err := checkNow(ask("now", "--json").out, events); err != nil {
		r.bad("%v", err)
	}
	switch now, again := ask("now"), ask("now"); {
	case now.code != 0 || strings.TrimSpace(now.out) == "":
		r.bad("now ended with %d: %q", now.code, now.out)
	case now.out != again.out:
		r.bad("now said %q and then %q, though nobody plays the day", now.out, again.out)
	}
}

// compare compares the book with what was printed and with what it held before.
func (h *played) compare(r *row, events []event) {
	have, last := map[string]string{}, map[string]int{}
	for _, e := range events {
		day := e.Vat + "/" + e.Day
		id := fmt.Sprintf("%s#%d", day, e.Seq)
		if _, twice := have[id]; twice {
			r.bad("%s is twice in the book", id)
		}
		if before, begun := last[day]; begun && e.Seq != before+1 {
			r.bad("in %s, %d follows %d", day, e.Seq, before)
		}
		have[id], last[day] = e.Kind+" "+e.At.Format(time.RFC3339), e.Seq
	}
	r.count(0, len(h.said))
	for _, id := range h.said {
		if _, ok := have[id]; !ok {
			r.loses(1, id+" was printed and is not in the book")
		}
	}
	for id, was := range h.known {
		if is, ok := have[id]; !ok {
			r.loses(1, id+" was in the book after an earlier kill and is gone")
		} else if is != was {
			r.bad("%s was %q and is now %q", id, was, is)
		}
	}
	h.known = have
}
