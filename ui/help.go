package ui

import (
	"fmt"
	"strings"

	"github.com/charmbracelet/bubbles/key"
	"github.com/charmbracelet/x/ansi"

	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/style"
	"example.org/vatside/ui/widget"
)

// keysOf is the last line: the first few keys, then help and first aid, as far as they are those keys now.
func keysOf(top place, env screen.Env, most int) []widget.Key {
	if top.say.on() {
		return []widget.Key{{Key: "enter", Does: "take it"}, {Key: "esc", Does: "leave it"}, {Key: "!", Does: "first aid"}}
	}
	var out []widget.Key
	for _, b := range top.shows.Keys(env) {
		if b.Enabled() && len(out) < most-1 {
			out = append(out, widget.Key{Key: b.Help().Key, Does: b.Help().Desc})
		}
	}
	if !top.shows.Capturing() {
		out = append(out, widget.Key{Key: "?", Does: "keys"})
	}
	if top.at != screen.AtAid {
		out = append(out, widget.Key{Key: "!", Does: "first aid"})
	}
	return out
}

// helpSheet is made from the key map of the screen on top.
func (m model) helpSheet(top place, env screen.Env) widget.Sheet {
	all := top.shows.Keys(env)
	if m.speaks(top) {
		all = append(all, screen.Bound(string(sayKey), "say it in words"))
	}
	if m.leadsHome(top) {
		all = append(all, screen.Bound(string(homeKey), "home"))
	}
	if m.leadsBack(top) {
		all = append(all, screen.Bound("esc", "back to the day"))
	}
	all = append(all, key.NewBinding(key.WithKeys("!"), key.WithHelp("!", "first aid")), key.NewBinding(key.WithKeys("q"), key.WithHelp("q", "quit")))
	seen, wide := map[string]bool{}, 0
	for _, b := range all {
		wide = max(wide, ansi.StringWidth(b.Help().Key))
	}
	var rows []string
	for _, b := range all {
		if h := b.Help(); b.Enabled() && !seen[h.Key] {
			seen[h.Key] = true
			rows = append(rows, fmt.Sprintf("%-*s   %s", wide, h.Key, h.Desc))
		}
	}
	sheet := widget.Sheet{
		Act: "Keys", Liquor: style.Liquor(style.Water), Edge: style.Cloth(0.5), Next: "any other key goes back",
		How: []string{
			"Space, PageDown, F1–F12 and a click on the call answer it from every screen; Enter answers the screen in front.",
			"Behind a figure: = measured, ~ reckoned, ? guessed. What is reckoned moves with each reading.",
			"(as planned): the clock went on by itself.",
		},
	}
	columns, room := widget.Room(sheet, env.Width, env.Height, m.style)
	if rows = beside(rows, columns, room); len(rows) > room {
		sheet.Keys = []widget.Key{{Key: "↓", Does: "more"}}
		_, room = widget.Room(sheet, env.Width, env.Height, m.style)
	}
	from := min(m.helpFrom, max(0, len(rows)-room))
	sheet.Body = rows[from:min(len(rows), from+max(room, 1))]
	return sheet
}

// gutter is the columns between two columns of keys.
const gutter = 4

// beside puts the second half of the rows beside the first where one column is too high and two are not too wide.
func beside(rows []string, columns, room int) []string {
	half := (len(rows) + 1) / 2
	widest := func(rows []string) (wide int) {
		for _, r := range rows {
			wide = max(wide, ansi.StringWidth(r))
		}
		return wide
	}
	left := widest(rows[:half])
	if len(rows) <= room || left+gutter+widest(rows[half:]) > columns {
		return rows
	}
	var out []string
	for i := range half {
		row := rows[i]
		if i+half < len(rows) {
			row += strings.Repeat(" ", left+gutter-ansi.StringWidth(row)) + rows[i+half]
		}
		out = append(out, row)
	}
	return out
}
