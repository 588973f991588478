package engine_test

import (
	"reflect"
	"testing"
	"time"

	"example.org/vatside/model/day"
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
				"call": {v.Call(), day.CallOf(s, now)}, "meanwhile": {v.Meanwhile(), day.Meanwhile(s, now)}, "then": {v.Upcoming(), day.Upcoming(s, now)},
				"look": {looks, wants}, "asked": {asked, wanted}, "dues": {v.Dues(), day.Dues(s)}, "line": {v.Line(), day.NowLine(s, now)},
			} {
				if !reflect.DeepEqual(pair[0], pair[1]) {
					t.Fatalf("after event %d and %s: %s is %+v, and not %+v", n+1, since, what, pair[0], pair[1])
				}
			}
			if f := v.Call().Figure; f != v.Call().Figure {
				t.Fatalf("after event %d the call is reckoned twice", n+1)
			}
			if m := v.Meanwhile(); len(m) > 0 && &m[0] != &v.Meanwhile()[0] {
				t.Fatalf("after event %d what can be done meanwhile is reckoned twice", n+1)
			}
			later := v
			if later.Now = now.Add(90 * time.Second); !reflect.DeepEqual(later.Call(), day.CallOf(s, later.Now)) {
				t.Fatalf("after event %d a view of another instant keeps the call", n+1)
			}
		}
	}
}
