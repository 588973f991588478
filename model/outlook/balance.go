package outlook

import (
	"cmp"
	"errors"
	"sort"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/liquor"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/shade"
	"example.org/vatside/model/wording"
)

// broughtBack is the part of the liquor that goods carry out which neither comes back at the squeeze nor stays on the fibre
// as blue: what the rinse takes. From memory.
const broughtBack = 0.25

// onFibre is how far what a piece took may lie from the usual for its depth. From memory: the depths' own ranges.
var onFibre = quantity.Range[float64]{Low: 0.6, Likely: 1, High: 1.5}

// ledger is what the liquor holds, carried along the day's book.
type ledger struct {
	s       day.State
	budget  liquor.Budget
	fill    quantity.Volume
	at      time.Time
	lid     liquor.Quiet
	in      bool // the reducer is in
	left    liquor.Left
	lost    quantity.Range[quantity.Mass] // to the air, the fill's own oxygen included, since the vat was built
	ready   bool                          // the indigo is reduced: only then a strip speaks of the reducer that is left
	noted   bool                          // a strip or a dose of the dyer's own spoke of it today
	indigo  quantity.Range[quantity.Mass]
	blue    quantity.Range[quantity.Mass] // of the indigo, what the air turned blue once the reducer was gone
	hasDye  bool
	alkali  bool            // all of the recipe's alkali is in
	given   []liquor.Amount // of alkali beyond the build, in their order
	read    *reading
	reserve liquor.Reserve
	why     string // no budget
	since   quantity.Mass
	doses   []liquor.Episode
	level   day.Level
	short   quantity.Volume // drawn off, and not made up for with water yet
	thin    float64         // of what was dissolved in a litre, what is left there since such water came in: 1 for all
	dips    map[string]int  // of each piece so far
}

type reading struct {
	at    time.Time
	value quantity.PH
	temp  quantity.Temperature
	sd    float64
	lost  quantity.Mass // by then
	given int           // doses of alkali by then
	thin  float64
}

// temps is the °C of the liquor at an instant of the past, by the course of heat.
func temps(h Heat, at time.Time, otherwise quantity.Temperature) quantity.Temperature {
	after := sort.Search(len(h.Past), func(i int) bool { return h.Past[i].When.After(at) })
	if after == 0 {
		return otherwise
	}
	return h.Past[after-1].Temp
}

// open is the ledger as the day begins.
func open(s day.State, h Heat) *ledger {
	l := &ledger{s: s, fill: atFirst(s), at: s.Opened, level: s.Head.Opens(), thin: 1, dips: map[string]int{}}
	setup := s.Head.Setup
	l.short = max(0, setup.Fill-l.level.In)
	l.budget = liquor.Budget{Recipe: s.Head.Recipe, Fill: l.fill, Temp: s.Head.Recipe.Liquor.Aim}
	if h.Known != Unknown {
		l.budget.Temp = h.Now
	}
	l.budget.Surface = Surface(setup, l.fill)
	o := s.Head.Opening
	l.lid = liquor.Open
	if o.Cover {
		l.lid = liquor.Lidded
	}
	l.alkali, l.hasDye, l.in, l.ready = o.Built, o.Built, o.Built, o.Built
	if o.Until != nil {
		l.at = *o.Until
		l.left = liquor.Left{Free: quantity.Range[quantity.Mass]{Low: o.ReducerLow, Likely: o.Reducer, High: o.ReducerHigh}}
		if p, ok := liquor.Reducer(s.Head.Recipe); ok {
			l.left.Reducer = p.Substance()
		}
		l.indigo = quantity.Range[quantity.Mass]{Low: o.IndigoLow, Likely: o.Indigo, High: o.IndigoHigh}
		l.blue = quantity.Range[quantity.Mass]{Low: o.BlueLow, Likely: o.Blue, High: o.BlueHigh}
	} else if o.Built {
		l.in, l.hasDye = false, false // nobody reckoned what it held
	}
	return l
}

// balance fills in pH, reducer and indigo.
func balance(s day.State, now time.Time, o *Outlook) {
	l := open(s, o.Heat)
	if o.Heat.Known != Unknown {
		l.budget.Temp = o.Heat.Now
	}
	for e := range s.Corrected() {
		l.pass(e, o.Heat)
	}
	if !s.Closed {
		l.rest(now)
	}
	l.tellReducer(o)
	l.tellIndigo(o)
	l.tellPH(now, o)
}

// rest lets time take its part.
func (l *ledger) rest(to time.Time) {
	span := quantity.Span(to.Sub(l.at))
	l.at = to
	if !l.in || l.why != "" || span <= 0 {
		return
	}
	b := l.budget
	b.Quiet = l.lid
	if perHour, err := b.AtRest(); err == nil {
		l.lose(quantity.Map(perHour, func(m quantity.Mass) quantity.Mass { return m * quantity.Mass(span.Hours()) }))
	}
}

// lose takes off what the air took. Where no reducer is left for it, it turns indigo blue.
func (l *ledger) lose(m quantity.Range[quantity.Mass]) {
	before := l.left.Free
	turn := func(was, beyond, all quantity.Mass) quantity.Mass {
		return min(was+liquor.Turned(l.left.Reducer, max(0, beyond)), all)
	}
	l.blue.Low = turn(l.blue.Low, m.Low-before.High, l.indigo.Low)
	l.blue.Likely = max(l.blue.Low, turn(l.blue.Likely, m.Likely-before.Likely, l.indigo.Likely))
	l.blue.High = max(l.blue.Likely, turn(l.blue.High, m.High-before.Low, l.indigo.High))
	l.left = l.left.Spend(m)
	l.lost.Low += max(0, before.High-l.left.Free.High)
	l.lost.Likely += before.Likely - l.left.Free.Likely
	l.lost.High += before.Low - l.left.Free.Low
	l.lost.High = max(l.lost.High, l.lost.Likely)
	l.lost.Low = min(l.lost.Low, l.lost.Likely)
	l.since += before.Likely - l.left.Free.Likely
}

// begin is the moment when the recipe's reducer is in.
func (l *ledger) begin() {
	r, err := l.budget.Reserve()
	var none *liquor.NoBudgetError
	if errors.As(err, &none) {
		l.why = none.Error()
		return
	}
	if err != nil {
		return
	}
	l.in, l.reserve, l.left = true, r, r.Left()
	l.lost = r.FillWater
}

func (l *ledger) pass(e day.Event, h Heat) {
	l.rest(e.At)
	before := l.level
	l.level = before.After(&l.s, e.Body)
	switch b := e.Body.(type) {
	case day.DrawnOff:
		l.draw(b.Liquor)
	case day.Decanted:
		l.draw(b.Liquor)
	case day.ToppedUp:
		l.water(b.Water, before)
	case day.PowderAdded:
		l.powder(b.Powder, b.Mass, b.Step, b.Into)
	case day.Fed:
		l.powder(b.Powder, b.Mass, 0, "")
	case day.StockDrawn:
		l.stages(b.Step)
	case day.VatJudged:
		if b.Ready && b.Of == "" {
			l.ready = true
			l.reduced()
		}
	case day.VatCovered:
		l.lid = liquor.Lidded
	case day.VatUncovered:
		l.lid = liquor.Open
	case day.DipBegun:
		l.lid = liquor.Open
	case day.DipEnded:
		l.dips[b.Tag]++
		if p, ok := l.s.Piece(b.Tag); ok && l.in && l.why == "" {
			if m, err := l.budget.Dip(l.left, p.Spec.Dry, false); err == nil {
				l.lose(m)
			}
		}
	case day.Stirred:
		if l.in && l.why == "" {
			if m, err := l.budget.Stir(l.left); err == nil {
				l.lose(m)
			}
		}
	case day.StripTest:
		l.strip(b.Stayed)
	case day.Reading:
		if b.PH == nil || b.Of == "stock" {
			return
		}
		at := temps(h, e.At, l.budget.Temp)
		if b.PHTemp != nil {
			at = *b.PHTemp
		} else if b.Temp != nil {
			at = *b.Temp
		}
		l.read = &reading{e.At, quantity.PH(*b.PH), at, liquor.ReadError(b.With), l.lost.Likely, len(l.given), l.thin}
	}
}

// strip lets a strip test speak: what is left by it and not by the reckoning, the air took, or left.
func (l *ledger) strip(stayed quantity.Span) {
	if !l.in || l.why != "" || !l.ready {
		return
	}
	before := l.left.Free
	l.left, l.noted = l.left.Strip(stayed, l.fill), true
	if stayed >= liquor.SlackStrip {
		l.reduced()
	}
	after := l.left.Free
	l.lost.Low = max(0, l.lost.Low+before.High-after.High)
	l.lost.Likely = max(l.lost.Low, l.lost.Likely+before.Likely-after.Likely)
	l.lost.High = max(l.lost.Likely, l.lost.High+before.Low-after.Low)
	if l.read != nil { // it was gone before the strip told of it: a pH read meanwhile shows it already
		l.read.lost = max(0, l.read.lost+before.Likely-after.Likely)
	}
}

// stillBlue is the most of the indigo that may be blue in a vat that was seen to be reduced. M
const stillBlue = quantity.Mass(0.1)

// reduced is a vat that was seen to be so: by a strip, or when it was judged.
func (l *ledger) reduced() {
	l.blue = quantity.Range[quantity.Mass]{High: min(l.blue.High, stillBlue*l.indigo.Likely)}
}

// powder takes a powder that went in: at a step of the build, or beyond it.
func (l *ledger) powder(id string, m quantity.Mass, step int, into string) {
	p, ok := l.s.Head.Recipe.Powder(id)
	if !ok || into == string(recipe.IntoStock) {
		return
	}
	if step > 0 && !l.s.Head.Opening.Built {
		l.stages(step)
		return
	}
	strength := cmp.Or(p.Strength, 1)
	switch {
	case p.Role == recipe.Reducer && l.in:
		l.doses = append(l.doses, liquor.Episode{Reckoned: l.since, Added: strength.Of(m)})
		l.since = 0
		back := liquor.State{Recipe: l.s.Head.Recipe, Oxidised: &l.blue}.BringsBack()
		l.left, l.blue = l.left.Add(m, quantity.Exactly(strength)), quantity.Range[quantity.Mass]{}
		l.lose(back)
		l.noted = true
	case p.Role == recipe.Alkali && l.alkali:
		l.given = append(l.given, liquor.Amount{Powder: id, Mass: m})
	case p.Role == recipe.Indigo && l.hasDye:
		more := strength.Of(m)
		l.indigo = quantity.Map(l.indigo, func(m quantity.Mass) quantity.Mass { return m + more })
	}
}

// stages looks at what of the build is behind once a step is done.
func (l *ledger) stages(step int) {
	var reducer, alkali, dye int // the last step that adds each
	for _, st := range l.s.Plan {
		adds := st.Do == recipe.Add || st.Do == recipe.Sprinkle
		if !adds || st.Into == recipe.IntoStock {
			continue
		}
		stock := st.Powder == ""
		if stock || st.Role == recipe.Reducer {
			reducer = st.No
		}
		if stock || st.Role == recipe.Alkali {
			alkali = st.No
		}
		if stock || st.Role == recipe.Indigo {
			dye = st.No
		}
	}
	if step >= alkali {
		l.alkali = true
	}
	if step >= dye && !l.hasDye {
		l.hasDye = true
		l.indigo = quantity.Exactly(liquor.PureIndigo(l.s.Head.Recipe, l.s.Head.Setup.Fill))
	}
	if step >= reducer && !l.in {
		l.begin()
	}
}

// tellReducer says how long the reducer lasts.
func (l *ledger) tellReducer(o *Outlook) {
	r := &o.Reducer
	if l.why != "" {
		r.Why = l.why
		return
	}
	if !l.in {
		return
	}
	b := l.budget
	b.Factor = liquor.FitFactor(l.doses)
	b.Quiet = liquor.Lidded
	holds := liquor.State{Recipe: b.Recipe, Fill: b.Fill, Reducer: &l.left.Free}
	rest, err := holds.Lasts(b)
	if err != nil {
		r.Why = err.Error()
		return
	}
	b.Quiet = l.lid
	work, err := holds.Lasts(b)
	if err != nil {
		return
	}
	r.Known = Guessed
	if l.noted {
		r.Known = Reckoned
	}
	r.Left, r.Rest, r.Work, r.Longer = l.left.Free, rest.Rest, work.Work, work.Longer
	if m, err := l.makeup(l.lost.Likely, len(l.given), l.thin); err == nil {
		r.Sulfite = liquor.SulfiteOf(l.s.Head.Recipe, m)
	}
}

// tellIndigo says what is left to dye with.
func (l *ledger) tellIndigo(o *Outlook) {
	if !l.hasDye {
		return
	}
	var taken []liquor.Taken
	var out quantity.Volume
	var today quantity.Mass
	for _, p := range l.s.Pieces {
		dips := p.Dips - p.Spec.Had
		if dips <= 0 {
			continue
		}
		taken = append(taken, takenBy(p, dips))
		out += CarriedOut(p.Spec, dips)
		today += p.Spec.Dry
	}
	b := liquor.Indigo(l.indigo.Likely, l.fill, taken, out)
	// What an earlier day left open stays open.
	b.Left.Low = max(0, b.Left.Low-(l.indigo.Likely-l.indigo.Low))
	b.Left.High += l.indigo.High - l.indigo.Likely
	depths := wording.Each(shade.Depths(), func(d shade.Depth) liquor.Depth { return liquor.Depth{Name: d.Name, OnFibre: d.OnFibre} })
	o.Indigo = Indigo{
		Known: Reckoned, Left: b.Left, PerLitre: b.PerLitre, Blue: quantity.Map(l.blue, func(m quantity.Mass) quantity.Mass { return min(m, b.Left.High) }),
		Capacity: liquor.Capacities(b, l.s.Head.Recipe, l.fill, today, depths),
	}
	o.Indigo.Feeding = liquor.Feed(l.sinceFresh(b), l.s.Head.Recipe, l.fill, l.s.Head.Setup.Strength, l.s.Head.Setup.System())
	if f := o.Indigo.Feeding; f.Soon || f.Now {
		o.Indigo.Feed = f.Sentence
	}
}

// sinceFresh is the day's balance as if the vat had been fresh this morning: what earlier days took is gone too.
func (l *ledger) sinceFresh(b liquor.Balance) liquor.Balance {
	fresh := max(b.In.Likely, liquor.PureIndigo(l.s.Head.Recipe, l.fill))
	return liquor.Balance{In: quantity.Exactly(fresh), Taken: quantity.Exactly(fresh - b.Left.Likely), Left: b.Left}
}

// Surface is how much of the liquor of a setup is open to the air; of a vessel that was not measured as if it were a
// cylinder, as wide as its liquor is deep.
func Surface(setup day.Setup, fill quantity.Volume) quantity.Area {
	if v := setup.Measured(); v.Shape != nil {
		if depth, err := v.Depth(fill); err == nil {
			if a := v.Surface(depth); a > 0 {
				return a
			}
		}
	}
	return liquor.Squat(fill)
}
