package load

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/wording"
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
	vat := "all dips full"
	if c.Weak > 0 {
		vat = wording.Counted(c.Weak, "weak dip")
	}
	return c.Fed(at) + wording.If(len(c.Feeds) > 0, ", ") + "done " + at(c.Finish) + ", " + vat
}

// Fed says the feeds of a choice, if it has any.
func (c Choice) Fed(at func(quantity.Span) string) string {
	return strings.Join(wording.Each(c.Feeds, func(f Stand) string { return fmt.Sprintf("feed %v of indigo at %s", c.Feed, at(f.From)) }), ", ")
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
	weak int
}

func (p *problem) way(solve func(*problem) draft) way {
	d := solve(p)
	n, _ := p.weak(d.placed, d.feeds)
	return way{p, d, n}
}

// ways are the ids of the choices, in their order.
var ways = []string{ChoiceWeak, ChoiceFull, ChoiceFeed}

// choose plans the day in each way that there is, and takes the one that is asked for; else the wished finish rules: of
// the ways in time the one with the fewest weak dips, if none is, the least late. Feeding is only taken by itself where the
// limits feed.
func (p *problem) choose(solve func(*problem) draft) Plan {
	if p.holds == 0 {
		d := solve(p)
		return p.plan(p.proven(d))
	}
	q := *p
	q.anyhow, q.feeds = true, 0
	weak := q.way(solve)
	if weak.weak == 0 {
		return q.plan(q.proven(weak.d))
	}
	full := *p
	full.feeds = 0
	full.limits.Effort = (p.limits.effort() + 1) / 2
	fed := full
	fed.limits.Indigo = p.limits.Indigo.AnyFeed()
	fed.feeding(fed.limits.Indigo)
	can := map[string]way{ChoiceWeak: weak}
	if w := full.way(solve); w.weak < weak.weak {
		can[ChoiceFull] = w
	}
	if w := fed.way(solve); len(w.d.feeds) > 0 && w.weak < weak.weak {
		can[ChoiceFeed] = w
	}
	chosen, is := can[p.limits.Choice]
	if !is {
		chosen = p.byFinish(can)
	}
	for _, w := range can {
		chosen.p.other = chosen.p.other || w.d.score[ofLate] == 0
	}
	out := chosen.p.plan(chosen.p.proven(chosen.d))
	for _, id := range ways {
		if w, is := can[id]; is {
			as := w.p.plan(w.d, 0) // its gap is not told
			out.Choices = append(out.Choices, Choice{ID: id, Chosen: w.p == chosen.p, Makespan: as.Makespan, Finish: as.Finish(), Late: as.Late, Weak: w.weak,
				Feed: w.p.limits.Indigo.Feed, Feeds: slices.DeleteFunc(as.Stands, func(s Stand) bool { return s.Kind != "feed" })})
		}
	}
	return out
}

// byFinish is the way that the wished finish asks for.
func (p *problem) byFinish(can map[string]way) way {
	late := func(w way) int {
		s := w.d.score
		over := s[ofLate] + s[ofLeaving] + s[ofPast]
		if p.latest == 0 {
			over += max(0, s[ofSpan]-can[ChoiceWeak].d.score[ofSpan]-fullIsWorth)
		}
		return over
	}
	best := can[ChoiceWeak]
	for _, id := range ways[1:] {
		w, is := can[id]
		if is && (id != ChoiceFeed || p.feeds > 0) && cmp.Or(late(w)-late(best), w.weak-best.weak, w.d.score[ofSpan]-best.d.score[ofSpan]) < 0 {
			best = w
		}
	}
	return best
}

func btoi(b bool) int {
	if b {
		return 1
	}
	return 0
}
