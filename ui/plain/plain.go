// Package plain is the linear mode: events as sentences, the act for the hands, the time at 10, 5, 2 and 1 minutes and at
// zero, and answers typed as lines. For screen readers, pipes and terminals that cannot draw. No cursor is moved, nothing
// is written twice.
package plain

import (
	"bufio"
	"cmp"
	"context"
	"errors"
	"fmt"
	"io"
	"strings"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/cue"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/guard"
	"example.org/vatside/ui/style"
	"example.org/vatside/ui/widget"
)

// Line is an event as one line that begins with VAT/DAY#SEQ: for scripts, not for plain mode.
func Line(id string, e day.Event, s day.State) wording.Shown {
	return wording.Show(fmt.Sprintf("%s#%d %s %s", id, e.Seq, day.Clock(e.At), s.Tell(e.Body)))
}

// Terminal reads lines and writes lines.
type Terminal struct {
	Emergency string // the dyer's own emergency number

	// TakeOver goes on writing a day that another program has left; nil: it cannot be taken over.
	TakeOver func(context.Context) error

	// Likened gives a piece that is wished like one of the book that one's colour; nil: there is no book.
	Likened func(day.Command) (day.Command, error)

	// Of tells of the vat what only its whole book knows: "care" or "cost". nil: there is no book.
	Of func(what string) ([]string, error)

	// Hush ends what sounds now; nil: nothing sounds here. Mute: it would sound, and no player is here; the first call that fails says so.
	// Awake keeps the machine awake while a time runs; nil: nothing does.
	Hush  func()
	Mute  bool
	Awake *cue.Awake

	// Width is how many columns the window has now; nil: a pipe, whose lines are not broken.
	Width func() int

	// First are said before anything is typed: the goods of a new vat.
	First []string

	out   io.Writer
	lines chan string // closed at the end of the input

	told  int             // the last event that was told
	act   string          // the call that was told
	of    string          // the step, or the call, that was told of
	heard map[string]bool // what was told of it
	form  *filling        // questions that are being answered; nil: none
	call  string          // its id, which an empty line answers
	fresh string          // its words, where it was told just now
	said  map[string]bool // times told, by deadline and mark

	photos  chan func(engine.View) // tell what was read of one
	reading int                    // how many are being read

	offered int // how many unconfirmed acts were offered to be confirmed

	beside string // what can be done meanwhile, as told

	owner   string   // who writes the day, as told
	pending *pending // words whose caution is to be answered; nil: none
	// unanswered: the last line was refused, or its caution not answered; yes and no may still be meant for it
	unanswered bool
}

// lineMost is how much of a line is kept, in bytes. What is longer is no answer.
const lineMost = 1 << 20

// readLine reads a line, however long it is, and keeps its first lineMost bytes: a mark behind them has it refused.
func readLine(r *bufio.Reader) (string, error) {
	var line []byte
	for {
		part, err := r.ReadSlice('\n')
		line = append(line, part[:min(len(part), lineMost+1-len(line))]...)
		if errors.Is(err, bufio.ErrBufferFull) {
			continue
		}
		if len(line) > lineMost {
			return string(line[:lineMost]) + "…", err
		}
		return string(line), err
	}
}

// New starts reading lines.
func New(in io.Reader, out io.Writer) *Terminal {
	t := &Terminal{out: out, lines: make(chan string), said: map[string]bool{}, photos: make(chan func(engine.View))}
	guard.GoThen("lines", func() {
		if in == nil {
			return
		}
		r := bufio.NewReader(in)
		for {
			line, err := readLine(r)
			if line != "" {
				t.lines <- strings.TrimSpace(line)
			}
			if err != nil {
				return
			}
		}
	}, func(c *guard.Crash) {
		if c != nil {
			guard.End(*c)
		}
		close(t.lines)
	})
	return t
}

// say writes lines, broken between words where the window has a width, and nothing that cannot be shown.
func (t *Terminal) say(format string, a ...any) {
	page, wide := wording.ShowPage(fmt.Sprintf(format, a...)).String(), 0
	if t.Width != nil {
		wide = t.Width()
	}
	for line := range strings.SplitSeq(page, "\n") {
		if wide > 0 && style.Width(line) > wide {
			line = strings.Join(widget.Wrap(line, wide), "\n")
		}
		fmt.Fprintln(t.out, line)
	}
}

// each says lines, all of them in one form.
func (t *Terminal) each(format string, lines []string) {
	for _, line := range lines {
		t.say(format, line)
	}
}

// Follow follows a day of the engine until it is closed, the input ends, or q is typed.
func (t *Terminal) Follow(ctx context.Context, e *engine.Engine, id string) error {
	snap, err := e.Now(ctx)
	if err != nil {
		return err
	}
	v, ok := snap.Day(id)
	if !ok {
		return fmt.Errorf("the day %s is not open", id)
	}
	if n := len(v.State.Log); n > 1 {
		t.told = v.State.Log[n-1].Seq
	}
	t.say("%s", greeting(v))
	for _, line := range t.First { // before the call, which asks for them
		v = present(ctx, e, v)
		t.Answer(ctx, e, id, v, line)
	}
	if v, err = t.settled(ctx, e, id, v); err != nil {
		return err
	}
	t.tell(v)
	for !v.State.Closed {
		select {
		case <-ctx.Done():
			return nil
		case snap := <-e.Mail():
			if w, ok := snap.Day(id); ok {
				v = w
				t.tell(v)
			}
		case tell := <-t.photos:
			tell(v)
		case line, more := <-t.lines:
			if t.Hush != nil {
				t.Hush()
			}
			if !more || leaves[strings.ToLower(line)] {
				t.last(ctx, v)
				return t.leave(ctx, e, v, more)
			}
			if !v.Looking { // what was told last may be some seconds old
				v = present(ctx, e, v)
			}
			if !t.takes(ctx, v, line) {
				t.Answer(ctx, e, id, v, line)
			}
			switch v, err = t.settled(ctx, e, id, v); {
			case ctx.Err() != nil:
				return nil
			case err != nil:
				return err
			}
			t.tell(v)
			t.asks(v)
		}
	}
	t.say("The day is closed; all is in the book.")
	return nil
}

// leaves are the words that end the program. The day stays open.
var leaves = map[string]bool{"leave": true, "q": true, "quit": true, "exit": true, "bye": true}

// present is a day as it is now.
func present(ctx context.Context, e *engine.Engine, v engine.View) engine.View {
	if snap, err := e.Now(ctx); err == nil {
		if w, ok := snap.Day(v.ID); ok {
			return w
		}
	}
	return v
}

// settled waits a second at most until what was answered is on disk.
func (t *Terminal) settled(ctx context.Context, e *engine.Engine, id string, v engine.View) (engine.View, error) {
	soon, cancel := context.WithTimeout(ctx, time.Second)
	defer cancel()
	_ = e.Saved(soon, id) // a disk that fails is told with the snapshot
	snap, err := e.Now(ctx)
	if w, ok := snap.Day(id); ok {
		v = w
	}
	return v, err
}

// leave waits until all is on disk, for as long as the dyer likes, and says what goes on without anybody. Where nobody is there
// to ask any more, the engine waits a little, and tries another place, before it stops.
func (t *Terminal) leave(ctx context.Context, e *engine.Engine, v engine.View, asked bool) error {
	for {
		var err error
		v, err = t.settled(ctx, e, v.ID, v)
		switch {
		case ctx.Err() != nil:
			return nil
		case err != nil:
			return err
		case v.Unsaved == 0:
			t.left(v)
			return nil
		case !asked:
			return nil
		}
		why := cmp.Or(v.Trouble, wording.Counted(v.Unsaved, "act")+" not yet on disk")
		t.say("%s.\n  %s.\n  Enter: wait. keep: keep it elsewhere. leave: leave without it.", wording.Upper(why), strings.Join(v.Acts(), ".\n  "))
		select {
		case <-ctx.Done():
			return nil
		case line, more := <-t.lines:
			switch {
			case !more:
				return nil
			case line == "leave":
				return e.Shed(ctx)
			case line == "keep":
				if err := e.Keep(ctx); err != nil {
					return err
				}
			}
		}
	}
}

// left says what goes on without anybody.
func (t *Terminal) left(v engine.View) {
	if v.Looking {
		t.say("Left; it was only looked at.")
		return
	}
	if dues := deadlines(v); len(dues) > 0 {
		t.say("Left; nobody will call: %s at %s.", strings.TrimRight(dues[0].then(), "?."), day.DateOf(dues[0].At, v.Now))
		return
	}
	if v.Trouble == "" {
		t.say("Left; all is in the book.")
	}
}

// tell says what is new: events on disk, trouble, the call, the times.
func (t *Terminal) tell(v engine.View) {
	t.whose(v)
	read := false
	for _, e := range v.State.Log {
		if e.Seq > t.told && e.Seq <= v.Saved {
			if words := happened(v.State, e); words != "" {
				t.say("%s", words)
			}
			t.told = e.Seq
			_, temp := e.Body.(day.Reading)
			_, strip := e.Body.(day.StripTest)
			read = temp || strip // the liquor's outlook is another then
		}
	}
	if read && day.Filled(v.State) {
		t.vat(v)
	}
	t.once("trouble "+v.Trouble, v.Trouble)
	if v.Trouble == "" {
		for k := range t.said {
			if strings.HasPrefix(k, "trouble ") {
				delete(t.said, k)
			}
		}
	}
	if v.State.AsksHands() && !v.Looking {
		t.once("hands", fmt.Sprintf("%s hands 1, hands 2 or hands 3. Until it is said the timetable reckons with %d.", day.HandsAsked, v.State.Hands()))
	}
	t.calls(v)
	t.checks(v)
	t.wakes(v)
	t.compared(v)
	if words := beside(v); words != t.beside {
		if t.beside = words; words != "" {
			t.say("%s", words)
		}
	}
	t.offers(v)
	for _, d := range deadlines(v) {
		t.time(v, d)
	}
}

// calls tells the call where it is another than the one that was told. What was told of it already is left out: of a step how it is done,
// of goods how they go in and out all day.
func (t *Terminal) calls(v engine.View) {
	c := v.Call()
	lines := callText(v.State, c, v.Now)
	of := wording.Either(c.Act.Kind == day.ActStep, fmt.Sprint("step ", c.Act.Step.No), c.ID)
	told := strings.Join(lines, "\n")
	if c.Due != nil { // what its end changes of the first line is told with the time
		told = c.ID + day.Clock(c.Due.At)
		if !dips(c, v.Now) && c.Act.Kind != day.ActLift {
			told += strings.Join(lines[1:], "\n")
		}
	}
	t.call, t.fresh = c.ID, ""
	if told == t.act || v.State.Closed {
		return
	}
	t.act, t.fresh = told, c.Words
	if of != t.of {
		t.of, t.heard = of, map[string]bool{}
	} else if _, rest, cut := strings.Cut(lines[0], ". "); cut && c.Act.Kind == day.ActStep && c.Caution == "" {
		lines[0] = rest
	}
	for i, line := range lines {
		daily := i > 0 && c.Act.Kind != day.ActStep && (line == unsourced(c.How) || line == unsourced("Why: "+c.Why))
		press, isPress := strings.CutPrefix(line, "Enter: ")
		weighed := i == 0 && c.Act.Entry == day.MassEntry && len(t.heard) > 0 && amount(v.State, c, v.Now) == ""
		switch {
		case isPress && t.heard[line] && told != "": // what Enter does is told with each change
			press, _, _ = strings.Cut(press, ". ")
			t.say("%s", wording.Sentence("Enter: "+press))
			continue
		case t.heard[line], daily && t.said["how "+line], weighed:
			continue
		}
		t.heard[line] = true
		if daily {
			t.said["how "+line] = true
		}
		t.say("%s", line)
	}
}

// once says a sentence a single time.
func (t *Terminal) once(key, text string) {
	if text != "" && !t.said[key] {
		t.said[key] = true
		t.say("%s", wording.Sentence(text))
	}
}

// Hears tells an event of a rehearsed day, with its time and, of several vats, at which.
func (t *Terminal) Hears(several bool) func(string, day.State, day.Event) {
	return func(_ string, s day.State, e day.Event) {
		if happened(s, e) != "" {
			at := wording.Joined(", ", day.Clock(e.At), wording.If(several, s.Head.Name()))
			t.say("%s. %s", at, wording.Sentence(s.Tell(e.Body)))
		}
	}
}

// UntilLeft waits until leave is typed, the input has ended, or it is over.
func (t *Terminal) UntilLeft(ctx context.Context) {
	for {
		select {
		case <-ctx.Done():
			return
		case line, more := <-t.lines:
			if !more || leaves[strings.ToLower(line)] {
				return
			}
		}
	}
}
