package colour

import (
	"fmt"
	"math"
	"strings"
	"sync"

	"example.org/vatside/model/wording"
)

// Observer is a viewing condition: an illuminant and a standard observer. Numbers of two conditions cannot be compared.
// The zero value is D65At2. Observers compare with ==.
type Observer struct {
	light light
	eye   eye
}

type light uint8

const (
	d65 light = iota
	d50
	incandescent
)

type eye uint8

const (
	twoDegrees eye = iota
	tenDegrees
)

// The viewing conditions that the package has tables for: daylight D65 and D50, and incandescent light A, each seen by
// the CIE 1931 (2°) and the CIE 1964 (10°) observer. Instruments for cloth are mostly set to D65/10, for print to D50/2;
// screens are D65/2.
var (
	D65At2  = Observer{d65, twoDegrees}
	D65At10 = Observer{d65, tenDegrees}
	D50At2  = Observer{d50, twoDegrees}
	D50At10 = Observer{d50, tenDegrees}
	AAt2    = Observer{incandescent, twoDegrees}
	AAt10   = Observer{incandescent, tenDegrees}
)

// Observers lists the known viewing conditions, D65At2 first.
func Observers() []Observer { return []Observer{D65At2, D65At10, D50At2, D50At10, AAt2, AAt10} }

// String is the short name, which ParseObserver reads: "D65/2", "A/10".
func (o Observer) String() string {
	return [...]string{"D65", "D50", "A"}[o.light] + [...]string{"/2", "/10"}[o.eye]
}

// ParseObserver reads a viewing condition, such as "D65/10" or "d50/2°". The error is an *Error that lists the known ones.
func ParseObserver(s string) (Observer, error) {
	name := strings.TrimSuffix(strings.TrimSpace(s), "°")
	var known []string
	for _, o := range Observers() {
		if strings.EqualFold(name, o.String()) {
			return o, nil
		}
		known = append(known, o.String())
	}
	return Observer{}, fault(fmt.Sprintf("no viewing condition is called %q: say one of %s", wording.Typed(s), strings.Join(known, ", ")))
}

// White is the perfect white of the condition: Y is 100. It is the sum that Spectrum.XYZ makes for a reflectance of 1, so
// that white is L 100, a 0, b 0 to the last digit; its chromaticity is within 0.00003 of the published one.
func (o Observer) White() XYZ { return o.table().white }

// The sums go over the wavelengths of a spectrum every 10 nm.
const (
	sumFrom  = tableFrom // nm
	sumStep  = 10        // nm
	sumCount = (len(cie) + 1) / 2
)

// table is what the sums of one viewing condition need.
type table struct {
	weight [sumCount]XYZ // of the reflectance at 380, 390 … 780 nm
	y      float64       // the sum of weight.Y
	white  XYZ
}

var tables = [3][2]func() *table{
	d65:          {tableOf(d65, twoDegrees), tableOf(d65, tenDegrees)},
	d50:          {tableOf(d50, twoDegrees), tableOf(d50, tenDegrees)},
	incandescent: {tableOf(incandescent, twoDegrees), tableOf(incandescent, tenDegrees)},
}

func (o Observer) table() *table { return tables[o.light][o.eye]() }

// tableOf is a table that is made when it is first asked for: power × matching function at 5 nm, drawn together to 10 nm as
// if the reflectance halfway between were the cubic through the two samples on either side (ASTM E308 makes its weights
// so; from memory). A straight line there would make every hollow of a spectrum shallower, by up to 0.05 in Lab.
func tableOf(l light, e eye) func() *table {
	return sync.OnceValue(func() *table {
		var t table
		for i, r := range cie {
			power := powerAt(l, i)
			w := XYZ{power * r.x2, power * r.y2, power * r.z2}
			if e == tenDegrees {
				w = XYZ{power * r.x10, power * r.y10, power * r.z10}
			}
			if i%2 == 0 {
				t.weight[i/2].add(w, 1)
				continue
			}
			first, shares := halfway(i / 2)
			for j, share := range shares {
				t.weight[first+j].add(w, share)
			}
		}
		var sum XYZ
		for _, w := range t.weight {
			sum.add(w, 1)
		}
		t.y = sum.Y
		t.white = sum.per(t.y)
		return &t
	})
}

// halfway is how much each of the samples from first on counts for the point halfway between sample i and the next:
// Lagrange's cubic, and his parabola at either end.
func halfway(i int) (first int, shares []float64) {
	switch i {
	case 0:
		return 0, []float64{3. / 8, 6. / 8, -1. / 8}
	case sumCount - 2:
		return i - 1, []float64{-1. / 8, 6. / 8, 3. / 8}
	default:
		return i - 1, []float64{-1. / 16, 9. / 16, 9. / 16, -1. / 16}
	}
}

// powerAt is the relative power of an illuminant at a row of the table, 100 at 560 nm.
func powerAt(l light, row int) float64 {
	switch l {
	case d50:
		return daylight50(row)
	case incandescent:
		return incandescentPower(tableFrom + tableStep*float64(row))
	default:
		return cie[row].d65
	}
}

// daylight50 is illuminant D50, from the components of daylight (CIE 15:2004): 5000 K on the scale of 1968 are
// 5000·1.4388/1.4380 K now, M1 and M2 are rounded to three decimals, and between the rows of 10 nm it is linear, all as the
// CIE prescribes. It is within 0.005 of the published table.
func daylight50(row int) float64 {
	const t = 5000 * 1.4388 / 1.4380
	const x = 0.244063 + 0.09911e3/t + 2.9678e6/t/t - 4.6070e9/t/t/t // 4000 to 7000 K
	const y = -3.000*x*x + 2.870*x - 0.275
	const m = 0.0241 + 0.2562*x - 0.7341*y
	m1 := math.Round((-1.3515-1.7703*x+5.9114*y)/m*1000) / 1000
	m2 := math.Round((0.0300-31.4424*x+30.0717*y)/m*1000) / 1000
	at := func(i int) float64 { return components[i][0] + m1*components[i][1] + m2*components[i][2] }
	return (at(row/2) + at((row+1)/2)) / 2
}

// incandescentPower is illuminant A at a wavelength in nm: Planck's law at 2848 K of the old scale, 100 at 560 nm
// (ISO 11664-2).
func incandescentPower(nm float64) float64 {
	planck := func(nm float64) float64 { return math.Expm1(1.435e7 / (2848 * nm)) }
	return 100 * math.Pow(560/nm, 5) * planck(560) / planck(nm)
}
