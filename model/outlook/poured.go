package outlook

import (
	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
)

// draw takes liquor out, and what is dissolved in it in its proportion.
func (l *ledger) draw(v quantity.Volume) {
	v = min(v, l.fill)
	if !(v > 0) {
		return
	}
	left := 1 - v.Litres()/l.fill.Litres()
	keep := func(m quantity.Mass) quantity.Mass { return m * quantity.Mass(left) }
	var taken quantity.Mass // what the goods have is not in it any more
	for tag, n := range l.dips {
		if p, ok := l.s.Piece(tag); ok {
			p.Dips = p.Spec.Had + n
			taken += Took(p).Likely
		}
	}
	l.indigo = quantity.Map(l.indigo, func(m quantity.Mass) quantity.Mass { return min(m, taken) + keep(max(0, m-taken)) })
	l.left.Free, l.lost, l.blue, l.since = quantity.Map(l.left.Free, keep), quantity.Map(l.lost, keep), quantity.Map(l.blue, keep), keep(l.since)
	for i := range l.given {
		l.given[i].Mass = keep(l.given[i].Mass)
	}
	if l.read != nil {
		l.read.lost = keep(l.read.lost)
	}
	l.short += v
	l.filled(l.fill - v)
}

// water makes up for what was drawn off: what is dissolved is thinned. Water for what the air took thins nothing.
func (l *ledger) water(v quantity.Volume, before day.Level) {
	back := min(v, l.short)
	if !(back > 0) {
		return
	}
	if in := before.In.Litres(); in > 0 {
		l.thin *= in / (in + back.Litres())
	}
	l.short -= back
	l.filled(l.fill + back)
}

// filled is another fill from here on.
func (l *ledger) filled(v quantity.Volume) {
	l.fill, l.budget.Fill, l.budget.Surface = v, v, Surface(l.s.Head.Setup, v)
}

// atFirst is how much is in the vat as the day's reckoning begins: as it is now, unless liquor was drawn off meanwhile.
func atFirst(s day.State) quantity.Volume {
	if l, drawn := s.Undrawn(); drawn {
		return within(s, l.In)
	}
	if s.Head.Opening.Holds != nil {
		return within(s, *s.Head.Opening.Holds)
	}
	return holds(s)
}

// holds is how much is in the vat, and never more than the vessel holds.
func holds(s day.State) quantity.Volume { return within(s, s.Level().In) }

func within(s day.State, fill quantity.Volume) quantity.Volume {
	if v := s.Head.Setup.Measured(); v.Shape != nil {
		fill = min(fill, v.Brim())
	}
	return fill
}
