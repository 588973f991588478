package load

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"example.org/vatside/model/fibre"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/sorted"
)

// job is a piece, or a bundle of like pieces, in whole seconds and milligrams.
type job struct {
	members          []int // indices of the pieces
	n, done          int   // dips to plan, and those before
	p, a, h          int   // dip, airing, one lowering or lifting
	moved            bool
	w, takes, least  int64
	cnt, ready, dark int
	tail             int  // from the last lift until done
	base             int  // number of its first dip among all
	apart            bool // stands in the vat, or is shown to all, so is no bundle's
	person           int  // number of whose it is, from 1; 0: nobody's
	till             int  // lifted by then; 0: no matter when
	demo             bool // its first dip comes before all others, alone
}

// shown tells whether its next dip is shown to all.
func (j *job) shown() bool { return j.demo && j.done == 0 && j.n > 0 }

// tag is what a job's first piece is called.
func (p *problem) tag(j *job) string { return p.pieces[j.members[0]].Tag }

// d is how long a dip holds its room.
func (j *job) d() int { return 2*j.h + j.p }

// soonest is when a job is done if nothing else is in its way, final airings and rinses in it.
func (j *job) soonest() int { return j.ready + j.n*(j.d()+j.a) - j.a + j.tail }

// held is a dip in its time: s is its lowering, e its lifting ended. k is its number among those to plan, from 0; -1 for
// one that was in the vat when the plan was begun.
type held struct{ job, k, vat, s, e int }

// hands gives the stretches in which a dip takes a pair of hands; the second is empty for a moved piece.
func (p *problem) hands(x held) (a0, a1, b0, b1 int) {
	j := &p.jobs[x.job]
	if j.moved {
		return x.s, x.e, x.e, x.e
	}
	if x.k < 0 { // in the vat from before: lowered with others, it may have taken longer
		return x.s, max(x.s+j.h, x.e-j.h-j.p), x.e - j.h, x.e
	}
	return x.s, x.s + j.h, x.e - j.h, x.e
}

type window struct{ from, to int }

// pause is a rest or a reheat, as its stands are called.
type pause struct {
	after, long int
	kind        string
}

// past is how a vat stands at the start of the plan.
type past struct {
	used bool
	last int // the latest lift so far
	beg  [2]int
}

// problem is what the planners see.
type problem struct {
	pieces             []Piece
	limits             Limits
	jobs               []job
	ops                int // dips to plan
	cap                int64
	most               int
	pairs              int // 0: no limit
	vats               int
	breaks             []window
	pauses             []pause
	latest, now        int
	fixed              []held // in the vat at now
	before             []past
	holds, floor, feed int64       // of indigo; holds 0: no balance
	wait, feeds        int         // after a feed; feeds of a vat
	people             int         // with a piece in the vats at once; 0: no limit
	other              bool        // another choice is in time
	anyhow             bool        // weak dips are taken as they come, and only counted
	longer             bool        // some wish has more dips than one outside the rounds
	head               []held      // of a replan: the calls that were told, which stay
	old                []int       // of a replan, per dip: its old time, -1 for none
	since              map[int]int // per job in the vat: since when its dip counts
	warn               []string
}

const far = math.MaxInt / 4

func seconds(s quantity.Span) int { return int(math.Round(s.Seconds())) }

func span(s int) quantity.Span { return quantity.Span(s) * quantity.Span(1e9) }

// milligrams is a mass in whole milligrams; beyond what that holds it stays at the limit.
func milligrams(m quantity.Mass) int64 {
	return int64(math.Round(min(max(m.Grams()*1000, 0), 1e15)))
}

// checkPiece is the fault of a piece that cannot be planned at all.
func (l Limits) checkPiece(p Piece) error {
	for _, s := range []struct {
		what string
		v    quantity.Span
	}{{"airing", p.Air}, {"final airing", p.FinalAir}, {"finish", p.Finish}, {"earliest time", p.From}, {"latest time", p.Till}} {
		if s.v < 0 || s.v > quantity.Days(30) {
			return fmt.Errorf("piece %s: its %s of %v cannot be planned: say 0 to 30 days", p.Tag, s.what, s.v)
		}
	}
	switch g := p.Dry.Grams(); {
	case p.Tag == "":
		return fmt.Errorf("a piece has no tag: give each its own")
	case !(g > 0) || math.IsInf(g, 0):
		return fmt.Errorf("piece %s has no dry weight: weigh it", p.Tag)
	case p.Dips < 0 || p.Dips > MostDips:
		return fmt.Errorf("piece %s has %d dips: say 1 to %d", p.Tag, p.Dips, MostDips)
	case p.Dip < quantity.Seconds(1) || p.Dip > quantity.Days(30):
		return fmt.Errorf("piece %s: a dip of %v cannot be planned: say at least 1 s", p.Tag, p.Dip)
	case p.Work != "" && p.Work != Moved && p.Work != Hung:
		return fmt.Errorf("piece %s: work %q is not known: say moved or hung", p.Tag, p.Work)
	case p.Form != "" && !slices.Contains([]string{Cloth, Skein, Garment, Bound, Pasted}, p.Form):
		return fmt.Errorf("piece %s: form %q is not known: say cloth, skein, garment, bound or pasted", p.Tag, p.Form)
	case !(p.Takes >= 0) || !(p.Least >= 0):
		return fmt.Errorf("piece %s: what a dip takes of indigo is below nothing", p.Tag)
	case l.Capacity > 0 && milligrams(p.Dry) > milligrams(l.Capacity):
		return fmt.Errorf("piece %s weighs %v dry and the vat takes %v at once: dye it in parts or in a larger vat", p.Tag, p.Dry, l.Capacity)
	}
	return nil
}

// check is the fault of limits that no plan can keep.
func (l Limits) check() error {
	switch g := l.Capacity.Grams(); {
	case !(g >= 0) || math.IsInf(g, 0):
		return fmt.Errorf("the vat's capacity of %v cannot be: give the dry weight it takes at once", l.Capacity)
	case l.AtVat < 0:
		return fmt.Errorf("the number of people at the vat is 0 or more")
	case !slices.Contains([]string{"", ChoiceWeak, ChoiceFull, ChoiceFeed}, l.Choice):
		return fmt.Errorf("the choice %q is not known: say %s, %s or %s", l.Choice, ChoiceWeak, ChoiceFull, ChoiceFeed)
	case l.Most < 0 || l.Hands < 0 || l.Vats < 0 || l.Vats > MostVats:
		return fmt.Errorf("the numbers of pieces, hands and vats are 0 or more, the vats at most %d", MostVats)
	case !(l.Indigo.Holds >= 0) || !(l.Indigo.Floor >= 0) || !(l.Indigo.Feed >= 0) || l.Indigo.Wait < 0 || l.Indigo.Feeds < 0:
		return fmt.Errorf("the indigo in the vat is 0 or more")
	case l.Rest.After < 0 || l.Rest.For < 0 || l.Reheat.After < 0 || l.Reheat.For < 0:
		return fmt.Errorf("rests and reheats are 0 or more")
	}
	for form, h := range l.Handling {
		if h < 0 || h > quantity.Hours(2) {
			return fmt.Errorf("the handling of %s takes %v: say 0 to 2 h", form, h)
		}
	}
	for _, b := range l.Breaks {
		if b.From < 0 || b.To < b.From || b.To > quantity.Days(30) {
			return fmt.Errorf("a break from %v to %v cannot be: it ends after it begins", b.From, b.To)
		}
	}
	return nil
}

// pose turns pieces and limits into a problem. Errors are one sentence.
func pose(pieces []Piece, l Limits) (*problem, error) {
	l = l.plain()
	if err := l.check(); err != nil {
		return nil, err
	}
	if len(pieces) > MostPieces {
		return nil, fmt.Errorf("%d pieces are more than a day holds: plan at most %d", len(pieces), MostPieces)
	}
	p := &problem{pieces: pieces, limits: l, cap: far, most: far, pairs: l.Hands, vats: l.Vats, people: l.AtVat, latest: seconds(l.Latest),
		before: make([]past, l.Vats)}
	if l.Capacity > 0 {
		p.cap = milligrams(l.Capacity)
	}
	if l.Most > 0 {
		p.most = l.Most
	}
	if i := l.Indigo; i.Holds > 0 {
		p.holds, p.floor = milligrams(i.Holds), milligrams(i.Floor)
		p.feeding(i)
	}
	for _, b := range l.Breaks {
		if b.To > b.From {
			p.breaks = append(p.breaks, window{seconds(b.From), seconds(b.To)})
		}
	}
	p.breaks = merged(p.breaks)
	for k, s := range []Pause{l.Rest, l.Reheat} {
		if s.After > 0 && s.For > 0 {
			p.pauses = append(p.pauses, pause{seconds(s.After), seconds(s.For), []string{"rest", "reheat"}[k]})
		}
	}
	tags := map[string]bool{}
	for _, x := range pieces {
		if err := l.checkPiece(x); err != nil {
			return nil, err
		}
		if tags[x.Tag] {
			return nil, fmt.Errorf("two pieces are called %s: give each its own tag", x.Tag)
		}
		tags[x.Tag] = true
		if l.Bears != nil {
			switch v, why := l.Bears(x.Fibre, x.Dip); v {
			case fibre.Refused:
				return nil, fmt.Errorf("piece %s does not go into this vat: %s", x.Tag, why)
			case fibre.Warned:
				p.warn = append(p.warn, fmt.Sprintf("Piece %s: %s", x.Tag, why))
			}
		}
	}
	return p, nil
}

// feeding sets what a feed is.
func (p *problem) feeding(i Indigo) {
	p.feed, p.wait, p.feeds = milligrams(i.Feed), seconds(i.Wait), i.Feeds
	if p.feed <= 0 {
		p.feeds = 0
	}
}

// merged puts windows in order and joins those that touch.
func merged(ws []window) []window {
	sorted.By(ws, func(a, b window) int { return a.from - b.from })
	var out []window
	for _, w := range ws {
		if n := len(out); n > 0 && w.from <= out[n-1].to {
			out[n-1].to = max(out[n-1].to, w.to)
			continue
		}
		out = append(out, w)
	}
	return out
}

// jobOf is one piece as a job.
func (p *problem) jobOf(i int) job {
	x := p.pieces[i]
	j := job{members: []int{i}, n: x.Dips, p: max(1, seconds(x.Dip)), a: seconds(x.Air), h: seconds(p.limits.Handling[cmp.Or(x.Form, Cloth)]),
		moved: x.Work != Hung, w: milligrams(x.Dry), cnt: 1, ready: max(p.now, seconds(x.From)), dark: x.Dark}
	if x.Who != "" {
		j.person = 1 + slices.IndexFunc(p.pieces, func(y Piece) bool { return y.Who == x.Who })
	}
	if !p.limits.Plain {
		j.till, j.demo = seconds(x.Till), x.Demo
		j.tail = seconds(x.FinalAir) + seconds(x.Finish)
	}
	if p.holds > 0 {
		j.takes = milligrams(x.Takes)
		j.least = max(milligrams(x.Least), p.floor+j.takes)
	}
	return j
}

// settle numbers the dips and looks whether each can be made at all.
func (p *problem) settle() error {
	p.ops, p.longer = 0, false
	for i := range p.jobs {
		j := &p.jobs[i]
		j.base = p.ops
		p.ops += j.n
		p.longer = p.longer || j.done+j.n > PromisedDips
		for _, s := range p.pauses {
			if j.n > 0 && j.d() > s.after {
				return fmt.Errorf("a dip of piece %s holds the vat for %v and the vat works %v before it stands still: make the dip shorter",
					p.tag(j), span(j.d()), span(s.after))
			}
		}
	}
	return nil
}
