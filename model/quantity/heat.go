package quantity

var (
	pressureMetric = []step{{"hPa", 100, -2, 10}, {"hPa", 100, 0, always}}
	pressureUS     = []step{{"inHg", inHg, 2, always}}
	powerSteps     = []step{{"W", 1, -2, 10}, {"W", 1, 0, 1000}, {"kW", 1000, 2, always}}
	energySteps    = []step{{"J", 1, -2, 1000}, {"Wh", 3600, -2, 100}, {"kWh", 3.6e6, 2, always}}
)

// Format is the pressure as a weather report gives it: "1013 hPa"; "29.92 inHg" in US.
func (p Pressure) Format(sys System) string {
	if sys == US {
		return plain(float64(p), "inHg", pressureUS)
	}
	return plain(float64(p), "hPa", pressureMetric)
}

// String is Format in Metric.
func (p Pressure) String() string { return p.Format(Metric) }

// Format is the power, the same in every system: "800 W", "1.8 kW".
func (p Power) Format(System) string { return plain(float64(p), "W", powerSteps) }

// String is Format.
func (p Power) String() string { return p.Format(Metric) }

// Format is the energy as the electricity meter counts it, the same in every system: "0.7 kWh", "50 Wh".
func (e Energy) Format(System) string { return plain(float64(e), "kWh", energySteps) }

// String is Format.
func (e Energy) String() string { return e.Format(Metric) }
