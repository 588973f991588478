package shade_test

// The study of the claims: simulated vats, never the ones that the package reckons with, drawn by another generator and dyed
// by other code, with a stated noise. study_test.go plays them, claims_test.go holds a small run, and tables_test.go prints
// the large one for `go run ./testdata/bench/shade`.

import (
	"math"
	"math/rand/v2"

	"example.org/vatside/model/shade"
)

// Form is how the simulated vats take up dye.
type Form int

// The forms: the one that model/shade reckons with, and two that it does not know.
const (
	Same       Form = iota // K/S by the number of dips to a power, one time constant
	Saturating             // K∞ (1 − e^(−n/m)): the cloth fills up
	TwoStage               // a fast surface part that flattens (n^0.75) and a slow one that diffuses in (√t), each dip alike
)

// String is the form in words.
func (f Form) String() string {
	return [...]string{"same form", "saturating uptake", "two-stage diffusion"}[f]
}

// truth is one simulated vat, cotton at 35 °C.
type truth struct {
	form                     Form
	level, tau, power        float64
	exhaustion, perLitre, ph float64
	perPercent, most, part   float64
	pace                     float64
}

// spec is a prior as the package states it.
func spec(name string) shade.Prior {
	for _, p := range shade.Priors() {
		if p.Name == name {
			return p
		}
	}
	panic("no prior is called " + name)
}

// drawn is a draw of a stated prior.
func drawn(r *rand.Rand, name string) float64 {
	p := spec(name)
	return p.Likely * math.Exp(math.Log(p.High/p.Low)/2.5631*r.NormFloat64())
}

// newTruth draws a vat. Its pH is where the mono-ionic fraction hardly matters, and the same throughout.
func newTruth(r *rand.Rand, f Form) truth {
	return truth{
		form:  f,
		level: drawn(r, "blue of a standard dip"), tau: drawn(r, "time constant of a dip"), power: drawn(r, "build-up exponent"),
		exhaustion: drawn(r, "power of the indigo a litre"), perPercent: drawn(r, "K/S of 1 % on the fibre"),
		perLitre: math.Exp(math.Log(0.3) + r.Float64()*math.Log(2/0.3)), ph: 10.3,
		most: 25 * math.Exp(0.6*r.NormFloat64()), part: 0.3 + 0.4*r.Float64(), pace: math.Exp(-0.35 + 0.4*r.NormFloat64()),
	}
}

// blue is the K/S after n dips of so many minutes at the vat's strength, with a load of goods in grams a litre that takes
// its dye out.
func (t truth) blue(n int, minutes, load float64) float64 {
	held, ks := t.perLitre, 0.0
	for i := 1; i <= n; i++ {
		gain := t.gain(i, minutes, ks) * math.Pow(held, t.exhaustion)
		takes := gain / t.perPercent / 100 * load
		if load > 0 && held > 0 {
			x := takes / held
			gain *= (1 - math.Exp(-x)) / x
			held *= math.Exp(-x)
		}
		// Mild vats strip 0.05 % a minute: as the model has it for vats that are not strong.
		ks = ks*math.Exp(-0.0005*minutes) + gain
	}
	return ks
}

// gain is the K/S that the i-th dip adds at 1 g/L.
func (t truth) gain(i int, minutes, now float64) float64 {
	n := float64(i)
	switch t.form {
	case Saturating:
		// the first dip is as bright as in the other forms, but never more than a third of the most
		most := math.Max(t.most, 3*t.level)
		m := -1 / math.Log(1-t.level/most)
		within := (1 - math.Exp(-minutes/t.tau)) / (1 - math.Exp(-5/t.tau))
		return most * (math.Exp(-(n-1)/m) - math.Exp(-n/m)) * within
	case TwoStage:
		fast := (1 - math.Exp(-minutes/t.pace)) / (1 - math.Exp(-5/t.pace)) * (math.Pow(n, 0.75) - math.Pow(n-1, 0.75))
		slow := math.Sqrt(minutes / 5)
		return t.level * (t.part*fast + (1-t.part)*slow)
	}
	within := (1 - math.Exp(-minutes/t.tau)) / (1 - math.Exp(-5/t.tau))
	return t.level * (math.Pow(n, t.power) - math.Pow(n-1, t.power)) * within
}
