package ui

import (
	"math/rand"
	"slices"
	"strings"
	"testing"
	"time"

	"example.org/vatside/ui/screen"
)

// names are the keys that what is in front names: in its last line, in help, in its words, and the press where a call stands.
func (d *desk) names() []string {
	var out []string
	add := func(label string) {
		switch label {
		case "PgUp":
			label = "pgup"
			out = append(out, "b") // its second name
		case "+":
			out = append(out, "=")
		case "_":
			out = append(out, "-")
		}
		out = append(out, label)
		if label == "space" || label == "enter" { // where no call runs they are the same
			out = append(out, "space", "enter", "pgdown", "f1", "f8", "f12")
		}
		if l := []rune(label); len(l) == 3 && l[1] == '–' {
			for r := l[0]; r <= l[2]; r++ {
				out = append(out, string(r))
			}
		}
	}
	sheet := d.g.sheet()
	for _, k := range sheet.Keys {
		add(k.Key)
	}
	if d.g.leaving == staying && !d.top().typed() {
		all := d.g.model // help, in a window that has room for all of it
		all.help, all.width, all.height = true, 300, 400
		for _, row := range all.sheet().Body {
			label, _, _ := strings.Cut(row, "   ")
			add(strings.TrimSpace(label))
		}
	}
	for _, a := range sheet.Answers {
		name, _, _ := strings.Cut(a, " ")
		add(strings.TrimSuffix(name, ":"))
	}
	if sheet.Caution != nil {
		name, _, _ := strings.Cut(sheet.Caution.Key, ":")
		add(name)
	}
	if sheet.Call.Words != "" {
		out = append(out, "space", "pgdown", "f1", "f8", "f12")
	}
	return out
}

// At each screen of a day random keys for a minute record nothing but by keys that the screen named.
func TestRandomKeysRecordWhatTheScreenNames(t *testing.T) {
	var all []string
	for r := '!'; r <= '~'; r++ {
		if r != '[' && r != ']' {
			all = append(all, string(r))
		}
	}
	for _, k := range []string{"space", "enter", "esc", "pgup", "pgdown", "f1", "f8", "f12", "up", "down", "left", "right", "tab", "backspace"} {
		all = append(all, slices.Repeat([]string{k}, 4)...)
	}
	dice := rand.New(rand.NewSource(13))
	recorded, pressed := 0, 0
	for _, s := range scenes(t) {
		switch s.at {
		case screen.AtHome, screen.AtSetup, screen.AtStock, screen.AtPrepare, screen.AtCost:
			continue // no screens of a day
		}
		d := seated(t, s.view)
		id := s.view.ID
		d.g.model = s.open(d.g.model)
		d.sees()
		for range 20 {
			d.in.run(3 * time.Second)
			d.sees()
			if len(d.g.stack) < 2 || d.view(id).State.Closed {
				break
			}
			k := all[dice.Intn(len(all))]
			if k == "q" && d.g.leaving != staying { // it would end the program
				continue
			}
			names, before, was := d.names(), len(d.view(id).State.Log), d.g
			typed := d.top().typed()
			key := k
			if len(k) > 1 {
				key = "[" + k + "]"
			}
			d.types(key)
			pressed++
			got := d.kinds(id, before)
			if got == "" {
				continue
			}
			recorded++
			if !slices.Contains(names, k) && !(typed && k == "space") { // figures are typed, and space is Enter
				t.Errorf("%s: %q records %q, and is not named:\n%s", s.name, k, got, was.View())
			}
		}
	}
	if recorded < 20 || pressed < 400 {
		t.Errorf("%d of %d keys recorded something", recorded, pressed)
	}
}
