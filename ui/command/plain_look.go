package command

import (
	"context"
	"errors"

	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/library"
	"example.org/vatside/ui/plain"
	"example.org/vatside/ui/rehearse"
	"example.org/vatside/ui/shelf"
)

// followed is a day that another program writes, to be looked at; t can take it over once that program has left it.
func (p *program) followed(ctx context.Context, h shelf.Home, e *engine.Engine, t *plain.Terminal, o engine.Opening, s library.Day) engine.Opening {
	o.Other = h.Look(h.Watch(ctx, engine.Seconds), s.Vat, s.Name)
	t.TakeOver = func(ctx context.Context) error {
		w, b, err := e.TakeOver(ctx, h, s.Vat, s.Name)
		if err != nil {
			return err
		}
		taken := engine.Opening{ID: o.ID, Head: b.Head, Events: b.Events, Writer: w}
		if b.Head.Rehearsed {
			taken.Source = engine.NewPlaying(engine.Machine{}, rehearse.From(b.Head, b.Events), 1)
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
