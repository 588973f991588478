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

// The measures, each with its base unit.
type (
	Mass          float64       // in grams
	Volume        float64       // in litres
	Length        float64       // in metres
	Area          float64       // in square metres
	Temperature   float64       // in degrees Celsius
	TempDiff      float64       // a difference of two temperatures, in kelvins
	Concentration float64       // a mass dissolved in a volume of liquor, in grams per litre
	Ratio         float64       // a mass per mass of another substance, in grams per gram
	Wetting       float64       // a volume of water per mass of powder, in millilitres per gram
	Molarity      float64       // an amount of substance in a volume of liquor, in millimoles per litre
	Share         float64       // a part of a whole, 0 to 1; it is typed and printed as a percentage
	Pressure      float64       // in pascals
	Power         float64       // in watts
	Energy        float64       // in joules
	Span          time.Duration // a stretch of time; it is written "30 min" or "1 h 30 min", never as Go writes a duration
	Money         int64         // a sum in hundredths of the dyer's own currency, which the program never names
	PH            float64       // a plain number in files as on the meter
)

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
