package ui

import (
	"os"
	"path/filepath"
	"slices"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"example.org/vatside/model/day"
	"example.org/vatside/model/load"
	"example.org/vatside/model/outlook"
	"example.org/vatside/testdata/long"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/library"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/shelf"
	"example.org/vatside/ui/terminal"
	"example.org/vatside/ui/widget"
)

// playedBin is the played day of testdata/days, with the shelf that it lies on.
func playedBin(t testing.TB) (home shelf.Home, id string, h day.Head, events []day.Event) {
	t.Helper()
	dir := t.TempDir()
	text, err := os.ReadFile("../testdata/days/soda-bin.toml")
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(dir, "vats/garden-bin/2026-05-09.toml")
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, text, 0o644); err != nil {
		t.Fatal(err)
	}
	home = shelf.Open(dir)
	b, err := home.ReadDay("garden-bin", "2026-05-09")
	if err != nil {
		t.Fatal(err)
	}
	return home, "garden-bin/2026-05-09", b.Head, b.Events
}

// While no time of a day runs the engine shows a new moment each few seconds only: a screen with a figure that counts for itself
// says so. Every screen is asked, at several moments of a day, after each key, but for the timetable: a column of its picture is
// minutes wide, and begins now.
func TestAScreenThatCountsSaysSo(t *testing.T) {
	home, id, head, events := playedBin(t)
	hand := effectsOf(t, home)
	msg := hand.load(false)().(homeMsg)
	var keys []screen.Key
	for _, r := range "abcdefghijklmnoprstuvwxyzHI0123456789+_" {
		keys = append(keys, screen.Key{Rune: r})
	}
	for _, name := range []string{"enter", "tab", "up", "down", "left", "right", "pgup", "pgdown", "esc"} {
		keys = append(keys, screen.Key{Name: name})
	}
	calm, counted := 0, map[screen.Place]bool{}
	for i := range 2 * len(events) {
		watched := i >= len(events)
		i %= len(events)
		s, _ := day.Replay(head, events[:i+1])
		if len(day.Dues(s)) > 0 || i%long.Of(6, 12) != 0 || watched && i%24 != 0 {
			continue
		}
		if watched { // the same with a strip out
			s, _ = day.Apply(s, day.Event{Seq: s.Seq + 1, At: s.At, Body: day.StripBegun{}})
		}
		calm++
		now := events[i].At.Truncate(time.Minute).Add(80*time.Second + 300*time.Millisecond)
		o := outlook.Of(s, now)
		b := outlook.Blues(s, o, now)
		view := engine.View{ID: id, State: s, Now: now, Saved: i + 1, Outlook: &o, Blue: &b}.At(now)
		if !o.Empty {
			table := outlook.Timetable(s, o, b, load.Plan{}, now, 10_000)
			view.Table = &table
		}
		soon := view
		soon.Now = now.Add(4 * time.Second)
		views := map[time.Duration]engine.View{0: view, 4 * time.Second: soon.At(soon.Now)} // the call of each is reckoned once, for all screens
		at := func(m model, by time.Duration) model {
			v := views[by]
			m.snap = engine.Snapshot{Wall: v.Now, Days: []engine.View{v}, Resting: true}
			return m
		}
		for _, place := range places {
			fresh := newModel(Options{Home: home}, shelf.Defaults(), effects{player: hand.player, cares: &library.Cares{}, looks: &looks{}})
			fresh = at(fresh, 0)
			next, _ := fresh.Update(msg)
			if fresh = next.(model); place != screen.AtHome {
				fresh = fresh.push(place, id, "A1")
			}
			ways := [][]screen.Key{{}}
			for _, k := range keys {
				ways = append(ways, []screen.Key{k})
			}
			if place == screen.AtAid {
				ways = append(ways, []screen.Key{{Rune: '1'}, {Name: "space", Rune: ' '}}, []screen.Key{{Rune: '1'}, {Name: "space", Rune: ' '}, {Rune: '5'}})
			}
			for _, way := range ways {
				m := fresh
				for _, k := range way {
					next, _ := m.key(k)
					m = next
				}
				m.word, m.fades = "", time.Time{}
				m = at(m, 0) // a key may have brought a newer one
				top := m.stack[len(m.stack)-1].at
				if top == screen.AtTable || at(m, 4*time.Second).View() == m.View() {
					continue
				}
				if !m.counts() {
					t.Errorf("after event %d %s, opened as %s, counts after %v and does not say so", i+1, top, place, way)
				}
				counted[top] = true
			}
		}
	}
	for _, place := range []screen.Place{screen.AtDay, screen.AtDose, screen.AtSigns, screen.AtAid} {
		if !counted[place] {
			t.Errorf("%s never counts, at %d moments", place, calm)
		}
	}
}

// A key is answered at its own moment, though what is shown is some seconds old.
func TestAKeyIsAnsweredAtItsMoment(t *testing.T) {
	home := shelf.Open(t.TempDir())
	h, _ := first(t, home)
	h.act(t, day.Skip{Reason: "warm already"})
	h.act(t, day.Judge{Ready: true})
	snap, err := h.eng.Now(h.ctx)
	if err != nil || !snap.Resting {
		t.Fatalf("nothing runs, and the engine rests %v: %v", snap.Resting, err)
	}
	const old = 9 * time.Second
	snap.Wall, snap.Days[0].Now = snap.Wall.Add(-old), snap.Days[0].Now.Add(-old)
	m := guarded{newModel(Options{Home: home}, shelf.Defaults(), h)}
	m.model = m.push(screen.AtDay, garden, "")
	press := func(msg tea.Msg) tea.Cmd {
		next, cmd := m.Update(msg)
		m = next.(guarded)
		return cmd
	}
	strip := tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune("t")}
	press(snapshotMsg(snap))
	key := func(msg tea.Msg) day.Event {
		t.Helper()
		if cmd := press(msg); cmd == nil {
			t.Fatal("the key does nothing")
		} else {
			cmd()
		}
		if snap, err = h.eng.Now(h.ctx); err != nil {
			t.Fatal(err)
		}
		log := snap.Days[0].State.Log
		return log[len(log)-1]
	}
	began := key(strip)
	if _, ok := began.Body.(day.StripBegun); !ok || snap.Wall.Sub(began.At).Abs() >= old || snap.Resting {
		t.Errorf("a strip is pulled: %+v, and the engine rests %v", began, snap.Resting)
	}
	snap.Wall, snap.Days[0].Now = snap.Wall.Add(-old), snap.Days[0].Now.Add(-old)
	press(snapshotMsg(snap))
	if e := key(tea.KeyMsg{Type: tea.KeyPgUp}); e.Body != (day.Corrected{Of: began.Seq, Way: "undone"}) {
		t.Errorf("taken back it is %+v", e.Body)
	}
	press(snapshotMsg(snap))
	if snap, err = h.eng.Now(h.ctx); err != nil || !snap.Resting {
		t.Errorf("no strip is watched, and the engine rests %v: %v", snap.Resting, err)
	}
}

// countdowns are moments of the played day at which a time is counted down.
var countdowns = map[string]func(day.State) bool{
	"wait": func(s day.State) bool { st, ok := s.Open(); return ok && st.Waits() },
	"dips": func(s day.State) bool { return len(s.InVat()) == 2 },
	"air": func(s day.State) bool {
		return len(s.InVat()) == 0 && slices.ContainsFunc(s.Pieces, func(p day.Piece) bool { return p.Phase == day.Airing })
	},
}

// counting is the root as it shows the day's own screen at such a moment, and what the engine tells each second from then on.
func counting(t testing.TB, is func(day.State) bool) (shown tea.Model, next func() engine.Snapshot) {
	home, id, head, events := playedBin(t)
	n := 1 + slices.IndexFunc(events, func(e day.Event) bool {
		s, _ := day.Replay(head, events[:e.Seq])
		return is(s)
	})
	s, _ := day.Replay(head, events[:n])
	now := s.At
	o := outlook.Of(s, now)
	blues := outlook.Blues(s, o, now)
	v := engine.View{ID: id, State: s, Now: now, Saved: n, Pace: 1, Outlook: &o, Blue: &blues}.At(now)
	next = func() engine.Snapshot {
		now = now.Add(time.Second)
		v = v.At(now)
		return engine.Snapshot{Wall: now, Days: []engine.View{v}}
	}
	colours := map[string]string{"COLORTERM": "truecolor", "LANG": "C.UTF-8"}
	m := newModel(Options{Home: home, Getenv: func(k string) string { return colours[k] }}, shelf.Defaults(), effectsOf(t, home))
	m.snap = next()
	return guarded{m.push(screen.AtDay, id, "")}, next
}

// A screen that has been shown for hours looks as if it were opened now, whatever of it is kept from second to second.
func TestWhatIsKeptIsNeverOld(t *testing.T) {
	for name, is := range countdowns {
		shown, next := counting(t, is)
		shown, _ = shown.Update(tea.WindowSizeMsg{Width: 120, Height: 40})
		top := shown.(guarded).stack[1]
		for range long.Of(3600, 4*3600) {
			snap := next()
			shown, _ = shown.Update(snapshotMsg(snap))
			if second := snap.Wall.Second(); second > 2 && second != snap.Wall.Minute() { // these stand for a minute
				continue
			}
			fresh := shown.(guarded).model
			fresh.feet, fresh.frames, fresh.stack = &screen.Feet{}, &widget.Frames{}, fresh.stack[:1]
			if got, want := shown.View(), fresh.push(screen.AtDay, top.day, "").View(); got != want {
				t.Fatalf("%s, %s:\n%s\nand not\n%s", name, snap.Wall.Format(time.TimeOnly), got, want)
			}
		}
	}
}

// A second of a running countdown is few bytes for the terminal: 500 on average, of ten.
func TestASecondIsFewBytes(t *testing.T) {
	for name, is := range countdowns {
		shown, next := counting(t, is)
		var painter terminal.Painter
		written := 0
		for second := range 11 {
			shown, _ = shown.Update(snapshotMsg(next()))
			if out := painter.Paint(shown.(guarded).lines(), 80, 24); second > 0 {
				written += len(out)
			}
		}
		if written == 0 || written >= 10*500 {
			t.Errorf("%s: ten seconds are %d bytes", name, written)
		}
	}
}

// A second asks the day once, whoever shows its call: else there would be hundreds of allocations more. While dips run the times under the
// cloths are drawn anew too.
func TestASecondIsLittleWork(t *testing.T) {
	for name, most := range map[string]float64{"wait": 115, "dips": 190, "air": 240} {
		shown, next := counting(t, countdowns[name])
		second := func() {
			snap := next()
			titleOf(snap)
			shown, _ = shown.Update(snapshotMsg(snap))
			shown.(guarded).lines()
		}
		second()
		if n := testing.AllocsPerRun(50, second); n > most {
			t.Errorf("%s: a second allocates %v times, and may %v times", name, n, most)
		}
	}
}

// A page of help is set once, not once for each height that its columns might have.
func TestHelpIsLittleWork(t *testing.T) {
	shown, _ := counting(t, countdowns["air"])
	key := '?'
	if n := testing.AllocsPerRun(50, func() {
		shown, _ = shown.Update(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{key}})
		shown.(guarded).lines()
		key = '?' + 'x' - key
	}); n > 1000 {
		t.Errorf("help on or off allocates %v times", n)
	}
}

// BenchmarkSecond is what a second of a running countdown asks of the screens: the title, the snapshot and a frame.
func BenchmarkSecond(b *testing.B) {
	for name, is := range countdowns {
		b.Run(name, func(b *testing.B) {
			shown, next := counting(b, is)
			for b.Loop() {
				snap := next()
				titleOf(snap)
				shown, _ = shown.Update(snapshotMsg(snap))
				shown.(guarded).lines()
			}
		})
	}
}
