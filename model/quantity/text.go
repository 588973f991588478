package quantity

import (
	"strconv"
	"strings"
)

// decimals writes v exactly as its shortest figures, moved by ten places: the inverse of number.value.
func decimals(v float64, ten int) string {
	if v == 0 {
		return "0"
	}
	s := strconv.FormatFloat(v, 'e', -1, 64)
	figures, exp, _ := strings.Cut(s, "e")
	e, _ := strconv.Atoi(exp)
	e += ten
	sign := ""
	if figures[0] == '-' {
		sign, figures = "-", figures[1:]
	}
	figures = strings.Replace(figures, ".", "", 1)
	switch {
	case e < -30 || e > 30: // nothing a dye house measures, but it must read back
		return sign + figures + "e" + strconv.Itoa(e-len(figures)+1)
	case e < 0:
		return sign + "0." + strings.Repeat("0", -e-1) + figures
	case e >= len(figures)-1:
		return sign + figures + strings.Repeat("0", e-len(figures)+1)
	}
	return sign + figures[:e+1] + "." + figures[e+1:]
}

// write is the text form of v base units, in a unit that is 10^-ten of the base unit.
func write(v float64, ten int, unit string, k kind) ([]byte, error) {
	if reason := limit(v, k); reason != "" {
		t := traitOf(k)
		return nil, &ParseError{Want: t.name, Code: OutOfRange, Reason: strconv.FormatFloat(v, 'g', 6, 64) + " as " + t.article + " " + reason}
	}
	return []byte(decimals(v, ten) + " " + unit), nil
}

// read sets *p from its text form; on error *p is unchanged.
func read[T ~float64](p *T, b []byte, k kind) error {
	v, err := parseAs[T](string(b), Metric, k)
	if err == nil {
		*p = v
	}
	return err
}

// The text forms below are metric and exact: UnmarshalText(MarshalText(x)) is x to the last bit. A value that cannot be
// (not a number, infinite, negative where that makes no sense) has no text form and gives a *ParseError.

// MarshalText gives grams, such as "1.5 g".
func (m Mass) MarshalText() ([]byte, error) { return write(float64(m), 0, "g", mass) }

// UnmarshalText reads a metric mass.
func (m *Mass) UnmarshalText(b []byte) error { return read(m, b, mass) }

// MarshalText gives litres, such as "60 L".
func (v Volume) MarshalText() ([]byte, error) { return write(float64(v), 0, "L", volume) }

// UnmarshalText reads a metric volume.
func (v *Volume) UnmarshalText(b []byte) error { return read(v, b, volume) }

// MarshalText gives centimetres, such as "25.4 cm".
func (l Length) MarshalText() ([]byte, error) { return write(float64(l), 2, "cm", length) }

// UnmarshalText reads a length.
func (l *Length) UnmarshalText(b []byte) error { return read(l, b, length) }

// MarshalText gives square metres, such as "0.25 m²".
func (a Area) MarshalText() ([]byte, error) { return write(float64(a), 0, "m²", area) }

// UnmarshalText reads an area.
func (a *Area) UnmarshalText(b []byte) error { return read(a, b, area) }

// MarshalText gives degrees Celsius, such as "35 °C".
func (t Temperature) MarshalText() ([]byte, error) { return write(float64(t), 0, "°C", temperature) }

// UnmarshalText reads a temperature.
func (t *Temperature) UnmarshalText(b []byte) error { return read(t, b, temperature) }

// MarshalText gives kelvins, such as "5 K".
func (d TempDiff) MarshalText() ([]byte, error) { return write(float64(d), 0, "K", tempDiff) }

// UnmarshalText reads a difference of temperatures.
func (d *TempDiff) UnmarshalText(b []byte) error { return read(d, b, tempDiff) }

// MarshalText gives grams per litre, such as "1.5 g/L".
func (c Concentration) MarshalText() ([]byte, error) {
	return write(float64(c), 0, "g/L", concentration)
}

// UnmarshalText reads a concentration.
func (c *Concentration) UnmarshalText(b []byte) error { return read(c, b, concentration) }

// MarshalText gives grams per gram, such as "2 g/g".
func (r Ratio) MarshalText() ([]byte, error) { return write(float64(r), 0, "g/g", ratio) }

// UnmarshalText reads a ratio of masses.
func (r *Ratio) UnmarshalText(b []byte) error { return read(r, b, ratio) }

// MarshalText gives millilitres per gram, such as "20 mL/g".
func (w Wetting) MarshalText() ([]byte, error) { return write(float64(w), 0, "mL/g", wetting) }

// UnmarshalText reads a volume per mass.
func (w *Wetting) UnmarshalText(b []byte) error { return read(w, b, wetting) }

// MarshalText gives millimoles per litre, such as "10 mmol/L".
func (m Molarity) MarshalText() ([]byte, error) { return write(float64(m), 0, "mmol/L", molarity) }

// UnmarshalText reads a molar concentration.
func (m *Molarity) UnmarshalText(b []byte) error { return read(m, b, molarity) }

// MarshalText gives a percentage, such as "45 %".
func (s Share) MarshalText() ([]byte, error) { return write(float64(s), 2, "%", share) }

// UnmarshalText reads a percentage.
func (s *Share) UnmarshalText(b []byte) error { return read(s, b, share) }

// MarshalText gives pascals, such as "101325 Pa".
func (p Pressure) MarshalText() ([]byte, error) { return write(float64(p), 0, "Pa", pressure) }

// UnmarshalText reads a pressure.
func (p *Pressure) UnmarshalText(b []byte) error { return read(p, b, pressure) }

// MarshalText gives watts, such as "1000 W".
func (p Power) MarshalText() ([]byte, error) { return write(float64(p), 0, "W", power) }

// UnmarshalText reads a power.
func (p *Power) UnmarshalText(b []byte) error { return read(p, b, power) }

// MarshalText gives joules, such as "2520000 J".
func (e Energy) MarshalText() ([]byte, error) { return write(float64(e), 0, "J", energy) }

// UnmarshalText reads an energy.
func (e *Energy) UnmarshalText(b []byte) error { return read(e, b, energy) }
