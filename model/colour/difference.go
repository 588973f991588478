package colour

import "math"

// Distance is the difference of two colours by CIELAB 1976, the straight line between them; both of the same viewing condition.
func Distance(a, b Lab) float64 { return math.Hypot(math.Hypot(a.L-b.L, a.A-b.A), a.B-b.B) }

// Difference is how far apart two colours look, by CIEDE2000 with kL = kC = kH = 1 (ISO/CIE 11664-6): 0 or more, and the
// same both ways. Both must be of the same viewing condition. It is meant for small differences, below about 5; large ones
// it puts in order, no more. Where two hues stand just opposite it jumps, by 1 % in the pairs of Sharma, Wu & Dalal (2005); it
// meets their 34 pairs within 0.00005. Numbers in brackets are their equations. Numbers that are not finite give
// NaN.
func Difference(a, b Lab) float64 {
	pow7 := func(c float64) float64 { c3 := c * c * c; return c3 * c3 * c }
	share := func(c float64) float64 { c7 := pow7(c); return math.Sqrt(c7 / (c7 + 6103515625)) } // 25⁷
	if math.IsInf(a.Chroma(), 0) || math.IsInf(b.Chroma(), 0) {
		return math.NaN()
	}

	g := 0.5 * (1 - share((a.Chroma()+b.Chroma())/2)) // [4]
	a1, a2 := (1+g)*a.A, (1+g)*b.A                    // [5]
	c1, c2 := math.Hypot(a1, a.B), math.Hypot(a2, b.B)
	h1, h2 := hue(a1, a.B), hue(a2, b.B) // [7]

	turn, mean := h2-h1, (h1+h2)/2 // [10], [14]
	switch {
	case c1*c2 == 0:
		turn, mean = 0, h1+h2
	case math.Abs(turn) > 180:
		turn -= math.Copysign(360, turn)
		if h1+h2 < 360 {
			mean += 180
		} else {
			mean -= 180
		}
	}
	dL, dC := Lightness(a, b), c2-c1
	dH := 2 * math.Sqrt(c1*c2) * math.Sin(radians(turn/2)) // [11]

	c := (c1 + c2) / 2
	t := 1 - 0.17*math.Cos(radians(mean-30)) + 0.24*math.Cos(radians(2*mean)) +
		0.32*math.Cos(radians(3*mean+6)) - 0.20*math.Cos(radians(4*mean-63)) // [15]
	off := (mean - 275) / 25
	rotation := -math.Sin(radians(2*30*math.Exp(-off*off))) * 2 * share(c) // [16], [17], [21]
	dC /= 1 + 0.045*c                                                      // [19]
	dH /= 1 + 0.015*c*t                                                    // [20]
	return math.Sqrt(math.Max(dL*dL+dC*dC+dH*dH+rotation*dC*dH, 0))        // [22]
}

// Lightness is the part of Difference that is of the lightness: a difference is never less.
func Lightness(a, b Lab) float64 {
	l := (a.L + b.L) / 2
	l50 := (l - 50) * (l - 50)
	return math.Abs(b.L-a.L) / (1 + 0.015*l50/math.Sqrt(20+l50)) // [18]
}

func radians(degrees float64) float64 { return degrees * math.Pi / 180 }

// Seen is a short word for a difference by CIEDE2000: "unseen" below 1, "on a close look" below 2, "clear side by side" up to
// 3, "plain" above. The bounds are trade convention, not a standard, for dry cloth in good light; "" for NaN and below 0.
func Seen(de float64) string {
	switch {
	case !(de >= 0):
		return ""
	case de < 1:
		return "unseen"
	case de < 2:
		return "on a close look"
	case de <= 3:
		return "clear side by side"
	default:
		return "plain"
	}
}
