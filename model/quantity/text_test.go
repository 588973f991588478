package quantity

import (
	"encoding"
	"math"
	"testing"

	"pgregory.net/rapid"
)

// The text forms as they stand in files.
func TestText(t *testing.T) {
	for _, tt := range []struct {
		q    encoding.TextMarshaler
		want string
	}{
		{Grams(420), "420 g"}, {Litres(60), "60 L"}, {Centimetres(25.4), "25.4 cm"},
		{Celsius(35), "35 °C"}, {Celsius(-0.5), "-0.5 °C"}, {GramsPerLitre(1.5), "1.5 g/L"}, {GramsPerGram(2), "2 g/g"},
		{Wetting(20), "20 mL/g"}, {MillimolesPerLitre(10), "10 mmol/L"}, {Percent(45), "45 %"},
		{Watts(1000), "1000 W"}, {Minutes(30), "30 min"}, {Minutes(90), "1 h 30 min"},
		{Seconds(0.25), "0.25 s"}, {Days(7), "7 days"}, {Seconds(0), "0 s"}, {Hundredths(1250), "12.50"}, {Grams(0), "0 g"}, {US, "us"},
	} {
		got, err := tt.q.MarshalText()
		if err != nil || string(got) != tt.want {
			t.Errorf("%T: %q, %v; want %q", tt.q, got, err, tt.want)
		}
	}
	for _, q := range []encoding.TextMarshaler{Grams(-1), Mass(math.NaN()), Litres(math.Inf(1)), Celsius(-300), Percent(101), Minutes(-1)} {
		if got, err := q.MarshalText(); err == nil {
			t.Errorf("%T: %q, want an error", q, got)
		}
	}
}

// there and back: the same value to the last bit.
func roundTrip[T comparable, P interface {
	*T
	encoding.TextUnmarshaler
}](t *rapid.T, v T, m encoding.TextMarshaler) {
	text, err := m.MarshalText()
	if err != nil {
		t.Fatalf("%T %v: %v", v, v, err)
	}
	var back T
	if err := P(&back).UnmarshalText(text); err != nil {
		t.Fatalf("%T %q: %v", v, text, err)
	}
	if back != v {
		t.Fatalf("%T %v is written %q and read %v", v, v, text, back)
	}
}

func TestTextRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := math.Abs(rapid.Float64().Draw(t, "v"))
		roundTrip(t, Mass(v), Mass(v))
		roundTrip(t, Volume(v), Volume(v))
		roundTrip(t, Length(v), Length(v))
		roundTrip(t, Concentration(v), Concentration(v))
		roundTrip(t, Ratio(v), Ratio(v))
		roundTrip(t, Wetting(v), Wetting(v))
		roundTrip(t, Molarity(v), Molarity(v))
		roundTrip(t, Power(v), Power(v))
		s := rapid.Float64Range(0, 1).Draw(t, "share")
		roundTrip(t, Share(s), Share(s))
		c := rapid.Float64Range(absoluteZero, 2000).Draw(t, "temperature")
		roundTrip(t, Temperature(c), Temperature(c))
		n := rapid.Int64Range(0, math.MaxInt64/1000000).Draw(t, "span")
		roundTrip(t, Span(n), Span(n))
		roundTrip(t, Span(n-n%1e9), Span(n-n%1e9))
		k := rapid.Int64Range(-math.MaxInt64, math.MaxInt64).Draw(t, "money")
		roundTrip(t, Money(k), Money(k))
	})
}

// A failed read leaves the quantity as it was.
func TestFailedReadKeepsTheOldValue(t *testing.T) {
	m := Grams(5)
	if err := m.UnmarshalText([]byte("60 L")); err == nil || m != 5 {
		t.Errorf("%v, %v", m, err)
	}
}

func TestRange(t *testing.T) {
	r := Range[Volume]{1, 1.25, 1.5}
	if !r.Valid() || !r.Contains(1.5) || r.Contains(1.51) || (Range[float64]{2, 1, 3}).Valid() || (Range[float64]{0, math.NaN(), 1}).Valid() {
		t.Error("ranges")
	}
	if got := Map(r, func(v Volume) float64 { return -float64(v) }); got != (Range[float64]{-1.5, -1.25, -1}) {
		t.Errorf("%v", got)
	}
	if Exactly(Grams(5)) != (Range[Mass]{5, 5, 5}) {
		t.Error("exactly")
	}
}
