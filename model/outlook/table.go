package outlook

import (
	"slices"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/fibre"
	"example.org/vatside/model/liquor"
	"example.org/vatside/model/load"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/water"
	"example.org/vatside/model/wording"
)

// Table is the timetable of a day's pieces from an instant on.
type Table struct {
	Zero   time.Time // the plan's zero: when the day opened
	Plan   load.Plan
	Pieces []load.Piece
	Limits load.Limits
	Fault  string // why nothing could be planned
}

// At is an instant of the plan.
func (t Table) At(s quantity.Span) time.Time { return t.Zero.Add(s.Duration()) }

// Done is when a piece is done, its rinses and souring in it; false for one that is not planned.
func (t Table) Done(tag string) (time.Time, bool) {
	d, ok := wording.First(t.Plan.Done, func(d load.Done) bool { return d.Tag == tag })
	if !ok {
		return time.Time{}, false
	}
	return t.At(d.At), true
}

// Turn is whose turn it is to go in, the next first.
func (t Table) Turn() []string {
	return wording.Once(wording.Some(t.Plan.Rows, func(r load.Row) (string, bool) { return r.Tag, !r.Past }))
}

// Goes are the pieces that are lowered in one go, the next go first: the hands stay at the vat from one to the other.
func (t Table) Goes() [][]string {
	var out [][]string
	var last load.Row
	for _, r := range t.Plan.Rows {
		if r.Past || slices.ContainsFunc(out, func(g []string) bool { return slices.Contains(g, r.Tag) }) {
			continue
		}
		if n := len(out) - 1; n >= 0 && r.Vat == last.Vat && r.Lower <= last.In {
			out[n] = append(out[n], r.Tag)
		} else {
			out = append(out, []string{r.Tag})
		}
		last = r
	}
	return out
}

// Ruled is from how many pieces on the timetable says whose turn it is, and from how many people on turns go by rounds; with fewer the
// usual order is as good.
const Ruled = 4

// Next is the next dip of a piece that has not begun.
func (t Table) Next(tag string) (load.Row, bool) {
	return wording.First(t.Plan.Rows, func(r load.Row) bool { return r.Tag == tag && !r.Past })
}

// longestDay is how far from a day's opening its timetable reaches: what comes after it still fits into a span.
const longestDay = 10 * 365 * 24 * time.Hour

// Timetable plans what is left of a day: the pieces as they stand, the vat as it is. before is the plan that held so far,
// which is changed as little as can be; its zero value is none.
//
// effort bounds the search, in steps; 0 is the usual.
func Timetable(s day.State, o Outlook, b Blue, before load.Plan, now time.Time, effort int) Table {
	t := Table{Zero: s.Opened, Limits: load.Usual(holds(s))}
	t.Limits.Effort, t.Limits.Choice, t.Limits.Zero = effort, s.Way, s.Opened.In(now.Location())
	span := func(at time.Time) quantity.Span {
		return quantity.Span(min(max(0, at.Sub(s.Opened)), longestDay).Truncate(time.Second))
	}
	var standing []load.PieceState
	var refused []string
	bears := s.Bearing()
	for _, p := range s.Pieces {
		if !p.Live() {
			continue
		}
		piece, err := planned(p, b)
		if v, why := bears(p); v == fibre.Refused && piece.Dips > p.Dips {
			refused = append(refused, p.Tag+" stays out of this vat: "+why+".")
			piece.Dips = p.Dips
			if p.Phase == day.InVat { // till this dip is over
				piece.Dips++
			}
		}
		if err != nil || piece.Dips <= p.Dips && p.Phase != day.InVat {
			continue
		}
		piece.Demo = p.Spec.Demo
		piece.From = span(s.Comes(&p))
		if leaves := s.Leaves(p); !leaves.IsZero() {
			piece.Till = span(leaves)
		}
		stand := load.PieceState{Tag: p.Tag, Dips: p.Dips}
		switch p.Phase {
		case day.InVat:
			stand.Where, stand.Since = load.InVat, span(p.Since)
		case day.Airing:
			stand.Where, stand.Since = load.Airing, span(p.Since)
		}
		t.Pieces, standing = append(t.Pieces, piece), append(standing, stand)
	}
	if len(t.Pieces) == 0 {
		t.Fault = wording.Joined(" ", refused...)
		return t
	}
	t.Limits.Reheat = reheat(s, o, now)
	t.Limits.Hands, t.Limits.AtVat = s.Hands(), s.AtVat
	if done := s.Head.Setup.DoneBy; done != nil && done.After(s.Opened) {
		t.Limits.Latest = span(*done)
	}
	who := map[string]bool{}
	for _, p := range t.Pieces {
		if p.Who != "" {
			who[p.Who] = true
		}
	}
	t.Limits.Fair = len(who) >= Ruled // a workshop: equal turns, instead of dark pieces first
	begin := now
	if st, open := s.Open(); open { // the vat is not ready yet: what is left of the build comes first
		for _, later := range s.Plan[st.No-1:] {
			begin = begin.Add(later.Takes().Duration())
		}
	}
	begin = day.Latest(begin, s.RestUntil)
	if o.Indigo.Known != Unknown {
		t.Limits.Indigo = load.Indigo{Holds: o.Indigo.Left.Likely, Floor: liquor.PureIndigo(s.Head.Recipe, holds(s)) * 4 / 10}
	}
	if ready := s.Head.Setup.ReadyBy; ready != nil && s.Vat.Work.IsZero() && !s.Vat.Ready && !s.Head.Opening.Built {
		begin = day.Latest(begin, *ready)
	}
	t.Limits.Bears = func(fibre.Fibre, quantity.Span) (fibre.Verdict, string) { return fibre.Fine, "" } // what the vat would harm is left out
	plan, err := before.Replan(span(begin), standing, t.Pieces, t.Limits)
	if err != nil {
		t.Fault = err.Error()
		return t
	}
	if err := s.NoHands(); err != nil && s.Children {
		refused = append(refused, wording.Sentence(err.Error()))
	}
	t.Plan = plan
	t.Plan.Warnings = append(refused, plan.Warnings...)
	return t
}

// leastWarm is the shortest stretch after which a vat is warmed again: sooner, the heater would never be off.
const leastWarm = quantity.Span(30 * time.Minute)

// reheat is the pause that the liquor's cooling asks for: it works till it falls below its range, then it stands empty while
// the heater of the setup brings it back to its aim. None where no heater is known, or it stays warm enough.
func reheat(s day.State, o Outlook, now time.Time) load.Pause {
	h := o.Heat
	if h.Heater <= 0 || len(h.Coming) == 0 || h.Below.IsZero() {
		return load.Pause{}
	}
	power := quantity.Watts(h.Heater.Watts() * reaches.Fraction())
	takes, err := water.HeatMinutes(holds(s), h.Low, h.Aim, power)
	if err != nil {
		return load.Pause{}
	}
	after := quantity.Span(h.Below.Sub(now))
	return load.Pause{After: whole(max(after, leastWarm)), For: whole(takes)}
}

// whole is a span in whole minutes.
func whole(s quantity.Span) quantity.Span { return quantity.Span(s.Duration().Round(time.Minute)) }

// planned is a piece as the timetable takes it: its dips as said, else as its wish takes in this vat.
func planned(p day.Piece, b Blue) (load.Piece, error) {
	f, err := fibre.Parse(p.Spec.Fibre)
	if err != nil {
		return load.Piece{}, err
	}
	l := load.Piece{
		Tag: p.Tag, What: p.Spec.What, Who: p.Spec.Who, Fibre: f, Dry: p.Spec.Dry, Depth: p.Spec.Depth, Dips: p.Want(),
		Dip: p.MeanDip(), Air: p.AirTime(false), FinalAir: p.AirTime(true), Form: p.Spec.Form, Work: p.Spec.Work,
	}
	if l.Form == Ladder || l.Form == day.Tight {
		l.Form = load.Cloth
	}
	if c, ok := b.Pieces[p.Tag]; ok && p.Spec.Dips == 0 && c.Wish != nil && c.Claim == "calibrated" {
		l.Dips = max(c.Answer.Likely, p.Dips)
	}
	return l.Fill()
}
