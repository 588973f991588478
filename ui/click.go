package ui

import (
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/widget"
)

// mouse answers the left button as it goes down, and the wheel; everything else of a mouse does nothing.
func (m model) mouse(msg tea.MouseMsg) (model, tea.Cmd) {
	if msg.Action != tea.MouseActionPress {
		return m, nil
	}
	switch msg.Button {
	case tea.MouseButtonLeft:
		return m.click(msg.X, msg.Y)
	case tea.MouseButtonWheelUp:
		return m.wheel("up")
	case tea.MouseButtonWheelDown:
		return m.wheel("down")
	}
	return m, nil
}

// click does what the thing under it says, and nothing where nothing is. Where a click is the call's wherever it is, it is a press.
func (m model) click(x, y int) (model, tea.Cmd) {
	if m.width < 1 || m.height < 1 {
		return m, nil
	}
	k, ok := screen.Key{Name: callKey}, true
	if target := widget.Lay(m.sheet(), m.width, m.height, m.style).At(x, y); !m.home.Settings.Anywhere() {
		k, ok = m.under(target)
	} else if m.stack[len(m.stack)-1].at == screen.AtAid && target.Kind != widget.OverTarget {
		k = screen.Key{Name: "enter"} // there only the call itself is the call's
	}
	if !ok {
		return m, nil
	}
	return m.key(k)
}

// under is the key that a target stands for now; false where it is none.
func (m model) under(t widget.Target) (screen.Key, bool) {
	k, ok := screen.Key{}, false
	switch t.Kind {
	case widget.OverTarget:
		return screen.Key{Name: overKey}, true
	case widget.CallTarget:
		k, ok = screen.Key{Name: "enter"}, true
		if m.itself() != "" {
			k = screen.Key{Name: callKey}
		}
	case widget.LabelTarget, widget.AnswerTarget:
		k, ok = labelled(t.Key)
	case widget.RowTarget:
		k, ok = screen.Key{Name: "row", Row: t.Row}, true
	}
	switch {
	case m.leaving != staying:
		ok = ok && t.Kind == widget.LabelTarget
	case m.help && (!ok || t.Kind != widget.LabelTarget):
		k, ok = screen.Key{Name: "enter"}, true // any closes it
	case t.Kind == widget.AnswerTarget && m.stack[len(m.stack)-1].capturing():
		ok = false // its key would be text
	}
	return k, ok
}

// labels are the names of keys that are no letter, as they are shown.
var labels = map[string]screen.Key{
	"space": {Name: "space", Rune: ' '}, "enter": {Name: "enter"}, "esc": {Name: "esc"}, "tab": {Name: "tab"}, "pgup": {Name: "pgup"},
	"pgdn": {Name: "pgdown"}, "↑": {Name: "up"}, "↓": {Name: "down"}, "←": {Name: "left"}, "→": {Name: "right"},
	"any other": {Name: "esc"}, "any other key": {Name: "esc"}, // they all do the same
}

// labelled is the key that a label names; false for one that stands for several.
func labelled(name string) (screen.Key, bool) {
	if k, ok := labels[strings.ToLower(name)]; ok {
		return k, true
	}
	r := []rune(name)
	if len(r) != 1 {
		return screen.Key{}, false
	}
	return screen.Key{Rune: r[0]}, true
}

// wheeled are the places along whose list the wheel goes. Not the day and its bench, where another piece in hand changes
// what the next press does; nor the setting up, where another vessel forgets its measures.
var wheeled = map[screen.Place]bool{
	screen.AtHome: true, screen.AtLog: true, screen.AtStock: true, screen.AtCost: true, screen.AtTable: true, screen.AtPrepare: true,
	screen.AtLadder: true, screen.AtPiece: true,
}

// wheel goes up or down a list, or the help page. It is no answer: what sounds goes on, and a word stays.
func (m model) wheel(way string) (model, tea.Cmd) {
	top := m.stack[len(m.stack)-1]
	switch k := (screen.Key{Name: way}); {
	case m.leaving != staying:
	case m.help:
		return m.key(k)
	case wheeled[top.at] && !top.capturing() && (top.at == screen.AtTable || len(m.sheet().Spots) > 0):
		return m.shown(top, k)
	}
	return m, nil
}
