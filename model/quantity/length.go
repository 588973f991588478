package quantity

// A rule is read to the millimetre, or the tenth of an inch.
var (
	feet    = unitSteps{"in", []step{{"in", inch, 2, 1}, {"in", inch, 1, 120}, {"ft", foot, 1, always}}}
	lengths = shown{Metric: {"cm", []step{{"mm", 0.001, 1, 10}, {"cm", 0.01, 1, 1000}, {"m", 1, 1, always}}}, US: feet, Imperial: feet}

	squareFeet = unitSteps{"ft²", []step{{"in²", inch * inch, -3, 144}, {"ft²", foot * foot, -3, always}}}
	areas      = shown{Metric: {"m²", []step{{"cm²", 1e-4, -3, 1000}, {"m²", 1, -3, always}}}, US: squareFeet, Imperial: squareFeet}
)

// Format is the length for reading: "25.4 cm", "2 mm"; inches below 10 ft in US and Imperial. Not inlined: that was 6 kB of the program.
//
//go:noinline
func (l Length) Format(sys System) string { return lengths.plain(float64(l), sys) }

// Format is the area to three figures: "525 cm²", "0.25 m²"; square inches or feet in US and Imperial.
func (a Area) Format(sys System) string { return areas.plain(float64(a), sys) }
