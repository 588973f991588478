// Package dose says the one next thing that the vat wants, from what was read of it: warmth, a powder and how much of it,
// or patience. A dose is given here, after its caution, and the vat then rests till the recheck.
package dose

import (
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/history"
	"example.org/vatside/model/liquor"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/answer"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/widget"
)

// settle is the least between the answer to a caution and the act.
const settle = time.Second

// milky is the sign of too little alkali, and clear takes it back.
const milky, clear = "milky", "clear"

// Screen is the advice. answered is when its caution was answered, and to which advice.
type Screen struct {
	answered time.Time
	to       string
}

func New(screen.Env) screen.Screen { return Screen{} }

func advise(v engine.View, env screen.Env) liquor.Advice {
	return outlook.Advise(v.State, screen.Outlook(v), v.Now, history.SinceFood(env.History, v.Now))
}

// gives tells whether the advice can be carried out from here: a powder, or the heater of the setup.
func gives(v engine.View, a liquor.Advice) bool {
	heats := a.Do == liquor.DoWarm && v.State.Head.Setup.Heater > 0 && !v.State.Vat.Heater
	return !v.State.Closed && (a.Mass > 0 || heats)
}

func (s Screen) Update(k screen.Key, env screen.Env) (screen.Screen, []screen.Request) {
	v, _ := env.Day()
	ask := func(r screen.Request) (screen.Screen, []screen.Request) { return s, []screen.Request{r} }
	switch {
	case screen.Watched(env) && k.Done():
		return ask(screen.StripPress)
	case k.Name == "esc":
		return ask(screen.Leave{})
	case k.Done():
		return s.done(v, env)
	}
	switch k.Rune {
	case '1':
		sign := milky
		if v.State.Milky() {
			sign = clear
		}
		return ask(screen.Do{Command: day.Record{Body: day.SignSeen{Sign: sign}}})
	}
	return s, nil
}

// done takes the caution as read, then gives what is advised: its answer is written down with the act.
func (s Screen) done(v engine.View, env screen.Env) (screen.Screen, []screen.Request) {
	a := advise(v, env)
	if !gives(v, a) {
		return s, []screen.Request{screen.Leave{}}
	}
	if s.to != a.Sentence {
		s.answered, s.to = v.Now, a.Sentence
		return s, nil
	}
	if v.Now.Sub(s.answered) < settle {
		return s, nil
	}
	s.to = ""
	return s, []screen.Request{screen.Do{Command: day.Answered{Command: act(v, a)}}}
}

// act carries out what is advised; nil where it cannot be done from here.
func act(v engine.View, a liquor.Advice) day.Command {
	switch {
	case !gives(v, a):
		return nil
	case a.Do == liquor.DoWarm:
		return day.Record{Body: answer.Heater(v.State)}
	}
	return day.Dose{Powders: append([]day.Amount{{Powder: a.Powder, Mass: a.Mass}}, a.With...), Wait: a.Wait, Why: a.Why}
}

func (s Screen) Keys(env screen.Env) []widget.Key {
	v, _ := env.Day()
	if screen.Watched(env) {
		return screen.Keys("enter", "it is blue", "PgUp", "no strip", "esc", "back")
	}
	press, a := "back", advise(v, env)
	switch {
	case !gives(v, a):
	case s.to != a.Sentence:
		press = "on"
	case a.Do == liquor.DoWarm:
		press = "heater on"
	default:
		press = "it is in"
	}
	sign := wording.Either(v.State.Milky(), "it is clear again", "it is milky")
	keys := append(screen.Keys("enter", press), screen.RowKeys(v, "strip", "ph", "temp", "heater")...)
	return append(keys, screen.Keys("1", sign, "esc", "back")...)
}
