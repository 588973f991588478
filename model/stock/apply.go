package stock

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"example.org/vatside/model/wording"
)

// List is the shelf after its events so far: every tin that ever stood there, in the order in which they came.
type List struct {
	Tins []Tin
	Log  []Event
	last int // the highest number that a tin has had
}

// Replay folds Apply over events, with what was taken back left out. It stops at nothing: an event that does not fit
// changes nothing, and is told.
func Replay(events []Event) (List, []error) {
	undone := corrections(events)
	var l List
	var errs []error
	for _, e := range events {
		if b, ok := e.Body.(Bought); ok {
			l.last = max(l.last, number(b.Tin)) // a number is never given twice, not even after an undo
		}
		if undone[e.Seq] {
			l.Log = append(l.Log, e)
			continue
		}
		next, err := Apply(l, e)
		if err != nil {
			errs = append(errs, fmt.Errorf("event %d, %s: %w", e.Seq, e.Body.Kind(), err))
		}
		l = next
	}
	return l, errs
}

// corrections are the events that were taken back. A correction can itself be taken back.
func corrections(events []Event) map[int]bool {
	undone := map[int]bool{}
	for _, e := range slices.Backward(events) {
		if c, ok := e.Body.(Corrected); ok && !undone[e.Seq] && c.Of < e.Seq && c.Way == "undone" {
			undone[c.Of] = true
		}
	}
	return undone
}

// Apply is the list after one more event, but for Corrected, which only Replay can take into account. It is total: an
// event that does not fit changes nothing but the log, and the error says why.
func Apply(l List, e Event) (List, error) {
	l.Log = append(slices.Clip(l.Log), e)
	l.Tins = slices.Clone(l.Tins)
	change := func(tin string, do func(*Tin)) (List, error) {
		n := l.at(tin)
		if n < 0 {
			return l, fmt.Errorf("there is no tin %s", tin)
		}
		do(&l.Tins[n])
		return l, nil
	}
	switch b := e.Body.(type) {
	case Bought:
		if l.at(b.Tin) >= 0 {
			return l, fmt.Errorf("there is a tin %s already", b.Tin)
		}
		l.last = max(l.last, number(b.Tin))
		l.Tins = append(l.Tins, Tin{
			ID: b.Tin, Material: b.Material, Substance: substanceOf(b.Material), Form: formOf(b.Material),
			Holds: b.Holds, Price: b.Price, Labelled: b.Strength, Bought: wording.Told(b.When, e.At),
		})
	case Opened:
		return change(b.Tin, func(t *Tin) { t.Opened = new(wording.Told(b.When, e.At)) })
	case Weighed:
		return change(b.Tin, func(t *Tin) { t.Weighings = append(slices.Clip(t.Weighings), Weighing{e.At, max(0, b.Mass)}) })
	case Tested:
		return change(b.Tin, func(t *Tin) { t.Tests = append(slices.Clip(t.Tests), Test{e.At, b}) })
	case Discarded:
		return change(b.Tin, func(t *Tin) { t.Gone = &Gone{e.At, b.Why} })
	}
	return l, nil
}

// at is the place of a tin in the list, -1 if it is not there.
func (l List) at(id string) int {
	return slices.IndexFunc(l.Tins, func(t Tin) bool { return strings.EqualFold(t.ID, id) })
}

// number is the number in a tin's id, 0 where it has none.
func number(id string) int {
	n, err := strconv.Atoi(strings.TrimPrefix(strings.ToUpper(id), "T"))
	if err != nil {
		return 0
	}
	return n
}

// Since is the earliest time at which anything of the list was bought; false for an empty list. Draws before it are of no
// account.
func (l List) Since() (time.Time, bool) {
	var first time.Time
	for _, t := range l.Tins {
		if first.IsZero() || t.Bought.Before(first) {
			first = t.Bought
		}
	}
	return first, len(l.Tins) > 0
}
