// Package rehearse has the invented dyers and their days: the garden bin, a workshop of sixteen at two vats, and a vat that is kept for
// three months. A dyer decides by what the day shows alone, so that a rehearsal goes on from any event; Play lets one lead a day that an
// engine has open.
package rehearse

import (
	"context"
	"errors"
	"fmt"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/ui/engine"
)

// ErrWanted and ErrClassWanted are given by screens that are left for a rehearsal, of a day or of a workshop.
var (
	ErrWanted      = errors.New("a rehearsal is wanted")
	ErrClassWanted = errors.New("the rehearsal of a class is wanted")
)

// From is the instant at which a rehearsed day begins or goes on.
func From(head day.Head, events []day.Event) time.Time {
	if n := len(events); n > 0 {
		return events[n-1].At
	}
	return engine.Morning(head)
}

// Play drives open days with the invented dyer, one at each vat, until they are closed. led is their clock when they are played at full
// speed; nil when their own clock runs. told gets each event once it is on disk, in order, with the state after it.
func Play(ctx context.Context, e *engine.Engine, ids []string, led *engine.Led, told func(string, day.State, day.Event)) error {
	dyers := make([]player, len(ids))
	for n, id := range ids {
		dyers[n] = player{id: id, shown: -1, sinceSeq: -1}
	}
	for {
		var v engine.View
		var next time.Time // the first instant at which one of them looks again; none: all days are closed
		for n := range dyers {
			seen, at, err := dyers[n].look(ctx, e, led, told)
			if err != nil {
				return err
			}
			if !at.IsZero() && (next.IsZero() || at.Before(next)) {
				v, next = seen, at
			}
		}
		switch {
		case next.IsZero() || led == nil && ctx.Err() != nil:
			return nil
		case led != nil:
			led.Set(next)
		case next.After(v.Now):
			e.News(ctx, v, until(v, next.Sub(v.Now)))
		}
	}
}

// player is the dyer of a day that is played.
type player struct {
	id       string
	shown    int // the number of the last event that was told; -1: the day was not looked at yet
	dyer     eyes
	since    time.Time // day-time when the hands became free
	sinceSeq int
}

// look tells what is new of the day, does the next act if its time has come, and says when to look again: zero once the day is closed.
func (p *player) look(ctx context.Context, e *engine.Engine, led *engine.Led, told func(string, day.State, day.Event)) (v engine.View, next time.Time, err error) {
	if led != nil {
		if err := e.Settle(ctx, p.id); err != nil {
			return v, next, err
		}
	}
	snap, err := e.Now(ctx)
	if err != nil {
		return v, next, err
	}
	v, ok := snap.Day(p.id)
	if !ok {
		return v, next, nil
	}
	if p.shown < 0 {
		if p.shown = 0; len(v.State.Log) > 1 { // a day that is taken up again tells only what is new
			p.shown = v.Saved
		}
	}
	for _, ev := range v.State.Log {
		if ev.Seq > p.shown && ev.Seq <= v.Saved {
			told(p.id, v.State, ev)
			p.shown = ev.Seq
		}
	}
	if n := len(v.State.Log); n != p.sinceSeq {
		p.since, p.sinceSeq = v.Now, n
	}
	switch {
	case v.State.Closed && v.Saved >= p.sinceSeq:
		return v, next, nil
	case v.State.Closed:
		return v, v.Now.Add(mostUnseen), nil
	}
	next, err = playOn(ctx, e, p.id, led, &p.dyer, v, p.since)
	return v, next, err
}

// mostUnseen is the longest, in day-time, that the dyer does not look at the day: not every act waits for one of its deadlines.
const mostUnseen = time.Minute

// leastUnseen is the shortest by the machine's clock, where day-time runs fast.
const leastUnseen = 20 * time.Millisecond

// until is the machine's time that goes by while a day's clock runs so much day-time.
func until(v engine.View, dayTime time.Duration) time.Duration {
	if v.Pace <= 0 {
		return mostUnseen
	}
	return max(time.Duration(float64(dayTime)/v.Pace), leastUnseen)
}

// mostRefused is how often in a row the dyer of a led clock is refused before the day is given up: an hour of trying.
const mostRefused = 720

// longestDay is more events than any invented day has.
const longestDay = 5000

// longestWait is longer than any vat is waited for.
const longestWait = 40 * 24 * time.Hour

// tryAgain is after how long the dyer tries again what was refused: that is an answer too.
const tryAgain = 5 * time.Second

// playOn does the dyer's next act if its time has come, and says when the dyer looks at the day again; now, if it was done.
func playOn(ctx context.Context, e *engine.Engine, id string, led *engine.Led, dyer *eyes, v engine.View, since time.Time) (next time.Time, err error) {
	if len(v.State.Log) > longestDay {
		return next, fmt.Errorf("the invented dyer comes to no end: %d events", len(v.State.Log))
	}
	dues := day.Dues(v.State)
	after, c, ok := dyer.next(v.State, v.Now)
	at := since.Add(after)
	if ok {
		// A call answers a deadline: the hands are free since it came, not since the last event.
		for _, d := range dues {
			if !v.Now.Before(d.At) && d.At.Add(after).After(at) {
				at = d.At.Add(after)
			}
		}
	}
	if ok && !v.Now.Before(at) {
		_, err := e.Do(ctx, id, c)
		switch {
		case errors.Is(err, engine.ErrGone):
			return next, err
		case err == nil:
			dyer.refused = 0
			return v.Now, nil
		}
		if dyer.refused++; led != nil && dyer.refused > mostRefused {
			return next, fmt.Errorf("the invented dyer gets no further: %w", err)
		}
		return v.Now.Add(tryAgain), nil
	}
	if next = at; !ok {
		if led != nil && v.Now.Sub(v.State.At) > longestWait {
			return next, fmt.Errorf("the invented dyer waits for nothing after event %d", len(v.State.Log))
		}
		next = v.Now.Add(time.Hour)
	}
	var soon []time.Time
	for _, d := range dues {
		soon = append(soon, d.At, d.At.Add(day.GoOnAfter))
	}
	if led == nil {
		soon = append(soon, v.State.Vat.TempAt.Add(readAgain+1), v.Now.Add(mostUnseen))
	}
	for _, t := range soon {
		if t.After(v.Now) && t.Before(next) {
			next = t
		}
	}
	if !next.After(v.Now) {
		next = v.Now.Add(time.Second)
	}
	return next, nil
}
