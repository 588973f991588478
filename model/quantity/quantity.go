// Package quantity holds the measures of the dye house as types, so that grams are never taken for litres.
// Each type has one base unit, named in its comment; only the constructors and accessors name other units.
//
// Three forms of a quantity, for three readers:
//   - what people type, read by ParseMass and its like in the dyer's own system of units;
//   - what files hold, MarshalText: metric, the shortest figures that read back as the same number;
//   - what people read, Format and Figure: rounded to what a scale, a jug or a thermometer can show.
//
// Powers of ten are exact (25.4 cm is the same number as 0.254 m); other conversions are rounded to fifteen
// figures. Compare computed quantities with a tolerance, parsed ones with ==.
package quantity

import "time"

// Mass is a mass in grams.
type Mass float64

// Volume is a volume in litres.
type Volume float64

// Length is a length in metres.
type Length float64

// Area is an area in square metres.
type Area float64

// Temperature is a temperature in degrees Celsius.
type Temperature float64

// TempDiff is a difference of two temperatures in kelvins.
type TempDiff float64

// Concentration is a mass dissolved in a volume of liquor, in grams per litre.
type Concentration float64

// Ratio is a mass per mass of another substance, in grams per gram.
type Ratio float64

// Wetting is a volume of water per mass of powder, in millilitres per gram.
type Wetting float64

// Molarity is an amount of substance in a volume of liquor, in millimoles per litre.
type Molarity float64

// Share is a part of a whole, 0 to 1; it is typed and printed as a percentage.
type Share float64

// Pressure is a pressure in pascals.
type Pressure float64

// Power is a power in watts.
type Power float64

// Energy is an energy in joules.
type Energy float64

// Span is a stretch of time. It is written "30 min" or "1 h 30 min", never as Go writes a duration.
type Span time.Duration

// Money is a sum in hundredths of the dyer's own currency, which the program never names.
type Money int64

// PH is a pH, a plain number in files as on the meter.
type PH float64

// Of is the mass that the concentration puts into a volume.
func (c Concentration) Of(v Volume) Mass { return Mass(float64(c) * float64(v)) }

// Of is the water that wets a mass of powder.
func (w Wetting) Of(m Mass) Volume { return Volume(float64(w) * float64(m) / 1000) }

// Of is the mass that goes with a mass of the other substance.
func (r Ratio) Of(m Mass) Mass { return Mass(float64(r) * float64(m)) }

// Of is the part of a mass.
func (s Share) Of(m Mass) Mass { return Mass(float64(s) * float64(m)) }

// Per is the concentration of a mass in a volume; of nothing in nothing it is 0.
func (m Mass) Per(v Volume) Concentration {
	if m == 0 {
		return 0
	}
	return Concentration(float64(m) / float64(v))
}

// Minus is the difference of two temperatures.
func (t Temperature) Minus(u Temperature) TempDiff { return TempDiff(t - u) }

// Plus is the temperature that lies a difference above t.
func (t Temperature) Plus(d TempDiff) Temperature { return Temperature(float64(t) + float64(d)) }
