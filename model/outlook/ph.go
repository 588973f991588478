package outlook

import (
	"errors"
	"time"

	"example.org/vatside/model/liquor"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
)

// tellPH says the pH now and later, from the make-up and what of the reducer is spent, moved to what was read.
func (l *ledger) tellPH(now time.Time, o *Outlook) {
	if !l.alkali {
		return
	}
	opening := l.s.Head.Opening
	t := l.budget.Temp
	reckon := liquor.PHRange
	if l.read != nil {
		before, err := l.makeup(l.read.lost, l.read.given, l.read.thin)
		if err != nil {
			return
		}
		if a, err := liquor.Reanchor(before, l.read.value, l.read.temp, l.read.sd); err == nil {
			reckon = a.PHRange
		}
	}
	at := func(lost quantity.Mass, t quantity.Temperature, aired quantity.Molarity) (quantity.Range[quantity.PH], error) {
		m, err := l.makeup(lost, len(l.given), l.thin)
		if err != nil {
			return quantity.Range[quantity.PH]{}, err
		}
		return reckon(m.Aired(aired), t)
	}
	span := func(lost quantity.Range[quantity.Mass], t quantity.Temperature, when time.Time) (quantity.Range[quantity.PH], bool) {
		aired := l.aired(when)
		likely, err := at(lost.Likely, t, aired.Likely)
		low, err2 := at(lost.High, t, aired.Low)
		high, err3 := at(lost.Low, t, aired.High)
		if errors.Join(err, err2, err3) != nil {
			return likely, false
		}
		likely.Low, likely.High = min(likely.Low, low.Low), max(likely.High, high.High)
		return likely, true
	}
	ph, ok := span(l.lost, t, now)
	if !ok {
		return
	}
	rec := l.s.Head.Recipe.Liquor
	if l.s.Head.Recipe.Family == recipe.Ferment && l.ready && l.read == nil && opening.Until == nil { // its acids have done their work
		ph = liquor.WorkingPH(l.s.Head.Recipe, t)
	}
	p := PH{Known: Reckoned, Now: ph, At: now.Add(ahead).Truncate(time.Hour)}
	if l.read != nil {
		p.ReadAt = l.read.at
		if now.Sub(l.read.at) <= fresh {
			p.Known = Measured
		}
	} else if l.why != "" || opening.Built && opening.Until == nil {
		// Acids that nobody reckons, or a vat that nobody has: anything down to the recipe's low mark.
		p.Known = Guessed
		ph.Low, ph.High = min(ph.Low, quantity.PH(rec.PHLow)), max(ph.High, ph.Likely)
		p.Now = ph
	}
	p.Later = ph
	if p.Known == Guessed {
		o.PH = p
		return
	}
	if later, ok := span(l.lostBy(p.At), tempAt(o.Heat, p.At, t), p.At); ok {
		p.Later = later
	}
	o.PH = p
}

// makeup is the liquor with so much of its reducer gone to the air today, so many of the day's doses of alkali, and thinned so far: the
// recipe's, what earlier days spent, and what readings of pH told beyond that. What went is reckoned in moles, so that it does not matter
// of which dose it was.
func (l *ledger) makeup(lost quantity.Mass, given int, thin float64) (liquor.Makeup, error) {
	o := l.s.Head.Opening
	m, err := liquor.OfRecipe(l.s.Head.Recipe, 0)
	m.Spent += o.Spent
	m.Acid += o.Acid - o.Alkali
	if thin != 1 {
		m = m.Thinned(thin)
	}
	m.Spent += l.molar(lost)
	for _, a := range l.given[:given] {
		p, _ := l.s.Head.Recipe.Powder(a.Powder)
		more, plusErr := m.Plus(p, a.Mass.Per(l.fill))
		m, err = more, errors.Join(err, plusErr)
	}
	return m, err
}

// aired is the carbon dioxide that a liquor with baking soda has given off by an instant, since pH was read or the day began, as
// the vat stands now.
func (l *ledger) aired(when time.Time) quantity.Range[quantity.Molarity] {
	since := l.s.Opened
	switch {
	case l.read != nil:
		since = l.read.at
	case l.s.Head.Opening.Until != nil: // the night since too
		since = *l.s.Head.Opening.Until
	}
	m, err := l.makeup(l.lost.Likely, len(l.given), l.thin)
	lost, lostErr := liquor.CarbonDioxideLost(m, l.budget.Temp, l.budget.Surface, l.lid, l.fill, quantity.Span(when.Sub(since)))
	if err != nil || lostErr != nil {
		return quantity.Range[quantity.Molarity]{}
	}
	return lost
}

// lostBy is what the air will have taken at an instant to come, as the vat is used now.
func (l *ledger) lostBy(at time.Time) quantity.Range[quantity.Mass] {
	span := quantity.Span(at.Sub(l.at))
	out := l.lost
	if !l.in || l.why != "" || span <= 0 {
		return out
	}
	b := l.budget
	b.Quiet = l.lid
	r, err := b.Holding(l.left)
	if err != nil {
		return out
	}
	rate := r.RestPerHour
	if !l.s.Vat.Work.IsZero() && l.s.LiveAny() {
		rate = r.WorkPerHour
	}
	free := l.left.Free
	loss := func(perHour, of quantity.Mass) quantity.Mass { return min(perHour*quantity.Mass(span.Hours()), of) }
	out.Low += loss(rate.Low, free.High)
	out.Likely += loss(rate.Likely, free.Likely)
	out.High += loss(rate.High, free.Low)
	out.High = max(out.High, out.Likely)
	return out
}

// tempAt is the forecast °C at an instant to come.
func tempAt(h Heat, at time.Time, otherwise quantity.Temperature) quantity.Temperature {
	t := otherwise
	for _, p := range h.Coming {
		if p.When.After(at) {
			break
		}
		t = p.Temp.Likely
	}
	return t
}

// molar is reducer that air oxidised, as millimoles in a litre of liquor.
func (l *ledger) molar(lost quantity.Mass) quantity.Molarity {
	return liquor.Oxidising(l.left.Reducer, lost, l.fill)
}
