// Package home is the first screen: the dyer's vats, open days first, and what each of them waits for.
package home

import (
	"fmt"
	"slices"
	"strings"

	"example.org/vatside/model/vessel"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/library"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/style"
	"example.org/vatside/ui/widget"
)

type home struct {
	vat     string // the chosen one, by its vat and day: the list changes under the cursor
	setting *settings
	here    bool // what is here is told
	ending  bool // it was asked to end the chosen vat, and asks back
}

func New(screen.Env) screen.Screen { return home{} }

func (h home) Capturing() bool { return h.setting != nil && h.setting.typed.On() }

func (h home) Update(k screen.Key, env screen.Env) (screen.Screen, []screen.Request) {
	if h.setting != nil {
		next, open, r := h.setting.update(k, env)
		h.setting = nil
		if open {
			h.setting = &next
		}
		return h, r
	}
	vats := ordered(env)
	at := chosen(vats, h.vat, env)
	if h.ending {
		h.ending = false
		if k.Done() && len(vats) > 0 && !vats[at].Ended {
			return h, []screen.Request{screen.NextDay{Vat: vats[at].Vat, End: true}}
		}
		return h, nil
	}
	if row, ok := k.On(len(vats)); ok {
		at, k = row, screen.Key{Name: "enter"}
		h.vat = vats[at].ID()
	}
	if row, ok := k.On(3); ok && len(vats) == 0 {
		k = screen.Key{Rune: '1' + rune(row)}
	}
	to, _, chosen := k.Choose(at, len(vats))
	switch {
	case len(vats) > 0 && vats[at].Unread && strings.ContainsRune("jClX", k.Rune) && k.Rune != 0:
		return h, []screen.Request{screen.Say{Word: "nothing of this vat can be read: vatside book verify says what is wrong"}}
	case k.Rune == 'N':
		return h, []screen.Request{screen.Go{To: screen.AtSetup}}
	case k.Rune == ',':
		h.setting = &settings{}
	case k.Rune == 'P':
		return h, []screen.Request{screen.Go{To: screen.AtStock}}
	case k.Rune == 'q':
		return h, []screen.Request{screen.Quit{}}
	case k.Rune == 'b' && len(vats) == 0:
		return h, []screen.Request{screen.Go{To: screen.AtPrepare}}
	case k.Rune == 'b':
		return h, []screen.Request{screen.Go{To: screen.AtPrepare, Day: vats[at].ID()}}
	case len(vats) == 0:
		h.here = !h.here && k.Rune == '3'
		switch {
		case k.Done() || k.Rune == '1':
			return h, []screen.Request{screen.Go{To: screen.AtSetup}}
		case k.Rune == '2':
			return h, []screen.Request{screen.Rehearse{}}
		case k.Rune == '4':
			return h, []screen.Request{screen.Rehearse{Class: true}}
		}
	case k.Rune == 'C':
		return h, []screen.Request{screen.Go{To: screen.AtCost, Day: vats[at].ID()}}
	case k.Rune == 'X' && vats[at].Ended:
		return h, []screen.Request{screen.Say{Word: "this vat has ended already"}}
	case k.Rune == 'X' && vats[at].Rehearsed:
		return h, []screen.Request{screen.Say{Word: "this vat was only rehearsed: no day follows, and it has no end"}}
	case k.Rune == 'X':
		h.vat, h.ending = vats[at].ID(), true
	case chosen:
		h.vat = vats[to].ID()
	case k.Name == "pgup":
		h.vat = vats[max(at-1, 0)].ID()
	case (k.Rune == 'l' || k.Rune == 'j' || k.Done() && over(vats[at])) && vats[at].Day == "":
		return h, []screen.Request{screen.Say{Word: "no day of this vat is in the book yet"}}
	case k.Rune == 'j':
		return h, []screen.Request{screen.Go{To: screen.AtCare, Day: vats[at].ID()}}
	case k.Rune == 'l', k.Done() && over(vats[at]):
		return h, []screen.Request{screen.Go{To: screen.AtLog, Day: vats[at].ID()}}
	case k.Done() && vats[at].Open:
		return h, []screen.Request{screen.Go{To: screen.AtDay, Day: vats[at].ID()}}
	case k.Done():
		return h, []screen.Request{screen.NextDay{Vat: vats[at].Vat}}
	}
	return h, nil
}

func (h home) View(env screen.Env) widget.Sheet {
	if h.setting != nil {
		return h.setting.view(env)
	}
	s := widget.Sheet{
		Head: widget.Head{Left: "vatside", Right: env.Now.Format("Mon 2 Jan · 15:04")},
	}
	vats, coming := ordered(env), env.Home.Coming
	if len(vats) == 0 && coming != 0 {
		s.Act = "Reading the vats"
		return s
	}
	if len(vats) == 0 {
		s.Act, s.ActBig = "BUILD A VAT", true
		s.Answers = []string{"1 build a vat", "2 a rehearsal", "3 what is here"}
		s.How = []string{
			"1 build a vat: choose a recipe, a vessel and the water; then each step has the screen to itself.",
			"2 a rehearsal: an invented day, sixty times as fast. Nothing of it stays.",
			"3 what is here: the whole program on one page.",
			"4 a class rehearsed: sixteen people at two vats by one clock.",
		}
		s.Why = "Have the scale, a thermometer, mask, glasses and gloves at hand."
		if h.here {
			s.Act, s.ActBig, s.Answers, s.How, s.Why = "What is here", false, nil, library.WhatIsHere, "Any other key: back."
		}
		s.Foot = []string{"no vat yet"}
		if env.Height >= widget.LowestYard {
			s.Stage, s.BodyTop = &widget.Stage{Vessel: screen.DrawnVessel(vessel.Vessel{}, 0)}, true
			if columns, rows := env.Room(s); !h.here {
				list := wording.Each(s.Answers, func(a string) widget.Choice { return widget.Choice{Text: fmt.Sprintf("%-14s", a[:1]+" "+a[1:])} })
				if large, ok := widget.Large(list, -1, columns, rows-1, env.Style); ok {
					s.Body = []string{""}
					s.Add(large)
				}
			}
		}
		return s
	}
	v := vats[chosen(vats, h.vat, env)]
	if h.ending {
		return asked(s, v, env.Height >= widget.LowestYard)
	}
	s.Head.Left += " · " + wording.Counted(count(vats)+max(0, coming), "vat")
	first := leads(vats, env)
	s.Act, s.ActTone, s.ActBig, s.HowTop = first.large, first.tone, true, true
	s.How = []string{name(first.vat) + " · " + first.words}
	s.Next = "then: its next day, from how it was left"
	switch {
	case v.Open:
		s.Next = "then: where you left off"
	case v.Ended:
		s.Next = "then: what was done to it; N: a new vat"
	case over(v):
		s.Next = "then: what was done; to build a real vat, run vatside by itself"
	case v.Unread:
		s.Next = "leave with q and type vatside book verify: it says what is wrong"
	}
	s.Foot = []string{foot(v)}
	columns, rows := widget.Room(s, env.Width, env.Height, env.Style)
	h.body(&s, vats, first, columns, max(rows, leastList), env)
	return s
}

// count is how many vats those of the list are: one with two open days has two entries.
func count(vats []screen.Vat) int {
	of := map[string]bool{}
	for _, v := range vats {
		of[v.Vat] = true
	}
	return len(of)
}

// leastList is how many rows the list of vats has at least.
const leastList = 3

// body is the yard, or a list where it has no room for all vats, and what is to be said of the chosen one, in as many rows for each, so
// that everything keeps its place.
func (h home) body(s *widget.Sheet, vats []screen.Vat, first lead, columns, rows int, env screen.Env) {
	list, at := fitted(choices(vats, env), vats, columns, env), chosen(vats, h.vat, env)
	yard := inYard(vats, env) && rows > leastYard
	places := h.places(vats, list, at, env)
	var said, tells []string
	most := 0
	for i, v := range vats {
		about := h.about(v, env)
		if !yard {
			about = unsaid(about, list, i, columns)
		}
		about = slices.DeleteFunc(about, func(line string) bool {
			return yard && line == places[i].Line && style.Width(line) < columns/len(vats)-1 || v.ID() == first.vat.ID() && line == first.words
		})
		var lines []string
		for _, l := range about {
			lines = append(lines, widget.Wrap(env.Style.Glyphs.Text(l), min(columns, 100))...)
		}
		if most = max(most, len(lines)); i == at {
			said, tells = lines, about
		}
	}
	if yard {
		line := lineOf(vats[at], env)
		switch beside := widget.BesideYard(len(vats), columns); {
		case beside >= leastBeside && env.Height >= roomy: // what is said stands under the line
			told(&line, tells, vats[at], env)
			most = 0
		case most > 4 || most > rows/4 || rows-1-most < leastYard:
			most = max(0, min(4, max(1, rows/4), rows-1-leastYard))
		}
		if h.say(s, said, most, env); most > 0 {
			s.Body = append(s.Body, "")
		}
		s.Add(widget.Yard(places, line, columns, rows-len(s.Body), env.Style))
		return
	}
	s.Add(widget.Pick(list, at, columns, min(len(list), max(leastList, rows-1-most)), env.Style))
	if most = min(most, rows-1-len(s.Body)); most > 0 {
		s.Body = append(s.Body, "")
		h.say(s, said, most, env)
	}
}

// leastBeside is how many columns beside the yard, and roomy how many rows of a window, what is said of a vat takes under its line.
const leastBeside, roomy = 50, 36

// told puts what is said of a vat under its line: what is due in large letters.
func told(line *widget.Line, about []string, v screen.Vat, env screen.Env) {
	for _, d := range v.Care {
		words := care(d, v, env)
		if !d.Coming && slices.Contains(about, words) {
			about = slices.DeleteFunc(about, func(line string) bool { return line == words })
			line.Dues = append(line.Dues, widget.Choice{Text: briefly(d.Do), Aside: d.When(env.Now)})
			line.Told = append(line.Told, words)
		}
	}
	line.Says = append(about, line.Says...)
}

// lineOf is what hangs of a vat, and whether the powders are enough for the next one.
func lineOf(v screen.Vat, env screen.Env) widget.Line {
	l := widget.Line{Cloths: v.Hung}
	if d, ok := env.Days.Day(v.ID()); ok && v.Open {
		l.Cloths = screen.HungOf(d.State, d.Blue)
	}
	if next := screen.NextVat(env); next != "" {
		l.Says = []string{wording.Sentence("powders " + next)}
	}
	return l
}

// leastYard is how many rows the yard takes.
const leastYard = 9

// say puts so many rows of what is said of the chosen vat onto the sheet.
func (h home) say(s *widget.Sheet, said []string, rows int, env screen.Env) {
	lines := make([]string, rows)
	copy(lines, env.Style.Text.Lines(said))
	s.Body = append(s.Body, lines...)
}

// places are the vats as they stand in the yard.
func (h home) places(vats []screen.Vat, list []widget.Choice, at int, env screen.Env) []widget.Place {
	out := make([]widget.Place, len(vats))
	for i, v := range vats {
		line := list[i].Aside
		out[i] = widget.Place{Name: name(v), Vessel: v.Vessel, Chosen: i == at}
		if d, ok := env.Days.Day(v.ID()); ok && v.Open {
			out[i].Vessel = screen.VesselOf(d.State)
			if row := d.Call().Row(d.Now); row != "" {
				line = row
			}
		}
		out[i].Line = line
		if state := strings.TrimPrefix(list[i].Text, name(v)); state != "" && state != ", day open" {
			out[i].Line = strings.TrimPrefix(state, ", ") + ": " + line
		}
	}
	return out
}

// foot is what is fixed of a vat, and when its last day was.
func foot(v screen.Vat) string {
	last := wording.If(v.Day != "", "last day "+v.Day)
	return strings.Join(wording.Filled(v.Fill, v.Recipe, last), " · ")
}

// asked is the question before a vat's last days begin.
func asked(s widget.Sheet, v screen.Vat, tall bool) widget.Sheet {
	s.Act, s.ActBig = "END "+strings.ToUpper(name(v))+"?", true
	if tall {
		s.Stage, s.BodyTop = &widget.Stage{Vessel: v.Vessel}, true
	}
	s.How = []string{
		"Enter opens the days that lead to its end: use up its indigo, whisk air in, leave it an hour, settle, draw off, make the pH mild, say where it went.",
		"It takes two days. Until it is whisked you can go back to dyeing: close the day at its first step.",
	}
	s.Why = "The local authority decides where old liquor may go: ask before you begin."
	s.Foot = []string{foot(v)}
	return s
}

// unsaid drops from what is said of a vat the line that its place in the list shows in full.
func unsaid(about []string, list []widget.Choice, at, columns int) []string {
	wide := wording.Most(list, func(c widget.Choice) int { return style.Width(c.Text) })
	aside := list[at].Aside
	if wide+style.Width(aside)+5 > columns {
		return about
	}
	return slices.DeleteFunc(about, func(line string) bool { return line == aside })
}

// choices are the vats as a list: the name, and what matters most of it.
func choices(vats []screen.Vat, env screen.Env) []widget.Choice {
	var list []widget.Choice
	for _, v := range vats {
		text := name(v)
		text += wording.If(slices.ContainsFunc(vats, func(o screen.Vat) bool { return o.Vat == v.Vat && o.Day != v.Day }), ", "+v.Day)
		switch {
		case v.Ended:
			text += ", ended"
		case v.Elsewhere && behind(v, vats) == "":
			text += ", open elsewhere"
		case v.Open:
			text += ", day open"
		}
		text += wording.If(v.Rehearsed, ", rehearsed")
		aside := v.Line
		if now, ok := live(v, env); ok {
			aside = now
		} else if !v.Open {
			aside = aim(v, env)
		}
		list = append(list, widget.Choice{Text: text, Aside: aside})
	}
	return list
}

func (h home) Keys(env screen.Env) []widget.Key {
	if h.setting != nil {
		return h.setting.keys()
	}
	if len(env.Home.Vats) == 0 && env.Home.Coming != 0 {
		return screen.Keys("q", "quit")
	}
	if len(env.Home.Vats) == 0 {
		return screen.Keys("enter", "build a vat", "2", "a rehearsal", "3", "what is here", "4", "a class", "b", "before the day", "P", "powders",
			"q", "quit", ",", "settings")
	}
	if h.ending {
		return screen.Keys("enter", "end it", "esc", "keep it")
	}
	vats := ordered(env)
	v := vats[chosen(vats, h.vat, env)]
	does := "next day"
	switch {
	case v.Open:
		does = "go on"
	case over(v):
		does = "its log"
	case v.Unread:
		does = "why"
	}
	return screen.Keys("enter", does, "N", wording.If(!v.Rehearsed, "new vat"), "j", wording.If(!over(v), "keeping it alive"),
		"l", "log", "q", "quit", "b", "before the day", "P", "powders", ",", "settings", "C", "what it cost",
		"X", wording.If(!v.Ended && !v.Rehearsed, "end the vat"), "1–9", "which vat", "↑ ↓", "choose")
}

// over tells whether no day follows on a vat: it has ended, or its day was rehearsed and is closed.
func over(v screen.Vat) bool { return v.Ended || v.Rehearsed && !v.Open }
