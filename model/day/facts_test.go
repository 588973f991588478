package day_test

import (
	"reflect"
	"slices"
	"testing"
	"time"

	"pgregory.net/rapid"

	"example.org/vatside/model/day"
	"example.org/vatside/model/signs"
	"example.org/vatside/testdata/long"
)

// corrected is the log as it stands, by a route of its own: whole, from the last correction on.
func corrected(log []day.Event) []day.Event {
	undone, when, sure := map[int]bool{}, map[int]*time.Time{}, map[int]bool{}
	for _, e := range slices.Backward(log) {
		c, is := e.Body.(day.Corrected)
		if !is || undone[e.Seq] || c.Of >= e.Seq {
			continue
		}
		switch _, moved := when[c.Of]; {
		case !sure[c.Of] && c.Way == "undone":
			undone[c.Of] = true
		case !moved && c.To != nil:
			when[c.Of] = c.To
		}
		sure[c.Of] = true
	}
	var out []day.Event
	for _, e := range log {
		if _, is := e.Body.(day.Corrected); is || undone[e.Seq] {
			continue
		}
		switch b := e.Body.(type) {
		case day.DipBegun:
			if when[e.Seq] != nil {
				b.When = when[e.Seq]
			}
			e.Body = b
		case day.DipEnded:
			if b.Assumed = b.Assumed && !sure[e.Seq]; when[e.Seq] != nil {
				b.When = when[e.Seq]
			}
			e.Body = b
		case day.AiringEnded:
			if when[e.Seq] != nil {
				b.When = when[e.Seq]
			}
			e.Body = b
		case day.Stirred:
			b.Assumed = b.Assumed && !sure[e.Seq]
			e.Body = b
		}
		out = append(out, e)
	}
	return out
}

// What Apply keeps of the day is what a walk through its log tells.
func TestTheStateIsWhatTheLogTells(t *testing.T) {
	hs := heads(t)
	long.Checks(t, 100, 25)
	rapid.Check(t, func(t *rapid.T) {
		d := drive(t, hs, rapid.OneOf(drawn(), dyed()).Draw(t, "data"))
		events := d.events
		for range rapid.IntRange(0, 12).Draw(t, "more") {
			events = append(events, day.Event{Seq: len(events) + 1, At: d.now, Body: rapid.OneOf(
				rapid.Custom(func(t *rapid.T) day.Body { return happening(t, len(events)) }),
				rapid.SampledFrom([]day.Body{day.SignSeen{Sign: "milky"}, day.Treated{Cause: "tired", Do: "give reducer", Wait: 1e9},
					day.Rechecked{Cause: "tired", Answer: "better"}, day.PowderAdded{Powder: "reducer", Mass: 5}, day.Fed{Powder: "bran", Mass: 9},
					day.StripTest{Stayed: 45e9}, day.VatJudged{Ready: true}, day.SwatchJudged{Swatch: "A1", Looks: "mid", Dips: 1}}),
			).Draw(t, "body")})
		}
		s, _ := day.Replay(d.head, events)
		log := corrected(s.Log)
		if got := slices.Collect(s.Corrected()); !reflect.DeepEqual(got, log) && len(got)+len(log) > 0 {
			t.Fatalf("the log stands corrected as\n%v\nnot\n%v", got, log)
		}
		var unsaid []int
		var tried []signs.Tried
		var seen []signs.Sign
		var given, first, last time.Time
		loads, since, portions, strips := 0, 0, 0, 0
		milky := false
		for _, e := range log {
			if p, is := e.Body.(day.Presumed); is && p.IsAssumed() {
				unsaid = append(unsaid, e.Seq)
			}
			switch b := e.Body.(type) {
			case day.Opened:
				seen = nil
			case day.SignSeen:
				if sign, known := b.Known(); known && !slices.Contains(seen, sign) {
					seen = append(seen, sign)
				}
				milky = b.Sign == "milky"
			case day.Treated:
				tried, seen = append(tried, signs.Tried{Cause: b.Cause}), nil
			case day.Rechecked:
				if n := len(tried); n > 0 && tried[n-1].Cause == b.Cause && b.Answer == signs.Better.String() {
					tried[n-1].Answer = signs.Better
				}
				seen = nil
			case day.PowderWeighed:
				portions++
			case day.PowderAdded:
				if portions, seen = portions+1, nil; b.Step == 0 {
					given, milky = e.At, false
				}
			case day.Fed:
				portions, given, seen, milky = portions+1, e.At, nil, false
			case day.DipBegun:
				loads, since = loads+1, since+1
			case day.StripTest:
				since = 0
			case day.SwatchJudged:
				strips++
			case day.VatJudged:
				if b.Ready && b.Of == "" {
					if last = e.At; first.IsZero() {
						first = e.At
					}
				}
			}
		}
		var unconfirmed []int
		for _, e := range s.Unsaid() {
			unconfirmed = append(unconfirmed, e.Seq)
		}
		at, _ := s.LastGiven()
		all, sinceStrip := s.Loads()
		one, two := s.Ready()
		cut := 0
		for _, x := range s.Samples() {
			if x.Strip {
				cut++
			}
		}
		got := []any{unconfirmed, s.Tried(), s.Seen(), at, one, two, all, sinceStrip, len(s.Portions()), cut, s.Milky()}
		want := []any{unsaid, tried, seen, given, first, last, loads, since, portions, strips, milky}
		for i := range got {
			if !reflect.DeepEqual(got[i], want[i]) {
				t.Fatalf("figure %d is %v, and the log tells %v", i, got[i], want[i])
			}
		}
	})
}
