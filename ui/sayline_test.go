package ui

import (
	"errors"
	"fmt"
	"reflect"
	"slices"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/ansi"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/ui/answer"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/shelf"
)

// inMemory is a disk that takes all.
type inMemory struct{}

func (inMemory) Append(day.Event) error { return nil }
func (inMemory) Close() error           { return nil }

// talk is a day that is open in an engine, with a clock set by hand and the root over it.
type talk struct {
	h   effects
	led *engine.Led
	now time.Time
	m   model
}

const spoken = "bin/2026-03-28"

func talking(t *testing.T, h effects, v engine.View, at screen.Place) *talk {
	t.Helper()
	k := &talk{h: h, led: engine.NewLed(v.Now), now: v.Now}
	k.led.Set(v.Now)
	if _, err := h.eng.Open(h.ctx, engine.Opening{ID: spoken, Head: v.State.Head, Events: v.State.Log, Writer: inMemory{}, Source: k.led}); err != nil {
		t.Fatal(err)
	}
	k.m = clickable(h, v)
	k.m.snap.Days[0] = k.view()
	k.m = k.m.push(at, spoken, "")
	return k
}

// view is the day as the engine has it.
func (k *talk) view() engine.View {
	snap, _ := k.h.eng.Now(k.h.ctx)
	v, _ := snap.Day(spoken)
	return v
}

// log is the day's events.
func (k *talk) log() []day.Event { return k.view().State.Log }

// ahead is the machine whose monotonic clock is ahead by what a test skipped.
type ahead struct{ engine.Machine }

var skipped atomic.Int64

func (a ahead) Mono() time.Duration { return a.Machine.Mono() + time.Duration(skipped.Load()) }

// later lets time go by, of the day and of the machine.
func (k *talk) later(by time.Duration) {
	k.now = k.now.Add(by)
	k.led.Set(k.now)
	skipped.Add(int64(by))
	k.m.snap.Days = []engine.View{k.view()}
}

// presses hands keys to the root, and back what its commands answer.
func (k *talk) presses(keys ...screen.Key) {
	for _, key := range keys {
		next, cmd := k.m.key(key)
		k.m = next
		k.answers(cmd)
	}
}

func (k *talk) answers(cmd tea.Cmd) {
	if cmd == nil {
		return
	}
	msg := cmd()
	k.m.snap.Days = []engine.View{k.view()}
	for _, c := range commandsIn(msg) {
		k.answers(c)
	}
	if said, ok := msg.(saidMsg); ok {
		next, _ := k.m.Update(said)
		k.m = next.(model)
	}
}

func (k *talk) types(line string) {
	for _, r := range line {
		k.presses(screen.Key{Rune: r})
	}
}

func (k *talk) line() sayLine { return k.m.stack[len(k.m.stack)-1].say }

func (k *talk) shown() string { return inWords(k.m) }

var enterKey, escKey = screen.Key{Name: "enter"}, screen.Key{Name: "esc"}

// bodies are what events say, without their times.
func bodies(log []day.Event) (out []day.Body) {
	for _, e := range log {
		out = append(out, e.Body)
	}
	return out
}

// What each row's example says, typed in the line, is in the book what plain mode writes of it, with its caution answered, and a
// refusal is the same sentence.
func TestTheLineSaysWhatPlainModeSays(t *testing.T) {
	h := effectsOf(t, shelf.Open(t.TempDir()))
	wrote, refused := 0, 0
	for _, v := range []engine.View{dipping(t), happened(t, false)} {
		for _, r := range answer.Rows() {
			if r.Asks() || r.Example == "" {
				continue
			}
			k := talking(t, h, v, screen.AtLog)
			before := len(k.log())
			at := k.view()
			_, _, commands, want := answer.Take(at.State, at.Now, r.Example)
			for _, c := range commands { // as plain mode does them, the caution answered
				if want != nil {
					break
				}
				_, want = h.eng.Do(h.ctx, spoken, c)
				if pending := (*day.Pending)(nil); errors.As(want, &pending) {
					_, want = h.eng.Do(h.ctx, spoken, day.Answered{Command: c})
				}
			}
			plain := bodies(k.log()[before:])
			if err := h.eng.Leave(h.ctx, spoken); err != nil {
				t.Fatal(err)
			}

			k = talking(t, h, v, screen.AtLog)
			k.types(":" + r.Example)
			k.presses(enterKey)
			for range 3 {
				if k.line().caution == "" {
					break
				}
				k.later(time.Second)
				k.presses(enterKey)
			}
			said, wrong := bodies(k.log()[before:]), k.line().typing.Wrong
			if !reflect.DeepEqual(untimed(said), untimed(plain)) {
				t.Errorf("%s, %q: the line writes %#v, plain mode %#v", r.ID, r.Example, said, plain)
			}
			if (want != nil) != (wrong != "") || want != nil && !strings.HasPrefix(wrong, strings.TrimSuffix(want.Error(), ".")) {
				t.Errorf("%s, %q: the line says %q, plain mode %v", r.ID, r.Example, wrong, want)
			}
			if wrote += min(1, len(said)); want != nil {
				refused++
			}
			if err := h.eng.Leave(h.ctx, spoken); err != nil {
				t.Fatal(err)
			}
		}
	}
	if wrote < 40 || refused < 5 {
		t.Errorf("only %d lines were written and %d refused", wrote, refused)
	}
}

// untimed are bodies as the log tells them, without the times in them: a second goes by between a caution and its answer.
func untimed(bodies []day.Body) (out []string) {
	for _, b := range bodies {
		out = append(out, b.Kind()+": "+b.Sentence(quantity.Metric))
	}
	return out
}

// The line shows what it will be taken for; a caution stands over it, is not answered within a second, and other words leave it.
func TestTheLineShowsAndAsks(t *testing.T) {
	k := talking(t, effectsOf(t, shelf.Open(t.TempDir())), dipping(t), screen.AtPlan)
	n := len(k.log())
	k.types(":36 C")
	if got := k.shown(); !strings.Contains(got, "taken as: the vat reads 36 °C") || !strings.Contains(got, "A1 IN, out in") || len(k.log()) != n {
		t.Fatalf("while it is typed:\n%s", got)
	}
	k.presses(escKey)
	if k.line().on() || len(k.log()) != n || k.m.stack[len(k.m.stack)-1].at != screen.AtPlan {
		t.Fatal("esc does not close it alone")
	}

	k = talking(t, effectsOf(t, shelf.Open(t.TempDir())), happened(t, true), screen.AtCare)
	n = len(k.log())
	k.types(":give reducer 20 g")
	k.presses(enterKey)
	if got := k.shown(); !strings.Contains(got, "CAUTION") || len(k.log()) != n {
		t.Fatalf("no caution:\n%s", got)
	}
	k.presses(enterKey)
	if got := k.shown(); !strings.Contains(got, "too soon") || !strings.Contains(got, "CAUTION") || len(k.log()) != n {
		t.Fatalf("at once:\n%s", got)
	}
	k.types(" ")
	k.later(2 * time.Second)
	k.presses(enterKey) // other words: it is asked again
	if k.line().caution == "" || len(k.log()) != n {
		t.Fatalf("other words answer a caution:\n%s", k.shown())
	}
	k.later(2 * time.Second)
	k.presses(enterKey)
	if k.line().on() || !strings.Contains(k.m.word, "20 g of sodium dithionite went into the vat") || !slices.ContainsFunc(k.log()[n:], func(e day.Event) bool { return e.Body.Kind() == "powder added" }) {
		t.Errorf("it is not done: %q, %q\n%s", k.m.word, k.line().typing.Wrong, k.shown())
	}
}

// A question goes to the place that answers it, first aid comes before the line and keeps it, and what is pasted is text in it.
func TestTheLineAsks(t *testing.T) {
	k := talking(t, effectsOf(t, shelf.Open(t.TempDir())), dipping(t), screen.AtDay)
	k.types(":log")
	k.presses(enterKey)
	if top := k.m.stack[len(k.m.stack)-1]; top.at != screen.AtLog || top.say.on() || k.m.stack[len(k.m.stack)-2].say.on() {
		t.Fatalf("log leads to %s", top.at)
	}
	k.types(":ab!")
	if top := k.m.stack[len(k.m.stack)-1]; top.at != screen.AtAid || top.say.on() {
		t.Fatalf("! leads to %s", top.at)
	}
	k.m.stack = k.m.stack[:len(k.m.stack)-1]
	next, _ := k.m.pasted([]rune("c\n?q"))
	if k.m = next; k.line().typing.Text != "abc ?q" {
		t.Errorf("in the line stands %q", k.line().typing.Text)
	}
}

// The line opens on every screen of a day, but not on first aid, nor where text or figures are typed, nor on a day that another program writes; help
// names its key just where it opens.
func TestWhereTheLineOpens(t *testing.T) {
	h := effectsOf(t, shelf.Open(t.TempDir()))
	opened := 0
	for _, s := range scenes(t) {
		if s.name == "help" || s.name == "leaving" || s.name == "clock, typing" {
			continue
		}
		for _, looking := range []bool{false, true} {
			s.view.Looking = looking
			m := s.open(clickable(h, s.view))
			top := m.stack[len(m.stack)-1]
			want := !looking && s.at != screen.AtHome && s.at != screen.AtAid && !screen.Capturing(top.shows) && s.name != "figures"
			if s.at == screen.AtSetup || s.at == screen.AtStock { // opened from home they are of no day; here they are given one
				continue
			}
			next, _ := m.key(screen.Key{Rune: ':'})
			if got := next.stack[len(m.stack)-1].say.on(); got != want {
				t.Errorf("%s, looking %v: it opens: %v", s.name, looking, got)
			} else if got {
				opened++
			}
			m.help, m.width, m.height = true, 200, 200
			if !screen.Capturing(top.shows) && strings.Contains(ansi.Strip(m.View()), "say it in words") != want {
				t.Errorf("%s, looking %v: help names the key: %v", s.name, looking, !want)
			}
		}
	}
	if opened < 15 {
		t.Errorf("it opened on %d screens", opened)
	}
}

// A key that asks about one event shows no form in which its number has to be typed.
func TestALineAboutOneEventAsksForNoNumber(t *testing.T) {
	v := dipping(t)
	v.Now = v.State.At.Add(5*time.Minute + 5*time.Second)
	d := seated(t, v).at(screen.AtDay, v.ID).types("T")
	if shown := d.shown(); !strings.Contains(shown, "When did A1 come out?") || strings.Contains(shown, "NUMBER") {
		t.Errorf("T shows:\n%s", shown)
	}
}

// The arrows move the cursor of the line, and are no keys of the screen behind it.
func TestTheLineIsEditedAtItsCursor(t *testing.T) {
	h := effectsOf(t, shelf.Open(t.TempDir()))
	for _, s := range scenes(t) {
		if s.at != screen.AtDay || s.name != "clock" {
			continue
		}
		k := &talk{h: h, m: s.open(clickable(h, s.view))}
		for _, key := range []screen.Key{{Rune: ':'}, {Rune: 'p'}, {Rune: 'H'}, {Rune: '9'}, {Name: "left"}, {Name: "space", Rune: ' '}, {Name: "home"}, {Rune: 'x'}, {Name: "delete"}, {Name: "end"}, {Rune: '"'}} {
			next, _ := k.m.key(key)
			k.m = next
		}
		if got := k.line().typing.Text; got != `xH 9"` {
			t.Fatalf("the line holds %q", got)
		}
		return
	}
	t.Fatal("no scene of a clock")
}

// Where it is asked which event is meant the last ones stand there with their numbers, and no time that could be taken for a proposal.
func TestWhichEventIsShown(t *testing.T) {
	v := happened(t, true)
	d := seated(t, v).at(screen.AtDay, v.ID).types("T")
	last := v.State.Log[len(v.State.Log)-1]
	shown := d.shown()
	if !strings.Contains(shown, "Which act") || !strings.Contains(shown, fmt.Sprintf("#%d %s", last.Seq, last.At.Format("15:04"))) || strings.Contains(shown, "10:42") {
		t.Errorf("T shows\n%s", shown)
	}
}

// A line that is refused says why, also beside the figure of another piece, in every window that has it.
func TestTheLineSaysWhyBesideAFigure(t *testing.T) {
	v := dipping(t)
	of := day.OfPiece{Tag: "W1"}
	for _, b := range []day.Body{day.PieceAdded{OfPiece: of, PieceSpec: day.PieceSpec{Fibre: "wool", Dry: 40, Dips: 2}}, day.WettedOut{OfPiece: of}} {
		var err error
		if v.State, err = day.Apply(v.State, day.Event{Seq: v.State.Seq + 1, At: v.Now, Body: b}); err != nil {
			t.Fatal(err)
		}
	}
	k := talking(t, effectsOf(t, shelf.Open(t.TempDir())), v, screen.AtDay)
	k.types(":W1 in")
	k.presses(enterKey)
	for _, size := range [][2]int{{60, 20}, {80, 24}, {120, 40}, {100, 30}} {
		k.m.width, k.m.height = size[0], size[1]
		got := strings.Join(strings.Fields(ansiless(k.m.View())), " ")
		if !strings.Contains(got, "Not taken: wool bears pH 9.5") || !strings.Contains(got, "or a ferment vat.") {
			t.Errorf("%v:\n%s", size, got)
		}
	}
}
