package day

import (
	"errors"
	"fmt"
	"strings"
	"time"

	"example.org/vatside/model/liquor"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/wording"
)

// Command is what the dyer, or a running clock, wants done.
type Command interface {
	decide(s State, now time.Time) ([]Body, error)
}

// The commands.
type (
	// Done is the one big key: whatever the call asks for is done. Call is the id of the call that was seen; empty: whatever it
	// is. Without are pieces of it that stay as they are, their tags with a tab between.
	Done struct{ Call, Without string }
	// Back takes the last step done back.
	Back struct{}
	// Skip leaves the open step out. The reason may be empty.
	Skip struct{ Reason string }
	// Scoop is a weight on the scale; negative: taken out again.
	PutScoop struct{ Mass quantity.Mass }
	// Judge is the word on the vat at a check or during a wait. By is one of Ways, or empty where nobody said.
	Judge struct {
		Ready bool
		By    string
		Seen  string
	}
	// Lower puts a piece in, whatever the act is. When is told afterwards, or zero for now.
	Lower struct {
		Tag  string
		When time.Time
	}
	// Lift takes a piece out.
	Lift struct {
		Tag     string
		When    time.Time
		Assumed bool
	}
	// Finish ends a piece.
	Finish struct{ Tag string }
	// Confirm says that an assumed act was as recorded.
	Confirm struct{ Seq int }
	// Move says when an act really was.
	Move struct {
		Seq int
		To  time.Time
	}
	// Undo takes one event back.
	Undo struct{ Seq int }
	// AddPiece puts a piece on the list.
	AddPiece struct {
		Tag  string
		Spec PieceSpec
	}
	// Stretch gives a timer more time, or takes from it.
	Stretch struct {
		Timer string
		By    quantity.Span
	}
	// RestVat lets the vat rest.
	RestVat struct{ For quantity.Span }
	// Dose gives powders beyond the build, and lets the vat rest till the recheck.
	Dose struct {
		Powders []Amount
		Wait    quantity.Span
		Why     string
	}
	// Treat does something about what was seen, and lets the vat be until it is looked at again.
	Treat struct {
		Cause   string // by the list of signs
		Do      string
		Powders []Amount
		Wait    quantity.Span
	}
	// Bench does the next thing with a piece whose dips are over.
	Bench struct{ Tag string }
	// LeaveOut leaves that next thing out.
	LeaveOut struct{ Tag, Reason string }
	// Close ends the day.
	Close struct{ Why string }
	// Record writes down what was seen or done, where no rule stands against it.
	Record struct{ Body Body }
)

// Amount is so much of one of the recipe's powders.
type Amount = liquor.Amount

// Commands that name a call, or act on several pieces.
type (
	// Take does what stands in Meanwhile under this id.
	Take struct{ Call string }
	// LiftAsPlanned takes pieces out, each as of the end of its own time, unconfirmed.
	LiftAsPlanned struct{ Tags []string }
	// LowerAsPlanned puts pieces in that have aired, as of an instant, or skims the froth before them, unconfirmed: where the dyer chose
	// that.
	LowerAsPlanned struct {
		Tags []string
		When time.Time
	}
)

// ConfirmAll says that all that was taken as planned was so.
type ConfirmAll struct{}

// StripBlue says that the strip that is watched turned blue: its seconds are written down. Pressed is the press that goes on with
// whatever is called: it leaves a strip that may have turned while nobody looked.
type StripBlue struct{ Pressed bool }

// Decided is the answer to the look that decides: whether a piece has enough. Say is one of LookSays. Call is the id of the look
// that was seen; empty: whatever it is.
type Decided struct{ Tag, Say, Call string }

// Answered is a command whose caution was answered: the answer is written down with its words, then what the command does.
// A command that wants none is as without it.
type Answered struct{ Command Command }

// ErrTooSoon is the answer to a key that bounced: nothing is done and nothing need be said.
var ErrTooSoon = errors.New("the key came too soon after the last one")

// Least times between two presses: a caution is read for a second at least; a dip just begun is not ended by a bounce.
const (
	cautionLeast = time.Second
	bounce       = 3 * time.Second
	shortDip     = 2 * time.Minute
	countIn      = 5 * time.Second
)

// longest is the most that a timer is given, or a vat rests.
const longest = quantity.Span(30 * 24 * time.Hour)

func refuse(format string, a ...any) ([]Body, error) { return nil, fmt.Errorf(format, a...) }

// unless are the bodies of what was decided; none where an error stands against it.
func unless(err error, bodies ...Body) ([]Body, error) {
	if err != nil {
		return nil, err
	}
	return bodies, nil
}

// because is a reason against something as an error; nil where there is none.
func because(why string) error {
	if why == "" {
		return nil
	}
	return errors.New(why)
}

// Pending is Decide's answer to a command that wants a caution, or a question, answered first: nothing is done. The same
// command in Answered does it.
type Pending struct{ Caution string }

// Error is the caution, after what is asked for.
func (p *Pending) Error() string { return "answer the caution first: " + p.Caution }

// Other refuses a press that was meant for another call than the present one.
type Other struct {
	Seen string // the id that the press carried
	Now  string // what the call is now, in words: "B1 in"
	Just bool   // it was meant for the present one, which came too shortly before it to have been read
}

func (e *Other) Error() string {
	now := "Now " + e.Now
	if strings.HasPrefix(e.Now, "not ") { // "now not yet" is no sentence
		now = wording.Upper(e.Now)
	}
	words := wording.Either(e.Just, "Not taken: it has just changed. ", "Not taken. ") + now
	if strings.HasSuffix(e.Now, "?") {
		return words
	}
	return words + "."
}
