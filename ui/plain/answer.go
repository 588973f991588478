package plain

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/ui/answer"
	"example.org/vatside/ui/engine"
)

// choices is the list of answers: what fits the present act first.
func choices(v engine.View) []string {
	out := []string{"Answers; an empty line says done, or that a caution is answered; q leaves the day open:"}
	for _, s := range answer.List(v.State, v.Now) {
		out = append(out, "  "+s.Title+":")
		for _, r := range s.Rows {
			if r.Say != "" {
				out = append(out, fmt.Sprintf("    %-28s %s", r.Say+short(r), r.Does))
			}
		}
	}
	return append(out, "  Now: "+v.Line())
}

// short is the letter of a row, which stands for its words; empty where it has none.
func short(r answer.Row) string {
	if len(r.Words) == 0 || len([]rune(r.Key)) != 1 || r.Key == r.Say {
		return ""
	}
	return " (" + r.Key + ")"
}

// pending is what waits for its caution to be answered.
type pending struct {
	line     string
	commands []day.Command // the first one's caution was told
	at       time.Time     // when
}

// readFor is how long a caution is read at least, before an empty line answers it.
const readFor = time.Second

// Answer carries out one typed line at a day that is open in the engine, as v has it now.
func (t *Terminal) Answer(ctx context.Context, e *engine.Engine, id string, v engine.View, line string) {
	wait := t.pending
	t.pending = nil
	switch {
	case wait == nil:
	case line == "" && v.Now.Sub(wait.at) < readFor:
		t.pending = wait
		t.refused(day.ErrTooSoon)
		return
	case line == "" || line == wait.line: // the same words once more say that it is so
		t.do(ctx, e, id, v, wait.line, append([]day.Command{day.Answered{Command: wait.commands[0]}}, wait.commands[1:]...))
		return
	default:
		t.say("Left: %s.", wait.line)
	}
	r, l, commands, err := answer.Take(v.State, v.Now, line)
	switch {
	case err != nil:
		t.refused(err)
	case r.Asks():
		t.tells(v, r, l)
	case t.do(ctx, e, id, v, line, commands) && r.ID == "signs":
		t.ails(present(ctx, e, v))
	}
}

// do carries commands out, and tells of a caution that stands before one of them. True: all are done.
func (t *Terminal) do(ctx context.Context, e *engine.Engine, id string, v engine.View, line string, commands []day.Command) bool {
	for i, c := range commands {
		var err error
		if press, is := c.(day.Done); is && press.Call == "" { // what was told may be over by now
			press.Call = t.call
			c = press
		}
		if t.Likened != nil {
			c, err = t.Likened(c)
		}
		if err == nil {
			_, err = e.Do(ctx, id, c)
		}
		if wants := (*day.Pending)(nil); errors.As(err, &wants) {
			t.pending = &pending{line, commands[i:], v.Now}
			t.say("Caution: %s. Once that is so, Enter; anything else leaves it.", strings.TrimSuffix(wants.Caution, "."))
			return false
		}
		if err != nil {
			t.refused(err)
			return false
		}
	}
	return true
}

// refused says why something is not done.
func (t *Terminal) refused(err error) {
	var unknown answer.ErrUnknown
	switch {
	case errors.As(err, new(*day.Other)):
		t.say("%s", err)
	case errors.Is(err, day.ErrTooSoon):
		t.say("Too soon after the last one: read once more, then Enter.")
	case errors.As(err, &unknown):
		t.say("Not done: %s; ? lists them.", err)
	default:
		t.say("Not done: %s.", strings.TrimSuffix(err.Error(), "."))
	}
}

// tells answers a question.
func (t *Terminal) tells(v engine.View, r answer.Row, l answer.Line) {
	switch r.ID {
	case "help":
		for _, line := range choices(v) {
			t.say("%s", line)
		}
	case "outlook":
		t.vat(v)
	case "wants":
		t.wants(v)
	case "blue":
		t.blues(v, l.Rest)
	case "ails":
		t.ails(v)
	case "timetable":
		for _, line := range timetable(v).Told().Lines() {
			t.say("  %s", line)
		}
	case "on the bench":
		t.bench(v)
	case "unconfirmed":
		t.unsaid(v)
	case "log":
		for _, e := range v.State.Log {
			t.say("  %s", Line(v.ID, e, v.State))
		}
	case "aid":
		t.say("First aid:")
		for _, line := range firstAid() {
			t.say("  %s", line)
		}
		if t.Emergency != "" {
			t.say("  Your emergency number: %s", t.Emergency)
		}
	}
}
