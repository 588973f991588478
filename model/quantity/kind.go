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

// traits describes each kind.
var traits = [...]trait{
	mass:          {"mass", "a mass", "1.5 kg", false, true},
	volume:        {"volume", "a volume", "60 L", false, true},
	length:        {"length", "a length", "25.4 cm", false, true},
	area:          {"area", "an area", "0.25 m²", false, false},
	temperature:   {"temperature", "a temperature", "35 °C", true, false},
	tempDiff:      {"temperature difference", "a temperature difference", "5 K", true, false},
	concentration: {"concentration", "a concentration", "5 g/L", false, false},
	ratio:         {"ratio of masses", "a ratio of masses", "2 g/g", false, false},
	wetting:       {"volume per mass", "a volume per mass", "20 mL/g", false, false},
	molarity:      {"molar concentration", "a molar concentration", "10 mmol/L", false, false},
	share:         {"share", "a share", "45 %", false, false},
	pressure:      {"pressure", "a pressure", "1013 hPa", false, false},
	power:         {"power", "a power", "1000 W", false, false},
	energy:        {"energy", "an energy", "0.7 kWh", false, false},
	span:          {"time", "a time", "30 min", false, true},
	money:         {"sum of money", "a sum of money", "12.50", true, false},
	amount:        {"amount of substance", "an amount of substance", "10 mmol", false, false},
}
