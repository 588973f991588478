package ui

import (
	"context"
	"strings"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"example.org/vatside/model/day"
	"example.org/vatside/ui/cue"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/shelf"
	"example.org/vatside/ui/widget"
)

// desk is the root over an engine whose clocks are run by hand, with days that are open in it.
type desk struct {
	t  testing.TB
	in *clocks
	h  effects
	g  guarded
}

// quickly is the effort of forecasts where any timetable will do.
const quickly = 1000

// seated opens days as they stand at the first one's moment, and shows home.
func seated(t testing.TB, views ...engine.View) *desk {
	t.Helper()
	d := &desk{t: t, in: &clocks{ran: views[0].Now.Sub(clickedAt)}, h: effectsOf(t, shelf.Open(t.TempDir()))}
	ctx, stop := context.WithCancel(context.Background())
	d.h.eng = engine.New(d.in, "", &cue.Recorder{})
	d.h.eng.Advise(quickly)
	ended := make(chan struct{})
	go func() { d.h.eng.Run(ctx); close(ended) }()
	t.Cleanup(func() { stop(); <-ended })
	for _, v := range views {
		if _, err := d.h.eng.Open(ctx, engine.Opening{ID: v.ID, Head: v.State.Head, Events: v.State.Log, Writer: inMemory{}}); err != nil {
			t.Fatal(err)
		}
	}
	d.g = guarded{clickable(d.h, views[0])}
	d.g.snap = engine.Snapshot{}
	d.sees()
	return d
}

// sees brings the newest snapshot to the root.
func (d *desk) sees() {
	snap, err := d.h.eng.Now(d.h.ctx)
	if err != nil {
		d.t.Fatal(err)
	}
	d.gets(snapshotMsg(snap))
}

// gets hands the root a message, and what its commands answer.
func (d *desk) gets(msg tea.Msg) {
	next, cmd := d.g.Update(msg)
	d.g = next.(guarded)
	d.answers(cmd)
}

func (d *desk) answers(cmd tea.Cmd) {
	if cmd == nil {
		return
	}
	msg := cmd()
	if list := commandsIn(msg); list != nil {
		for _, c := range list {
			d.answers(c)
		}
		return
	}
	switch msg.(type) {
	case repliedMsg, saidMsg, openedMsg:
		d.gets(msg)
		d.sees()
	}
}

// runs lets time go by, as the engine sees it.
func (d *desk) runs(by time.Duration) *desk {
	for ; by > time.Second; by -= time.Second {
		d.in.run(time.Second)
		d.sees()
	}
	d.in.run(by)
	d.sees()
	return d
}

// at puts a place on top.
func (d *desk) at(at screen.Place, id string) *desk {
	d.g.model = d.g.push(at, id, "")
	d.sees()
	return d
}

// types hands keys over as the terminal sends them: those with a name in brackets.
func (d *desk) types(keys string) *desk {
	for keys != "" {
		if name, rest, is := strings.Cut(strings.TrimPrefix(keys, "["), "]"); is && keys[0] == '[' {
			d.gets(keyMsg(name))
			keys = rest
			continue
		}
		d.gets(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(keys)[:1]})
		keys = string([]rune(keys)[1:])
	}
	return d
}

// keyMsg is a key by its name.
func keyMsg(name string) tea.Msg {
	if name == "space" {
		return tea.KeyMsg{Type: tea.KeySpace, Runes: []rune{' '}}
	}
	for k, n := range keyNames {
		if n == name {
			return tea.KeyMsg{Type: k}
		}
	}
	panic("no key " + name)
}

// clicks on what stands over the screen.
func (d *desk) clicks() *desk { return d.clicksOn(widget.OverTarget) }

// clicksOn the first thing of a kind.
func (d *desk) clicksOn(kind widget.TargetKind) *desk {
	for _, a := range widget.Lay(d.g.sheet(), d.g.width, d.g.height, d.g.style).Areas() {
		if a.Kind == kind {
			d.gets(leftAt(a.X, a.Y))
			return d
		}
	}
	d.t.Errorf("nothing of kind %d is on the screen:\n%s", kind, d.shown())
	return d
}

func (d *desk) view(id string) engine.View {
	snap, err := d.h.eng.Now(d.h.ctx)
	if err != nil {
		d.t.Fatal(err)
	}
	v, _ := snap.Day(id)
	return v
}

// kinds are the kinds of the events of a day after the first so many.
func (d *desk) kinds(id string, after int) string {
	var out []string
	for _, e := range d.view(id).State.Log[after:] {
		out = append(out, e.Body.Kind())
	}
	return strings.Join(out, ", ")
}

func (d *desk) shown() string { return inWords(d.g.model) }

func (d *desk) top() place { return d.g.stack[len(d.g.stack)-1] }

// called is the id of the call of a day.
func (d *desk) called(id string) string {
	v := d.view(id)
	return day.CallOf(v.State, v.Now).ID
}

// another is a view as of another vat.
func another(v engine.View, vat string) engine.View {
	v.ID, v.State.Head.Vat, v.State.Head.Setup.Name = vat+"/2026-03-28", vat, vat
	return v
}
