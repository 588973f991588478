package quantity

import (
	"strings"
	"unicode"

	"example.org/vatside/model/wording"
)

// MassUnit is the unit of figures that are typed without one, as a scale shows them.
func (y System) MassUnit() string { return y.either("g", "oz") }

// VolumeUnit is the unit of a vessel's contents that are typed without one.
func (y System) VolumeUnit() string { return y.either("L", "gal") }

// LengthUnit is the unit of a vessel's measures that are typed without one.
func (y System) LengthUnit() string { return y.either("cm", "in") }

// DegreeUnit is the unit of a thermometer's figures that are typed without one: °F in US only.
func (y System) DegreeUnit() string {
	return wording.Either(y == US, "°F", "°C")
}

func (y System) either(metric, other string) string {
	if y == Metric {
		return metric
	}
	return other
}

// Bare tells whether a text has figures and no unit.
func Bare(s string) bool {
	return strings.TrimSpace(s) != "" && !strings.ContainsFunc(s, func(r rune) bool { return unicode.IsLetter(r) || strings.ContainsRune("°%:\"'″′”’", r) })
}

// WithUnit puts a unit behind bare figures.
func WithUnit(s, unit string) string {
	if s = strings.TrimSpace(s); Bare(s) {
		return s + " " + unit
	}
	return s
}

// Written tells whether a word is a unit as quantities are shown with it, the first word of one of two ("fl oz"): a figure and its
// unit are not parted. Not the inch: "42 in 100".
func Written(word string) bool {
	switch word {
	case "mg", "g", "kg", "oz", "lb",
		"mL", "L", "fl", "pt", "qt", "gal",
		"mm", "cm", "m", "ft",
		"cm²", "m²", "in²", "ft²",
		"°C", "°F", "C", "F",
		"mg/L", "g/L", "oz/gal", "g/g", "mL/g", "mmol/L", "%",
		"hPa", "inHg", "W", "kW", "J", "Wh", "kWh",
		"s", "min", "h", "days":
		return true
	}
	return false
}
