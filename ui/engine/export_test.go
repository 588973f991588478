package engine

import (
	"context"
	"time"

	"example.org/vatside/model/day"
)

// Fail has the engine fail in the middle of an act.
func (e *Engine) Fail(ctx context.Context) error {
	return e.ask(ctx, func() { var days []*session; days[0].busy = true })
}

// LookAgain is lookAgain, for tests of a program that was faster.
func (e *Engine) LookAgain(ctx context.Context, id string) error { return e.lookAgain(ctx, id) }

// Become puts a day into a state at an instant that stands still, as if what led there had just happened.
func (e *Engine) Become(ctx context.Context, id string, state day.State, now time.Time) error {
	return e.ask(ctx, func() {
		s := e.session(id)
		s.set(state)
		s.source, s.watched, s.cautioned = FixedClock{At: now}, now, ""
	})
}
