package main

import (
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"syscall"
	"time"

	"example.org/vatside/model/wording"
	"example.org/vatside/testdata/bench/internal/apart"
)

// A disk is what becomes of the disk under the book. at is the folder that breaks.
type disk struct {
	name   string
	before func(h *home) ([]string, error) // makes ready, and gives words before the program
	breaks func(h *home) error             // while the day is open
	mends  func(h *home) error             // after the program has gone
	ours   bool                            // the book stands on a tmpfs of its own
	second bool                            // the second place, state and temp, breaks too
	closed bool                            // the day cannot be opened at all
}

// noMount is that the machine lets us mount nothing.
const noMount = "a tmpfs cannot be mounted here (root is needed)"

func mount(dir, options string) error {
	return command("mount", "-t", "tmpfs", "-o", options, "tmpfs", dir)
}

func command(words ...string) error {
	_, err := apart.Said(exec.Command(words[0], words[1:]...))
	return err
}

// traced are the words that let strace break calls of the program that has our words behind it.
func traced(inject ...string) []string {
	words := []string{"strace", "-D", "-f", "-qq", "-o", "/dev/null"}
	calls := wording.Each(inject, func(i string) string { call, _, _ := strings.Cut(i, ":"); return call })
	words = append(words, "-e", "trace="+strings.Join(calls, ","))
	for _, i := range inject {
		words = append(words, "-e", "inject="+i)
	}
	return words
}

func haveStrace() bool { return exec.Command("strace", "-qq", "-o", "/dev/null", "true").Run() == nil }

const noStrace = "strace is not here, or may not trace"

func (r *row) needsStrace() {
	if !haveStrace() {
		r.skip(noStrace)
	}
}

// fill takes what is left of a tmpfs but for the end of the day's last page.
func fill(h *home) error {
	f, err := os.Create(filepath.Join(h.dir, "filler"))
	if err != nil {
		return err
	}
	block := make([]byte, 4096)
	for err == nil {
		_, err = f.Write(block)
	}
	_ = f.Close() // it is full: that is what was wanted
	return nil
}

func away(dir string) string { return dir + ".away" }

// kinds are the disks that are tried.
var kinds = []disk{
	{name: "disk whole"},
	{name: "disk slow: an fsync takes 1.5 s", before: func(*home) ([]string, error) {
		if !haveStrace() {
			return nil, errors.New(noStrace)
		}
		return traced("fsync:delay_enter=1500000", "fdatasync:delay_enter=1500000"), nil
	}},
	{name: "disk full, state folder writable", ours: true, breaks: fill},
	{name: "disk full, state folder too", ours: true, second: true, breaks: fill},
	{name: "folder renamed away", breaks: func(h *home) error { return os.Rename(h.dir, away(h.dir)) },
		mends: func(h *home) error { return back(h.dir) }},
	{name: "disk unmounted", ours: true, breaks: func(h *home) error { return command("umount", "-l", h.dir) },
		mends: func(h *home) error { return command("mount", "--move", away(h.dir), h.dir) }},
	{name: "disk read-only from the start", ours: true, closed: true, before: func(h *home) ([]string, error) {
		return nil, command("mount", "-o", "remount,ro", h.dir)
	}, mends: func(h *home) error { return command("mount", "-o", "remount,rw", h.dir) }},
	{name: "disk read-only in the middle (EROFS)", before: func(h *home) ([]string, error) { return failing(h, "EROFS", writing...) }},
	{name: "every write of the day fails (EIO)", before: func(h *home) ([]string, error) { return failing(h, "EIO", writing...) }},
	{name: "every fsync of the day fails (EIO)", before: func(h *home) ([]string, error) { return failing(h, "EIO", "fsync", "fdatasync") }},
}

// writing are the calls that change a file.
var writing = []string{"write", "pwrite64", "fsync", "ftruncate"}

// failing lets calls on the day's file fail.
func failing(h *home, errno string, calls ...string) ([]string, error) {
	if !haveStrace() {
		return nil, errors.New(noStrace)
	}
	inject := wording.Each(calls, func(call string) string { return call + ":error=" + errno })
	return append(traced(inject...), "-P", h.file()), nil
}

// back puts a folder that was renamed away into its place; what the program made there meanwhile is kept beside.
func back(dir string) error {
	if _, err := os.Stat(dir); err == nil {
		if err := os.Rename(dir, dir+".meanwhile"); err != nil {
			return err
		}
	}
	return os.Rename(away(dir), dir)
}

// The ways of leaving that each seat knows.
var (
	plainWays  = []string{byQ, byEnd, byTerm, byHup, byInt}
	screenWays = []string{byQ, byCtrlC, byTerm, byHup, byInt, byClosing}
)

// A leaving is one try: a seat and the way in which it is left.
type leaving struct {
	plain bool
	way   string
}

func (b *bench) leavings(name string) []leaving {
	out := wording.Each(plainWays, func(way string) leaving { return leaving{true, way} })
	out = append(out, wording.Each(screenWays, func(way string) leaving { return leaving{false, way} })...)
	if b.short { // q is where most is lost; the others in turn
		rest := slices.DeleteFunc(slices.Clone(out), func(l leaving) bool { return l.way == byQ })
		out = []leaving{{true, byQ}, {false, byQ}, rest[b.rand(name).IntN(len(rest))]}
	}
	return out
}

func disks(b *bench) {
	beside(b, 5, kinds, func(k disk) string { return k.name }, func(r *row, k disk) {
		apart.Together(2, b.leavings(r.fault), func(l leaving) {
			if !r.skipped() {
				b.tryDisk(r, k, l)
			}
		})
	})
	b.said()
	b.row("rehearsed day on a disk that fills up", b.rehearsed)
}

// tryDisk opens a day, takes acts, breaks the disk, takes more acts, leaves, and looks into the book.
func (b *bench) tryDisk(r *row, k disk, l leaving) {
	h := b.home()
	if k.ours {
		if err := mount(h.dir, "size=96k"); err != nil {
			r.skip(noMount)
		}
		defer exec.Command("umount", "-l", h.dir).Run()
		apart.Quiet(h.dir)
		if k.name == "disk unmounted" { // a second way to the same disk, to bring it back by
			apart.Must(os.MkdirAll(away(h.dir), 0o755))
			apart.Must(command("mount", "--bind", h.dir, away(h.dir)))
			defer exec.Command("umount", "-l", away(h.dir)).Run()
		}
	}
	h.open("soda-bin", "note", 2*time.Minute)
	h.pad(page - 220) // the first act still fits into the page
	if k.second {
		h.second()
	}
	var before []string
	if k.before != nil {
		var err error
		if before, err = k.before(h); err != nil {
			r.skip(err.Error())
		}
	}
	s := b.sit(r, h, l.plain, before)
	defer s.Kill()
	what := s.kind() + ", " + l.way
	if k.closed {
		s.await(time.Second, func(string) bool { return false }) // it may say so and end
	} else {
		s.opens(r)
	}
	mark := func(n int) string { return fmt.Sprintf("mark-%d-%s", n, strings.ReplaceAll(l.way, " ", "-")) }
	take := func(from, to int) {
		for n := from; n <= to; n++ {
			if s.act(mark(n)) || k.closed || k.before != nil {
				continue
			}
			if _, over := s.Ended(0); over {
				r.bad("%s: it ended by itself: %s", what, plainly(lastLine(s.Text())))
				return
			}
			r.bad("%s: an act was not taken", what)
		}
	}
	take(1, 1)
	if k.breaks != nil {
		apart.Must(k.breaks(h))
	}
	if !k.closed {
		take(2, 4)
	}
	code := s.leave(r, l.way, what)
	if k.mends != nil {
		apart.Must(k.mends(h))
	}
	b.judge(r, h, s, code, what)
	if k.name == "disk full, state folder writable" {
		b.mergesOnce(r, h, what)
	}
}

// tells are the words of a last line that says of acts which are not in the book where they are, or that they are lost.
var tells = regexp.MustCompile(`(?i)lost|not (?:yet )?(?:on disk|in the book|saved|kept|written)|unsaved|kept in|lies? in|stands? in|are in`)

// judge compares what was shown as taken with the book.
func (b *bench) judge(r *row, h *home, s *seat, code int, what string) {
	text := s.Text()
	last := lastLine(text)
	if at := strings.LastIndex(text, "vatside: "); at >= 0 { // its last sentence, which a window breaks into lines
		last = strings.Join(strings.Fields(text[at:]), " ")
	}
	if dumped(s.Raw()) {
		r.bad("%s: it broke down: %s", what, firstPanic(s.Raw()))
	}
	r.ended(code, last)
	r.count(1, len(s.taken))
	notes, err := b.notes(h)
	r.must(err == nil, "%s: %v", what, err)
	gone := r.missing(s.taken, notes, what+": ")
	if len(gone) == 0 {
		return
	}
	if code > 0 && (tells.MatchString(last) || strings.HasSuffix(what, byClosing)) {
		b.mu.Lock()
		r.told += len(gone)
		b.mu.Unlock()
		return
	}
	r.loses(len(gone), fmt.Sprintf("%s: lost %s; exit %d, %s", what, strings.Join(gone, ", "), code, plainly(last)))
}

// missing are the acts that are not among the notes. One that is there more than once is told.
func (r *row) missing(acts, notes []string, what string) []string {
	times := map[string]int{}
	for _, n := range notes {
		times[n]++
	}
	return slices.DeleteFunc(slices.Clone(acts), func(act string) bool {
		if n := times[act]; n > 1 {
			r.bad("%san act is %d times in the book", what, n)
		}
		return times[act] > 0
	})
}

// mergesOnce opens the day once more with room on the disk: all acts must then stand in it, in order and once, and the
// book must be whole.
func (b *bench) mergesOnce(r *row, h *home, what string) {
	before, err := b.notes(h)
	if err != nil {
		return // told already
	}
	apart.Must(os.Remove(filepath.Join(h.dir, "filler")))
	b.ask(h, []string{"--plain", "--home", h.dir}, "q\n")
	after, err := b.notes(h)
	if err != nil || !slices.Equal(before, after) {
		r.bad("%s: opened with room again, the book changed: %d notes, then %d (%v)", what, len(before), len(after), err)
	}
	b.verified(r, h, what+": opened with room again, ")
}

// printed is the beginning of a line that tells of an event on disk.
var printed = regexp.MustCompile(`(?m)^(\S+/\S+)#(\d+) `)

// rehearsed plays invented days at full speed on disks that fill up and fail: what was printed must be in the book.
func (b *bench) rehearsed(r *row) {
	for size := 8; size <= 24; size += map[bool]int{true: 8, false: 4}[b.short] {
		h := b.home()
		if err := mount(h.dir, fmt.Sprintf("size=%dk", size)); err != nil {
			r.skip(noMount)
		}
		b.rehearse(r, h, nil)
		_ = command("umount", "-l", h.dir)
	}
}

// rehearse plays one to its end, or for some seconds and then ends it with TERM.
func (b *bench) rehearse(r *row, h *home, before []string) {
	words := append(slices.Clone(before), b.program, "rehearse", "--plain", "--speed", "max", "--home", h.dir)
	a := h.run(words, "", syscall.SIGTERM, 3*time.Second)
	if a.hung {
		r.bad("TERM did not end a rehearsal within %s: %s", mostTime, plainly(lastLine(a.out+a.errs)))
	} else if a.code != -1 {
		r.sound(a, "")
	}
	r.ended(a.code, lastLine(a.out+a.errs))
	lines := printed.FindAllStringSubmatch(a.out, -1)
	r.count(1, len(lines))
	book := b.ask(h, []string{"book", "--json", "--home", h.dir}, "")
	for _, l := range lines {
		if !strings.Contains(book.out, `"seq": `+l[2]+",") {
			r.loses(1, l[0]+"was printed and is not in the book")
		}
	}
}
