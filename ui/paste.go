package ui

import (
	"fmt"
	"slices"
	"strings"
	"time"
	"unicode"

	tea "github.com/charmbracelet/bubbletea"

	"example.org/vatside/model/wording"
	"example.org/vatside/ui/screen"
)

// pasted is text where text is typed, and nothing elsewhere: its letters are no keys.
func (m model) pasted(text []rune) (model, tea.Cmd) {
	if len(text) == 0 || m.help || m.leaving != staying {
		return m, nil
	}
	if next, cmd, is := m.dropped(string(text)); is {
		return next, cmd
	}
	top := m.stack[len(m.stack)-1]
	taken := top.capturing()
	if top.figures() && !top.say.on() {
		text = []rune(strings.TrimSpace(string(text)))
		taken = !slices.ContainsFunc(text, func(r rune) bool { return !strings.ContainsRune("0123456789.,", r) })
	}
	if !taken {
		m.word = fmt.Sprintf("%s came at once, as pasted text does: nothing was done", wording.Counted(len(text), "character"))
		m.fades = m.snap.Wall.Add(refusal)
		return m, nil
	}
	m.word, m.fades = "", time.Time{}
	var cmds []tea.Cmd
	unfit := ""
	for _, r := range text {
		k := screen.Key{Rune: r}
		switch {
		case unicode.IsSpace(r):
			k = screen.Key{Name: "space", Rune: ' '}
		case wording.Unfit(r):
			unfit = unfitWord(r)
			continue
		}
		var cmd tea.Cmd
		m, cmd = m.shown(m.stack[len(m.stack)-1], k)
		cmds = append(cmds, cmd)
	}
	if unfit != "" {
		m.word, m.fades = unfit, m.snap.Wall.Add(refusal)
	}
	return m, tea.Sequence(cmds...)
}

func unfitWord(r rune) string {
	return fmt.Sprintf("the character U+%04X cannot be shown and is not taken", r)
}
