package engine

import (
	"context"
	"errors"
	"slices"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/cue"
	"example.org/vatside/ui/guard"
)

// Mail is where the newest snapshot lies. The engine never waits for anybody to fetch it: a newer one replaces it.
func (e *Engine) Mail() <-chan Snapshot { return e.mail }

// Run is the engine's work. It returns when ctx ends, or when it or a scribe fails, and says what of the acts is not in
// the files of their days.
func (e *Engine) Run(ctx context.Context) Parting {
	e.alive = ctx
	if c := guard.Try("engine", func() { e.loop(ctx) }); c != nil {
		guard.End(*c)
	}
	close(e.gone)
	var p Parting
	if c := guard.Try("drain", func() { p = e.drain() }); c != nil {
		guard.End(*c)
		p = e.letGo()
	}
	return p
}

// Start is Run beside its caller; the channel has room for its answer.
func (e *Engine) Start(ctx context.Context) <-chan Parting {
	parted := make(chan Parting, 1)
	var p Parting
	guard.GoThen("parting", func() { p = e.Run(ctx) }, func(c *guard.Crash) {
		if c != nil {
			guard.End(*c)
		}
		parted <- p
	})
	return parted
}

// alarm is what wakes the loop: the machine's own, or for other instruments a timer of Go's runtime.
func (e *Engine) alarm() alarm {
	if m, is := e.in.(Machine); is {
		return m.alarm()
	}
	return newAlarm()
}

// loop takes what comes, one thing at a time, until ctx ends or a scribe has crashed; after each it lets time act and publishes.
func (e *Engine) loop(ctx context.Context) {
	a := e.alarm()
	defer a.stop()
	if a.wait != nil {
		guard.Go("alarm", a.wait)
	}
	for {
		select {
		case f := <-e.asks:
			f()
		case d := <-e.inbox:
			if e.written(d); d.crashed {
				return
			}
		case k := <-e.keeps:
			e.kept(k)
		case x := <-e.reckonings:
			e.advise(x)
		case x := <-e.sounded:
			e.hear(x)
		case <-e.roused:
		case <-a.rings:
		case <-ctx.Done():
			return
		}
		e.tick()
		e.publish()
		e.tell()
		e.rested = e.rest()
		a.set(e.rested)
	}
}

// tick lets time act on each day, and tries again what its file refused.
func (e *Engine) tick() {
	e.hearAll()
	mono := e.in.Mono()
	unheard := e.unheard(mono)
	e.ticked = mono
	written := wording.Count(e.days, func(s *session) bool { return s.writer != nil && !s.state.Closed })
	for _, s := range e.days {
		if mono >= s.retry {
			s.write()
		}
		if e.held.Load() {
			s.watched = s.now()
		}
		s.tick(e.caller, unheard, written > 1)
		s.reckon(e.reckonings, int(e.effort.Load()))
	}
	e.hearAll()
}

// publish puts the newest snapshot in the one slot.
func (e *Engine) publish() {
	snap := e.snapshot()
	for {
		select {
		case e.mail <- snap:
			return
		default:
		}
		select {
		case <-e.mail:
		default:
		}
	}
}

func (e *Engine) snapshot() Snapshot {
	views := wording.Each(e.days, func(s *session) View { return s.view(s.ticked) })
	return Snapshot{Wall: e.in.Wall(), Resting: !e.counts(), Days: views}
}

// view is the day at an instant, at the least that of its last event.
func (s *session) view(now time.Time) View {
	if now.Before(s.state.At) {
		now = s.state.At
	}
	return View{
		ID: s.id, State: s.state, Now: now, moment: s.at(now), Saved: s.saved(), Trouble: s.standing(s.mono()), Unsaved: len(s.unsaved()), Advice: s.advice, Unheard: s.unheard(),
		Looking: s.writer == nil, Pace: s.source.Pace(),
		Free: s.free, Newer: s.newer, Polled: s.polled, Outlook: s.outlook, Blue: s.blue, Table: s.table,
	}
}

// Open takes a day on. A day without events gets its opening. A day that is only looked at is taken over if the opening has a
// Writer. It errs when the recipe's amounts cannot be reckoned, and with ErrOpen when the day is open already: the opening's
// Writer and Other are then the caller's to close.
func (e *Engine) Open(ctx context.Context, o Opening) (View, error) {
	state, errs := day.Replay(o.Head, o.Events)
	if len(errs) > 0 && len(state.Plan) == 0 {
		return View{}, errs[0]
	}
	var table *outlook.Table
	if o.Writer != nil && e.effort.Load() > 0 {
		state, table = Advised(state)
	}
	var view View
	var refused error
	err := e.ask(ctx, func() {
		var s *session
		if s, refused = e.place(o); refused != nil {
			view = s.view(s.now())
			return
		}
		s.set(state)
		if table != nil {
			s.table = table
		}
		s.writer, s.source, s.called = o.Writer, o.Source, map[dueKey]int{}
		s.sound = sound{to: e.sounded, live: s.state.LiveAny()}
		if w, ok := o.Writer.(interface{ Last() int }); ok {
			s.last = w.Last()
		}
		if s.source == nil {
			s.boot = e.boot
			s.source = e.living(state)
		}
		if len(o.Events) == 0 && o.Writer != nil {
			s.happen(day.Opened{How: How(o.Head)})
		} else if l, ok := s.source.(*Living); ok && o.Writer != nil && !state.Closed && l.offset.Abs() > leastStep {
			s.happen(day.ClockStepped{By: quantity.Span(l.offset.Round(time.Second))})
		}
		s.watched, s.began = s.now(), len(s.state.Log)
		if r, ok := o.Writer.(refuge); ok && !s.busy {
			e.left = slices.DeleteFunc(e.left, func(l Remainder) bool { return l.ID == o.ID })
			if s.away = r.Away(); s.away.Events > 0 { // events lie in another place, as the day's file refused them
				s.retry = e.in.Mono() + time.Second
			}
		}
		if o.Writer != nil {
			s.tellOverdue(e.caller)
		} else if o.Other != nil {
			e.followOther(s, o.Other)
		}
		view = s.view(s.now())
	})
	return view, errors.Join(err, refused)
}

// How is how a day opens: build, tend, go on or end.
func How(h day.Head) string {
	o := h.Opening
	switch {
	case o.Built && h.Setup.Ending:
		return "end"
	case o.Built:
		return "tend"
	case o.Step > 0:
		return "go on"
	}
	return "build"
}

// living anchors day-time on the last event of a day.
func (e *Engine) living(s day.State) *Living {
	zone := Zone(s.Head)
	if len(s.Log) == 0 {
		return NewLiving(e.in, time.Time{}, 0, false, zone)
	}
	last := s.Log[len(s.Log)-1]
	same := e.boot != "" && last.Boot == e.boot
	return NewLiving(e.in, s.At, time.Duration(last.Up*float64(time.Second)), same, zone)
}

// Present is day-time for a day that nobody drives at the moment, as the engine would reckon it. boot is this boot's id.
func Present(in Instruments, boot string, s day.State) time.Time {
	e := Engine{in: in, boot: boot}
	return e.living(s).Now()
}

// Do carries out a command on a day. It returns what happened as soon as it is applied; Snapshot.Saved says when it is
// on disk. An error is a refusal in one sentence, or ErrGone.
func (e *Engine) Do(ctx context.Context, id string, c day.Command) ([]day.Event, error) {
	return e.do(ctx, id, c, false)
}

func (e *Engine) do(ctx context.Context, id string, c day.Command, hand bool) ([]day.Event, error) {
	var out []day.Event
	err := ErrGone
	if gone := e.ask(ctx, func() {
		if e.rested > time.Second { // a sleep of the machine meanwhile comes before this in the book
			e.tick()
		}
		if e.unasked.Swap(false) {
			for _, s := range e.days {
				s.cautioned = ""
			}
		}
		err = errors.New("that day is not open")
		if s := e.session(id); s != nil {
			out, err = s.do(c, hand)
		}
	}); gone != nil {
		return nil, gone
	}
	return out, err
}

// Now is a snapshot, after time has acted.
func (e *Engine) Now(ctx context.Context) (Snapshot, error) {
	var snap Snapshot
	err := e.ask(ctx, func() { e.tick(); snap = e.snapshot() })
	return snap, err
}

// Leave lets a day go: its lock is free for another program. Nothing of it is lost; it goes on at the next Open.
func (e *Engine) Leave(ctx context.Context, id string) error {
	var err error
	for left := true; left; {
		if err := e.Settle(ctx, id); err != nil {
			return err
		}
		if gone := e.ask(ctx, func() {
			left = false
			e.days = slices.DeleteFunc(e.days, func(s *session) bool {
				if s.id != id {
					return false
				}
				if s.busy || len(s.waiting) > 0 { // something happened since, or a return of what is away is tried
					left = true
					return false
				}
				if s.writer != nil {
					err = s.writer.Close()
				}
				if r := s.remainder(); r.Away.Events > 0 {
					e.left = append(e.left, r)
				}
				s.lookNoMore()
				return true
			})
		}); gone != nil {
			return gone
		}
	}
	return err
}

// Press is Do for what comes from a key or a mouse: a day.Done shortly after the call has changed is refused by *day.Other.
func (e *Engine) Press(ctx context.Context, id string, c day.Command) ([]day.Event, error) {
	return e.do(ctx, id, c, true)
}

// assumed is what is taken as planned. Nothing is where no deadline is long enough over.
func (s *session) assumed(now time.Time) (day.Command, bool) {
	if dues := s.dues(); len(dues) == 0 || now.Sub(dues[0].At) < day.GoOnAfter {
		return nil, false
	}
	return day.Assume(s.state, now, s.watched, s.heard)
}

// tick lets time act: what slept or was stepped is told, what ran out is called or assumed.
// several is whether other days are written too, so that what is said begins with the vat.
func (s *session) tick(caller cue.Caller, unheard, several bool) {
	s.ticked = s.now()
	if s.writer == nil || s.state.Closed {
		return
	}
	s.several = several
	if _, living := s.source.(*Living); living && unheard {
		s.watched = s.now()
		s.tellOverdue(caller)
	}
	if w, ok := s.source.(Watched); ok {
		slept, stepped := w.Notice()
		if slept > 0 {
			s.happen(day.Slept{For: quantity.Span(slept.Round(time.Second))})
			s.watched = s.now()
			s.tellOverdue(caller)
		}
		if stepped != 0 {
			s.happen(day.ClockStepped{By: quantity.Span(stepped.Round(time.Second))})
		}
	}
	now := s.now()
	s.ticked = now
	if c, ok := s.assumed(now); ok {
		if bodies, err := day.Decide(s.state, c, now); err == nil {
			s.happen(bodies...)
		}
	}
	called := s.call(caller, now)
	s.around(caller, now)
	s.says(caller, now, called)
}
