package shade

import (
	"fmt"
	"math"

	"example.org/vatside/model/colour"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/wording"
)

// Choice is one way to go on with a piece.
type Choice struct {
	More  int // dips more: 0, 1 or 2
	Step  Step
	Off   float64 // CIEDE2000 from the likely colour to the one to aim for
	Over  float64 // chance of being darker than wished, 0 to 1
	Words string  // a line for the dyer, such as "one more dip: dark, 62 in 100 to be dark"
}

// Stop answers "stop now, one more, or two?".
type Stop struct {
	Choices [3]Choice // now, one more, two more
	Best    int       // 0, 1 or 2 more
	Further bool      // two more are likely not enough
	Words   string    // one sentence
}

// leastGain is the chance that a further dip must gain to be worth it: what is too pale can be dipped again, what is too dark
// stays so. M
const leastGain = 0.05

// Now says of a piece that was looked at whether to stop, to give one more dip, or two, with the chance of each to be what
// was wished. Best is the number with the best chance, the lower of two that differ by less than 5 in 100.
func (w Weighted) Now(p Piece, v Liquor, dip quantity.Span, done []Dip, wish Wish) Stop {
	var s Stop
	g := w.Going(p, v, dip, done, &wish)
	steps := []Step{g.step(0), g.step(1), g.step(2)}
	cloth := w.Cloth(p.Ground)
	aim := cloth.Colour(wish.Aim(cloth))
	band := wish.Band(cloth)
	for i, step := range steps {
		c := Choice{More: i, Step: step, Off: colour.Difference(step.Lab, aim)}
		c.Over = g.spread(i).inside(g.high, math.Inf(1)) // darker than wished
		c.Words = fmt.Sprintf("%s: %s, %s in 100 to be %s", choiceWords(i), step.Depth, hundredths(step.Chance), wish)
		s.Choices[i] = c
		if step.Chance > s.Choices[s.Best].Step.Chance+leastGain {
			s.Best = i
		}
	}
	s.Further = steps[2].KS.Likely < band.Low
	now := steps[0]
	switch {
	case s.Further:
		s.Best = 2
		s.Words = fmt.Sprintf("go on: two more dips are likely too few for %s", wish)
	case s.Best == 0 && now.KS.Likely > band.High:
		s.Words = fmt.Sprintf("stop: it is likely darker than %s", wish)
	case s.Best == 0 && now.KS.Likely < band.Low:
		// more dips would gain nothing: a dip is coarser than the wish
		s.Words = fmt.Sprintf("a whole dip is too much for %s: make the next one shorter", wish)
	default:
		s.Words = fmt.Sprintf("%s: %s in 100 to be %s", choiceWords(s.Best), hundredths(s.Choices[s.Best].Step.Chance), wish)
	}
	s.Words += wording.If(w.ClaimFor(p) == guess, "; a guess, as no swatch has told what a dip gives here")
	return s
}

// choiceWords is what a number of dips more is called.
func choiceWords(n int) string { return [...]string{"stop now", "one more dip", "two more dips"}[n] }

// hundredths is a chance as a whole number of a hundred, never quite 0 or 100.
func hundredths(chance float64) string {
	switch {
	case chance < 0.01:
		return "less than 1"
	case chance > 0.99:
		return "more than 99"
	}
	return fmt.Sprintf("%.0f", 100*chance)
}
