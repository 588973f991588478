package ui

import (
	"slices"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/cue"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/shelf"
	"example.org/vatside/ui/widget"
)

// dyed is a living vat, before it is looked at, with three pieces of two dips.
func dyed(t *testing.T) *desk {
	var bodies []day.Body
	for _, tag := range []string{"A1", "B1", "C2"} {
		bodies = append(bodies, day.PieceAdded{OfPiece: day.OfPiece{Tag: tag}, PieceSpec: day.PieceSpec{Fibre: "cotton", Dry: 200, Dips: 2, Dip: quantity.Minutes(5), Air: quantity.Minutes(8)}})
	}
	v := happened(t, true, bodies...)
	v.State, _ = day.Replay(v.State.Head, append(v.State.Log[:1:1], renumbered(v.State.Log[3:], 2)...)) // the look is still to come
	d := seated(t, v).at(screen.AtDay, v.ID)
	d.g.width, d.g.height = 80, 24
	return d
}

// renumbered are events with the numbers from one on.
func renumbered(events []day.Event, from int) []day.Event {
	events = slices.Clone(events)
	for i := range events {
		events[i].Seq = from + i
	}
	return events
}

// One key alone leads through a whole day, the look at the vat by its strip with it, till no piece wants hands: the big key, a pedal,
// a presenter's remote, the mouse. On its way it says that the calls are heard.
func TestOneKeyLeadsThroughADay(t *testing.T) {
	for name, press := range map[string]func(*desk){
		"the big key": func(d *desk) { d.types("[space]") },
		"a pedal":     func(d *desk) { d.types("[f5]") },
		"a remote":    func(d *desk) { d.types("[pgdown]") },
		"a mouse": func(d *desk) {
			for _, a := range widget.Lay(d.g.sheet(), d.g.width, d.g.height, d.g.style).Areas() {
				if a.Kind == widget.CallTarget {
					d.gets(leftAt(a.X, a.Y))
					return
				}
			}
			d.t.Fatalf("no call is to be clicked on:\n%s", d.shown())
		},
	} {
		d := dyed(t)
		presses := 0
		for range 3 * 3600 {
			d.runs(time.Second)
			s := d.view(spoken)
			c := day.CallOf(s.State, s.Now)
			if !s.State.LiveAny() {
				break
			}
			strip := c.Act.Kind == day.ActStrip && *c.Figure < 45
			if c.Press == "" || strip || c.Due != nil && s.Now.Before(c.Due.At) && c.Act.Kind != day.ActDecide && c.Press != "I hear the calls" {
				continue
			}
			d.runs(1100 * time.Millisecond) // read first
			press(d)
			presses++
		}
		s := d.view(spoken).State
		log := d.kinds(spoken, 0)
		if s.LiveAny() || s.Closed || s.Unconfirmed() > 0 || !strings.Contains(log, "strip begun, strip test") || strings.Count(log, "dip ended") != 6 {
			t.Errorf("%s: after %d presses %s\n%s", name, presses, log, d.shown())
		}
		if !s.Sound.Heard {
			t.Errorf("%s: nothing says that the calls are heard: %s", name, log)
		}
		if presses > 45 {
			t.Errorf("%s: it takes %d presses", name, presses)
		}
	}
}

// Without a key after the first lowering two lifts are taken as planned, and then the day stands still, whatever time goes by.
func TestNoKeyAfterTheFirstLowering(t *testing.T) {
	v := dipping(t) // A1 is in, B1 airs, C2 waits
	d := seated(t, v).at(screen.AtDay, v.ID)
	d.types("E")
	n := len(d.view(v.ID).State.Log)
	d.runs(3 * time.Hour)
	if got := d.kinds(v.ID, n); got != "dip ended" {
		t.Errorf("in three hours %q is recorded", got)
	}
	if s := d.view(v.ID); s.State.Assumed != 1 || day.CallOf(s.State, s.Now).Verb != "look" && day.CallOf(s.State, s.Now).Verb != "skim" {
		t.Errorf("%d are assumed, the call is %q", s.State.Assumed, d.called(v.ID))
	}
}

// Z hushes the call that is due, and says which; where none is it says so.
func TestHush(t *testing.T) {
	v := dipping(t)
	v.State.Head.Setup.Waiting = true
	d := seated(t, v).at(screen.AtDay, v.ID)
	if d.types("Z"); d.g.word != "nothing calls now" {
		t.Errorf("it says %q", d.g.word)
	}
	d.runs(6 * time.Minute)
	if d.types("Z"); !strings.HasPrefix(d.g.word, "hushed: A1 out") {
		t.Errorf("it says %q", d.g.word)
	}
	if len(d.view(v.ID).State.Log) != len(v.State.Log) {
		t.Error("it is in the book")
	}
}

// The window is in reverse every other second while something is late, where that is set; a time that runs keeps the machine awake; and
// a word of the call goes to the desktop.
func TestWhatIsSeenOfACall(t *testing.T) {
	v := dipping(t)
	v.State.Head.Setup.Waiting = true
	d := seated(t, v)
	h := effectsOf(t, shelf.Open(t.TempDir()))
	c := &crier{Player: h.player}
	c.set(shelf.Sounds{Flash: true, Notice: true})
	var told []string
	c.notifies(func(w wording.Shown) { told = append(told, w.String()) })
	changes, last, reversed := 0, false, 0
	d.runs(4*time.Minute + 50*time.Second)
	for i := range 120 {
		d.runs(time.Second)
		s := d.g.snap
		now := c.reverses(s)
		if now && !late(s) {
			t.Fatalf("in reverse after %d s", i)
		}
		if now {
			reversed++
		}
		if now != last {
			changes, last = changes+1, now
		}
	}
	if reversed < 30 || reversed > 60 || changes > 120 {
		t.Errorf("in reverse for %d s, %d changes", reversed, changes)
	}
	if c.set(shelf.Sounds{}); c.reverses(d.g.snap) {
		t.Error("it flashes though that is off")
	}
	d.g.snap.Days[0].State.Head.Rehearsed = false
	if !timed(d.g.snap) {
		t.Error("nothing keeps the machine awake while a dip runs")
	}
	c.set(shelf.Sounds{Notice: true})
	for _, of := range []cue.Cue{cue.Soon, cue.Next, cue.Out, cue.Check, cue.Done} {
		c.Call(cue.Call{Cue: of, Words: wording.Show(of.String())})
	}
	if !slices.Equal(told, []string{"out", "done"}) {
		t.Errorf("the desktop is told %q", told)
	}
}
