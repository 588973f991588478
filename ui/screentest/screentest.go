// Package screentest is what the tests of the screens share: it draws a screen as a window of a size would, and presses
// keys. Only tests import it.
package screentest

import (
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"

	"example.org/vatside/ui/answer"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/widget"
)

// Sizes are the windows that every screen must fit.
var Sizes = [][2]int{{60, 20}, {80, 24}, {120, 40}, {200, 60}}

// Shown is the screen as plain text, without the line and the vessel of a stage, and under it what stands in large letters, which
// nobody could look for; a wrong number of lines, or one too wide, fails the test.
func Shown(t *testing.T, s screen.Screen, e screen.Env) string {
	t.Helper()
	return ShownAs(t, s.View(e), e)
}

// ShownAs is Shown of a screen's sheet.
func ShownAs(t *testing.T, sheet widget.Sheet, e screen.Env) string {
	t.Helper()
	pic := widget.Lay(sheet, e.Width, e.Height, e.Style)
	lines := strings.Split(ansi.Strip(pic.String()), "\n")
	if len(lines) != e.Height {
		t.Errorf("%dx%d: %d lines", e.Width, e.Height, len(lines))
	}
	for _, l := range lines {
		if ansi.StringWidth(l) > e.Width {
			t.Errorf("%dx%d: a line is %d wide", e.Width, e.Height, ansi.StringWidth(l))
		}
	}
	text := ansi.Strip(pic.Text())
	if act := e.Style.Glyphs.Text(sheet.Act); (sheet.Stage == nil || sheet.BodyTop) && !strings.Contains(text, act) {
		text += "\n" + act
	}
	return text + "\n" + strings.Join(sheet.Large, "\n")
}

// Press presses keys: a letter or figure, or a key by its name. It gives what the last one asked for. As the root does, it carries
// out the keys of the table of answers, and takes what is typed on the lines that they open.
func Press(s screen.Screen, e screen.Env, keys ...string) (screen.Screen, []screen.Request) {
	var r []screen.Request
	var line screen.Field
	var asks screen.Ask
	for _, k := range keys {
		key := screen.Key{Name: k}
		if k == "space" {
			key.Rune = ' '
		} else if len([]rune(k)) == 1 {
			key = screen.Key{Rune: []rune(k)[0]}
		}
		if line.On() {
			r = nil
			next, entered, _ := line.Take(key)
			if entered {
				next, r = said(asks, next, e)
			}
			line = next
			continue
		}
		wants, taken := screen.AnswerKey(s, key, e)
		if !taken {
			s, r = s.Update(key, e)
			continue
		}
		r = wants
		if len(wants) == 1 {
			if a, is := wants[0].(screen.Ask); is {
				line, asks = screen.Field{What: "line", Label: a.Blank.Label}, a
			}
		}
	}
	return s, r
}

// said is what a line of the table wants; what is not taken stays typed.
func said(asks screen.Ask, line screen.Field, e screen.Env) (screen.Field, []screen.Request) {
	v, _ := e.Day()
	row, _ := answer.Find(asks.Row)
	_, _, commands, err := answer.Take(v.State, v.Now, row.Said(asks.Of, line.Text))
	if err != nil {
		line.Wrong = err.Error()
		return line, []screen.Request{screen.Say{Word: line.Wrong}}
	}
	return screen.Field{}, screen.Doing(commands...)
}
