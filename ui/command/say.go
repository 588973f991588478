package command

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"example.org/vatside/model/day"
	"example.org/vatside/model/outlook"
	answers "example.org/vatside/ui/answer"
	"example.org/vatside/ui/cue"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/library"
	"example.org/vatside/ui/shelf"
)

type sayFlags struct {
	at, call string
	answered bool
}

func (p *program) sayCommand() *cobra.Command {
	var f sayFlags
	c := p.command("say VAT 'WORDS'", "Say to an open day what was read or done, in the words of --plain", cobra.MinimumNArgs(2), func(r *reader) {
		r.rules = func() []rule {
			return []rule{{strings.TrimSpace(strings.Join(r.args[1:], "")) == "", nothingSaid}}
		}
		r.StringVar(&f.at, "at", "", "`time` at which it was, of the day's date or RFC 3339; not before the last event")
		r.StringVar(&f.call, "call", "", "`id` of the call that is answered: refused where it is another by now")
		r.BoolVar(&f.answered, "answered", false, "the caution or question that stands before it is answered")
	}, func(r *reader) error { return p.told(p.sayTo(r.args[0], strings.Join(r.args[1:], " "), f)) })
	c.Long = "Say to the open day of a vat what was read or done, in the words of --plain; done is the press. What needs a caution or a\n" +
		"question answered first ends with 3 and writes nothing: the same words with --answered write down the answer and the act.\n" +
		"With --json: the events, the call as it is then, the caution or the error.\n\nThe words:\n\n" + sayable()
	return c
}

// sayable is the list of words for the help.
func sayable() string {
	var b strings.Builder
	for _, r := range answers.Rows() {
		if !r.Asks() || r.ID == "timetable" {
			fmt.Fprintf(&b, "  %-32s %s\n", r.Say, r.Does)
		}
	}
	return strings.TrimRight(b.String(), "\n")
}

// sayTo says words to the newest open day of a vat, and writes down what they make.
func (p *program) sayTo(name, words string, f sayFlags) saying {
	h, err := p.shelf()
	if err != nil {
		return saying{err: err}
	}
	vat, err := library.VatNamed(h, name)
	if err != nil {
		return saying{err: err}
	}
	days, err := h.VatDays(vat)
	if err != nil || len(days.Open) == 0 {
		return saying{err: errors.Join(err, fmt.Errorf("no day of %s is open: vatside begin %s opens one", vat, vat))}
	}
	dayName := days.Open[len(days.Open)-1]
	w, b, err := h.OpenDay(vat, dayName)
	if err != nil && (b.Empty() || b.HeadErr != nil) {
		return saying{err: shelf.LeftOut(vat, dayName, err)}
	}
	state, errs := day.Replay(b.Head, b.Events)
	state, _ = engine.Advised(state)
	if err == nil && len(state.Plan) == 0 && len(errs) > 0 {
		err = errs[0]
	}
	s := saying{id: vat + "/" + dayName, state: state, now: library.Present(state)}
	var commands []day.Command
	if err == nil {
		if f := w.TornFile(); f != "" {
			p.warn(fmt.Errorf("a torn tail of %s was set aside in %s", s.id, f))
		}
		b.Torn = nil
		p.warn(library.NotWhole(vat, dayName, b.Frame))
		commands, err = p.meant(&s, words, f)
	}
	if errors.Is(err, shelf.ErrLocked) {
		err = fmt.Errorf("%s is open in another program, which writes it: nothing is said to it from here", s.id)
	}
	if err != nil || s.caution != "" || s.asked != nil {
		if s.err = err; w != nil {
			s.err = errors.Join(err, w.Close())
		}
		return s
	}
	p.happens(&s, engine.Opening{ID: s.id, Head: b.Head, Events: b.Events, Writer: w}, commands, f)
	return s
}

// meant understands the words at the instant that is meant, and gives the commands to be carried out, with their cautions
// answered; or the first caution that is not.
func (p *program) meant(s *saying, words string, f sayFlags) ([]day.Command, error) {
	if f.at != "" {
		at, err := p.instant(f.at, dateOf(s.state), engine.Zone(s.state.Head), s.state.At, s.state.Head.Rehearsed)
		if err != nil {
			return nil, err
		}
		s.now = at
	}
	row, _, commands, err := answers.Take(s.state, s.now, words)
	var unknown answers.ErrUnknown
	switch {
	case errors.As(err, &unknown):
		return nil, fmt.Errorf("%w; vatside say --help lists the words", err)
	case err != nil:
		return nil, err
	case row.ID == "timetable":
		told := outlook.TimetableNow(s.state, s.now).Told(s.now)
		s.asked = &told
		return nil, nil
	case row.Asks():
		return nil, fmt.Errorf("%q only asks, and nothing is written: vatside now and vatside --plain answer", words)
	}
	h, err := p.shelf()
	if err != nil {
		return nil, err
	}
	for i, c := range commands {
		if commands[i], err = library.Likened(h, c); err != nil {
			return nil, err
		}
	}
	if f.call != "" { // the press the day itself compares with the call
		press := slices.ContainsFunc(commands, func(c day.Command) bool { _, is := c.(day.Done); return is })
		if now := day.CallOf(s.state, s.now); now.ID != f.call && !press {
			return nil, fmt.Errorf("not taken: the call is %q now, not %q", now.ID, f.call)
		}
	}
	return inFull(s, commands, f)
}

// inFull are the commands with their cautions answered where that was said; else the first caution is the saying's.
func inFull(s *saying, commands []day.Command, f sayFlags) ([]day.Command, error) {
	state := s.state
	for i, c := range commands {
		if press, is := c.(day.Done); is {
			press.Call = f.call
			c = press
		}
		if words := day.CautionOf(state, c, s.now); words != "" && !f.answered {
			s.caution = words
			return nil, nil
		} else if words != "" {
			c = day.Answered{Command: c}
		}
		commands[i] = c
		bodies, err := day.Decide(state, c, s.now)
		if err != nil {
			return nil, err
		}
		for _, b := range bodies {
			state, _ = day.Apply(state, day.Event{Seq: state.Seq + 1, At: s.now, Body: b})
		}
	}
	return commands, nil
}

// happens carries the commands out through the engine, which stamps what they make and sees it to the disk. What is told of an
// earlier instant goes by no clock of the machine.
func (p *program) happens(s *saying, o engine.Opening, commands []day.Command, f sayFlags) {
	if f.at != "" || s.state.Head.Rehearsed {
		o.Source = engine.NewLed(s.now) // nobody sets it on
	}
	ctx, stop := p.endedBySignal()
	defer stop()
	e, halt := p.run(cue.Silent{})
	before := len(s.state.Log)
	err := func() error {
		if _, err := e.Open(ctx, o); err != nil {
			return errors.Join(err, o.Writer.Close())
		}
		for _, c := range commands {
			if _, err := e.Do(ctx, o.ID, c); err != nil {
				return err
			}
		}
		return nil
	}()
	if snap, gone := e.Now(context.Background()); gone == nil {
		if v, ok := snap.Day(o.ID); ok { // by the timetable that the next one to say something has
			s.state, _ = day.Replay(o.Head, v.State.Log)
			s.state, _ = engine.Advised(s.state)
			s.now, s.events = v.Now, v.State.Log[min(before, len(v.State.Log)):]
		}
	}
	parting := halt()
	if parting.Lost() {
		s.events = nil
	}
	s.err = p.parted(parting, err)
}
