package quantity

// Doses to three figures: more than any scale and jug give together.
var (
	concentrations = shown{
		Metric:   {"g/L", []step{{"mg/L", 0.001, -3, 100}, {"g/L", 1, -3, always}}},
		US:       {"oz/gal", []step{{"oz/gal", ounce / usGallon, -3, always}}},
		Imperial: {"oz/gal", []step{{"oz/gal", ounce / impGallon, -3, always}}},
	}
	wettings = shown{
		Metric:   {"mL/g", []step{{"mL/g", 1, -3, always}}},
		US:       {"fl oz/oz", []step{{"fl oz/oz", usGallon / 128 * 1000 / ounce, -3, always}}},
		Imperial: {"fl oz/oz", []step{{"fl oz/oz", impGallon / 160 * 1000 / ounce, -3, always}}},
	}
	ratioSteps    = []step{{"g/g", 1, -3, always}}
	molaritySteps = []step{{"mmol/L", 1, -3, always}}
	shareSteps    = []step{{"%", 0.01, -2, 1}, {"%", 0.01, 1, always}}
)

// Format is the concentration to three figures: "1.5 g/L", "9.1 mg/L"; "0.2 oz/gal" in US and Imperial.
func (c Concentration) Format(sys System) string { return concentrations.plain(float64(c), sys) }

// Format is the ratio to three figures, the same in every system: "2 g/g".
func (r Ratio) Format(System) string { return plain(float64(r), "g/g", ratioSteps) }

// Format is the volume per mass to three figures: "20 mL/g"; fluid ounces an ounce in US and Imperial.
func (w Wetting) Format(sys System) string { return wettings.plain(float64(w), sys) }

// Format is the molar concentration to three figures, the same in every system: "10 mmol/L".
func (m Molarity) Format(System) string { return plain(float64(m), "mmol/L", molaritySteps) }

// Format is the share to 0.1 %: "45 %", "62.5 %".
func (s Share) Format(System) string { return plain(float64(s), "%", shareSteps) }
