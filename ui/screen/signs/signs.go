// Package signs asks what is seen at a vat, and answers with the likeliest cause and one thing to do about it. Its recheck
// is a timer of the day; what that look says narrows the next answer.
package signs

import (
	"slices"
	"strconv"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/history"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/signs"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/answer"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/widget"
)

// settle is the least between the answer to a caution and the act.
const settle = time.Second

// page is which question is open.
type page int

const (
	asking    page = iota // the groups, each with what was seen
	choosing              // the signs of one group
	answering             // the cause and what to do
)

// Screen is what was seen so far. answered is when the caution was answered, and to which act.
type Screen struct {
	page     page
	group    int
	seen     []string // ids
	answered time.Time
	to       string
	memo     *screen.Memo[told, string]
}

// told is what the word on what worked here goes by.
type told struct {
	id           string
	days, events int
}

// worked says what worked at this vat; empty while its book is not read.
func (s Screen) worked(v engine.View, env screen.Env) string {
	return s.memo.Of(told{v.ID, len(env.History), len(v.State.Log)}, func() string { return history.LifeOf(env.History).Worked() })
}

// New begins with what was seen since something was last done.
func New(env screen.Env) screen.Screen {
	s := Screen{memo: &screen.Memo[told, string]{}}
	if v, ok := env.Day(); ok {
		s.seen = seen(v)
		if v.State.Treating == nil && s.causes(v, env)[0].Barred { // said before anything is asked
			s.page = answering
		}
	}
	return s
}

// seen are the ids of the signs that the book has.
func seen(v engine.View) []string {
	return wording.Each(v.State.Seen(), func(s signs.Sign) string { return s.ID })
}

func choices(group int) []signs.Sign {
	return wording.Only(signs.All(), func(s signs.Sign) bool { return slices.Contains(answer.Looked[group].Of, s.Group) })
}

func (s Screen) Update(k screen.Key, env screen.Env) (screen.Screen, []screen.Request) {
	v, _ := env.Day()
	switch {
	case screen.Watched(env) && k.Done():
		return s, []screen.Request{screen.StripPress}
	case v.State.Treating != nil:
		return s.recheck(k, v)
	}
	switch s.page {
	case choosing:
		return s.choose(k)
	case answering:
		return s.answer(k, v, env)
	}
	n := int(k.Rune - '1')
	if row, ok := k.On(len(answer.Looked) + 1); ok {
		n = row
	}
	switch {
	case n == len(answer.Looked): // the last row is the strip
		return s, []screen.Request{screen.Strip(v)}
	case k.Name == "esc":
		return s, []screen.Request{screen.Leave{}}
	case n >= 0 && n < len(answer.Looked):
		s.page, s.group = choosing, n
	case k.Rune == '0':
		s.seen = nil
	case k.Done():
		s.page = answering
		return s, s.write(v)
	}
	return s, nil
}

// choose takes a sign of the group, or takes it back.
func (s Screen) choose(k screen.Key) (screen.Screen, []screen.Request) {
	list := choices(s.group)
	n := int(k.Rune - '1')
	if k.Rune == '0' {
		n = 9
	}
	if row, ok := k.On(len(list)); ok {
		n = row
	}
	switch {
	case n >= 0 && n < len(list):
		id := list[n].ID
		s.seen = slices.Clone(s.seen)
		if i := slices.Index(s.seen, id); i >= 0 {
			s.seen = slices.Delete(s.seen, i, i+1)
			break
		}
		if list[n].Group == signs.GroupColour || list[n].Group == signs.GroupSwatch { // one of them: the last one said
			s.seen = slices.DeleteFunc(s.seen, func(id string) bool {
				old, _ := signs.Find(id)
				return old.Group == list[n].Group
			})
		}
		s.seen = append(s.seen, id)
		if list[n].Group == signs.GroupColour {
			s.page = asking
		}
	case k.Done() || k.Name == "esc":
		s.page = asking
	}
	return s, nil
}

// write puts down what the book does not have yet.
func (s Screen) write(v engine.View) []screen.Request {
	missing := wording.Only(s.seen, func(id string) bool { return !slices.Contains(seen(v), id) })
	return wording.Each(missing, func(id string) screen.Request { return screen.Do{Command: day.Record{Body: day.SignSeen{Sign: id}}} })
}

// causes are those of what is chosen here and of what was read.
func (s Screen) causes(v engine.View, env screen.Env) []signs.Cause {
	seen, vat := outlook.Asked(v.State, screen.Outlook(v), v.Now, history.SinceFood(env.History, v.Now))
	seen.Signs = wording.Some(s.seen, signs.Find)
	return signs.Causes(seen, vat)
}

// answer is a key at the cause.
func (s Screen) answer(k screen.Key, v engine.View, env screen.Env) (screen.Screen, []screen.Request) {
	switch {
	case k.Name == "esc":
		s.page, s.to = asking, ""
		return s, nil
	case !k.Done():
		return s, nil
	}
	c := s.causes(v, env)[0]
	if !answer.Treated(c) || v.State.Closed {
		return s, []screen.Request{screen.Leave{}}
	}
	if words := caution(v, c); words != "" && s.to != c.Do {
		s.answered, s.to = v.Now, c.Do
		return s, nil
	}
	if s.to != "" && v.Now.Sub(s.answered) < settle {
		return s, nil
	}
	treat := outlook.Treatment(c)
	s.page, s.to, s.seen = asking, "", nil
	return s, []screen.Request{screen.Do{Command: day.Answered{Command: treat}}, screen.Leave{}}
}

// recheck is a key while a treatment works, or when it is to be looked at.
func (s Screen) recheck(k screen.Key, v engine.View) (screen.Screen, []screen.Request) {
	say := func(a signs.Answer) (screen.Screen, []screen.Request) {
		s.page, s.seen = asking, nil
		return s, []screen.Request{screen.Do{Command: day.Record{Body: day.Rechecked{Answer: a.String()}}}}
	}
	switch {
	case k.Rune == 't':
		return s, []screen.Request{screen.Strip(v)}
	case k.Rune >= '1' && k.Rune <= '3':
		return say([]signs.Answer{signs.Better, signs.Same, signs.Worse}[k.Rune-'1'])
	case k.Done() && outlook.Answer(v.State) != signs.NotSaid:
		return say(outlook.Answer(v.State))
	case k.Name == "esc":
		return s, []screen.Request{screen.Leave{}}
	}
	return s, nil
}

func (s Screen) Keys(env screen.Env) []widget.Key {
	v, _ := env.Day()
	switch {
	case screen.Watched(env):
		return screen.Keys("enter", "it turned blue", "PgUp", "no strip", "esc", "back")
	case v.State.Treating != nil:
		keys := screen.Keys("1", "better", "2", "the same", "3", "worse")
		keys = append(keys, screen.RowKeys(v, "strip")...)
		if a := outlook.Answer(v.State); a != signs.NotSaid {
			keys = slices.Insert(keys, 0, screen.Bound("enter", a.String()))
		}
		return append(keys, screen.Bound("esc", "back"))
	case s.page == choosing:
		return screen.Keys("1–9", "seen, not seen", "enter", "on", "esc", "back")
	case s.page == answering:
		keys := screen.Keys("enter", "back")
		switch c := s.causes(v, env)[0]; {
		case c.Barred:
			keys = append(keys, screen.Bound("esc", "what is seen"))
		case answer.Treated(c):
			keys = screen.Keys("enter", press(v, s, c), "esc", "what is seen")
		}
		return append(append(keys, screen.RowKeys(v, "strip", "temp", "ph", "heater", "place")...), screen.Bound("esc", "what is seen"))
	}
	keys := append(screen.Keys("enter", "what is it?", "1–"+strconv.Itoa(len(answer.Looked)+1), "what is seen"), screen.RowKeys(v, "strip", "temp", "ph")...)
	return append(keys, screen.Keys("0", "clear all", "esc", "back")...)
}

// press is what the big key does at a cause.
func press(v engine.View, s Screen, c signs.Cause) string {
	switch {
	case caution(v, c) != "" && s.to != c.Do:
		return "on"
	case len(c.Doses) > 0:
		return "given"
	}
	return "done"
}
