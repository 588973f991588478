package ui

import (
	"cmp"
	"errors"
	"reflect"
	"slices"
	"strings"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"example.org/vatside/model/day"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/answer"
	"example.org/vatside/ui/cue"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/guard"
	"example.org/vatside/ui/library"
	"example.org/vatside/ui/shelf"
)

func (h effects) do(id string, c day.Command) tea.Cmd {
	pressed := h.mono()
	return func() tea.Msg {
		c, err := library.Likened(h.home, c)
		if err != nil {
			return repliedMsg{err: err}
		}
		made, err := h.eng.Press(h.ctx, id, h.asks.answer(id, c, pressed))
		if errors.Is(err, day.ErrTooSoon) {
			if err = nil; h.pressed {
				err = errTooSoon
			}
		}
		pending := (*day.Pending)(nil)
		wants := errors.As(err, &pending)
		err = cmp.Or(h.asks.ask(id, c, h.mono(), err), h.talks(id, made))
		switch {
		case h.pressed && wants:
			err = errors.New(pending.Caution + "; press once more")
			h.ask(pending.Caution)
		case h.pressed:
			h.sound(err)
			if errors.As(err, new(day.Unanswered)) { // what it asks stands on the screen
				err = errors.New("answer first")
			}
		}
		return repliedMsg{err: err, word: h.notice(id, made), asks: h.pressed && wants}
	}
}

// talks has all days that are written here begin or end a talk with the one where that was said, or taken back: one person talks.
func (h effects) talks(id string, made []day.Event) error {
	if len(made) == 0 {
		return nil
	}
	snap, err := h.eng.Now(h.ctx)
	said := snap.Seen(id)
	if said == nil || !slices.ContainsFunc(made, func(e day.Event) bool {
		if c, is := e.Body.(day.Corrected); is {
			e, _ = said.State.Event(c.Of)
		}
		_, is := e.Body.(day.Talking)
		return is
	}) {
		return err
	}
	for i := range snap.Days {
		if v := &snap.Days[i]; written(v) && v.State.Talks() != said.State.Talks() {
			_, failed := h.eng.Do(h.ctx, v.ID, day.Record{Body: day.Talking{On: said.State.Talks()}})
			err = errors.Join(err, failed)
		}
	}
	return err
}

// notice is the word that an act is answered with; empty for most.
func (h effects) notice(id string, made []day.Event) string {
	if !h.away && !lists(made) && answer.Notice(day.State{}, made) == "" { // nothing of it is told
		return ""
	}
	snap, err := h.eng.Now(h.ctx)
	v, open := snap.Day(id)
	if err != nil || !open {
		return ""
	}
	if word := answer.Notice(v.State, made); word != "" || !h.away {
		return word
	}
	return did(v, made)
}

// lists tells whether a piece was put on the list, or given other words.
func lists(made []day.Event) bool {
	return slices.ContainsFunc(made, func(e day.Event) bool {
		switch e.Body.(type) {
		case day.PieceAdded, day.PieceChanged:
			return true
		}
		return false
	})
}

// did is what a press was written down as, and what is asked for then.
func did(v engine.View, made []day.Event) string {
	words := wording.Each(made, func(e day.Event) string { return e.Body.Sentence(v.State.Head.Setup.System()) })
	if len(words) == 0 {
		return ""
	}
	return strings.Join(words, ", ") + " · now: " + v.Call().Brief()
}

// errTooSoon is the word for a press that bounced.
var errTooSoon = errors.New("not taken: it came too soon after the last one")

// sound plays the tone for a press that was taken, or that was not taken because of an error.
func (h effects) sound(err error) {
	if err != nil {
		h.player.Press(cue.Call{Cue: cue.NotTaken, Words: wording.Show(wording.OneLine(err))})
		return
	}
	h.player.Press(cue.Call{Cue: cue.Taken})
}

// leavesFor says for what the program is left: a rehearsal, or for good.
func (h effects) leavesFor(wanted error) {
	if h.wanted != nil {
		h.wanted.Store(&wanted)
	}
}

// set stores the settings as they were changed on the screen. The sounds are set in the file alone, and stay as it has them.
func (h effects) set(s shelf.Settings) tea.Cmd {
	return func() tea.Msg {
		old, err := h.home.Settings()
		if err == nil {
			s.Sound = old.Sound
			err = h.home.SaveSettings(s)
		}
		return settingsMsg{s, err}
	}
}

// guardedCmd is a command whose failure is a message.
func guardedCmd(cmd tea.Cmd) tea.Cmd {
	if cmd == nil {
		return nil
	}
	return func() tea.Msg {
		var msg tea.Msg
		if c := guard.Try("command", func() { msg = cmd() }); c != nil {
			return repliedMsg{err: *c}
		}
		list := commandsIn(msg)
		for i := range list {
			list[i] = guardedCmd(list[i])
		}
		return msg
	}
}

// commandsIn are the commands of a batch or of a sequence, whose type bubbletea does not export; the message shares them.
func commandsIn(msg tea.Msg) []tea.Cmd {
	v := reflect.ValueOf(msg)
	if !v.IsValid() || v.Kind() != reflect.Slice || v.Type().Elem() != reflect.TypeFor[tea.Cmd]() {
		return nil
	}
	return v.Convert(reflect.TypeFor[[]tea.Cmd]()).Interface().([]tea.Cmd)
}

// acted marks the answer to an act, which comes also where the act fails by the program's own fault.
func acted(act tea.Cmd) tea.Cmd {
	return func() tea.Msg {
		msg := guardedCmd(act)()
		if r, ok := msg.(repliedMsg); ok {
			r.acted = true
			return r
		}
		return msg
	}
}

// mono is the machine's monotonic clock.
func (h effects) mono() time.Duration {
	if h.eng == nil {
		return 0
	}
	return h.eng.Mono()
}

// unask has no press answer what an earlier one asked: another key came between them.
func (h effects) unask() {
	if h.eng != nil {
		h.eng.Unask()
	}
}

// ask sounds a question that a second press answers.
func (h effects) ask(words string) {
	h.player.Press(cue.Call{Cue: cue.Ask, Words: wording.Show(wording.OneLine(errors.New(words)))})
}
