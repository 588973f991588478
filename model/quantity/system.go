package quantity

import (
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

// ParseSystem reads "metric", "us" or "imperial".
func ParseSystem(s string) (System, error) {
	switch strings.ToLower(strings.TrimSpace(s)) {
	case "metric":
		return Metric, nil
	case "us":
		return US, nil
	case "imperial":
		return Imperial, nil
	}
	return Metric, &ParseError{Input: s, Want: "system of units", Code: UnknownUnit,
		Reason: wording.Typed(s) + " is not a system of units; write metric, us or imperial"}
}

// String is the word that ParseSystem reads.
func (y System) String() string {
	switch y {
	case US:
		return "us"
	case Imperial:
		return "imperial"
	}
	return "metric"
}

// MarshalText gives the word that ParseSystem reads.
func (y System) MarshalText() ([]byte, error) { return []byte(y.String()), nil }

// UnmarshalText reads what MarshalText gives.
func (y *System) UnmarshalText(b []byte) error {
	v, err := ParseSystem(string(b))
	if err == nil {
		*y = v
	}
	return err
}
