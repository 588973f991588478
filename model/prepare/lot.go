package prepare

import (
	"fmt"
	"strings"

	"example.org/vatside/model/fibre"
	"example.org/vatside/model/practice"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/vessel"
)

// Lot is goods that are to be dyed, as they are before the day.
type Lot struct {
	vessel.Goods
	State   practice.State // what they have been through; empty: as the fibre usually comes
	Scoured bool           // done already
	Pasted  bool           // it bears a resist of paste: it was scoured before that, and is never soaked
}

// heaviest is the most of one lot that is reckoned with.
const heaviest = quantity.Mass(1e6)

// ParseLot reads goods as a dyer says them: "420 g linen", with what they have been through before or behind the fibre, "420 g greige
// linen", "300 g silk in gum"; "scoured" goods are not scoured again, "pasted" ones not soaked either. The error is one sentence.
func ParseLot(s string, sys quantity.System) (Lot, error) {
	var l Lot
	var rest []string
	words := strings.Fields(s)
	say := func(state practice.State) error {
		if l.State != "" && l.State != state {
			return fmt.Errorf("%s: goods are %s or %s, not both", strings.TrimSpace(s), l.State, state)
		}
		l.State = state
		return nil
	}
	for i := 0; i < len(words); i++ {
		word := strings.Trim(words[i], ",")
		if strings.EqualFold(word, "scoured") {
			l.Scoured = true
			continue
		}
		if strings.EqualFold(word, "pasted") {
			l.Pasted, l.Scoured = true, true
			continue
		}
		if i+1 < len(words) {
			if state, err := practice.ParseState(word + " " + strings.Trim(words[i+1], ",")); err == nil {
				if err := say(state); err != nil {
					return l, err
				}
				i++
				continue
			}
		}
		if state, err := practice.ParseState(word); err == nil && word != "" {
			if err := say(state); err != nil {
				return l, err
			}
			continue
		}
		rest = append(rest, word)
	}
	// A word that is no fibre and no state would be read as a part of the weight.
	if n := len(rest); n > 2 {
		if _, err := fibre.Parse(rest[n-1]); err == nil {
			if _, err := quantity.ParseMass(strings.Join(rest[:n-1], " "), sys); err != nil {
				if _, err := quantity.ParseMass(strings.Join(rest[:n-2], " "), sys); err == nil {
					_, err := practice.ParseState(rest[n-2])
					return l, err
				}
			}
		}
	}
	g, err := vessel.ParseGoods(strings.Join(rest, " "), sys)
	switch {
	case err != nil:
		return l, err
	case !(g.Dry > 0):
		return l, fmt.Errorf("%s weighs nothing; write its dry weight, such as '420 g linen'", strings.TrimSpace(s))
	case g.Dry > heaviest:
		return l, fmt.Errorf("%s is more than is reckoned here; %s at most", strings.TrimSpace(s), heaviest.Format(sys))
	}
	l.Goods = g
	if _, err := l.scour(); err != nil {
		return l, err
	}
	return l, nil
}

// ParseLots reads several in one line, with commas, semicolons or "and" between them. A comma within a figure parts nothing.
func ParseLots(s string, sys quantity.System) ([]Lot, error) {
	var lots []Lot
	for _, part := range strings.Split(parted(s), ";") {
		if strings.TrimSpace(part) == "" {
			continue
		}
		l, err := ParseLot(part, sys)
		if err != nil {
			return nil, err
		}
		lots = append(lots, l)
	}
	return lots, nil
}

// parted puts a semicolon wherever goods are parted. A comma before a state ("300 g silk, in gum") parts nothing either.
func parted(s string) string {
	s = strings.ReplaceAll(strings.ReplaceAll(s, " and ", "; "), "\n", ";")
	out := []byte(s)
	for i := range out {
		if out[i] != ',' {
			continue
		}
		next := strings.TrimLeft(s[i+1:], " ")
		figure := next != "" && next[0] >= '0' && next[0] <= '9'
		within := i > 0 && out[i-1] >= '0' && out[i-1] <= '9' && len(next) == len(s[i+1:])
		if figure && !within || next == "" {
			out[i] = ';'
		}
	}
	return string(out)
}

// Name is how the lot is spoken of: "420 g greige linen".
func (l Lot) Name(sys quantity.System) string {
	parts := []string{l.Dry.Format(sys)}
	switch {
	case l.Pasted:
		parts = append(parts, "pasted")
	case l.Scoured:
		parts = append(parts, "scoured")
	}
	switch {
	case strings.Contains(string(l.State), " "): // "silk in gum"
		parts = append(parts, l.Fibre.String(), string(l.State))
	case l.State != "":
		parts = append(parts, string(l.State), l.Fibre.String())
	default:
		parts = append(parts, l.Fibre.String())
	}
	return strings.Join(parts, " ")
}

// scour is the lot's scouring; of scoured goods only that their state is one of the fibre's.
func (l Lot) scour() (practice.Scour, error) { return practice.ScourFor(l.Fibre, l.State, l.Dry) }
