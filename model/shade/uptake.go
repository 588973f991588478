package shade

import (
	"math"
	"slices"

	"example.org/vatside/model/fibre"
	"example.org/vatside/model/liquor"
	"example.org/vatside/model/quantity"
)

// Dip is one dip that a piece or swatch has had.
type Dip struct {
	For       quantity.Span        // under the liquor
	Confirmed bool                 // a hand confirmed the time; else it counts with a wide error
	Temp      quantity.Temperature // 0: not known, taken as the best
	PH        quantity.PH          // 0: not known, taken as the best
	// PerLitre is the reduced indigo of the liquor then; 0: not known, taken as 1 g/L and counted with a wide error.
	PerLitre quantity.Concentration
	Strong   bool // the strip stayed yellow over 3 min: it strips
}

// Piece is what is dyed.
type Piece struct {
	Fibre      fibre.Fibre // Unknown counts as cotton
	Mercerised bool        // of cotton
	Ground     Ground
	Dry        quantity.Mass // what it takes out of the vat goes by this; 0: nothing
	// Tag tells a piece among the swatches: looks at the piece itself carry its tag, and what it is darker or paler than
	// others of its vat then stays with it. "": a piece that was not looked at yet.
	Tag string
}

// Liquor is the contents of the vat at the instant that a forecast is for.
type Liquor struct {
	Fill   quantity.Volume
	Indigo quantity.Mass // reduced, left, likely. With Fill 0 both count as not known: 1 g/L that nothing exhausts
	PH     quantity.PH   // 0: not known, taken as the best
	Temp   quantity.Temperature
	Strong bool // strip stays yellow over 3 min
}

// Of is the contents of a vat by the state of its liquor.
func Of(s liquor.State) Liquor {
	return Liquor{Fill: s.Fill, Indigo: s.Reduced().Likely, PH: s.Acidity().Likely, Temp: s.Warmth(), Strong: s.Strip != nil && *s.Strip > liquor.OverStrip}
}

// nothing is a vat without indigo, g/L: no more than logarithms need.
const nothing = 1e-9

// dip is one dip of this vat as it stands.
func (v Liquor) dip(long quantity.Span) Dip {
	return Dip{For: long, Confirmed: true, Temp: v.Temp, PH: v.PH, PerLitre: v.perLitre(), Strong: v.Strong}
}

func (v Liquor) perLitre() quantity.Concentration {
	if !(v.Fill > 0) {
		return 1
	}
	return quantity.Concentration(math.Max(nothing, float64(v.Indigo.Per(v.Fill))))
}

// possible is one possible vat: a draw of the priors.
type possible struct {
	level                          float64 // logarithm of levelPrior's
	tau                            float64 // min
	strip                          float64 // a minute
	form                           int     // its place among Forms
	first, second                  float64 // of the form
	gains                          *gains
	ceiling, overCeiling           float64 // K/S of the dye, and the inverse of its fourth power
	cellulose, protein, mercerised float64 // logarithms
	hot, mono, width               float64 // logarithm, at most 0; power; 1/(2 width²)
	exhaustion, perPercent         float64
	class                          int     // of scatter
	zLevel, zPiece                 float64 // normal scores of the level, and of what a new piece is off
}

// act is a dip of a piece, as much of it as all possible vats share.
type act struct {
	minutes, slower, lnPerLitre float64
	strong                      float64 // part of stripPrior
	fixed                       float64 // logarithm of the yield
	// what multiplies a possible vat's own: see possible.yield
	cellulose, protein, mercerised, hot, mono, width float64
}

// MostDips is the most dips of a piece that are reckoned, and the most rungs of a ladder.
const MostDips = 60

// actOf prepares a dip. The uptake of a dip is
//
//	level × fibre × pH × °C × (g/L)^exhaustion × (1 − e^(−t/τ)) / (1 − e^(−5/τ))
//
// for cellulose with the mono-ionic fraction to a power as the pH, for silk and wool a bell about 8.5.
func actOf(p Piece, d Dip) act {
	yield, slower := fibreYield(p.Fibre)
	a := act{minutes: math.Max(0, d.For.Minutes()), slower: slower, fixed: math.Log(yield), strong: mildStrip}
	if d.Strong {
		a.strong = 1
	}
	if d.PerLitre > 0 {
		a.lnPerLitre = math.Log(math.Min(d.PerLitre.GramsPerLitre(), 1e3))
	}
	t, ph := d.Temp.Celsius(), d.PH
	if !(t > -273) || t > 150 {
		t = 0
	}
	if p.Fibre.Class() == fibre.Protein {
		a.protein = 1
		if ph > 0 {
			a.width = -math.Pow(float64(ph)-proteinBest, 2)
		}
		switch {
		case t == 0:
		case p.Fibre == fibre.Silk:
			a.fixed += math.Min(math.Log(silkFall)*(t-silkBest)/10, math.Log(silkMost))
		default:
			a.hot = math.Max(0, t-hotWool) / 10
			a.fixed -= woolLoss * math.Max(0, coolWool-t) / 10
		}
		return a
	}
	if p.Fibre != fibre.Cotton && p.Fibre != fibre.Unknown {
		a.cellulose = 1
	} else if p.Mercerised {
		a.mercerised = 1
	}
	if ph > 0 {
		a.mono = math.Log(math.Max(1e-6, liquor.LeucoAt(ph).Mono.Fraction()) / mostMono)
	}
	if t != 0 {
		a.hot = math.Max(0, t-warm) / 10
		a.fixed -= coldLoss * math.Max(0, cold-t) / 10
	}
	return a
}

// mostMono is the greatest mono-ionic fraction, at pH 10.3.
const mostMono = 0.991

// yield is the K/S of the first such dip at a level and 1 g/L.
func (v *possible) yield(a *act, level float64) float64 {
	ln := level + a.fixed + a.cellulose*v.cellulose + a.protein*v.protein + a.mercerised*v.mercerised +
		a.hot*v.hot + a.mono*v.mono + a.width*v.width
	return exp(ln) * v.taken(a.minutes, a.slower)
}

// taken is the uptake in a time against the standard dip.
func (v *possible) taken(minutes, slower float64) float64 {
	if minutes == standard {
		return 1
	}
	tau := v.tau * slower
	if minutes == 0 {
		return 0
	}
	return math.Expm1(-minutes/tau) / math.Expm1(-standard/tau)
}

// stripped is the part of the earlier layers that a dip takes off.
func (v *possible) stripped(a *act) float64 { return -math.Expm1(-v.strip * a.strong * a.minutes) }

// kinds are the different dips of pieces and swatches, each once.
type kinds []act

// of is the place of a kind, which is added if it is new.
func (k *kinds) of(a act) int {
	if i := slices.Index(*k, a); i >= 0 {
		return i
	}
	*k = append(*k, a)
	return len(*k) - 1
}

// run is a number of like dips, one after the other.
type run struct{ kind, dips int }

// runsOf groups the dips of a piece, the first 60.
func (k *kinds) runsOf(p Piece, dips []Dip) []run {
	var runs []run
	for _, d := range dips[:min(len(dips), MostDips)] {
		kind := k.of(actOf(p, d))
		if n := len(runs); n > 0 && runs[n-1].kind == kind {
			runs[n-1].dips++
			continue
		}
		runs = append(runs, run{kind, 1})
	}
	return runs
}

// gives is what one kind of dip does in one possible vat: the K/S of a first such dip, and what it strips.
type gives struct{ once, strip float64 }

// gives fills in all kinds for a possible vat at a level.
func (k kinds) gives(v *possible, level float64, out []gives) {
	for i := range k {
		a := &k[i]
		out[i] = gives{v.yield(a, level+v.exhaustion*a.lnPerLitre), v.stripped(a)}
	}
}

// after is the dye that runs give, in liquors of which the strength was known each time.
func (v *possible) after(runs []run, g []gives) float64 {
	var c course
	c.power = 1
	for _, r := range runs {
		for range r.dips {
			c.dip(v, g[r.kind].once, g[r.kind].strip, 0)
		}
	}
	return c.ks
}

// course is a piece on its way: its dye, as the K/S that it would have without a ceiling, and the liquor about it.
type course struct {
	ks    float64
	dips  int
	held  float64 // the liquor's g/L
	power float64 // (g/L)^exhaustion
}

// few is the part taken out by one dip below which powers are taken as their first terms (good to 1e-5 of it).
const few = 0.05

// dip adds one dip: once is the K/S of a first dip at 1 g/L, load the grams of goods a litre. What was there is stripped
// a little; the n-th dip adds by its form; what is taken up is gone from the liquor, so within the dip
// the rate falls with it, to (1 − e^(−x))/x for x the part that would go at the first rate.
func (c *course) dip(v *possible, once, strip, load float64) {
	n := min(c.dips+1, MostDips)
	gain := once * c.power * v.gain(n)
	lost := c.ks * strip
	c.dips++
	if load == 0 {
		c.ks += gain - lost
		return
	}
	perPart := load / (100 * v.perPercent * c.held)
	x := gain * perPart
	gone := x * (1 - x/2 + x*x/6)
	if x > few {
		gone = -math.Expm1(-x)
	}
	if x > 0 {
		gain *= gone / x
	}
	c.ks += gain - lost
	d := gone - lost*perPart // what is stripped comes back
	c.held = max(c.held*(1-d), nothing)
	if math.Abs(d) > few {
		c.power = math.Exp(v.exhaustion * math.Log(c.held))
		return
	}
	e := v.exhaustion
	c.power *= 1 - e*d*(1+(1-e)/2*d*(1+(2-e)/3*d))
}
