package vessel

import (
	"fmt"
	"strings"

	"example.org/vatside/model/fibre"
	"example.org/vatside/model/quantity"
)

// ParseGoods reads a dry weight and a fibre, such as "420 g linen"; the error is one sentence.
func ParseGoods(s string, sys quantity.System) (Goods, error) {
	s = strings.TrimSpace(s)
	i := strings.LastIndex(s, " ")
	if i < 0 {
		return Goods{}, fmt.Errorf("%s: write the dry weight and the fibre, such as '600 g cotton'", s)
	}
	m, err := quantity.ParseMass(strings.TrimSpace(s[:i]), sys)
	if _, bare := quantity.ParseMass(s, sys); err != nil && bare == nil {
		return Goods{}, fmt.Errorf("%s: the fibre is missing; write both, such as '600 g cotton'", s)
	}
	if err != nil {
		return Goods{}, err
	}
	f, err := fibre.Parse(s[i+1:])
	if err != nil {
		return Goods{}, err
	}
	return Goods{Fibre: f, Dry: m}, nil
}
