// Package unsaid shows what was taken as planned and waits for a word, each with its time: one press says that all was so.
package unsaid

import (
	"fmt"
	"slices"

	"example.org/vatside/model/day"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/widget"
)

// Screen is the list. chosen is the event that was picked, by its number; 0: none, and the press is about all.
type Screen struct{ chosen int }

func New(screen.Env) screen.Screen { return Screen{} }

// Event is the number of the event that was picked.
func (s Screen) Event(screen.Env) int { return s.chosen }

// Unsaid tells that this is the list of what was taken as planned.
func (s Screen) Unsaid() {}

func (s Screen) Update(k screen.Key, env screen.Env) (screen.Screen, []screen.Request) {
	v, _ := env.Day()
	list := v.State.Unsaid()
	at := s.at(list)
	pick := func(n int) (screen.Screen, []screen.Request) {
		if s.chosen = 0; n >= 0 && n < len(list) {
			s.chosen = list[n].Seq
		}
		return s, nil
	}
	if row, ok := k.On(len(list)); ok {
		return pick(row)
	}
	switch {
	case k.Name == "esc" && at >= 0:
		return pick(-1)
	case k.Name == "esc", len(list) == 0:
		return s, []screen.Request{screen.Leave{}}
	case k.Name == "down":
		return pick((at+2)%(len(list)+1) - 1) // past either end none is picked
	case k.Name == "up":
		return pick((at+1+len(list))%(len(list)+1) - 1)
	case k.Rune >= '1' && k.Rune <= '9' && int(k.Rune-'1') < len(list):
		return pick(int(k.Rune - '1'))
	case at >= 0 && k.Done():
		c := day.Confirm{Seq: s.chosen}
		s.chosen = 0
		return s, []screen.Request{screen.Do{Command: c}}
	case k.Done():
		return s, []screen.Request{screen.Do{Command: day.ConfirmAll{}}, screen.Leave{}}
	}
	return s, nil
}

// at is where the picked one stands; -1 for none.
func (s Screen) at(list []day.Event) int {
	return slices.IndexFunc(list, func(e day.Event) bool { return e.Seq == s.chosen })
}

func (s Screen) View(env screen.Env) widget.Sheet {
	v, _ := env.Day()
	list := v.State.Unsaid()
	at := s.at(list)
	sheet := widget.Sheet{Head: screen.HeadOf(v, "")}
	switch {
	case len(list) == 0:
		sheet.Act, sheet.Next, sheet.Answers = "Every act is confirmed", "enter: back", []string{"enter: back"}
		return sheet
	case at >= 0:
		sheet.Act, sheet.ActBig, sheet.How = "Right?", true, []string{fmt.Sprintf("Was it at %s?", clock(v.State, list[at]))}
		sheet.Next, sheet.Answers = "enter: yes   T: it was at …   esc: leave it", []string{"enter: yes", "T: it was at …", "esc: leave it"}
	default:
		sheet.Act, sheet.ActBig = "As planned?", true
		sheet.Next, sheet.Answers = "enter: all as planned", []string{"enter: all as planned"}
		sheet.How = []string{wording.Counted(len(list), "act") + " unconfirmed: all as planned? A digit, or ↑ ↓, picks one that was different."}
	}
	var rows []widget.Choice
	for i, e := range list {
		rows = append(rows, widget.Choice{Text: fmt.Sprintf("%d  %s  %s", i+1, clock(v.State, e), told(v.State, e))})
	}
	columns, lines := widget.Room(sheet, env.Width, env.Height, env.Style)
	if at < 0 {
		sheet.Add(widget.Listed(rows, columns, max(lines, 2), env.Style))
	} else {
		sheet.Add(widget.Pick(rows, at, columns, max(lines, 2), env.Style))
	}
	return sheet
}

// clock is when an act was, as it was taken.
func clock(s day.State, e day.Event) string { return day.DateOf(day.WhenOf(e), s.At) }

// told is an act of the list in short.
func told(s day.State, e day.Event) string {
	if b, ok := e.Body.(day.DipEnded); ok {
		p, _ := s.Piece(b.Tag)
		return fmt.Sprintf("%s out after dip %d", p.Name(), b.Dip)
	}
	return s.Tell(e.Body)
}

func (s Screen) Keys(env screen.Env) []widget.Key {
	v, _ := env.Day()
	list := v.State.Unsaid()
	switch {
	case len(list) == 0:
		return screen.Keys("enter", "back", "esc", "back")
	case s.at(list) >= 0:
		return screen.Keys("enter", "yes", "k", "yes", "T", "it was at …", "↑↓", "another", "esc", "leave it")
	}
	return screen.Keys("enter", "all as planned", "k", "all as planned", "↑↓", "pick one", "1–9", "pick one", "esc", "back")
}
