package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"sync/atomic"
	"time"

	"example.org/vatside/model/wording"
	"example.org/vatside/testdata/bench/internal/apart"
	"example.org/vatside/testdata/bench/internal/tty"
	"example.org/vatside/testdata/bench/words"
)

// settle is how long after its start a program idles.
const settle = 10 * time.Second

// moment is how long what one wake-up sets going lasts at most.
const moment = 250 * time.Millisecond

// idleness is a program left alone.
type idleness struct {
	name    string
	kinds   []kind
	home    string
	args    []string
	day     bool // the day's own screen is shown
	running bool // a time runs
}

var idlenesses = []idleness{
	{"a running countdown", []kind{bare, bubble, vat}, words.Resting, nil, true, true},
	{"three countdowns", []kind{vat}, words.Dipping, nil, true, true},
	{"a rehearsal at speed 1", []kind{vat}, "", []string{"rehearse", "--speed", "1"}, false, true},
	{"nothing running, empty home", []kind{vat}, "", nil, false, false},
	{"nothing running, open day", []kind{vat}, words.Waiting, nil, true, false},
}

// idles measures all of them beside one another, so that the machine is the same for all.
func (t *setup) idles(all *costs, long time.Duration) {
	type result struct {
		i  idleness
		s  subject
		u  usage
		ok bool
	}
	var wg sync.WaitGroup
	var results []*result
	for _, i := range idlenesses {
		for _, s := range all.subjects {
			for _, k := range i.kinds {
				if k == s.kind {
					r := &result{i: i, s: s}
					results = append(results, r)
					wg.Go(func() { r.u, r.ok = t.idle(i, s, long) })
				}
			}
		}
	}
	wg.Wait()
	for _, r := range results {
		if !r.ok {
			all.miss(r.s, "%s could not be measured", r.i.name)
			continue
		}
		seconds := long.Seconds()
		if r.s.kind == bare {
			all.bare = float64(r.u.switches) / seconds
		}
		for _, f := range []struct {
			what, unit     string
			value          float64
			running, still float64 // limits
		}{
			{"wake-ups", "/s", float64(r.u.switches) / seconds, asBare, 0},
			{"moments awake", "/s", float64(r.u.moments) / seconds, 0, 0.1},
			{"processor", "s/h", r.u.cpu.Seconds() / seconds * 3600, 1.5, 0},
			{"written", "B/s", float64(r.u.written) / seconds, 500, 0},
			{"memory", "MB", r.u.memory, 30, 30},
		} {
			limit := wording.Either(r.i.running, f.running, f.still)
			all.put(r.i.name+": "+f.what, f.unit, limit, r.s, f.value, fmt.Sprintf("%.4g", f.value))
		}
	}
}

// usage is what a program used in a time, and the most memory that it had.
type usage struct {
	switches int64
	moments  int64 // stretches of a moment's length in which it woke at all
	cpu      time.Duration
	written  int64
	memory   float64 // MB
}

func (t *setup) idle(i idleness, s subject, long time.Duration) (usage, bool) {
	h := t.home(i.home)
	args := i.args
	if len(args) > 0 {
		args = append(args[:len(args):len(args)], "--home", h.dir)
	}
	var written atomic.Int64
	seat := h.sitAt(s.command(h, args...), tty.Manner{Answers: tty.Xterm, Heard: func(_ time.Time, n int, _ func() string) { written.Add(int64(n)) }})
	defer seat.Kill()
	if s.kind == vat && i.day && !seat.day() {
		return usage{}, false
	}
	time.Sleep(settle)
	pid := seat.Cmd.Process.Pid
	before, err := used(pid)
	before.written = written.Load()
	moments := int64(0)
	for last, end := before.switches, time.Now().Add(long); time.Now().Before(end); {
		time.Sleep(moment)
		if now, err := used(pid); err == nil && now.switches != last {
			last = now.switches
			moments++
		}
	}
	after, afterErr := used(pid)
	after.written = written.Load()
	if err != nil || afterErr != nil {
		return usage{}, false
	}
	return usage{after.switches - before.switches, moments, after.cpu - before.cpu, after.written - before.written, after.memory}, true
}

// used is what a process has used up to now.
func used(pid int) (u usage, err error) {
	root := filepath.Join("/proc", strconv.Itoa(pid))
	tasks, err := filepath.Glob(filepath.Join(root, "task", "*"))
	if err != nil || len(tasks) == 0 {
		return u, fmt.Errorf("the process %d has gone", pid)
	}
	for _, task := range tasks {
		sched, err := os.ReadFile(filepath.Join(task, "schedstat"))
		if err != nil {
			continue // the thread has ended
		}
		status := filepath.Join(task, "status")
		u.switches += apart.Field(status, "voluntary_ctxt_switches") + apart.Field(status, "nonvoluntary_ctxt_switches")
		ran, _, _ := strings.Cut(string(sched), " ")
		ns, err := strconv.ParseInt(ran, 10, 64)
		if err != nil {
			return u, err
		}
		u.cpu += time.Duration(ns)
	}
	u.memory = float64(apart.Field(filepath.Join(root, "status"), "VmHWM")) / 1024 // from KiB
	return u, nil
}
