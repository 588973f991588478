package quantity

import (
	"math"
	"testing"
	"time"

	"pgregory.net/rapid"
)

func TestFormat(t *testing.T) {
	tests := []struct {
		q    Quantity
		sys  System
		want string
	}{
		{Grams(7.46), Metric, "7.5 g"},
		{Grams(20), Metric, "20 g"},
		{Grams(49.94), Metric, "49.9 g"},
		{Grams(49.96), Metric, "50 g"},
		{Grams(140.4), Metric, "140 g"},
		{Grams(999.6), Metric, "1 kg"},
		{Grams(1200), Metric, "1.2 kg"},
		{Grams(1234), Metric, "1.234 kg"},
		{Grams(0.04), Metric, "40 mg"},
		{Grams(0.0999), Metric, "0.1 g"},
		{Grams(0), Metric, "0 g"},
		{Grams(-0.00001), Metric, "-0.01 mg"},
		{Mass(math.Copysign(0, -1)), Metric, "0 g"},
		{Grams(100), US, "3.53 oz"},
		{Mass(pound * 0.9999), US, "1 lb"},
		{Mass(35 * ounce), US, "2 lb 3 oz"},
		{Mass(35.14 * ounce), Imperial, "2 lb 3.1 oz"},
		{Mass(159.97 * ounce), US, "10 lb"},
		{Mass(200.4 * ounce), US, "12 lb 8 oz"},
		{Litres(0.9996), Metric, "1 L"},
		{Litres(0.25), Metric, "250 mL"},
		{Litres(0.0054), Metric, "5.4 mL"},
		{Litres(13.33), Metric, "13.3 L"},
		{Litres(60), Metric, "60 L"},
		{Litres(99.96), Metric, "100 L"},
		{Litres(60), US, "15.9 gal"},
		{Litres(60), Imperial, "13.2 gal"},
		{Litres(1), US, "1.06 qt"},
		{Volume(usGallon * 0.9999), US, "1 gal"},
		{Litres(0.25), Imperial, "8.8 fl oz"},
		{Celsius(37.4), Metric, "37.5 °C"},
		{Celsius(34.9), Metric, "35 °C"},
		{Celsius(-0.2), Metric, "0 °C"},
		{Celsius(35), US, "95 °F"},
		{Celsius(35), Imperial, "35 °C"},
		{TempDiff(5), Metric, "5 °C"},
		{TempDiff(5), US, "9 °F"},
		{Centimetres(25.4), Metric, "25.4 cm"},
		{Centimetres(0.2), Metric, "2 mm"},
		{Centimetres(0.996), Metric, "1 cm"},
		{Centimetres(25.4), US, "10 in"},
		{SquareMetres(0.05248), Metric, "525 cm²"},
		{SquareMetres(0.25), Metric, "0.25 m²"},
		{GramsPerLitre(1.5), Metric, "1.5 g/L"},
		{GramsPerLitre(0.0091), Metric, "9.1 mg/L"},
		{GramsPerLitre(7.48915170731), US, "1 oz/gal"},
		{GramsPerGram(2), US, "2 g/g"},
		{Wetting(20), Metric, "20 mL/g"},
		{MillimolesPerLitre(10), Metric, "10 mmol/L"},
		{Percent(45), Metric, "45 %"},
		{Percent(0.5), Metric, "0.5 %"},
		{Percent(62.5), Metric, "62.5 %"},
		{Pascals(101325), Metric, "1013 hPa"},
		{Pascals(101325), US, "29.92 inHg"},
		{Watts(1000), Metric, "1 kW"},
		{Watts(1800), Metric, "1.8 kW"},
		{Watts(800), Metric, "800 W"},
		{Joules(0.7 * 3.6e6), Metric, "0.7 kWh"},
		{Minutes(30), Metric, "30 min"},
		{Minutes(90), Metric, "1 h 30 min"},
		{Seconds(45), Metric, "45 s"},
		{Seconds(59.6), Metric, "1 min"},
		{Seconds(3599.7), Metric, "1 h"},
		{Hours(24), Metric, "24 h"},
		{Days(7), Metric, "7 days"},
		{Hours(51), Metric, "2 days 3 h"},
		{Minutes(-5), Metric, "-5 min"},
		{Seconds(0), Metric, "0 s"},
		{Hundredths(1250), Metric, "12.50"},
		{Hundredths(-5), Metric, "-0.05"},
		{PH(10.52), Metric, "10.5"},
		{Mass(math.NaN()), Metric, "? kg"},
	}
	for _, tt := range tests {
		if got := tt.q.Format(tt.sys); got != tt.want {
			t.Errorf("%T %v in %s: %q, want %q", tt.q, float64OrInt(tt.q), tt.sys, got, tt.want)
		}
	}
}

func float64OrInt(q Quantity) any { return q }

func TestBoth(t *testing.T) {
	for _, tt := range []struct {
		q     Quantity
		other System
		want  string
	}{
		{Litres(60), US, "60 L (15.9 US gal)"},
		{Litres(60), Imperial, "60 L (13.2 imp gal)"},
		{Litres(0.25), US, "250 mL (8.5 US fl oz)"},
		{Grams(100), US, "100 g (3.53 oz)"},
		{Celsius(35), US, "35 °C (95 °F)"},
		{Celsius(35), Imperial, "35 °C"},
		{GramsPerLitre(1.5), US, "1.5 g/L (0.2 oz/US gal)"},
		{Minutes(30), US, "30 min"},
		{Litres(60), Metric, "60 L"},
	} {
		if got := Both(tt.q, tt.other); got != tt.want {
			t.Errorf("%q, want %q", got, tt.want)
		}
	}
}

func TestScaleAndFigure(t *testing.T) {
	for _, tt := range []struct {
		m            Mass
		sys          System
		scale        string
		number, unit string
	}{
		{20, Metric, "20.0 g", "20.0", "g"},
		{49.96, Metric, "50 g", "50", "g"},
		{1250, Metric, "1250 g", "1250", "g"},
		{12345, Metric, "12345 g", "12345", "g"},
		{100, US, "3.53 oz", "3.53", "oz"},
		{992.233, US, "2 lb 3.0 oz", "35.0", "oz"},
		{5000, US, "11 lb", "11.02", "lb"},
	} {
		if got := tt.m.Scale(tt.sys); got != tt.scale {
			t.Errorf("%v g in %s: scale %q, want %q", float64(tt.m), tt.sys, got, tt.scale)
		}
		if n, u := tt.m.Figure(tt.sys); n != tt.number || u != tt.unit {
			t.Errorf("%v g in %s: figure %q %q, want %q %q", float64(tt.m), tt.sys, n, u, tt.number, tt.unit)
		}
	}
	for d, want := range map[time.Duration]string{
		250 * time.Second: "4:10", 59 * time.Second: "0:59", 3*time.Hour + 2*time.Minute: "3:02:00", -5 * time.Second: "-0:05",
		3599600 * time.Millisecond: "1:00:00", 0: "0:00",
	} {
		if got := Span(d).Clock(); got != want {
			t.Errorf("%v: clock %q, want %q", d, got, want)
		}
	}
}

// Any number at all can be shown, in every system, without a sign before zero.
func TestShowsEverything(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) { showAll(t, rapid.Float64().Draw(t, "v")) })
}

// What is shown reads back in the same system, within half a step: 0.005 oz or 0.05 L, or one or two per cent of a larger amount.
func TestShownReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := math.Exp(rapid.Float64Range(math.Log(0.05), math.Log(5e4)).Draw(t, "log"))
		sys := System(rapid.IntRange(0, 2).Draw(t, "sys"))
		m, err := ParseMass(Grams(v).Format(sys), sys)
		if err != nil || math.Abs(float64(m)-v) > 0.142+0.0101*v {
			t.Fatalf("%v g in %s is shown as %q and read as %v, %v", v, sys, Grams(v).Format(sys), float64(m), err)
		}
		l, err := ParseVolume(Litres(v).Format(sys), sys)
		if err != nil || math.Abs(float64(l)-v) > 0.051+0.02*v {
			t.Fatalf("%v L in %s is shown as %q and read as %v, %v", v, sys, Litres(v).Format(sys), float64(l), err)
		}
	})
}
