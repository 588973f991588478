package ui

import (
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/ui/screen"
)

// While the class is talked to each screen of the day, and home, say that pieces wait: M begins it, and M ends it.
func TestEachScreenSaysThatPiecesWait(t *testing.T) {
	v := classView(t, "Ida", "Jon")
	d := seated(t, v)
	places := []screen.Place{screen.AtDay, screen.AtTable, screen.AtBench, screen.AtLog, screen.AtCourse, screen.AtPlan}
	for _, at := range places {
		if d.at(at, v.ID); strings.Contains(d.shown(), "pieces wait") && at != screen.AtDay {
			t.Errorf("%s says it before:\n%s", at, d.shown())
		}
	}
	d.at(screen.AtDay, v.ID).types("M")
	if !d.view(v.ID).State.Talks() {
		t.Fatalf("M begins no talk:\n%s", d.shown())
	}
	for _, at := range places {
		if d.at(at, v.ID); !strings.Contains(d.shown(), "pieces wait") {
			t.Errorf("%s does not say it:\n%s", at, d.shown())
		}
	}
	d.at(screen.AtDay, v.ID).runs(10 * time.Minute).types("[space]") // Ida's is out; the next would go in
	call := func() day.Call { v := d.view(v.ID); return v.Call() }
	for k := call().Act.Kind; k == day.ActAir || k == day.ActDecide; k = call().Act.Kind {
		if strings.Contains(d.shown(), "then: in A") {
			t.Fatalf("a piece is to go in:\n%s", d.shown())
		}
		d.runs(time.Minute)
	}
	if c := call(); c.Act.Kind != day.ActHold || !strings.Contains(d.shown(), "Talking: pieces wait") {
		t.Errorf("the call is %q:\n%s", c.Words, d.shown())
	}
	d.types("M")
	if c := call(); c.Act.Kind == day.ActHold || d.view(v.ID).State.Talks() {
		t.Errorf("after the talk the call is %q", c.Words)
	}
}

// One person talks: M on one day, and what takes it back, holds and lets go all days that are led here.
func TestATalkIsOfAllVats(t *testing.T) {
	north, south := classView(t, "Ida", "Jon"), classView(t, "Kim", "Lea")
	south.ID = "tub/2026-03-28"
	d := seated(t, north, south)
	talks := func(want bool, after string) {
		for _, id := range []string{north.ID, south.ID} {
			if d.view(id).State.Talks() != want {
				t.Errorf("after %s: %s talks: %v", after, id, !want)
			}
		}
	}
	d.at(screen.AtDay, north.ID).types("M")
	talks(true, "M")
	d.at(screen.AtDay, south.ID).types("M")
	talks(false, "M on the other")
	d.types(":hold[enter]")
	talks(true, "the line")
	d.types("[pgup]")
	talks(false, "taking it back")
}
