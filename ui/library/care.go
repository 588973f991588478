package library

import (
	"slices"
	"sync"

	"example.org/vatside/model/history"
	"example.org/vatside/ui/shelf"
)

// Cares remembers what each vat wanted when its book was last read. The reading takes a second for a home of many vats, and most
// of them are as they were. The zero Cares is ready for use.
type Cares struct {
	mu   sync.Mutex
	last map[string]cared
}

// cared is what a vat wants, and what that goes by: its last day, so far, in this hour.
type cared struct {
	day    string
	events int
	hour   int64
	care   []history.Due
}

// Of is in short what a vat wants at its own present. What cannot be read is told where its day is opened.
func (c *Cares) Of(h shelf.Home, vat string) []history.Due {
	d, ok := Last(h, vat)
	if !ok {
		return nil
	}
	is := cared{day: d.Name, events: len(d.State.Log), hour: d.Now.Unix() / 3600}
	c.mu.Lock()
	was := c.last[vat]
	c.mu.Unlock()
	if was.day == is.day && was.events == is.events && was.hour == is.hour {
		return was.care
	}
	is.care = d.Care(h)
	c.mu.Lock()
	defer c.mu.Unlock()
	if c.last == nil {
		c.last = map[string]cared{}
	}
	c.last[vat] = is
	return is.care
}

// lately is how many days of a vat are read to say in short what it wants: what was last done more days ago than that is
// overdue either way.
const lately = 10

// Care is in short what the vat of its last day wants.
func (d Day) Care(h shelf.Home) []history.Due {
	names, _ := h.Days(d.Vat)
	at := max(0, slices.Index(names, d.Name))
	before, _ := Days(h, d.Vat, names[max(0, at+1-lately):at])
	return history.LifeOf(append(before, d.Past())).Care(d.Now)
}
