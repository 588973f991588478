package rehearse_test

import (
	"context"
	"slices"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/ui/cue"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/rehearse"
)

// workshop plays the rehearsed workshop, two vats by one clock, and gives what was told and the days as they ended.
func workshop(t *testing.T) (lines []string, days map[string]day.State) {
	t.Helper()
	ctx, stop := context.WithCancel(context.Background())
	defer stop()
	e := engine.New(engine.Machine{}, "", cue.Silent{})
	go e.Run(ctx)
	led := engine.NewLed(morning)
	var ids []string
	for n, name := range rehearse.WorkshopVats {
		ids = append(ids, name+"/d")
		if _, err := e.Open(ctx, engine.Opening{ID: ids[n], Head: rehearse.WorkshopHead(soda(t), morning, n), Writer: &memory{}, Source: led}); err != nil {
			t.Fatal(err)
		}
	}
	days = map[string]day.State{}
	var at time.Time
	if err := rehearse.Play(ctx, e, ids, led, func(id string, s day.State, ev day.Event) {
		if ev.At.Before(at) {
			t.Errorf("%s of %s is told after %s", ev.Body.Sentence(0), day.Clock(ev.At), day.Clock(at))
		}
		at, days[id] = ev.At, s
		lines = append(lines, id+ev.At.String()+ev.Body.Sentence(quantity.Metric))
	}); err != nil {
		t.Fatal(err)
	}
	return lines, days
}

// The rehearsed workshop: sixteen people at two vats by one clock. One comes 20 min late, one leaves early and is done before, one piece
// is torn; everybody else gets all their dips, the same way each time.
func TestTheRehearsedWorkshop(t *testing.T) {
	lines, days := workshop(t)
	if again, _ := workshop(t); !slices.Equal(lines, again) {
		t.Error("it goes another way the second time")
	}
	people := 0
	for id, s := range days {
		if !s.Closed || s.Hands() != 1 || s.AsksHands() {
			t.Errorf("%s: closed %v, %d pairs of hands", id, s.Closed, s.Hands())
		}
		var first time.Time
		last := map[string]time.Time{}
		for _, e := range s.Log {
			switch b := e.Body.(type) {
			case day.DipBegun:
				if first.IsZero() {
					first = e.At
				}
			case day.DipEnded:
				last[b.Tag] = e.At
			case day.PieceAdded:
				if late := !first.IsZero(); late != (b.Tag == "P16") || late && (e.At.Sub(first) < 20*time.Minute || e.At.Sub(first) > 25*time.Minute) {
					t.Errorf("%s comes %s after the first dip", b.Tag, e.At.Sub(first))
				}
			}
		}
		people += len(s.Pieces)
		for _, p := range s.Pieces {
			torn := p.Tag == "P5"
			if want := p.Want(); torn && (p.Phase != day.Dropped || p.Dips != 1) || !torn && (p.Phase != day.FinishedPiece || p.Dips != want) {
				t.Errorf("%s had %d of %d dips, phase %d", p.Tag, p.Dips, want, p.Phase)
			}
			if !torn {
				soaped(t, s, p)
			}
			if till := day.Wished(s.Opened, p.Spec.Till); (till != nil) != (p.Tag == "P7") || till != nil && last[p.Tag].After(*till) {
				t.Errorf("%s leaves at %q, its last lift was at %s", p.Tag, p.Spec.Till, day.Clock(last[p.Tag]))
			}
		}
	}
	if people != 16 {
		t.Errorf("%d people", people)
	}
}
