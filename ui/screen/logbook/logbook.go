// Package logbook shows a day as it was written: one sentence an event, with its time, its number and its marks, and
// corrects it without erasing anything.
package logbook

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/widget"
)

// page is how many events the arrows to the sides go.
const page = 10

type logbook struct {
	seq int // the chosen event; 0: the last one, whichever it is
}

func New(screen.Env) screen.Screen { return logbook{} }

func (l logbook) Update(k screen.Key, env screen.Env) (screen.Screen, []screen.Request) {
	d, _ := env.Day()
	log := d.State.Log
	if len(log) == 0 {
		if k.Name == "esc" || k.Done() {
			return l, []screen.Request{screen.Leave{}}
		}
		return l, nil
	}
	at := l.index(log)
	if row, ok := k.On(len(log)); ok {
		return l.to(log, row), nil
	}
	switch k.Name {
	case "esc":
		return l, []screen.Request{screen.Leave{}}
	case "up", "down":
		return l.to(log, at+k.Way()), nil
	case "left", "right":
		return l.to(log, at+k.Way()*page), nil
	case "home":
		return l.to(log, 0), nil
	case "end":
		return l.to(log, len(log)-1), nil
	case "tab":
		return l.nextAssumed(d.State, at)
	}
	return l, nil
}

// Event is the chosen event, for what is said of one.
func (l logbook) Event(env screen.Env) int {
	d, ok := env.Day()
	if !ok || len(d.State.Log) == 0 {
		return 0
	}
	return d.State.Log[l.index(d.State.Log)].Seq
}

// index is where the chosen event stands in the log.
func (l logbook) index(log []day.Event) int {
	if l.seq > 0 {
		if i := slices.IndexFunc(log, func(e day.Event) bool { return e.Seq == l.seq }); i >= 0 {
			return i
		}
	}
	return len(log) - 1
}

// to chooses an event; on the last one the screen follows what is added.
func (l logbook) to(log []day.Event, at int) logbook {
	at = min(max(at, 0), len(log)-1)
	l.seq = log[at].Seq
	if at == len(log)-1 {
		l.seq = 0
	}
	return l
}

// nextAssumed chooses the next act that nobody confirmed, from the chosen one on and round.
func (l logbook) nextAssumed(s day.State, at int) (screen.Screen, []screen.Request) {
	log := s.Log
	for i := 1; i <= len(log); i++ {
		n := (at + i) % len(log)
		if assumed(s, log[n]) {
			return l.to(log, n), nil
		}
	}
	return l, []screen.Request{screen.Say{Word: "every act is confirmed"}}
}

func (l logbook) View(env screen.Env) widget.Sheet {
	s := widget.Sheet{
		Head: widget.Head{Left: "log", Right: env.Now.Format("15:04")},
	}
	d, ok := env.Day()
	if !ok || len(d.State.Log) == 0 {
		s.Act, s.How = "Nothing is written yet", []string{"Esc goes back."}
		return s
	}
	log := d.State.Log
	s.Head.Left = d.State.Head.Name() + " · log of " + d.State.Head.Day
	at := l.index(log)
	e := log[at]
	s.Act, s.ActBig, s.Halved = "What happened", env.Height >= widget.LowestYard, true
	words := []string{fmt.Sprintf("#%d, %s: %s", e.Seq, local(e, env).Format("15:04:05"), d.State.Tell(e.Body))}
	if marks := marksOf(e, d); len(marks) > 0 {
		words = append(words, strings.Join(marks, ", "))
	}
	if _, right, halved := widget.Halves(env.Width); halved {
		s.Side = chosen(e, d, words, right, env)
	} else {
		s.How = words
	}
	s.Foot = []string{foot(d)}
	columns, rows := widget.Room(s, env.Width, env.Height, env.Style)
	s.Add(widget.Pick(choices(d, env), at, columns, max(rows, 2), env.Style))
	return s
}

// chosen is the event in hand for the right half of a window: its time in large letters, and all that is said of it.
func chosen(e day.Event, d engine.View, words []string, columns int, env screen.Env) []string {
	st := env.Style
	out := append(st.Digits.Lines(widget.Big(local(e, env).Format("15:04:05"), columns, env.Height/6, st.Glyphs)), "")
	for i, w := range words {
		ink := st.Act
		if i > 0 {
			ink = st.Text
		}
		out = append(out, widget.Words(w, columns, ink, st.Glyphs)...)
	}
	if e.Seq > d.Saved {
		out = append(out, "", st.Trouble.Render("not yet on disk"))
	}
	return out
}

// choices are the events as lines; the marks come before the sentence, since a narrow window cuts its end.
func choices(d engine.View, env screen.Env) []widget.Choice {
	var list []widget.Choice
	for _, e := range d.State.Log {
		text := local(e, env).Format("15:04") + fmt.Sprintf("  #%-3d ", e.Seq)
		if marks := marksOf(e, d); len(marks) > 0 {
			text += "(" + strings.Join(marks, ", ") + ") "
		}
		list = append(list, widget.Choice{Text: text + d.State.Tell(e.Body)})
	}
	return list
}

func local(e day.Event, env screen.Env) time.Time { return e.At.In(env.Now.Location()) }

// foot sums the day up.
func foot(d engine.View) string {
	text := fmt.Sprintf("%d written", len(d.State.Log))
	if open := d.State.Unconfirmed(); open > 0 {
		text += fmt.Sprintf(" · %d not confirmed", open)
	}
	if last := d.State.Log[len(d.State.Log)-1].Seq; last > d.Saved {
		text += fmt.Sprintf(" · %d not yet on disk", last-d.Saved)
	}
	text += wording.If(d.Looking, " · open in another program: to look at only")
	return text
}

func (l logbook) Keys(env screen.Env) []widget.Key {
	keys := screen.Keys("↑ ↓", "choose", "tab", "next not confirmed", "← →", "ten on", "Home End", "first, last", "esc", "back")
	d, ok := env.Day()
	if !ok || len(d.State.Log) == 0 {
		return keys
	}
	rows := []string{"note", "move", "take back", "confirm"}
	if assumed(d.State, d.State.Log[l.index(d.State.Log)]) {
		rows = []string{"confirm", "move", "take back", "note"}
	}
	if d.Looking {
		return keys
	}
	return append(screen.RowKeys(d, rows...), keys...)
}
