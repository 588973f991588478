package shade

import (
	"fmt"
	"strings"

	"example.org/vatside/model/colour"
	"example.org/vatside/model/wording"
)

// NotWithin is what an Answer says of a blue that so many dips do not reach.
const NotWithin = longest

// SwatchFirst is what is advised before any swatch of a vat was seen.
const SwatchFirst = "dip a swatch first: from one vat to another the blue of a dip differs twentyfold"

// Words is the answer as it is said wherever it stands: "likely 9, 7 to 11 eight times in ten".
func (a Answer) Words() string {
	likely := fmt.Sprintf("likely %d", a.Likely)
	switch {
	case a.Low >= NotWithin:
		return fmt.Sprintf("%d or more, eight times in ten", NotWithin)
	case a.Likely >= NotWithin:
		return fmt.Sprintf("likely %d or more, from %d eight times in ten", NotWithin, a.Low)
	case a.Low == a.High:
		return likely + ", eight times in ten"
	case a.High >= NotWithin:
		return fmt.Sprintf("%s, %d to %d or more eight times in ten", likely, a.Low, NotWithin)
	}
	return fmt.Sprintf("%s, %d to %d eight times in ten", likely, a.Low, a.High)
}

// Short is the same for a narrow place: "9 dips, 7 to 11".
func (a Answer) Short() string {
	dips := wording.Either(a.Likely == 1, "1 dip", fmt.Sprintf("%d dips", a.Likely))
	switch {
	case a.Likely >= NotWithin:
		return fmt.Sprintf("%d dips or more", NotWithin)
	case a.Low == a.High:
		return dips
	case a.High >= NotWithin:
		return fmt.Sprintf("%s, %d or more", dips, a.Low)
	}
	return fmt.Sprintf("%s, %d to %d", dips, a.Low, a.High)
}

// Beside says what a dip more or less looks like, "" where the blue is not reached.
func (a Answer) Beside() string {
	if a.Likely >= NotWithin || a.More == 0 {
		return ""
	}
	shows := func(off float64) string {
		switch seen := colour.Seen(off); seen {
		case "on a close look":
			return "shows " + seen
		default:
			return "is " + seen
		}
	}
	less, more := shows(a.Less), shows(a.More)
	switch {
	case a.Less == 0:
		return "a dip more " + more
	case less == more:
		return "a dip more or less " + more
	}
	return fmt.Sprintf("a dip less %s, a dip more %s", less, more)
}

// plainly is the chance of being right or one off below which an answer says it: the study's least with three swatches of the day.
const plainly = 0.86

// Unsure says where an answer is less sure than it looks: a number that may well be more than one off, and swatches that end well before
// the dips that are advised. Judged by vats that build up in ways which the model has not, the ranges hold 7 times in 10 there,
// and 5 in 10 after one swatch of 1 or 2 dips.
func (w Weighted) Unsure(a Answer) string {
	most := 0
	for _, r := range w.rows {
		for _, t := range r.terms {
			n := 0
			for _, run := range t.runs {
				n += run.dips
			}
			most = max(most, n)
		}
	}
	if most == 0 {
		return ""
	}
	var out []string
	if a.Near < plainly && a.Likely < NotWithin {
		words := fmt.Sprintf("%d is right or one off %s in ten", a.Likely, wording.Counted(max(1, int(10*a.Near+0.5)), "time"))
		words += wording.If(most < manyDips && a.Likely <= manyDips, fmt.Sprintf(", and one strip of %d would settle it", manyDips))
		out = append(out, words)
	}
	if a.Likely > 2*most {
		hold := 7
		if most <= 2 {
			hold = 5
		}
		out = append(out, fmt.Sprintf("the swatches end at %s, and so far beyond them the range may hold only %d times in ten", counted(most), hold))
	}
	return strings.Join(out, "; ")
}

func counted(n int) string {
	if n == 1 {
		return "1 dip"
	}
	return fmt.Sprintf("%d dips", n)
}
