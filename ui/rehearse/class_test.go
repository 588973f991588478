package rehearse_test

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/ui/cue"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/rehearse"
)

// class is a rehearsed class: sixteen people at two vats with a helper at each, by one engine and one clock.
type class struct {
	t   *testing.T
	ctx context.Context
	e   *engine.Engine
	led *engine.Led
	now time.Time
}

// Who comes late, who leaves, in time and too soon for all dips, and whose piece is ruined.
const (
	late, leaves, hurries, ruined = "P16", "P7", "P6", "P5"
	leavesAt, hurriesAt           = "10:30", "09:50"
)

var classVats, classNames = []string{"north/d", "south/d"}, []string{"North", "South"}

func (c *class) view(id string) engine.View {
	c.t.Helper()
	if err := c.e.Settle(c.ctx, id); err != nil {
		c.t.Fatal(err)
	}
	snap, err := c.e.Now(c.ctx)
	v, ok := snap.Day(id)
	if err != nil || !ok {
		c.t.Fatal(id, err)
	}
	return v
}

// does gives a command, its caution answered.
func (c *class) does(id string, cmd day.Command) error {
	_, err := c.e.Do(c.ctx, id, cmd)
	if pending := (*day.Pending)(nil); errors.As(err, &pending) {
		_, err = c.e.Do(c.ctx, id, day.Answered{Command: cmd})
	}
	return err
}

func (c *class) must(id string, cmd day.Command) {
	c.t.Helper()
	if err := c.does(id, cmd); err != nil {
		c.t.Fatalf("%s %+v: %v", id, cmd, err)
	}
}

// comes puts a person's piece on the list, wet through.
func (c *class) comes(n int) {
	c.t.Helper()
	tag := fmt.Sprint("P", n)
	spec := day.PieceSpec{What: "scarf", Fibre: "cotton", Dry: quantity.Grams(float64(80 + 10*(n%4))), Dips: 3, Dip: quantity.Minutes(5), Air: quantity.Minutes(12), Work: "hung", Who: fmt.Sprint("person ", n)}
	spec.Till = map[string]string{leaves: leavesAt, hurries: hurriesAt}[tag]
	id := classVats[(n-1)/8]
	c.must(id, day.AddPiece{Tag: tag, Spec: spec})
	c.must(id, day.Record{Body: day.WettedOut{OfPiece: day.OfPiece{Tag: tag}}})
}

// acts does what is asked for at a vat now; false where nothing is yet.
func (c *class) acts(id string) bool {
	v := c.view(id)
	call := v.Call()
	if call.Act.Kind == day.ActLift {
		if call.Due == nil || call.Due.At.After(v.Now) {
			for _, m := range day.CallOf(v.State, v.Now).Meanwhile(v.State, v.Now) {
				if k := m.Act.Kind; k == day.ActEnter || k == day.ActFinish {
					return c.does(id, day.Take{Call: m.ID}) == nil
				}
			}
			return false
		}
		return c.does(id, day.Done{Call: call.ID}) == nil
	}
	if k := call.Act.Kind; k == day.ActBench || k == day.ActIdle {
		return false
	}
	after, cmd, ok := rehearse.Dyer(v.State, v.Now)
	return ok && !v.Now.Before(v.State.At.Add(after)) && c.does(id, cmd) == nil
}

// tick lets a quarter of a minute pass and everything be done at both vats.
func (c *class) tick() {
	c.now = c.now.Add(15 * time.Second)
	c.led.Set(c.now)
	for _, id := range classVats {
		for c.acts(id) {
		}
	}
}

// lowered are the pieces of a day in the order in which they went in, with the number of the dip.
func lowered(s day.State) (out []day.DipBegun, at []time.Time) {
	for _, e := range s.Log {
		if b, ok := e.Body.(day.DipBegun); ok {
			out, at = append(out, b), append(at, e.At)
		}
	}
	return out, at
}

// A class rehearsed: sixteen people at two vats, a helper at each, one late by 20 min, one leaving early, one piece ruined. Nobody's
// call is lost, everybody's first dip comes first, who leaves is done or told before, a ruined piece frees its turn, and both vats are
// led by one clock.
func TestTheRehearsedClass(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	defer stop()
	var heard cue.Recorder
	c := &class{t: t, ctx: ctx, e: engine.New(engine.Machine{}, "", &heard), led: engine.NewLed(morning), now: morning}
	go c.e.Run(ctx)
	for n, id := range classVats {
		head := rehearse.Head(soda(t), morning)
		head.Setup.Name, head.Setup.Fill, head.Setup.Vessel = classNames[n], quantity.Litres(120), "cylinder 50 cm 75 cm"
		head.Setup.Waiting, head.Setup.NoLook, head.Opening = true, true, day.Opening{Number: 2, Built: true}
		if _, err := c.e.Open(ctx, engine.Opening{ID: id, Head: head, Writer: &memory{}, Source: c.led}); err != nil {
			t.Fatal(err)
		}
		c.must(id, day.Record{Body: day.SoundChecked{Heard: true}})
	}
	for n := 1; n < 16; n++ {
		c.comes(n)
	}
	for _, id := range classVats {
		if !c.view(id).State.AsksHands() {
			t.Errorf("%s: nobody is asked how many hands there are", id)
		}
		c.must(id, day.Record{Body: day.HandsTold{Hands: 1}})
	}
	var first, dropped time.Time
	var both bool
	told := map[string]time.Time{} // of whom it was said that they leave too soon, and when
	before := quantity.Span(0)     // when the north vat was to be done, while the ruined piece was on its list
	for c.now.Before(morning.Add(6 * time.Hour)) {
		c.tick()
		north, south := c.view(classVats[0]), c.view(classVats[1])
		if !north.Now.Equal(south.Now) {
			t.Fatalf("%v at one vat is %v at the other", north.Now, south.Now)
		}
		if a, b := north.Call(), south.Call(); a.Runs() && b.Runs() && a.Due != nil && b.Due != nil { // the earlier one rules
			both = true
			if rules := a.Compare(b); rules < 0 && a.Due.At.After(b.Due.At) || rules > 0 && b.Due.At.After(a.Due.At) {
				t.Errorf("at %s %s %v rules over %s %v", day.Clock(c.now), a.Short, a.Due.At, b.Short, b.Due.At)
			}
		}
		if dips, at := lowered(south.State); first.IsZero() && len(dips) > 0 {
			first = at[0]
		}
		if north.Table == nil {
			t.Fatal("no timetable")
		}
		for _, w := range north.Table.Plan.Warnings {
			if tag, _, is := strings.Cut(strings.TrimPrefix(w, "Piece "), " has its last dip till"); is && told[tag].IsZero() {
				told[tag] = c.now
			}
		}
		if row, there := north.Table.Next(ruined); !dropped.IsZero() && (there || before > 0 && north.Table.Plan.Finish() > before) {
			t.Errorf("after %s is ruined its turn is %v, all is done at %v instead of %v", ruined, row, north.Table.Plan.Finish(), before)
		}
		if before = 0; dropped.IsZero() {
			before = north.Table.Plan.Finish()
		}
		if _, there := south.State.Piece(late); !there && !first.IsZero() && !c.now.Before(first.Add(20*time.Minute)) {
			c.comes(16)
		}
		if p, _ := north.State.Piece(ruined); dropped.IsZero() && p.Dips == 1 && p.Phase != day.InVat {
			c.must(classVats[0], day.Record{Body: day.PieceDropped{OfPiece: day.OfPiece{Tag: ruined}, Reason: "torn"}})
			dropped = c.now
		}
		done := func(s day.State) bool {
			return len(s.Pieces) == 8 && !slices.ContainsFunc(s.Pieces, func(p day.Piece) bool { return p.Live() })
		}
		if done(north.State) && done(c.view(classVats[1]).State) {
			break
		}
	}
	if !both || first.IsZero() || dropped.IsZero() {
		t.Errorf("calls of both vats at once: %v; the first dip at %v, a piece ruined at %v", both, first, dropped)
	}
	for n, id := range classVats {
		s := c.view(id).State
		called := map[string]int{}
		for _, call := range heard.Calls() {
			words, mine := strings.CutPrefix(call.Words.String(), classNames[n]+": ")
			if mine && (call.Cue == cue.Out || call.Cue == cue.Overdue) {
				for _, tag := range strings.FieldsFunc(words, func(r rune) bool { return strings.ContainsRune(" ,;", r) }) {
					called[tag]++
				}
			}
		}
		dips, at := lowered(s)
		had, last := map[string]int{}, map[string]time.Time{}
		for i, b := range dips {
			present := 8
			if id == classVats[1] && b.Dip == 2 { // who is late has a first dip before anybody's third
				present = 7
			}
			if b.Dip > 1 && b.Tag != late && len(had) < present {
				t.Errorf("%s: dip %d of %s at %s, after %d first dips", id, b.Dip, b.Tag, day.Clock(at[i]), len(had))
			}
			had[b.Tag] = b.Dip
		}
		for _, e := range s.Log {
			switch b := e.Body.(type) {
			case day.DipEnded:
				if last[b.Tag] = e.At; b.Assumed {
					t.Errorf("%s: nobody answered the lift of %s at %s", id, b.Tag, day.Clock(e.At))
				}
			case day.PieceDropped:
				if b.Reason != "torn" {
					t.Errorf("%s is dropped for %q", b.Tag, b.Reason)
				}
			}
		}
		for _, p := range s.Pieces {
			if want := p.Want(); p.Tag != ruined && (had[p.Tag] != want || p.Dips != want) {
				t.Errorf("%s: %s had %d of %d dips", id, p.Tag, p.Dips, want)
			}
			if called[p.Tag] != p.Dips {
				t.Errorf("%s: %s was lifted %d times, and called out %d times", id, p.Tag, p.Dips, called[p.Tag])
			}
			if till := day.Wished(s.Opened, p.Spec.Till); till != nil && last[p.Tag].After(*till) != (p.Tag == hurries) {
				t.Errorf("%s leaves at %s, its last lift was at %s", p.Tag, p.Spec.Till, day.Clock(last[p.Tag]))
			}
		}
	}
	if at, ok := told[hurries]; !ok || !at.Before(first) || !told[leaves].IsZero() {
		t.Errorf("who leaves too soon: said at %v", told)
	}
}
