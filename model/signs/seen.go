package signs

import (
	"math"
	"slices"

	"example.org/vatside/model/fibre"
	"example.org/vatside/model/liquor"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/wording"
)

// Seen is what was seen and read. Anything may be left out; nil was not read, and figures that cannot be count as not read.
type Seen struct {
	Signs   []Sign
	PH      *quantity.PH // as read
	PHError float64      // by how much a reading may be off, either way: 0.5 for paper
	Temp    *quantity.Temperature
	Strip   *quantity.Span // how long the strip stayed yellow
	Stood   quantity.Span  // how long the vat has looked so; 0: not known
	Tried   []Tried        // what was done about it already, oldest first
}

// Tried is a treatment that was given, and what the recheck said. It narrows the causes.
type Tried struct {
	Cause  string // ID of the cause
	Answer Answer
}

// Answer is what a recheck says of the last treatment.
type Answer int

// Not said yet; the vat is better, as it was, or worse.
const (
	NotSaid Answer = iota
	Better
	Same
	Worse
)

// String is "better", "the same", "worse" or "not said".
func (a Answer) String() string { return wording.Named(a, "not said", "better", "the same", "worse") }

// Judge tells by two strips whether a vat got better: a third longer and at least 5 s counts as better, as much shorter as
// worse; past three minutes longer is worse. A strip below 0 was not pulled. M
func Judge(before, after quantity.Span) Answer {
	b, a := before.Seconds(), after.Seconds()
	step := math.Max(5, b/3)
	switch {
	case b < 0 || a < 0:
		return NotSaid
	case b > overStrip.Seconds():
		step = 5
		b, a = -b, -a // shorter is better
		if -a < 30 {
			return Worse
		}
	case a > overStrip.Seconds():
		return Worse
	}
	switch {
	case a >= b+step:
		return Better
	case a <= b-step:
		return Worse
	}
	return Same
}

// Vat is the vat that the signs are of: the state of its liquor, into which what was read is put.
type Vat = liquor.State

// on is a vat with what was read of it.
func (s Seen) on(v Vat) Vat {
	v.Temp, v.PH, v.Strip = s.Temp, s.PH, s.Strip
	if s.PHError > 0 {
		v.PHError = s.PHError
	}
	for _, x := range s.Signs {
		v.Choking = v.Choking || x.ID == Choking
		if t, ok := stripWords[x.ID]; ok && v.Strip == nil {
			v.Strip = &t
		}
	}
	return v
}

// stripWords is the strip that a word for it stands for: the middle of its band. M
var stripWords = map[string]quantity.Span{"strip-weak": weakStrip / 2, "strip-slack": (weakStrip + slackStrip) / 2, "strip-good": 3 * weakStrip, "strip-over": overStrip + weakStrip}

// Between these a strip says that a vat is ready: about 45 s is good (S1), less than 30 s is short, more than 3 min takes dye off (M).
const (
	GoodStripLeast = slackStrip
	GoodStripMost  = overStrip
)

// The marks of the readings, as for the right dose.
const (
	weakStrip   = liquor.WeakStrip
	slackStrip  = liquor.SlackStrip
	overStrip   = liquor.OverStrip
	sugarHighPH = quantity.PH(12) // C: from the fourth day, or in a vat that will not dye
)

// clean drops what cannot have been read or seen.
func (s Seen) clean() Seen {
	if s.Temp != nil && !(*s.Temp >= -5 && *s.Temp <= 105) {
		s.Temp = nil
	}
	if s.PH != nil && !(*s.PH >= 0 && *s.PH <= 14) {
		s.PH = nil
	}
	if s.Strip != nil && *s.Strip < 0 {
		s.Strip = nil
	}
	if !(s.PHError > 0) || math.IsInf(s.PHError, 0) {
		s.PHError = 0
	}
	return s
}

// evidence is all that speaks: the signs' IDs in the order seen, then the readings. A strip that was timed counts as the
// sign of its time; an earlier word about it stays, and may contradict it.
func (s Seen) evidence(v Vat) []string {
	var out []string
	add := func(id string) {
		if !slices.Contains(out, id) {
			out = append(out, id)
		}
	}
	for _, x := range s.Signs {
		if _, ok := Find(x.ID); ok {
			add(x.ID)
		}
	}
	if s.Strip != nil {
		switch t := *s.Strip; {
		case t < weakStrip:
			add("strip-weak")
		case t < slackStrip:
			add("strip-slack")
		case t <= overStrip:
			add("strip-good")
		default:
			add("strip-over")
		}
	}
	l := v.Recipe.Liquor
	if s.PH != nil {
		for _, f := range v.Goods {
			switch verdict, _ := f.BearsPH(*s.PH); {
			case s.on(v).Unfit(f):
				add(phUnfit)
			case verdict > fibre.Fine:
				add(phGoods)
			}
		}
		switch {
		case s.on(v).LowPH():
			add(phLow)
		case s.highPH(v, out):
			add(phHigh)
		case !slices.Contains(out, phGoods):
			add(phRight)
		}
	}
	if s.Temp != nil {
		switch {
		case *s.Temp < l.Low:
			add(cold)
		case l.High > 0 && *s.Temp > l.High:
			add(hot)
		default:
			add(warmRight)
		}
	}
	return out
}

// highPH tells whether the pH read is too high: above the recipe's range; in a sugar–lime vat above 12 as well, from the
// fourth day or where it will not dye, as a fresh one reads more (C).
func (s Seen) highPH(v Vat, seen []string) bool {
	if top := v.Recipe.Liquor.PHHigh; top > 0 && float64(*s.PH) > top {
		return true
	}
	if v.Recipe.Family != recipe.SugarLime || *s.PH <= sugarHighPH {
		return false
	}
	return v.Age >= quantity.Days(3) || slices.Contains(seen, "dull") || slices.Contains(seen, "pale")
}
