package engine_test

import (
	"context"
	"reflect"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/ui/cue"
	"example.org/vatside/ui/engine"
)

// What a view says of its day is what the day says at that instant, and it is reckoned once for all who ask.
func TestAViewReckonsOnce(t *testing.T) {
	played := playedVat(t, "soda-bin")[0].State
	for n := range played.Log {
		s, _ := day.Replay(played.Head, played.Log[:n+1])
		for _, since := range []time.Duration{0, 20 * time.Second, 9 * time.Minute, time.Hour} {
			now := s.At.Add(since)
			v := engine.View{State: s}.At(now)
			looks, asked := v.Look()
			wants, wanted := day.LookAsked(s, now)
			for what, pair := range map[string][2]any{
				"call": {v.Call(), day.CallOf(s, now)}, "meanwhile": {v.Meanwhile(), day.CallOf(s, now).Meanwhile(s, now)}, "then": {v.Upcoming(), day.Upcoming(s, now)},
				"look": {looks, wants}, "asked": {asked, wanted}, "dues": {v.Dues(), day.Dues(s)}, "line": {v.Line(), day.NowLine(s, now)},
			} {
				if !reflect.DeepEqual(pair[0], pair[1]) {
					t.Fatalf("after event %d and %s: %s is %+v, and not %+v", n+1, since, what, pair[0], pair[1])
				}
			}
			if f := v.Call().Figure; f != v.Call().Figure {
				t.Fatalf("after event %d the call is reckoned twice", n+1)
			}
			later := v
			if later.Now = now.Add(90 * time.Second); !reflect.DeepEqual(later.Call(), day.CallOf(s, later.Now)) {
				t.Fatalf("after event %d a view of another instant keeps the call", n+1)
			}
		}
	}
}

// What the engine keeps of a day from second to second is never old.
func TestASecondLaterAllIsAsReckonedAnew(t *testing.T) {
	played := playedVat(t, "soda-bin")[0].State
	kept := 0
	for n := 0; n < len(played.Log); n += 3 {
		s, _ := day.Replay(played.Head, played.Log[:n+1])
		ctx, stop := context.WithCancel(t.Context())
		e := engine.New(&fake{wall: s.At}, "", cue.Silent{})
		parted := e.Start(ctx)
		clock := engine.NewLed(s.At)
		if _, err := e.Open(ctx, engine.Opening{ID: "bin", Head: played.Head, Events: played.Log[:n+1], Source: clock}); err != nil {
			t.Fatal(err)
		}
		then := ""
		for k := range 200 {
			clock.Set(s.At.Add(time.Duration(k) * 3 * time.Second))
			snap, err := e.Now(ctx)
			if err != nil {
				t.Fatal(err)
			}
			v := snap.Days[0]
			if k%2 == 0 { // as if no screen asked
				if got, want := v.Meanwhile(), day.CallOf(v.State, v.Now).Meanwhile(v.State, v.Now); !reflect.DeepEqual(got, want) {
					t.Fatalf("event %d, %s: meanwhile %+v, and not %+v", n+1, v.Now, got, want)
				}
				look, asked := v.Look()
				if want, wanted := day.LookAsked(v.State, v.Now); asked != wanted || !reflect.DeepEqual(look, want) {
					t.Fatalf("event %d, %s: the look %+v, and not %+v", n+1, v.Now, look, want)
				}
				if then = v.Upcoming(); then != day.Upcoming(v.State, v.Now) {
					t.Fatalf("event %d, %s: then %q, and not %q", n+1, v.Now, then, day.Upcoming(v.State, v.Now))
				}
			}
			call := v.Call()
			if want := day.CallOf(v.State, v.Now); !reflect.DeepEqual(call, want) {
				t.Fatalf("event %d, %s: %+v, and not %+v", n+1, v.Now, call, want)
			}
			if call.Due != nil {
				kept++
			}
		}
		stop()
		<-parted
	}
	if kept < 1000 {
		t.Errorf("a time runs at %d moments only", kept)
	}
}
