package ui

import (
	"cmp"
	"context"
	"strings"
	"sync"
	"sync/atomic"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"example.org/vatside/model/day"
	"example.org/vatside/model/history"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/cue"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/guard"
	"example.org/vatside/ui/library"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/shelf"
	"example.org/vatside/ui/style"
	"example.org/vatside/ui/widget"
)

// model is the root. It is the only tea.Model.
type model struct {
	effects       effects
	style         style.Style
	styled        style.Options // what it was made from
	ground        *groundMsg    // the terminal's answer, of this run or an earlier one; nil: none
	getenv        func(string) string
	width, height int
	snap          engine.Snapshot
	ran           *widget.Sheet // what is shown, where nothing but time went on since the last frame; nil: it is to be composed
	home          screen.Home
	stack         []place
	word          string
	fades         time.Time // when a refusal is stale: the figures in it stand still, the clock does not
	help          bool
	helpFrom      int
	aim           aim               // what a press answers
	fronted       map[string]string // of each day the last call that was due and brought to the front, or was there before
	broughtAt     time.Duration     // when a clock last came to the front by itself, on the machine's monotonic clock; 0: never
	closed        lineEnd           // the last line that was typed
	lastDay       string            // the day last shown, VAT/DAY
	leaving       leaving
	acting        int  // acts that were handed to the engine and not answered yet
	noAdvice      bool // the forecasts failed on the day's own screen: it is shown without them
	fault         *viewFault
	feet          *screen.Feet
	boards        *boards
	frames        *widget.Frames
	care          map[string][]history.Due // what the vats of home want, as last read
	caredAt       int64                    // the hour of that
	past          pastMsg                  // the history of the vat in hand, as last read
	reading       bool                     // the home is being read for the first time
	waits         *earlyKey                // the key that waits for that
	photos        int                      // how many photographs were given; what comes of an earlier one is left
	first         tea.Cmd                  // what is to be done with the first frame
}

// refusal is how long a refusal stands when no key takes it away.
const refusal = 20 * time.Second

// place is one screen on the stack.
type place struct {
	at    screen.Place
	day   string
	tag   string // the piece that it is about
	steps bool   // AtDay: the screen shown is the following, not the clock
	shows screen.Screen
	say   sayLine // over it

	brought bool // AtDay: it came to the front by itself, as its call was due
}

// sayLine is a line over a screen of a day, in which the dyer says something in the words of plain mode. The zero value is none.
type sayLine struct {
	typing  screen.Field
	row     string        // the ID of the row whose key opened it, whose words stand before what is typed; empty: any words are typed
	of      string        // the tag or the number that stands between them
	waits   []day.Command // what was said and is not done: the first waits for its caution; empty: nothing waits
	caution string        // that caution
	asks    bool          // the line was opened with it, as a question: what is typed beside it is no other answer
	at      time.Duration // when it was told, on the machine's monotonic clock
	sent    bool          // the engine has it and did not answer yet
	words   string        // what the line was taken for as it was sent
	photos  offers        // several photographs, of which the line takes one
}

// on tells whether the line is open.
func (s sayLine) on() bool { return s.typing.On() }

// capturing tells whether letters are text: on the screen, or in the line over it.
func (p place) capturing() bool { return p.say.on() || screen.Capturing(p.shows) }

// typed tells whether keys are text or figures on the screen on top, or in the line over it.
func (p place) typed() bool { return p.capturing() || p.figures() }

// figures tells whether keys are figures on the screen on top, where a space is the press.
func (p place) figures() bool {
	f, is := p.shows.(interface{ Figures() bool })
	return is && f.Figures()
}

// lineEnd is a key that closed a line that was typed.
type lineEnd struct {
	by string
	at time.Duration // on the machine's monotonic clock
}

// aim is the day that a press answers, and since when.
type aim struct {
	day string
	at  time.Duration // on the machine's monotonic clock; 0: since the start
}

// running is a call for which a time runs, and its day.
type running struct {
	view *engine.View
	call day.Call
}

// leaving is how far leaving has come. Nothing that the hands did is left behind unsaid: while anything is not on disk the
// program stays, and says what, why, and what can be done.
type leaving int

const (
	staying leaving = iota
	asking          // whether to leave while a time runs that nobody will call
	saving          // until all is on disk
)

// viewFault says that the screen on top failed as it was drawn; the next message closes it.
type viewFault struct{ crash *guard.Crash }

// boards are the boards of the days that this program writes.
type boards struct {
	of      map[string]board // by VAT/DAY
	writing bool
	off     bool   // they failed, and are no more
	trouble string // why one is not written; it stands on the screen
	waits   bool   // one says something else, and boardApart is not over

	disk sync.Mutex      // held while boards are written
	last map[string]page // by vat: what was written last of days that are open
	left bool            // the program is left: no board is written any more
}

// board is one of them as it was last written.
type board struct {
	key  boardKey
	said string // without when
	at   time.Time
}

// earlyKey is a key that came before the home was read.
type earlyKey struct {
	screen.Key
	on string // the day that was chosen when it came, VAT/DAY; empty on a home without vats
}

// beginning is the home as it is read at the start: a settingsReadMsg, a glanceMsg and a homeMsg, in this order.
type beginning chan tea.Msg

// effects carries out what the root wants of the engine and the shelf. Each method gives a command; its answer comes back
// as a message. Nothing here touches the model.
type effects struct {
	ctx       context.Context
	eng       *engine.Engine
	home      shelf.Home
	player    *cue.Player
	cries     *crier
	rehearsal *Rehearsal
	beginning beginning // nil: the home is read after the first frame
	cares     *library.Cares
	looks     *looks
	grounds   shelf.Grounds
	asks      *cautions
	wanted    *atomic.Pointer[error] // why the program is left, if for a rehearsal
	pressed   bool                   // what is to be done is a press
	away      bool                   // and its call is not on the screen in front
	seen      map[string]string      // the calls that are shown, by their days
}

// looks is what the effects know of other programs that work on the same home, and what they themselves open at the moment.
type looks struct {
	once    sync.Once
	watch   *shelf.Watch
	all     *shelf.Tap
	changed <-chan struct{}

	mu      sync.Mutex
	opening map[string]bool
}

// cautions is the command whose caution was shown last, where no screen asks for it by itself: the same command once more, after
// a second and within a minute, is its answer. The nil cautions answer nothing.
type cautions struct {
	mu sync.Mutex
	id string
	c  day.Command
	at time.Duration // on the machine's monotonic clock
}

// boardKey is all that a board hangs on: with an equal one it says the same.
type boardKey struct {
	events, seq int
	table       any // the timetable itself
	call, words string
}

// crier tells calls in all the ways that there are: the player's sounds, a word on the desktop, the window in reverse while something
// is late. It waits for nobody.
type crier struct {
	*cue.Player

	mu     sync.Mutex
	sound  shelf.Sounds
	notify func(wording.Shown) // nil: before the terminal is there
}

// written tells whether a day's calls are for the hands here.
func written(v *engine.View) bool { return !v.Looking && !v.State.Closed }

// vatName is the name of a day's vat as the dyer knows it.
func vatName(v engine.View) string {
	return cmp.Or(v.State.Head.Setup.Name, vatOf(v.ID))
}

// vatOf is the vat of VAT/DAY.
func vatOf(id string) string {
	vat, _, _ := strings.Cut(id, "/")
	return vat
}
