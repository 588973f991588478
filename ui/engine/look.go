package engine

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"time"

	"example.org/vatside/model/book"
	"example.org/vatside/model/day"
	"example.org/vatside/ui/guard"
	"example.org/vatside/ui/shelf"
)

// ErrOpen is the answer to an Open of a day that is open already.
var ErrOpen = errors.New("this day is open already")

// readApart is how far apart a day is read again at least, however often it is written.
const readApart = 250 * time.Millisecond

// Seconds gives a tick each second until ctx ends; one that nobody fetched is not made up for.
func Seconds(ctx context.Context) <-chan struct{} {
	out := make(chan struct{})
	guard.Go("seconds", func() {
		t := time.NewTicker(time.Second)
		defer t.Stop()
		for {
			select {
			case <-t.C:
			case <-ctx.Done():
				return
			}
			select {
			case out <- struct{}{}:
			case <-ctx.Done():
				return
			}
		}
	})
	return out
}

// Paced hands signals on until ctx ends: the first at once, the others no closer than apart. Of those that come meanwhile one
// is handed on.
func Paced(ctx context.Context, in <-chan struct{}, apart time.Duration) <-chan struct{} {
	out := make(chan struct{}, 1)
	guard.Go("changes", func() {
		for {
			select {
			case <-in:
			case <-ctx.Done():
				return
			}
			signal(out)
			t := time.NewTimer(apart)
			select {
			case <-t.C:
			case <-ctx.Done():
				t.Stop()
				return
			}
		}
	})
	return out
}

// followOther begins to follow what another program writes.
func (e *Engine) followOther(s *session, o Other) {
	ctx, stop := context.WithCancel(e.alive)
	s.watching = watching{again: make(chan struct{}, 1), stop: stop}
	again := s.again
	guard.Go("follower", func() { e.follow(ctx, s, o, again) })
}

// lookNoMore ends followOther. The session knows nothing of another program afterwards.
func (s *session) lookNoMore() {
	if s.stop != nil {
		s.stop()
	}
	s.watching = watching{}
}

// follow reads a day again whenever it changed, and waits for its writer to leave. It runs beside the engine.
func (e *Engine) follow(ctx context.Context, s *session, o Other, again <-chan struct{}) {
	defer o.Close()
	changed := Paced(ctx, o.Changed(), readApart)
	left := make(chan error, 1)
	await := func() { guard.Go("waiter", func() { left <- o.Left() }) } // it cannot be called off: it ends with the writer
	var seconds <-chan struct{}                                         // where that cannot be waited for
	free := false
	read := func() { e.reread(ctx, s, o, free) }
	taken := func() bool { // by a third program
		if !free || o.Free() {
			return false
		}
		if free = false; seconds == nil {
			await()
		}
		return true
	}
	read() // what was written since it was opened
	await()
	for {
		select {
		case <-ctx.Done():
			return
		case <-changed:
			taken()
			read()
		case <-again:
			taken()
			read()
		case err := <-left:
			if err != nil {
				seconds = Seconds(ctx)
				continue
			}
			free = true
			read()
		case <-seconds:
			if !free && o.Free() {
				free = true
				read()
			} else if taken() {
				read()
			}
		}
	}
}

// reread reads a day and hands it to its session.
func (e *Engine) reread(ctx context.Context, s *session, o Other, free bool) {
	b, newer, err := o.Read()
	var state day.State
	if err == nil {
		var errs []error
		if state, errs = day.Replay(b.Head, b.Events); len(errs) > 0 && len(state.Plan) == 0 {
			err = errs[0]
		}
	}
	polled := o.Polled()
	_ = e.ask(ctx, func() { // once the engine has stopped nobody looks any more
		if s.writer != nil || !slices.Contains(e.days, s) {
			return
		}
		s.free, s.polled = free, polled
		if newer != "" {
			s.newer = newer
		}
		switch {
		case err != nil:
			s.trouble = fmt.Sprintf("shown is what was read last: %v", err)
		case len(state.Log) < len(s.state.Log):
			s.trouble = fmt.Sprintf("shown is what was read last: the day's file has only %d of its %d events now", len(state.Log), len(s.state.Log))
		default:
			s.trouble = ""
			e.renew(s, state)
		}
	})
}

// renew shows a day as it was read anew. Its clock goes by the new last event, but never back for a fraction of a second that
// an event's time leaves out.
func (e *Engine) renew(s *session, state day.State) {
	if len(state.Log) != len(s.state.Log) {
		switch l := s.source.(type) {
		case FixedClock:
			s.source = FixedClock{At: state.At}
		case *Living:
			now := e.living(state)
			if ahead := l.Now().Sub(now.Now()); ahead <= 0 || ahead >= time.Second {
				s.source = now
			}
		}
	}
	s.set(state)
	s.seen = -1
	if s.table != nil {
		s.ruled(s.table, true)
	}
}

// place is the session for an opening. A day that is open is not opened again; one that was only looked at is taken over by
// who brings its writer.
func (e *Engine) place(o Opening) (*session, error) {
	i := slices.IndexFunc(e.days, func(s *session) bool { return s.id == o.ID })
	if i < 0 {
		s := &session{id: o.ID, inbox: e.inbox, mono: e.in.Mono}
		e.days = append(e.days, s)
		return s, nil
	}
	s := e.days[i]
	if s.writer != nil || o.Writer == nil {
		return s, ErrOpen
	}
	s.lookNoMore()
	s.trouble, s.seen = "", -1
	return s, nil
}

// What stands in the way of taking a day over, each in half a sentence for the dyer.
var (
	ErrFaster    = errors.New("another program was faster: here the day can only be looked at")
	ErrMeanwhile = errors.New("the day was closed meanwhile")
)

// TakeOver opens a day for writing that is looked at and whose program has left it; it is to be handed to Open. With ErrFaster
// and ErrMeanwhile it is looked at further, as it stands now.
func (e *Engine) TakeOver(ctx context.Context, h shelf.Home, vat, name string) (*shelf.Writer, book.Book, error) {
	w, b, err := h.OpenDay(vat, name)
	switch {
	case errors.Is(err, shelf.ErrLocked):
		return nil, b, errors.Join(ErrFaster, e.lookAgain(ctx, vat+"/"+name))
	case err != nil:
		return nil, b, err
	}
	if s, _ := day.Replay(b.Head, b.Events); s.Closed {
		return nil, b, errors.Join(ErrMeanwhile, w.Close(), e.lookAgain(ctx, vat+"/"+name))
	}
	return w, b, nil
}

// lookAgain has a day that is only looked at asked whether it is still free: somebody else was faster to take it.
func (e *Engine) lookAgain(ctx context.Context, id string) error {
	return e.ask(ctx, func() {
		if s := e.session(id); s != nil && s.again != nil {
			signal(s.again)
		}
	})
}
