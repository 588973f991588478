package plain

import (
	"slices"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/recipes"
	"example.org/vatside/ui/cue"
)

// In a terminal the sound check is asked for once, at the first wait of the day, and sounded within seconds: yes and no answer it, and
// nothing else. In a pipe it is not asked for, and the words for it are not named.
func TestTheSoundCheckIsAsked(t *testing.T) {
	const question, row = "Do you hear the calls?", "heard, or E: "
	for _, c := range []struct {
		line         string
		sounds       bool
		asked, heard bool
	}{
		{"y", true, true, true}, {"n", true, true, false},
		{"yes", true, true, true}, {"E", true, true, true}, {"no", true, true, false}, {"not heard", true, true, false}, {"", true, false, false}, {"yes", false, false, false},
	} {
		var ear cue.Recorder
		h := &heard{t: t}
		h.term = New(nil, &h.out)
		caller := cue.Caller(cue.Silent{})
		if c.sounds {
			caller, h.term.Hush = &ear, func() {}
		}
		h.opens(recipes.Builtin()[0], day.Setup{Fill: 16, Place: day.Outdoors, Material: "HDPE"}, caller)
		h.term.tell(h.view())
		for !runs(h.call(), h.now) {
			if h.step(); strings.Contains(h.out.String(), question) && !runs(h.call(), h.now) {
				t.Fatalf("it is asked before the first wait:\n%s", h.out.String())
			}
		}
		h.waits(30 * time.Second)
		if got := strings.Count(h.out.String(), question); got != map[bool]int{true: 1}[c.sounds] {
			t.Errorf("sounds %v: it is asked %d times", c.sounds, got)
		}
		checks := func(x cue.Call) bool { return x.Cue == cue.Check }
		if slices.ContainsFunc(ear.Calls(), checks) != c.sounds {
			t.Errorf("sounds %v: the calls are %+v", c.sounds, ear.Calls())
		}
		h.types(time.Second, "help")
		if strings.Contains(h.out.String(), row) != c.sounds || strings.Contains(h.out.String(), "hush: ") != c.sounds {
			t.Errorf("sounds %v: help says\n%s", c.sounds, h.out.String())
		}
		h.types(time.Second, c.line)
		if s := h.view().State.Sound; s.At.IsZero() == c.asked || s.Heard != c.heard {
			t.Errorf("sounds %v, %q leaves %+v:\n%s", c.sounds, c.line, s, h.out.String())
		}
		h.types(time.Second, c.line) // once more it answers nothing
		h.waits(time.Minute)
		if got := strings.Count(h.out.String(), question); got != map[bool]int{true: 1}[c.sounds] {
			t.Errorf("sounds %v, answered %q it is asked %d times", c.sounds, c.line, got)
		}
	}
}

// Where no player is here, the sound check is not asked for, and y answers none.
func TestWithoutAPlayerNoSoundIsAskedFor(t *testing.T) {
	h := &heard{t: t}
	h.term = New(nil, &h.out)
	h.term.Hush, h.term.Mute = func() {}, true
	ear := &cue.Recorder{}
	ear.Fail("no player on this machine")
	h.opens(recipes.Builtin()[0], day.Setup{Fill: 16, Place: day.Outdoors, Material: "HDPE"}, ear)
	for !runs(h.call(), h.now) {
		h.step()
	}
	h.waits(30 * time.Second)
	h.types(time.Second, "y")
	said := h.out.String()
	if strings.Contains(said, "Do you hear") || strings.Count(said, "could not be sounded: no player on this machine.") != 1 || h.view().State.Sound.Heard {
		t.Errorf("it says\n%s", said)
	}
}

// y says yes to the call; it is the letter of "ready" only where the vat is judged. What Enter does is taken in its words too.
func TestYSaysYesToTheCall(t *testing.T) {
	types, log := atADay(t, true)
	for _, line := range []string{"skip warm already", "y", "piece A1 linen 200 g 3 dips"} {
		types(2*time.Second, line)
	}
	n := len(log())
	for _, line := range []string{"y", "done", "in"} {
		types(2*time.Second, line)
	}
	if got := kindsFrom(log(), n); got != "wetted out, froth skimmed, dip begun" || log()[n-2].Body.Kind() != "vat judged" {
		t.Errorf("it ends in %s, after %s", got, log()[n-2].Body.Kind())
	}
}

// y and n are for the caution that waits, or for what was just refused, and for no other act.
func TestYIsForWhatWasAsked(t *testing.T) {
	types, log := atADay(t, true)
	for _, line := range []string{"skip warm already", "ready", "piece A1 linen 200 g 3 dips", "wet A1", "skimmed"} {
		types(2*time.Second, line)
	}
	n := len(log())
	for _, line := range []string{"heater on", "n", "y", "soured A1", "Y", "y", "close the day", "n"} {
		types(2*time.Second, line)
	}
	if got := kindsFrom(log(), n); got != "dip begun" {
		t.Errorf("a caution left, a refusal, and three times y come to %q", got)
	}
	n = len(log())
	for _, line := range []string{"A1 out", "give reducer 5 g", "y"} {
		types(6*time.Minute, line)
	}
	if got := kindsFrom(log(), n); got != "dip ended, caution answered, powder added, rested" {
		t.Errorf("y is no answer to a caution: %q", got)
	}
}

// What was taken as planned goes on in plain mode as on the screens, and hush is for one call.
func TestPlainCallsAndGoesOn(t *testing.T) {
	var ear cue.Recorder
	h := &heard{t: t}
	h.term = New(nil, &h.out)
	h.term.Hush = func() {}
	h.opens(recipes.Builtin()[0], day.Setup{Fill: 16, Place: day.Outdoors, Material: "HDPE", NoLook: true}, &ear)
	h.build()
	for _, line := range []string{"E", "piece A1 linen 200 g 3 dips", "A1 wet", "", ""} {
		h.types(5*time.Second, line)
	}
	due := *h.call().Due
	h.waits(due.At.Sub(h.now) + 5*time.Second)
	if said := ear.Calls()[len(ear.Calls())-1]; said.Cue != cue.Out || said.Words.String() != "A1 out" {
		t.Errorf("at the end of the dip it calls %+v", said)
	}
	h.types(time.Second, "hush")
	n := len(ear.Calls())
	h.waits(25 * time.Second)
	_ = h.e.Saved(h.ctx, heardDay)
	h.term.tell(h.view())
	p, _ := h.view().State.Piece("A1")
	if p.Phase != day.Airing || !p.Past[0].Assumed || !strings.Contains(h.out.String(), "A1 out after dip 1, airs 10 min, at 09:51 (as planned, not confirmed).") {
		t.Errorf("without a key A1 is %+v:\n%s", p, h.out.String())
	}
	for _, c := range ear.Calls()[n:] {
		if c.Cue == cue.Out || c.Cue == cue.Overdue {
			t.Errorf("hushed, it calls %+v", c)
		}
	}
}
