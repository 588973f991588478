package engine

import (
	"context"
	"slices"
	"time"

	"example.org/vatside/model/wording"
)

// ask runs f on the engine's goroutine and waits for it.
func (e *Engine) ask(ctx context.Context, f func()) error {
	done := make(chan struct{})
	select {
	case e.asks <- func() { f(); close(done) }:
	case <-ctx.Done():
		return ErrGone
	case <-e.gone:
		return ErrGone
	}
	select {
	case <-done:
		return nil
	case <-e.gone: // it failed at this
		return ErrGone
	}
}

// until waits until something is so. The engine looks whenever anything happened.
func (e *Engine) until(ctx context.Context, so func() bool) error {
	w := waiter{ctx, so, make(chan struct{})}
	if err := e.ask(ctx, func() { e.waiters = append(e.waiters, w) }); err != nil {
		return err
	}
	select {
	case <-w.done:
		return nil
	case <-ctx.Done():
		return ErrGone
	case <-e.gone:
		return ErrGone
	}
}

// tell ends the waits whose condition holds by now, and forgets those that were given up.
func (e *Engine) tell() {
	e.waiters = slices.DeleteFunc(e.waiters, func(w waiter) bool {
		if w.ctx.Err() != nil {
			return true
		}
		if !w.so() {
			return false
		}
		close(w.done)
		return true
	})
}

// session is an open day; nil for none.
func (e *Engine) session(id string) *session {
	s, _ := wording.First(e.days, func(s *session) bool { return s.id == id })
	return s
}

// Settle waits until no write of a day is in flight and all that happened so far on it is on disk by its writer.
func (e *Engine) Settle(ctx context.Context, id string) error {
	return e.until(ctx, func() bool {
		s := e.session(id)
		return s == nil || !s.busy && len(s.waiting) == 0
	})
}

// Saved waits until all that happened so far on a day is on disk, wherever.
func (e *Engine) Saved(ctx context.Context, id string) error {
	return e.until(ctx, func() bool {
		s := e.session(id)
		return s == nil || len(s.unsaved()) == 0
	})
}

// News waits until more has happened on a day or is on disk of it than a view tells, at most for a stretch of the machine's time.
func (e *Engine) News(ctx context.Context, v View, most time.Duration) {
	ctx, stop := context.WithTimeout(ctx, most)
	defer stop()
	_ = e.until(ctx, func() bool {
		s := e.session(v.ID)
		return s == nil || len(s.state.Log) != len(v.State.Log) || s.saved() != v.Saved
	})
}
