package ui

import (
	"reflect"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"

	"example.org/vatside/model/day"
	"example.org/vatside/ui/screen"
)

func paste(text string) tea.KeyMsg {
	return tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(text), Paste: true}
}

// A paste is text where text is typed, one key after another; everywhere else it does nothing, and says so.
func TestPaste(t *testing.T) {
	t.Parallel()
	const text = "12 g vec+!q"
	for _, s := range scenes(t) {
		at := s.open(clickable(effectsOf(t, daysHome(t)), s.view))
		next, cmd := at.Update(paste(text))
		got := next.(model)
		if at.stack[len(at.stack)-1].capturing() {
			want := at
			for _, r := range text {
				k := named(string(r))[0]
				if r == ' ' {
					k = named("space")[0]
				}
				typed, _ := want.shown(want.stack[len(want.stack)-1], k)
				want = typed
			}
			if g, w := bare(got), bare(want); !reflect.DeepEqual(g.stack, w.stack) {
				t.Errorf("%s: a paste is not what it would be typed:\n%s", s.name, got.View())
			}
			continue
		}
		if cmd != nil && cmd() != nil {
			t.Errorf("%s: a paste is an act", s.name)
		}
		said := got.word
		got.word, got.fades = at.word, at.fades
		if !reflect.DeepEqual(bare(got), bare(at)) {
			t.Errorf("%s: a paste changes it", s.name)
		}
		if want := "11 characters came at once, as pasted text does: nothing was done"; said != want && !at.help && at.leaving == staying {
			t.Errorf("%s: it says %q", s.name, said)
		}
	}
}

// Where bare figures are typed and letters are keys, figures are pasted, and nothing else; a line's end is no press.
func TestPasteOfFigures(t *testing.T) {
	weighing := scene{"weighing", screen.AtDay, happened(t, false, day.CautionAnswered{OfStep: day.OfStep{Step: 1}}), "3", nil}
	for text, want := range map[string]string{"4.5\n": "34.5", " 4,5 ": "34,5", "45v": "3", "x": "3"} {
		next, cmd := weighing.open(clickable(effectsOf(t, daysHome(t)), weighing.view)).Update(paste(text))
		if view := next.View(); !strings.Contains(view, want+"▄") {
			t.Errorf("%q pasted behind a 3 is not %q:\n%s", text, want, view)
		}
		if cmd != nil && cmd() != nil {
			t.Errorf("%q is an act", text)
		}
	}
}
