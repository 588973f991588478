package liquor

import (
	"errors"
	"math"
	"testing"

	"example.org/vatside/model/quantity"
	"pgregory.net/rapid"
)

// The widths that PHRange speaks of, and where they grow.
func TestPHRangeWidths(t *testing.T) {
	width := func(m Makeup, c quantity.Temperature) (below, above float64) {
		r, err := PHRange(m, c)
		if err != nil || !r.Valid() {
			t.Fatal(r, err)
		}
		return float64(r.Likely - r.Low), float64(r.High - r.Likely)
	}
	for _, c := range []struct {
		what                           string
		m                              Makeup
		c                              quantity.Temperature
		belowMin, belowMax, aMin, aMax float64
	}{
		{"fresh soda", Makeup{SodaAsh: 6}, 38, 0.08, 0.20, 0.03, 0.10},
		{"half spent, well buffered", Makeup{SodaAsh: 10, Spent: 20}, 38, 0.05, 0.15, 0.05, 0.15},
		{"nearly all alkali gone", Makeup{SodaAsh: 3, Spent: 13.5}, 38, 0.2, 1.5, 0.1, 1},
		{"thick", Makeup{SodaAsh: 60, Lye: 30}, 30, 0.15, 0.35, 0.15, 0.35},
		{"lime", Makeup{Lime: 5}, 30, 0.09, 0.15, 0.09, 0.15},
		{"pure water and the air", Makeup{}, 25, 1.5, 3, 0.5, 2.5},
	} {
		if b, a := width(c.m, c.c); b < c.belowMin || b > c.belowMax || a < c.aMin || a > c.aMax {
			t.Errorf("%s: −%.3f +%.3f", c.what, b, a)
		} else {
			t.Logf("%s: −%.3f +%.3f", c.what, b, a)
		}
	}
}

func anchored(t testing.TB, m Makeup, read quantity.PH, at quantity.Temperature, sd float64) Anchored {
	t.Helper()
	a, err := Reanchor(m, read, at, sd)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// A meter that says what was reckoned changes nothing but the width; a strip a little off changes next to nothing.
func TestReadingThatAgrees(t *testing.T) {
	m := Makeup{SodaAsh: 6, Spent: 3}
	r, err := PHRange(m, 38)
	if err != nil {
		t.Fatal(err)
	}
	a := anchored(t, m, r.Likely, 38, MeterError)
	if math.Abs(float64(a.Correction)) > 1e-3 || math.Abs(float64(a.PH-r.Likely)) > 1e-6 {
		t.Errorf("corrected by %v to pH %.3f", a.Correction, float64(a.PH))
	}
	now, err := a.PHRange(m, 38)
	if err != nil || !now.Valid() || float64(now.High-now.Low) >= float64(r.High-r.Low) {
		t.Errorf("%v after a reading, %v before; %v", now, r, err)
	}
	if s := anchored(t, m, r.Likely-0.2, 38, StripError); float64(r.Likely-s.PH) > 0.06 || s.PH >= r.Likely {
		t.Errorf("a strip 0.2 lower moves pH from %.3f to %.3f", float64(r.Likely), float64(s.PH))
	}
}

// Where a meter plainly contradicts, it is right, and the cause is acid or alkali that later pH keeps: the same vat at other
// °C and with more reducer spent.
func TestReadingThatContradicts(t *testing.T) {
	m := Makeup{SodaAsh: 6}
	truth := m
	truth.Acid = 9 // what the dyer does not know
	a := anchored(t, m, quantity.PH(solved(t, truth, 38)), 38, MeterError)
	if c := a.Correction.MillimolesPerLitre(); math.Abs(c-9) > 0.5 {
		t.Errorf("the acid found is %.2f mmol/L, 9 is there", c)
	}
	for _, spent := range []quantity.Molarity{0, 4, 10} {
		for _, c := range []quantity.Temperature{20, 38, 45} {
			later, after := m, truth
			later.Spent, after.Spent = spent, spent
			r, err := a.PHRange(later, c)
			want := quantity.PH(solved(t, after, c.Celsius()))
			if err != nil || !r.Contains(want) || math.Abs(float64(r.Likely-want)) > 0.05 {
				t.Errorf("%v spent, %v: %v, true %.3f, %v", spent, c, r, float64(want), err)
			}
		}
	}
	// The other way: alkali that the recipe does not know.
	if b := anchored(t, Makeup{SodaAsh: 6, Spent: 8}, 11, 38, MeterError); b.Correction >= 0 || math.Abs(float64(b.PH-11)) > 0.05 {
		t.Errorf("corrected by %v to pH %.2f", b.Correction, float64(b.PH))
	}
}

// A reading that lime cannot explain is met as far as the correction goes, and still gives a range.
func TestReadingOfLime(t *testing.T) {
	m := Makeup{Lime: 5, Acid: 40}
	a := anchored(t, m, 10.4, 32, StripError)
	if a.PH > 11 || a.Correction < 50 {
		t.Errorf("pH %.2f with %v", float64(a.PH), a.Correction)
	}
	more := m
	more.Lime += 1.6
	if r, err := a.PHRange(more, 32); err != nil || !r.Valid() || r.Likely <= a.PH {
		t.Errorf("with more lime %v, %v", r, err)
	}
}

func TestReanchorRefuses(t *testing.T) {
	for _, c := range []struct {
		read quantity.PH
		sd   float64
		want string
	}{
		{15, 0.1, "a pH that is read lies between 0 and 14, not at 15"},
		{quantity.PH(math.NaN()), 0.1, "a pH that is read lies between 0 and 14, not at NaN"},
		{10, 0, "the error of a reading is above 0 up to 2, not 0"},
		{10, math.Inf(1), "the error of a reading is above 0 up to 2, not +Inf"},
	} {
		_, err := Reanchor(Makeup{SodaAsh: 6}, c.read, 30, c.sd)
		var pe *PHError
		if !errors.As(err, &pe) || err.Error() != c.want {
			t.Errorf("got %v\nwant %s", err, c.want)
		}
	}
	if _, err := (Anchored{}).PHRange(Makeup{Lye: -1}, 30); err == nil {
		t.Error("lye below zero is taken")
	}
}

// Whatever is read: the compromise lies between reckoned and read, a better instrument draws it nearer to what it read,
// and later ranges are valid.
func TestCompromise(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := drawMakeup(t, "soda ash", "baking soda", "lye", "spent", "leuco", "on indigo")
		m.SodaAsh++
		at := quantity.Celsius(rapid.Float64Range(10, 60).Draw(t, "°C"))
		read := quantity.PH(rapid.Float64Range(6, 13).Draw(t, "read"))
		sd := rapid.Float64Range(0.02, 1).Draw(t, "sd")
		was := m.solve(at).pH
		a, err := Reanchor(m, read, at, sd)
		if err != nil {
			t.Fatal(err)
		}
		low, high := math.Min(was, float64(read)), math.Max(was, float64(read))
		if p := float64(a.PH); p < low-1e-4 || p > high+1e-4 {
			t.Fatalf("pH %.4f outside %.4f to %.4f", p, low, high)
		}
		if !(a.Error > 0 && a.Error <= sd) {
			t.Fatalf("the error is %g, of the reading %g", a.Error, sd)
		}
		better, err := Reanchor(m, read, at, sd/2)
		if err != nil || math.Abs(float64(better.PH-read)) > math.Abs(float64(a.PH-read))+1e-4 {
			t.Fatalf("sd %g: %.4f, half of it: %.4f, read %.4f, %v", sd, float64(a.PH), float64(better.PH), float64(read), err)
		}
		later := m
		later.Spent += quantity.Molarity(rapid.Float64Range(0, 50).Draw(t, "spent later"))
		r, err := a.PHRange(later, at)
		if err != nil || !r.Valid() {
			t.Fatal(r, err)
		}
	})
}
