package command

import (
	"context"
	"errors"
	"strings"

	"example.org/vatside/model/day"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/cue"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/guard"
	"example.org/vatside/ui/library"
	"example.org/vatside/ui/paper"
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
		p.torn(w)
		if _, err = e.Open(ctx, taken); err != nil {
			err = errors.Join(err, w.Close())
		}
		return err
	}
	return o
}

// torn says where the torn tail of a day was set aside, if it had one.
func (p *program) torn(w *shelf.Writer) {
	if f := w.TornFile(); f != "" {
		p.say("A torn tail was set aside in %s.", f)
	}
}

// follow is `vatside --plain`: the most pressing open day line by line, or a new one.
func (p *program) follow(h shelf.Home) (err error) {
	all := got(p.survey(h))
	if len(all) == 0 && len(p.warnings) > 0 { // nobody builds a vat once more that stands there
		return errors.New("no vat of the book can be read; vatside book verify names what is wrong")
	}
	t := plain.New(p.In, p.Out)
	if p.atTerminal {
		t.Width = p.columns
	}
	t.Likened = func(c day.Command) (day.Command, error) { return library.Likened(h, c) }
	settings, err := h.Settings() // what is wrong with them is told where a new day is asked for
	if err == nil {
		t.Emergency = settings.Emergency
	}
	var o engine.Opening
	if len(all) > 0 && all[0].Open() {
		s := all[0]
		for _, other := range all[1:] {
			if other.Open() {
				c := other.Call()
				p.say("%s is open, too: %s.", other.VatName(), c.Brief())
			}
		}
		w, b, err := h.OpenDay(s.Vat, s.Name)
		o = engine.Opening{ID: s.Vat + "/" + s.Name, Head: b.Head, Events: b.Events}
		switch {
		case errors.Is(err, shelf.ErrLocked): // it is looked at, and that is said
		case err != nil:
			return err
		default:
			o.Writer = w
			p.torn(w)
		}
		switch {
		case !b.Head.Rehearsed:
		case o.Writer == nil:
			o.Source = engine.FixedClock{At: s.Now}
		default:
			o.Source = engine.NewPlaying(engine.Machine{}, s.Now, 1)
		}
	} else {
		head, door := p.setUp(t, h, all)
		switch door {
		case plain.Gone:
			return nil
		case plain.Rehearsal, plain.Class:
			p.workshop = door == plain.Class
			return p.heard(t)
		}
		w := got(h.NewDay(head))
		o = engine.Opening{ID: w.Head().Vat + "/" + w.Head().Day, Head: w.Head(), Writer: w}
	}
	t.Of = p.bookOf(h, o.Head.Vat)
	ctx, stop := p.endedBySignal() // from here on: nothing was done before, and the system ends a question, or a disk that hangs
	defer stop()
	caller := cue.Caller(cue.Silent{})
	if p.atTerminal { // in a pipe nothing sounds
		t.Awake = &cue.Awake{}
		defer t.Awake.Close()
		if set := (cue.Settings{Bell: settings.Sound.Bell, Tone: settings.Sound.Tone, Speech: settings.Sound.Speech}); set != (cue.Settings{}) {
			player := cue.New(set, h, p.bell)
			defer player.Close()
			caller, t.Hush = player, player.Hush
			tone, speech := player.Means()
			t.Mute = !(set.Tone && tone != "" || set.Speech && speech != "" || set.Bell && !set.Tone && !set.Speech)
		}
	}
	e, halt := p.run(caller)
	defer func() { err = p.parted(halt(), err) }()
	if o.Writer == nil {
		o = p.followed(ctx, h, e, t, o, all[0])
	}
	if _, err := e.Open(ctx, o); err != nil {
		if o.Writer != nil {
			err = errors.Join(err, o.Writer.Close())
		}
		return err
	}
	return t.Follow(ctx, e, o.ID)
}

// setUp asks for what a new day needs: a vat that lives, or the four questions of a new one.
func (p *program) setUp(t *plain.Terminal, h shelf.Home, all []library.Day) (day.Head, plain.Door) {
	settings, err := h.Settings()
	p.warn(err)
	wall := engine.Machine{}.Wall()
	living := wording.Only(all, func(s library.Day) bool { return !s.State.Ended })
	name := library.Day.VatName
	q := plain.Questions{Settings: settings, Now: wall, All: wording.Each(all, name), Vats: wording.Each(living, name), Recipes: p.recipes()}
	a := t.Ask(q)
	head := day.Head{}
	switch a.Door {
	case plain.OldVat:
		s := living[a.Vat]
		next, err := library.Next(s, a.End)
		must(about(s.Vat, err))
		if next.Setup.Ending && !a.End {
			p.say("The end of %s has begun: it is not dyed in any more, and the day goes on with its end.", s.VatName())
		}
		head = next
		head.Setup.GoodsFirst = !next.Setup.Ending
	case plain.NewVat:
		head.Setup, t.First = a.Setup, a.Goods
		head.Recipe, head.Opening = q.Recipes[a.Recipe], day.Opening{Number: 1}
		head.Vat = got(h.FreeVat(a.Setup.Name))
	default:
		return head, a.Door
	}
	return got(p.dated(head, wall, settings)), a.Door
}

// heardSpeed is how many times as fast as life a rehearsal is that is only heard.
const heardSpeed = 60

// heard plays an invented day, or a class, in a folder that vanishes, told in sentences; leave, or the end of the input, ends it.
func (p *program) heard(t *plain.Terminal) error {
	ctx, stop := p.endedBySignal()
	defer stop()
	ctx, left := context.WithCancel(ctx)
	defer left()
	p.say("A rehearsal: an invented day, %d times as fast. Nothing of it stays. leave ends it.", heardSpeed)
	guard.Go("listener", func() { t.UntilLeft(ctx); left() })
	err := p.aside(func(h shelf.Home) error { return p.plays(ctx, h, heardSpeed, "soda", t.Hears(p.workshop)) })
	if ctx.Err() != nil {
		p.say("The rehearsal is left.")
		return nil
	}
	return err
}

// bookOf tells plain mode what only the whole book of a vat knows.
func (p *program) bookOf(h shelf.Home, vat string) func(string) ([]string, error) {
	return func(what string) ([]string, error) {
		settings, err := h.Settings()
		if err != nil {
			return nil, err
		}
		sys := settings.System()
		s, ok := library.Last(h, vat)
		if !ok {
			return nil, errors.New("no day of this vat can be read")
		}
		var tell telling
		switch what {
		case "care":
			k, err := p.keeping(h, s)
			if err != nil {
				return nil, err
			}
			tell = tellCare(k, sys)
		case "cost":
			days, errs := library.AllDays(h, vat)
			p.warn(errors.Join(errs...))
			v, err := library.Costs(h, vat, days, p.rates(h))
			p.warn(err)
			tell = tellCost(v, days, false, sys)
		}
		return strings.Split(strings.TrimRight(paper.Lines(tell...).String(), "\n"), "\n"), nil
	}
}
