package home

import (
	"slices"
	"strings"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/widget"
)

// lead is the earliest call of all vats as it stands in large letters, the vat that it is of, and its words.
type lead struct {
	large string // "LIFT A1 0:40", "STIR"
	tone  widget.Tone
	vat   screen.Vat
	words string
}

// longest is from which time on the large letters leave it out: it would make them small.
const longest = 10 * time.Hour

// leads is that call: of the open days the one that rules of those for which a time runs; where none runs, that of the vat that wants
// the hands first.
func leads(vats []screen.Vat, env screen.Env) lead {
	var rules *engine.View
	first := vats[urgent(vats, env)]
	for _, v := range vats {
		d, ok := env.Days.Day(v.ID())
		if !ok || !v.Open || d.Looking || !d.Call().Runs() {
			continue
		}
		if rules == nil || d.Call().Compare(rules.Call()) < 0 {
			rules, first = &d, v
		}
	}
	l := lead{large: "NOTHING DUE", vat: first, words: aim(first, env)}
	if d, ok := env.Days.Day(first.ID()); ok && first.Open {
		l.words = d.Line()
		c := d.Call()
		l.large = c.Large()
		if c.Due == nil {
			return l
		}
		switch left := c.Due.At.Sub(d.Now); {
		case left.Abs() >= longest: // the words under it say it
		case left <= 0:
			l.large, l.tone = l.large+" "+widget.Over(-left), widget.Trouble
		case left <= day.LastMinute:
			l.large, l.tone = l.large+" "+widget.Countdown(left), widget.Now
		default:
			l.large += " " + widget.Countdown(left)
		}
		return l
	}
	switch d, is := wants(first); {
	case first.Unread:
		l.large = "UNREADABLE"
	case first.Open:
		l.large, l.words = first.Short, first.Line
	case is && (d.Overdue() || len(first.Due) == 0):
		l.large = briefly(d.Do)
	case len(first.Due) > 0 && !first.Due[0].At.After(env.Now):
		l.large = briefly(first.Due[0].Words)
	}
	return l
}

// small are the words that large letters do without.
var small = []string{"it", "a", "the", "at", "do"}

// briefly is what to do in large letters: of "Look at it, and pull a strip" LOOK, of "daily round: smell, film" DAILY ROUND.
func briefly(do string) string {
	if end := strings.IndexAny(do, ",:"); end >= 0 {
		do = do[:end]
	}
	return strings.ToUpper(strings.Join(slices.DeleteFunc(strings.Fields(do), func(w string) bool { return slices.Contains(small, strings.ToLower(w)) }), " "))
}
