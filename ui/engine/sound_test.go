package engine_test

import (
	"slices"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/ui/cue"
	"example.org/vatside/ui/engine"
)

// words are what was said with a cue, oldest first.
func (m *machine) words(of cue.Cue) []string {
	var out []string
	for _, c := range m.calls.Calls() {
		if c.Cue == of {
			out = append(out, c.Words.String())
		}
	}
	return out
}

// unchecked is a day as of dyeing on which the sound check was not answered.
func unchecked(t *testing.T, in *fake, change ...func(*day.Head)) *machine {
	t.Helper()
	m := dyeing(t, in, 1, change...)
	m.do(day.Back{})
	if m.look().State.Sound.Heard {
		t.Fatal("the check is not taken back")
	}
	return m
}

// Without today's sound check nothing is assumed; it is sounded three times while a time runs, and asked no more once it was answered.
func TestNothingIsAssumedWithoutTheSoundCheck(t *testing.T) {
	in := newFake()
	m := unchecked(t, in)
	in.run(time.Minute)
	if got := m.words(cue.Check); len(got) > 0 {
		t.Errorf("it asks %q while no time runs", got)
	}
	m.do(day.Lower{Tag: "A1"})
	in.run(7 * time.Minute)
	if got := m.words(cue.Check); len(got) != 3 || got[0] != "Sound check. If you hear this, press the letter E" {
		t.Errorf("it asks %q", got)
	}
	in.run(3 * time.Minute)
	if got := bodies[day.DipEnded](m.look().State); len(got) > 0 {
		t.Errorf("it is assumed that %v", got)
	}
	if got := m.words(cue.Out); !slices.Equal(got, []string{"A1 out", "A1 out, nobody said that the calls are heard, the clock waits for you"}) {
		t.Errorf("it calls %q", got)
	}
	m.do(day.Lift{Tag: "A1"})
	m.do(day.Record{Body: day.SoundChecked{}})
	m.do(day.Record{Body: day.FrothSkimmed{}})
	m.do(day.Lower{Tag: "A1"})
	in.run(10 * time.Minute)
	if got := bodies[day.DipEnded](m.look().State); len(got) != 1 || len(m.words(cue.Check)) != 3 {
		t.Errorf("not heard, and %v; it asks %d times", got, len(m.words(cue.Check)))
	}
}

// A call that no player could sound is told once in the book and stands as a word; what it called for is not assumed. The next one that
// is played is.
func TestACallThatCouldNotBeSounded(t *testing.T) {
	in := newFake()
	m := dyeing(t, in, 1)
	m.do(day.Lower{Tag: "A1"})
	m.calls.Fail("no player on this machine")
	in.run(9 * time.Minute)
	v := m.look()
	failed := bodies[day.SoundFailed](v.State)
	if len(failed) != 1 || failed[0] != (day.SoundFailed{Call: "A1 out", Why: "no player on this machine"}) || !strings.Contains(v.Unheard, "no player on this machine") {
		t.Errorf("it tells %v, and shows %q", failed, v.Unheard)
	}
	if got := bodies[day.DipEnded](v.State); len(got) > 0 {
		t.Errorf("it is assumed that %v", got)
	}
	m.calls.Fail("")
	in.run(time.Minute + time.Second)
	v = m.look()
	if got := bodies[day.DipEnded](v.State); len(got) != 1 || !got[0].Assumed || v.Unheard != "" || len(bodies[day.SoundFailed](v.State)) != 1 {
		t.Errorf("sounded again, %v; it shows %q", got, v.Unheard)
	}
}

// A minute before a dip, an airing or a wait is over that is said, once; of a short one not.
func TestItSaysSoon(t *testing.T) {
	in := newFake()
	m := dyeing(t, in, 2)
	m.do(day.Lower{Tag: "A1"})
	in.run(8 * time.Minute)
	m.do(day.Lift{Tag: "A1"})
	in.run(12 * time.Minute)
	m.look()
	if got := m.words(cue.Soon); !slices.Equal(got, []string{"one minute, then A1 out, then A2 in", "one minute, then look at A1: enough?"}) {
		t.Errorf("it says %q", got)
	}
	m.do(day.AddPiece{Tag: "S1", Spec: day.PieceSpec{Fibre: "silk", Dry: 50, Dips: 2, Dip: quantity.Seconds(90)}})
	m.do(day.Record{Body: day.WettedOut{OfPiece: piece("S1")}})
	m.do(day.Lower{Tag: "S1"})
	in.run(80 * time.Second)
	if got := m.words(cue.Soon); len(got) != 2 {
		t.Errorf("of a short dip it says %q", got[2:])
	}
}

// What is hushed is not called again; the next call is.
func TestHushIsForThisCallOnly(t *testing.T) {
	in := newFake()
	m := dyeing(t, in, 1, func(h *day.Head) { h.Setup.Waiting, h.Setup.NoLook = true, true })
	m.do(day.Lower{Tag: "A1"})
	in.run(8*time.Minute + 2*time.Second)
	m.look()
	if err := m.e.Hush(m.ctx, id); err != nil {
		t.Fatal(err)
	}
	in.run(10 * time.Minute)
	if got := m.called(); len(got) != 1 {
		t.Errorf("hushed, it calls %+v", got)
	}
	m.do(day.Lift{Tag: "A1"})
	m.do(day.Record{Body: day.FrothSkimmed{}})
	in.run(12*time.Minute + time.Second)
	if got := m.words(cue.In); !slices.Equal(got, []string{"A1 in"}) {
		t.Errorf("the next call is %q", got)
	}
}

// Where entries were chosen a piece that has aired is taken as lowered after the call of that; then it is lifted, and then the clock
// waits and says so. Otherwise it waits at the entry.
func TestWithoutAKey(t *testing.T) {
	for _, chosen := range []bool{false, true} {
		in := newFake()
		m := dyeing(t, in, 1, func(h *day.Head) { h.Setup.Entries, h.Setup.NoLook = chosen, true })
		m.do(day.Lower{Tag: "A1"})
		in.run(8 * time.Minute)
		m.do(day.Lift{Tag: "A1"})
		in.run(12*time.Minute + 5*time.Second)
		m.do(day.Record{Body: day.FrothSkimmed{}}) // answered after the airing: only then the piece is called in
		in.run(6 * time.Minute)
		v := m.look()
		in1 := bodies[day.DipBegun](v.State)
		if !chosen {
			if len(in1) != 1 {
				t.Errorf("not chosen, it is assumed that %v", in1)
			}
			if got := m.words(cue.In); !slices.Contains(got, "A1 in, the clock waits for you") {
				t.Errorf("not chosen, it says %q", got)
			}
			continue
		}
		if len(in1) != 2 || !in1[1].Assumed || !slices.Contains(m.words(cue.In), "A1 in") {
			t.Fatalf("chosen, it is assumed that %v; it says %q", in1, m.words(cue.In))
		}
		in.run(40 * time.Minute)
		v = m.look()
		if got := bodies[day.DipEnded](v.State); len(got) != 2 || v.State.Assumed != 2 || v.State.Unconfirmed() != 2 {
			t.Errorf("it is assumed that %v", got)
		}
		if got := m.words(cue.In); got[len(got)-1] != "Skim the froth aside, two were taken as done, the clock waits for you" {
			t.Errorf("where it stops it says %q", got)
		}
	}
}

// Where entries were chosen a day goes on to its last airing by its lifts alone being answered; each skimming and each entry that is
// taken as done is called first.
func TestAnsweredLiftsLeadThroughADay(t *testing.T) {
	in := newFake()
	m := dyeing(t, in, 1, func(h *day.Head) { h.Setup.Entries, h.Setup.NoLook = true, true })
	m.do(day.Record{Body: day.FrothSkimmed{}})
	m.do(day.Lower{Tag: "A1"})
	for range 3 {
		in.run(7*time.Minute + 25*time.Second) // it is in since 40 s, but for the first dip
		m.do(day.Lift{Tag: "A1"})
		in.run(12*time.Minute + 70*time.Second)
	}
	s := m.look().State
	if in1, skims := bodies[day.DipBegun](s), bodies[day.FrothSkimmed](s); len(in1) != 3 || len(skims) != 3 || !in1[1].Assumed || !in1[2].Assumed || !skims[1].Assumed || !skims[2].Assumed {
		t.Errorf("it is assumed that %v, %v", in1, skims)
	}
	if got := m.words(cue.In); !slices.Equal(got, []string{"Skim the froth aside", "A1 in", "Skim the froth aside", "A1 in"}) {
		t.Errorf("it calls %q", got)
	}
	if got := m.words(cue.Next); !slices.Contains(got, "A1 taken as in; A1 is in, 8 min") {
		t.Errorf("it says %q", got)
	}
}

// That all pieces are done is said once.
func TestItSaysThatAllIsDone(t *testing.T) {
	in := newFake()
	m := dyeing(t, in, 1)
	for range 3 {
		m.do(day.Lower{Tag: "A1"})
		in.run(8 * time.Minute)
		m.do(day.Lift{Tag: "A1"})
		in.run(12 * time.Minute)
	}
	m.do(day.Finish{Tag: "A1"})
	in.run(time.Minute)
	m.look()
	if got := m.words(cue.Done); !slices.Equal(got, []string{"all done, day open"}) {
		t.Errorf("it says %q", got)
	}
}

// A disk that takes nothing is called at once, then each minute.
func TestATroubleIsCalled(t *testing.T) {
	in := newFake()
	m := dyeing(t, in, 0)
	m.settle()
	m.disk.mu.Lock()
	m.disk.fail = 1 << 20
	m.disk.mu.Unlock()
	m.do(day.Record{Body: day.Note{Text: "lost?"}})
	m.until("the disk has failed", func(v engine.View) bool { return v.Trouble != "" })
	in.run(2*time.Minute + 5*time.Second)
	m.look()
	if got := m.words(cue.Trouble); len(got) < 2 || len(got) > 4 || got[0] != "trouble: what you did is not on disk" {
		t.Errorf("it says %q", got)
	}
}

// What an act has made the call is said, with what was taken as planned before it; what time alone changes is not.
func TestItSaysWhatTheActMadeTheCall(t *testing.T) {
	in := newFake()
	m := dyeing(t, in, 1, func(h *day.Head) { h.Setup.NoLook = true })
	m.do(day.Done{}) // skimmed
	m.do(day.Done{}) // lowered
	m.look()
	from := len(m.words(cue.Next))
	if got := m.words(cue.Next); !slices.Equal(got[max(0, from-2):], []string{"A1 in", "A1 is in, 8 min"}) {
		t.Errorf("it says %q", got)
	}
	in.run(8*time.Minute + 31*time.Second)
	m.look()
	if got := m.words(cue.Next)[from:]; !slices.Equal(got, []string{"A1 taken as out; A1 airs, 12 min; meanwhile: skim the froth aside"}) {
		t.Errorf("after a lift that was taken as done it says %q", got)
	}
	in.run(20 * time.Minute)
	m.look()
	if got := m.words(cue.Next)[from:]; len(got) != 1 {
		t.Errorf("of what time has changed it says %q", got[1:])
	}
}

// The first call of a day is said with its caution; where a piece hangs, once it has come out for the first time.
func TestItSaysTheFirstCallAndThePegs(t *testing.T) {
	in := newFake()
	h := tendHead(t)
	h.Opening = day.Opening{Number: 1}
	m := open(t, in, thisBoot, engine.Opening{Head: h, Writer: &memory{}})
	m.look()
	if got := m.words(cue.Next); len(got) != 1 || !strings.HasPrefix(got[0], "Weigh the pre-reduced indigo grains. Caution: ") {
		t.Errorf("of a day that begins it says %q", got)
	}
	m = dyeing(t, newFake(), 2, func(h *day.Head) { h.Setup.NoLook = true })
	m.do(day.Done{}) // skimmed
	m.do(day.Lower{Tag: "A2"})
	m.do(day.Lift{Tag: "A2"})
	m.look()
	if got := m.words(cue.Next); got[len(got)-1] != "A2 to peg 2; A1 in" {
		t.Errorf("of a piece that came out it says %q", got)
	}
}

// The sound check covers no call that wants the hands: not that of a dip which ran out before the program began.
func TestTheSoundCheckCoversNoCall(t *testing.T) {
	in := newFake()
	m := unchecked(t, in)
	m.do(day.Lower{Tag: "A1"})
	in.run(10 * time.Minute)
	m.kill()
	later := m.again(in, thisBoot)
	in.run(10 * time.Minute)
	later.look()
	if got := later.words(cue.Check); len(got) > 0 || later.called()[0].Cue != cue.Overdue {
		t.Errorf("it asks %q, and calls %+v", got, later.called())
	}
}
