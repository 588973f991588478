package ui

import (
	"context"
	"errors"
	"fmt"
	"reflect"
	"sync"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/ui/engine"
)

// cautions is the command whose caution was shown last, where no screen asks for it by itself: the same command once more, after a
// second and within a minute, is its answer. The nil cautions answers nothing.
type cautions struct {
	mu sync.Mutex
	id string
	c  day.Command
	at time.Time
}

// Least and most between a caution that was shown and the key that answers it.
const (
	askLeast = time.Second
	askMost  = time.Minute
)

// answer is a command as it goes to the engine.
func (a *cautions) answer(ctx context.Context, e *engine.Engine, id string, c day.Command) day.Command {
	if a == nil {
		return c
	}
	a.mu.Lock()
	defer a.mu.Unlock()
	if a.c == nil || a.id != id || !reflect.DeepEqual(a.c, c) {
		a.c = nil
		return c
	}
	switch since := dayTime(ctx, e, id).Sub(a.at); {
	case since < askLeast:
		return c
	case since > askMost:
		a.c = nil
		return c
	}
	a.c = nil
	return day.Answered{Command: c}
}

// ask keeps a command that wants its caution answered first, and says how it is answered; other errors stay as they are.
func (a *cautions) ask(ctx context.Context, e *engine.Engine, id string, c day.Command, err error) error {
	pending := (*day.Pending)(nil)
	if a == nil || !errors.As(err, &pending) {
		return err
	}
	a.mu.Lock()
	defer a.mu.Unlock()
	if a.c == nil { // a key that bounced asks for nothing anew
		a.id, a.c, a.at = id, c, dayTime(ctx, e, id)
	}
	return fmt.Errorf("%s; the same key again: answered, and done", pending.Caution)
}

// dayTime is the time of a day now.
func dayTime(ctx context.Context, e *engine.Engine, id string) time.Time {
	snap, err := e.Now(ctx)
	if err != nil {
		return time.Time{}
	}
	v, _ := snap.Day(id)
	return v.Now
}
