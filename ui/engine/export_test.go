package engine

import "context"

// Fail has the engine fail in the middle of an act.
func (e *Engine) Fail(ctx context.Context) error {
	return e.ask(ctx, func() { var days []*session; days[0].busy = true })
}
