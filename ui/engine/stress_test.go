package engine_test

import (
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"sync"
	"testing"
	"testing/synctest"
	"time"

	"github.com/adrg/xdg"

	"example.org/vatside/model/day"
	"example.org/vatside/ui/cue"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/shelf"
)

// moody is a writer of the shelf behind a disk that answers when it likes, and now and then not at all.
type moody struct{ *shelf.Writer }

func (m moody) Append(e day.Event) error {
	switch rand.IntN(6) {
	case 0:
		return errors.New("the disk is in a mood")
	case 1:
		time.Sleep(time.Duration(rand.IntN(3000)) * time.Millisecond)
	}
	return m.Writer.Append(e)
}

func (m moody) Return() error {
	time.Sleep(time.Duration(rand.IntN(4000)) * time.Millisecond)
	return m.Writer.Return()
}

// bubble is a machine whose clocks are those of a test's bubble.
type bubble struct{ from time.Time }

func (bubble) Wall() time.Time               { return time.Now() }
func (b bubble) Boot() (time.Duration, bool) { return time.Since(b.from), true }
func (b bubble) Mono() time.Duration         { return time.Since(b.from) }

// Many hands on many days, on moody disks: each act that was taken stands in its day once, whatever was kept, left and opened
// again meanwhile.
func TestManyDaysOnMoodyDisks(t *testing.T) {
	synctest.Test(t, manyDaysOnMoodyDisks) // its pauses take no time
}

func manyDaysOnMoodyDisks(t *testing.T) {
	t.Setenv("XDG_STATE_HOME", t.TempDir())
	xdg.Reload()
	t.Cleanup(xdg.Reload)
	home := shelf.At(t.TempDir(), nil)
	ctx, stop := context.WithCancel(t.Context())
	e := engine.New(bubble{time.Now()}, thisBoot, cue.Silent{})
	parted := make(chan engine.Parting, 1)
	go func() { parted <- e.Run(ctx) }()
	var all sync.WaitGroup
	taken := make([]map[string]bool, 3)
	for n := range taken {
		taken[n] = map[string]bool{}
		all.Go(func() {
			head := tendHead(t)
			head.Vat = fmt.Sprintf("vat-%d", n)
			w, err := home.NewDay(head)
			if err != nil {
				t.Error(err)
				return
			}
			id := head.Vat + "/" + head.Day
			if _, err := e.Open(ctx, engine.Opening{ID: id, Head: w.Head(), Writer: moody{w}}); err != nil {
				t.Error(err)
				return
			}
			gone := false
			for i := range 30 {
				time.Sleep(time.Duration(rand.IntN(1500)) * time.Millisecond)
				switch rand.IntN(7) {
				case 0:
					_ = e.Keep(ctx)
				case 1:
					if gone {
						continue
					}
					if err := e.Leave(ctx, id); err != nil {
						t.Error(err)
						return
					}
					w, b, err := home.OpenDay(head.Vat, head.Day)
					if err != nil {
						t.Error(err)
						return
					}
					if _, err := e.Open(ctx, engine.Opening{ID: id, Head: b.Head, Events: b.Events, Writer: moody{w}}); err != nil {
						t.Error(err)
						return
					}
				case 2: // the disk goes, and comes back
					from, to := w.Path(), w.Path()+".gone"
					if gone {
						from, to = to, from
					}
					if err := os.Rename(from, to); err != nil {
						t.Error(err)
					}
					gone = !gone
				default:
					text := fmt.Sprintf("act %d", i)
					if _, err := e.Do(ctx, id, day.Record{Body: day.Note{Text: text}}); err != nil {
						t.Error(err)
						return
					}
					taken[n][text] = true
				}
			}
			if gone {
				if err := os.Rename(w.Path()+".gone", w.Path()); err != nil {
					t.Error(err)
				}
			}
			if err := e.Leave(ctx, id); err != nil {
				t.Error(err)
			}
		})
	}
	all.Wait()
	stop()
	if p := <-parted; p.Lost() {
		t.Error(p.Words())
	}
	for n := range taken {
		vat := fmt.Sprintf("vat-%d", n)
		for range 2 {
			w, b, err := home.OpenDay(vat, "2026-05-09")
			if err != nil {
				t.Fatal(err)
			}
			had := map[string]int{}
			for _, ev := range b.Events {
				if note, is := ev.Body.(day.Note); is {
					had[note.Text]++
				}
			}
			for text := range taken[n] {
				if had[text] != 1 {
					t.Errorf("%s: %q stands there %d times", vat, text, had[text])
				}
			}
			if b.Damage() != "" {
				t.Errorf("%s: %s", vat, b.Damage())
			}
			if err := w.Close(); err != nil {
				t.Error(err)
			}
		}
	}
}
