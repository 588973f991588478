package quantity

// Fahrenheit is the temperature in °F: t/°C × 1.8 + 32 (NIST SP 811, appendix B.5).
func (t Temperature) Fahrenheit() float64 { return float64(t)*9/5 + 32 }

// Format is the temperature as a thermometer in a vat is read: to half a degree Celsius, or to a degree Fahrenheit.
// Inlined where it is used it was 8 KB of the program.
//
//go:noinline
func (t Temperature) Format(sys System) string {
	number, unit := t.Figure(sys)
	return number + " " + unit
}

// Figure is Format in two parts, for large digits. The British dyer's thermometer is in °C as well.
func (t Temperature) Figure(sys System) (number, unit string) {
	if sys == US {
		number, _ = round(t.Fahrenheit(), 0)
		return number, "°F"
	}
	return half(float64(t)), "°C"
}

// half is v to the nearest half, "35" or "37.5".
func half(v float64) string {
	_, r := round(v*2, 0)
	s, _ := round(r/2, 1)
	return trim(s)
}

// Format is the difference to half a degree Celsius, or a degree Fahrenheit: "5 °C", "9 °F".
func (d TempDiff) Format(sys System) string {
	if sys == US {
		s, _ := round(float64(d)*9/5, 0)
		return s + " °F"
	}
	return half(float64(d)) + " °C"
}

// Format is the pH to one decimal, the finest that a strip or a plain meter can claim.
func (p PH) Format(System) string { return p.String() }

// String is the pH to one decimal.
func (p PH) String() string {
	s, _ := round(float64(p), 1)
	return s
}
