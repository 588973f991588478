package main

import (
	"encoding/json"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"
)

// event is one event of `book --json`, as far as the present moment needs it. Durations are text, such as "8 min".
type event struct {
	Vat, Day, Kind string
	At             time.Time
	Seq, Step      int
	Dip            any // of a dip its number; of a piece the length of its dips
	Of             int
	Way, Tag       string
	For, Air       string
	CountIn        string `json:"count_in"`
	When           *time.Time
	Ready          *bool
}

// advancing are the kinds that close a step when they name one.
var advancing = map[string]bool{
	"step done": true, "step skipped": true, "powder added": true, "stirred": true, "vat covered": true, "vat judged": true,
	"settled": true, "froth skimmed": true, "rested": true, "stock drawn": true,
}

// What `now` says that can be reckoned from the events alone.
var (
	saysStep = regexp.MustCompile(`step (\d+) of`)
	saysIn   = regexp.MustCompile(`(\S+) in the vat, dip (\d+) of`)
	saysAir  = regexp.MustCompile(`(\S+) airing after dip (\d+) of`)
)

// checkNow reckons the present moment from the events of the last day, apart from the program, and compares it with what
// `now --json` says: the step, the dip and what is left to the second. A rehearsed clock stands at its last event.
func checkNow(text string, events []event) error {
	var out struct {
		Days []struct {
			Vat, Day string
			Line     string
			At       time.Time
			DueAt    *time.Time `json:"due_at"`
			LeftS    *int       `json:"left_s"`
		}
	}
	if err := json.Unmarshal([]byte(text), &out); err != nil {
		return fmt.Errorf("now --json: %w", err)
	}
	if len(events) == 0 || len(out.Days) == 0 {
		return nil
	}
	now := out.Days[0]
	events = slices.DeleteFunc(slices.Clone(events), func(e event) bool { return e.Vat != now.Vat || e.Day != now.Day })
	if len(events) == 0 {
		if m := saysStep.FindStringSubmatch(now.Line); m != nil && m[1] == "1" {
			return nil // killed between the day's head and its first event
		}
		return fmt.Errorf("now tells of %s/%s, which has no event: %q", now.Vat, now.Day, now.Line)
	}
	last := events[len(events)-1]
	if !now.At.Equal(last.At) {
		return fmt.Errorf("now stands at %s, its last event at %s", now.At, last.At)
	}
	step := 1
	in, air := map[string]event{}, map[string]event{}
	for _, e := range events {
		if e.Step > 0 && advancing[e.Kind] && (e.Ready == nil || *e.Ready) {
			step = e.Step + 1
		}
		switch e.Kind {
		case "dip begun":
			in[e.Tag] = e
			delete(air, e.Tag)
		case "dip ended":
			air[e.Tag] = e
			delete(in, e.Tag)
		case "finished":
			delete(air, e.Tag)
		}
	}
	if m := saysStep.FindStringSubmatch(now.Line); m != nil {
		if m[1] != strconv.Itoa(step) {
			return fmt.Errorf("now says step %s, the book is at step %d", m[1], step)
		}
		return nil
	}
	m, held := saysIn.FindStringSubmatch(now.Line), in
	if m == nil {
		m, held = saysAir.FindStringSubmatch(now.Line), air
	}
	if m == nil {
		return nil
	}
	e, ok := held[m[1]]
	if !ok || m[2] != fmt.Sprint(e.Dip) {
		return fmt.Errorf("now says %q, the book has in the vat %v, in the air %v", now.Line, in, air)
	}
	want := e.At
	if e.When != nil {
		want = *e.When
	}
	if e.Kind == "dip begun" {
		want = want.Add(lasting(e.CountIn) + lasting(e.For))
	} else {
		want = want.Add(lasting(e.Air))
	}
	if now.DueAt == nil || now.LeftS == nil {
		return fmt.Errorf("now says %q and no time", now.Line)
	}
	if !now.DueAt.Equal(want) || *now.LeftS != int(want.Sub(last.At)/time.Second) {
		return fmt.Errorf("now says %q till %s (%d s left), the book says till %s", now.Line, now.DueAt, *now.LeftS, want)
	}
	return nil
}

// lasting reads "1 h 30 min" or "8 min"; empty is nothing.
func lasting(s string) time.Duration {
	s = strings.NewReplacer(" min", "m", " h", "h", " s", "s", " ", "").Replace(s)
	d, err := time.ParseDuration(s)
	if err != nil {
		return 0
	}
	return d
}
