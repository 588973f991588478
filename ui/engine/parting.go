package engine

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"example.org/vatside/model/wording"
	"example.org/vatside/ui/guard"
	"example.org/vatside/ui/shelf"
)

// Limits of leaving, from its beginning, within the 5 s that a system grants a program that it ends. A place that is slow itself, a
// card or a stick, wants the time between them: a file is begun there by two syncs.
const (
	patience = 1200 * time.Millisecond // for one write, before another place is asked too
	enough   = 2200 * time.Millisecond // for all of them, and for what fails and is tried again
	farewell = 4500 * time.Millisecond // a write that has not answered is waited for
)

// Lost tells whether anything is nowhere on disk.
func (p Parting) Lost() bool {
	return slices.ContainsFunc(p, func(r Remainder) bool { return len(r.Lost) > 0 })
}

// Words is a sentence for each day, in the order of the days; empty where all are in their days.
func (p Parting) Words() string {
	var out []string
	for _, r := range p {
		why := wording.If(r.Why != "", ": "+r.Why)
		if n := r.Away.Events; n > 0 {
			s := fmt.Sprintf("%s of %s %s kept in %s%s. Open the day again", wording.Counted(n, "act"), r.ID, plural(n, "is", "are"), r.Away.File, why)
			s += wording.If(r.Why == shelf.Full, " when there is room")
			s += wording.If(r.Away.Passing, ", before the machine is restarted")
			out = append(out, s+plural(n, ": it comes", ": they come")+" into the book.")
		}
		if n := len(r.Lost); n > 0 {
			out = append(out, fmt.Sprintf("%s of %s %s NOT on disk%s. Write down: %s.",
				wording.Counted(n, "act"), r.ID, plural(n, "is", "are"), why, strings.Join(r.Lost, "; ")))
		}
	}
	return strings.Join(out, " ")
}

// drain waits for the last writes. What is still not on disk when its patience ends is kept elsewhere too, beside a write that has
// not answered: that one is left to its disk. Then it lets the locks go.
func (e *Engine) drain() Parting {
	impatient, late, limit, again := time.NewTimer(patience), time.NewTimer(enough), time.NewTimer(farewell), time.NewTicker(20*time.Millisecond)
	defer impatient.Stop()
	defer late.Stop()
	defer limit.Stop()
	defer again.Stop()
	keeps := make(chan kept, 2*len(e.days))
	asked, over := 0, false // other places that have not answered; whether it is late
	keep := func(all bool) {
		for _, s := range e.days {
			if (all || s.crashed) && s.keep(keeps) { // for a writer that failed nobody waits
				asked++
			}
		}
	}
	keep(false)
	for e.unsaved() && (!over || asked > 0 || e.answering()) {
		select {
		case d := <-e.inbox:
			if e.written(d); d.err == nil && !over && asked == 0 {
				impatient.Reset(patience)
			}
		case k := <-keeps:
			asked--
			e.kept(k)
		case <-again.C: // no time to wait for a disk that failed
			for _, s := range e.days {
				if !s.shed {
					s.write()
				}
			}
		case <-impatient.C:
			keep(true)
		case <-late.C:
			if over = true; asked == 0 && impatient.Stop() {
				keep(true)
			}
		case <-limit.C:
			return e.letGo()
		}
	}
	return e.letGo()
}

// answering tells whether a write is under way that may yet go well.
func (e *Engine) answering() bool {
	return slices.ContainsFunc(e.days, func(s *session) bool {
		return s.busy && !s.shed && (s.trouble == "" || s.trouble == unanswering)
	})
}

// keep puts what is waiting elsewhere, beside the engine; false where there is nothing, or no such place.
func (s *session) keep(done chan<- kept) bool {
	w, ok := s.writer.(refuge)
	events := s.unsaved()
	if !ok || len(events) == 0 || s.shed {
		return false
	}
	id := s.id
	guard.Go("keeper", func() {
		k := kept{id: id, upTo: events[len(events)-1].Seq, err: errUnkept} // also where Keep panics
		defer func() { done <- k }()
		k.away, k.err = w.Keep(events)
	})
	return true
}

var errUnkept = errors.New("not kept")

// kept takes the word of where events are kept.
func (e *Engine) kept(k kept) {
	switch s := e.session(k.id); {
	case s == nil:
	case k.err != nil:
		if s.trouble = s.why; s.busy || s.trouble == "" {
			s.trouble = unanswering
		}
	default:
		s.elsewhere = k.away
		s.keptTo = max(s.keptTo, k.upTo)
		s.kept()
	}
}

// unsaved tells whether anything that is wanted is not on disk.
func (e *Engine) unsaved() bool {
	return slices.ContainsFunc(e.days, func(s *session) bool { return !s.shed && len(s.unsaved()) > 0 })
}

// letGo gives the files and locks back, and says what is not in them.
func (e *Engine) letGo() Parting {
	p := e.left
	for _, s := range e.days {
		if r := s.remainder(); r.Away.Events+len(r.Lost) > 0 {
			p = append(slices.DeleteFunc(p, func(l Remainder) bool { return l.ID == r.ID }), r)
		}
		if s.writer != nil && !s.busy { // a file that is still being written is left to its write
			_ = s.writer.Close()
		}
	}
	e.days = nil
	return p
}

// remainder is what of the day is not in its own file.
func (s *session) remainder() Remainder {
	r := Remainder{ID: s.id, Why: s.why, Lost: byHand(s.unsaved(), s.state.Head.Setup.System())}
	if s.elsewhere.Events > 0 {
		r.Away = s.elsewhere
	} else if s.away.Events > 0 {
		r.Away = s.away
		if s.away.Why != nil {
			r.Why = reason(s.away.Why)
		}
	}
	if r.Why == "" && s.busy {
		r.Why = unanswering
	}
	return r
}

// Keep puts what is not on disk elsewhere, for a dyer who wants to leave while a disk does not answer. The snapshot says what
// came of it.
func (e *Engine) Keep(ctx context.Context) error {
	return e.ask(ctx, func() {
		for _, s := range e.days {
			s.keep(e.keeps)
		}
	})
}

// Shed gives up what is not on disk: the dyer leaves without it.
func (e *Engine) Shed(ctx context.Context) error {
	return e.ask(ctx, func() {
		for _, s := range e.days {
			s.shed = true
		}
	})
}
