package loadtest

import (
	"fmt"
	"strings"
	"time"

	"example.org/vatside/model/load"
	"example.org/vatside/model/quantity"
)

// The checker's look at the vat, the hands and the indigo: like check.go, it knows nothing of how plans are made.

// rooms looks at weight and number in each vat whenever something goes in.
func (c *checking) rooms() {
	for _, at := range c.dips {
		if at.past {
			continue
		}
		var weight float64
		n := 0
		for _, d := range c.beside(at) {
			if d.vat == at.vat {
				weight += d.piece.Dry.Grams()
				n++
			}
		}
		c.sayIf(c.l.Capacity > 0 && weight > c.l.Capacity.Grams()+0.002*float64(n),
			"at %s the vat holds %.0f g, and takes %v", time.Duration(at.lower), weight, c.l.Capacity)
		c.sayIf(!c.l.Plain && c.l.Most > 0 && n > c.l.Most, "at %s the vat holds %d pieces, and takes %d", time.Duration(at.lower), n, c.l.Most)
	}
}

// task is a stretch of handwork.
type task struct {
	from, to int64
	name     string
	bundle   int
	fixed    bool // of a piece that was in the vat: it cannot be otherwise
	hand     int
}

// tasks are all stretches of handwork from now on.
func (c *checking) tasks() []task {
	var out []task
	for _, d := range c.dips {
		name := fmt.Sprintf("%s dip %d", d.piece.Tag, d.no)
		switch {
		case !d.counts():
		case d.piece.Work != "hung":
			out = append(out, task{d.lower, d.lifted, name, d.bundle, d.inVat, d.row.Hand})
		case d.inVat: // it may still be being lowered
			out = append(out, task{min(d.lower, d.in), d.in, name, d.bundle, true, d.row.Hand}, task{d.out, d.lifted, name, d.bundle, true, d.row.LiftHand})
		default:
			out = append(out, task{d.lower, d.in, name, d.bundle, false, d.row.Hand}, task{d.out, d.lifted, name, d.bundle, false, d.row.LiftHand})
		}
	}
	return out
}

// handwork looks at hands and breaks.
func (c *checking) handwork() {
	tasks := c.tasks()
	for _, a := range tasks {
		if c.l.Hands > 0 && a.from < a.to {
			busy, free := map[int]bool{}, false
			for _, b := range tasks {
				if b.from <= a.from && a.from < b.to {
					busy[b.bundle] = true
					free = free || !b.fixed
				}
			}
			c.sayIf(len(busy) > c.l.Hands && free,
				"at %s, %s, %d pairs of hands are at work, and there are %d", time.Duration(a.from), a.name, len(busy), c.l.Hands)
		}
		if c.l.Plain || a.fixed {
			continue
		}
		for _, b := range c.l.Breaks {
			from, to := int64(b.From), int64(b.To)
			if to <= from {
				continue // a break of no length is none
			}
			c.sayIf(a.from == a.to && from < a.from && a.from < to || a.from < a.to && a.from < to && from < a.to,
				"%s is handled at %s, within a break", a.name, time.Duration(a.from))
		}
	}
}

// standing looks whether a vat stands empty for so long after so much work, and that what the plan calls a rest is one.
func (c *checking) standing(kind string, after, long int64) {
	for v := 1; v <= max(1, c.l.Vats); v++ {
		began, last, any := int64(0), int64(0), false
		for _, d := range c.dips { // in the order of lowering
			if d.vat != v {
				continue
			}
			if !any || d.lower-last >= long {
				began, last, any = d.lower, d.lifted, true
			}
			last = max(last, d.lifted)
			c.sayIf(!d.past && last-began > after,
				"vat %d works from %s to %s without the %s it asks for", v, time.Duration(began), time.Duration(last), kind)
		}
	}
}

// indigo follows the balance i, and looks at the feeds.
func (c *checking) indigo(i load.Indigo) {
	feeds := map[int][]load.Stand{}
	for _, s := range c.p.Stands {
		if s.Kind == "feed" {
			feeds[s.Vat] = append(feeds[s.Vat], s)
		}
		for _, d := range c.dips {
			c.sayIf(d.vat == s.Vat && d.counts() && d.lower < int64(s.To) && int64(s.From) < d.lifted,
				"the vat is to stand for its %s at %s, and %s is in it", s.Kind, s.From, d.piece.Tag)
		}
	}
	if c.l.Plain || i.Holds <= 0 {
		c.sayIf(c.p.Weak != 0 || len(feeds) > 0, "no indigo is reckoned with, and the plan tells of it")
		return
	}
	weak := map[int]bool{}
	for v := 1; v <= max(1, c.l.Vats); v++ {
		c.sayIf(len(feeds[v]) > i.Feeds || i.Feed <= 0 && len(feeds[v]) > 0,
			"vat %d is fed %d times, and %d feeds are allowed", v, len(feeds[v]), i.Feeds)
		for n, s := range feeds[v] {
			c.sayIf(s.To-s.From < i.Wait-quantity.Seconds(1) || n > 0 && s.From < feeds[v][n-1].To,
				"vat %d is fed at %v and does not wait for %v", v, s.From, i.Wait)
		}
		// pieces in a bundle go in as one, so what each needs is asked of all at once
		spent, fed, seen := 0.0, 0, map[int]bool{}
		for _, d := range c.dips {
			if d.vat != v || d.past || seen[d.bundle] {
				continue
			}
			for fed < len(feeds[v]) && int64(feeds[v][fed].To) <= d.lower {
				fed++
			}
			seen[d.bundle] = true
			takes, least := 0.0, 0.0
			for _, e := range c.dips {
				if e.bundle == d.bundle {
					takes += e.piece.Takes.Grams()
					least = max(least, e.piece.Least.Grams())
				}
			}
			if i.Holds.Grams()+float64(fed)*i.Feed.Grams()-spent < max(least, i.Floor.Grams()+takes)-0.1 {
				weak[d.bundle] = true
			}
			spent += takes
		}
	}
	c.sayIf(len(weak) > c.p.Weak, "%d dips find too little indigo, and the plan tells of %d", len(weak), c.p.Weak)
	c.sayIf(c.p.Weak > 0 && !strings.Contains(strings.Join(c.p.Warnings, " "), "tires"),
		"dips find too little indigo, and the plan does not warn")
}
