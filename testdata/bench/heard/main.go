// Command heard plays a rehearsed day second by second and writes down what is heard of it, and nothing else: the rhythm of each
// call, its words, and when. With -wav it makes a sound of it, the tones by the program's own samples, the words by espeak-ng where
// that is installed; what is silent for longer is cut to -gap.
//
//	go run ./testdata/bench/heard [-acts] [-entries] [-workshop] [-wav day.wav] [-from 11:00 -to 12:00]
package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"sync"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/recipes"
	"example.org/vatside/testdata/bench/internal/apart"
	"example.org/vatside/ui/cue"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/rehearse"
)

func main() {
	o := options{out: os.Stdout}
	flag.StringVar(&o.recipe, "recipe", "soda", "the recipe")
	flag.BoolVar(&o.workshop, "workshop", false, "one vat of a workshop")
	flag.BoolVar(&o.entries, "entries", false, "a piece that has aired is taken as lowered too")
	flag.BoolVar(&o.acts, "acts", false, "also what the book has, set in")
	flag.StringVar(&o.wav, "wav", "", "the file for the sound; empty: none")
	flag.DurationVar(&o.gap, "gap", 2*time.Second, "the longest silence in it")
	flag.StringVar(&o.from, "from", "", "from this time of day on, 11:00")
	flag.StringVar(&o.to, "to", "", "up to this time of day")
	flag.Parse()
	apart.Run("heard", func() bool {
		heard := apart.Got(o.play())
		if o.wav != "" {
			apart.Must(o.sound(heard))
		}
		return false
	})
}

type options struct {
	recipe                  string
	workshop, entries, acts bool
	wav, from, to           string
	gap                     time.Duration
	out                     io.Writer
	events                  func(day.Event) // nil: nobody asks
}

// within tells whether an instant is in the part of the day that is asked for.
func (o options) within(at time.Time) bool {
	clock := day.Clock(at)
	return (o.from == "" || clock >= o.from) && (o.to == "" || clock < o.to)
}

// A call is what was heard, and when.
type call struct {
	at time.Time
	cue.Call
}

// ear keeps the calls with the day's time. It hears all.
type ear struct {
	led *engine.Led

	mu    sync.Mutex
	calls []call
	told  int
}

// Call keeps c, which was played.
func (e *ear) Call(c cue.Call) {
	e.mu.Lock()
	e.calls = append(e.calls, call{e.led.Now(), c})
	e.mu.Unlock()
	if c.Then != nil {
		c.Then(cue.Outcome{Played: true})
	}
}

// tell writes what came since it was last asked.
func (e *ear) tell(o options) {
	e.mu.Lock()
	defer e.mu.Unlock()
	for ; e.told < len(e.calls); e.told++ {
		if c := e.calls[e.told]; o.within(c.at) {
			fmt.Fprintf(o.out, "%s  %-8s %s\n", c.at.Format("15:04:05"), rhythm(c.Call), c.Words)
		}
	}
}

// rhythm names what is heard before the words.
func rhythm(c cue.Call) string {
	if c.Cue == cue.Out && c.Level > 0 {
		return fmt.Sprintf("%s %d", c.Cue, c.Level)
	}
	return c.Cue.String()
}

// none is a disk that takes all and keeps nothing.
type none struct{}

func (none) Append(day.Event) error { return nil }
func (none) Close() error           { return nil }

const id = "garden-bin/heard"

// longest is more than any invented day lasts.
const longest = 48 * time.Hour

// play leads the invented dyer through the day, second by second, and writes what is heard.
func (o options) play() ([]call, error) {
	r, ok := recipes.Find(o.recipe)
	if !ok {
		return nil, fmt.Errorf("no recipe %q", o.recipe)
	}
	begin := time.Date(2026, 5, 9, 9, 0, 0, 0, time.UTC)
	head := rehearse.DyeingHead(r, begin)
	if o.workshop {
		head = rehearse.WorkshopHead(r, begin, 0)
	}
	head.Setup.Entries = o.entries
	led := engine.NewLed(begin)
	hears := &ear{led: led}
	ctx, stop := context.WithCancel(context.Background())
	eng := engine.New(engine.Machine{}, "", hears)
	parted := eng.Start(ctx)
	defer func() { stop(); <-parted }()
	if _, err := eng.Open(ctx, engine.Opening{ID: id, Head: head, Writer: none{}, Source: led}); err != nil {
		return nil, err
	}
	since, events := begin, 0
	for now := begin; now.Sub(begin) < longest; now = now.Add(time.Second) {
		led.Set(now)
		snap, err := eng.Now(ctx)
		if err != nil {
			return nil, err
		}
		v, _ := snap.Day(id)
		hears.tell(o)
		for _, e := range v.State.Log[events:] {
			if o.events != nil {
				o.events(e)
			}
			if o.acts && o.within(e.At) {
				fmt.Fprintf(o.out, "%s           . %s\n", e.At.Format("15:04:05"), e.Body.Sentence(head.Setup.System()))
			}
		}
		if n := len(v.State.Log); n != events {
			since, events = v.Now, n
		}
		if v.State.Closed {
			return hears.calls, nil
		}
		if err := o.acting(ctx, eng, v, since); err != nil {
			return nil, err
		}
	}
	return nil, errors.New("the day comes to no end")
}

// acting does the dyer's next act if its time has come: so long after the last one, or after what fell due.
func (o options) acting(ctx context.Context, eng *engine.Engine, v engine.View, since time.Time) error {
	after, c, ok := rehearse.Dyer(v.State, v.Now)
	if !ok {
		return nil
	}
	at := since.Add(after)
	for _, d := range v.Dues() {
		if !v.Now.Before(d.At) && d.At.Add(after).After(at) {
			at = d.At.Add(after)
		}
	}
	if v.Now.Before(at) {
		return nil
	}
	if _, err := eng.Do(ctx, id, c); errors.Is(err, engine.ErrGone) {
		return err
	}
	return nil
}
