package signs

import (
	"fmt"
	"math"
	"slices"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/wording"
)

// Episode is one dose and the strips before and after it. A strip below 0 was not pulled.
type Episode struct {
	Powder   string                 // its id in the recipe
	Material string                 // how it is said
	PerLitre quantity.Concentration // of the whole fill
	Before   quantity.Span          // strip
	After    quantity.Span          // strip
	Took     quantity.Span          // from the dose to the strip after it
}

const (
	lastTimes = 4   // episodes that one sentence speaks of. C
	likeDose  = 0.2 // doses within this part of the last one count as the same. M
)

// Worked says what the last like doses did to this vat, "the last 4 times 0.5 g/L of sodium dithionite took this vat from
// 12 to 44 s in 35 min": the newest episode's powder and dose, the last four of its kind, oldest first in, each figure
// the middle one of them. Where some of them did not better the strip, it says how many. Empty without an episode that has
// both strips. It tells what happened, not what will.
func Worked(episodes []Episode) string {
	var like []Episode
	for _, e := range slices.Backward(episodes) {
		if e.Before < 0 || e.After < 0 || !(e.PerLitre > 0) || e.Took < 0 {
			continue
		}
		if len(like) > 0 {
			last := like[0]
			if e.Powder != last.Powder || !within(float64(e.PerLitre), float64(last.PerLitre), likeDose) {
				continue
			}
		}
		if like = append(like, e); len(like) == lastTimes {
			break
		}
	}
	if len(like) == 0 {
		return ""
	}
	helped := len(wording.Only(like, func(e Episode) bool { return Judge(e.Before, e.After) == Better }))
	of := func(f func(Episode) quantity.Span) quantity.Span { return middle(like, f) }
	before, after := of(func(e Episode) quantity.Span { return e.Before }), of(func(e Episode) quantity.Span { return e.After })
	times := "the last time"
	if n := len(like); n > 1 {
		times = fmt.Sprintf("the last %d times", n)
	}
	material := wording.If(like[0].Material != "", " of "+like[0].Material)
	took := of(func(e Episode) quantity.Span { return e.Took })
	in := quantity.Minutes(max(1, math.Round(took.Minutes())))
	s := fmt.Sprintf("%s %s%s took this vat from %s in %s", times, like[0].PerLitre, material, fromTo(before, after), in)
	switch n := len(like); {
	case helped == n:
	case n == 1:
		s += ", which was no better"
	case helped == 0:
		s += "; none of them made the strip better"
	default:
		s += fmt.Sprintf("; %d of the %d made the strip better", helped, n)
	}
	return s
}

// within tells whether a is b but for a part of it.
func within(a, b, part float64) bool { return a >= b*(1-part)-1e-12 && a <= b*(1+part)+1e-12 }

// middle is the middle one of a figure; of an even count the mean of the two in the middle.
func middle(list []Episode, f func(Episode) quantity.Span) quantity.Span {
	v := wording.Each(list, f)
	slices.Sort(v)
	n := len(v)
	return v[(n-1)/2]/2 + v[n/2]/2
}

// fromTo is two strips, "12 to 44 s"; from two minutes up with the parts of each.
func fromTo(a, b quantity.Span) string {
	if a < quantity.Minutes(2) && b < quantity.Minutes(2) {
		return fmt.Sprintf("%.0f to %.0f s", a.Seconds(), b.Seconds())
	}
	return fmt.Sprintf("%v to %v", quantity.Seconds(math.Round(a.Seconds())), quantity.Seconds(math.Round(b.Seconds())))
}
