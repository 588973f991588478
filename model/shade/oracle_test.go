package shade_test

import (
	"math"
	"math/rand/v2"
)

// oracle answers as well as anybody could: it knows in which way the vats of a row build up, how often which of them comes, and
// the noise, and chooses the number of dips that is right or one off most often. What it misses, the swatches do not tell.
type oracle struct {
	draws []truth // of the same form
}

func newOracle(f Form, draws int, seed uint64) *oracle {
	r := rand.New(rand.NewPCG(seed, 99))
	o := &oracle{make([]truth, draws)}
	for i := range o.draws {
		o.draws[i] = newTruth(r, f)
	}
	return o
}

// reading is a swatch as it was read.
type reading struct {
	dips int
	ks   float64
}

// advise is its number of dips for a wish in a vat of known strength. Levels are drawn about where the first swatch wants
// them, and paid for in the weight.
func (o *oracle) advise(perLitre float64, seen []reading, load float64, aim float64, r *rand.Rand) int {
	const about = 0.2 // standard deviation of the level's logarithm about there; a swatch has 0.12
	p := spec("blue of a standard dip")
	middle, spread := math.Log(p.Likely), math.Log(p.High/p.Low)/2.5631
	last := seen[len(seen)-1].dips
	most := math.Inf(-1)
	var weights []float64
	var numbers []int
	room := make([]float64, 0, 40)
	for _, d := range o.draws {
		d.perLitre = perLitre
		z := r.NormFloat64()
		d.level *= seen[0].ks / d.course(room, seen[0].dips, 5, 0, math.Inf(1))[seen[0].dips] * math.Exp(about*z)
		c := d.course(room, last, 5, 0, math.Inf(1))
		ln := z*z/2 - square((math.Log(d.level)-middle)/spread)/2
		for _, s := range seen {
			ln -= square(math.Log(s.ks/c[s.dips])/Noise) / 2
		}
		if ln < most-12 {
			continue
		}
		most = math.Max(most, ln)
		weights = append(weights, ln)
		c = d.course(room, 30, 5, load, aim)
		n := len(c) - 1
		if n > 1 && c[n] > aim && aim*aim < c[n]*c[n-1] {
			n--
		}
		numbers = append(numbers, n)
	}
	var held [33]float64
	for i, n := range numbers {
		held[n+1] += math.Exp(weights[i] - most)
	}
	at, best := 1, 0.0
	for n := 1; n <= 30; n++ {
		if in := held[n] + held[n+1] + held[n+2]; in > best {
			at, best = n, in
		}
	}
	return at
}

func square(x float64) float64 { return x * x }
