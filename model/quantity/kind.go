package quantity

// kind is what sort of thing a unit measures.
type kind int

const (
	mass kind = iota
	volume
	length
	area
	temperature
	tempDiff
	concentration
	ratio
	wetting
	molarity
	share
	pressure
	power
	energy
	span
	money
	amount // of substance: only ever above a volume, as in mmol/L
)

// trait is what the sentences and the limits need to know of a kind.
type trait struct {
	name     string // "mass"
	article  string // "a mass"
	example  string // what one looks like
	signed   bool   // may be below zero
	compound bool   // may be written in two units, the larger first
}

// traitOf describes each kind.
func traitOf(k kind) trait {
	switch k {
	case mass:
		return trait{"mass", "a mass", "1.5 kg", false, true}
	case volume:
		return trait{"volume", "a volume", "60 L", false, true}
	case length:
		return trait{"length", "a length", "25.4 cm", false, true}
	case area:
		return trait{"area", "an area", "0.25 m²", false, false}
	case temperature:
		return trait{"temperature", "a temperature", "35 °C", true, false}
	case tempDiff:
		return trait{"temperature difference", "a temperature difference", "5 K", true, false}
	case concentration:
		return trait{"concentration", "a concentration", "5 g/L", false, false}
	case ratio:
		return trait{"ratio of masses", "a ratio of masses", "2 g/g", false, false}
	case wetting:
		return trait{"volume per mass", "a volume per mass", "20 mL/g", false, false}
	case molarity:
		return trait{"molar concentration", "a molar concentration", "10 mmol/L", false, false}
	case share:
		return trait{"share", "a share", "45 %", false, false}
	case pressure:
		return trait{"pressure", "a pressure", "1013 hPa", false, false}
	case power:
		return trait{"power", "a power", "1000 W", false, false}
	case energy:
		return trait{"energy", "an energy", "0.7 kWh", false, false}
	case span:
		return trait{"time", "a time", "30 min", false, true}
	case money:
		return trait{"sum of money", "a sum of money", "12.50", true, false}
	}
	return trait{"amount of substance", "an amount of substance", "10 mmol", false, false}
}
