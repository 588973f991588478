// Package loadtest checks timetables for tests: it shares nothing with the planner that makes them.
package loadtest

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"example.org/vatside/model/fibre"
	"example.org/vatside/model/load"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/wording"
)

// This file knows nothing of how plans are made: it takes pieces, limits and a plan's rows, and reads the rules of doc.go
// anew, so that a planner's mistake is not shared.

// Check lists every limit that a plan breaks, and every figure of it that is not so, a sentence each. A plan of Make
// gives none. Dips in too weak a vat and lateness are no breach where the plan counts them and warns.
func Check(pieces []load.Piece, l load.Limits, p load.Plan) []string {
	return CheckStanding(0, nil, pieces, l, p)
}

// CheckStanding is Check for a plan of Replan: its past rows are taken as they are, what was in the vat must have stayed
// there until its dip was over, or until now if it is overdue, and all else happens from now on.
func CheckStanding(now quantity.Span, standing []load.PieceState, pieces []load.Piece, l load.Limits, p load.Plan) []string {
	c := &checking{now: int64(now), l: l, p: p, stood: map[string]load.PieceState{}}
	for _, s := range standing {
		c.stood[s.Tag] = s
	}
	c.read(pieces)
	c.chains()
	c.rooms()
	c.handwork()
	for kind, q := range map[string]load.Pause{"rest": l.Rest, "reheat": l.Reheat} {
		if !l.Plain && q.After > 0 && q.For > 0 {
			c.standing(kind, int64(q.After), int64(q.For))
		}
	}
	c.indigo(c.choices())
	c.people()
	c.leaving()
	c.shown()
	c.helpers()
	c.turns()
	c.figures()
	slices.Sort(c.out)
	return slices.Compact(c.out)
}

// dipped is one dip as the checker sees it, in nanoseconds.
type dipped struct {
	piece                  load.Piece
	row                    load.Row
	no, vat                int
	lower, in, out, lifted int64
	past, inVat            bool
	bundle                 int // dips that go in and out as one have one number
}

// counts tells that a dip is not over: it is to come, or in the vat.
func (d dipped) counts() bool { return !d.past || d.inVat }

// of are the dips of a piece that are not over.
func (c *checking) of(tag string) []dipped {
	return slices.DeleteFunc(slices.Clone(c.dips), func(d dipped) bool { return d.piece.Tag != tag || !d.counts() })
}

// beside are the dips that are going on when another is lowered, that one among them.
func (c *checking) beside(at dipped) []dipped {
	return slices.DeleteFunc(slices.Clone(c.dips), func(d dipped) bool { return d.lower > at.lower || at.lower >= d.lifted || !d.counts() })
}

type checking struct {
	now    int64
	l      load.Limits
	p      load.Plan
	stood  map[string]load.PieceState
	pieces []load.Piece
	dips   []dipped // in the order of the rows
	first  []dipped // of each bundle
	out    []string
}

func (c *checking) say(format string, args ...any) {
	c.out = append(c.out, fmt.Sprintf(format, args...))
}

func (c *checking) sayIf(wrong bool, format string, args ...any) {
	if wrong {
		c.say(format, args...)
	}
}

// read takes the rows.
func (c *checking) read(pieces []load.Piece) {
	c.pieces = pieces
	byTag := map[string]load.Piece{}
	for _, x := range pieces {
		byTag[x.Tag] = x
		if c.l.Bears != nil {
			if v, _ := c.l.Bears(x.Fibre, x.Dip); v == fibre.Refused {
				c.say("piece %s is of a fibre that the vat would spoil", x.Tag)
			}
		}
	}
	vats := wording.Either(c.l.Plain, 1, max(1, c.l.Vats))
	var before int64 = math.MinInt64
	bundles := map[string]int{}
	for _, r := range c.p.Rows {
		x, known := byTag[r.Tag]
		if !known && !r.Past {
			c.say("a row names %s, which is not among the pieces", r.Tag)
			continue
		}
		d := dipped{piece: x, row: r, no: r.Dip, vat: r.Vat, lower: int64(r.Lower), in: int64(r.In), out: int64(r.Out), lifted: int64(r.Lifted), past: r.Past}
		s := c.stood[r.Tag]
		d.inVat = known && r.Past && s.Where == load.InVat && r.Dip == s.Dips+1
		if r.Past && !d.inVat {
			c.sayIf(known && r.Dip > s.Dips, "dip %d of %s is called past and is not done", r.Dip, r.Tag)
			d.piece.Tag = r.Tag
		}
		c.sayIf(r.Vat < 1 || r.Vat > vats, "%s dip %d is in vat %d, and there are %d", r.Tag, r.Dip, r.Vat, vats)
		c.sayIf(d.lower < before, "the rows are not in the order of lowering at %s dip %d", r.Tag, r.Dip)
		before = d.lower
		key := wording.Either(r.Bundle > 0 && !d.past, fmt.Sprint("bundle ", r.Bundle, " ", r.Dip), fmt.Sprint("alone ", len(c.dips)))
		if _, ok := bundles[key]; !ok {
			bundles[key] = len(bundles)
			c.first = append(c.first, d)
		}
		d.bundle = bundles[key]
		if f := c.first[d.bundle]; f.piece.Who != x.Who || f.lower != d.lower || f.lifted != d.lifted || f.vat != d.vat || r.Bundle > 0 && !c.l.Together {
			c.say("%s dip %d is said to go with %s, and does not", r.Tag, r.Dip, f.piece.Tag)
		}
		c.dips = append(c.dips, d)
	}
}

// about tells whether two lengths are the same to the second.
func about(a, b int64) bool {
	d := a - b
	return d > -int64(time.Second) && d < int64(time.Second)
}

// handling is one lowering of a piece.
func (c *checking) handling(x load.Piece) int64 {
	table := c.l.Handling
	if table == nil {
		if c.l.Plain {
			return 0
		}
		table = map[string]quantity.Span{"skein": 30e9, "bound": 45e9, "garment": 60e9, "cloth": 90e9}
	}
	return int64(table[cmp.Or(x.Form, "cloth")])
}

// chains looks at each piece by itself: its dips, their lengths, the airings, the earliest time; and bundles.
func (c *checking) chains() {
	sum := map[int]int64{}
	for _, d := range c.dips {
		sum[d.bundle] += c.handling(d.piece)
	}
	for _, x := range c.pieces {
		s := c.stood[x.Tag]
		next := s.Dips + 1
		ready := max(c.now, 0)
		if s.Dips == 0 && s.Where == load.Waiting {
			ready = max(ready, int64(x.From))
		}
		if s.Where == load.Airing {
			ready = max(ready, int64(s.Since)+int64(x.Air))
		}
		for _, d := range c.of(x.Tag) {
			name := fmt.Sprintf("%s dip %d", x.Tag, d.no)
			c.sayIf(d.no != next, "%s comes where dip %d was to come", name, next)
			next++
			if d.inVat {
				due := int64(s.Since) + int64(x.Dip)
				if due+c.handling(x) <= c.now {
					due = c.now
				}
				c.sayIf(d.in != int64(s.Since) || d.out < due-int64(time.Second), "%s was in the vat and was moved", name)
			} else {
				c.sayIf(!about(d.out-d.in, int64(x.Dip)), "%s lasts %s, not %s", name, time.Duration(d.out-d.in), x.Dip)
				for _, h := range []int64{d.in - d.lower, d.lifted - d.out} {
					c.sayIf(!about(h, sum[d.bundle]), "%s is handled for %s, not %s", name, time.Duration(h), time.Duration(sum[d.bundle]))
				}
				c.sayIf(d.lower < ready-int64(time.Second)/2,
					"%s is lowered at %s, and cannot be before %s", name, time.Duration(d.lower), time.Duration(ready))
			}
			ready = d.lifted + int64(x.Air)
		}
		want := max(x.Dips, s.Dips)
		if s.Where == load.InVat {
			want = max(want, s.Dips+1)
		}
		c.sayIf(next-1 != want, "%s gets %d dips, and %d are wanted", x.Tag, next-1, want)
	}
	if c.l.Together && c.now == 0 && len(c.stood) == 0 {
		c.bundles()
	}
}

// bundles looks whether like pieces of one person, as many as fit, go as one.
func (c *checking) bundles() {
	type bunch struct {
		first  load.Piece
		weight float64
		time   int64
		tags   []string
	}
	var all []*bunch
	for _, x := range c.pieces {
		if x.Who == "" {
			continue
		}
		var in *bunch
		for _, b := range all {
			f := b.first
			same := f.Who == x.Who && f.Dips == x.Dips && about(int64(f.Dip), int64(x.Dip)) && about(int64(f.Air), int64(x.Air)) &&
				(f.Work == "hung") == (x.Work == "hung") && about(int64(f.From), int64(x.From)) && (c.l.Plain || !f.Demo && !x.Demo)
			fits := (c.l.Capacity == 0 || b.weight+x.Dry.Grams() <= c.l.Capacity.Grams()+0.001) &&
				(c.l.Plain || c.l.Most == 0 || len(b.tags) < c.l.Most)
			for _, q := range []load.Pause{c.l.Rest, c.l.Reheat} {
				if !c.l.Plain && q.After > 0 && q.For > 0 && b.time+2*c.handling(x) > int64(q.After) {
					fits = false
				}
			}
			if same && fits && in == nil {
				in = b
			}
		}
		if in == nil {
			in = &bunch{first: x, time: int64(x.Dip)}
			all = append(all, in)
		}
		in.weight += x.Dry.Grams()
		in.time += 2 * c.handling(x)
		in.tags = append(in.tags, x.Tag)
	}
	when := map[string]string{}
	for _, d := range c.dips {
		when[d.piece.Tag] += fmt.Sprint(" ", d.vat, ":", d.lower, "-", d.lifted)
	}
	for _, b := range all {
		for _, tag := range b.tags[1:] {
			c.sayIf(when[tag] != when[b.tags[0]], "%s and %s belong together and go apart", b.tags[0], tag)
		}
	}
}

// figures looks at what the plan says of itself.
func (c *checking) figures() {
	last, late := max(c.now, 0), int64(0)
	ends := map[string]int64{}
	for _, d := range c.dips {
		if d.counts() {
			last = max(last, d.lifted)
		}
		ends[d.piece.Tag] = max(ends[d.piece.Tag], d.lifted)
	}
	c.sayIf(int64(c.p.Makespan) != last && len(c.dips) > 0, "the last lift is at %s, and the plan says %v", time.Duration(last), c.p.Makespan)
	c.sayIf(c.p.Gap != c.p.Makespan-c.p.Bound || c.p.Gap < 0 || c.p.Proven != (c.p.Gap == 0),
		"the bound, the gap and what is proven do not agree")
	for n, x := range c.pieces {
		if n >= len(c.p.Done) || c.p.Done[n].Tag != x.Tag {
			c.say("when %s is done is not told", x.Tag)
			continue
		}
		end := ends[x.Tag]
		if !c.l.Plain {
			end += int64(x.FinalAir) + int64(x.Finish)
		}
		if ends[x.Tag] == 0 || c.now > 0 && x.Dips <= c.stood[x.Tag].Dips {
			continue
		}
		c.sayIf(!about(int64(c.p.Done[n].At), end), "%s is done at %s, and the plan says %v", x.Tag, time.Duration(end), c.p.Done[n].At)
		if !c.l.Plain && c.l.Latest > 0 {
			late = max(late, end-int64(c.l.Latest))
		}
	}
	c.sayIf(late > int64(c.p.Late)+int64(time.Second),
		"the day runs %s past its latest finish, and the plan says %v", time.Duration(late), c.p.Late)
	c.sayIf(c.p.Late > 0 && !strings.Contains(strings.Join(c.p.Warnings, " "), "latest finish"),
		"the day runs past its latest finish, and the plan does not warn")
}
