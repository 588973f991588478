package history

import (
	"cmp"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/liquor"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/water"
)

// Life is what the days of a vat say of it, taken up day by day, so that none of them need be held: what it wants, how it stands and
// what worked at it. Make it with Begin, Resume or LifeOf. The zero Life is of no day.
type Life struct {
	past    Past
	last    Day
	air     water.Air                  // over the newest day
	surface quantity.Area              // of its liquor
	early   []Day                      // those until it was built: their level is reckoned from then on
	rates   map[over]water.Evaporation // the few that a vat has: nearly all the time goes into reckoning them
}

// Past is what a Life keeps of the days that it took up. Who keeps it elsewhere keeps Reckoning with it.
type Past struct {
	Fill  quantity.Volume // of the newest day's set-up
	Whole quantity.Mass   // what a build by the newest day's recipe leaves on the floor

	Days    int
	At      time.Time // the last event
	IsBuilt bool
	Built   time.Time

	Done []done
	Fed  time.Time
	In   quantity.Mass // pure indigo, of a vat as strong as its recipe or as it was opened

	Rest  rest      // the last that it was woken from
	Since time.Time // the end of the last day on which something was done to it
	Said  bool      // the dyer has said since that it rests
	Idle  bool      // nothing was done to it on the newest day
	Seen  seen      // of the days from Rest.Day on

	Sinking sinking
	Sludge  sediment
	Temp    Temps
	PH      PHs
	Strip   Strips

	Doses   doses
	Treated []treated
	Do      string // the last treatment
}

// Begin is the life of a vat whose newest day has this head, before its first day.
func Begin(newest day.Head) *Life {
	p := Past{Fill: newest.Setup.Fill}
	for _, powder := range newest.Recipe.Powders {
		if solid(&newest.Recipe, powder.ID, powder.Material) {
			p.Whole += newest.Recipe.PerLitre(powder).Of(p.Fill)
		}
	}
	p.Sludge.Now = p.Whole
	return &Life{past: p, rates: map[over]water.Evaporation{}}
}

// Resume goes on with what was kept of a life; false where that holds for no newest day with this head.
func Resume(p Past, newest day.Head) (*Life, bool) {
	l := Begin(newest)
	same := l.past.Fill == p.Fill && l.past.Whole == p.Whole
	l.past = p
	return l, same
}

// LifeOf is the life of a vat whose days are at hand.
func LifeOf(v Vat) *Life {
	if len(v) == 0 {
		return &Life{}
	}
	l := Begin(v[len(v)-1].State.Head)
	for i := range v {
		l.Take(v[i])
	}
	return l
}

// Kept is what can be kept of the life so far; false while the vat is still to be built.
func (l *Life) Kept() (Past, bool) { return l.past, l.past.IsBuilt }

// Last is the newest day; false for a vat of no days.
func (l *Life) Last() (Day, bool) { return l.last, l.past.Days > 0 }

// Take takes up the next day.
func (l *Life) Take(d Day) {
	p, s, r := &l.past, &d.State, &d.State.Head.Recipe
	if p.Days == 0 {
		p.In = liquor.PureIndigo(*r, s.Head.Setup.Fill)
		if held := s.Head.Opening.Indigo; s.Head.Opening.Built && held > p.In {
			p.In = held
		}
	}
	if !p.IsBuilt {
		p.Built, p.IsBuilt = built(s, p.Days == 0, p.At)
	}
	if p.rested(s); p.Rest.Day == p.Days {
		p.Seen = seen{}
	}
	if at, fed := outlook.Fed(s); fed {
		p.Fed, p.Seen.Fed = at, at
	}
	for e := range s.Corrected() {
		p.did(r, e)
		p.read(e)
		p.Seen.take(r, e)
		p.Sludge.take(r, e.Body)
		p.treat(e.Body)
		if id, material, m, is := given(e.Body); is {
			p.Doses.give(s, e.At, id, material, m)
			if powder, ok := r.Powder(id); ok && powder.Role == recipe.Indigo {
				p.In += cmp.Or(powder.Strength, 1).Of(m)
			}
		}
	}
	p.Days, p.At = p.Days+1, s.At
	l.last, l.early = d, append(l.early, d)
	if !p.IsBuilt {
		return
	}
	for i := range l.early {
		l.sink(&l.early[i].State)
	}
	l.early = nil
}

// read takes up what was read of the vat.
func (p *Past) read(e day.Event) {
	switch b := e.Body.(type) {
	case day.Reading:
		if b.Temp != nil && b.Of == "" {
			p.Temp = Temps{e.At, *b.Temp, outlook.Measured}
		}
		if b.PH != nil && b.Of == "" {
			p.PH = PHs{e.At, quantity.PH(*b.PH), outlook.Measured}
		}
	case day.StripTest:
		p.Strip = Strips{e.At, b.Stayed, outlook.Measured}
		p.Doses.strip(e.At, b.Stayed)
	}
}
