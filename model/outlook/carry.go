package outlook

import (
	"errors"
	"math"

	"example.org/vatside/model/day"
	"example.org/vatside/model/liquor"
	"example.org/vatside/model/quantity"
)

// Carry is what the next day takes over from a closed one: day.Carry with what the liquor held.
func Carry(s day.State) day.Opening {
	o := day.Carry(s)
	if !day.Filled(s) {
		return o
	}
	end := s.At
	h := heatOf(s, end)
	l := open(s, h)
	if h.Known != Unknown {
		t := quantity.Celsius(round(h.Now.Celsius(), 10))
		o.Temp, l.budget.Temp = &t, t
	}
	for e := range s.Corrected() {
		l.pass(e, h)
	}
	l.rest(end)
	if o.Built && !l.hasDye { // nobody knows what it holds: that is not nothing
		o.Swatches = Blue{done: dipsOf(s, Of(s, end))}.kept(s)
		return o
	}
	var sight Outlook
	l.tellIndigo(&sight)
	i, r := sight.Indigo.Left, l.left.Free
	grams := func(m quantity.Mass) quantity.Mass { return quantity.Grams(round(m.Grams(), 10)) }
	molar := func(m quantity.Molarity) quantity.Molarity {
		return quantity.MillimolesPerLitre(round(m.MillimolesPerLitre(), 100))
	}
	o.Held = day.Held{
		IndigoLow: grams(i.Low), Indigo: grams(i.Likely), IndigoHigh: grams(i.High),
		BlueLow: grams(l.blue.Low), Blue: grams(l.blue.Likely), BlueHigh: grams(l.blue.High),
		ReducerLow: grams(r.Low), Reducer: grams(r.Likely), ReducerHigh: grams(r.High),
		Spent: molar(s.Head.Opening.Spent + l.molar(l.lost.Likely)), Until: &end,
	}
	acid, alkali := s.Head.Opening.Acid, s.Head.Opening.Alkali
	if l.read != nil || len(l.given) > 0 || l.thin != 1 || liquor.Creeps(s.Head.Recipe) {
		acid, alkali = l.corrected()
	}
	o.Acid, o.Alkali = molar(acid), molar(alkali)
	o.Swatches = Blue{done: dipsOf(s, Of(s, end))}.kept(s)
	return o
}

// Next is the head of the day that follows a closed one on the same vat: the setup and the recipe as they were, and what the
// vat carries over. With end it leads to the end of the vat, from its first step on; an ending that has begun goes on, and
// one that never got past its first step, because the vat still dyes, is forgotten. An error is a sentence: a vat that
// has ended, or that is to end and was never filled. The dates, and what the dyer sets for a day, are the caller's.
func Next(s day.State, end bool) (day.Head, error) {
	h := s.Head
	begun := h.Setup.Ending && s.Step > 1
	switch {
	case s.Ended:
		return h, errors.New("it has ended: build a new vat")
	case end && !day.Filled(s):
		return h, errors.New("it was never filled: there is no liquor to end")
	}
	h.Opening, h.Setup.Ending = Carry(s), end || begun
	h.Setup.GoodsLater = false
	h.Setup.Asks = h.Setup.Asks && (s.Place() == "" || h.Setup.Material == "")
	if h.Setup.Place != day.ClosedRoom { // a draught is made anew each day
		h.Setup.Place = s.Place()
	}
	if end && !begun {
		h.Opening.Built, h.Opening.Step, h.Opening.Since = true, 0, nil
	}
	return h, nil
}

// round drops what a reckoning cannot know, so that the book is read with ease.
func round(x, per float64) float64 { return math.Round(x*per) / per }

// corrected is the acid, or the alkali, that the day's last reading of pH told of; and the alkali that was given today and
// the carbon dioxide that went to the air, as what brings a liquor without it to the pH that is reckoned with it.
func (l *ledger) corrected() (acid, alkali quantity.Molarity) {
	o := l.s.Head.Opening
	sum := o.Acid - o.Alkali
	if l.read != nil {
		m, err := l.makeup(l.read.lost, l.read.given, l.read.thin)
		if err != nil {
			return o.Acid, o.Alkali
		}
		a, err := liquor.Reanchor(m, l.read.value, l.read.temp, l.read.sd)
		if err != nil {
			return o.Acid, o.Alkali
		}
		sum = a.Makeup.Acid
	}
	aired := l.aired(l.at).Likely
	if len(l.given) > 0 || l.thin != 1 || aired > 0 {
		const exact = 0.001
		with, err := l.makeup(l.lost.Likely, len(l.given), l.thin)
		bare, err2 := l.makeup(l.lost.Likely, 0, 1)
		with.Acid, bare.Acid = sum, sum
		with = with.Aired(aired)
		stands, err3 := liquor.PH(with, l.budget.Temp)
		if errors.Join(err, err2, err3) != nil {
			return max(sum, 0), max(-sum, 0)
		}
		if a, err := liquor.Reanchor(bare, stands, l.budget.Temp, exact); err == nil {
			sum = a.Makeup.Acid
		}
	}
	return max(sum, 0), max(-sum, 0)
}
