package main

import (
	"encoding/json"
	"os/exec"
	"strings"
	"syscall"
	"time"
)

func clocks(b *bench) {
	type clock struct {
		name string
		does func(*bench, *row)
	}
	beside(b, 3, []clock{
		{"suspend of an hour between two runs", (*bench).suspend},
		{"stopped for 40 s over a dip's end", (*bench).stopped},
		{"west over the date line", (*bench).dateLine},
		{"home whose last day is dated tomorrow", (*bench).tomorrow},
		{"two nights of daylight saving", (*bench).savingNights},
		{"wall clock stepped both ways, sleep, restart", (*bench).steps},
	}, func(c clock) string { return c.name }, func(r *row, c clock) { c.does(b, r) })
}

// present is what now --json says of the open day.
type present struct {
	Vat, Day string
	At       time.Time
	Line     string
	LeftS    *float64 `json:"left_s"`
}

func (b *bench) now(r *row, h *home, before ...string) present {
	words := append(before, h.program, "now", "--json", "--home", h.dir)
	a := h.run(words, "", 0, 0)
	var out struct{ Days []present }
	err := json.Unmarshal([]byte(a.out), &out)
	r.must(err == nil && len(out.Days) > 0, "now --json ended with %d: %s", a.code, plainly(lastLine(a.errs)))
	return out.Days[0]
}

// suspend moves the boot clock on by an hour, as a suspend does, between an act and the next look.
func (b *bench) suspend(r *row) {
	if exec.Command("unshare", "-T", "--boottime", "3600", "true").Run() != nil {
		r.skip("a time namespace cannot be had here")
	}
	h := b.home()
	h.open("soda-bin", "note", 2*time.Minute)
	s := b.sit(r, h, true, nil)
	defer s.Kill()
	s.opens(r)
	if !s.act("mark-before-sleep") {
		r.bad("an act was not taken")
	}
	b.judge(r, h, s, s.leave(r, byQ, "before the sleep"), "before the sleep")
	before, after := b.now(r, h), b.now(r, h, "unshare", "-T", "--boottime", "3600")
	r.count(1, 0)
	if d := after.At.Sub(before.At); d < time.Hour || d > time.Hour+time.Minute {
		r.bad("an hour of sleep moved the day by %s", d)
	}
	if before.LeftS != nil && after.LeftS != nil && *after.LeftS > *before.LeftS-3600 {
		r.bad("%.0f s were left, and after an hour of sleep %.0f s", *before.LeftS, *after.LeftS)
	}
}

// stopped holds the program for 40 s around the end of a dip: nobody could hear its call, so no lift may be assumed.
func (b *bench) stopped(r *row) {
	h := b.home()
	const dip = 7*time.Minute + 20*time.Second // what is left of this day's last dip when it is written down
	ends := time.Now().Add(15 * time.Second)
	h.open("soda-bin", "dip begun", dip-15*time.Second)
	s := b.sit(r, h, true, nil)
	defer s.Kill()
	s.opens(r)
	r.count(1, 0)
	time.Sleep(time.Until(ends) - 3*time.Second)
	_ = s.Cmd.Process.Signal(syscall.SIGSTOP)
	time.Sleep(42 * time.Second)
	_ = s.Cmd.Process.Signal(syscall.SIGCONT)
	s.await(3*time.Second, func(t string) bool { return strings.Contains(t, "A1 out") })
	b.judge(r, h, s, s.leave(r, byTerm, "stopped"), "stopped")
	events, err := b.events(h, h.vat+"/"+h.day)
	r.must(err == nil && len(events) > 0, "the day has no events: %v", err)
	if last := events[len(events)-1]; last.Kind == "dip ended" && last.Assumed {
		r.bad("a lift was assumed, though nobody could hear the call")
	}
}

// begin answers the questions of the plain mode for a new vat, and gives what was said.
func (b *bench) begin(h *home, more string) answer {
	return b.ask(h, []string{"--plain", "--home", h.dir}, "1\n1\n75\n\n\nname Garden bin\n\n"+more)
}

// dateLine begins and closes a day far in the east, and begins one far in the west, where it is still the day before: that
// one must be reached again, and not be built once more.
func (b *bench) dateLine(r *row) {
	h := b.home()
	h.zone = "Pacific/Kiritimati"
	r.count(1, 0)
	a := b.begin(h, "note mark-east\nclose\nclose\n")
	r.must(a.broken() == "" && a.code == 0, "the day in the east: exit %d %s", a.code, plainly(lastLine(a.out+a.errs)))
	h.zone = "Etc/GMT+12"
	a = b.ask(h, []string{"--plain", "--home", h.dir}, "1\n1\nnote mark-west\nq\n")
	r.must(strings.Contains(a.out, "mark-west"), "no day could be begun in the west: %s", plainly(lastLine(a.out+a.errs)))
	b.reached(r, h)
}

// tomorrow is the same with a clock that was a day ahead and was set right.
func (b *bench) tomorrow(r *row) {
	h := b.home()
	h.open("soda-bin", "closed", -24*time.Hour)
	r.count(1, 0)
	a := b.ask(h, []string{"--plain", "--home", h.dir}, "1\n1\nnote mark-today\nq\n")
	r.must(strings.Contains(a.out, "mark-today"), "no day could be begun today: %s", plainly(lastLine(a.out+a.errs)))
	b.reached(r, h)
}

// reached looks whether the day that was left open is found by the plain mode, by now, and by home.
func (b *bench) reached(r *row, h *home) {
	a := b.ask(h, []string{"--plain", "--home", h.dir}, "note mark-again\nq\n")
	r.ended(a.code, lastLine(a.out+a.errs))
	if strings.Contains(a.out, "No day is open") || !strings.Contains(a.out, "mark-again") {
		r.bad("the open day cannot be reached after a restart: %s", plainly(strings.SplitN(a.out+a.errs, "\n", 2)[0]))
	}
	book := b.ask(h, []string{"book", "--json", "--home", h.dir}, "")
	if n := strings.Count(book.out, `"kind": "opened"`); n > 2 {
		r.bad("the vat was opened %d times", n)
	}
	s := b.sit(r, h, false, nil)
	defer s.Kill()
	if !s.ready() || !s.await(time.Second, func(t string) bool { return strings.Contains(t, "mark-") }) {
		r.bad("the screens do not show the open day: %s", plainly(s.Text()))
	}
	if code := s.leave(r, byTerm, "the screens"); code < 0 {
		r.bad("the screens: exit %d", code)
	}
}

// savingNights plays a vat of three months over both nights in which the clocks change; all must be in order and whole.
func (b *bench) savingNights(r *row) {
	for _, begin := range []string{"2026-02-02", "2026-09-07"} {
		h := b.home()
		r.count(1, 0)
		a := b.ask(h, []string{"rehearse", "--kept", "--begin", begin, "--home", h.dir}, "")
		if w := a.broken(); w != "" && !a.hung { // three months take what they take
			r.bad("%s", w)
		}
		b.verified(r, h, "")
		events, err := b.events(h)
		if err != nil || len(events) == 0 {
			r.bad("the home has no events: %v", err)
			continue
		}
		for i, e := range events[1:] {
			if e.At.Before(events[i].At) {
				r.bad("at %s the time runs back to %s", events[i].At, e.At)
			}
		}
		r.ended(a.code, lastLine(a.out+a.errs))
	}
}

// steps cannot be done to a machine from outside: its wall clock is everybody's. The engine's own tests do it with a clock
// of theirs.
func (b *bench) steps(r *row) {
	names := "TestSleepIsToldAndNothingIsAssumed|TestClockStepMovesNoDeadline|TestRestart|TestDayTimeNeverRunsBack|TestAHeadInItsZone"
	out, err := exec.Command("go", "test", "-count=1", "-v", "-run", "^("+names+")$", "example.org/vatside/ui/engine").CombinedOutput()
	passed := strings.Count(string(out), "--- PASS: Test")
	r.count(passed, 0)
	r.ended(0, "by the engine's own tests: go test -run '"+names+"' ./ui/engine")
	if want := strings.Count(names, "|") + 1; err != nil || passed < want {
		r.bad("%d of %d tests of the engine passed: %v", passed, want, err)
	}
}
