package quantity

// A jug shows 1 mL to 10 mL below a litre; a vessel is filled to 0.1 L (common practice).
var volumes = shown{Metric: {"L", []step{
	{"mL", 0.001, -2, 0.1},
	{"mL", 0.001, 1, 10},
	{"mL", 0.001, 0, 1000},
	{"L", 1, 1, 100},
	{"L", 1, 0, always},
}}, US: {"gal", []step{
	{"fl oz", usGallon / 128, -2, 0.1},
	{"fl oz", usGallon / 128, 1, 10},
	{"fl oz", usGallon / 128, 0, 32},
	{"qt", usGallon / 4, 2, 4},
	{"gal", usGallon, 2, 10},
	{"gal", usGallon, 1, 100},
	{"gal", usGallon, 0, always},
}}, Imperial: {"gal", []step{
	{"fl oz", impGallon / 160, -2, 0.1},
	{"fl oz", impGallon / 160, 1, 10},
	{"fl oz", impGallon / 160, 0, 20},
	{"pt", impGallon / 8, 2, 8},
	{"gal", impGallon, 2, 10},
	{"gal", impGallon, 1, 100},
	{"gal", impGallon, 0, always},
}}}

// Format is the volume for reading: "250 mL", "13.3 L", "60 L"; "15.9 gal" in US, where the system says whose gallon.
// Inlined where it is used it was 8 KB of the program.
//
//go:noinline
func (v Volume) Format(sys System) string {
	number, unit := v.Figure(sys)
	return number + " " + unit
}

// Figure is Format in two parts, for large digits.
func (v Volume) Figure(sys System) (number, unit string) {
	number, unit = pick(float64(v), volumes[sys].zero, volumes[sys].steps)
	return trim(number), unit
}
