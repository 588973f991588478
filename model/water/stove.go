package water

import (
	"strings"

	"example.org/vatside/model/quantity"
)

// Stove is what a pot is heated on, or with. The zero Stove is none.
type Stove int

// The stoves. Immersion is a heater that hangs in the water, under a lid.
const (
	Gas Stove = iota + 1
	Electric
	Induction
	Immersion
)

var stoveNames = [...]string{"", "gas", "electric", "induction", "immersion"}

// Stoves are all kinds of stove.
func Stoves() []Stove { return []Stove{Gas, Electric, Induction, Immersion} }

// ParseStove reads gas, electric, induction or immersion, in any case. Anything else is a *LimitError.
func ParseStove(s string) (Stove, error) {
	typed := strings.ToLower(strings.TrimSpace(s))
	for _, k := range Stoves() {
		if typed == k.String() {
			return k, nil
		}
	}
	if typed == "" {
		return 0, limit("no stove is given; write gas, electric, induction or immersion")
	}
	return 0, limit("% is not a stove known here; write gas, electric, induction or immersion", word(s))
}

// String is the name that ParseStove reads; "" for none.
func (s Stove) String() string {
	if s < 0 || int(s) >= len(stoveNames) {
		return ""
	}
	return stoveNames[s]
}

// Reaches is the part of a stove's power that reaches the water: gas 40 %, electric 74 %, induction 84 % (second-hand
// figures for cooking; a large pot on a small ring does better, wind worse), an immersion heater under a lid 95 % (from
// memory). One pot that was timed rules instead: see Timed. None is 0.
func (s Stove) Reaches() quantity.Share { return [...]quantity.Share{0, 0.40, 0.74, 0.84, 0.95}[s] }

// HeatTime is how long a volume, measured at its starting temperature, takes to be heated from one temperature to another
// by a power of which a part reaches the water. The error is a *LimitError: those of HeatMinutes, or a part that is not
// above 0 % and at most 100 %.
func HeatTime(v quantity.Volume, from, to quantity.Temperature, p quantity.Power, part quantity.Share) (quantity.Span, error) {
	if !(part > 0 && part <= 1) {
		return 0, limit("% is no part of a power that can reach the water; it is above % and at most %", part, quantity.Share(0), quantity.Share(1))
	}
	return HeatMinutes(v, from, to, p*quantity.Power(part))
}

// Timed is the part of a power that reached the water, from one pot that was timed: its volume at the start, the two
// temperatures, and the time it took. A *LimitError if nothing was heated, no time was taken, there was no power, or if it
// comes to more than 100 %.
func Timed(v quantity.Volume, from, to quantity.Temperature, took quantity.Span, p quantity.Power) (quantity.Share, error) {
	needs, err := HeatMinutes(v, from, to, p) // at 100 %
	switch {
	case err != nil:
		return 0, err
	case needs <= 0:
		return 0, limit("% from % to % tells nothing; time a pot that gets warmer", v, from, to)
	case took <= 0:
		return 0, limit("% is no time for a pot; it must be above %", took, quantity.Span(0))
	}
	part := needs.Seconds() / took.Seconds()
	if part > 1+1e-6 {
		return 0, limit("% from % to % takes % with all of %, so it cannot have taken %; look again at the power, the volume and the time",
			v, from, to, needs, p, took)
	}
	return quantity.Share(min(part, 1)), nil
}
