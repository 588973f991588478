// Package plain is the linear mode: events as sentences, the act for the hands, the time at 10, 5, 2 and 1 minutes and at
// zero, and answers typed as lines. For screen readers, pipes and terminals that cannot draw. No cursor is moved, nothing
// is written twice.
package plain

import (
	"bufio"
	"context"
	"fmt"
	"io"
	"strings"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/practice"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/answer"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/guard"
)

// Line is an event as one line that begins with VAT/DAY#SEQ.
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

	out   io.Writer
	lines chan string // closed at the end of the input

	told int             // the last event that was told
	act  string          // the call that was told
	call string          // its id, which an empty line answers
	said map[string]bool // times told, by deadline and mark

	offered int // how many unconfirmed acts were offered to be confirmed

	beside string // what can be done meanwhile, as told

	owner   string   // who writes the day, as told
	pending *pending // words whose caution is to be answered; nil: none
}

// New starts reading lines.
func New(in io.Reader, out io.Writer) *Terminal {
	t := &Terminal{out: out, lines: make(chan string), said: map[string]bool{}}
	guard.GoThen("lines", func() {
		if in == nil {
			return
		}
		s := bufio.NewScanner(in)
		for s.Scan() {
			t.lines <- strings.TrimSpace(s.Text())
		}
	}, func(c *guard.Crash) {
		if c != nil {
			guard.End(*c)
		}
		close(t.lines)
	})
	return t
}

// say writes lines, and nothing that cannot be shown.
func (t *Terminal) say(format string, a ...any) {
	fmt.Fprintln(t.out, wording.ShowPage(fmt.Sprintf(format, a...)))
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
	t.say("%s. Enter says done; ? lists the answers.", id)
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
		case line, more := <-t.lines:
			if !more || line == "q" {
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
		}
	}
	return nil
}

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
		why := v.Trouble
		if why == "" {
			why = wording.Counted(v.Unsaved, "act") + " not on disk yet"
		}
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
	if dues := v.Dues(); len(dues) > 0 {
		t.say("Left; nobody will call: %s at %s.", dues[0].Words, day.DateOf(dues[0].At, v.Now))
		return
	}
	if v.Trouble == "" {
		t.say("Left; all is in the book.")
	}
}

// tell says what is new: events on disk, trouble, the act, the times.
func (t *Terminal) tell(v engine.View) {
	t.whose(v)
	spoken := false
	for _, e := range v.State.Log {
		if e.Seq > t.told && e.Seq <= v.Saved {
			t.say("%s", Line(v.ID, e, v.State))
			t.told = e.Seq
			spoken = spoke(e.Body)
		}
	}
	if spoken && day.Filled(v.State) {
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
	c := v.Call()
	text := actText(v.State, c, v.Now)
	told := text
	if c.Due != nil { // what its end changes of the first line is told with the time
		_, rest, _ := strings.Cut(text, "\n")
		told = c.ID + day.Clock(c.Due.At) + "\n" + rest
	}
	t.call = c.ID
	if told != t.act {
		t.act = told
		t.say("%s", text)
	}
	t.compared(v)
	if words := beside(v); words != t.beside {
		if t.beside = words; words != "" {
			t.say("%s", words)
		}
	}
	t.offers(v)
	for _, d := range v.Dues() {
		t.time(v.State, d, v.Now)
	}
}

// beside says what can be done while the call's time runs; empty where that is nothing.
func beside(v engine.View) string {
	var words []string
	for _, c := range v.Meanwhile() {
		words = append(words, wording.Lower(strings.TrimSuffix(c.Words, "?")))
	}
	if len(words) == 0 {
		return ""
	}
	return "  Meanwhile: " + strings.Join(words, "; ") + ". next: the first of it is done."
}

// once says a sentence a single time.
func (t *Terminal) once(key, text string) {
	if text != "" && !t.said[key] {
		t.said[key] = true
		t.say("%s", text)
	}
}

// marks are the times left that are told, the longest first.
var marks = []time.Duration{10 * time.Minute, 5 * time.Minute, 2 * time.Minute, time.Minute}

// time tells the marks of one deadline, only the nearest of those that have passed, and each five minutes over.
// What comes out together is told once.
func (t *Terminal) time(s day.State, d day.Due, now time.Time) {
	key := d.Timer + " " + d.At.Format(time.RFC3339) + " "
	left := d.At.Sub(now)
	if left <= 0 {
		over := (-left).Truncate(5 * time.Minute)
		if key += "over " + over.String(); t.said[key] {
			return
		}
		t.said[key] = true
		words := day.Spoken(s, d, now)
		text := "Now: " + words
		if over > 0 {
			text = day.Long(over) + " over: " + words
		}
		if !strings.HasSuffix(text, "?") {
			text += "."
		}
		t.once(d.At.Format(time.RFC3339)+" "+text, text)
		return
	}
	for i := len(marks) - 1; i >= 0; i-- {
		if m := marks[i]; left <= m {
			if left > m-15*time.Second {
				t.once(key+m.String(), fmt.Sprintf("%s left: %s.", day.Long(m), d.Words))
			}
			return
		}
	}
}

// actText is the call as lines. It holds no running time, so that it is told once.
func actText(s day.State, c day.Call, now time.Time) string {
	sys, a := s.Head.Setup.System(), c.Act
	var b strings.Builder
	if a.Kind == day.ActStep {
		fmt.Fprintf(&b, "Step %d of %d. ", a.Step.No, len(s.Plan))
	}
	b.WriteString(c.Words)
	if line := day.FigureOf(s, c).Line(); a.Kind == day.ActStep && line != "" {
		b.WriteString(": " + line)
	}
	if words := bath(a, sys); words != "" {
		b.WriteString(": " + words)
	}
	if !strings.HasSuffix(c.Words, "?") {
		b.WriteString(".")
	}
	if c.Due != nil && now.Before(c.Due.At) {
		fmt.Fprintf(&b, " Till %s.", day.Clock(c.Due.At))
	}
	if c.Caution != "" {
		fmt.Fprintf(&b, "\n  Caution: %s. Read it, then Enter.", strings.TrimSuffix(practice.Unsourced(c.Caution), "."))
		return b.String()
	}
	if c.How != "" {
		b.WriteString("\n  " + practice.Unsourced(c.How))
	}
	switch {
	case strings.HasPrefix(c.Why, "Then"): // what is looked for after it
		b.WriteString("\n  " + practice.Unsourced(c.Why))
	case c.Why != "":
		b.WriteString("\n  Why: " + practice.Unsourced(c.Why))
	}
	if c.Press != "" {
		b.WriteString("\n  Enter: " + c.Press + ".")
	}
	switch {
	case a.Entry == day.MassEntry:
		b.WriteString(" Or type what the scale shows, a scoop at a time.")
	case a.Entry == day.TempEntry:
		b.WriteString(" Type the temperature that you read.")
	case a.Judging():
		b.WriteString(" Or type a figure of these; n: not yet.")
	}
	if words := answer.Hint(s, a); words != "" {
		b.WriteString("\n  " + words)
	}
	return b.String()
}
