package quantity

import (
	"strconv"
	"strings"

	"example.org/vatside/model/wording"
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
		t := traits[k]
		return nil, &ParseError{Want: t.name, Code: OutOfRange, Reason: strconv.FormatFloat(v, 'g', 6, 64) + " as " + t.article + " " + reason}
	}
	return []byte(decimals(v, ten) + " " + unit), nil
}

// metric is a parser of what is typed in Metric.
func metric[T any](parse func(string, System) (T, error)) func(string) (T, error) {
	return func(s string) (T, error) { return parse(s, Metric) }
}

// read sets *p from its text form; on error *p is unchanged.
func read[T ~float64](p *T, b []byte, k kind) error {
	return wording.Read(p, b, func(s string) (T, error) { return parseAs[T](s, Metric, k) })
}

// The text forms below are metric and exact: UnmarshalText(MarshalText(x)) is x to the last bit. A value that cannot be
// (not a number, infinite, negative where that makes no sense) has no text form and gives a *ParseError.
// Each type is written in the unit of its MarshalText; UnmarshalText reads what the parser of its kind reads in Metric.

func (m Mass) MarshalText() ([]byte, error)  { return write(float64(m), 0, "g", mass) }
func (m *Mass) UnmarshalText(b []byte) error { return read(m, b, mass) }

func (v Volume) MarshalText() ([]byte, error)  { return write(float64(v), 0, "L", volume) }
func (v *Volume) UnmarshalText(b []byte) error { return read(v, b, volume) }

func (l Length) MarshalText() ([]byte, error)  { return write(float64(l), 2, "cm", length) }
func (l *Length) UnmarshalText(b []byte) error { return read(l, b, length) }

func (t Temperature) MarshalText() ([]byte, error)  { return write(float64(t), 0, "°C", temperature) }
func (t *Temperature) UnmarshalText(b []byte) error { return read(t, b, temperature) }

func (c Concentration) MarshalText() ([]byte, error) {
	return write(float64(c), 0, "g/L", concentration)
}
func (c *Concentration) UnmarshalText(b []byte) error { return read(c, b, concentration) }

func (r Ratio) MarshalText() ([]byte, error)  { return write(float64(r), 0, "g/g", ratio) }
func (r *Ratio) UnmarshalText(b []byte) error { return read(r, b, ratio) }

func (w Wetting) MarshalText() ([]byte, error)  { return write(float64(w), 0, "mL/g", wetting) }
func (w *Wetting) UnmarshalText(b []byte) error { return read(w, b, wetting) }

func (m Molarity) MarshalText() ([]byte, error)  { return write(float64(m), 0, "mmol/L", molarity) }
func (m *Molarity) UnmarshalText(b []byte) error { return read(m, b, molarity) }

func (s Share) MarshalText() ([]byte, error)  { return write(float64(s), 2, "%", share) }
func (s *Share) UnmarshalText(b []byte) error { return read(s, b, share) }

func (p Power) MarshalText() ([]byte, error)  { return write(float64(p), 0, "W", power) }
func (p *Power) UnmarshalText(b []byte) error { return read(p, b, power) }
