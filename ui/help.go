package ui

import (
	"fmt"
	"slices"

	"github.com/charmbracelet/x/ansi"

	"example.org/vatside/model/wording"
	"example.org/vatside/ui/answer"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/style"
	"example.org/vatside/ui/widget"
)

// keysOf is the last line: the first few keys, then help and first aid, as far as they are those keys now.
func (m model) keysOf(top place, env screen.Env, most int) []widget.Key {
	if top.say.on() {
		keys := []widget.Key{{Key: "enter", Desc: "take it"}, {Key: "esc", Desc: "leave it"}, {Key: "!", Desc: "first aid"}}
		if len(top.say.photos.seen) > 1 {
			keys = slices.Insert(keys, 1, widget.Key{Key: "↑ ↓", Desc: "another"})
		}
		return keys
	}
	out := make([]widget.Key, 0, most+1)
	for _, b := range own(top, env) {
		if len(out) < most-1 {
			out = append(out, widget.Key{Key: m.label(b.Key), Desc: b.Desc})
		}
	}
	if !screen.Capturing(top.shows) {
		out = append(out, widget.Key{Key: "?", Desc: "keys"})
	}
	if top.at != screen.AtAid {
		out = append(out, widget.Key{Key: "!", Desc: "first aid"})
	}
	return out
}

// own are the keys of the screen on top; where another program writes the day, without those that would do something to it.
func own(top place, env screen.Env) []widget.Key {
	keys := top.screen(env).Keys(env)
	v, ok := env.Day()
	if !ok || !v.Looking || !ofDay(top.at) || v.State.Closed {
		return keys
	}
	rows := answer.Rows()
	return slices.DeleteFunc(slices.Clone(keys), func(b widget.Key) bool {
		i := slices.IndexFunc(rows, func(r answer.Row) bool { return r.Key == b.Key })
		return b.Key == "space" || b.Key == "0–9" || i >= 0 && rows[i].Opens == ""
	})
}

// keyGroup is a heading of help with its keys.
type keyGroup struct {
	title string
	keys  []widget.Key
}

// keyGroups are the keys that work on a screen: its own and what fits the call first, then on a screen of a day those of the table
// of answers by its groups. Each key is named once.
func (m model) keyGroups(top place, env screen.Env) []keyGroup {
	own := own(top, env)
	everywhere := screen.Keys("!", "first aid", "q", "quit")
	v, ok := env.Day()
	if !ok || !ofDay(top.at) || v.State.Ended {
		if m.speaks(top) {
			own = append(own, screen.Bound(string(sayKey), "say it in words"))
		}
		if m.leadsBack(top) {
			own = append(own, screen.Bound("esc", "back to the day"))
		}
		return []keyGroup{{keys: append(own, everywhere...)}}
	}
	out := []keyGroup{{title: "Now", keys: own}}
	for _, s := range answer.List(v.State, v.Now) {
		g := keyGroup{title: s.Title}
		for _, r := range s.Rows {
			if v.Looking && r.Opens == "" || r.ID == "in words" && !m.speaks(top) {
				continue
			}
			if r.Key != "" && r.ID != "done" && r.ID != "scoop" { // of the big key and of figures the screen tells
				g.keys = append(g.keys, screen.Bound(r.Key, r.KeyDoes(v.State)))
			}
		}
		if s.Title == out[0].title {
			out[0].keys = append(slices.Clone(out[0].keys), g.keys...)
		} else {
			out = append(out, g)
		}
	}
	return out
}

// helpSheet is made from the key map of the screen on top and the table of answers.
func (m model) helpSheet(top place, env screen.Env) widget.Sheet {
	groups := m.keyGroups(top, env)
	seen := map[string]bool{}
	wide := wording.Most(groups, func(g keyGroup) int {
		return wording.Most(g.keys, func(b widget.Key) int { return ansi.StringWidth(b.Key) })
	})
	var lists [][]string
	for _, g := range groups {
		var rows []string
		for _, b := range g.keys {
			if b.Key = m.label(b.Key); seen[b.Key] {
				continue
			}
			if len(rows) == 0 && g.title != "" && len(groups) > 1 {
				rows = append(rows, m.style.Act.Render(g.title))
			}
			seen[b.Key] = true
			rows = append(rows, fmt.Sprintf("%-*s   %s", wide, b.Key, b.Desc))
		}
		if len(rows) > 0 {
			lists = append(lists, rows)
		}
	}
	sheet := widget.Sheet{
		Head: widget.Head{Left: "vatside · keys", Right: env.Now.Format("15:04")},
		Act:  "Keys", Keys: []widget.Key{{Key: "any other key", Desc: "goes back"}, {Key: "!", Desc: "first aid"}},
		How: []string{
			"Space, PgDn, F1–F12 and a click on the call answer it from every screen; Enter answers the screen in front.",
			"Behind a figure: = measured, ~ reckoned, ? guessed. What is reckoned moves with each reading.",
			"(as planned): the clock went on by itself.",
		},
	}
	if v, ok := env.Day(); ok && top.at == screen.AtDay && len(v.State.Pieces) > 0 {
		sheet.How = append(sheet.How, "A digit answers a look (1–3) first; else it leaves a peg's piece out of what goes in or comes out together; else it is the rung that a piece is like.")
	}
	sheet.ActBig = env.Height >= widget.LowestYard
	columns, room := widget.Room(sheet, env.Width, env.Height, m.style)
	rows := inColumns(lists, columns, room)
	if len(rows) > room && sheet.ActBig {
		sheet.ActBig = false
		columns, room = widget.Room(sheet, env.Width, env.Height, m.style)
		rows = inColumns(lists, columns, room)
	}
	if len(rows) > room {
		sheet.Keys = slices.Insert(sheet.Keys, 0, widget.Key{Key: "↓", Desc: "more"})
		_, room = widget.Room(sheet, env.Width, env.Height, m.style)
	}
	from := min(m.helpFrom, max(0, len(rows)-room))
	sheet.Body = rows[from:min(len(rows), from+max(room, 1))]
	return sheet
}

// gutter is the columns between two columns of keys.
const gutter = 4

// inColumns sets groups of rows side by side in as few columns as the room asks for, with air between the groups where there is room for
// it; where they are too wide, in fewer and higher ones.
func inColumns(groups [][]string, columns, room int) []string {
	if rows, fits := side(lowest(groups, len(filled(groups, room, 1)), 1), columns); fits {
		return rows
	}
	for most := len(filled(groups, room, 0)); ; most-- {
		if rows, fits := side(lowest(groups, most, 0), columns); fits {
			return rows
		}
	}
}

// lowest are so many columns at the most, as low as they get.
func lowest(groups [][]string, most, air int) [][]string {
	all := wording.Sum(groups, func(g []string) int { return len(g) })
	for high := max(1, (all+most-1)/most); ; high++ {
		if in := filled(groups, high, air); len(in) <= most {
			return in
		}
	}
}

// filled are columns of so many rows at the most, each filled before the next: a group stays whole that has room in one.
func filled(groups [][]string, high, air int) (out [][]string) {
	var last []string
	for _, g := range groups {
		if gap := min(air, len(last)); len(last)+gap+len(g) <= high || len(g) > high {
			last = append(append(last, make([]string, gap)...), g...)
		} else {
			out, last = append(out, last), slices.Clip(g)
		}
		for ; len(last) > max(high, 1); last = last[high:] {
			out = append(out, last[:high])
		}
	}
	return append(out, last)
}

// side sets columns side by side over the width; false where they are too wide for it.
func side(in [][]string, columns int) (rows []string, fits bool) {
	at, free := 0, columns-gutter*(len(in)-1)
	wide := wording.Each(in, style.Widest)
	for _, w := range wide {
		free -= w
	}
	if free < 0 && len(in) > 1 {
		return nil, false
	}
	for i, column := range in {
		rows = style.Beside(rows, column, at)
		at += wide[i] + gutter + max(0, free)/len(in)
	}
	return rows, true
}
