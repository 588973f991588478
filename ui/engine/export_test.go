package engine

import "context"

// Fail has the engine fail in the middle of an act.
func (e *Engine) Fail(ctx context.Context) error {
	return e.ask(ctx, func() { var days []*session; days[0].busy = true })
}

// LookAgain is lookAgain, for tests of a program that was faster.
func (e *Engine) LookAgain(ctx context.Context, id string) error { return e.lookAgain(ctx, id) }
