package stock

import (
	"time"

	"example.org/vatside/model/quantity"
	model "example.org/vatside/model/stock"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/widget"
)

// soonest is how long nothing turns: a second press of the same key is no answer.
const soonest = 5 * time.Second

// gap is how long after its caution a step is not done yet: one press answers the caution, another says done.
const gap = time.Second

// trial is the guided test of one tin.
type trial struct {
	tin      string
	at       int
	answered time.Time // when the caution of the step was answered; zero: not yet
	since    time.Time // the clock runs since; zero: not yet
}

// begin starts the test, if the list would take one.
func (s shelf) begin(t model.TinBalance, env screen.Env) (screen.Screen, []screen.Request) {
	s.tin = t.ID
	c := model.TestTin{Tin: t.ID, Result: model.Tested{Turned: true}}
	if _, err := model.Decide(env.Home.Stock.List, c, env.Present()); err != nil {
		return s, []screen.Request{screen.Say{Word: err.Error()}}
	}
	s.trial = &trial{tin: t.ID}
	return s, nil
}

func (t trial) step(env screen.Env) model.TestStep { return model.TestSteps(env.System())[t.at] }

// left is what remains of the clock.
func (t trial) left(now time.Time) time.Duration {
	return model.TestWait.Duration() - now.Sub(t.since)
}

// Counts tells whether the clock of a test runs.
func (s shelf) Counts(env screen.Env) bool {
	return s.trial != nil && !s.trial.since.IsZero() && s.trial.left(env.Present()) > 0
}

func (s shelf) try(k screen.Key, env screen.Env) (screen.Screen, []screen.Request) {
	t := *s.trial
	s.trial = &t
	now := env.Present()
	result := func(r model.Tested) (screen.Screen, []screen.Request) {
		s.trial = nil
		return s.keep(model.TestTin{Tin: t.tin, Result: r}, env)
	}
	running := !t.since.IsZero()
	switch {
	case k.Name == "esc" || k.Name == "pgup":
		s.trial = nil
	case t.at == 0 && k.Rune == 'c':
		return result(model.Tested{Seen: []string{"caked"}})
	case t.at == 0 && k.Rune == 'w':
		return result(model.Tested{Seen: []string{"warm"}})
	case t.at == 0 && k.Rune == 'a':
		return result(model.Tested{Seen: []string{"acrid"}})
	case running && k.Rune == 'x' && t.left(now) > 0:
		return s, []screen.Request{screen.Say{Word: "wait the whole " + model.TestWait.String() + " first"}}
	case running && k.Rune == 'x':
		return result(model.Tested{})
	case running && (k.Done() || k.Rune == 'y') && now.Sub(t.since) >= soonest:
		after := quantity.Span(now.Sub(t.since).Round(time.Second))
		return result(model.Tested{Turned: true, After: min(after, model.TestWait)})
	case running:
	case k.Done() && t.step(env).Caution != "" && t.answered.IsZero():
		t.answered = now
	case k.Done() && t.step(env).Caution != "" && now.Sub(t.answered) < gap:
	case k.Done() && t.step(env).Wait > 0:
		t.since = now
	case k.Done():
		t.at, t.answered = t.at+1, time.Time{}
	}
	return s, nil
}

func (t trial) view(sheet *widget.Sheet, env screen.Env) {
	steps := model.TestSteps(env.System())
	now := env.Present()
	sheet.Foot = []string{"test of " + t.tin}
	if !t.since.IsZero() {
		left := t.left(now)
		sheet.Act, sheet.Big = "Watch it turn yellow-green", true
		sheet.Figure = widget.Figure{Number: widget.Countdown(max(left, 0)), Note: "enter when it is yellow-green"}
		sheet.Answers = []string{sheet.Figure.Note}
		if left <= 0 {
			sheet.Act, sheet.Figure.Tone = "Has it turned yellow-green?", widget.Now
			sheet.Figure.Note, sheet.Answers = "enter: it has; x: it has not", []string{"enter: it has", "x: it has not"}
		}
		return
	}
	step := steps[t.at]
	sheet.Head.Right = "step " + string(rune('1'+t.at)) + " of 4 · " + now.Format("15:04")
	sheet.Act, sheet.How = step.Act, []string{step.How}
	sheet.Next = "then: watch it for " + model.TestWait.String()
	if t.at+1 < len(steps) {
		sheet.Next = "then: " + wording.Lower(steps[t.at+1].Act)
	}
	if t.at == 0 {
		sheet.How = append(sheet.How, "c caked, w warm, a acrid: it is noted, and not tested.")
		sheet.Answers = []string{"c caked", "w warm", "a acrid"}
		sheet.Why = "A reducer that lost its strength only clouds the vat: test it in a jar first."
	}
	if step.Caution != "" {
		sheet.Caution = &widget.Caution{Text: step.Caution}
		if t.answered.IsZero() {
			sheet.Caution.Key = "enter: on"
		}
	}
}

func (t trial) keys(env screen.Env) []widget.Key {
	leave := screen.Bound("esc", "leave the test")
	switch {
	case !t.since.IsZero():
		return []widget.Key{screen.Bound("enter", "it turned"), screen.Bound("x", "it did not"), leave}
	case t.at == 0:
		return []widget.Key{screen.Bound("enter", "loose, cool"), screen.Bound("c w a", "caked, warm, acrid"), leave}
	case t.step(env).Wait > 0:
		return []widget.Key{screen.Bound("enter", "sprinkled"), leave}
	}
	return []widget.Key{screen.Bound("enter", "done"), leave}
}
