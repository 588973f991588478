package ui

import (
	"strings"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/ui/cue"
	"example.org/vatside/ui/screen"
)

// A press that has just come to be for another vat is not taken for 0.7 s, and is after that.
func TestAPressJustAfterTheVatChanged(t *testing.T) {
	for _, wait := range []time.Duration{50, 200, 650, 700} {
		bin, tub := dipping(t), another(dipping(t), "tub")
		bin.Now = bin.State.At.Add(4*time.Minute + 30*time.Second)
		d := seated(t, bin, tub).at(screen.AtHome, "").runs(time.Second)
		n := len(tub.State.Log)
		d.types("[space]") // of two lifts that end together the first is answered; then the other rules
		d.in.run(wait * time.Millisecond)
		d.types("[space]")
		both := d.kinds(bin.ID, n) == lifted && d.kinds(tub.ID, n) == lifted
		if both != (wait >= 700) {
			t.Errorf("%d ms after, both are out: %v: %s", wait, both, d.g.word)
		}
		if wait < 700 && !strings.HasPrefix(d.g.word, "Not taken: it has just changed. Now ") {
			t.Errorf("it says %q", d.g.word)
		}
	}
}

// A press is for the call that was seen: the one of the last frame, though time has changed it since.
func TestAPressIsForWhatWasSeen(t *testing.T) {
	of := day.OfPiece{Tag: "A1"}
	spec := day.PieceSpec{Fibre: "cotton", Dry: 200, Dips: 4, Dip: quantity.Minutes(5), Air: quantity.Minutes(10)}
	v := happened(t, true, day.PieceAdded{OfPiece: of, PieceSpec: spec}, day.WettedOut{OfPiece: of}, day.DipBegun{OfPiece: of, Dip: 1, For: spec.Dip},
		day.DipEnded{OfPiece: of, Dip: 1, Air: spec.Air}, day.FrothSkimmed{})
	v.Now = v.State.At.Add(8*time.Minute + 50*time.Second)
	d := seated(t, v).at(screen.AtDay, v.ID)
	n, seen := len(v.State.Log), d.called(v.ID)
	d.in.run(12 * time.Second) // nothing is painted
	if now := d.called(v.ID); !strings.HasPrefix(seen, "air") || !strings.HasPrefix(now, "lower") {
		t.Fatalf("the call is %s, then %s", seen, now)
	}
	for _, rests := range []bool{true, false} { // where the engine rests a key asks for the time
		d.g.snap.Resting = rests
		shown := d.g.snap.Days
		d.gets(tea.KeyMsg{Type: tea.KeySpace, Runes: []rune{' '}})
		if got := d.kinds(v.ID, n); got != "" || d.g.word != "Not taken. Now A1 in." {
			t.Errorf("a press for %s records %q: %s", seen, got, d.g.word)
		}
		d.g.snap.Days = shown
	}
	d.sees()
	d.runs(time.Second).types("[space]")
	if got := d.kinds(v.ID, n); !strings.Contains(got, "dip begun") {
		t.Errorf("a press for what is seen then records %q: %s", got, d.g.word)
	}
}

// A chosen act stays until it is done; where another lift falls due the first press only says what the call is. A bounce of the press
// that did it answers nothing.
func TestAChosenAct(t *testing.T) {
	v := dipping(t)
	n := len(v.State.Log)
	v.Now = v.State.At.Add(4*time.Minute + 50*time.Second)
	d := seated(t, v).at(screen.AtDay, v.ID).types("[down][down][down]") // C2
	if !strings.Contains(d.shown(), "leave C2") {
		t.Fatalf("C2 is not chosen:\n%s", d.shown())
	}
	d.runs(11 * time.Second)
	if strings.Contains(d.shown(), "leave C2") {
		t.Errorf("a lift is due, and the press is for C2:\n%s", d.shown())
	}
	d.types("[space]")
	if got := d.kinds(v.ID, n); got != "" || d.g.word != "Now: lift A1" {
		t.Errorf("the first press records %q, says %q", got, d.g.word)
	}
	if d.runs(time.Second).types("[space]"); d.kinds(v.ID, n) != lifted {
		t.Errorf("the second records %q: %s", d.kinds(v.ID, n), d.g.word)
	}

	v.Now = v.State.At.Add(4*time.Minute + 10*time.Second)
	d = seated(t, v).at(screen.AtDay, v.ID).types("[down][down][down][space]")
	if got := d.kinds(v.ID, n); got != "dip begun" {
		t.Fatalf("the chosen one: %q: %s", got, d.g.word)
	}
	d.in.run(200 * time.Millisecond)
	if d.types("[space]"); d.kinds(v.ID, n) != "dip begun" {
		t.Errorf("a bounce records %q", d.kinds(v.ID, n))
	}
	d.runs(time.Second)
	if strings.Contains(d.shown(), "leave C2") {
		t.Errorf("it is done and stays chosen:\n%s", d.shown())
	}

	n = len(d.view(v.ID).State.Log) // it is only just in: the first press asks, and so does one that bounces
	d.types("[down][down][down][space]")
	if got := d.kinds(v.ID, n); got != "" || !strings.HasPrefix(d.g.word, "C2: 4:59 left, and it would come out now; press once more") || !strings.Contains(d.shown(), "esc leave C2") {
		t.Errorf("an early lift of the chosen one: %q, %q:\n%s", got, d.g.word, d.shown())
	}
	d.in.run(300 * time.Millisecond)
	d.sees()
	if d.types("[space]"); d.kinds(v.ID, n) != "" {
		t.Errorf("a bounce records %q", d.kinds(v.ID, n))
	}
	if d.runs(time.Second).types("[space]"); d.kinds(v.ID, n) != lifted {
		t.Errorf("the second press records %q: %s", d.kinds(v.ID, n), d.g.word)
	}
	d.runs(time.Second).types("[down][down][down]")
	if d.types("[esc]"); strings.Contains(d.shown(), "leave C2") {
		t.Error("Esc does not drop it")
	}
}

// Enter that bounces after it has closed a line does nothing on the day; space and a later Enter do.
func TestEnterThatClosedALine(t *testing.T) {
	for _, keys := range []string{"r36[enter]", ":36 C[enter]"} {
		for _, wait := range []time.Duration{50, 650, 700} {
			v := dipping(t)
			v.Now = v.State.At.Add(4*time.Minute + 30*time.Second)
			d := seated(t, v).at(screen.AtDay, v.ID).runs(time.Second)
			n := len(v.State.Log)
			d.types(keys)
			d.in.run(wait * time.Millisecond)
			d.types("[enter]")
			if lifts := strings.Contains(d.kinds(v.ID, n), lifted); lifts != (wait >= 700) {
				t.Errorf("%s, %d ms later Enter lifts: %v, %q: %s", keys, wait, lifts, d.kinds(v.ID, n), d.g.word)
			}
		}
	}
}

// The question before a day is closed is asked once, by the line that x opens, and not answered within a second; what it leaves open
// stands there, and a reason that is typed asks nothing more.
func TestClosingIsAskedForASecond(t *testing.T) {
	for _, why := range []string{"", "rain"} {
		for _, wait := range []time.Duration{100, 990, 1000} {
			v := happened(t, true, day.PieceAdded{OfPiece: day.OfPiece{Tag: "A1"}, PieceSpec: day.PieceSpec{Fibre: "cotton", Dry: 200, Dips: 2}})
			n := len(v.State.Log)
			d := seated(t, v).at(screen.AtDay, v.ID).runs(time.Second).types("x")
			if got := strings.Join(strings.Fields(d.shown()), " "); !strings.Contains(got, "this closes the day, and no key takes it back") || !strings.Contains(got, "A1 not finished") {
				t.Fatalf("x asks:\n%s", got)
			}
			d.types(why)
			d.in.run(wait * time.Millisecond)
			d.types("[enter]")
			closed := d.view(v.ID).State.Closed
			if closed != (wait >= 1000) || closed && d.kinds(v.ID, n) != "caution answered, closed" {
				t.Errorf("%q, %d ms after the question: closed %v, %q: %s", why, wait, closed, d.kinds(v.ID, n), d.g.word)
			}
		}
	}
}

// The first press of an early lift asks, in words and with a sound that is not that of a refusal; the second counts from a second on.
func TestAnEarlyLiftAsks(t *testing.T) {
	for _, wait := range []time.Duration{200, 900, 1100} {
		v := dipping(t)
		d := seated(t, v).at(screen.AtPlan, v.ID).runs(2 * time.Second)
		n := len(v.State.Log)
		d.types("[space]")
		if !strings.HasSuffix(d.g.word, "press once more") || d.kinds(v.ID, n) != "" {
			t.Fatalf("the first press says %q", d.g.word)
		}
		d.in.run(wait * time.Millisecond)
		d.types("[space]")
		if lifts := strings.Contains(d.kinds(v.ID, n), lifted); lifts != (wait >= 1000) {
			t.Errorf("%d ms later it is out: %v: %s", wait, lifts, d.g.word)
		}
	}
	if cue.Ask.String() != "ask" || string(cue.Wave(cue.Ask, 0)) == string(cue.Wave(cue.NotTaken, 0)) {
		t.Error("a question sounds like a refusal")
	}
}

// The second press of an early lift counts for some seconds, as long as its question stands, and not over another screen between.
func TestAnEarlyLiftIsSoonForgotten(t *testing.T) {
	for _, c := range []struct {
		keys  string
		wait  time.Duration
		lifts bool
	}{{"", 4 * time.Second, true}, {"", 7 * time.Second, false}, {"?[esc]", 2 * time.Second, false}, {"l[esc]", 2 * time.Second, false}, {"", 27 * time.Second, false}} {
		v := dipping(t)
		d := seated(t, v).at(screen.AtDay, v.ID).runs(2 * time.Second)
		n := len(v.State.Log)
		d.types("[space]" + c.keys)
		if d.runs(c.wait); strings.Contains(d.shown(), "it would come out now") != c.lifts {
			t.Errorf("%q and %s later it shows\n%s", c.keys, c.wait, d.shown())
		}
		if d.types("[space]"); strings.Contains(d.kinds(v.ID, n), lifted) != c.lifts {
			t.Errorf("%q and %s later it is out: %v: %q", c.keys, c.wait, d.kinds(v.ID, n), d.g.word)
		}
	}
}

// While first aid is in front nothing is assumed, nor afterwards of what ran out meanwhile.
func TestFirstAidAssumesNothing(t *testing.T) {
	for _, aid := range []bool{true, false} {
		v := dipping(t)
		n := len(v.State.Log)
		v.Now = v.State.At.Add(4*time.Minute + 55*time.Second)
		d := seated(t, v).at(screen.AtDay, v.ID)
		d.types("E")
		n++
		if aid {
			d.types("!")
		}
		d.runs(50 * time.Second)
		if got := d.kinds(v.ID, n); (got == "") != aid {
			t.Errorf("first aid %v: %q is recorded", aid, got)
		}
		if d.types("[esc]").runs(time.Minute); aid && d.kinds(v.ID, n) != "" {
			t.Errorf("afterwards %q is recorded", d.kinds(v.ID, n))
		}
	}
}

// In a day that is played by presses at human times hardly one that is wanted is refused.
func TestWantedPressesAreTaken(t *testing.T) {
	var bodies []day.Body
	for _, tag := range []string{"A1", "B1", "C2"} {
		bodies = append(bodies, day.PieceAdded{OfPiece: day.OfPiece{Tag: tag}, PieceSpec: day.PieceSpec{Fibre: "cotton", Dry: 200, Dips: 6, Dip: quantity.Minutes(2), Air: quantity.Minutes(3)}})
	}
	v := happened(t, true, bodies...)
	d := seated(t, v).at(screen.AtDay, v.ID)
	wanted, refused := 0, 0
	screens := []string{"", "m", "l", "g", ""}
	for i := range 6000 {
		d.runs(time.Second)
		s := d.view(v.ID)
		c := day.CallOf(s.State, s.Now)
		if c.Verb == "close" || s.State.Closed || c.Act.Kind == day.ActIdle {
			break
		}
		if c.Press == "" || c.Due != nil && c.Act.Kind != day.ActDecide && s.Now.Before(c.Due.At.Add(-time.Second*time.Duration(i%3))) {
			continue
		}
		if d.top().at == screen.AtDay && c.Due != nil { // from another screen
			d.types(screens[i%len(screens)])
		}
		d.runs(time.Duration(800+i%7*300) * time.Millisecond)
		before := len(d.view(v.ID).State.Log)
		for range 3 {
			d.types("[pgdown]")
			if !strings.HasSuffix(d.g.word, "press once more") {
				break
			}
			d.runs(1100 * time.Millisecond)
		}
		if wanted++; len(d.view(v.ID).State.Log) == before {
			refused++
			t.Logf("refused: %s: %q", c.ID, d.g.word)
		}
		for d.top().at != screen.AtDay {
			d.types("[esc]")
		}
	}
	if wanted < 50 || refused*50 > wanted {
		t.Errorf("of %d presses %d were refused", wanted, refused)
	}
}
