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

// scores are the normal scores of the middles of howMany even parts between 0 and 1.
var scores = sync.OnceValue(func() *[howMany]float64 {
	var all [howMany]float64
	for i := range all {
		all[i] = score((float64(i) + 0.5) / howMany)
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
	gains := make([]gains, howMany)
	forms, point, scores := Forms(), newSobol(), scores()
	likely, spread := make([]float64, len(priors)), make([]float64, len(priors))
	for d, p := range priors {
		likely[d], spread[d] = math.Log(p.Likely), wide*p.sd()
	}
	for i := range all {
		z := func(d int) float64 { return scores[point.place(d)] }
		ln := func(d int) float64 { return likely[d] + spread[d]*z(d) }
		at := func(d int) float64 { return math.Exp(ln(d)) }
		p := &all[i]
		p.zLevel, p.zPiece = z(ofLevel), z(ofPiece)
		p.level = v.level + v.spread*wide*p.zLevel
		p.tau, p.strip = at(ofTime), at(ofStrip)
		p.cellulose, p.protein, p.mercerised = ln(ofCellulose), ln(ofProtein), ln(ofMercerised)
		p.hot, p.mono = math.Min(0, ln(ofHot)), at(ofMono)
		w := at(ofWidth)
		p.width = 1 / (2 * w * w)
		p.exhaustion, p.perPercent = at(ofExhaustion), at(ofPerPercent)
		p.class = point.place(ofScatter) * scatterClasses / howMany
		p.ceiling = at(ofCeiling)
		p.overCeiling = 1 / square(square(p.ceiling))
		p.form = formAt(forms, (float64(point.place(ofForm))+0.5)/howMany)
		f := &forms[p.form]
		p.first, p.second, p.gains = f.First.at(wide*z(ofFirst)), f.Second.at(wide*z(ofSecond)), &gains[i]
		f.gains(p.first, p.second, p.gains.first[:])
		point.next()
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
