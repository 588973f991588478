package liquor

import "math"

// settled is what of calcium and carbonate stays dissolved at one pH, in mol for a kilogram of water, and by how much it grows
// with ln aH.
type settled struct {
	ca, byCa   float64 // free Ca++
	co3, byCO3 float64 // free CO3--
}

// settle lets lime and chalk fall out until neither is over its solubility, or dissolve until there is none left. oh is
// the molality of OH-; caShare and co3Share are dissolved by free, and byCaShare and byCO3Share by how much they grow with ln aH.
//
// Four cases, each the continuation of the next where they meet: nothing on the floor; lime; chalk, where the same amount
// of both has left the liquor, so that caShare·Ca − co3Share·K/Ca = totals' difference (quadratic); chalk and lime, where
// lime alone holds Ca++. Chalk is taken to fall out at once and whole, as calcite; in a vat it is slow and may stay over
// its solubility for hours. Dissolved CaCO3 and CaHCO3+ are left out: beside chalk they are 6 µmol/L. Gypsum and
// calcium sulfite are left out.
func (x *totals) settle(c *inLiquor, oh, caShare, byCaShare, co3Share, byCO3Share float64) settled {
	s := settled{ca: x.ca / caShare, co3: x.carbonate / co3Share}
	s.byCa, s.byCO3 = -s.ca*byCaShare/caShare, -s.co3*byCO3Share/co3Share
	if x.ca == 0 {
		return s
	}
	most := math.Inf(1)
	if !x.clear {
		most = c.lime / (oh * oh)
	}
	if s.ca > most {
		s.ca, s.byCa = most, 2*most
	}
	if s.ca*s.co3 <= c.chalk {
		return s
	}
	d := x.ca - x.carbonate
	root := math.Sqrt(d*d + 4*caShare*co3Share*c.chalk)
	if d > 0 {
		s.ca = (d + root) / (2 * caShare)
	} else {
		s.ca = 2 * co3Share * c.chalk / (root - d) // the same root, without taking near equals apart
	}
	y := c.chalk / s.ca
	s.byCa = (y*byCO3Share - s.ca*byCaShare) / (caShare + co3Share*y/s.ca)
	if s.ca > most {
		s.ca, s.byCa = most, 2*most
	}
	if left := c.chalk / s.ca; left < s.co3 {
		s.co3, s.byCO3 = left, -left*s.byCa/s.ca
	}
	return s
}
