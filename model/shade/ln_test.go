package shade

import (
	"math"
	"math/rand/v2"
	"testing"
)

// The logarithm and the power of the weights are those of math but for its rounding, wherever they take their own way.
func TestLn(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	worst := 0.0
	for range 200_000 {
		x := math.Exp(40*r.Float64() - 20)
		want := math.Log(x)
		worst = max(worst, math.Abs(ln(x)-want)/max(1, math.Abs(want)))
	}
	for _, x := range []float64{1, math.Nextafter(1, 0), math.Nextafter(2, 0), 1e-6, 1e-300, math.MaxFloat64} {
		worst = max(worst, math.Abs(ln(x)-math.Log(x))/max(1, math.Abs(math.Log(x))))
	}
	if worst > 4e-16 {
		t.Errorf("ln is off by %g", worst)
	}
	worst = 0
	for range 200_000 {
		x := 1399.8*r.Float64() - 699.9
		worst = max(worst, math.Abs(exp(x)/math.Exp(x)-1))
	}
	if worst > 6e-16 || exp(0) != 1 || exp(math.Inf(-1)) != 0 || exp(800) != math.Inf(1) || !math.IsNaN(exp(math.NaN())) {
		t.Errorf("exp is off by %g", worst)
	}
}
