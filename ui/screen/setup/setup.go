// Package setup sets up a vat in few questions: which recipe, which vessel by its litres, which water. One fills the screen at a time,
// each with an answer that one key accepts. The last page has what is usual of the rest, and leads to what is to be other. What is to
// be dyed, where the vat stands, what the vessel is made of and who is there the day itself asks.
package setup

import (
	"strconv"

	"example.org/vatside/ui/library"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/widget"
)

// page is one question.
type page int

const (
	recipeOf page = iota
	holds         // the vessel, by its litres or in one line
	water         // cold and hot
	keep          // how a slow vat is kept warm
	summary
	name // from here on: what the last page leads to, and what comes back to it
	shape
	first // the measures of the vessel, as many as its shape has
	second
	third
	fill
	strength
	pages
)

// changes are what the last page leads to by a figure.
var changes = []struct {
	to    page
	words string
}{{name, "name"}, {shape, "vessel"}, {fill, "fill"}, {strength, "indigo's strength"}}

type setup struct {
	at    page
	typed [pages]screen.Field // Wrong is told on lists too
	pick  [pages]int
	set   [pages]bool // the pick was made by the dyer

	measured bool // the vessel is told by its shape and measures
	wants    int  // of wanted: what the recipes are sorted for
	memo     *screen.Memo[sortedBy, sorted]
}

func New(screen.Env) screen.Screen { return setup{memo: &screen.Memo[sortedBy, sorted]{}} }

// typedPage tells whether a page is answered in letters and figures.
func typedPage(p page) bool {
	return p == holds || p == water || p == name || p >= first && p <= strength
}

func (s setup) Capturing() bool { return typedPage(s.at) }

func (s setup) Update(k screen.Key, env screen.Env) (screen.Screen, []screen.Request) {
	switch {
	case len(env.Home.Recipes) == 0:
		return s, []screen.Request{screen.Leave{}}
	case k.Name == "esc" || k.Name == "pgup":
		if s.at == recipeOf {
			return s, []screen.Request{screen.Leave{}}
		}
		return s.back(env), nil
	case k.Rune == '!':
		return s, []screen.Request{screen.Go{To: screen.AtAid}}
	case s.at == summary:
		switch n := int(k.Rune - '1'); {
		case n >= 0 && n < len(changes):
			s.at = changes[n].to
		case k.Done():
			return s.begin(env)
		}
		return s, nil
	case typedPage(s.at):
		return s.edit(k, env), nil
	case k.Rune == 'f' && s.at == recipeOf:
		s.wants = (s.wants + 1) % len(wanted)
		return s.choose(0), nil
	}
	at, takes, chosen := k.Choose(s.picked(s.at, env), len(s.choices(env)))
	if chosen {
		s = s.choose(at)
	}
	if takes || k.Done() {
		return s.on(env), nil
	}
	return s, nil
}

// edit answers a key where figures or letters are typed.
func (s setup) edit(k screen.Key, env screen.Env) setup {
	if k.Name == "enter" || k.Name == "pgdown" || k.Name == "space" && s.typed[s.at].Text == "" {
		return s.on(env)
	}
	s.typed[s.at] = s.typed[s.at].Edit(k)
	return s
}

func (s setup) choose(n int) setup {
	if s.at == shape && n != s.pick[shape] { // measures and fill of another vessel
		s.typed[first], s.typed[second], s.typed[third], s.typed[fill] = screen.Field{}, screen.Field{}, screen.Field{}, screen.Field{}
	}
	s.pick[s.at], s.set[s.at], s.typed[s.at].Wrong = n, true, ""
	return s
}

// next is the question behind one; behind what the last page leads to that page comes again.
func (s setup) next(env screen.Env) page {
	switch measures := len(shapes[s.pick[shape]].measures); {
	case s.at == water && !library.Slow(s.facts(env).recipe):
		return summary
	case s.at < summary:
		return s.at + 1
	case s.at == shape && measures > 0:
		return first
	case s.at == shape, s.at >= first && s.at <= third && int(s.at-first) >= measures-1:
		return fill
	case s.at >= first && s.at < third:
		return s.at + 1
	}
	return summary
}

func (s setup) back(env screen.Env) setup {
	s.typed[s.at].Wrong = ""
	switch {
	case s.at == summary && !library.Slow(s.facts(env).recipe):
		s.at = water
	case s.at <= summary, s.at >= first && s.at <= third:
		s.at--
	default:
		s.at = summary
	}
	return s
}

// on checks the answer and goes to the next question.
func (s setup) on(env screen.Env) setup {
	if f := s.facts(env); f.wrong[s.at] != nil {
		s.typed[s.at].Wrong = f.wrong[s.at].Error()
		return s
	}
	if s.typed[s.at].Wrong = ""; s.at == shape {
		s.measured = true
	}
	s.at = s.next(env)
	return s
}

// begin opens the vat, if every answer still holds.
func (s setup) begin(env screen.Env) (screen.Screen, []screen.Request) {
	f := s.facts(env)
	for p := range pages {
		if f.wrong[p] != nil {
			s.at, s.typed[p].Wrong = p, f.wrong[p].Error()
			return s, nil
		}
	}
	return s, []screen.Request{screen.Begin{Head: f.head(env)}}
}

func (s setup) Keys(screen.Env) []widget.Key {
	back := screen.Bound("PgUp", "back")
	switch {
	case s.at == summary:
		return []widget.Key{screen.Bound("enter", "begin"), screen.Bound("1–4", "change it"), back}
	case typedPage(s.at):
		return []widget.Key{screen.Bound("enter", "on"), back}
	}
	keys := []widget.Key{
		screen.Bound("enter", "on"), screen.Bound("1–9", "choose, on"),
		back, screen.Bound("↑ ↓", "choose"),
	}
	if s.at == recipeOf {
		keys = append(keys, screen.Bound("f", s.other().said()))
	}
	return keys
}

// numbered puts the figure that chooses it before a line; the tenth has none.
func numbered(n int, text string) string {
	if n > 9 {
		return "   " + text
	}
	return strconv.Itoa(n) + "  " + text
}
