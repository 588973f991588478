package load

// gather makes jobs of pieces: each its own, or, with Together, like pieces of one person in bundles. A bundle is lowered
// piece by piece and lifted in the same order, by one pair of hands, so that each dips equally long; its handling is the
// sum of its pieces'. In the order given each piece goes to its person's first bundle with the same dips left and done,
// dip, airing, work and earliest time that still has room for it. standing, of a replan, holds pieces apart that do not stand
// alike.
func (p *problem) gather(standing map[string]PieceState) {
	for i, x := range p.pieces {
		j, s := p.jobOf(i), standing[x.Tag]
		if j.done = s.Dips + btoi(s.Where == InVat); j.done > 0 { // its person is there
			j.ready = p.now
		}
		if s.Where == Airing {
			j.ready = max(j.ready, seconds(s.Since)+seconds(x.Air))
		}
		j.apart = s.Where == InVat || j.demo
		if j.apart || !p.limits.Together || x.Who == "" || !p.join(j, j.done > 0) {
			p.jobs = append(p.jobs, j)
		}
	}
}

// join puts a job into a bundle that takes it. Pieces that air wait for one another, at most for an airing.
func (p *problem) join(j job, air bool) bool {
	who := p.pieces[j.members[0]].Who
	for i := range p.jobs {
		b := &p.jobs[i]
		like := p.pieces[b.members[0]].Who == who && b.n == j.n && b.done == j.done && b.p == j.p && b.a == j.a &&
			b.moved == j.moved && (b.ready == j.ready || air && max(b.ready-j.ready, j.ready-b.ready) <= j.a) && !b.apart
		fits := b.w+j.w <= p.cap && b.cnt+1 <= p.most
		for _, s := range p.pauses {
			fits = fits && b.d()+2*j.h <= s.after
		}
		if !like || !fits {
			continue
		}
		b.members = append(b.members, j.members...)
		b.w, b.cnt, b.h = b.w+j.w, b.cnt+1, b.h+j.h
		b.dark, b.tail = max(b.dark, j.dark), max(b.tail, j.tail)
		b.ready = max(b.ready, j.ready)
		if j.till > 0 && (b.till == 0 || j.till < b.till) {
			b.till = j.till
		}
		b.takes += j.takes
		b.least = max(b.least, j.least, p.floor+b.takes)
		return true
	}
	return false
}
