// Package cue tells the hands what to do when the eyes are on the cloth: a tone, a bell, spoken words, the window title.
//
// The rules:
//   - A call never holds up its caller, whatever the sound card, the terminal or the disk do.
//   - One call sounds at a time, and the newest wins: what was said before is out of date.
//   - Urgency is carried by rhythm, never by loudness or pitch alone.
//   - Nothing that a player prints reaches the screen, and no player outlives its time limit.
//   - That a sound was heard can never be inferred: so calls repeat until answered, and stand on the screen too.
package cue

import (
	"sync"

	"example.org/vatside/model/wording"
)

// A Cue is what the hands are called for.
type Cue int

const (
	Out      Cue = iota // now: a dip is over, the piece must leave the liquor
	In                  // an airing is over: the piece may go in; never rises
	Turn                // stir the other way
	Ready               // a wait is over
	Count               // the last seconds before a short dip begins
	Overdue             // what does harm by now, or all that went over while nobody called
	Soon                // a dip is over in a minute
	Done                // every piece is done
	Trouble             // what the hands did is not on disk
	Check               // the sound check
	Next                // what the hands are asked for since the last act; never covers a call
	Taken               // a press was taken
	NotTaken            // a press was not taken
	Ask                 // a press wants a second one
)

// Top is the most urgent level of Out.
const Top = 3

var names = [...]string{Out: "out", In: "in", Turn: "turn", Ready: "ready", Count: "count", Overdue: "overdue", Soon: "soon", Done: "done", Trouble: "trouble", Check: "check", Next: "next", Taken: "taken", NotTaken: "not-taken", Ask: "ask"}

// String gives the cue's name, also used in file names.
func (c Cue) String() string {
	if c < 0 || int(c) >= len(names) {
		return "unknown cue"
	}
	return names[c]
}

// A Call is one cue at one moment.
type Call struct {
	Cue Cue
	// Level is the urgency of Out, 0 to Top. For Count it is the seconds to go, 1 to 5 (0 means 5). The others have none.
	Level int
	// Words are what is spoken, where speech is on; empty for a call without words.
	Words wording.Shown
	// Then is told, at most once, what became of the call; nil: nobody asks. It is called from another goroutine and must not wait.
	Then func(Outcome)
}

// told tells what became of a call.
func (c Call) told(o Outcome) {
	if c.Then != nil {
		c.Then(o)
	}
}

// An Outcome is what became of a call.
type Outcome struct {
	Played bool   // a player ended well. That somebody heard it is not said with that
	Why    string // why it was not played; empty where it was, where all sound is off, or where another call took its place
}

// A Caller calls. Call returns at once and never fails: a call that cannot sound is still on the screen.
type Caller interface{ Call(c Call) }

// Silent calls nobody, and tells nobody what became of a call: for plain mode in a pipe, rehearsals and tests.
type Silent struct{}

func (Silent) Call(Call) {}

// A Recorder keeps the calls instead of sounding them, for tests. The zero Recorder is ready to use.
type Recorder struct {
	mu    sync.Mutex
	calls []Call
	fails string
}

// Call keeps c; it has played at once, unless Fail said otherwise.
func (r *Recorder) Call(c Call) {
	r.mu.Lock()
	r.calls = append(r.calls, c)
	why := r.fails
	r.mu.Unlock()
	c.told(Outcome{Played: why == "", Why: why})
}

// Fail has the calls from now on not played because of why; empty: played.
func (r *Recorder) Fail(why string) {
	r.mu.Lock()
	defer r.mu.Unlock()
	r.fails = why
}

// Calls gives what was called so far, oldest first.
func (r *Recorder) Calls() []Call {
	r.mu.Lock()
	defer r.mu.Unlock()
	return append([]Call(nil), r.calls...)
}
