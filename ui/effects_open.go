package ui

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"example.org/vatside/model/day"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/guard"
	"example.org/vatside/ui/library"
	"example.org/vatside/ui/rehearse"
	"example.org/vatside/ui/shelf"
)

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
	torn := tornWord(w)
	if torn != "" {
		b.Torn = nil
	}
	b.Spilled = apart(b.Spilled) // the engine tells of the others as long as they lie there
	words := wording.Joined("; ", torn, wording.Of(library.NotWhole(vat, name, b.Frame)))
	return h.take(engine.Opening{ID: id, Head: b.Head, Events: b.Events, Writer: w}, words)
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

// once gives a command that opens something, or none while it is being opened: two quick Enters open it once. The turn is given
// back when the root has the answer, and with it another screen for the next Enter.
func (h effects) once(what string, open func() openedMsg) tea.Cmd {
	if !h.looks.begin(what) {
		return nil
	}
	return func() tea.Msg {
		msg := open()
		msg.what = what
		return msg
	}
}

// lookAt takes a day up to look only, as another program writes it.
func (h effects) lookAt(vat, name string) openedMsg {
	id := vat + "/" + name
	other := h.home.Look(h.watching().watch, vat, name)
	b, err := h.home.ReadDay(vat, name)
	if err != nil {
		other.Close()
		return openedMsg{id: id, err: err}
	}
	return h.take(engine.Opening{ID: id, Head: b.Head, Events: b.Events, Other: other}, "")
}

// takeOver goes on writing a day whose program has left it.
func (h effects) takeOver(id string) tea.Cmd {
	if !h.looks.begin(id) {
		return nil
	}
	return func() tea.Msg {
		word, err := h.takenOver(id)
		return repliedMsg{err: err, word: word, reload: true, what: id}
	}
}

func (h effects) takenOver(id string) (word string, err error) {
	vat, name, _ := strings.Cut(id, "/")
	if h.writes(id) {
		return "", nil
	}
	w, b, err := h.eng.TakeOver(h.ctx, h.home, vat, name)
	switch {
	case errors.Is(err, engine.ErrFaster) && h.writes(id):
		return "", nil
	case errors.Is(err, engine.ErrMeanwhile): // a word, not a refusal
		return wording.OneLine(err), nil
	case err != nil:
		return "", err
	}
	msg := h.take(engine.Opening{ID: id, Head: b.Head, Events: b.Events, Writer: w}, tornWord(w))
	if word = msg.word; word == "" {
		word = "this program writes the day now"
	}
	return word, msg.err
}

func (h effects) begin(head day.Head) tea.Cmd {
	return h.once("a new vat", func() openedMsg {
		if h.rehearsal != nil {
			return openedMsg{err: errors.New("this is a rehearsal: leave it with q, and run vatside by itself to build a real vat")}
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
			return openedMsg{err: fmt.Errorf("%s was only rehearsed, and no day follows: l shows its log; run vatside by itself to build a real vat", vat)}
		}
		passed := wording.OneLine(err)
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
