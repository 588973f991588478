package engine

import (
	"context"
	"errors"
	"sync"
	"sync/atomic"
	"time"

	"example.org/vatside/model/book"
	"example.org/vatside/model/day"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/cue"
	"example.org/vatside/ui/shelf"
)

// View is one open day as the screens see it.
type View struct {
	ID      string // VAT/DAY
	State   day.State
	Now     time.Time
	Saved   int    // the last event that is on disk; later ones are not yet
	Trouble string // a standing word of trouble, such as a failing disk
	Unsaved int    // how many acts are not on disk, in the day or elsewhere
	Advice  string // a standing word where the forecasts failed and are off
	Unheard string // a standing word where a call could not be sounded, until the dyer has answered the sound check after it
	Looking bool   // another program writes this day
	Free    bool   // and it has left the vat: the day can be taken over
	Newer   string // a later day of the vat that it has begun since
	Polled  bool   // what it writes is looked for once a second, as the disk does not tell of changes
	Pace    float64
	Outlook *outlook.Outlook // of the liquor, as of the last minute or event; nil until it is reckoned
	Blue    *outlook.Blue    // of the pieces, with it
	Table   *outlook.Table   // the timetable, as of the last event
	moment  *moment          // at Now
}

// Snapshot is everything that the engine knows at one moment. It is a value: nobody can change the engine through it.
type Snapshot struct {
	Wall    time.Time
	Days    []View
	Resting bool // nothing counts by the second: the next one may come only in some seconds
}

// Day finds an open day. Inlined where it is used it was 16 KB of the program.
//
//go:noinline
func (s Snapshot) Day(id string) (View, bool) {
	if v := s.Seen(id); v != nil {
		return *v, true
	}
	return View{}, false
}

// Seen is Day without a copy of two kilobytes, nil for a day that is not open. Nobody changes it.
func (s Snapshot) Seen(id string) *View {
	for i := range s.Days {
		if s.Days[i].ID == id {
			return &s.Days[i]
		}
	}
	return nil
}

// Engine drives the open days. Make it with New, start Run in a goroutine, and talk to it with Open, Do and Leave.
type Engine struct {
	in         Instruments
	boot       string
	caller     cue.Caller
	asks       chan func()
	inbox      chan scribeDone
	reckonings chan reckoned
	keeps      chan kept
	sounded    chan sounded
	mail       chan Snapshot
	gone       chan struct{} // closed when nothing is asked any more
	ticked     time.Duration // the monotonic instant of the last tick
	rested     time.Duration // the rest that was meant after it
	days       []*session
	left       Parting         // of days that were let go before
	alive      context.Context // of Run

	waiters   []waiter
	stopwatch atomic.Bool   // a screen has one
	held      atomic.Bool   // nothing is assumed
	unasked   atomic.Bool   // what a press was asked is forgotten
	effort    atomic.Int64  // of what is reckoned beside it
	roused    chan struct{} // has one slot: that has changed
}

// ErrGone is the answer once the engine has stopped.
var ErrGone = errors.New("the day's engine has stopped")

// New makes an engine. boot is the id of this boot of the machine, 8 hex figures, empty where there is none.
func New(in Instruments, boot string, caller cue.Caller) *Engine {
	e := &Engine{
		in: in, boot: boot, caller: caller,
		asks: make(chan func()), inbox: make(chan scribeDone, 8), reckonings: make(chan reckoned, 64), keeps: make(chan kept, 8), sounded: make(chan sounded, 64),
		mail: make(chan Snapshot, 1), gone: make(chan struct{}), ticked: in.Mono(),
		roused: make(chan struct{}, 1),
	}
	e.effort.Store(Fully)
	return e
}

// Opening is a day handed to the engine.
type Opening struct {
	ID     string
	Head   day.Head
	Events []day.Event
	Writer Writer // nil: only looked at
	Other  Other  // what another program writes of it, where it is only looked at; nil: it stays as it is
	Source Source // nil: the machine's own time
}

// session is one open day. Only the engine's goroutine touches it, but for its scribe, which only writes.
type session struct {
	id        string
	state     day.State // changed by set
	room      day.Room  // for its log
	deadlines []day.Due // of the state, once listed
	listed    bool
	ticked    time.Time // the day-time of the last tick: what is shown is of that instant
	moment    *moment   // of the state, as last asked for
	source    Source
	writer    Writer // nil: only looked at, another program writes
	boot      string
	waiting   []day.Event          // applied, not in the day's file yet nor in the writer's spill; the first is in flight
	last      int                  // the highest number in its file when it was opened
	began     int                  // how many events it had then
	busy      bool                 // the scribe is at work
	asked     time.Duration        // since this monotonic instant
	mono      func() time.Duration // the machine's monotonic clock
	trouble   string               // why nothing goes to disk; only looked at: why it is not read again
	why       string               // the last refusal of the day's file
	away      shelf.Away           // what the writer keeps elsewhere and goes on trying to bring into the day
	crashed   bool                 // the writer has failed
	shed      bool                 // the dyer leaves without what is waiting
	keptTo    int                  // waiting events up to this one lie in a file elsewhere
	elsewhere shelf.Away           // that file
	unkept    bool                 // what lies there is in the day by now, and is to be called so
	advice    string               // a word where the forecasts failed and are off
	watched   time.Time            // since when somebody could hear
	called    map[dueKey]int       // calls made
	several   bool                 // other days are written too
	retry     time.Duration        // monotonic instant of the next try after a failure
	inbox     chan<- scribeDone    // where the scribe reports
	outlook   *outlook.Outlook     // as last reckoned
	blue      *outlook.Blue
	table     *outlook.Table
	bluesAt   time.Time     // the minute that the blues are for
	reckoning bool          // a new outlook is being reckoned
	seen      int           // events that the last outlook knows of
	seenAt    time.Time     // and the minute it is for
	cautioned string        // the call whose press was answered with a caution
	spared    string        // the pieces that this press left as they are
	askedAt   time.Duration // and when, on the monotonic clock
	noticed   string        // the id of the call as last looked at
	noticedAt time.Duration // the monotonic instant at which it changed; 0: not since the day was opened

	sound // how its calls are heard

	watching // while it is only looked at
}

// Writer puts one event on disk, written and synced when it returns nil.
type Writer interface {
	Append(day.Event) error
	Close() error
}

// scribeDone is what the scribe says of the event in flight.
type scribeDone struct {
	id      string
	err     error
	away    shelf.Away
	crashed bool // the writer failed at it, and is not trusted any more
	back    bool // it was a try to bring into the day what lies elsewhere
}

// refuge is a Writer that can keep events elsewhere when its file refuses them: shelf.Writer.
type refuge interface {
	// Away tells what lies elsewhere; Return tries to bring it into the day. Not to be called while Append runs.
	Away() shelf.Away
	Return() error
	// Keep puts events elsewhere, whatever Append is doing.
	Keep([]day.Event) (shelf.Away, error)
}

// watching is what a session that is only looked at knows of the program that writes it.
type watching struct {
	free   bool   // that program has left the vat
	newer  string // a later day that it began
	polled bool
	again  chan struct{} // asks whether it is still free
	stop   context.CancelFunc
}

// Other is a day that another program writes, as the shelf shows it. Its methods are called beside the engine.
type Other interface {
	// Changed has one slot: a signal lies in it when the day may have changed.
	Changed() <-chan struct{}
	// Read reads the day. newer is a later day of the vat that was begun meanwhile, or empty.
	Read() (b book.Book, newer string, err error)
	// Polled tells that changes are looked for once a second, as the system does not tell of them.
	Polled() bool
	// Left waits until no program writes the vat; it errs where that cannot be waited for. Free tells whether none does now.
	Left() error
	Free() bool
	Close()
}

// sound is how the calls of a day are heard: what became of each, and what is sounded besides deadlines.
type sound struct {
	to       chan<- sounded
	played   map[dueKey]bool // the deadlines whose call was played
	failed   string          // why the last call was not; empty: it was
	live     bool            // a piece wanted hands when last looked at
	prompt   string          // what the sound check says
	checks   int             // how often that was sounded
	checked  time.Duration   // when it was last, on the monotonic clock
	troubles int             // calls of the trouble that stands
	troubled time.Duration   // when it was last called
	spoken   string          // the call as of the last tick
	events   int             // and how many there were then
	aside    string          // what could be done beside it, as of the last act
}

// sounded is what became of the call of some deadlines.
type sounded struct {
	id    string
	keys  []dueKey
	words wording.Shown
	cue.Outcome
}

// reckoned is what was reckoned of a day beside the engine. What is nil stays as it was.
type reckoned struct {
	id     string
	failed bool
	of     *outlook.Outlook
	blue   *outlook.Blue
	table  *outlook.Table
}

// kept is what came of keeping a day's events elsewhere.
type kept struct {
	id   string
	upTo int // the last event that is kept
	away shelf.Away
	err  error
}

// waiter waits until something is so of what the engine owns.
type waiter struct {
	ctx  context.Context
	so   func() bool // called on the engine's goroutine
	done chan struct{}
}

// moment is what is asked of a day at one instant. The call is reckoned with it, the rest when it is first asked for; each once,
// whoever asks. It is shared, and nobody changes what it gives.
type moment struct {
	now         time.Time
	seq, events int // of the state that it is of
	dues        []day.Due
	call        day.Call
	steady      time.Time // until then it stays as it is, but for the call's figure

	mu        sync.Mutex
	meanwhile []day.Call // with the figures of the instant at which it was reckoned, as all calls here
	besides   bool       // meanwhile is reckoned
	first     found      // of meanwhile
	look      found
	upcoming  string
	comes     bool // upcoming is reckoned
}

// found is a call that there may be.
type found struct {
	call         day.Call
	is, reckoned bool
}

// Remainder says what of a day is not in its own file when the engine has stopped.
type Remainder struct {
	ID   string
	Away shelf.Away // what lies elsewhere; without a file: nothing does
	Lost []string   // what lies nowhere: each act with its time
	Why  string     // why the day's file did not take it
}

// Parting says where the acts of the days are when the engine has stopped; empty: all are in their days.
type Parting []Remainder
