package day_test

import (
	"testing"
	"time"

	"example.org/vatside/model/day"
)

// Late is what does harm: a tenth of the dip over its end, at least 10 s. An airing, a bath, a step and a rest are never late.
func TestLateIsWhatDoesHarm(t *testing.T) {
	for _, c := range []struct {
		kind      day.DueKind
		dip, over time.Duration
		late      bool
	}{
		{day.DueLift, 8 * minute, 47 * sec, false}, {day.DueLift, 8 * minute, 48 * sec, true},
		{day.DueLift, 45 * sec, 9 * sec, false}, {day.DueLift, 45 * sec, 10 * sec, true},
		{day.DueLift, 8 * minute, -sec, false}, {day.DueBath, 10 * minute, minute, false},
		{day.DueEnter, 12 * minute, 5 * time.Hour, false}, {day.DueFinish, 12 * minute, time.Hour, false}, {day.DueStep, minute, time.Hour, false},
	} {
		d := day.Due{Kind: c.kind, Since: morning, At: morning.Add(c.dip)}
		if got := d.Late(d.At.Add(c.over)); got != c.late {
			t.Errorf("kind %d of %s, %s over: late is %v", c.kind, c.dip, c.over, got)
		}
	}
}

// The sound check is asked for once a day, as soon as a time runs or a piece is to go in; it stands beside the call, and a press says that the calls are
// heard only where it would else say nothing.
func TestTheSoundCheck(t *testing.T) {
	p := dyeing(t, 1)
	if day.AsksSound(p.s) {
		t.Error("it is asked for while no time runs, and nothing is to go in")
	}
	p.do(day.Done{})
	if c := p.call(); !day.AsksSound(p.s) || c.Press != "in" || p.s.SoundPrompt(c) != "Sound check. If you hear this, press the letter E" {
		t.Errorf("before the first lowering it is asked for: %v; the press says %q", day.AsksSound(p.s), c.Press)
	}
	p.do(day.Done{}) // lowered
	p.wait(4 * sec)
	if !day.AsksSound(p.s) || p.call().Press == "I hear the calls" {
		t.Errorf("in the dip it is asked for: %v; the press says %q", day.AsksSound(p.s), p.call().Press)
	}
	p.wait(8 * minute)
	p.do(day.Done{}) // out
	call := p.call()
	if call.Press != "I hear the calls" || call.ID != "air A1 1" || p.s.SoundPrompt(call) != "Sound check. If you hear this, press" {
		t.Fatalf("in the airing the press of %q says %q", call.ID, call.Press)
	}
	if got := p.do(day.Done{Call: call.ID}); got != "sound checked" || !p.s.Sound.Heard || p.call().ID != call.ID {
		t.Errorf("the press makes %s, heard is %v, the call %q", got, p.s.Sound.Heard, p.call().ID)
	}
	p.refuses(day.Done{}, "airs")
	if day.AsksSound(p.s) {
		t.Error("it is asked for once more")
	}
	p.happen(day.SoundFailed{Call: "A1 out", Why: "no player"})
	if !p.s.Sound.Heard || p.s.Sound.Failed != "no player" || p.s.Assumed != 0 {
		t.Errorf("after a failure %+v", p.s.Sound)
	}
	p.do(day.Record{Body: day.SoundChecked{Heard: true}})
	if p.s.Sound.Failed != "" {
		t.Error("checked anew, it has failed still")
	}
	p.refuses(day.Record{Body: day.SoundFailed{}}, "own key")
}

// An entry is taken as planned only where that was chosen, of a piece that has been in before, after an act that was answered; then a
// lift, and then the clock waits.
func TestAnEntryIsAssumedWhereItWasChosen(t *testing.T) {
	for _, chosen := range []bool{false, true} {
		p := dyeing(t, 1, func(h *day.Head) { h.Setup.Entries, h.Setup.NoLook = chosen, true })
		p.do(day.Done{}) // skimmed
		p.wait(10 * minute)
		if got := p.assume(); got != "" {
			t.Fatalf("a first entry is assumed: %s", got)
		}
		p.do(day.Done{}) // lowered by hand
		p.wait(8 * minute)
		p.do(day.Done{}) // out
		p.do(day.Record{Body: day.FrothSkimmed{}})
		p.wait(12*minute + 29*sec)
		if got := p.assume(); got != "" {
			t.Fatalf("%s is assumed before 30 s", got)
		}
		p.wait(sec)
		if _, ok := day.Assume(p.s, p.now, morning, func(day.Due) bool { return false }); ok {
			t.Error("an entry is assumed that nobody heard")
		}
		got := p.assume()
		if !chosen {
			if got != "" || day.Stops(p.s, p.now, true) != "the clock waits for you" {
				t.Errorf("not chosen, %q is assumed; it says %q", got, day.Stops(p.s, p.now, true))
			}
			continue
		}
		a1 := p.piece("A1")
		if got != "airing ended, dip begun" || p.s.Assumed != 1 || a1.Phase != day.InVat || !a1.Since.Equal(p.now.Add(-30*sec)) || p.s.Unconfirmed() != 1 {
			t.Fatalf("chosen, %q is assumed, %d in a row, %d unsaid, %+v", got, p.s.Assumed, p.s.Unconfirmed(), a1)
		}
		p.wait(8 * minute)
		if got := p.assume(); got != "dip ended" || p.s.Assumed != 2 || !p.piece("A1").Past[1].Assumed {
			t.Fatalf("then %q is assumed, %d in a row", got, p.s.Assumed)
		}
		p.do(day.Record{Body: day.FrothSkimmed{}})
		p.wait(12*minute + 30*sec)
		if got := p.assume(); got != "airing ended, dip begun" {
			t.Errorf("after an answer %q is assumed", got)
		}
		p.wait(8 * minute)
		p.assume()
		p.wait(13 * minute)
		if got := p.assume(); got != "" || p.s.Assumed != 2 {
			t.Errorf("a third in a row is assumed: %s", got)
		}
		p.do(day.ConfirmAll{})
		if p.s.Unconfirmed() != 0 || p.piece("A1").Past[1].Assumed {
			t.Errorf("confirmed, %d wait; %+v", p.s.Unconfirmed(), p.piece("A1").Past)
		}
	}
}

// Where entries were chosen, an answered lift is enough: the froth is taken as skimmed 30 s after the airing, unconfirmed, then the piece
// as in, each with a call of its own. The skimming is none of the two acts in a row. Not before a first entry, and not after an act
// that was not answered.
func TestTheFrothIsTakenAsSkimmedBeforeAnEntry(t *testing.T) {
	for _, chosen := range []bool{false, true} {
		p := dyeing(t, 1, func(h *day.Head) { h.Setup.Entries, h.Setup.NoLook = chosen, true })
		p.wait(10 * minute)
		if got := p.assume(); got != "" || p.call().Verb != "skim" {
			t.Fatalf("before a first entry %q is assumed, the call is %s", got, p.call().Verb)
		}
		p.do(day.Done{}) // skimmed
		p.do(day.Done{}) // lowered
		p.wait(8 * minute)
		p.do(day.Done{}) // out
		p.wait(12*minute + 29*sec)
		if got := p.assume(); got != "" {
			t.Fatalf("%s is assumed before 30 s", got)
		}
		p.wait(sec)
		got := p.assume()
		if !chosen {
			if got != "" || day.Stops(p.s, p.now, true) != "the clock waits for you" {
				t.Errorf("not chosen, %q is assumed; it says %q", got, day.Stops(p.s, p.now, true))
			}
			continue
		}
		last := p.s.Log[len(p.s.Log)-1].Body
		if got != "froth skimmed" || last.Sentence(p.s.Head.Setup.System()) != "froth skimmed (as planned, not confirmed)" || p.s.Assumed != 0 || p.s.Unconfirmed() != 1 || p.call().Verb != "lower" {
			t.Fatalf("chosen, %q is assumed, %d in a row, %d unsaid, the call is %s", got, p.s.Assumed, p.s.Unconfirmed(), p.call().Verb)
		}
		p.wait(29 * sec)
		if got := p.assume(); got != "" {
			t.Fatalf("%s is assumed before its own call was 30 s old", got)
		}
		p.wait(sec)
		if got := p.assume(); got != "airing ended, dip begun" || p.s.Assumed != 1 || p.s.Unconfirmed() != 2 {
			t.Fatalf("then %q is assumed, %d in a row, %d unsaid", got, p.s.Assumed, p.s.Unconfirmed())
		}
		p.wait(9 * minute)
		if got := p.assume(); got != "dip ended" || p.s.Assumed != 2 {
			t.Fatalf("then %q is assumed, %d in a row", got, p.s.Assumed)
		}
		p.wait(13 * minute)
		if got := p.assume(); got != "" || day.Stops(p.s, p.now, true) != "two were taken as done, the clock waits for you" {
			t.Errorf("after two %q is assumed; it says %q", got, day.Stops(p.s, p.now, true))
		}
		p.do(day.ConfirmAll{})
		if p.s.Unconfirmed() != 0 {
			t.Errorf("confirmed, %d wait", p.s.Unconfirmed())
		}
	}
}

// A skimming or an entry that the hands took back is not taken as planned again: the clock waits for them.
func TestWhatWasTakenBackIsNotAssumedAgain(t *testing.T) {
	p := dyeing(t, 1, func(h *day.Head) { h.Setup.Entries, h.Setup.NoLook = true, true })
	p.do(day.Done{})
	p.do(day.Done{})
	p.wait(8 * minute)
	p.do(day.Done{}) // out
	p.wait(12*minute + 30*sec)
	for _, want := range []string{"froth skimmed", "airing ended, dip begun"} {
		c, ok := day.Assume(p.s, p.now, morning, nil)
		if !ok {
			t.Fatalf("no %s is assumed", want)
		}
		if got := p.do(c); got != want {
			t.Fatalf("%s is assumed, want %s", got, want)
		}
		p.do(day.Undo{Seq: p.s.Seq})
		p.wait(minute)
		if c, ok := day.Assume(p.s, p.now, morning, nil); ok {
			t.Errorf("taken back, %+v is assumed again", c)
		}
		if want == "froth skimmed" {
			p.do(day.Done{})
			p.wait(minute)
		}
	}
}
