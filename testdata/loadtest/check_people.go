package loadtest

import (
	"strings"
	"time"

	"example.org/vatside/model/load"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/wording"
)

// The checker's look at people: who is at the vat, who leaves, what is shown to all, whose turn it is, which hands.

// people looks at how many people are at the vats whenever something goes in.
func (c *checking) people() {
	for _, at := range c.dips {
		if at.past || at.piece.Who == "" || c.l.AtVat == 0 || c.l.Plain {
			continue
		}
		who := wording.Once(wording.Filled(wording.Each(c.beside(at), func(d dipped) string { return d.piece.Who })...))
		c.sayIf(len(who) > c.l.AtVat, "at %s %d people are at the vat, and %d may be", time.Duration(at.lower), len(who), c.l.AtVat)
	}
}

// leaving looks at who must stay longer.
func (c *checking) leaving() {
	var sum int64
	for _, x := range c.pieces {
		if c.l.Plain || x.Till == 0 {
			continue
		}
		var last int64
		for _, d := range c.of(x.Tag) {
			last = max(last, d.lifted)
		}
		if over := last - int64(x.Till); over >= int64(time.Second) {
			sum += over
			c.sayIf(!strings.Contains(strings.Join(c.p.Warnings, " "), "Piece "+x.Tag+" has its last dip till"),
				"the person of %s must stay longer, and the plan does not warn", x.Tag)
		}
	}
	if own := int64(c.p.Leaving); (own > 0) != (sum > 0) || own > sum+int64(time.Second)*int64(len(c.pieces)+1) {
		c.say("people must stay %s longer, and the plan says %v", time.Duration(sum), c.p.Leaving)
	}
}

// isShown tells whether a dip is the one that is shown to all.
func (c *checking) isShown(d dipped) bool {
	s := c.stood[d.piece.Tag]
	return d.piece.Demo && !c.l.Plain && !d.past && d.no == 1 && s.Dips == 0 && s.Where == load.Waiting
}

// shown looks whether what is shown to all comes first and alone.
func (c *checking) shown() {
	for _, a := range c.dips {
		if !c.isShown(a) {
			continue
		}
		for _, b := range c.dips {
			switch {
			case b.piece.Tag == a.piece.Tag || !b.counts():
			case b.inVat && b.lifted <= a.lower, c.isShown(b) && (b.lifted <= a.lower || a.lifted <= b.lower), b.lower >= a.lifted && !b.inVat:
			default:
				c.say("%s dip 1 is shown to all, and %s dip %d is handled before it is over", a.piece.Tag, b.piece.Tag, b.no)
			}
		}
	}
}

// helpers looks whether each pair of hands is at one piece of work at a time.
func (c *checking) helpers() {
	tasks := c.tasks()
	for n, a := range tasks {
		if c.l.Hands == 0 && a.hand == 0 {
			continue
		}
		c.sayIf(a.hand < 1 || a.hand > c.l.Hands, "%s is given to pair %d, and there are %d", a.name, a.hand, c.l.Hands)
		for _, b := range tasks[:n] {
			both := a.from < a.to && b.from < b.to && a.from < b.to && b.from < a.to
			c.sayIf(both && a.hand == b.hand && a.bundle != b.bundle && !a.fixed && !b.fixed,
				"pair %d is at %s and at %s at once", a.hand, a.name, b.name)
		}
	}
}

// turns looks at the rounds of a day that is planned from its start.
func (c *checking) turns() {
	longer := false
	for _, x := range c.pieces {
		longer = longer || x.Dips > 2
	}
	outside := func(x load.Piece) bool { return x.Dips <= 2 && longer }
	for _, d := range c.dips {
		c.sayIf(d.piece.Who != d.row.Who && !d.past, "%s dip %d is not given to %q", d.piece.Tag, d.no, d.piece.Who)
	}
	if !c.l.Fair || c.now != 0 || len(c.stood) > 0 {
		return
	}
	var opens int64 // what is shown to all comes before all turns
	for _, d := range c.dips {
		if c.isShown(d) {
			opens = max(opens, d.lifted)
		}
	}
	for _, a := range c.dips {
		want := wording.Either(outside(a.piece), 0, a.no)
		c.sayIf(a.row.Round != want, "%s dip %d is of round %d, not %d", a.piece.Tag, a.no, a.row.Round, want)
		if a.lower < opens {
			continue
		}
		for _, x := range c.pieces {
			had, ready := 0, max(int64(x.From), opens)
			for _, d := range c.dips {
				if d.piece.Tag == x.Tag && d.lower <= a.lower {
					had, ready = had+1, d.lifted+int64(x.Air)
				}
			}
			if x.Tag == a.piece.Tag || outside(x) || had == x.Dips || ready > a.lower {
				continue
			}
			mine := a.no - 1
			c.sayIf(had == 0 && (mine > 0 || outside(a.piece)) || !outside(a.piece) && mine-had > 1,
				"%s has dip %d at %s, and %s, with %d, waits", a.piece.Tag, a.no, time.Duration(a.lower), x.Tag, had)
		}
	}
}

// choices looks whether the ways through a tiring vat are told. It gives the balance that the plan is to keep.
func (c *checking) choices() load.Indigo {
	i := c.l.Indigo
	chosen := ""
	for _, way := range c.p.Choices {
		if way.Chosen {
			chosen += way.ID
			c.sayIf(way.Weak != c.p.Weak || way.Makespan != c.p.Makespan || way.Late != c.p.Late, "the choice %s is not the plan", way.ID)
		}
	}
	if len(c.p.Choices) > 0 || c.p.Weak > 0 {
		c.sayIf(chosen != "weak" && chosen != "full" && chosen != "feed", "the vat tires, and the choice is %q", chosen)
	}
	for _, way := range c.p.Choices {
		c.sayIf(c.l.Choice == way.ID && chosen != way.ID, "the choice %s was asked for, and %s is made", way.ID, chosen)
	}
	if chosen == "feed" && (i.Feeds == 0 || i.Feed <= 0) {
		i.Feed, i.Feeds, i.Wait = i.Holds/2, 3, quantity.Hours(1)
	} else if chosen != "feed" {
		i.Feeds = 0
	}
	return i
}
