package command

import (
	"context"
	"errors"

	"example.org/vatside/model/day"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/plain"
	"example.org/vatside/ui/shelf"
)

// followed is a day that another program writes, to be looked at; t can take it over once that program has left it.
func (p *program) followed(ctx context.Context, h shelf.Home, e *engine.Engine, t *plain.Terminal, o engine.Opening, s standing) engine.Opening {
	o.Other = h.Look(h.Watch(ctx, engine.Seconds), s.vat, s.day)
	t.TakeOver = func(ctx context.Context) error {
		w, b, err := h.OpenDay(s.vat, s.day)
		if errors.Is(err, shelf.ErrLocked) {
			return errors.Join(errors.New("another program was faster, and here the day can still only be looked at"), e.LookAgain(ctx, o.ID))
		}
		if err != nil {
			return err
		}
		if now, _ := day.Replay(b.Head, b.Events); now.Closed {
			return errors.Join(errors.New("the day was closed meanwhile"), w.Close(), e.LookAgain(ctx, o.ID))
		}
		taken := engine.Opening{ID: o.ID, Head: b.Head, Events: b.Events, Writer: w}
		if b.Head.Rehearsed {
			taken.Source = engine.NewPlaying(engine.Machine{}, beginOf(taken), 1)
		}
		if f := w.TornFile(); f != "" {
			p.say("A torn tail was set aside in %s.", f)
		}
		if _, err = e.Open(ctx, taken); err != nil {
			err = errors.Join(err, w.Close())
		}
		return err
	}
	return o
}
