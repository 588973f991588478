package load

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/sorted"
	"example.org/vatside/model/wording"
)

// Row is one dip of a piece. Lower and Lifted are the ends of the handling; without handling they are In and Out.
type Row struct {
	Tag       string
	Dip       int           // its number, from 1, dips of before counted
	Vat       int           // from 1
	Lower, In quantity.Span // the hands go to the vat; the dip begins to count
	Out       quantity.Span // the dip is over
	Lifted    quantity.Span // the piece is out, its airing begins
	Past      bool          // begun before the plan was made
	Bundle    int           // pieces of one person that go as one share a number, from 1; 0: it goes alone
	Who       string        // whose the piece is
	Hand      int           // the pair of hands that takes it, from 1; the lift may be another's where it hangs; 0: no limit of hands
	LiftHand  int           // the pair that lifts it
	Round     int           // the round of fair turns that the dip belongs to, from 1; 0: the turns are not by rounds, or its time is promised
}

// Stand is a stretch in which a vat stands empty for a reason: "rest", "reheat" or "feed".
type Stand struct {
	Kind     string
	Vat      int
	From, To quantity.Span
}

// Done is when a piece is done, its final airing, rinses and souring in it.
type Done struct {
	Tag, Who string
	At       quantity.Span
}

// Plan is a timetable. Bound is a last lift that no plan of these pieces and limits can beat, Gap how far the plan's is
// above it, Proven that it is not.
type Plan struct {
	From                 quantity.Span // when it was made: 0, or the now of a replan
	Rows                 []Row         // in the order of lowering; of dips lowered at one moment the first takes its indigo first
	Makespan, Bound, Gap quantity.Span
	Proven               bool
	Done                 []Done // in the order of the pieces
	Stands               []Stand
	Warnings             []string // sentences
	Trips                int      // moments at which the hands go to the vat
	Weak                 int      // dips made when the vat holds too little indigo for them
	Late                 quantity.Span
	Leaving              quantity.Span // how long people that leave early must stay longer, all of them together
	Choices              []Choice      // ways through a tiring vat; empty where it does not tire
	Plain                bool
}

// Finish is when all pieces are done, final airings, rinses and souring in it. A day without breaks and pieces that come
// later that is to be done at a wished time is begun so long before it.
func (p Plan) Finish() quantity.Span {
	return wording.Most(p.Done, func(d Done) quantity.Span { return d.At })
}

// LastLift is when the last piece is called out, as its row has it: the makespan also has the time that lifting it takes.
func (p Plan) LastLift() quantity.Span {
	return wording.Most(p.Rows, func(r Row) quantity.Span { return r.Out })
}

// Make plans a day. Errors are sentences: pieces or limits that cannot be planned, or a fibre that the vat would spoil.
// Limits that no plan keeps (indigo, latest finish) come as warnings with the best plan there is.
func Make(pieces []Piece, l Limits) (Plan, error) {
	p, err := pose(pieces, l)
	if err != nil {
		return Plan{}, err
	}
	p.gather(nil)
	if err := p.settle(); err != nil {
		return Plan{}, err
	}
	return p.choose(func(q *problem) draft { return q.seek(nil) }), nil
}

// plan writes a draft out. low is a bound on its last lift.
func (p *problem) plan(d draft, low int) Plan {
	weak, first := p.weak(d.placed, d.feeds)
	out := Plan{From: span(p.now), Weak: weak, Trips: d.score[ofTrips], Leaving: span(d.score[ofLeaving]), Plain: p.limits.Plain,
		Makespan: span(d.score[ofSpan]), Bound: span(min(low, d.score[ofSpan])), Warnings: slices.Clone(p.warn)}
	out.Gap = out.Makespan - out.Bound
	out.Proven = out.Gap == 0
	ends := make([]int, len(p.pieces))
	for i, x := range p.pieces {
		if ends[i] = p.now; p.now == 0 && x.Dips == 0 {
			ends[i] = seconds(x.From)
		}
	}
	hands := p.assign(d)
	for n, x := range append(slices.Clone(p.fixed), d.placed...) {
		j := &p.jobs[x.job]
		r := Row{Dip: j.done + x.k + 1, Vat: x.vat + 1, Lower: span(x.s), In: span(x.s + j.h), Out: span(x.e - j.h), Lifted: span(x.e),
			Past: x.k < 0, Hand: hands[n][0], LiftHand: hands[n][1]}
		if r.Past {
			r.In = span(p.since[x.job])
		} else if p.limits.Fair && !p.promised(x.job) {
			r.Round = r.Dip
		}
		if len(j.members) > 1 {
			r.Bundle = x.job + 1
		}
		for _, m := range j.members {
			r.Tag, r.Who = p.pieces[m].Tag, p.pieces[m].Who
			out.Rows = append(out.Rows, r)
			ends[m] = max(ends[m], x.e)
		}
		if p.latest > 0 {
			out.Late = max(out.Late, span(x.e+j.tail-p.latest))
		}
	}
	hopeless := p.tooLate()
	for i, x := range p.pieces {
		end := ends[i]
		if !p.limits.Plain {
			end += seconds(x.FinalAir) + seconds(x.Finish)
		}
		out.Done = append(out.Done, Done{x.Tag, x.Who, span(end)})
		if p.latest > 0 && end > p.latest {
			word := "no plan was found that is in time"
			switch {
			case slices.Contains(hopeless, i):
				word = "no plan can be in time"
			case p.other:
				word = "another choice for the tiring vat is in time"
			case len(hopeless) > 0:
				word = "no plan was found in which all are that can be"
			}
			out.Warnings = append(out.Warnings, fmt.Sprintf("Piece %s is done at %s, after the latest finish of %s: %s.",
				x.Tag, p.at(end), p.at(p.latest), word))
		}
		if till := seconds(x.Till); !p.limits.Plain && till > 0 && ends[i] > till && x.Dips > 0 {
			out.Warnings = append(out.Warnings, fmt.Sprintf("Piece %s has its last dip till %s, and its person leaves at %s: give it fewer dips, or let another lift it.",
				x.Tag, p.at(ends[i]), p.at(till)))
		}
	}
	if out.Weak > 0 {
		out.Warnings = append(out.Warnings, p.tired(out.Weak, first))
	}
	out.Stands = p.stands(d)
	return out
}

// tooLate are the pieces that even by themselves would be done too late.
func (p *problem) tooLate() (out []int) {
	for _, j := range p.jobs {
		if j.n > 0 && j.soonest() > p.latest {
			out = append(out, j.members...)
		}
	}
	return out
}

// at is a time of the plan as it is said: the time of day where that of the start is known, else hours and minutes from the start.
func (p *problem) at(s int) string {
	if zero := p.limits.Zero; !zero.IsZero() {
		return zero.Add(span(s).Duration()).Format("15:04")
	}
	return span(s).Format(quantity.Metric)
}

// tired says how many dips find the vat too weak, and which is the first.
func (p *problem) tired(n int, x held) string {
	j := &p.jobs[x.job]
	word := wording.Either(n == 1, "dip finds", "dips find")
	return fmt.Sprintf("The vat tires: %d %s too little indigo in it, the first is dip %d of piece %s; feed it and wait, take a second vat, or make fewer dips.",
		n, word, j.done+x.k+1, p.tag(j))
}

// assign gives each dip, those in the vat first, the pair of hands that lowers or moves it and the one that lifts it: the
// one that is free and has the lowest number, for a lift the one that lowered it if it is free.
func (p *problem) assign(d draft) [][2]int {
	all := append(slices.Clone(p.fixed), d.placed...)
	out := make([][2]int, len(all))
	if p.pairs == 0 {
		return out
	}
	type task struct {
		window
		dip, end int
	}
	var tasks []task
	for n, x := range all {
		a0, a1, b0, b1 := p.hands(x)
		tasks = append(tasks, task{window{a0, a1}, n, 0})
		if b0 < b1 || !p.jobs[x.job].moved {
			tasks = append(tasks, task{window{b0, b1}, n, 1})
		}
	}
	sorted.By(tasks, func(a, b task) int { return a.from - b.from })
	free := slices.Repeat([]int{math.MinInt}, p.pairs)
	for _, t := range tasks {
		hand := out[t.dip][0] - 1
		for h := 0; h < p.pairs && (hand < 0 || free[hand] > t.from); h++ {
			hand = h
		}
		free[hand] = max(free[hand], t.to)
		if out[t.dip][t.end] = hand + 1; p.jobs[all[t.dip].job].moved {
			out[t.dip][1] = hand + 1
		}
	}
	return out
}

// stands lists the rests, reheats and feeds of a draft.
func (p *problem) stands(d draft) []Stand {
	var out []Stand
	for v := range p.vats {
		u := p.before[v]
		for _, x := range d.placed {
			if x.vat != v {
				continue
			}
			for k, q := range p.pauses {
				// a gap that is long enough and that this dip needed
				if u.used && x.s-u.last >= q.long && x.e-u.beg[k] > q.after {
					from := u.last
					if q.kind == "reheat" { // as late as it can be, so that the vat is warm
						from = x.s - q.long
					}
					out = append(out, Stand{q.kind, v + 1, span(from), span(from + q.long)})
				}
			}
			u.work(p, x.s, x.e)
		}
	}
	for _, f := range d.feeds {
		out = append(out, Stand{"feed", f.vat + 1, span(f.s), span(f.e)})
	}
	sorted.By(out, func(a, b Stand) int { return cmp.Or(cmp.Compare(a.From, b.From), cmp.Compare(a.Vat, b.Vat)) })
	return out
}
