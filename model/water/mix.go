package water

import (
	"cmp"
	"math"
	"strconv"
	"strings"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/wording"
)

// LimitError tells why a wish cannot be met: one sentence, with the limit in it, without a full stop.
type LimitError struct {
	text   string // a % for each of the quantities
	values []quantity.Quantity
}

// Error is the sentence in metric, with temperatures as exact as they were given.
func (e *LimitError) Error() string { return e.In(quantity.Metric) }

// In is the sentence in a system of units.
func (e *LimitError) In(sys quantity.System) string {
	parts := strings.Split(e.text, "%")
	s := parts[0]
	for i, q := range e.values {
		shown := q.Format(sys)
		if t, ok := q.(quantity.Temperature); ok && sys == quantity.Metric {
			shown = fine(t)
		}
		s += shown + parts[i+1]
	}
	return s
}

// number and word let a plain number, and what was typed, stand in a sentence.
type (
	number float64
	word   string
)

func (n number) Format(quantity.System) string { return n.String() }
func (w word) Format(quantity.System) string   { return w.String() }

// String is the number to two decimals.
func (n number) String() string {
	if math.IsNaN(float64(n)) {
		return "?"
	}
	return strconv.FormatFloat(math.Round(float64(n)*100)/100, 'f', -1, 64)
}

// String is what was typed, fit for a terminal.
func (w word) String() string { return wording.Typed(string(w)) }

func limit(text string, values ...quantity.Quantity) error { return &LimitError{text, values} }

// within refuses what is not liquid water, and numbers that are none.
func within(ts ...quantity.Temperature) error {
	if t, off := wording.First(ts, func(t quantity.Temperature) bool { return !(t >= Coldest && t <= Hottest) }); off {
		return limit("% is outside what water can be here; it goes from % to %", t, Coldest, Hottest)
	}
	return nil
}

// a volume that can be poured: from nothing to any finite number of litres.
func pourable(v quantity.Volume) error {
	if !(v >= 0) || math.IsInf(v.Litres(), 0) {
		return limit("% is no fill; it must be % or more", v, quantity.Volume(0))
	}
	return nil
}

// Mix is the hot and the cold water, each as poured at its own temperature, that together fill a volume at the aim.
// The balance is one of enthalpy and mass without losses (heating_mixing.csv): the part of hot by mass is
// (h(aim) − h(cold)) / (h(hot) − h(cold)). As water expands, hot and cold do not add up to the fill: for 15 L at 40 °C
// from 12 and 60 °C they are 8.83 and 6.20 L. The vessel takes heat too, so the first mixing comes out a little cold.
//
// An aim outside cold and hot, hot below cold, or a temperature outside 0–100 °C gives a *LimitError; aim equal to one
// of them is all of that one.
func Mix(fill quantity.Volume, cold, hot, aim quantity.Temperature) (hotPart, coldPart quantity.Volume, err error) {
	if err := cmp.Or(within(cold, hot, aim), pourable(fill)); err != nil {
		return 0, 0, err
	}
	switch {
	case hot < cold:
		return 0, 0, limit("the hot water, %, is colder than the cold, %", hot, cold)
	case aim > hot:
		return 0, 0, limit("% cannot be mixed from water of % at most; aim at % or lower, or heat more", aim, hot, hot)
	case aim < cold:
		return 0, 0, limit("% cannot be mixed from water of % at least; aim at % or higher, or cool it with ice", aim, cold, cold)
	}
	part := 0.0
	switch h := Enthalpy(cold); {
	case hot-cold > 1e-3:
		part = (Enthalpy(aim) - h) / (Enthalpy(hot) - h)
	case hot > cold: // too near for a difference of enthalpies; over a thousandth of a degree the heat is even
		part = float64((aim - cold) / (hot - cold))
	}
	part = min(max(part, 0), 1)
	kg := MassOf(fill, aim).Kilograms()
	return VolumeOf(quantity.Kilograms(kg*part), hot), VolumeOf(quantity.Kilograms(kg*(1-part)), cold), nil
}

// HeatMinutes is the time in which a power that all goes into the water heats a fill, measured at its starting
// temperature, from one temperature to another: 26.1 min for 15 L from 15 to 40 °C at 1000 W. Nothing is lost on the way;
// divide the power by what really reaches the water first. A start above the end, no power to heat with, or a temperature
// outside 0–100 °C gives a *LimitError.
func HeatMinutes(fill quantity.Volume, from, to quantity.Temperature, power quantity.Power) (quantity.Span, error) {
	if err := cmp.Or(within(from, to), pourable(fill)); err != nil {
		return 0, err
	}
	switch {
	case to < from:
		return 0, limit("heating goes up; % is below %", to, from)
	case to == from || fill == 0:
		return 0, nil
	case !(power > 0) || math.IsInf(power.Watts(), 0):
		return 0, limit("% heats nothing; the power must be above 0 W", power)
	}
	return quantity.Seconds(Heat(fill, from, to).Joules() / power.Watts()), nil
}

// Heat is the energy that a fill, measured at its starting temperature, takes up from one temperature to another;
// below zero when it cools.
func Heat(fill quantity.Volume, from, to quantity.Temperature) quantity.Energy {
	return quantity.Joules(MassOf(fill, from).Kilograms() * (Enthalpy(to) - Enthalpy(from)) * 1000)
}

// Mixed is the °C of two waters in one vessel, by the balance of mass and heat; the vessel's own heat is left out. Without any
// water, or with a °C that water cannot have, it is that of the first.
func Mixed(a quantity.Volume, at quantity.Temperature, b quantity.Volume, bt quantity.Temperature) quantity.Temperature {
	m, n := MassOf(a, at).Kilograms(), MassOf(b, bt).Kilograms()
	if within(at, bt) != nil || !(m+n > 0) {
		return at
	}
	return holding((m*Enthalpy(at) + n*Enthalpy(bt)) / (m + n))
}

// fine writes a temperature as it was given, without rounding to what a thermometer shows, so that a limit is told exactly.
func fine(t quantity.Temperature) string {
	b, err := t.MarshalText()
	if err != nil {
		return t.String()
	}
	return string(b)
}
