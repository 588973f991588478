package quantity

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"example.org/vatside/model/wording"
)

// ParseMoney reads a sum in the dyer's own currency, such as "12.50" or "12,5": at most two decimals, no sign of a currency.
// The sum is exact. The system of units makes no difference; it is there so that all parsers look alike.
func ParseMoney(s string, _ System) (Money, error) {
	t := traits[money]
	sc := scanner{input: s, want: t}
	terms, err := sc.terms()
	if err != nil {
		return 0, err
	}
	n := terms[0].number
	switch {
	case len(terms) > 1 || n.fraction != 0 || n.exponent != 0:
		return 0, sc.fail(BadNumber, wording.Typed(s)+" cannot be read as one number; "+t.article+" is needed, such as "+t.example)
	case terms[0].unit != "":
		return 0, sc.fail(UnknownUnit, wording.Typed(s)+" should be the number alone, without "+wording.Typed(terms[0].unit)+", such as "+t.example)
	}
	whole, decimals, _ := strings.Cut(n.figures, ".")
	if len(decimals) > 2 {
		return 0, sc.fail(BadNumber, wording.Typed(s)+" has more than two decimals; "+t.article+" is needed, such as "+t.example)
	}
	v, err := strconv.ParseInt(whole+(decimals + "00")[:2], 10, 64)
	if err != nil {
		return 0, sc.fail(OutOfRange, wording.Typed(s)+" is too large a number")
	}
	if n.negative {
		v = -v
	}
	return Money(v), nil
}

// String is the sum with two decimals.
func (m Money) String() string {
	sign, u := "", uint64(m)
	if m < 0 {
		sign, u = "-", -u
	}
	cents := fmt.Sprintf("%02d", u%100)
	return sign + strconv.FormatUint(u/100, 10) + "." + cents
}

// Format is the same in every system of units.
func (m Money) Format(System) string { return m.String() }

// MarshalText gives the sum with two decimals.
func (m Money) MarshalText() ([]byte, error) {
	if m == math.MinInt64 {
		return nil, &ParseError{Want: "sum of money", Code: OutOfRange, Reason: "the sum is too large a number"}
	}
	return []byte(m.String()), nil
}

// UnmarshalText reads what ParseMoney reads.
func (m *Money) UnmarshalText(b []byte) error {
	return wording.Read(m, b, metric(ParseMoney))
}
