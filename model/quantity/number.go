package quantity

import (
	"math"
	"time"
)

// The constructors and accessors: the only place, with the tables of units, where a number meets a unit, the one that the name says.
// Beyond ±292 years a span stays at the limit; of no number it is 0.

func Grams(g float64) Mass                  { return Mass(g) }
func Ounces(oz float64) Mass                { return Mass(oz * ounce) } // avoirdupois
func Kilograms(kg float64) Mass             { return Mass(kg * 1000) }
func Litres(l float64) Volume               { return Volume(l) }
func Millilitres(ml float64) Volume         { return Volume(ml / 1000) }
func Metres(m float64) Length               { return Length(m) }
func Centimetres(cm float64) Length         { return Length(cm / 100) }
func SquareMetres(a float64) Area           { return Area(a) }
func Celsius(c float64) Temperature         { return Temperature(c) }
func GramsPerLitre(c float64) Concentration { return Concentration(c) }
func GramsPerGram(r float64) Ratio          { return Ratio(r) }
func MillimolesPerLitre(m float64) Molarity { return Molarity(m) }
func Pascals(p float64) Pressure            { return Pressure(p) }
func Watts(w float64) Power                 { return Power(w) }
func Joules(j float64) Energy               { return Energy(j) }
func Seconds(s float64) Span                { return spanOf(s, time.Second) }
func Minutes(m float64) Span                { return spanOf(m, time.Minute) }
func Hours(h float64) Span                  { return spanOf(h, time.Hour) }
func Days(d float64) Span                   { return spanOf(d, 24*time.Hour) } // of 24 hours
func Percent(p float64) Share               { return Share(p / 100) }
func Hundredths(n int64) Money              { return Money(n) } // of the currency

func (m Mass) Grams() float64                  { return float64(m) }
func (m Mass) Kilograms() float64              { return float64(m) / 1000 }
func (m Mass) Ounces() float64                 { return float64(m) / ounce } // avoirdupois
func (m Mass) Pounds() float64                 { return float64(m) / pound } // avoirdupois
func (v Volume) Litres() float64               { return float64(v) }
func (v Volume) Millilitres() float64          { return float64(v) * 1000 }
func (l Length) Metres() float64               { return float64(l) }
func (l Length) Centimetres() float64          { return float64(l) * 100 }
func (a Area) SquareMetres() float64           { return float64(a) }
func (t Temperature) Celsius() float64         { return float64(t) }
func (d TempDiff) Kelvins() float64            { return float64(d) }
func (c Concentration) GramsPerLitre() float64 { return float64(c) }
func (r Ratio) GramsPerGram() float64          { return float64(r) }
func (m Molarity) MillimolesPerLitre() float64 { return float64(m) }
func (p Pressure) Pascals() float64            { return float64(p) }
func (p Power) Watts() float64                 { return float64(p) }
func (e Energy) Joules() float64               { return float64(e) }
func (e Energy) KilowattHours() float64        { return float64(e) / 3.6e6 }
func (s Span) Duration() time.Duration         { return time.Duration(s) }
func (s Span) Seconds() float64                { return time.Duration(s).Seconds() }
func (s Span) Minutes() float64                { return time.Duration(s).Minutes() }
func (s Span) Hours() float64                  { return time.Duration(s).Hours() }
func (s Share) Fraction() float64              { return float64(s) }
func (s Share) Percent() float64               { return float64(s) * 100 }
func (m Money) Hundredths() int64              { return int64(m) } // of the currency

// spanOf is n units as a span, to the nearest nanosecond; beyond ±292 years it stays at the limit, and NaN is 0.
func spanOf(n float64, unit time.Duration) Span {
	ns := math.Round(n * float64(unit))
	switch {
	case math.IsNaN(ns):
		return 0
	case ns >= math.MaxInt64:
		return math.MaxInt64
	case ns <= -math.MaxInt64:
		return -math.MaxInt64
	}
	return Span(ns)
}
