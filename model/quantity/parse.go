package quantity

import (
	"math"
	"strconv"

	"example.org/vatside/model/wording"
)

// The parsers read what people type: a number (point or comma, a fraction, a power of ten) and a unit, in any case where that
// is clear, with or without a space between. A volume, mass, length or time may be in two units, the larger first ("2 lb 3 oz").
// Every error is a *ParseError: one sentence, which names both readings where there are two.

// ParseMass reads a mass, such as "1.5 kg", "1,5 kg" or "2 lb 3 oz". Negative is refused.
func ParseMass(s string, sys System) (Mass, error) { return parseAs[Mass](s, sys, mass) }

// ParseVolume reads a volume, such as "60L" or "4 usgal". Negative is refused.
func ParseVolume(s string, sys System) (Volume, error) { return parseAs[Volume](s, sys, volume) }

// ParseLength reads a length, such as "25.4 cm" or "5 ft 3 in". Negative is refused.
func ParseLength(s string, sys System) (Length, error) { return parseAs[Length](s, sys, length) }

// ParseTemperature reads a temperature, such as "35 °C", "35C" or "95 F"; below absolute zero is refused.
func ParseTemperature(s string, sys System) (Temperature, error) {
	return parseAs[Temperature](s, sys, temperature)
}

// ParseConcentration reads a concentration, such as "5 g/L" or "5 g/usgal".
func ParseConcentration(s string, sys System) (Concentration, error) {
	return parseAs[Concentration](s, sys, concentration)
}

// ParseMolarity reads a molar concentration, such as "10 mmol/L" or "10 mM".
func ParseMolarity(s string, sys System) (Molarity, error) {
	return parseAs[Molarity](s, sys, molarity)
}

// ParseShare reads a part of a whole from 0 % to 100 %. The % is needed: 0.45 alone could be 45 % or 0.45 %.
func ParseShare(s string, sys System) (Share, error) { return parseAs[Share](s, sys, share) }

// ParsePressure reads a pressure, such as "1013 hPa", "101325Pa" or "29.92 inHg".
func ParsePressure(s string, sys System) (Pressure, error) {
	return parseAs[Pressure](s, sys, pressure)
}

// ParsePower reads a power, such as "1800W" or "1.8 kW".
func ParsePower(s string, sys System) (Power, error) { return parseAs[Power](s, sys, power) }

// parseAs is parse as a quantity.
func parseAs[T ~float64](s string, sys System, want kind) (T, error) {
	v, err := parse(s, sys, want)
	return T(v), err
}

// parse reads text as a number of the base unit of a kind.
func parse(s string, sys System, want kind) (float64, error) {
	t := traits[want]
	sc := scanner{input: s, want: t}
	terms, err := sc.terms()
	if err != nil {
		return 0, err
	}
	if len(terms) > 1 && !t.compound {
		if terms[0].unit == "-" || terms[0].unit == "–" || terms[0].unit == "to" {
			return 0, sc.fail(BadNumber, wording.Typed(s)+" is a range; one figure is needed, such as "+t.example)
		}
		return 0, sc.fail(BadNumber, wording.Typed(s)+" holds more than one number; "+t.article+" is needed, such as "+t.example)
	}
	sum, last := 0.0, math.Inf(1)
	for i, tm := range terms {
		if want == span && i > 0 && last == 3600 && (tm.unit == "" || tm.unit == "m") { // 1h30, 1h30m
			if m := tm.value(0); tm.unit == "" && m >= 60 {
				return 0, sc.fail(Ambiguous, wording.Typed(s)+" has more minutes than an hour holds; write the time with its units, such as 1 h 30 min")
			}
			tm.unit = "min"
		}
		u, err := sc.unitOf(tm, sys, want)
		if err != nil {
			return 0, err
		}
		size := u.by * math.Pow10(u.ten)
		if size >= last {
			return 0, sc.fail(BadNumber, wording.Typed(s)+" should have its larger unit first, and each unit once")
		}
		last = size
		sum += toBase(tm, u, want)
	}
	if len(terms) > 1 {
		sum = fifteen(sum)
	}
	if terms[0].negative && len(terms) > 1 {
		sum = -1 // below zero, whatever the later terms add, and so refused
	}
	return sum, sc.check(sum, want)
}

// toBase turns a number of a unit into the base unit. The zero of °F is 32 below the freezing point
// (t/°C = (t/°F − 32)/1.8) and that of K is 273.15 below it (NIST SP 811, appendix B.5).
func toBase(tm term, u unit, want kind) float64 {
	v := tm.value(u.ten)
	if want == temperature {
		switch {
		case u.by != 1:
			return fifteen((v - 32) * 5 / 9)
		case u.names[0] == "k":
			return fifteen(v - 273.15)
		}
	}
	if want == tempDiff && u.by != 1 {
		return fifteen(v * 5 / 9)
	}
	if u.by == 1 {
		return v
	}
	return fifteen(v * u.by)
}

// fifteen rounds a computed number to fifteen figures, which takes off what binary arithmetic left in the sixteenth:
// 12 in is 0.3048 m, and 100.4 °F is 38 °C.
func fifteen(v float64) float64 {
	r, err := strconv.ParseFloat(strconv.FormatFloat(v, 'e', 14, 64), 64)
	if err != nil { // ±Inf or NaN, which the limits refuse
		return v
	}
	return r
}

// unitOf finds the unit of a term, or says in one sentence why there is none.
func (sc *scanner) unitOf(tm term, sys System, want kind) (unit, error) {
	typed, t := wording.Typed(sc.input), sc.want
	if tm.unit == "" {
		switch v := tm.value(0); {
		case want == share && v > 0 && v <= 1:
			n := trimmed(v * 100)
			return unit{}, sc.fail(Ambiguous, typed+" could be "+n+" % or "+typed+" %; write which")
		case want == temperature:
			return unit{}, sc.fail(MissingUnit, typed+" could be °C or °F; write which, such as "+t.example)
		}
		return unit{}, sc.fail(MissingUnit, typed+" has no unit; "+t.article+" is needed, such as "+t.example)
	}
	if tm.unit == "°" && (want == temperature || want == tempDiff) {
		return unit{}, sc.fail(MissingUnit, typed+" could be °C or °F; write which, such as "+t.example)
	}
	if tm.unit == "-" || tm.unit == "–" || tm.unit == "to" {
		return unit{}, sc.fail(BadNumber, typed+" is a range; one figure is needed, such as "+t.example)
	}
	u, ok, ambiguous := resolve(tm.unit, sys, want)
	switch {
	case ambiguous != "":
		return unit{}, sc.fail(Ambiguous, wording.Typed(tm.unit)+" "+ambiguous)
	case !ok:
		return unit{}, sc.fail(UnknownUnit, wording.Typed(tm.unit)+" is not a unit known here; "+t.article+" is needed, such as "+t.example)
	case u.kind == temperature && want == tempDiff:
	case u.kind != want:
		return unit{}, sc.fail(WrongKind, typed+" is "+traits[u.kind].article+"; "+t.article+" is needed, such as "+t.example)
	}
	return u, nil
}

// check holds a value in base units to the limits of its kind.
func (sc *scanner) check(v float64, want kind) error {
	if reason := limit(v, want); reason != "" {
		return sc.fail(OutOfRange, wording.Typed(sc.input)+" "+reason)
	}
	return nil
}

// limit says what is wrong with a value in base units, or "" if nothing is.
func limit(v float64, k kind) string {
	t := traits[k]
	switch {
	case math.IsNaN(v):
		return "is not a number"
	case math.IsInf(v, 0):
		return "is too large a number"
	case k == temperature && v < absoluteZero:
		return "is below absolute zero, -273.15 °C"
	case k == share && v > 1:
		return "is more than the whole; a share goes from 0 % to 100 %"
	case v < 0 && !t.signed:
		return "is negative; " + t.article + " is never below zero"
	}
	return ""
}

// absoluteZero is the lowest temperature, in °C.
const absoluteZero = -273.15
