package liquor

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"example.org/vatside/model/quantity"
)

// The figures of the slow solver that was here before, to 1e-6, at 5, 38 and 80 °C.
func TestSolvesAsBefore(t *testing.T) {
	for _, c := range []struct {
		m    Makeup
		want [3]float64
	}{
		{Makeup{}, [3]float64{7.3670033, 6.7958454, 6.2991072}},
		{Makeup{SodaAsh: 6}, [3]float64{11.7690202, 11.0181997, 10.4269939}},
		{Makeup{BakingSoda: 10, SodaAsh: 0.5}, [3]float64{8.8607903, 8.5319480, 8.4051423}},
		{Makeup{SodaAsh: 6, Lye: 0.14, Spent: 6, Leuco: 3.4}, [3]float64{10.7586109, 10.3882746, 10.1033056}},
		{Makeup{Potash: 30, SpentThiourea: 12, Leuco: 3, Acid: 20}, [3]float64{10.6221348, 10.2702311, 10.0728968}},
		{Makeup{Lime: 5, Acid: 40, Leuco: 4}, [3]float64{13.1740276, 11.8893560, 10.7506050}},
		{Makeup{Lime: 3, SodaAsh: 1.5, Potash: 3.5}, [3]float64{13.5340530, 12.3885943, 11.3933763}},
		{Makeup{Lime: 10, Iron: 30, Leuco: 5}, [3]float64{13.1874284, 11.9098166, 10.7764612}},
		{Makeup{LimeWater: true, SodaAsh: 1}, [3]float64{13.2301793, 12.0768987, 11.0694093}},
		{Makeup{SodaAsh: 15, BakingSoda: 3, Potash: 3, Lye: 1, Lime: 4, Spent: 10, Bisulfite: 2, Leuco: 5, OnIndigo: 5, Acid: 20}, [3]float64{13.0967748, 11.9863433, 11.0332356}},
		{Makeup{Acid: 300}, [3]float64{0.6268221, 0.6287044, 0.6283676}},
		{Makeup{Lye: 50, Bisulfite: 200, Acid: -100}, [3]float64{14.5339093, 13.3821870, 12.3752745}},
	} {
		for i, at := range []float64{5, 38, 80} {
			if got := solved(t, c.m, at); !(math.Abs(got-c.want[i]) <= 1e-6) {
				t.Errorf("%+v at %g °C: pH %.7f, was %.7f", c.m, at, got, c.want[i])
			}
		}
	}
}

// halved is where f, which rises, is 0.
func halved(low, high float64, f func(float64) float64) float64 {
	for range 60 {
		if mid := low + (high-low)/2; f(mid) > 0 {
			high = mid
		} else {
			low = mid
		}
	}
	return low
}

// The steps of the solver lead where halving leads, from wherever they begin.
func TestSolvesAsHalvingDoes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := drawMakeup(t)
		at := constantsAt(quantity.Celsius(rapid.Float64Range(0, 100).Draw(t, "°C")))
		x, lnH := m.totals(at.density), 0.0
		halved(0, x.strongest(), func(strength float64) float64 {
			b := balance{x: &x, c: at.in(&x, strength), na: x.na, sulfate: x.sulfate}
			lnH = halved(searchLow, searchHigh, func(l float64) float64 { b.charge(l); return b.left })
			return strength - b.strength
		})
		begin := solution{pH: rapid.Float64Range(0, 16).Draw(t, "pH"), strength: rapid.Float64Range(0, 3).Draw(t, "strength")}
		for _, near := range []solution{usual, begin} {
			if got := x.solve(&at, near).pH; !(math.Abs(got+lnH/math.Ln10) <= 1e-6) {
				t.Fatalf("%+v from %+v: pH %.8f, halved %.8f", m, near, got, -lnH/math.Ln10)
			}
		}
	})
}
