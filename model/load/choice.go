package load

import (
	"fmt"
	"slices"
	"strings"

	"example.org/vatside/model/quantity"
)

// The ids of choices.
const (
	ChoiceWeak = "weak" // no time is lost for a strong vat: the last dips may be weak
	ChoiceFull = "full" // no dip in a weak vat, or as few as can be, whatever it takes
	ChoiceFeed = "feed" // reduced stock is fed, and the vat waits
)

// Choice is one way through a day on which the vat tires.
type Choice struct {
	ID       string        // stable: weak, full, feed
	Chosen   bool          // the plan beside it is this one
	Makespan quantity.Span // the last lift
	Finish   quantity.Span // all pieces done
	Late     quantity.Span // past the latest finish
	Weak     int           // dips made when the vat holds too little indigo for them
	Feed     quantity.Mass // pure indigo of each feed
	Feeds    []Stand
}

// Words says a choice: when all is done, and what of the vat. at says a time of the plan.
func (c Choice) Words(at func(quantity.Span) string) string {
	var parts []string
	if fed := c.Fed(at); fed != "" {
		parts = append(parts, fed)
	}
	parts = append(parts, "done "+at(c.Finish))
	switch {
	case c.Weak == 1:
		parts = append(parts, "1 dip weak")
	case c.Weak > 1:
		parts = append(parts, fmt.Sprintf("%d dips weak", c.Weak))
	default:
		parts = append(parts, "all full")
	}
	return strings.Join(parts, ", ")
}

// Fed says the feeds of a choice, if it has any.
func (c Choice) Fed(at func(quantity.Span) string) string {
	var parts []string
	for _, f := range c.Feeds {
		parts = append(parts, fmt.Sprintf("feed %v of indigo at %s", c.Feed, at(f.From)))
	}
	return strings.Join(parts, ", ")
}

// What a feed is that the limits do not name. M
const (
	feedPart  = 0.5 // one feed brings back half of what the vat held
	mostFeeds = 3
)

var feedWait = quantity.Hours(1) // "then rest 1–12 h" after reduced stock; C/M

// AnyFeed is the limits' balance with feeds, where it names none: half of what the vat holds, 1 h of wait, at most three.
func (i Indigo) AnyFeed() Indigo {
	if i.Feed <= 0 || i.Feeds <= 0 {
		i.Feed, i.Wait, i.Feeds = i.Holds*feedPart, feedWait, mostFeeds
	}
	return i
}

// fullIsWorth is how much longer a day may take for a strong vat where no finish is wished. M
const fullIsWorth = 30 * 60

// way is a plan for one choice.
type way struct {
	p    *problem
	d    draft
	low  int
	weak int
}

func (p *problem) way(solve func(*problem) (draft, int)) way {
	d, low := solve(p)
	n, _ := p.weak(d.placed, d.feeds)
	return way{p, d, low, n}
}

// choose plans the day in each way that there is, and takes the one that is asked for; else the wished finish rules: of
// the ways in time the one with the fewest weak dips, if none is, the least late. Feeding is only taken by itself where the
// limits feed.
func (p *problem) choose(solve func(*problem) (draft, int)) Plan {
	if p.holds == 0 {
		d, low := solve(p)
		return p.plan(d, low)
	}
	q := *p
	q.anyhow, q.feeds = true, 0
	ways := map[string]way{ChoiceWeak: q.way(solve)}
	if ways[ChoiceWeak].weak == 0 {
		return q.plan(ways[ChoiceWeak].d, ways[ChoiceWeak].low)
	}
	full := *p
	full.feeds = 0
	full.limits.Effort = (p.limits.effort() + 1) / 2
	if w := full.way(solve); w.weak < ways[ChoiceWeak].weak {
		ways[ChoiceFull] = w
	}
	fed := *p
	i := p.limits.Indigo.AnyFeed()
	fed.feed, fed.wait, fed.feeds = milligrams(i.Feed), seconds(i.Wait), i.Feeds
	fed.limits.Effort, fed.limits.Indigo = full.limits.Effort, i
	if w := fed.way(solve); len(w.d.feeds) > 0 && w.weak < ways[ChoiceWeak].weak {
		ways[ChoiceFeed] = w
	}
	id := p.limits.Choice
	if _, can := ways[id]; !can {
		id = p.byFinish(ways)
	}
	chosen := ways[id]
	for _, w := range ways {
		if w.d.score[ofLate] == 0 {
			chosen.p.other = true
		}
	}
	out := chosen.p.plan(chosen.d, chosen.low)
	for _, other := range []string{ChoiceWeak, ChoiceFull, ChoiceFeed} {
		w, can := ways[other]
		if !can {
			continue
		}
		as := w.p.plan(w.d, w.low)
		c := Choice{ID: other, Chosen: other == id, Makespan: as.Makespan, Finish: as.Finish(), Late: as.Late, Weak: w.weak, Feed: w.p.limits.Indigo.Feed}
		for _, s := range as.Stands {
			if s.Kind == "feed" {
				c.Feeds = append(c.Feeds, s)
			}
		}
		out.Choices = append(out.Choices, c)
	}
	return out
}

// byFinish is the way that the wished finish asks for.
func (p *problem) byFinish(ways map[string]way) string {
	ids := []string{ChoiceWeak, ChoiceFull}
	if p.feeds > 0 {
		ids = append(ids, ChoiceFeed)
	}
	soonest := ways[ChoiceWeak].d.score
	late := func(w way) int {
		s := w.d.score
		over := s[ofLate] + s[ofLeaving]
		if p.latest == 0 {
			over += max(0, s[ofSpan]-soonest[ofSpan]-fullIsWorth)
		}
		return over
	}
	return slices.MinFunc(ids, func(a, b string) int {
		x, can := ways[a]
		y, other := ways[b]
		switch {
		case !can || !other:
			return btoi(!can) - btoi(!other)
		case late(x) != late(y):
			return late(x) - late(y)
		case x.weak != y.weak:
			return x.weak - y.weak
		}
		return x.d.score[ofSpan] - y.d.score[ofSpan]
	})
}

func btoi(b bool) int {
	if b {
		return 1
	}
	return 0
}
