package home

import (
	"cmp"
	"slices"
	"strings"

	"example.org/vatside/model/wording"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/shelf"
	"example.org/vatside/ui/widget"
)

// settings is the short list of what the dyer sets once. Each change is stored as it is made.
type settings struct {
	at    int
	typed screen.Field
}

// update answers one key; open is false when the list is left.
func (s settings) update(k screen.Key, env screen.Env) (next settings, open bool, r []screen.Request) {
	if s.typed.On() {
		return s.edit(k, env)
	}
	if row, ok := k.On(len(shelf.Table())); ok {
		s.at, k = row, screen.Key{Name: "enter"}
	}
	line := shelf.Table()[s.at]
	switch {
	case k.Name == "esc" || k.Rune == ',':
		return s, false, nil
	case k.Rune == 'q':
		return s, true, []screen.Request{screen.Quit{}}
	case k.Name == "down" || k.Name == "tab" || k.Name == "pgdown": // a remote's press changes no setting
		s.at = (s.at + 1) % len(shelf.Table())
	case k.Name == "up" || k.Name == "pgup":
		s.at = (s.at + len(shelf.Table()) - 1) % len(shelf.Table())
	case k.Rune >= '1' && int(k.Rune-'0') <= len(shelf.Table()):
		s.at = int(k.Rune - '1')
	case k.Done() && line.Words == nil:
		s.typed = screen.Field{What: line.Label, Text: line.Shown(env.Home.Settings), Hint: line.Help}
	case line.Words != nil && (k.Done() || k.Name == "right" || k.Name == "left"):
		step := 1
		if k.Name == "left" {
			step = len(line.Words) - 1
		}
		now := max(0, slices.Index(line.Words, line.Shown(env.Home.Settings)))
		set := env.Home.Settings
		_ = line.Put(&set, line.Words[(now+step)%len(line.Words)]) // a word of the list always fits
		return s, true, []screen.Request{screen.Set{Settings: set}}
	}
	return s, true, nil
}

// edit answers a key while a line is typed.
func (s settings) edit(k screen.Key, env screen.Env) (settings, bool, []screen.Request) {
	switch {
	case k.Name == "esc":
		s.typed = screen.Field{}
	case k.Rune == '!':
		return s, true, []screen.Request{screen.Go{To: screen.AtAid}}
	case k.Name == "enter" || k.Name == "pgdown":
		set := env.Home.Settings
		if err := shelf.Table()[s.at].Put(&set, strings.TrimSpace(s.typed.Text)); err != nil {
			s.typed.Wrong = err.Error()
			return s, true, nil
		}
		s.typed = screen.Field{}
		return s, true, []screen.Request{screen.Set{Settings: set}}
	default:
		s.typed = s.typed.Edit(k)
	}
	return s, true, nil
}

func (s settings) view(env screen.Env) widget.Sheet {
	sheet := widget.Sheet{
		Head: widget.Head{Left: "vatside · settings", Right: env.Now.Format("15:04")},
		Act:  "Settings",
		Foot: []string{"stored as you change it"},
	}
	sheet.ActBig = env.Height >= widget.LowestYard
	line := shelf.Table()[s.at]
	if s.typed.On() {
		sheet.Act = wording.Upper(line.Label)
		sheet.Body = s.typed.Lines(env)
		return sheet
	}
	choices := wording.Each(shelf.Table(), func(l shelf.Setting) widget.Choice {
		return widget.Choice{Text: l.Label, Aside: cmp.Or(l.Shown(env.Home.Settings), "not set")}
	})
	_, right, halved := widget.Halves(env.Width)
	sheet.Halved = halved
	helped := 0 // rows
	wide, rows := env.Room(sheet)
	if !halved && env.Height >= leastHelped { // what is said of a line stands in as many rows for each, so that the list keeps its place
		for _, l := range shelf.Table() {
			helped = max(helped, 1+len(says(l.Help, env)))
		}
	}
	sheet.Add(widget.Pick(choices, s.at, wide, max(4, rows-helped), env.Style))
	if halved { // all that it can be, in large letters
		v := line.Shown(env.Home.Settings)
		at := slices.Index(line.Words, v)
		values := wording.Each(line.Words, func(w string) widget.Choice { return widget.Choice{Text: w} })
		if at < 0 {
			values = []widget.Choice{{Text: cmp.Or(v, "not set")}}
		}
		large, _ := widget.Large(values, at, right, env.Height/2, env.Style)
		sheet.Side = append(append(large.Lines, "", env.Style.Act.Render(wording.Upper(line.Label))), widget.Words(line.Help, right, env.Style.Text, env.Style.Glyphs)...)
		return sheet
	}
	if helped == 0 {
		sheet.Why = line.Help
		return sheet
	}
	said := make([]string, helped) // under a row of air
	copy(said[1:], says(line.Help, env))
	sheet.Body = append(sheet.Body, said...)
	return sheet
}

// leastHelped is from how many rows on what is said of a line stands under the list.
const leastHelped = 20

// says is a hint in rows.
func says(hint string, env screen.Env) []string {
	return env.Style.Dim.Lines(wording.Each(widget.Wrap(hint, min(max(20, env.Width-8), 100)), env.Style.Glyphs.Text))
}

func (s settings) keys() []widget.Key {
	if s.typed.On() {
		return screen.Keys("enter", "store", "esc", "leave as it was")
	}
	return screen.Keys("enter", "change", "↑ ↓", "choose", "esc", "back")
}
