package quantity

import (
	"slices"
	"strings"

	"example.org/vatside/model/wording"
)

// System is the family of units in which a quantity is typed and shown.
type System int

// The unit systems. Metric is the zero value. In Metric a bare "gal", "qt", "pt", "cup" or "fl oz" is refused,
// since it means one thing in the US and another in Britain.
const (
	Metric System = iota
	US
	Imperial
)

var systems = []string{"metric", "us", "imperial"}

// ParseSystem reads "metric", "us" or "imperial".
func ParseSystem(s string) (System, error) {
	if i := slices.Index(systems, strings.ToLower(strings.TrimSpace(s))); i >= 0 {
		return System(i), nil
	}
	return Metric, &ParseError{Input: s, Want: "system of units", Code: UnknownUnit,
		Reason: wording.Typed(s) + " is not a system of units; write metric, us or imperial"}
}

// String is the word that ParseSystem reads.
func (y System) String() string { return systems[y] }

// MarshalText gives the word that ParseSystem reads.
func (y System) MarshalText() ([]byte, error) { return []byte(y.String()), nil }

// UnmarshalText reads what MarshalText gives.
func (y *System) UnmarshalText(b []byte) error {
	return wording.Read(y, b, ParseSystem)
}
