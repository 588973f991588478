package ui

import (
	"context"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"

	"example.org/vatside/model/day"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/guard"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/screen/home"
	"example.org/vatside/ui/shelf"
)

// homeWith is a home with files; a path is VAT/DAY.
func homeWith(t testing.TB, files map[string]string) shelf.Home {
	t.Helper()
	dir := t.TempDir()
	for path, text := range files {
		path = filepath.Join(dir, "vats", path+".toml")
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return shelf.Open(dir)
}

// played is a day of testdata up to an event; 0: all of it.
func played(t testing.TB, name string, upTo int) string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("../testdata", name+".toml"))
	if err != nil {
		t.Fatal(err)
	}
	if upTo == 0 {
		return string(text)
	}
	end := regexp.MustCompile(fmt.Sprintf(`(?m)^# end %d .*\n`, upTo)).FindIndex(text)
	if end == nil {
		t.Fatalf("%s has no event %d", name, upTo)
	}
	return string(text[:end[1]])
}

// starting is a program at its start, whose home nobody has read yet.
func starting(t testing.TB, dir shelf.Home) model {
	t.Helper()
	h := effectsOf(t, dir)
	h.beginning = make(beginning, 3)
	m := newModel(Options{Home: dir}, shelf.Defaults(), h)
	m.snap.Wall = engine.Machine{}.Wall()
	return m
}

// over is a time that is over.
func over() context.Context {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	return ctx
}

var runningTime = regexp.MustCompile(`\d+(:\d\d)+`)

// withoutTimes is a text without its times: the machine's clock goes on between two frames.
func withoutTimes(text string) string { return runningTime.ReplaceAllString(text, "0:00") }

func TestTheFirstFrameHasTheCallOfTheOpenDay(t *testing.T) {
	for name, upTo := range map[string][]int{
		"days/soda-bin": {1, 2, 10, 17, 30, 45, 60, 81}, "old/workshop": {3, 40, 120, 200, 240}, "days/sugar-lime-pail": {5, 31}, "old/kept-05-15": {60},
	} {
		for _, n := range upTo {
			dir := homeWith(t, map[string]string{"garden-bin/2026-05-09": played(t, name, n), "pail/2026-05-09": played(t, "days/sugar-lime-pail", 0)})
			m := starting(t, dir)
			go m.effects.readHome()
			first, next := m.begun(context.Background()) // it ends with the glance
			if !first.reading || next == nil {
				t.Fatalf("%s to %d: the first frame waited for the whole home", name, n)
			}
			frame := shown(first)
			whole, _ := first.Update(next())
			snap, err := m.effects.eng.Now(m.effects.ctx)
			if err != nil {
				t.Fatal(err)
			}
			v, ok := snap.Day("garden-bin/2026-05-09")
			if !ok {
				t.Fatalf("%s to %d: the day is not taken up: %s", name, n, shown(whole))
			}
			whole, _ = whole.Update(snapshotMsg(snap))
			act := day.Next(v.State, v.Now)
			call := withoutTimes(strings.Join(strings.Fields(day.NowLine(v.State, v.Now)), " "))
			for _, frame := range []string{frame, shown(whole)} {
				if !strings.Contains(withoutTimes(frame), call) || !strings.Contains(frame, "2 vats") || !strings.Contains(frame, "day open") {
					t.Errorf("%s to %d: %q (%v) is not on it:\n%s", name, n, call, act.Kind, frame)
				}
			}
			if card := first.home.Vats[0]; card.Name != whole.(model).home.Vats[0].Name || card.Recipe != whole.(model).home.Vats[0].Recipe || card.Fill != whole.(model).home.Vats[0].Fill {
				t.Errorf("%s to %d: %+v at first, then %+v", name, n, card, whole.(model).home.Vats[0])
			}
		}
	}
}

func TestAnEmptyHomeIsWholeAtOnce(t *testing.T) {
	m := starting(t, shelf.Open(t.TempDir()))
	go m.effects.readHome()
	first, next := m.begun(context.Background())
	if frame := shown(first); !strings.Contains(frame, "choose a recipe") || !strings.Contains(frame, "no vat yet") {
		t.Fatalf("the first frame:\n%s", frame)
	}
	pressed, _ := first.Update(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune("N")})
	if first.reading && len(pressed.(model).stack) > 1 {
		t.Errorf("a key acts before the recipes are read:\n%s", shown(pressed))
	}
	if first.reading {
		pressed, _ = pressed.Update(next())
	}
	if top := pressed.(model).stack; top[len(top)-1].at != screen.AtSetup {
		t.Errorf("the key that waited was not answered:\n%s", shown(pressed))
	}
}

// A disk that does not answer holds up neither the first frame, nor leaving, nor first aid.
func TestTheFirstFrameDoesNotWaitForTheHome(t *testing.T) {
	m := starting(t, shelf.Open(t.TempDir())) // and nobody reads it
	m, next := m.begun(over())
	frame := shown(m)
	if !strings.Contains(frame, "Reading the vats") || strings.Contains(frame, "no vat") || strings.Contains(frame, "choose a recipe") || next == nil {
		t.Fatalf("the first frame:\n%s", frame)
	}
	for _, k := range []string{" ", "n", "x", "1", "s"} {
		pressed, cmd := m.Update(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(k)})
		if shown(pressed) != frame || cmd != nil {
			t.Errorf("%q acts on a home that nobody has read:\n%s", k, shown(pressed))
		}
	}
	aid, _ := m.Update(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune("!")})
	if top := aid.(model).stack; top[len(top)-1].at != screen.AtAid {
		t.Errorf("first aid waits for the disk:\n%s", shown(aid))
	}
	if _, cmd := m.Update(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune("q")}); cmd == nil {
		t.Error("leaving waits for the disk")
	}
	help, _ := m.Update(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune("?")})
	if shown(help) == frame {
		t.Error("the help waits for the disk")
	}

	// It answers after all, part by part.
	h := m.effects
	go h.readHome()
	var is tea.Model = m
	for is.(model).reading {
		is, _ = is.Update(next())
	}
	if got := shown(is); !strings.Contains(got, "no vat yet") {
		t.Errorf("once it is read:\n%s", got)
	}
}

func TestTheKeyThatCameEarly(t *testing.T) {
	one := screen.Vat{Vat: "bin", Name: "bin", Day: "2026-05-09", Open: true, Line: "step 4 of 16"}
	other := screen.Vat{Vat: "alum", Name: "alum", Day: "2026-05-08", Open: true, Line: "step 1 of 16"}
	for name, c := range map[string]struct {
		glance, whole []screen.Vat
		keys          string
		opens         string // by the key that waited
		word          string
	}{
		"it opens the day that was seen":       {[]screen.Vat{one}, []screen.Vat{one}, " ", "bin/2026-05-09", ""},
		"those after it are not taken":         {[]screen.Vat{one}, []screen.Vat{one}, " n x", "bin/2026-05-09", ""},
		"nor another day in its place":         {[]screen.Vat{one}, []screen.Vat{other, one}, " ", "", "press again"},
		"nor what nobody saw":                  {nil, []screen.Vat{one}, " ", "", ""},
		"nor while help is read":               {[]screen.Vat{one}, []screen.Vat{one}, " ?", "", ""},
		"the day that was seen, beside others": {[]screen.Vat{other}, []screen.Vat{other, one}, " ", "alum/2026-05-08", ""},
	} {
		m := starting(t, shelf.Open(t.TempDir()))
		m, _ = m.begun(over())
		var is tea.Model = m
		is, _ = is.Update(glanceMsg{vats: c.glance, of: 2})
		for _, r := range c.keys {
			var cmd tea.Cmd
			if is, cmd = is.Update(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{r}}); cmd != nil {
				t.Errorf("%s: %q acts before all is read", name, r)
			}
		}
		is, _ = is.Update(homeMsg{vats: c.whole})
		if is.(model).reading || is.(model).waits != nil {
			t.Errorf("%s: it still waits", name)
		}
		if is.(model).help != strings.HasSuffix(c.keys, "?") {
			t.Errorf("%s: help comes or goes", name)
		}
		if got := shown(is); c.word != "" && !strings.Contains(got, c.word) {
			t.Errorf("%s: %q is missing:\n%s", name, c.word, got)
		}
		// The turn to open a day is taken by the key that asked for it, until the answer comes.
		for _, id := range []string{"bin/2026-05-09", "alum/2026-05-08"} {
			if taken := !m.effects.looks.begin(id); taken != (id == c.opens) {
				t.Errorf("%s: %s is opened: %v", name, id, taken)
			}
		}
	}
}

// A row that is clicked early is not clicked once all is read: another one may stand there.
func TestTheRowThatWasClickedEarly(t *testing.T) {
	m := starting(t, shelf.Open(t.TempDir()))
	m, _ = m.begun(over())
	m = m.glanced(glanceMsg{vats: []screen.Vat{{Vat: "bin", Name: "bin", Day: "2026-05-09", Open: true}}, of: 2})
	next, cmd := m.key(screen.Key{Name: "row"})
	if cmd != nil || next.waits != nil {
		t.Error("it waits, or acts at once")
	}
}

// What is not sure of itself waits for the whole home: a closed day, a torn one, one with an event missing, one without a head.
func TestWhatAGlanceDoesNotShow(t *testing.T) {
	whole := played(t, "days/soda-bin", 40)
	for name, text := range map[string]string{
		"closed":        played(t, "days/soda-bin", 0),
		"torn":          whole + "\n[[event]]\nseq = 41\nat = 2026-05-",
		"a gap":         strings.Replace(whole, "\nseq = 20\n", "\nseq = 200\n", 1),
		"a broken head": strings.Replace(whole, "format = 1", "format = one", 1),
		"half a head":   whole[:200],
		"empty":         "",
	} {
		h := effectsOf(t, homeWith(t, map[string]string{"garden-bin/2026-05-09": text}))
		if g := h.glance(); len(g.vats) > 0 || g.of != 1 {
			t.Errorf("%s: %+v", name, g)
		}
	}
	h := effectsOf(t, homeWith(t, map[string]string{"garden-bin/2026-05-09": whole}))
	if g := h.glance(); len(g.vats) != 1 || !g.vats[0].Open {
		t.Errorf("an open day: %+v", g)
	}
	if g := effectsOf(t, shelf.Open(t.TempDir())).glance(); g.of != 0 || g.vats != nil {
		t.Errorf("an empty home: %+v", g)
	}
	file := filepath.Join(t.TempDir(), "file")
	if err := os.WriteFile(file, nil, 0o644); err != nil {
		t.Fatal(err)
	}
	if g := effectsOf(t, shelf.Open(file)).glance(); g.of != -1 {
		t.Errorf("a home that cannot be read: %+v", g)
	}
}

// The settings come with the first frame where they can be read, else later, with their fault.
func TestSettingsAtTheStart(t *testing.T) {
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "settings.toml"), []byte("units = \"us\"\nemergency = \"115\"\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	m := starting(t, shelf.Open(dir))
	go m.effects.readHome()
	first, _ := m.begun(context.Background())
	if s := first.home.Settings; s.Units != "us" || s.Emergency != "115" {
		t.Errorf("%+v", s)
	}
	if err := os.WriteFile(filepath.Join(dir, "settings.toml"), []byte("units = \"ells\"\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	m = starting(t, shelf.Open(dir))
	go m.effects.readHome()
	first, _ = m.begun(context.Background())
	if got := shown(first); !strings.Contains(got, "units is") || first.home.Settings.Units != "metric" {
		t.Errorf("the fault of the settings is not told:\n%s", got)
	}
}

func TestTheFirstOfHome(t *testing.T) {
	m := newModel(Options{}, shelf.Defaults(), effectsOf(t, shelf.Open(t.TempDir())))
	if home.First(m.env()) != "" {
		t.Error("a home without vats has a first one")
	}
}

// A glance at a home of three vats, of which one has an open day of 240 events, and the whole home. There are more homes than
// the shelf keeps days in mind, so that each is understood anew, as at the start.
func BenchmarkStart(b *testing.B) {
	files := map[string]string{"class-vat/2026-05-16": played(b, "old/workshop", 240), "pail/2026-05-09": played(b, "days/sugar-lime-pail", 0)}
	for _, d := range []string{"03-02", "03-24", "05-12", "05-15", "05-30"} {
		files["kept-bin/2026-"+d] = played(b, "old/kept-"+d, 0)
	}
	var homes []effects
	for range 10 {
		homes = append(homes, effectsOf(b, homeWith(b, files)))
	}
	b.Run("glance", func(b *testing.B) {
		for i := 0; b.Loop(); i++ {
			if g := homes[i%len(homes)].glance(); len(g.vats) != 1 || g.of != 3 {
				b.Fatalf("%+v", g)
			}
		}
	})
	b.Run("whole", func(b *testing.B) {
		for i := 0; b.Loop(); i++ {
			if msg := homes[i%len(homes)].load(false)().(homeMsg); len(msg.vats) != 3 {
				b.Fatalf("%+v", msg)
			}
		}
	})
}

// A part of the reading that fails by the program's own fault is told, and leaves no home that is read for ever.
func TestTheReadingOfTheHomeFails(t *testing.T) {
	defer guard.Inject(nil)
	for where, word := range map[string]string{"glance": "", "command": "an error of the program's own"} {
		m := starting(t, homeWith(t, map[string]string{"garden-bin/2026-05-09": played(t, "days/soda-bin", 40)}))
		guard.Inject(func(at string) {
			if at == where {
				panic(guard.ErrInjected)
			}
		})
		m.effects.readHome()
		guard.Inject(nil)
		var is tea.Model = m
		next := m.effects.next()
		is, _ = is.Update(next())
		is, _ = is.Update(next())
		is, _ = is.Update(next())
		if got := shown(is); is.(model).reading || !strings.Contains(got, word) || (where == "glance") != strings.Contains(got, "Garden bin") {
			t.Errorf("%s fails:\n%s", where, got)
		}
	}
}

// The home is whole once it is read and the engine has told of the days that it took up: not before, and also where there is none, or
// none that can be taken up.
func TestWhenTheHomeIsWhole(t *testing.T) {
	run := screen.Vat{Vat: "bin", Day: "2026-05-09", Open: true}
	broken := run
	broken.Trouble = "it cannot be read"
	for name, c := range map[string]struct {
		vats    []screen.Vat
		reading bool
		days    int
		want    bool
	}{
		"not read":                 {[]screen.Vat{run}, true, 1, false},
		"read, not taken up yet":   {[]screen.Vat{run}, false, 0, false},
		"taken up":                 {[]screen.Vat{run}, false, 1, true},
		"no vat":                   {nil, false, 0, true},
		"none that is taken up":    {[]screen.Vat{broken, {Vat: "pail"}}, false, 0, true},
		"one of two is taken up":   {[]screen.Vat{broken, run}, false, 0, false},
		"no vat, and not read yet": {nil, true, 0, false},
	} {
		m := model{reading: c.reading}
		m.home.Vats, m.snap.Days = c.vats, make([]engine.View, c.days)
		if m.whole() != c.want {
			t.Errorf("%s: whole is %v", name, m.whole())
		}
	}
}

// Before main little is made: what takes time to make is made when it is first needed.
func TestLittleIsMadeBeforeMain(t *testing.T) {
	if testing.CoverMode() != "" {
		t.Skip("what is counted is made too")
	}
	cmd := exec.Command(os.Args[0], "-test.run=^$")
	cmd.Env = append(os.Environ(), "GODEBUG=inittrace=1")
	out, err := cmd.CombinedOutput()
	if err != nil {
		t.Fatal(err)
	}
	made := regexp.MustCompile(`(?m)^init (example\.org/vatside/\S+) .* (\d+) bytes`).FindAllStringSubmatch(string(out), -1)
	if len(made) < 10 {
		t.Fatalf("what is made cannot be read:\n%s", out)
	}
	for _, m := range made {
		most := 8 << 10
		if m[1] == "example.org/vatside/model/book" {
			most = 14 << 10 // its kinds of events: an open day needs them for the first frame
		}
		tests := strings.Contains(m[1], "/testdata/") || slices.Contains([]string{"example.org/vatside/ui", "example.org/vatside/ui/screentest"}, m[1])
		if n, _ := strconv.Atoi(m[2]); n > most && !tests {
			t.Errorf("%s makes %d bytes before main, and may make %d", m[1], n, most)
		}
	}
}
