package colour

import (
	"encoding/hex"
	"fmt"
	"math"
	"strings"

	"example.org/vatside/model/wording"
)

// RGB is a colour of a screen in sRGB (IEC 61966-2-1), gamma-encoded: 0 to 1 each. Colours that no sRGB screen can show
// lie outside 0 to 1, with the encoding mirrored below 0, until Clip.
type RGB struct{ R, G, B float64 }

// The matrices between linear sRGB and XYZ (white Y 1). They follow from the primaries of IEC 61966-2-1, (0.64, 0.33),
// (0.30, 0.60) and (0.15, 0.06), and its white, (0.3127, 0.3290), and are written as the exact fractions; the standard
// prints them to four decimals. A test derives them again.
var (
	toXYZ = [3][3]float64{
		{506752.0 / 1228815, 87881.0 / 245763, 12673.0 / 70218},
		{87098.0 / 409605, 175762.0 / 245763, 12673.0 / 175545},
		{7918.0 / 409605, 87881.0 / 737289, 1001167.0 / 1053270},
	}
	fromXYZ = [3][3]float64{
		{12831.0 / 3959, -329.0 / 214, -1974.0 / 3959},
		{-851781.0 / 878810, 1648619.0 / 878810, 36519.0 / 878810},
		{705.0 / 12673, -2585.0 / 12673, 705.0 / 667},
	}
	// screenWhite is the white of sRGB in XYZ. A Lab of D65, 2° is set against it, not against the white of the sums, from
	// which it is 0.01 away: so grey is grey to the last digit, R = G = B.
	screenWhite = XYZ{0.3127 / 0.3290, 1, 0.3583 / 0.3290}
)

func times(m [3][3]float64, a, b, c float64) (x, y, z float64) {
	return m[0][0]*a + m[0][1]*b + m[0][2]*c, m[1][0]*a + m[1][1]*b + m[1][2]*c, m[2][0]*a + m[2][1]*b + m[2][2]*c
}

// RGB is the colour on a screen; the Lab must be of D65, 2°. Saturated colours come out outside 0 to 1.
func (l Lab) RGB() RGB {
	x := l.xyzUnder(screenWhite)
	r, g, b := times(fromXYZ, x.X, x.Y, x.Z)
	return RGB{encode(r), encode(g), encode(b)}
}

// Lab is the colour in Lab of D65, 2°. It is the inverse of Lab.RGB, outside 0 to 1 too.
func (c RGB) Lab() Lab {
	x, y, z := times(toXYZ, decode(c.R), decode(c.G), decode(c.B))
	return XYZ{x, y, z}.labUnder(screenWhite)
}

// encode is the gamma of IEC 61966-2-1, mirrored below 0.
func encode(v float64) float64 {
	switch a := math.Abs(v); {
	case a <= 0.0031308:
		return 12.92 * v
	default:
		return math.Copysign(1.055*math.Pow(a, 1/2.4)-0.055, v)
	}
}

// decode is the inverse of encode. Between the two straight pieces the standard leaves a gap of 3e-8.
func decode(v float64) float64 {
	switch a := math.Abs(v); {
	case a <= 0.04045:
		return v / 12.92
	default:
		return math.Copysign(math.Pow((a+0.055)/1.055, 2.4), v)
	}
}

// Inside says whether an sRGB screen can show the colour: each part from 0 to 1, to within rounding (1e-9).
func (c RGB) Inside() bool {
	in := func(v float64) bool { return v >= -1e-9 && v <= 1+1e-9 }
	return in(c.R) && in(c.G) && in(c.B)
}

// Clip is the colour with each part brought to 0 to 1 by itself, which may turn the hue a little. NaN becomes 0.
func (c RGB) Clip() RGB {
	clip := func(v float64) float64 {
		if !(v > 0) {
			return 0
		}
		return math.Min(v, 1)
	}
	return RGB{clip(c.R), clip(c.G), clip(c.B)}
}

// Bytes is the clipped colour in whole numbers from 0 to 255, rounded to the nearest.
func (c RGB) Bytes() (r, g, b uint8) {
	c = c.Clip()
	whole := func(v float64) uint8 { return uint8(math.Round(v * 255)) }
	return whole(c.R), whole(c.G), whole(c.B)
}

// Hex is the clipped colour as "#1f3a5f".
func (c RGB) Hex() string {
	r, g, b := c.Bytes()
	return fmt.Sprintf("#%02x%02x%02x", r, g, b)
}

// ParseHex reads "#1f3a5f", "1F3A5F" or the short "#13f", which stands for "#1133ff". Otherwise the error is an *Error
// with one sentence.
func ParseHex(s string) (RGB, error) {
	digits := strings.TrimPrefix(strings.TrimSpace(s), "#")
	if len(digits) == 3 {
		digits = string([]byte{digits[0], digits[0], digits[1], digits[1], digits[2], digits[2]})
	}
	b, err := hex.DecodeString(digits)
	if err != nil || len(b) != 3 {
		return RGB{}, fault(fmt.Sprintf("%q is not a screen colour: write # and six of 0-9 and a-f, such as #1f3a5f", wording.Typed(s)))
	}
	return RGB{float64(b[0]) / 255, float64(b[1]) / 255, float64(b[2]) / 255}, nil
}
