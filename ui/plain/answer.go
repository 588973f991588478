package plain

import (
	"context"
	"errors"
	"fmt"
	"strings"

	"example.org/vatside/model/day"
	"example.org/vatside/ui/answer"
	"example.org/vatside/ui/engine"
)

// choices is the list of answers: what fits the present act first.
func choices(v engine.View) []string {
	out := []string{"Answers; an empty line says done, q leaves the day open:"}
	for _, s := range answer.List(v.State, v.Now) {
		out = append(out, "  "+s.Title+":")
		for _, r := range s.Rows {
			if r.Say != "" {
				out = append(out, fmt.Sprintf("    %-28s %s", r.Say+short(r), r.Does))
			}
		}
	}
	return append(out, "  Now: "+day.NowLine(v.State, v.Now))
}

// short is the shortest word of a row, where the list shows another; empty where it shows that.
func short(r answer.Row) string {
	best := ""
	for _, w := range r.Words {
		if best == "" || len(w) < len(best) {
			best = w
		}
	}
	first, _, _ := strings.Cut(r.Say, " ")
	if best == "" || len(best) > 2 || best == first {
		return ""
	}
	return " (" + best + ")"
}

// answer carries out one typed line.
func (t *Terminal) answer(ctx context.Context, e *engine.Engine, id string, v engine.View, line string) {
	r, l, commands, err := answer.Take(v.State, v.Now, line)
	if err == nil && r.Asks() {
		t.tells(v, r, l)
		return
	}
	if err == nil && r.ID == "treat" {
		t.treat(ctx, e, id, v)
		return
	}
	for _, c := range commands {
		if err == nil {
			_, err = e.Do(ctx, id, c)
		}
	}
	switch unknown := (answer.ErrUnknown{}); {
	case errors.Is(err, day.ErrTooSoon):
		t.say("Too soon after the last one: read once more, then Enter.")
	case errors.As(err, &unknown):
		t.say("Not done: %s; ? lists them.", err)
	case err != nil:
		t.say("Not done: %s.", strings.TrimSuffix(err.Error(), "."))
	case r.ID == "signs":
		t.ails(present(ctx, e, v))
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
	case "on the bench":
		t.bench(v)
	case "log":
		for _, e := range v.State.Log {
			t.say("  %s", Line(v.ID, e, v.State.Head.Setup.System()))
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
