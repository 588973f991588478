package quantity

import (
	"math"
	"time"
)

// The constructors and accessors: the only place, with the tables of units, where a number meets a unit.

// Grams makes a mass from grams.
func Grams(g float64) Mass { return Mass(g) }

// Ounces makes a mass from avoirdupois ounces.
func Ounces(oz float64) Mass { return Mass(oz * ounce) }

// Kilograms makes a mass from kilograms.
func Kilograms(kg float64) Mass { return Mass(kg * 1000) }

// Litres makes a volume from litres.
func Litres(l float64) Volume { return Volume(l) }

// Millilitres makes a volume from millilitres.
func Millilitres(ml float64) Volume { return Volume(ml / 1000) }

// Metres makes a length from metres.
func Metres(m float64) Length { return Length(m) }

// Centimetres makes a length from centimetres.
func Centimetres(cm float64) Length { return Length(cm / 100) }

// SquareMetres makes an area from square metres.
func SquareMetres(a float64) Area { return Area(a) }

// Celsius makes a temperature from degrees Celsius.
func Celsius(c float64) Temperature { return Temperature(c) }

// GramsPerLitre makes a concentration from grams per litre.
func GramsPerLitre(c float64) Concentration { return Concentration(c) }

// GramsPerGram makes a ratio of masses from grams per gram.
func GramsPerGram(r float64) Ratio { return Ratio(r) }

// MillimolesPerLitre makes a molar concentration from millimoles per litre.
func MillimolesPerLitre(m float64) Molarity { return Molarity(m) }

// Pascals makes a pressure from pascals.
func Pascals(p float64) Pressure { return Pressure(p) }

// Watts makes a power from watts.
func Watts(w float64) Power { return Power(w) }

// Joules makes an energy from joules.
func Joules(j float64) Energy { return Energy(j) }

// Seconds makes a span from seconds.
func Seconds(s float64) Span { return spanOf(s, time.Second) }

// Minutes makes a span from minutes.
func Minutes(m float64) Span { return spanOf(m, time.Minute) }

// Hours makes a span from hours.
func Hours(h float64) Span { return spanOf(h, time.Hour) }

// Days makes a span from days of 24 hours.
func Days(d float64) Span { return spanOf(d, 24*time.Hour) }

// Percent makes a share from a percentage.
func Percent(p float64) Share { return Share(p / 100) }

// Hundredths makes a sum from hundredths of the currency.
func Hundredths(n int64) Money { return Money(n) }

// Grams is the mass in grams.
func (m Mass) Grams() float64 { return float64(m) }

// Kilograms is the mass in kilograms.
func (m Mass) Kilograms() float64 { return float64(m) / 1000 }

// Ounces is the mass in avoirdupois ounces.
func (m Mass) Ounces() float64 { return float64(m) / ounce }

// Pounds is the mass in avoirdupois pounds.
func (m Mass) Pounds() float64 { return float64(m) / pound }

// Litres is the volume in litres.
func (v Volume) Litres() float64 { return float64(v) }

// Millilitres is the volume in millilitres.
func (v Volume) Millilitres() float64 { return float64(v) * 1000 }

// Metres is the length in metres.
func (l Length) Metres() float64 { return float64(l) }

// Centimetres is the length in centimetres.
func (l Length) Centimetres() float64 { return float64(l) * 100 }

// SquareMetres is the area in square metres.
func (a Area) SquareMetres() float64 { return float64(a) }

// Celsius is the temperature in degrees Celsius.
func (t Temperature) Celsius() float64 { return float64(t) }

// Kelvins is the difference in kelvins.
func (d TempDiff) Kelvins() float64 { return float64(d) }

// GramsPerLitre is the concentration in grams per litre.
func (c Concentration) GramsPerLitre() float64 { return float64(c) }

// GramsPerGram is the ratio in grams per gram.
func (r Ratio) GramsPerGram() float64 { return float64(r) }

// MillimolesPerLitre is the molar concentration in millimoles per litre.
func (m Molarity) MillimolesPerLitre() float64 { return float64(m) }

// Pascals is the pressure in pascals.
func (p Pressure) Pascals() float64 { return float64(p) }

// Watts is the power in watts.
func (p Power) Watts() float64 { return float64(p) }

// Joules is the energy in joules.
func (e Energy) Joules() float64 { return float64(e) }

// KilowattHours is the energy in kilowatt-hours.
func (e Energy) KilowattHours() float64 { return float64(e) / 3.6e6 }

// Duration is the span in Go's duration.
func (s Span) Duration() time.Duration { return time.Duration(s) }

// Seconds is the span in seconds.
func (s Span) Seconds() float64 { return time.Duration(s).Seconds() }

// Minutes is the span in minutes.
func (s Span) Minutes() float64 { return time.Duration(s).Minutes() }

// Hours is the span in hours.
func (s Span) Hours() float64 { return time.Duration(s).Hours() }

// Fraction is the share in a number from 0 to 1.
func (s Share) Fraction() float64 { return float64(s) }

// Percent is the share in a percentage.
func (s Share) Percent() float64 { return float64(s) * 100 }

// Hundredths is the sum in hundredths of the currency.
func (m Money) Hundredths() int64 { return int64(m) }

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
