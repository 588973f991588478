package stock

import (
	"fmt"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/wording"
)

// Command is what the dyer wants of the list.
type Command interface {
	decide(l List, now time.Time) ([]Body, error)
}

// The commands; each is the method of List that it is named in.
type (
	// AddTin is List.Buy.
	AddTin struct{ New NewTin }
	// OpenTin is List.BreakOpen; At nil: now.
	OpenTin struct {
		Tin string
		At  *time.Time
	}
	// WeighTin is List.Weigh.
	WeighTin struct {
		Tin  string
		Mass quantity.Mass
	}
	// TestTin is List.Try.
	TestTin struct {
		Tin    string
		Result Tested
	}
	// DropTin is List.Discard.
	DropTin struct{ Tin, Why string }
	// TakeBack is List.Undo.
	TakeBack struct{}
)

// Decide says which events a command makes, or refuses in one sentence. A text that holds what cannot be shown is refused,
// whatever the command, and so is a figure that a reader would set aside.
func Decide(l List, c Command, now time.Time) ([]Body, error) {
	if err := wording.RefusalIn(c); err != nil {
		return nil, err
	}
	bodies, err := c.decide(l, now)
	for _, b := range bodies {
		if key, what := day.Beyond(b); what != "" {
			return nil, fmt.Errorf("%s: %s", key, what)
		}
	}
	return bodies, err
}

func one(b Body, err error) ([]Body, error) {
	if err != nil {
		return nil, err
	}
	return []Body{b}, nil
}

func (c AddTin) decide(l List, now time.Time) ([]Body, error) { return l.Buy(c.New, now) }
func (c OpenTin) decide(l List, now time.Time) ([]Body, error) {
	return one(l.BreakOpen(c.Tin, c.At, now))
}
func (c WeighTin) decide(l List, _ time.Time) ([]Body, error) { return one(l.Weigh(c.Tin, c.Mass)) }
func (c TestTin) decide(l List, _ time.Time) ([]Body, error)  { return one(l.Try(c.Tin, c.Result)) }
func (c DropTin) decide(l List, _ time.Time) ([]Body, error)  { return one(l.Discard(c.Tin, c.Why)) }
func (TakeBack) decide(l List, _ time.Time) ([]Body, error)   { return one(l.Undo()) }
