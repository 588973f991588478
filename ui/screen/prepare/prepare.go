// Package prepare is the page before a day: what the goods want first and when, backwards from the wished first dip, and
// a checklist to tick. It asks what is to be dyed, whether that is scoured, and when the first piece goes in, unless the
// settings say. What is ticked lives as long as the screen.
package prepare

import (
	"cmp"
	"errors"
	"maps"
	"strings"
	"time"

	"example.org/vatside/model/day"
	ahead "example.org/vatside/model/prepare"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/widget"
)

// page is a question, or the page itself.
type page int

const (
	goods page = iota
	scoured
	start
	ready
)

// usualStart is when the first piece goes in where Enter is pressed alone.
const usualStart = "10:00"

type prepare struct {
	at     page
	typing screen.Field
	lots   []ahead.Lot
	pick   int       // the answer about scouring
	start  time.Time // of dyeing
	asked  time.Time // when that was said: what was laid out then stays, and does not run away from who is late
	ticked map[string]bool
	item   int  // the one under the cursor
	list   bool // where there is room for one of both: the checklist, not the times
}

func New(screen.Env) screen.Screen { return prepare{typing: askGoods("")} }

// askGoods asks what is to be dyed, with what is known of it.
func askGoods(text string) screen.Field {
	return screen.Field{What: "goods", Label: "What is to be dyed?", Text: text, Hint: "dry weight and fibre: 420 g linen, 300 g greasy wool; Enter alone: none yet"}
}

// askStart asks when the first piece goes in.
func askStart() screen.Field {
	return screen.Field{What: "start", Label: "When does the first piece go in?", Hint: "Enter: " + usualStart}
}

func (s prepare) Capturing() bool { return s.at == goods || s.at == start }

func (s prepare) Update(k screen.Key, env screen.Env) (screen.Screen, []screen.Request) {
	back := k.Name == "esc" || k.Name == "pgup"
	switch s.at {
	case goods, start:
		return s.typed(k, env)
	case scoured:
		if back {
			return s.back(env), nil
		}
		at, takes, _ := k.Choose(s.pick, len(s.answers()))
		if s.pick = at; takes || k.Done() {
			return s.answered(env), nil
		}
		return s, nil
	}
	f, err := s.facts(env)
	if row, ok := k.On(len(f.items)); ok && err == nil {
		s.item = row
		return s.tick(f, row), nil
	}
	switch {
	case back:
		return s, []screen.Request{screen.Leave{}}
	case k.Rune == 'w':
		s.at, s.typing = start, askStart()
	case k.Rune == 'g':
		s = s.back(env)
	case err != nil:
	case k.Name == "tab" || k.Name == "left" || k.Name == "right":
		s.list = !s.list
	case k.Name == "down" || k.Name == "up":
		s.item, s.list = min(max(s.item+k.Way(), 0), len(f.items)-1), true
	case k.Done() && s.hidden(f, env): // nothing is ticked that is not seen
		s.list = true
	case k.Done():
		s = s.tick(f, s.item)
		s.list = true
		for s.ticked[f.items[s.item].ID] && s.item < len(f.items)-1 {
			s.item++
		}
	case k.Rune >= '1' && k.Rune <= '9':
		hidden := s.hidden(f, env)
		if s.list = true; hidden {
			return s, nil
		}
		from, to := pageOf(s.item, len(f.items), s.perPage(f, env))
		if at := from + int(k.Rune-'1'); at < to {
			s.item = at
			s = s.tick(f, at)
		}
	}
	return s, nil
}

// tick ticks an item, or takes its tick away.
func (s prepare) tick(f facts, at int) prepare {
	s.ticked = maps.Clone(s.ticked)
	if s.ticked == nil {
		s.ticked = map[string]bool{}
	}
	id := f.items[at].ID
	s.ticked[id] = !s.ticked[id]
	return s
}

// typed answers a key while a line is typed.
func (s prepare) typed(k screen.Key, env screen.Env) (screen.Screen, []screen.Request) {
	if k.Name == "space" && strings.TrimSpace(s.typing.Text) == "" {
		k = screen.Key{Name: "enter"}
	}
	next, entered, left := s.typing.Take(k)
	switch {
	case left && s.at == start:
		if !s.start.IsZero() {
			s.at = ready
			return s, nil
		}
		return s.back(env), nil
	case left:
		return s, []screen.Request{screen.Leave{}}
	}
	if s.typing = next; !entered {
		return s, nil
	}
	if s.at == start {
		at, err := clockOf(s.typing.Text, env.Now)
		if err != nil {
			s.typing.Wrong = err.Error()
			return s, nil
		}
		s.start, s.asked, s.at = at, env.Now, ready
		return s, nil
	}
	lots, err := ahead.ParseLots(s.typing.Text, env.System())
	if err != nil {
		s.typing.Wrong = err.Error()
		return s, nil
	}
	s.lots, s.pick = lots, 0
	if len(s.answers()) == 0 {
		return s.onwards(env), nil
	}
	s.at = scoured
	return s, nil
}

// back asks for the goods again, with what they are so far.
func (s prepare) back(env screen.Env) prepare {
	parts := wording.Each(s.lots, func(l ahead.Lot) string { return l.Name(env.System()) })
	s.at, s.typing = goods, askGoods(strings.Join(parts, ", "))
	return s
}

// answered takes the answer about scouring.
func (s prepare) answered(env screen.Env) prepare {
	s.lots = s.answers()[s.pick].lots
	return s.onwards(env)
}

// onwards goes to the wished start if nobody said it, else to the page.
func (s prepare) onwards(env screen.Env) prepare {
	if s.start.After(env.Now) {
		s.at, s.asked = ready, env.Now
		return s
	}
	wish := env.Home.Settings.ReadyBy
	if at := day.Wished(env.Now, wish); at != nil {
		if r, err := ahead.BeforeFrom(head(env), s.lots, env.Now, *at); err == nil {
			s.start, s.asked, s.at = r.Ready, env.Now, ready
			return s
		}
	}
	s.at, s.typing = start, askStart()
	return s
}

// clockOf reads a time of day, the next of it; nothing is the usual one.
func clockOf(text string, now time.Time) (time.Time, error) {
	text = cmp.Or(strings.NewReplacer(".", ":", "h", ":", " ", "").Replace(strings.TrimSpace(text)), usualStart)
	text += wording.If(!strings.Contains(text, ":"), ":00")
	if t, err := time.Parse("15:4", text); err == nil {
		text = t.Format("15:04")
	}
	at := day.Wished(now, text)
	if at == nil {
		return time.Time{}, errors.New("type a time of day, such as 10:00")
	}
	return *at, nil
}

func (s prepare) Keys(env screen.Env) []widget.Key {
	switch s.at {
	case goods, start:
		return screen.Keys("enter", "on", "esc", "back")
	case scoured:
		return screen.Keys("enter", "on", "1–9", "choose, on", "esc", "back", "↑ ↓", "choose")
	}
	big := "tick"
	f, err := s.facts(env)
	if err == nil && s.hidden(f, env) {
		big = "show the list"
	}
	keys := screen.Keys("enter", big)
	if err == nil && s.alone(f, env) {
		keys = append(keys, screen.Bound("tab", "times, list"))
	}
	return append(keys,
		screen.Bound("w", "another start"), screen.Bound("esc", "back"), screen.Bound("1–9", "tick that one"),
		screen.Bound("↑ ↓", "choose"), screen.Bound("g", "other goods"))
}
