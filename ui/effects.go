package ui

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
	"sync/atomic"

	tea "github.com/charmbracelet/bubbletea"

	"example.org/vatside/model/day"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/answer"
	"example.org/vatside/ui/cue"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/guard"
	"example.org/vatside/ui/library"
	"example.org/vatside/ui/rehearse"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/shelf"
)

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

// What effects answer with: what has happened, never a wish.
type (
	snapshotMsg engine.Snapshot
	homeMsg     struct {
		vats    []screen.Vat
		recipes []recipe.Recipe
		own     map[string]bool
		word    string
		show    string // a day to show at once: the one that is rehearsed
	}
	openedMsg struct {
		id, word string
		what     string // the turn that it gives back
		log      bool   // its log is wanted, not the day
		err      error
	}
	repliedMsg struct {
		acted  bool // it answers an act on a day
		err    error
		reload bool
		word   string
		what   string // the turn that it gives back
	}
	settingsMsg struct {
		settings shelf.Settings
		err      error
	}
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
		err = h.asks.ask(id, c, h.mono(), err)
		switch {
		case h.pressed && wants:
			err = errors.New(pending.Caution + "; press once more")
			h.ask(pending.Caution)
		case h.pressed:
			h.sound(err)
		}
		return repliedMsg{err: err, word: h.notice(id, made)}
	}
}

// notice is the word that an act is answered with; empty for most.
func (h effects) notice(id string, made []day.Event) string {
	if !h.away && answer.Notice(day.State{}, made) == "" { // nothing of it is told
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

// did is what a press was written down as, and what is asked for then.
func did(v engine.View, made []day.Event) string {
	var words []string
	for _, e := range made {
		words = append(words, e.Body.Sentence(v.State.Head.Setup.System()))
	}
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

// open takes a day up, to look only if another program writes it. One that was only looked at is taken over if it can be.
func (h effects) open(vat, name string) openedMsg {
	id := vat + "/" + name
	if snap, err := h.eng.Now(h.ctx); err == nil {
		if v, there := snap.Day(id); there && (!v.Looking || v.State.Closed) {
			return openedMsg{id: id}
		}
	}
	w, b, err := h.home.OpenDay(vat, name)
	switch {
	case errors.Is(err, shelf.ErrLocked):
		return h.lookAt(vat, name)
	case err != nil:
		return openedMsg{id: id, err: err}
	}
	words := []string{tornWord(w)}
	if words[0] != "" {
		b.Torn = nil
	}
	b.Spilled = apart(b.Spilled) // the engine tells of the others as long as they lie there
	if err := library.NotWhole(vat, name, b.Frame); err != nil {
		words = append(words, err.Error())
	}
	return h.take(engine.Opening{ID: id, Head: b.Head, Events: b.Events, Writer: w}, wording.Joined("; ", words...))
}

// take hands a day to the engine with the clock that it goes by. One that is open already is as good.
func (h effects) take(o engine.Opening, word string) openedMsg {
	if o.Head.Rehearsed {
		at := rehearse.From(o.Head, o.Events)
		o.Source = engine.FixedClock{At: at}
		if r := h.rehearsal; r != nil && o.Head.Day == r.Day && o.Writer != nil {
			r.once.Do(func() { r.clock = engine.NewPlaying(engine.Machine{}, at, r.Speed) })
			o.Source = r.clock
		}
	}
	if _, err := h.eng.Open(h.ctx, o); err != nil {
		if o.Writer != nil {
			_ = o.Writer.Close()
		}
		if o.Other != nil {
			o.Other.Close()
		}
		if errors.Is(err, engine.ErrOpen) {
			err = nil
		}
		return openedMsg{id: o.ID, err: err}
	}
	if _, plays := o.Source.(*engine.Playing); plays {
		guard.Go("dyer", func() { _ = rehearse.Play(h.ctx, h.eng, []string{o.ID}, nil, func(string, day.State, day.Event) {}) })
	}
	return openedMsg{id: o.ID, word: word}
}

func (h effects) openDay(id string) tea.Cmd {
	return h.once(id, func() openedMsg {
		vat, name, ok := strings.Cut(id, "/")
		if !ok {
			return openedMsg{err: fmt.Errorf("%q is no day", id)}
		}
		return h.open(vat, name)
	})
}

// look opens a closed day for its log.
func (h effects) look(id string) tea.Cmd {
	open := h.openDay(id)
	if open == nil {
		return nil
	}
	return func() tea.Msg {
		msg := open()
		if o, ok := msg.(openedMsg); ok {
			o.log = true
			return o
		}
		return msg
	}
}

// leavesFor says for what the program is left: a rehearsal, or for good.
func (h effects) leavesFor(wanted error) {
	if h.wanted != nil {
		h.wanted.Store(&wanted)
	}
}

// begin opens a new vat.
func (h effects) begin(head day.Head) tea.Cmd {
	return h.once("a new vat", func() openedMsg {
		if h.rehearsal != nil {
			return openedMsg{err: errors.New("this is a rehearsal, and its folder goes when it is left: run vatside by itself to build a real vat")}
		}
		vat, err := h.home.FreeVat(head.Setup.Name)
		if err != nil {
			return openedMsg{err: err}
		}
		head.Vat = vat
		return h.create(head)
	})
}

// create writes the head of a new day and hands it to the engine. Without a zone it is in the machine's.
func (h effects) create(head day.Head) openedMsg {
	now := engine.Machine{}.Wall()
	head.Day = now.Format("2006-01-02")
	if head.Zone == "" {
		head.Zone = now.Location().String()
		if head.Zone == "Local" {
			head.Zone = now.Format("-07:00")
		}
	}
	w, err := h.home.NewDay(engine.InZone(head))
	if err != nil {
		return openedMsg{err: err}
	}
	head = w.Head()
	return h.take(engine.Opening{ID: head.Vat + "/" + head.Day, Head: head, Writer: w}, "")
}

// nextDay takes up the newest open day of a vat, or opens the next from what the last one left; with end the one that leads
// to its end. What is newer and cannot be read is told.
func (h effects) nextDay(vat string, end bool, s shelf.Settings) tea.Cmd {
	return h.once(vat, func() openedMsg {
		days, err := h.home.VatDays(vat)
		if err != nil {
			return openedMsg{err: err}
		}
		for _, name := range slices.Backward(days.Open) {
			b, err := h.home.ReadDay(vat, name)
			switch {
			case err != nil || b.Empty() || b.HeadErr != nil:
			case end && !b.Head.Setup.Ending:
				return openedMsg{err: fmt.Errorf("a day of %s is open: close it first, the next one leads to its end", vat)}
			default:
				return h.open(vat, name)
			}
		}
		name, b, found, err := h.home.LastOf(vat, days)
		switch {
		case !found && err == nil:
			return openedMsg{err: fmt.Errorf("%s has no day yet", vat)}
		case !found || b.HeadErr != nil:
			return openedMsg{err: err}
		case b.Head.Rehearsed:
			return openedMsg{err: fmt.Errorf("%s was only rehearsed: N builds a real vat, in a home of its own", vat)}
		}
		passed := ""
		if err != nil {
			passed = wording.OneLine(err)
		}
		last := vat + "/" + name
		if h.writes(last) {
			if err := h.eng.Leave(h.ctx, last); err != nil {
				return openedMsg{err: err}
			}
		}
		head, err := library.Next(library.Of(vat, name, b), end)
		if err != nil {
			return openedMsg{err: fmt.Errorf("%s: %w", vat, err)}
		}
		head.Zone = "" // where the machine is now, not where the last day was
		head.Setup.GoodsFirst = !end
		msg := h.create(library.Set(head, s, engine.Machine{}.Wall()))
		if msg.err == nil { // now that this program has the vat, the last day is looked at no more
			msg.word, msg.err = passed, h.eng.Leave(h.ctx, last)
		}
		return msg
	})
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
