package shade_test

// The study of the claims: simulated vats, never the ones that the package reckons with, drawn by another generator and dyed
// by other code, with a stated noise. study_test.go plays them, claims_test.go holds a small run, and tables_test.go prints
// the large one.

import (
	"math"
	"math/rand/v2"
	"sync"

	"example.org/vatside/model/shade"
)

// Form is how the simulated vats take up dye.
type Form int

// The forms. The first three are the model's own, drawn from its priors; four were used while its priors were chosen; the rest only
// to judge them.
const (
	Power     Form = iota // K/S by the number of dips to a power
	Filling               // 1 − e^(−n/m)
	Bent                  // straight to a bend, flatter after it
	Saturates             // K∞ (1 − e^(−n/m)), K∞ of the cloth, so that a strong vat fills it sooner
	Diffusing             // a fast surface part that flattens (n^0.75) and a slow one that diffuses in (√t), each dip alike
	Lower                 // to the power 0.87
	Higher                // to the power 1.27
	Langmuir              // K∞ n/(n + n½)
	Falling               // each dip gives less than the last by the same part: the vat tires within the day
	Low                   // to the power 0.8
	High                  // to the power 1.35
	TwoSites              // places that fill in a few dips, and others that fill slowly
)

// Contained are the forms of the model, Chosen those looked at while its priors were chosen, Judging those that were not.
var (
	Contained = []Form{Power, Filling, Bent}
	Chosen    = []Form{Saturates, Diffusing, Lower, Higher}
	Judging   = []Form{Langmuir, Falling, Low, High, TwoSites}
)

// String is the form in words.
func (f Form) String() string {
	return [...]string{"power", "filling", "two-stage", "saturating by the cloth", "surface and diffusion", "exponent 0.87", "exponent 1.27", "Langmuir", "falling level",
		"exponent 0.8", "exponent 1.35", "two sites"}[f]
}

// truth is one simulated vat, cotton at 35 °C.
type truth struct {
	form                     Form
	level, tau               float64
	exhaustion, perLitre, ph float64
	perPercent, most, part   float64
	pace, ceiling            float64
	first, second            float64 // of the form
}

// specs are the priors as the package states them, by name.
var specs = sync.OnceValue(func() map[string]shade.Prior {
	all := shade.Priors()
	for _, f := range shade.Forms() {
		all = append(all, f.First, f.Second)
	}
	m := map[string]shade.Prior{}
	for _, p := range all {
		m[p.Name] = p
	}
	return m
})

// spec is one of them.
func spec(name string) shade.Prior {
	p, ok := specs()[name]
	if !ok {
		panic("no prior is called " + name)
	}
	return p
}

// drawn is a draw of a stated prior.
func drawn(r *rand.Rand, name string) float64 {
	p := spec(name)
	return p.Likely * math.Exp(math.Log(p.High/p.Low)/2.5631*r.NormFloat64())
}

// newTruth draws a vat. Its pH is where the mono-ionic fraction hardly matters, and the same throughout.
func newTruth(r *rand.Rand, f Form) truth {
	t := truth{
		form:  f,
		level: drawn(r, "blue of a standard dip"), tau: drawn(r, "time constant of a dip"),
		exhaustion: drawn(r, "power of the indigo a litre"), perPercent: drawn(r, "K/S of 1 % on the fibre"),
		perLitre: math.Exp(math.Log(0.3) + r.Float64()*math.Log(2/0.3)), ph: 10.3,
		most: 25 * math.Exp(0.6*r.NormFloat64()), part: 0.3 + 0.4*r.Float64(), pace: math.Exp(-0.35 + 0.4*r.NormFloat64()),
		ceiling: 26 + 30*r.Float64(),
	}
	switch f {
	case Power:
		t.first = drawn(r, "build-up exponent")
	case Filling:
		t.first = drawn(r, "dips to fill")
	case Bent:
		t.first, t.second = drawn(r, "dips to the bend"), drawn(r, "slope beyond the bend")
	case Falling:
		t.first = 0.01 + 0.05*r.Float64()
	case Lower:
		t.first = 0.87
	case Higher:
		t.first = 1.27
	case Low:
		t.first = 0.8
	case High:
		t.first = 1.35
	case TwoSites:
		t.part, t.first, t.second = 0.2+0.4*r.Float64(), 1+2*r.Float64(), 15+45*r.Float64()
	}
	return t
}

// blue is the K/S after n dips of so many minutes at the vat's strength, with a load of goods in grams a litre that takes
// its dye out. No blue passes the ceiling, which the model has in another shape.
func (t truth) blue(n int, minutes, load float64) float64 {
	return t.course(make([]float64, 0, n+1), n, minutes, load, math.Inf(1))[n]
}

// course appends the K/S after 0, 1, 2 … up to n dips, or until one is above a limit.
func (t truth) course(out []float64, n int, minutes, load, limit float64) []float64 {
	held, ks, power := t.perLitre, 0.0, math.Pow(t.perLitre, t.exhaustion)
	out = append(out, 0)
	for i := 1; i <= n; i++ {
		gain := t.gain(i, minutes) * power
		if load > 0 && held > 0 {
			x := gain / t.perPercent / 100 * load / held
			gain *= (1 - math.Exp(-x)) / x
			held *= math.Exp(-x)
			power *= math.Exp(-x * t.exhaustion)
		}
		// Mild vats strip 0.05 % a minute: as the model has it for vats that are not strong.
		ks = ks*math.Exp(-0.0005*minutes) + gain
		x := ks / t.ceiling
		x = math.Tanh(x * math.Sqrt(x)) // to the power 1.5, and back
		seen := t.ceiling * math.Cbrt(x*x)
		if out = append(out, seen); seen > limit {
			break
		}
	}
	return out
}

// gain is the K/S that the i-th dip adds at 1 g/L.
func (t truth) gain(i int, minutes float64) float64 {
	n := float64(i)
	within := t.level * (1 - math.Exp(-minutes/t.tau)) / (1 - math.Exp(-5/t.tau))
	most := math.Max(t.most, 3*t.level) // the first dip is as bright as in the other forms, but never more than a third of the most
	switch t.form {
	case Saturates:
		m := -1 / math.Log(1-t.level/most)
		return within * most / t.level * (math.Exp(-(n-1)/m) - math.Exp(-n/m))
	case Diffusing:
		fast := (1 - math.Exp(-minutes/t.pace)) / (1 - math.Exp(-5/t.pace)) * (math.Pow(n, 0.75) - math.Pow(n-1, 0.75))
		return t.level * (t.part*fast + (1-t.part)*math.Sqrt(minutes/5))
	case Langmuir:
		half := most/t.level - 1
		return within * (1 + half) * (n/(n+half) - (n-1)/(n-1+half))
	case Falling:
		return within * math.Pow(1-t.first, n-1)
	case Filling:
		return within * math.Exp(-(n-1)/t.first)
	case Bent:
		if n == 1 {
			return within
		}
		before := math.Min(1, math.Max(0, t.first-(n-1)))
		return within * (before + (1-before)*t.second)
	case TwoSites:
		site := func(m float64) float64 { return math.Exp(-(n-1)/m) * (1 - math.Exp(-1/m)) }
		all := func(m float64) float64 { return 1 - math.Exp(-1/m) }
		return within * (t.part*site(t.first)/all(t.first) + (1-t.part)*site(t.second)/all(t.second))
	}
	return within * (math.Pow(n, t.first) - math.Pow(n-1, t.first))
}
