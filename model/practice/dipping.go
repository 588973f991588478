package practice

import (
	"fmt"
	"math"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
)

// Custom is something that is done between dips, and why. Time is 0 where it has no figure.
type Custom struct {
	Do       string
	Time     quantity.Range[quantity.Span]
	Why      string
	Evidence string
}

// Plunge is a plunge in clear water between the vat and the air, by choice: not for pasted resist, which softens in it, nor for
// bound goods, whose folds hold the water.
func Plunge() Custom {
	return Custom{"then, if you like, 30 to 60 s in clear water", spans(0.5, 0.75, 1),
		"it takes off loose dye and evens the first strike", "C, two pages"}
}

// The first dip of tight cloth, against the others. C; sources disagree: S1 has dips of 1, 5, 10 and 20 min, rising.
const (
	tightLeast = 1.5
	tightMost  = 2
)

// FirstDip is how long tight cloth, such as canvas or closely woven linen, is left in at its first dip, where the others are so long.
func FirstDip(dip quantity.Span) quantity.Range[quantity.Span] {
	least, most := quantity.Minutes(dip.Minutes()*tightLeast), quantity.Minutes(dip.Minutes()*tightMost)
	return quantity.Range[quantity.Span]{Low: least, Likely: (least + most) / 2, High: most}
}

// LongFirst is the first dip of tight cloth as it is called and planned: the middle of FirstDip, in whole minutes, never beyond it.
func LongFirst(dip quantity.Span) quantity.Span {
	r := FirstDip(dip)
	return min(quantity.Minutes(math.Ceil(r.Likely.Minutes())), r.High)
}

// MeanDip is one of so many dips of tight cloth in the mean, the first of them longer: what a plan reckons with.
func MeanDip(dip quantity.Span, dips int) quantity.Span {
	first := LongFirst(dip)
	if dips <= 1 {
		return first
	}
	return quantity.Seconds(math.Round((first.Seconds() + float64(dips-1)*dip.Seconds()) / float64(dips)))
}

// FirstDipWords is FirstDip for the hands.
func FirstDipWords(dip quantity.Span) string {
	r := FirstDip(dip)
	return fmt.Sprintf("Tight cloth: %.0f to %.0f min this first time.", r.Low.Minutes(), r.High.Minutes())
}

// rinseEvery is after how many dips goods of a vat of lime are rinsed: each second to third. C
const rinseEvery = 2

// RinseBetween is the rinse between dips that goods want after so many of them, of a vat of lime: each second. False for all else.
func RinseBetween(f recipe.Family, dips int) (Custom, bool) {
	if f != recipe.SugarLime && f != recipe.IronLime || dips <= 0 || dips%rinseEvery != 0 {
		return Custom{}, false
	}
	return Custom{"once it is blue, rinse it in plain water before the next dip", spans(1, 2, 5),
		"lime, sludge and plant matter that dry on rub off later, and the blue with them", "C: each second to third dip; the time M"}, true
}
