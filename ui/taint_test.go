package ui

import (
	"fmt"
	"strings"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"example.org/vatside/model/day"
	"example.org/vatside/model/load"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/wording"
	"example.org/vatside/testdata/homes"
	"example.org/vatside/testdata/long"
	"example.org/vatside/ui/cue"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/screen/timetable"
	"example.org/vatside/ui/screentest"
	"example.org/vatside/ui/shelf"
	"example.org/vatside/ui/style"
)

// places are all the screens.
var places = []screen.Place{screen.AtHome, screen.AtSetup, screen.AtDay, screen.AtPiece, screen.AtLog, screen.AtCourse, screen.AtPlan, screen.AtLadder,
	screen.AtTable, screen.AtDose, screen.AtSigns, screen.AtCare, screen.AtBench, screen.AtAid, screen.AtUnsaid, screen.AtPrepare, screen.AtStock, screen.AtCost}

// Whatever stands in the files of a home, no screen and no title of the window shows what a terminal would obey, at any time of
// a day, in any look and however it is walked through; and the words themselves are still there.
func TestNoFileSteersTheScreens(t *testing.T) {
	t.Parallel()
	dir, _ := homes.Tainted(t, "..")
	home := shelf.Open(dir)
	h := effectsOf(t, home)
	msg := h.load(false)().(homeMsg)
	if len(msg.vats) < 4 || !strings.Contains(msg.word, screentest.TaintMark) {
		t.Fatalf("home is %d vats, %q", len(msg.vats), msg.word)
	}
	seen := map[screen.Place]bool{}
	titles, boards := 0, 0
	tins := stockMsg(h.stock(msg.vats))
	look := func(m model, where string) {
		for _, size := range [][2]int{{80, 24}, {120, 40}} {
			m.width, m.height = size[0], size[1]
			view := m.View()
			if bad := screentest.Unshowable(view, true); bad != "" {
				t.Errorf("%s at %v: %s", where, size, bad)
			}
			if size[0] == 80 && m.style.Profile != style.NoColour { // of this terminal nothing is known
				onOwnGround(t, where, view)
			}
			if strings.Contains(view, screentest.TaintMark) {
				seen[m.stack[len(m.stack)-1].at] = true
			}
		}
	}
	for _, card := range msg.vats {
		id := card.Vat + "/" + card.Day
		b, err := home.ReadDay(card.Vat, card.Day)
		if b.HeadErr != nil {
			continue
		}
		if err != nil || len(b.Events) < 5 {
			t.Fatalf("%s: %v", id, err)
		}
		past := h.past(card.Vat)().(pastMsg)
		costs := h.costs(card.Vat, shelf.Settings{GoingOn: true})().(costMsg)
		care := careMsg{card.Vat: h.cares.Of(h.home, card.Vat)}
		times := 2
		if strings.HasPrefix(card.Vat, "yard") {
			times = long.Of(8, 3)
		}
		for i := 1; i <= len(b.Events); i += max(1, len(b.Events)/times) {
			s, _ := day.Replay(b.Head, b.Events[:i])
			now := b.Events[i-1].At.Add(time.Minute)
			o := outlook.Of(s, now)
			blues := outlook.Blues(s, o, now)
			view := engine.View{ID: id, State: s, Now: now, Saved: i, Trouble: map[bool]string{true: screentest.Taint}[i == 1], Outlook: &o, Blue: &blues}
			if !o.Empty {
				table := outlook.Timetable(s, o, blues, load.Plan{}, now, 10_000)
				view.Table = &table
			}
			view = view.At(now) // the call is reckoned once, for all screens
			snap := engine.Snapshot{Wall: now, Days: []engine.View{view}}
			board := timetable.Page(view).Page("").String()
			if bad := screentest.Unshowable(board, false); bad != "" {
				t.Errorf("%s, event %d: the board has %s", id, i, bad)
			}
			if strings.Contains(board, screentest.TaintMark) {
				boards++
			}
			words := wording.Show(titleOf(engine.Snapshot{Wall: now, Days: []engine.View{view, view}})).String() // with the vat's name
			if bad := screentest.Unshowable(words, false); bad != "" {
				t.Errorf("%s, event %d: the title is written as %q", id, i, words)
			}
			if strings.Contains(words, screentest.TaintMark) {
				titles++
			}
			envs := []map[string]string{{"COLORTERM": "truecolor"}}
			if i == 1 {
				envs = append(envs, map[string]string{"TERM": "dumb", "NO_COLOR": "1"})
			}
			for _, env := range envs {
				m := newModel(Options{Home: home, Getenv: func(k string) string { return env[k] }}, shelf.Defaults(), h)
				for _, msg := range []tea.Msg{snapshotMsg(snap), msg, tins, care} {
					next, _ := m.Update(msg)
					m = next.(model)
				}
				look(m, "home with its word")
				m.word = ""
				for _, at := range places {
					m := m
					tag := ""
					if n := len(s.Pieces); n > 0 {
						tag = s.Pieces[i%n].Tag
					}
					if at != screen.AtHome {
						m = m.push(at, id, tag)
					}
					for _, msg := range []tea.Msg{past, costs} {
						next, _ := m.Update(msg)
						m = next.(model)
					}
					m.word = ""
					look(m, fmt.Sprintf("%s of %s after event %d", at, id, i))
					for _, k := range []screen.Key{{Name: "down"}, {Rune: '?'}, {Rune: 'x'}, {Name: "tab"}, {Rune: '1'}, {Name: "right"}, {Rune: 'a'}, {Name: "enter"}} {
						next, _ := m.key(k)
						m = next
						look(m, fmt.Sprintf("%s of %s after event %d and %v", at, id, i, k))
					}
				}
			}
		}
	}
	for _, at := range places {
		if !seen[at] && at != screen.AtAid {
			t.Errorf("on %s the words are never seen", at)
		}
	}
	if boards == 0 {
		t.Error("on no board the words are seen")
	}
	if titles == 0 {
		t.Error("in no title the words are seen")
	}
}

// What is pasted or typed and cannot be shown is not taken, and the screen says so; the rest of it is.
func TestWhatCannotBeShownIsNotTyped(t *testing.T) {
	m := newModel(Options{}, shelf.Defaults(), effects{player: cue.New(cue.Settings{}, nil, nil)})
	m = m.push(screen.AtStock, "", "")
	next, _ := m.key(screen.Key{Rune: 'n'})
	next, _ = next.keys(tea.KeyMsg{Type: tea.KeyRunes, Paste: true, Runes: []rune("soda\x1b]52;c;\a\u202e-ash\u009b")})
	view := next.View()
	if !strings.Contains(view, "soda]52;c;-ash") || !strings.Contains(strings.Join(strings.Fields(view), " "), "U+009B cannot be shown and is not taken") {
		t.Errorf("%s", view)
	}
	if bad := screentest.Unshowable(view, true); bad != "" {
		t.Error(bad)
	}
}
