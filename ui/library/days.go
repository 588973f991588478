// Package library answers what several front ends ask of the shelf: the vats and their days, how they stand, what a vat wants, what
// blue a piece became, what a vat cost, what the tins hold, which recipes are at hand, what the next day takes over. It reads
// without a lock and changes nothing. What cannot be read is told as an error beside the rest.
package library

import (
	"errors"
	"fmt"
	"time"

	"example.org/vatside/model/book"
	"example.org/vatside/model/day"
	"example.org/vatside/model/history"
	"example.org/vatside/model/outlook"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/shelf"
)

// Day is a day of a vat as its files tell it, at its own present.
type Day struct {
	Vat, Name string
	State     day.State
	Now       time.Time
	Others    bool   // other days of the vat are open too; known of the days of Survey
	Damage    string // why the day is not whole; empty if it is
}

// Read reads a day. It errs where the file has no head that can be read, or where the recipe's amounts cannot be reckoned.
func Read(h shelf.Home, vat, name string) (Day, error) {
	d, err := read(h, vat, name)
	if err == nil {
		d.Now = Present(d.State)
	}
	return d, err
}

// read is Read without the day's present, which takes its time.
func read(h shelf.Home, vat, name string) (Day, error) {
	b, err := h.ReadDay(vat, name)
	switch {
	case err != nil:
		return Day{}, err
	case b.Lacks() != "":
		return Day{}, errors.New(b.Lacks())
	case b.HeadErr != nil:
		return Day{}, fmt.Errorf("its first lines cannot be read: %w", b.HeadErr)
	}
	s, wrong := day.Replay(b.Head, b.Events)
	if len(s.Plan) == 0 && len(wrong) > 0 {
		return Day{}, wrong[0]
	}
	return Day{Vat: vat, Name: name, State: s, Damage: b.Damage()}, nil
}

// Of is a day by its book, also where its recipe's amounts cannot be reckoned.
func Of(vat, name string, b book.Book) Day {
	s, _ := day.Replay(b.Head, b.Events)
	return Day{Vat: vat, Name: name, State: s, Now: Present(s), Damage: b.Damage()}
}

// Present is a day's now: of a rehearsed day, which nobody plays, the last event's instant; of a real one what the engine would take.
func Present(s day.State) time.Time {
	switch {
	case s.Head.Rehearsed && s.At.IsZero():
		return engine.Morning(s.Head) // killed before its first event
	case s.Head.Rehearsed:
		return s.At
	}
	now := engine.Present(engine.Machine{}, shelf.BootID(), s)
	if now.Before(s.At) {
		return s.At
	}
	return now
}

// NotWhole says that a day is not whole, and why; nil if it is whole.
func NotWhole(vat, name string, f book.Frame) error {
	return Day{Vat: vat, Name: name, Damage: f.Damage()}.NotWhole()
}

// NotWhole says that the day is not whole, and why; nil if it is whole.
func (d Day) NotWhole() error {
	if d.Damage == "" {
		return nil
	}
	return errors.New(book.NotWhole(d.Vat+"/"+d.Name, d.Damage))
}

// VatName is the vat as the dyer calls it.
func (d Day) VatName() string {
	if n := d.State.Head.Setup.Name; n != "" && shelf.Slug(n) == d.Vat {
		return n
	}
	return d.Vat
}

// Title is the vat as the dyer calls it, with what tells it from others: that it is invented, or which of its days it is.
func (d Day) Title() string {
	if d.Others {
		return d.VatName() + ", day " + d.Name + d.Tag()
	}
	return d.VatName() + d.Tag()
}

// Tag says of an invented day that it is one.
func (d Day) Tag() string {
	if d.State.Head.Rehearsed {
		return " (rehearsed)"
	}
	return ""
}

// Open tells whether the day is.
func (d Day) Open() bool { return !d.State.Closed }

// Today tells whether the day is open, or was closed on the date that it is now.
func (d Day) Today() bool {
	y, m, date := d.State.At.In(d.Now.Location()).Date()
	year, month, today := d.Now.Date()
	return d.Open() || y == year && m == month && date == today
}

// Call is what the hands are asked for.
func (d Day) Call() day.Call { return day.CallOf(d.State, d.Now) }

// Past is the day as one of a vat's history.
func (d Day) Past() history.Day {
	return history.Day{Name: d.Name, State: d.State, Damage: d.Damage}
}

// Days reads days of a vat by their names, the oldest first.
func Days(h shelf.Home, vat string, names []string) (out history.Vat, errs []error) {
	errs = readEach(h, vat, names, func(d Day) { out = append(out, d.Past()) })
	return out, errs
}

// readEach reads days of a vat by their names and hands them over, but for those that cannot be read.
func readEach(h shelf.Home, vat string, names []string, take func(Day)) (errs []error) {
	for _, name := range names {
		d, err := read(h, vat, name)
		if err != nil {
			errs = append(errs, shelf.LeftOut(vat, name, err))
			continue
		}
		if err := d.NotWhole(); err != nil {
			errs = append(errs, err)
		}
		take(d)
	}
	return errs
}

// AllDays reads all days of a vat, the oldest first.
func AllDays(h shelf.Home, vat string) (history.Vat, []error) {
	names, err := h.Days(vat)
	days, errs := Days(h, vat, names)
	if err != nil {
		errs = append(errs, err)
	}
	return days, errs
}

// Next is the head of the day after one, as that left the vat; with end the one that leads to the vat's end. It errs where there
// can be none.
func Next(d Day, end bool) (day.Head, error) {
	head, err := outlook.Next(d.State, end)
	head.Vat = d.Vat
	return head, err
}

// Set puts what the dyer set once for all days into the head of a day that begins at an instant.
func Set(head day.Head, s shelf.Settings, at time.Time) day.Head {
	head.Setup.Waiting, head.Setup.Entries, head.Setup.NoLook, head.Setup.Gear = !s.GoingOn, s.Entries && s.GoingOn, s.NoLook, s.Gear
	head.Setup.ReadyBy, head.Setup.DoneBy = day.Wished(at, s.ReadyBy), day.Wished(at, s.DoneBy)
	return head
}
