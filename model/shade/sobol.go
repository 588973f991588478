package shade

import (
	"math"
	"math/bits"
)

// directions are the primitive polynomials and first direction numbers of Sobol's sequence from its second dimension on
// (S. Joe & F. Y. Kuo, SIAM J. Sci. Comput. 30(5):2635-2654, 2008, table new-joe-kuo-6).
var directions = []struct {
	a uint32
	m []uint32
}{
	{0, []uint32{1}},
	{1, []uint32{1, 3}},
	{1, []uint32{1, 3, 1}},
	{2, []uint32{1, 1, 1}},
	{1, []uint32{1, 1, 3, 3}},
	{4, []uint32{1, 3, 5, 13}},
	{2, []uint32{1, 1, 5, 5, 17}},
	{4, []uint32{1, 1, 5, 5, 5}},
	{7, []uint32{1, 1, 7, 11, 19}},
	{11, []uint32{1, 1, 5, 1, 1}},
	{13, []uint32{1, 1, 1, 3, 11}},
	{14, []uint32{1, 3, 5, 5, 31}},
	{1, []uint32{1, 3, 3, 9, 7, 49}},
	{13, []uint32{1, 1, 1, 15, 21, 21}},
	{16, []uint32{1, 3, 1, 13, 27, 49}},
	{19, []uint32{1, 1, 1, 15, 7, 5}},
	{22, []uint32{1, 3, 1, 15, 13, 25}},
}

// sobol is the sequence, point after point.
type sobol struct {
	v  [dimensions][32]uint32 // direction numbers
	x  [dimensions]uint32     // the point: of 2³² parts between 0 and 1 the one in which it lies, by dimension
	at uint32
}

func newSobol() *sobol {
	s := &sobol{}
	for d := range s.v {
		v := &s.v[d]
		if d == 0 {
			for i := range v {
				v[i] = 1 << (31 - i)
			}
			continue
		}
		of := directions[d-1]
		n := len(of.m)
		for i := range v {
			if i < n {
				v[i] = of.m[i] << (31 - i)
				continue
			}
			v[i] = v[i-n] ^ v[i-n]>>n
			for k := 1; k < n; k++ {
				v[i] ^= (of.a >> (n - 1 - k) & 1) * v[i-k]
			}
		}
	}
	return s
}

// place is in which of howMany even parts the point lies in a dimension: of so many points each has one.
func (s *sobol) place(d int) int { return int(s.x[d] >> (32 - bits.Len(howMany-1))) }

// next goes to the next point, by the Gray code (Antonov & Saleev 1979).
func (s *sobol) next() {
	k := bits.TrailingZeros32(^s.at)
	for d := range s.x {
		s.x[d] ^= s.v[d][k]
	}
	s.at++
}

// score is the normal score of a part between 0 and 1: the z below which that part of a normal distribution lies.
func score(p float64) float64 { return math.Sqrt2 * math.Erfinv(2*p-1) }
