package quantity

import (
	"errors"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// any parser, as base units.
var parsers = map[string]func(string, System) (float64, error){
	"mass":          func(s string, y System) (float64, error) { v, err := ParseMass(s, y); return float64(v), err },
	"volume":        func(s string, y System) (float64, error) { v, err := ParseVolume(s, y); return float64(v), err },
	"length":        func(s string, y System) (float64, error) { v, err := ParseLength(s, y); return float64(v), err },
	"area":          func(s string, y System) (float64, error) { return parse(s, y, area) },
	"temperature":   func(s string, y System) (float64, error) { v, err := ParseTemperature(s, y); return float64(v), err },
	"tempdiff":      func(s string, y System) (float64, error) { return parse(s, y, tempDiff) },
	"concentration": func(s string, y System) (float64, error) { v, err := ParseConcentration(s, y); return float64(v), err },
	"ratio":         func(s string, y System) (float64, error) { return parse(s, y, ratio) },
	"wetting":       func(s string, y System) (float64, error) { return parse(s, y, wetting) },
	"molarity":      func(s string, y System) (float64, error) { v, err := ParseMolarity(s, y); return float64(v), err },
	"share":         func(s string, y System) (float64, error) { v, err := ParseShare(s, y); return float64(v), err },
	"pressure":      func(s string, y System) (float64, error) { v, err := ParsePressure(s, y); return float64(v), err },
	"power":         func(s string, y System) (float64, error) { v, err := ParsePower(s, y); return float64(v), err },
	"energy":        func(s string, y System) (float64, error) { return parse(s, y, energy) },
	"span":          func(s string, y System) (float64, error) { v, err := ParseSpan(s, y); return v.Seconds(), err },
	"money":         func(s string, y System) (float64, error) { v, err := ParseMoney(s, y); return float64(v), err },
}

func near(a, b float64) bool {
	return math.Abs(a-b) <= 1e-12*math.Max(1, math.Max(math.Abs(a), math.Abs(b)))
}

// What dyers type, and what it means in the base unit.
func TestParse(t *testing.T) {
	tests := []struct {
		kind, typed string
		sys         System
		want        float64
	}{
		{"mass", "1.5 kg", Metric, 1500},
		{"mass", "1,5 kg", Metric, 1500},
		{"mass", "1,50 kg", Metric, 1500},
		{"mass", "1,5000 kg", Metric, 1500},
		{"mass", "1 500 g", Metric, 1500},
		{"mass", "12 000 g", Metric, 12000},
		{"mass", "1\u202f500,5\u00a0g", Metric, 1500.5},
		{"mass", "2 lb 3 oz", Metric, 35 * ounce},
		{"mass", "2lb3oz", US, 35 * ounce},
		{"mass", "2 lbs. 3 oz.", Imperial, 35 * ounce},
		{"mass", "1/2 lb", US, pound / 2},
		{"mass", "1 1/2 lb", US, pound * 1.5},
		{"mass", "1½ lb", US, pound * 1.5},
		{"mass", "½ oz", US, ounce / 2},
		{"mass", "0 g", Metric, 0},
		{"mass", "-0 g", Metric, 0},
		{"mass", "+5 G", Metric, 5},
		{"mass", "5 GRAMS", Metric, 5},
		{"mass", ".5 KG", Metric, 500},
		{"mass", "1e3 mg", Metric, 1},
		{"mass", "3 grains", US, 3 * grain},
		{"volume", "60L", Metric, 60},
		{"volume", "60l", Metric, 60},
		{"volume", "250 ml", Metric, 0.25},
		{"volume", "250 ML", Metric, 0.25},
		{"volume", "4 usgal", Metric, 4 * usGallon},
		{"volume", "4 US gal", Metric, 4 * usGallon},
		{"volume", "4 U.S. gallons", Metric, 4 * usGallon},
		{"volume", "4 gal", US, 4 * usGallon},
		{"volume", "4 gal", Imperial, 4 * impGallon},
		{"volume", "4 impgal", US, 4 * impGallon},
		{"volume", "1 gal 2 qt", US, 1.5 * usGallon},
		{"volume", "8 fl oz", US, usGallon / 16},
		{"volume", "8 fl. oz.", Imperial, impGallon / 20},
		{"volume", "8 usfloz", Metric, usGallon / 16},
		{"volume", "1 metric cup", US, 0.25},
		{"volume", "2 tbsp", Metric, 0.03},
		{"volume", "10 in3", Metric, 10 * cubicInch},
		{"volume", "2 m³", Metric, 2000},
		{"length", "25.4cm", Metric, 0.254},
		{"length", "10 in", US, 0.254},
		{"length", "5 ft 3 in", US, 63 * inch},
		{"length", `5' 3"`, US, 63 * inch},
		{"length", "5 ft3 in", US, 63 * inch},
		{"area", "0.25 m²", Metric, 0.25},
		{"area", "0.25m2", Metric, 0.25},
		{"area", "3 sq ft", US, 3 * foot * foot},
		{"temperature", "95 F", Metric, 35},
		{"temperature", "95°F", US, 35},
		{"temperature", "35 °C", Metric, 35},
		{"temperature", "35C", US, 35},
		{"temperature", "35 º C", Metric, 35},
		{"temperature", "35 deg C", Metric, 35},
		{"temperature", "\u22125 °C", Metric, -5},
		{"temperature", "- 5 °C", Metric, -5},
		{"temperature", "-273.15 °C", Metric, -273.15},
		{"temperature", "0 K", Metric, -273.15},
		{"tempdiff", "9 °F", US, 5},
		{"tempdiff", "-5 K", Metric, -5},
		{"concentration", "5 g/L", Metric, 5},
		{"concentration", "5g/l", Metric, 5},
		{"concentration", "5 g per L", Metric, 5},
		{"concentration", "9.1 mg/L", Metric, 0.0091},
		{"concentration", "5 g/usgal", Metric, 5 / usGallon},
		{"concentration", "1 oz / US gal", Metric, ounce / usGallon},
		{"concentration", "1 lb/gal", Imperial, pound / impGallon},
		{"ratio", "2 g/g", Metric, 2},
		{"ratio", "2 oz/oz", US, 2},
		{"wetting", "20 mL/g", Metric, 20},
		{"wetting", "20 L/kg", Metric, 20},
		{"molarity", "10 mmol/L", Metric, 10},
		{"molarity", "10 mM", Metric, 10},
		{"molarity", "0.01 mol/L", Metric, 10},
		{"share", "45%", Metric, 0.45},
		{"share", "45 %", Metric, 0.45},
		{"share", "45 per cent", Metric, 0.45},
		{"share", "100 %", Metric, 1},
		{"pressure", "101325Pa", Metric, 101325},
		{"pressure", "1013.25 hPa", Metric, 101325},
		{"pressure", "1 atm", Metric, 101325},
		{"power", "1800W", Metric, 1800},
		{"power", "1.8 kW", Metric, 1800},
		{"power", "3600 btu/h", Metric, btu},
		{"energy", "0.7 kWh", Metric, 2.52e6},
		{"energy", "2 MJ", Metric, 2e6},
		{"span", "30 min", Metric, 1800},
		{"span", "1h30", Metric, 5400},
		{"span", "1h30m", Metric, 5400},
		{"span", "1 h 30 min", Metric, 5400},
		{"span", "1 hour 30 minutes 5 s", Metric, 5405},
		{"span", "1.5 h", Metric, 5400},
		{"span", "45 s", Metric, 45},
		{"span", "2 days", Metric, 172800},
		{"span", "1 week", Metric, 604800},
		{"money", "12.50", Metric, 1250},
		{"money", "12,5", Metric, 1250},
		{"money", "-3", Metric, -300},
		{"money", "1 500", Metric, 150000},
	}
	for _, tt := range tests {
		got, err := parsers[tt.kind](tt.typed, tt.sys)
		if err != nil {
			t.Errorf("%s %q (%s): %v", tt.kind, tt.typed, tt.sys, err)
		} else if !near(got, tt.want) {
			t.Errorf("%s %q (%s) = %v, want %v", tt.kind, tt.typed, tt.sys, got, tt.want)
		}
	}
}

// What is refused, and the sentence for it.
func TestRefusals(t *testing.T) {
	tests := []struct {
		kind, typed string
		sys         System
		code        Code
		want        string
	}{
		{"mass", "60 L", Metric, WrongKind, "60 L is a volume; a mass is needed, such as 1.5 kg"},
		{"mass", "60", Metric, MissingUnit, "60 has no unit; a mass is needed, such as 1.5 kg"},
		{"mass", "", Metric, Empty, "nothing was typed; a mass is needed, such as 1.5 kg"},
		{"mass", "kg", Metric, BadNumber, "kg does not begin with a number; a mass is needed, such as 1.5 kg"},
		{"mass", "NaN g", Metric, BadNumber, "NaN g is not a number; a mass is needed, such as 1.5 kg"},
		{"mass", "-Inf g", Metric, BadNumber, "-Inf g is not a number; a mass is needed, such as 1.5 kg"},
		{"mass", "5 bushels", Metric, UnknownUnit, "bushels is not a unit known here; a mass is needed, such as 1.5 kg"},
		{"mass", "-5 g", Metric, OutOfRange, "-5 g is negative; a mass is never below zero"},
		{"mass", "-0 lb 3 oz", Metric, OutOfRange, "-0 lb 3 oz is negative; a mass is never below zero"},
		{"mass", "1e999 g", Metric, OutOfRange, "1e999 g is too large a number"},
		{"mass", "1,500 g", Metric, Ambiguous, "1,500 g could be 1500 g or 1.5 g; write it without the comma"},
		{"mass", "0,250 kg", Metric, Ambiguous, "0,250 kg could be 250 kg or 0.25 kg; write it without the comma"},
		{"mass", "1,500.5 g", Metric, Ambiguous, "1,500.5 g has two decimal marks; write thousands without a mark, such as 1500.5"},
		{"mass", "5 gr", Metric, Ambiguous, "gr could be grams or grains; write g or grain"},
		{"mass", "3 oz 2 lb", US, BadNumber, "3 oz 2 lb should have its larger unit first, and each unit once"},
		{"mass", "30-40 g", Metric, BadNumber, "30-40 g is a range; one figure is needed, such as 1.5 kg"},
		{"mass", "1/0 g", Metric, BadNumber, "1/0 g holds a fraction that cannot be reckoned"},
		{"volume", "4 gal", Metric, Ambiguous, "gal is 3.785 L in the US and 4.546 L in Britain; write usgal or impgal"},
		{"volume", "4 qt", Metric, Ambiguous, "qt is 0.946 L in the US and 1.137 L in Britain; write usqt or impqt"},
		{"volume", "4 pt", Metric, Ambiguous, "pt is 473 mL in the US and 568 mL in Britain; write uspt or imppt"},
		{"volume", "1 cup", Metric, Ambiguous, "cup is 237 mL in the US, 284 mL in Britain and 250 mL elsewhere; write uscup, impcup or metriccup"},
		{"volume", "8 fl oz", Metric, Ambiguous, "fl oz is 29.6 mL in the US and 28.4 mL in Britain; write usfloz or impfloz"},
		{"volume", "8 oz", US, WrongKind, "8 oz is a mass; a volume is needed, such as 60 L"},
		{"concentration", "5 g/gal", Metric, Ambiguous, "g/gal is not clear, as gal is 3.785 L in the US and 4.546 L in Britain; write usgal or impgal"},
		{"concentration", "60 L", Metric, WrongKind, "60 L is a volume; a concentration is needed, such as 5 g/L"},
		{"concentration", "-1 g/L", Metric, OutOfRange, "-1 g/L is negative; a concentration is never below zero"},
		{"temperature", "35", Metric, MissingUnit, "35 could be °C or °F; write which, such as 35 °C"},
		{"temperature", "35°", Metric, MissingUnit, "35° could be °C or °F; write which, such as 35 °C"},
		{"temperature", "-274 °C", Metric, OutOfRange, "-274 °C is below absolute zero, -273.15 °C"},
		{"temperature", "35 C 20 C", Metric, BadNumber, "35 C 20 C holds more than one number; a temperature is needed, such as 35 °C"},
		{"share", "0.45", Metric, Ambiguous, "0.45 could be 45 % or 0.45 %; write which"},
		{"share", "45", Metric, MissingUnit, "45 has no unit; a share is needed, such as 45 %"},
		{"share", "130 %", Metric, OutOfRange, "130 % is more than the whole; a share goes from 0 % to 100 %"},
		{"share", "-1 %", Metric, OutOfRange, "-1 % is negative; a share is never below zero"},
		{"span", "1:30", Metric, Ambiguous, "1:30 could be 1 h 30 min or 1 min 30 s; write which"},
		{"span", "1h75", Metric, Ambiguous, "1h75 has more minutes than an hour holds; write the time with its units, such as 1 h 30 min"},
		{"span", "30m", Metric, WrongKind, "30m is a length; a time is needed, such as 30 min"},
		{"span", "30", Metric, MissingUnit, "30 has no unit; a time is needed, such as 30 min"},
		{"span", "-30 min", Metric, OutOfRange, "-30 min is negative; a time is never below zero"},
		{"span", "1e12 days", Metric, OutOfRange, "1e12 days is longer than any vat has been kept"},
		{"length", "-1 cm", Metric, OutOfRange, "-1 cm is negative; a length is never below zero"},
		{"money", "12.505", Metric, BadNumber, "12.505 has more than two decimals; a sum of money is needed, such as 12.50"},
		{"money", "12.50 eur", Metric, UnknownUnit, "12.50 eur should be the number alone, without eur, such as 12.50"},
		{"mass", "5 g\x1b[31m", Metric, UnknownUnit, "g?[ is not a unit known here; a mass is needed, such as 1.5 kg"},
	}
	for _, tt := range tests {
		_, err := parsers[tt.kind](tt.typed, tt.sys)
		var pe *ParseError
		if !errors.As(err, &pe) {
			t.Errorf("%s %q (%s): error %v, want a *ParseError", tt.kind, tt.typed, tt.sys, err)
			continue
		}
		if pe.Error() != tt.want || pe.Code != tt.code {
			t.Errorf("%s %q (%s):\n got %d %q\nwant %d %q", tt.kind, tt.typed, tt.sys, pe.Code, pe, tt.code, tt.want)
		}
		if pe.Input != tt.typed {
			t.Errorf("%s %q: input kept as %q", tt.kind, tt.typed, pe.Input)
		}
	}
}

// FuzzParse holds every parser to: no panic, whatever is taken is finite and within its limits, whatever is refused is
// refused in one printable line, and whatever is taken can be shown.
func FuzzParse(f *testing.F) {
	for _, s := range []string{"1.5 kg", "2 lb 3 oz", "60L", "95 F", "35 °C", "5 g/usgal", "20 mL/g", "1h30", "1,500 g", "45 %",
		"1½ lb", "-0", "1e999 g", "NaN", "5 ft3 in", "1:30", "12.50", "1 1/2 lb", "/", "°", "1 000 000 g", "2 h 5", "−5 K", "\xff g"} {
		f.Add(s, 0)
		f.Add(s, 1)
	}
	f.Fuzz(func(t *testing.T, s string, y int) {
		sys := System(((y % 3) + 3) % 3)
		for name, p := range parsers {
			v, err := p(s, sys)
			if err != nil {
				if msg := err.Error(); msg == "" || strings.ContainsAny(msg, "\n\r\x1b\x00") {
					t.Errorf("%s %q: error %q", name, s, msg)
				}
				continue
			}
			if math.IsNaN(v) || math.IsInf(v, 0) {
				t.Errorf("%s %q = %v", name, s, v)
			}
			if v < 0 && name != "temperature" && name != "tempdiff" && name != "money" {
				t.Errorf("%s %q = %v", name, s, v)
			}
		}
		if m, err := ParseMass(s, sys); err == nil {
			showAll(t, float64(m))
		}
		if c, err := ParseTemperature(s, sys); err == nil {
			showAll(t, float64(c))
		}
	})
}

// showAll prints one number as every kind of quantity in every system.
func showAll(t interface{ Errorf(string, ...any) }, v float64) {
	for _, sys := range []System{Metric, US, Imperial} {
		for _, q := range []Quantity{Mass(v), Volume(v), Length(v), Area(v), Temperature(v), TempDiff(v), Concentration(v), Ratio(v),
			Wetting(v), Molarity(v), Share(v), Pressure(v), Power(v), Energy(v), Seconds(v), PH(v)} {
			for _, s := range []string{q.Format(sys), Both(q, sys)} {
				if s == "" || strings.HasPrefix(s, "-0 ") || s == "-0" || strings.Contains(s, "e+") || strings.Contains(s, "NaN") {
					t.Errorf("%T %v in %s is shown as %q", q, v, sys, s)
				}
			}
		}
		n, u := Mass(v).Figure(sys)
		if s := Mass(v).Scale(sys); s == "" || n == "" || u == "" || strings.HasPrefix(n, "-0 ") {
			t.Errorf("mass %v in %s: scale %q, figure %q %q", v, sys, s, n, u)
		}
	}
}

// A sign counts for the whole of what is typed: no kind that is written in two units goes below zero.
func TestNegativeCompound(t *testing.T) {
	for _, s := range []string{"-1 h 30 min", "-5 min 3 s"} {
		if v, err := ParseSpan(s, Metric); err == nil {
			t.Errorf("%q was read as %v", s, v)
		}
	}
	if v, err := ParseMass("-2 lb 3 oz", US); err == nil {
		t.Errorf("-2 lb 3 oz was read as %v", v)
	}
}

// What is tidy already is not taken through the tables of what is tidied.
func TestTidyTextsStayAsTheyAre(t *testing.T) {
	same := func(t interface{ Fatalf(string, ...any) }, s string) {
		if isTidy(s) && tidy.Replace(s) != s {
			t.Fatalf("%q is tidied to %q", s, tidy.Replace(s))
		}
		if was := slowlyTidied(s); isTidyUnit(s) && was != s {
			t.Fatalf("%q is tidied to %q", s, was)
		}
	}
	for _, u := range units {
		for _, n := range append(append([]string{}, u.names...), u.cased...) {
			same(t, n)
			same(t, n+"/g")
			same(t, "us "+n)
		}
	}
	for _, s := range []string{"", "per", "PER", "g/per", "g per L", "per/L", "/", "//", "g/", "/g", "g//L", "us/L", "sq m", "°", "° C", "m²", "\t", "g\u00a0", "º", "½", "a/b/c", "\xff"} {
		same(t, s)
	}
	for s, tidyAlready := range map[string]bool{"g": true, "°C": true, "mL/g": true, "mm": true, "per": false, "sq m": false, "m2": false, "square": false} {
		if isTidyUnit(s) != tidyAlready {
			t.Errorf("%q is a tidy unit: %v", s, !tidyAlready)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		same(t, rapid.StringMatching(`[a-zA-Z°/ ²\t½º]{0,7}`).Draw(t, "text"))
	})
}

// slowlyTidied is tidyUnit for a name of any kind.
func slowlyTidied(s string) string {
	const twice = " " // a blank in front keeps a name from being taken as tidy, and goes
	return tidyUnit(twice + s)
}
