package plain

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/practice"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/answer"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/guard"
	"example.org/vatside/ui/library"
)

// choices are what can be said: what fits the call first, and with all everything else.
func (t *Terminal) choices(v engine.View, all bool) []string {
	out := []string{"What you can say:", "Enter says done, or how long it still takes. leave ends the program; the day stays open."}
	if t.Hush != nil {
		out = append(out, "hush: silences the call that sounds; the next one sounds again.")
	}
	for _, s := range answer.List(v.State, v.Now) {
		if !all && s.Title != "Now" {
			continue
		}
		rows := wording.Some(s.Rows, func(r answer.Row) (string, bool) {
			return "  " + r.Say + short(r) + ": " + r.Does + ".", r.Say != "" && (t.Hush != nil || r.ID != "heard")
		})
		if len(rows) > 0 {
			out = append(append(out, s.Title+":"), rows...)
		}
	}
	if !all {
		out = append(out, "Questions lead through: piece, class, plan, look, ladder, signs, read, give.",
			"Ask: how does it stand, what does it need, care, cost, timetable, log, first aid.", "? tells everything that can be said.")
	}
	return out
}

// short is the letter of a row, which stands for its words; empty where it has none.
func short(r answer.Row) string {
	return wording.If(len(r.Words) > 0 && len([]rune(r.Key)) == 1 && r.Key != r.Say, ", or "+r.Key)
}

// pending is what waits for its caution to be answered.
type pending struct {
	line     string
	commands []day.Command // the first one's caution was told
	at       time.Time     // when
}

// readFor is how long a caution is read at least, before an empty line answers it.
const readFor = time.Second

// Answer carries out one typed line at a day that is open in the engine, as v has it now.
func (t *Terminal) Answer(ctx context.Context, e *engine.Engine, id string, v engine.View, line string) {
	wait, refused := t.pending, t.unanswered
	t.pending, t.unanswered = nil, false
	word := strings.ToLower(line)
	yes, no := line == "" || word == "yes" || word == "y", word == "no" || word == "n"
	switch {
	case wait == nil && refused && (yes && line != "" || no) && !strings.HasSuffix(v.Call().Words, "?"): // it may be meant for what was refused
		t.stands(v)
		return
	case wait == nil:
	case yes && v.Now.Sub(wait.at) < readFor:
		t.pending = wait
		t.refused(v, day.ErrTooSoon)
		return
	case yes || line == wait.line: // the same words once more say that it is so
		t.do(ctx, e, id, v, wait.line, append([]day.Command{day.Answered{Command: wait.commands[0]}}, wait.commands[1:]...))
		return
	default:
		t.say("Not done: %s.", wait.line)
		if t.unanswered = no; no {
			return
		}
	}
	if t.form != nil {
		if line = t.fills(v, line); line == "" {
			return
		}
	}
	c := v.Call()
	switch line = t.hears(v, line); {
	case line == "" && runs(c, v.Now) && c.ID == t.call:
		t.stands(v)
		return
	case t.Hush != nil && (line == "Z" || strings.EqualFold(line, "hush")):
		_ = e.Hush(ctx, id)
		t.say("Hushed. The next call sounds again.")
		return
	case strings.EqualFold(line, "again"):
		t.each("%s", callText(v.State, c, v.Now))
		return
	}
	if t.begins(v, line) {
		return
	}
	if p, asked, is := library.PhotoLine(v.State, line); is {
		t.sees(ctx, p, asked)
		return
	}
	r, l, commands, err := answer.Take(v.State, v.Now, line)
	switch {
	case err != nil:
		t.refused(v, err)
	case r.Asks():
		t.tells(v, r, l)
	case t.do(ctx, e, id, v, line, commands) && r.ID == "signs":
		if v, err = t.settled(ctx, e, id, v); err == nil {
			t.tell(v)
			t.ails(v)
		}
	}
}

// sees has photographs of the card read for a look at a piece, and told with the words that take each. What comes and what is typed
// meanwhile goes on.
func (t *Terminal) sees(ctx context.Context, p day.Piece, asked library.PhotoAsked) {
	t.say("Reading the photograph.")
	t.reading += len(asked.Paths)
	guard.Go("photographs", func() {
		for _, path := range asked.Paths {
			one := asked
			one.Paths = []string{path}
			seen := library.SeePiece(one, p)[0]
			select {
			case <-ctx.Done():
				return
			case t.photos <- func(v engine.View) {
				if t.reading--; seen.Err != nil {
					t.refused(v, seen.Err)
					return
				}
				t.say("%s. To take it, type: look %s %s", seen.Told, p.Tag, wording.Joined(" ", wording.If(asked.Wet, "wet"), seen.Words))
			}:
			}
		}
	})
}

// last waits at the end for photographs that are being read, some seconds: a disk may never answer.
func (t *Terminal) last(ctx context.Context, v engine.View) {
	soon, cancel := context.WithTimeout(ctx, lastWait)
	defer cancel()
	for t.reading > 0 {
		select {
		case <-soon.Done():
			t.say("A photograph is not read: the disk does not answer.")
			return
		case tell := <-t.photos:
			tell(v)
		}
	}
}

const lastWait = 3 * time.Second

// do carries commands out, and tells of a caution that stands before one of them. True: all are done.
func (t *Terminal) do(ctx context.Context, e *engine.Engine, id string, v engine.View, line string, commands []day.Command) bool {
	for i, c := range commands {
		var err error
		if press, is := c.(day.Done); is && press.Call == "" { // what was told may be over by now
			press.Call = t.call
			c = press
		}
		if t.Likened != nil {
			c, err = t.Likened(c)
		}
		if err == nil {
			_, err = e.Do(ctx, id, c)
		}
		if wants := (*day.Pending)(nil); errors.As(err, &wants) {
			t.pending = &pending{line, commands[i:], v.Now}
			t.say("Caution: %s Once that is so, Enter; anything else leaves it.", unsourced(wants.Caution))
			return false
		}
		if err != nil {
			t.refused(v, err)
			return false
		}
	}
	return true
}

// refused says why something is not done, and what helps.
func (t *Terminal) refused(v engine.View, err error) {
	var unknown answer.ErrUnknown
	t.unanswered = !errors.As(err, &unknown) && !errors.Is(err, day.ErrTooSoon)
	switch {
	case errors.As(err, new(*day.Other)):
		t.say("%s", wording.Sentence(err.Error()))
	case errors.Is(err, day.ErrTooSoon):
		t.say("Too soon: read it first, then Enter.")
	case errors.As(err, &unknown):
		_, goOn, _ := strings.Cut(err.Error(), "; ")
		if strings.EqualFold(unknown.Line, "no") { // it says no to the call, and begins nothing
			goOn = ""
		}
		t.say("%q is not understood. %s", unknown.Line, helps(v, goOn))
	default:
		t.say("Not done. %s", wording.Sentence(err.Error()))
	}
}

// helps is what can be said to the call, in one or two sentences.
func helps(v engine.View, goOn string) string {
	if goOn != "" {
		return wording.Sentence(goOn)
	}
	c := v.Call()
	words := wording.Sentence("the call is: " + lower(c.Brief()))
	words += wording.If(c.Act.Kind == day.ActAsk, " "+unsourced(c.How)) + wording.If(c.Caution != "", " "+unsourced("Caution: "+c.Caution))
	if runs(c, v.Now) {
		return words + " Enter: how long it still takes. help: what else you can say."
	}
	return strings.Join(append(append([]string{words}, answered(v.State, c)...), "help: what else you can say."), " ")
}

// tells answers a question.
func (t *Terminal) tells(v engine.View, r answer.Row, l answer.Line) {
	switch r.ID {
	case "help":
		t.each("%s", t.choices(v, l.Word == "?"))
	case "outlook":
		t.stands(v)
		if day.Filled(v.State) {
			t.vat(v)
		}
		if next := v.Upcoming(); next != "" {
			t.say("Then %s", lower(wording.Sentence(next)))
		}
	case "wants":
		t.wants(v)
	case "blue":
		t.blues(v, l.Rest)
	case "ails":
		t.ails(v)
	case "timetable":
		t.each("%s", timetable(v).Told(v.Now).Lines())
	case "care", "cost":
		t.book(r.ID)
	case "on the bench":
		t.bench(v)
	case "unconfirmed":
		t.unsaid(v)
	case "log":
		for _, e := range v.State.Log {
			t.say("%s", fmt.Sprintf("%d: %s, %s", e.Seq, day.DateOf(e.At, v.Now), wording.Sentence(v.State.Tell(e.Body))))
		}
	case "aid":
		t.aid()
	}
}

func (t *Terminal) aid() {
	t.say("First aid:")
	for _, a := range practice.FirstAid() {
		t.say("%s", wording.Sentence(wording.Upper(a.Name)+": "+a.Act+". "+strings.Join(a.How, " ")))
	}
	t.say("%s", wording.Sentence(practice.HelpDecides))
	if t.Emergency != "" {
		t.say("Your emergency number: %s", t.Emergency)
	}
}

// book tells what only the vat's whole book knows.
func (t *Terminal) book(what string) {
	if t.Of == nil {
		t.say("There is no book to tell it from.")
		return
	}
	lines, err := t.Of(what)
	if err != nil {
		t.say("%s", wording.Sentence(wording.OneLine(err)))
	}
	t.each("%s", wording.Only(lines, func(line string) bool { return strings.TrimSpace(line) != "" }))
}
