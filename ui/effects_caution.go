package ui

import (
	"errors"
	"fmt"
	"reflect"
	"strings"
	"time"

	"example.org/vatside/model/day"
)

// Least and most between a caution that was shown and the key that answers it.
const (
	askLeast = time.Second
	askMost  = time.Minute
)

// answer is a command for a day as it goes to the engine; now is on the machine's monotonic clock.
func (a *cautions) answer(id string, c day.Command, now time.Duration) day.Command {
	if a == nil {
		return c
	}
	a.mu.Lock()
	defer a.mu.Unlock()
	if a.c == nil || a.id != id || !reflect.DeepEqual(a.c, c) {
		a.c = nil
		return c
	}
	since := now - a.at
	if since < askLeast { // a key that bounced
		return c
	}
	a.c = nil
	if since > askMost {
		return c
	}
	return day.Answered{Command: c}
}

// ask keeps a command that wants its caution answered first, and says how it is answered; other errors stay as they are. What a press asks
// the engine keeps.
func (a *cautions) ask(id string, c day.Command, now time.Duration, err error) error {
	pending := (*day.Pending)(nil)
	if a == nil || !errors.As(err, &pending) {
		return err
	}
	a.mu.Lock()
	defer a.mu.Unlock()
	if _, press := c.(day.Done); a.c == nil && !press {
		a.id, a.c, a.at = id, c, now
	}
	if strings.HasSuffix(pending.Caution, "?") {
		return fmt.Errorf("%s The same key again: yes", pending.Caution)
	}
	return fmt.Errorf("%s; the same key again: answered, and done", pending.Caution)
}
