// Package aid is the first-aid screen: large letters, what to do at once, and a clock for 20 minutes of rinsing. It is
// read by somebody whose hands shake: a figure for each accident, one big key, nothing else.
package aid

import (
	"cmp"
	"strconv"
	"strings"
	"time"

	"example.org/vatside/model/practice"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/widget"
)

// rinse is how long water runs: 15 to 20 minutes on the chemical safety cards, the longer of them.
const rinse = 20 * time.Minute

// tall is the window from which the number is drawn large beside a running clock.
const tall = 36

// smallNumber is how many rows the number takes at least, with its note and the air around them.
const smallNumber = 7

type aid struct {
	at     int       // 0: which; else the topic, from 1
	rinsed time.Time // since when the water runs; zero: not yet
}

func New(screen.Env) screen.Screen { return aid{} }

func (a aid) Update(k screen.Key, env screen.Env) (screen.Screen, []screen.Request) {
	if row, ok := k.On(len(topics)); ok {
		a.at = row + 1
		return a, nil
	}
	switch {
	case k.Name == "esc":
		return a, []screen.Request{screen.Leave{}}
	case k.Rune >= '1' && int(k.Rune-'0') <= len(topics):
		a.at = int(k.Rune - '0')
	case k.Name == "down" && a.at < len(topics):
		a.at++
	case k.Name == "up" && a.at > 1:
		a.at--
	case k.Name == "pgup" || k.Rune == '0':
		a.at = 0
	case k.Rune == 'r' && !a.rinsed.IsZero():
		a.rinsed = env.Present()
	case k.Done() && a.at == 0:
		a.at = 1
	case k.Done() && topics[a.at-1].Water && a.left(env.Present()) <= 0:
		a.rinsed = env.Present()
	}
	return a, nil
}

// left is what remains of the rinse; zero or less when none runs.
func (a aid) left(now time.Time) time.Duration {
	if a.rinsed.IsZero() {
		return 0
	}
	return rinse - now.Sub(a.rinsed)
}

// Counts tells whether the rinse clock runs.
func (a aid) Counts(env screen.Env) bool { return a.left(env.Present()) > 0 }

func (a aid) View(env screen.Env) widget.Sheet {
	s := widget.Sheet{
		Head: widget.Head{Left: "first aid", Right: env.Present().Format("15:04")},
		Foot: []string{"call " + cmp.Or(env.Home.Settings.Emergency, "the emergency number of the place") + " · show them the powder's label"},
	}
	if a.at == 0 {
		s.Act, s.ActBig = "What happened?", true
		s.Why = practice.HelpDecides
		if env.Home.Settings.Emergency == "" {
			s.How = []string{"No emergency number is set: on home, the comma key sets it."}
		}
		number(&s, env)
		columns, rows := env.Room(s)
		list, ok := large(columns, rows, env.Style)
		if !ok && env.Height >= tall { // the number makes room for them
			bare := s
			bare.Figure = widget.Figure{}
			_, rows := env.Room(bare)
			list, ok = large(columns, rows-smallNumber, env.Style)
		}
		if !ok {
			list = small(columns, rows, env.Height < 28, env.Style)
		}
		s.Add(list)
		return s
	}
	t := topics[a.at-1]
	s.Act, s.ActBig, s.How, s.Why = t.Act, true, t.How, practice.HelpDecides
	names := wording.Each(named(" "), func(c widget.Choice) string { return c.Text })
	s.Next = strings.Join(names, " · ")
	s.Answers = append(names, "space starts the rinse clock", "space: 20 min more")
	if !t.Water {
		if left := a.left(env.Present()); left > 0 {
			s.Aside = "rinse " + widget.In(left)
		}
		number(&s, env)
		return s
	}
	left := a.left(env.Present())
	switch {
	case a.rinsed.IsZero():
		s.Figure = widget.Figure{Number: "20:00", Note: "space starts the rinse clock"}
	case left > 0:
		s.Figure = widget.Figure{Number: widget.Countdown(left), Note: "keep the water running, begun at " + a.rinsed.Format("15:04"), Tone: widget.Now}
	default:
		s.Figure = widget.Figure{Number: "0:00", Note: "20 minutes are over: show it to a doctor now. space: 20 min more", Tone: widget.Now}
	}
	if n := env.Home.Settings.Emergency; n != "" && env.Height >= tall {
		s.Body = append([]string{env.Style.Text.Render("call")}, widget.Big(n, env.Width-8, 5, env.Style.Glyphs)...)
	}
	return s
}

// number makes the emergency number the figure of the screen.
func number(s *widget.Sheet, env screen.Env) {
	if n := env.Home.Settings.Emergency; n != "" {
		s.Figure = widget.Figure{Number: n, Note: "call it, say what it was and how much", Tone: widget.Now}
	}
}

func (a aid) Keys(env screen.Env) []widget.Key {
	all := "1–" + strconv.Itoa(len(topics))
	keys := screen.Keys(all, "other", "0", "all", "esc", "back")
	switch {
	case a.at == 0:
		keys[0].Desc = "which"
	case topics[a.at-1].Water && a.left(env.Present()) <= 0:
		return append(screen.Keys("space", "start the clock"), keys...)
	case topics[a.at-1].Water:
		return append(screen.Keys("r", "20 min from now"), keys...)
	}
	return keys
}
