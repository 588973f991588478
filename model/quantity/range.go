package quantity

import "cmp"

// Range is a quantity as it is known: the least and the most it may well be, and the likeliest.
// The zero Range is the known quantity 0. A Range with Low above High, or Likely outside them, is not Valid.
type Range[T cmp.Ordered] struct {
	Low, Likely, High T
}

// Exactly is the range of a known quantity.
func Exactly[T cmp.Ordered](v T) Range[T] { return Range[T]{v, v, v} }

// Valid tells whether Low ≤ Likely ≤ High; with NaN it is false.
func (r Range[T]) Valid() bool { return r.Low <= r.Likely && r.Likely <= r.High }

// Contains tells whether v lies within the range, its ends included.
func (r Range[T]) Contains(v T) bool { return r.Low <= v && v <= r.High }

// Map turns each of the three by f. If f falls where its argument rises, Low and High change places, so that a valid
// range stays valid for every monotone f.
func Map[T, U cmp.Ordered](r Range[T], f func(T) U) Range[U] {
	low, high := f(r.Low), f(r.High)
	if low > high {
		low, high = high, low
	}
	return Range[U]{low, f(r.Likely), high}
}
