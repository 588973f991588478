package ui

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/book"
	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/ui/command"
	"example.org/vatside/ui/cue"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/plain"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/shelf"
)

// A turn is one thing that is said on a day, so long after the one before.
type turn struct {
	after time.Duration
	line  string
	keys  string // what says it on the screens, names in brackets; empty: the line itself, typed
	asks  bool   // its caution is answered two seconds later
}

// threePieces is a day of three pieces, with a top-up, a draw-off, a dropped piece, a look that stops early and two late answers.
var threePieces = []turn{
	{after: time.Minute, line: "34 C", keys: "r34[enter]"},
	{after: time.Minute, line: "done", keys: "[space]", asks: true},
	{after: 30 * time.Second, line: "ph 10.8", keys: "h10.8[enter]"},
	{after: time.Minute, line: "done", keys: "[space]"},
	{after: 44 * time.Second, line: "done", keys: "[pgdown]"},
	{after: 10 * time.Second, line: "done", keys: "[space]"},
	{after: time.Minute, line: "piece A1 cotton 200 g 4"},
	{after: 20 * time.Second, line: "piece B1 linen 300 g 2"},
	{after: 20 * time.Second, line: "piece C1 cotton 90 g 2"},
	{after: time.Minute, line: "done", keys: "[space]"},
	{after: 5 * time.Second, line: "B1 wet"},
	{after: 5 * time.Second, line: "C1 wet"},
	{after: time.Minute, line: "done", keys: "[space]"},
	{after: time.Minute, line: "done", keys: "[space]"},
	{after: time.Minute, line: "drop C1 torn"},
	{after: 4*time.Minute + 20*time.Second, line: "A1 out 20 s ago"},
	{after: 30 * time.Second, line: "done", keys: "[space]"},
	{after: 30 * time.Second, line: "done", keys: "[space]"},
	{after: 5 * time.Minute, line: "done", keys: "[pgdown]"}, // at zero
	{after: time.Minute, line: "hold", keys: "M"},
	{after: time.Minute, line: "top up 2 L at 12 C"},
	{after: time.Minute, line: "drew off 1 L"},
	{after: 8 * time.Minute, line: "done", keys: "[space]"},
	{after: 10 * time.Second, line: "hold", keys: "M"},
	{after: 10 * time.Second, line: "done", keys: "[space]"},
	{after: 10 * time.Second, line: "done", keys: "[space]"},
	{after: 5 * time.Minute, line: "done", keys: "[space]"},
	{after: 30 * time.Second, line: "done", keys: "[space]"},
	{after: 30 * time.Second, line: "done", keys: "[space]"},
	{after: 5*time.Minute + 25*time.Second, line: "B1 out 25 s ago"},
	{after: 4 * time.Minute, line: "stop", keys: "1"},
	{after: 20 * time.Minute, line: "done", keys: "[space]"},
	{after: 6 * time.Minute, line: "done", keys: "[space]"},
	{after: 10 * time.Second, line: "back", keys: "[pgup]"},
	{after: 10 * time.Second, line: "done", keys: "[space]"},
	{after: time.Minute, line: "note an even blue", keys: "oan even blue[enter]"},
	{after: time.Minute, line: "close the day, all pieces are done", asks: true},
}

// A day that is played by keys, in plain mode and by `vatside say` is the same in the three books.
func TestADayIsTheSameOnThreeWays(t *testing.T) {
	home := t.TempDir()
	wall := time.Date(2026, 3, 28, 23, 0, 0, 0, time.UTC)
	run := func(args ...string) {
		t.Helper()
		var o, e bytes.Buffer
		code := command.Main(append(args, "--json"), command.World{In: strings.NewReader(""), Out: &o, Err: &e, Now: func() time.Time { return wall },
			Getenv: func(k string) string { return map[string]string{"VATSIDE_HOME": home}[k] }})
		if code != 0 || !json.Valid(o.Bytes()) {
			t.Fatalf("%q ends with %d\n%s%s", args, code, o.String(), e.String())
		}
	}
	at := clickedAt
	run("begin", "bin", "--recipe", "soda", "--fill", "60L", "--vessel", "frustum 36cm 44cm 62cm HDPE", "--place", "outdoors", "--built", "--at", at.Format(time.RFC3339))
	shelved := shelf.At(home, func() time.Time { return wall })
	_, first, _, err := shelved.Last("bin")
	if err != nil {
		t.Fatal(err)
	}
	s, errs := day.Replay(first.Head, first.Events)
	if len(errs) > 0 {
		t.Fatal(errs)
	}
	keys := seated(t, engine.View{ID: spoken, State: s, Now: at}.At(at)).at(screen.AtDay, spoken)
	typed := newPlainSeat(t, first, at)
	for i, w := range threePieces {
		at = at.Add(w.after)
		args := []string{"say", "bin", w.line, "--at", at.Format(time.RFC3339)}
		if w.asks {
			args = append(args, "--answered")
		}
		run(args...)
		typed.says(at, w)
		keys.plays(at, w)
		_, b, _, err := shelved.Last("bin")
		if err != nil {
			t.Fatal(err)
		}
		byKeys, byPlain, bySay := inFull(keys.view(spoken).State.Log), inFull(typed.view().State.Log), inFull(b.Events)
		if byKeys != bySay || byPlain != bySay {
			t.Fatalf("turn %d, %q: by keys\n%s\nin plain mode\n%s\nby say\n%s\n%s\n%s", i+1, w.line, byKeys, byPlain, bySay, keys.g.word, keys.shown())
		}
	}
	if last := keys.view(spoken).State; !last.Closed {
		t.Errorf("the day is not played to its end: %s", day.NowLine(last, at))
	}
}

// inFull is a log as text. When a caution was answered is left out: by hand it is answered before the act, in words with it.
func inFull(log []day.Event) string {
	var b strings.Builder
	for _, e := range log {
		at := e.At.UTC().Format(time.RFC3339)
		if _, is := e.Body.(day.CautionAnswered); is {
			at = ""
		}
		fmt.Fprintf(&b, "%d %s %s: %s\n", e.Seq, at, e.Body.Kind(), e.Body.Sentence(quantity.Metric))
	}
	return b.String()
}

// plays plays a turn by keys; a caution is read for two seconds.
func (d *desk) plays(at time.Time, w turn) {
	if w.asks {
		at = at.Add(-2 * time.Second)
	}
	d.runs(at.Sub(d.view(spoken).Now))
	if w.keys != "" {
		d.types(w.keys)
	} else {
		d.types(":" + w.line + "[enter]")
	}
	if w.asks {
		d.runs(2 * time.Second).types("[enter]")
	}
}

// plainSeat is plain mode at an open day, with a clock that is set by hand.
type plainSeat struct {
	ctx  context.Context
	eng  *engine.Engine
	led  *engine.Led
	term *plain.Terminal
}

func newPlainSeat(t *testing.T, first book.Book, at time.Time) *plainSeat {
	t.Helper()
	ctx, stop := context.WithCancel(context.Background())
	p := &plainSeat{ctx, engine.New(engine.Machine{}, "", cue.Silent{}), engine.NewLed(at), plain.New(nil, &bytes.Buffer{})}
	parted := p.eng.Start(ctx)
	t.Cleanup(func() { stop(); <-parted })
	if _, err := p.eng.Open(ctx, engine.Opening{ID: spoken, Head: first.Head, Events: first.Events, Writer: inMemory{}, Source: p.led}); err != nil {
		t.Fatal(err)
	}
	return p
}

func (p *plainSeat) view() engine.View {
	snap, _ := p.eng.Now(p.ctx)
	v, _ := snap.Day(spoken)
	return v
}

// says types a turn; the same words once more answer its caution.
func (p *plainSeat) says(at time.Time, w turn) {
	if w.asks {
		p.led.Set(at.Add(-2 * time.Second))
		p.term.Answer(p.ctx, p.eng, spoken, p.view(), w.line)
	}
	p.led.Set(at)
	p.term.Answer(p.ctx, p.eng, spoken, p.view(), w.line)
}
