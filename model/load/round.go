package load

import "slices"

// Fair turns go by rounds: round n is everybody's dip n. Nobody has a second dip before everybody who is there had a first,
// and nobody is lowered who would be more than one dip ahead of the rearmost who is ready and waits. Wishes of one or two
// dips stand outside the rounds: pale goods do not belong into the strongest liquor (common practice, no source); they
// go in after all first dips, at a time that is promised. Who comes late is waited for by nobody.

// promised tells whether a job stands outside the rounds.
func (p *problem) promised(i int) bool {
	j := &p.jobs[i]
	return j.done+j.n <= PromisedDips && p.longer
}

// round is the dips that a job has had, as list looks at it: who is behind first.
func (l *line) round(i int) int {
	if l.p.promised(i) {
		return 1
	}
	return l.p.jobs[i].done + l.next[i]
}

// turn is when it may be the turn of a job that is ready at t: t, if it is.
func (l *line) turn(i, t int) int {
	if !l.fair {
		return t
	}
	mine, until := &l.looks[i], t
	for k := range l.looks {
		x := &l.looks[k]
		if k == i || x.at == never || x.promised || l.ready[k] > t {
			continue
		}
		if x.round == 0 && mine.round > 0 || !mine.promised && mine.round-x.round > 1 {
			until = max(until, x.at)
		}
	}
	return until
}

// Round is how the rounds of a fair day stand.
type Round struct {
	No   int      // the round that is being dipped, from 1; 0: none is, or the turns are not by rounds
	ToGo []string // tags of its pieces that are still to be lowered, in the order of their turns
	// Promised are the next dips of the pieces that stand outside the rounds.
	Promised []Row
}

// Round is the round at a time when the dips that are lowered are told by lowered.
func (p Plan) Round(lowered func(Row) bool) Round {
	var out Round
	for _, r := range p.Rows {
		if r.Round > 0 && !lowered(r) && (out.No == 0 || r.Round < out.No) {
			out.No = r.Round
		}
	}
	for _, r := range p.Rows {
		promised := func(x Row) bool { return x.Tag == r.Tag }
		switch {
		case out.No == 0 || lowered(r):
		case r.Round == out.No && !slices.Contains(out.ToGo, r.Tag):
			out.ToGo = append(out.ToGo, r.Tag)
		case r.Round == 0 && !r.Past && !slices.ContainsFunc(out.Promised, promised):
			out.Promised = append(out.Promised, r)
		}
	}
	return out
}
