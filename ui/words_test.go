package ui

import (
	"context"
	"regexp"
	"strings"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/ansi"

	"example.org/vatside/testdata/bench/days"
	"example.org/vatside/testdata/bench/words"
	"example.org/vatside/ui/cue"
)

// The benches know the screens by words, all of which are shown in the smallest window that they sit at.
func TestTheWordsOfTheBenches(t *testing.T) {
	for kind, last := range map[string]string{words.Resting: words.Blues, words.Dipping: words.Blues, words.Waiting: words.Liquor} {
		d, err := days.Parse([]byte(played(t, "days/soda-bin", 0))).Upto(kind)
		if err != nil {
			t.Fatal(err)
		}
		name, err := d.EndAt(time.Now().UTC().Add(-30 * time.Second))
		if err != nil {
			t.Fatal(err)
		}
		m := starting(t, homeWith(t, map[string]string{"garden-bin/" + name: string(d.Text())}))
		m.getenv = func(name string) string {
			return map[string]string{"LC_ALL": "C.UTF-8", "TERM": "xterm-256color"}[name]
		}
		m = m.restyled()
		m.width, m.height = 80, 24
		go m.effects.readHome()
		m, next := m.begun(context.Background())
		var is tea.Model = m
		says := func(where string, all ...string) {
			t.Helper()
			m := is.(model)
			text := ansi.Strip(m.View())
			for _, w := range all {
				if !strings.Contains(text, w) {
					t.Errorf("after %q %s does not say %q:\n%s", kind, where, w, text)
				}
			}
		}
		says("the first frame", words.AnyHome, words.OpenDay)
		if kind == words.Resting {
			says("the first frame", words.VatRests)
		}
		for is.(model).reading {
			is, _ = is.Update(next())
		}
		is = seen(t, is.(model), m.effects)
		says("home", words.AnyHome, words.OpenDay)
		keys := func(typed string) {
			for _, r := range typed {
				k := tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{r}}
				if r == '\r' {
					k = tea.KeyMsg{Type: tea.KeyEnter}
				}
				is, _ = is.Update(k)
			}
			is = seen(t, is.(model), m.effects)
		}
		keys("\r")
		says("the day", words.DayName)
		is = advised(t, is.(model), m.effects)
		says("the day", last)
		if times := regexp.MustCompile(words.Times); kind == words.Dipping && !times.MatchString(ansi.Strip(is.View())) {
			t.Errorf("the day does not show %q:\n%s", times, ansi.Strip(is.View()))
		}
		keys("?")
		says("help", words.HelpFoot)
		keys("?l")
		says("the log", words.LogTitle, words.Chosen)
		is, _ = is.Update(tea.KeyMsg{Type: tea.KeyEsc})
		if keys("q"); kind == words.Resting {
			says("leaving", words.Question)
		}
	}
}

// advised waits until the outlook of the open day and its blues are reckoned.
func advised(t *testing.T, m model, h effects) model {
	t.Helper()
	for limit := time.After(10 * time.Second); ; {
		select {
		case s := <-h.eng.Mail():
			next, _ := m.Update(snapshotMsg(s))
			m = next.(model)
			if len(s.Days) > 0 && s.Days[0].Outlook != nil {
				return m
			}
		case <-limit:
			t.Fatal("the day is never reckoned")
		}
	}
}

// That the machine may sleep takes one row of home.
func TestTheWordOfAMachineThatSleeps(t *testing.T) {
	if n := len([]rune(cue.MaySleep)); n > 70 || strings.ContainsAny(cue.MaySleep, "()") {
		t.Errorf("%q has %d characters", cue.MaySleep, n)
	}
}
