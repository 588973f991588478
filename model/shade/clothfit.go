package shade

import (
	"math"

	"example.org/vatside/model/colour"
)

const (
	// mostColours is how many colours tell of a cloth, the newest.
	mostColours = 12
	// clothSteps is how often the line is moved at most, settled the part of what is open by which a last step moves it.
	clothSteps, settled = 5, 0.02
	// strange is how far off (in its own error) a colour begins to count for less.
	strange = 5.0
	// unevenError is how far two places of one cloth differ besides the meter, CIEDE2000. M
	unevenError = 0.7
)

// clothOf is the line of a ground that the colours of swatches on it want: their likeliest, by least squares against what is
// believed before. Each colour tells by what it lies off the line, not by where along it: that is its depth. Wet cloth is left out.
func clothOf(g Ground, swatches []Swatch) Cloth {
	c := Cloth{Ground: g}
	var seen []Swatch
	for _, s := range swatches {
		if s.Piece.Ground == g && (s.How == ByMeter || s.How == ByPhoto) && !s.Wet && len(s.Dips) > 0 && len(seen) < mostColours {
			seen = append(seen, s)
		}
	}
	if len(seen) == 0 {
		return c
	}
	const n = len(clothSpreads)
	for range clothSteps {
		var m [n][n]float64
		var v [n]float64
		figures := c.figures()
		t := trackOf(c.turned(false))
		for i, sd := range clothSpreads {
			m[i][i] = 1 / square(sd)
			v[i] = -*figures[i] / square(sd)
		}
		for _, s := range seen {
			depth, _ := t.nearest(s.Lab)
			here := t.line(depth)
			_, along := apart(t.line(depth*0.98), t.line(depth*1.02+0.001), here)
			along = scaled(along, 1/math.Sqrt(math.Max(inner(along, along), 1e-12)))
			e, off := apart(here, s.Lab, here)
			off = across(off, along)
			error2 := square(s.labError()) + square(unevenError)
			weight := 1 / (error2 * (1 + inner(off, off)/(error2*square(strange))))
			if e > square(strange*strange) { // no blue at all
				weight = 0
			}
			var by [n][3]float64
			for i, sd := range clothSpreads {
				moved := c
				*moved.figures()[i] += sd / 16
				_, d := apart(here, moved.onLine(false, depth), here)
				by[i] = scaled(across(d, along), 16/sd)
			}
			for i := range n {
				v[i] += weight * inner(by[i], off)
				for k := range n {
					m[i][k] += weight * inner(by[i], by[k])
				}
			}
		}
		rows := make([][]float64, n)
		for i := range rows {
			rows[i] = m[i][:]
		}
		step := solve(cholesky(rows), v[:])
		far := 0.0
		for i, f := range figures {
			*f += math.Max(-clothSpreads[i], math.Min(clothSpreads[i], step[i]))
			far = math.Max(far, math.Abs(step[i])/clothSpreads[i])
		}
		c.Flat = math.Max(-surface, c.Flat)
		if far < settled {
			break
		}
	}
	return c
}

// apart is the way from one colour to another as an eye measures it about a third: a and b shrink with chroma, as in CIE94.
func apart(a, b, about colour.Lab) (square float64, way [3]float64) {
	k := 1 / (1 + 0.03*about.Chroma())
	way = [3]float64{b.L - a.L, k * (b.A - a.A), k * (b.B - a.B)}
	return inner(way, way), way
}

func inner(a, b [3]float64) float64 { return a[0]*b[0] + a[1]*b[1] + a[2]*b[2] }

func scaled(a [3]float64, by float64) [3]float64 { return [3]float64{a[0] * by, a[1] * by, a[2] * by} }

// across is a way without its part along a direction of length 1.
func across(a, along [3]float64) [3]float64 {
	k := inner(a, along)
	return [3]float64{a[0] - k*along[0], a[1] - k*along[1], a[2] - k*along[2]}
}

// solve solves the equations of a factor's matrix.
func solve(f factor, x []float64) []float64 {
	f.forward(x)
	n := len(x)
	for i := n - 1; i >= 0; i-- {
		for k := i + 1; k < n; k++ {
			x[i] -= f[k*(k+1)/2+i] * x[k]
		}
		x[i] *= f[i*(i+1)/2+i]
	}
	return x
}
