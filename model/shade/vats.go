package shade

import (
	"math"
	"sync"

	"example.org/vatside/model/recipe"
)

// howMany is the number of possible vats; a power of two, so that the sequence is even.
const howMany = 4096

// The dimensions of the sequence: the priors in their order, then what a piece is off, and the form with its two figures.
const (
	ofLevel = iota
	ofTime
	ofStrip
	ofCellulose
	ofProtein
	ofMercerised
	ofHot
	ofMono
	ofWidth
	ofExhaustion
	ofPerPercent
	ofScatter
	ofCeiling
	ofPiece
	ofForm
	ofFirst
	ofSecond
	dimensions
)

// scatterClasses are the scatters that a vat may have: the middles of four even parts of the prior. A few classes instead
// of a draw each, since all of one class share the arithmetic of their noise.
const scatterClasses = 4

// Vats are the possible vats of one family, before anything was seen. They are not changed by what is seen, and may be
// shared.
type Vats struct {
	level, spread float64 // of the prior of the logarithm of levelPrior
	plain         []possible
	scatters      [scatterClasses]float64
}

// scores are the normal scores of the sequence's points in each dimension; of the forms', which are shares, the points themselves. A
// dimension has one point in the middle of each of howMany even parts, so that all have the same scores in another order.
var scores = sync.OnceValue(func() *[dimensions][howMany]float64 {
	var all [dimensions][howMany]float64
	var of [howMany]float64
	for i := range of {
		of[i] = score((float64(i) + 0.5) / howMany)
	}
	for d := range all {
		for i, p := range sobol(d, howMany) {
			if all[d][i] = p; d != ofForm {
				all[d][i] = of[int(p*howMany)]
			}
		}
	}
	return &all
})

// Possible makes the possible vats of a family, "" for any: 4,096 draws of the priors by Sobol's sequence, so that the same
// inputs give the same answer. It takes some milliseconds: make them once.
func Possible(f recipe.Family) *Vats {
	yield, wider := familyYield(f)
	level := levelPrior()
	v := &Vats{level: math.Log(level.Likely * yield), spread: level.sd() * wider}
	for c := range v.scatters {
		v.scatters[c] = scatterPrior().at(score((float64(c) + 0.5) / scatterClasses))
	}
	v.plain = v.draw(1)
	return v
}

// draw makes the possible vats with every prior so many times as wide.
func (v *Vats) draw(wide float64) []possible {
	priors := Priors()
	all := make([]possible, howMany)
	gains := make([]float64, howMany*(MostDips+1))
	forms, scores := Forms(), scores()
	likely, spread := make([]float64, len(priors)), make([]float64, len(priors))
	for d, p := range priors {
		likely[d], spread[d] = math.Log(p.Likely), wide*p.sd()
	}
	for i := range all {
		ln := func(d int) float64 { return likely[d] + spread[d]*scores[d][i] }
		at := func(d int) float64 { return math.Exp(ln(d)) }
		p := &all[i]
		p.zLevel, p.zPiece = scores[ofLevel][i], scores[ofPiece][i]
		p.level = v.level + v.spread*wide*p.zLevel
		p.tau, p.strip = at(ofTime), at(ofStrip)
		p.cellulose, p.protein, p.mercerised = ln(ofCellulose), ln(ofProtein), ln(ofMercerised)
		p.hot, p.mono = math.Min(0, ln(ofHot)), at(ofMono)
		w := at(ofWidth)
		p.width = 1 / (2 * w * w)
		p.exhaustion, p.perPercent = at(ofExhaustion), at(ofPerPercent)
		p.class = min(int(scatterClasses*part(scores[ofScatter][i])), scatterClasses-1)
		p.ceiling = at(ofCeiling)
		p.gains = gains[i*(MostDips+1) : (i+1)*(MostDips+1) : (i+1)*(MostDips+1)]
		f := &forms[formAt(forms, scores[ofForm][i])]
		f.gains(f.First.at(wide*scores[ofFirst][i]), f.Second.at(wide*scores[ofSecond][i]), p.gains)
	}
	return all
}

// formAt is the form that a part between 0 and 1 falls on, by the shares.
func formAt(forms []Formed, part float64) int {
	for i, f := range forms[:len(forms)-1] {
		if part < f.Share {
			return i
		}
		part -= f.Share
	}
	return len(forms) - 1
}

// part is the part of a normal distribution below a score.
func part(z float64) float64 { return math.Erfc(-z/math.Sqrt2) / 2 }
