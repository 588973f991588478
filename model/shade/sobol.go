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

// sobol is one dimension of the sequence: for each point in which of len(out) even parts between 0 and 1 it lies, a power of two.
func sobol(dimension int, out []uint16) {
	var v [32]uint32
	if dimension == 0 {
		for i := range v {
			v[i] = 1 << (31 - i)
		}
	} else {
		d := directions[dimension-1]
		s := len(d.m)
		for i := range v {
			if i < s {
				v[i] = d.m[i] << (31 - i)
				continue
			}
			v[i] = v[i-s] ^ v[i-s]>>s
			for k := 1; k < s; k++ {
				v[i] ^= (d.a >> (s - 1 - k) & 1) * v[i-k]
			}
		}
	}
	whole := bits.LeadingZeros32(uint32(len(out) - 1)) // so many leading bits are of no part
	var x uint32
	for i := range out {
		out[i] = uint16(x >> whole)
		x ^= v[bits.TrailingZeros32(^uint32(i))] // Gray code, Antonov & Saleev 1979
	}
}

// score is the normal score of a part between 0 and 1: the z below which that part of a normal distribution lies.
func score(p float64) float64 { return math.Sqrt2 * math.Erfinv(2*p-1) }
