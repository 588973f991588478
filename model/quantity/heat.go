package quantity

var (
	hectopascals = unitSteps{"hPa", []step{{"hPa", 100, -2, 10}, {"hPa", 100, 0, always}}}
	pressures    = shown{Metric: hectopascals, US: {"inHg", []step{{"inHg", inHg, 2, always}}}, Imperial: hectopascals}
	powerSteps   = []step{{"W", 1, -2, 10}, {"W", 1, 0, 1000}, {"kW", 1000, 2, always}}
	energySteps  = []step{{"J", 1, -2, 1000}, {"Wh", 3600, -2, 100}, {"kWh", 3.6e6, 2, always}}
)

// Format is the pressure as a weather report gives it: "1013 hPa"; "29.92 inHg" in US.
func (p Pressure) Format(sys System) string { return pressures.plain(float64(p), sys) }

// Format is the power, the same in every system: "800 W", "1.8 kW".
func (p Power) Format(System) string { return plain(float64(p), "W", powerSteps) }

// Format is the energy as the electricity meter counts it, the same in every system: "0.7 kWh", "50 Wh".
func (e Energy) Format(System) string { return plain(float64(e), "kWh", energySteps) }
