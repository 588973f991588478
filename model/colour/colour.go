// Package colour goes from measured reflectance to CIE XYZ, Lab and sRGB, and tells how far two colours are apart.
//
// Sources: CIE 018:2019 and ISO/CIE 11664 parts 1 to 6 (observers, illuminants, XYZ, Lab, CIEDE2000), IEC 61966-2-1
// (sRGB), G. Sharma, W. Wu & E. N. Dalal, Color Res. Appl. 30(1):21–30 (2005) (CIEDE2000 in its details). Against two
// other programs (testdata/reference/spectrum_to_lab.csv) it is within 0.02 in L, a and b. The standards were not at hand:
// formulas are from memory, and what they give is tested against published figures.
//
// A Lab does not carry its viewing condition: it is D65, 2° unless its maker says otherwise, and functions that need the
// condition take an Observer. Nothing here goes from one condition to another, which takes the whole spectrum.
// Measurement geometry, gloss and wet cloth are outside it: all numbers are for dry, matt cloth.
package colour

import "math"

// XYZ is a colour by its CIE tristimulus values, of some viewing condition. Y of the perfect white is 100.
type XYZ struct{ X, Y, Z float64 }

// Lab is a colour in CIE 1976 L*a*b*: L from 0 (black) to 100 (white); A from green (−) to red (+) and B from blue (−) to
// yellow (+), within ±128 for cloth; indigo lies about A 0, B −10 to −30. D65, 2° unless said.
type Lab struct{ L, A, B float64 }

// Chroma is the distance from grey, 0 or more.
func (l Lab) Chroma() float64 { return math.Hypot(l.A, l.B) }

// Hue is the hue angle in degrees, from 0 up to but not 360: 0 red, 90 yellow, 180 green, 270 blue. Grey has 0.
func (l Lab) Hue() float64 { return hue(l.A, l.B) }

// hue is the angle of (a, b) in degrees, from 0 up to but not 360.
func hue(a, b float64) float64 {
	if a == 0 && b == 0 {
		return 0
	}
	h := math.Atan2(b, a) * 180 / math.Pi
	if h < 0 {
		h += 360
	}
	if h >= 360 { // what a tiny negative angle rounds to
		h = 0
	}
	return h
}

// The bends of f, in the exact numbers of ISO/CIE 11664-4.
const (
	bend  = 24.0 / 116 // where f leaves the cube root
	slope = 841.0 / 108
	foot  = 16.0 / 116
)

// root is f of ISO/CIE 11664-4: the cube root, and a straight line for the darkest.
func root(t float64) float64 {
	if t > bend*bend*bend {
		return math.Cbrt(t)
	}
	return slope*t + foot
}

// cube is the inverse of root: CIE L* to Y/Yn (CIE 15, CIELAB).
func cube(f float64) float64 {
	if f > bend {
		return f * f * f
	}
	return (f - foot) / slope
}

// Lab is the colour against the white of the condition that it was measured in (ISO/CIE 11664-4).
// Any numbers are taken; those darker than black give an L below 0.
func (x XYZ) Lab(o Observer) Lab { return x.labUnder(o.White()) }

func (x XYZ) labUnder(white XYZ) Lab {
	fx, fy, fz := root(x.X/white.X), root(x.Y/white.Y), root(x.Z/white.Z)
	return Lab{116*fy - 16, 500 * (fx - fy), 200 * (fy - fz)}
}

// xyzUnder is the inverse of labUnder: the tristimulus values under the condition that the Lab is of.
func (l Lab) xyzUnder(white XYZ) XYZ {
	fy := (l.L + 16) / 116
	return XYZ{white.X * cube(fy+l.A/500), white.Y * cube(fy), white.Z * cube(fy-l.B/200)}
}

// add adds w times r.
func (x *XYZ) add(w XYZ, r float64) {
	x.X += w.X * r
	x.Y += w.Y * r
	x.Z += w.Z * r
}

// per sets a sum in proportion to a white of 100.
func (x XYZ) per(white float64) XYZ {
	return XYZ{100 * (x.X / white), 100 * (x.Y / white), 100 * (x.Z / white)}
}
