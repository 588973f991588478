package vessel

import (
	"strings"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/wording"
)

// Material is what a vessel is made of. The zero Material is Unstated: nothing is refused and nothing is known.
type Material int

// The materials. PE is polyethylene of which the dyer does not know whether it is LDPE or HDPE.
const (
	Unstated Material = iota
	Stainless
	Enamel
	PE
	LDPE
	HDPE
	PP
	Wood
	Oak
	Aluminium
	Galvanised
)

// Materials is every material but Unstated, usable ones first.
func Materials() []Material {
	return []Material{Stainless, Enamel, PE, LDPE, HDPE, PP, Wood, Oak, Aluminium, Galvanised}
}

var materialNames = [...]string{"unstated", "stainless", "enamel", "PE", "LDPE", "HDPE", "PP", "wood", "oak", "aluminium", "galvanised"}

// otherNames are further words that people type.
var otherNames = map[string]Material{
	"stainless steel": Stainless, "steel": Unstated, "enamelled": Enamel, "polyethylene": PE, "polypropylene": PP,
	"aluminum": Aluminium, "galvanized": Galvanised, "zinc": Galvanised, "galvanised steel": Galvanised, "galvanized steel": Galvanised,
}

// ParseMaterial reads a material's name in any case. "plastic" and "steel" alone are refused: it matters which.
func ParseMaterial(s string) (Material, error) {
	n := strings.ToLower(strings.Join(strings.Fields(s), " "))
	switch n {
	case "":
		return Unstated, nil
	case "plastic":
		return Unstated, &FormError{s, "plastic is of several kinds; look at the mark underneath and write HDPE (2), LDPE (4) or PP (5)"}
	case "steel":
		return Unstated, &FormError{s, "steel is of several kinds; write stainless, enamel or galvanised"}
	}
	if m, ok := wording.First(Materials(), func(m Material) bool { return n == strings.ToLower(m.String()) }); ok {
		return m, nil
	}
	if m := otherNames[n]; m != Unstated {
		return m, nil
	}
	return Unstated, &FormError{s, wording.Typed(s) + " is not a material known here; known are " +
		strings.Join(materialNames[1:len(materialNames)-1], ", ") + " and " + materialNames[len(materialNames)-1]}
}

// String is the name that ParseMaterial reads, or "unstated".
func (m Material) String() string {
	if m < 0 || int(m) >= len(materialNames) {
		return materialNames[Unstated]
	}
	return materialNames[m]
}

// MarshalText gives the name; Unstated gives an empty text.
func (m Material) MarshalText() ([]byte, error) {
	if m.String() == materialNames[Unstated] {
		return nil, nil
	}
	return []byte(m.String()), nil
}

// UnmarshalText reads what ParseMaterial reads; an empty text is Unstated.
func (m *Material) UnmarshalText(b []byte) error {
	return wording.Read(m, b, ParseMaterial)
}

// Refusal is the one sentence for which a vat may not be set in this material, or "" if it may. Aluminium and zinc are
// eaten by alkali and give off hydrogen (S21); oak is refused in any case, as its tannin darkens the vat (S1).
func (m Material) Refusal(alkali bool) string {
	switch {
	case m == Aluminium && alkali:
		return "aluminium dissolves in alkali and gives off hydrogen, which burns: take stainless, enamel, PE, PP or wood"
	case m == Galvanised && alkali:
		return "the zinc of a galvanised vessel dissolves in alkali and gives off hydrogen, which burns: take stainless, enamel, PE, PP or wood"
	case m == Oak:
		return "oak gives off tannin, which spoils the blue: take stainless, enamel, PE, PP or another wood"
	}
	return ""
}

// Top is the hottest that a plastic vessel may hold; ok is false for what has no such limit. LDPE 49, HDPE 63, PP 74 °C
// (C: ceilings at which these plastics still carry a load); PE of an unknown kind is taken as LDPE.
func (m Material) Top() (top quantity.Temperature, ok bool) {
	switch m {
	case PE, LDPE:
		return 49, true
	case HDPE:
		return 63, true
	case PP:
		return 74, true
	}
	return 0, false
}

// TooHot is the one sentence for which liquor of this temperature may not be in the vessel, or "" if it may.
func (m Material) TooHot(t quantity.Temperature, sys quantity.System) string {
	top, ok := m.Top()
	if !ok || !(t > top) {
		return ""
	}
	return m.String() + " bears " + top.Format(sys) + " at most, and " + t.Format(sys) + " is wanted: cold water first, or another vessel"
}

// HeaterCaution is how a heater may hang in the vessel.
func (m Material) HeaterCaution() string {
	if _, plastic := m.Top(); plastic || m == Wood {
		return "the heater hangs guarded, clear of wall and floor, and never touches the " + m.String()
	}
	return "the heater hangs guarded, clear of wall and floor"
}
