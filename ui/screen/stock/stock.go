// Package stock is the shelf of powders: each tin with what is left in it, the one thing most pressing, and the guided test
// of an old reducer.
package stock

import (
	"slices"

	model "example.org/vatside/model/stock"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/widget"
)

type shelf struct {
	tin    string // the chosen one; empty: the one that wants hands, else the first
	typing screen.Field
	adding *adding
	trial  *trial
}

func New(screen.Env) screen.Screen { return shelf{} }

func (s shelf) Capturing() bool { return s.typing.On() || s.adding != nil }

// nextTask is the most urgent thing to do with the tins.
func nextTask(env screen.Env) model.Act {
	return model.Pressing(env.Home.Stock.Tins, screen.Needs(env), env.Present(), env.System())
}

// at is the place of the chosen tin.
func (s shelf) at(env screen.Env) int {
	id := s.tin
	if id == "" {
		id = nextTask(env).Tin
	}
	return max(0, slices.IndexFunc(env.Home.Stock.Tins, func(t model.TinBalance) bool { return t.ID == id }))
}

// chosen is the tin that the keys are about; false for an empty shelf.
func (s shelf) chosen(env screen.Env) (model.TinBalance, bool) {
	tins := env.Home.Stock.Tins
	if len(tins) == 0 {
		return model.TinBalance{}, false
	}
	return tins[s.at(env)], true
}

func (s shelf) Update(k screen.Key, env screen.Env) (screen.Screen, []screen.Request) {
	switch {
	case s.adding != nil:
		return s.add(k, env)
	case s.typing.On():
		return s.typed(k, env)
	case s.trial != nil:
		return s.try(k, env)
	case k.Name == "esc" || k.Name == "pgup":
		return s, []screen.Request{screen.Leave{}}
	case k.Rune == 'n':
		s.adding = &adding{}
		return s, nil
	case k.Rune == 'u':
		return s.keep(model.TakeBack{}, env)
	}
	t, ok := s.chosen(env)
	if !ok {
		if k.Done() {
			s.adding = &adding{}
		}
		return s, nil
	}
	tins := env.Home.Stock.Tins
	if at, _, chosen := k.Choose(s.at(env), len(tins)); chosen {
		s.tin = tins[at].ID
		return s, nil
	}
	switch {
	case k.Rune == 'o':
		return s.ask(opens, t, env)
	case k.Rune == 'w':
		return s.ask(weighs, t, env)
	case k.Rune == 't':
		return s.begin(t, env)
	case k.Rune == 'g':
		return s.ask(drops, t, env)
	case k.Done():
		return s.press(t, env)
	}
	return s, nil
}

// press does what is pressing for the chosen tin, else what is pressing at all.
func (s shelf) press(t model.TinBalance, env screen.Env) (screen.Screen, []screen.Request) {
	switch what, _ := pressing(t, env); what {
	case "":
		return s, nil
	case tests:
		return s.begin(t, env)
	case buys:
		s.adding = &adding{}
		return s, nil
	default:
		return s.ask(what, t, env)
	}
}

// keep asks for an act that the list takes, or says why it does not.
func (s shelf) keep(c model.Command, env screen.Env) (screen.Screen, []screen.Request) {
	if _, err := model.Decide(env.Home.Stock.List, c, env.Present()); err != nil {
		return s, []screen.Request{screen.Say{Word: err.Error()}}
	}
	return s, []screen.Request{screen.Keep{Command: c}}
}

func (s shelf) Keys(env screen.Env) []widget.Key {
	back := screen.Bound("esc", "back")
	switch {
	case s.adding != nil || s.typing.On():
		return screen.Keys("enter", "on", "esc", "leave it")
	case s.trial != nil:
		return s.trial.keys(env)
	case len(env.Home.Stock.Tins) == 0:
		return []widget.Key{screen.Bound("enter", "a new tin"), back, screen.Bound("u", "take the last act back")}
	}
	keys := screen.Keys("n", "new tin", "w", "weigh", "t", "test")
	t, _ := s.chosen(env)
	if _, does := pressing(t, env); does != "" {
		keys = append(screen.Keys("enter", does), keys...)
	}
	return append(keys, screen.Bound("o", "opened"), screen.Bound("g", "gone"), screen.Bound("u", "take the last act back"), back,
		screen.Bound("↑ ↓", "choose"), screen.Bound("1–9", "which tin"))
}

// What the big key does besides asking for a line about the tin.
const tests, buys = "test", "buy"

// pressing is what the big key does at a tin, and in words; empty: nothing.
func pressing(t model.TinBalance, env screen.Env) (what, does string) {
	switch due, _ := t.Wants(env.Present()); {
	case due == model.ToTest:
		return tests, "test " + t.ID
	case due == model.ToWeigh && t.Opened == nil:
		return opens, t.ID + " is open"
	case due == model.ToWeigh:
		return weighs, "weigh " + t.ID
	case due == model.Danger || due == model.ToHandIn || due == model.Refill:
		return drops, t.ID + " is gone"
	case nextTask(env).Buy:
		return buys, "it is bought"
	}
	return "", ""
}
