package day

import (
	"slices"
	"strings"

	"example.org/vatside/model/recipe"
)

// What bears on a danger and may never have been told, with what the answer to a caution then says of it.
const (
	untoldPlace  = "where it stands (outdoors, or in a draught)"
	untoldVessel = "what the vessel is made of (it stands alkali and heat)"
	untoldHands  = "who is at it (adults alone)"
	neverTold    = "never told, so your answer says that it is safe: "
	toldBefore   = "never told, and answered with this: " // the same in days up to 2026
)

// untold names what of these was never told, for a caution whose answer stands for it; empty where all was told. What an answer
// of today named was told with it. hands: also who is at the vat.
func (s State) untold(powder, heat, hands bool) string {
	var missing []string
	add := func(wanted bool, what string) {
		told := slices.ContainsFunc(s.Given, func(given string) bool { return strings.Contains(given, what) })
		if wanted && !told {
			missing = append(missing, what)
		}
	}
	add(powder && s.Place() == "", untoldPlace)
	add((powder || heat) && s.Head.Setup.Material == "", untoldVessel)
	add(hands && !s.helperTold, untoldHands)
	if len(missing) == 0 {
		return ""
	}
	return neverTold + strings.Join(missing, ", ")
}

// stepCaution is the caution of a step as its answer is written down.
func (s State) stepCaution(st Step) string {
	if st.Caution == "" {
		return ""
	}
	heat := st.Do == recipe.Warm || st.Do == recipe.Fill && st.Hot > 0
	if words := s.untold(st.Powder != "", heat, s.Place() == "" && (heat || st.Powder != "")); words != "" {
		return st.Caution + "; " + words
	}
	return st.Caution
}

// untoldOf is what of a body that stands in no step was never told.
func (s State) untoldOf(bodies []Body) string {
	powder, heat, acid := false, false, false
	for _, b := range bodies {
		switch b := b.(type) {
		case PowderAdded, Fed, StockDrawn:
			powder = true
		case HeaterOn:
			heat = true
		case ToppedUp:
			heat = heat || b.Temp > HandsMost
		case Soured, Soaped:
			acid = true
		}
	}
	return s.untold(powder, heat, powder || heat || acid)
}

// given tells whether a caution was answered in full today.
func (s State) given(caution string) bool {
	return slices.ContainsFunc(s.Given, func(said string) bool {
		rest, ok := strings.CutPrefix(said, caution)
		return ok && (rest == "" || strings.HasPrefix(rest, "; "+neverTold) || strings.HasPrefix(rest, "; "+toldBefore))
	})
}
