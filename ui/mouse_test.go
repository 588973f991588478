package ui

import (
	"reflect"
	"slices"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/ansi"

	"example.org/vatside/model/day"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/shelf"
)

// A click on the fourth recipe chooses the fourth, not the one under the cursor.
func TestAClickOnARecipeChoosesIt(t *testing.T) {
	h := effectsOf(t, shelf.Open(t.TempDir()))
	m := scene{at: screen.AtSetup, view: happened(t, false), keys: ""}.open(clickable(h, happened(t, false)))
	recipe := m.home.Recipes[3].Name
	lines := strings.Split(ansi.Strip(m.View()), "\n")
	y := slices.IndexFunc(lines, func(l string) bool { return strings.Contains(l, "4  "+recipe) })
	if y < 0 {
		t.Fatalf("%q is not listed:\n%s", recipe, m.View())
	}
	next, _ := m.Update(leftAt(strings.Index(lines[y], recipe), y))
	if view := shown(next); !strings.Contains(view, "question 2 of") || !strings.Contains(view, strings.ToLower(recipe)) {
		t.Errorf("after a click on %q:\n%s", recipe, next.View())
	}
}

// The digits of a strip's stopwatch are the strip's, though Enter is the call's: a click on them writes the test down.
func TestAClickOnAStripStopsIt(t *testing.T) {
	h := effectsOf(t, shelf.Open(t.TempDir()))
	v := happened(t, true, day.StripBegun{})
	m := scene{at: screen.AtDay, view: v}.open(clickable(h, v))
	lines := strings.Split(ansi.Strip(m.View()), "\n")
	y := slices.IndexFunc(lines, func(l string) bool { return strings.Contains(l, "the strip is yellow") })
	if y < 0 {
		t.Fatalf("no strip is watched:\n%s", m.View())
	}
	got, _ := m.Update(leftAt(9, y-2))
	want, _ := m.key(screen.Key{Rune: 't'})
	if !reflect.DeepEqual(bare(got), bare(want)) || bare(got).acting != 1 {
		t.Errorf("a click on its digits:\n%s", got.View())
	}
}

// What a mouse does besides the left button going down is nothing, but for the wheel.
func TestOtherButtonsDoNothing(t *testing.T) {
	h := effectsOf(t, shelf.Open(t.TempDir()))
	m := clickable(h, happened(t, false))
	for _, msg := range []tea.MouseMsg{
		{Action: tea.MouseActionRelease, Button: tea.MouseButtonLeft}, {Action: tea.MouseActionRelease}, {Action: tea.MouseActionMotion, Button: tea.MouseButtonLeft},
		{Action: tea.MouseActionPress, Button: tea.MouseButtonMiddle}, {Action: tea.MouseActionPress, Button: tea.MouseButtonRight},
		{Action: tea.MouseActionPress, Button: tea.MouseButtonWheelLeft}, {Action: tea.MouseActionPress, Button: tea.MouseButtonBackward},
	} {
		for y := range m.height {
			msg.X, msg.Y = 6, y
			if next, cmd := m.Update(msg); cmd != nil || !reflect.DeepEqual(bare(next), bare(m)) {
				t.Fatalf("%v does something:\n%s", msg, next.View())
			}
		}
	}
}

// The wheel goes along a list and the help page as the arrow keys do, and never changes what the next press would do at the vat.
func TestTheWheel(t *testing.T) {
	h := effectsOf(t, shelf.Open(t.TempDir()))
	goes := map[string]bool{
		"home": true, "settings": true, "settings, further down": true, "fibres": true, "depths": true, "forms": true, "log": true, "ladder": true, "timetable": true,
		"board": true, "what if": true, "scoured?": true, "checklist": true, "powders": true, "cost": true, "help": true,
	}
	for _, s := range scenes(t) {
		m := clickable(h, s.view)
		m.height = 20
		m = s.open(m)
		for button, name := range map[tea.MouseButton]string{tea.MouseButtonWheelUp: "up", tea.MouseButtonWheelDown: "down"} {
			got, _ := m.Update(tea.MouseMsg{X: 9, Y: 9, Action: tea.MouseActionPress, Button: button})
			want := tea.Model(m)
			if goes[s.name] {
				want, _ = m.key(screen.Key{Name: name})
			}
			if !reflect.DeepEqual(bare(got).stack, bare(want).stack) || bare(got).helpFrom != bare(want).helpFrom {
				t.Errorf("%s: the wheel is not %q:\n%s", s.name, name, got.View())
			}
		}
	}
	m := clickable(h, happened(t, false))
	m.word = "a refusal"
	if next, _ := m.Update(tea.MouseMsg{Action: tea.MouseActionPress, Button: tea.MouseButtonWheelDown}); bare(next).word != "a refusal" {
		t.Error("the wheel takes a word away")
	}
}

// With the setting for it a click is the call's press wherever it is; on first aid only on the call itself.
func TestAClickAnywhereIsTheCalls(t *testing.T) {
	h := effectsOf(t, shelf.Open(t.TempDir()))
	for _, s := range scenes(t) {
		m := s.open(clickable(h, s.view))
		m.home.Settings.Click = shelf.ClickAnywhere
		name := callKey
		if s.at == screen.AtAid {
			name = "enter"
		}
		want, _ := m.key(screen.Key{Name: name})
		for _, at := range [][2]int{{0, 0}, {6, 12}, {79, 23}} {
			if got, _ := m.Update(leftAt(at[0], at[1])); !reflect.DeepEqual(bare(got), bare(want)) {
				t.Errorf("%s: a click at %v is not the press:\n%s\nbut\n%s", s.name, at, got.View(), want.View())
			}
		}
	}
}
