package cost_test

import (
	"testing"

	"example.org/vatside/model/cost"
	"example.org/vatside/model/quantity"
)

// What has no price is a question mark; what there is nothing of costs nothing.
func TestSums(t *testing.T) {
	hour := quantity.Hours(1)
	for name, c := range map[string]struct {
		v    cost.Vat
		want cost.Sums
	}{
		"nothing is there": {cost.Vat{}, cost.Sums{Powders: "0.00", Heat: "0.00", Tended: "0.00", Work: "0.00", Total: "0.00", WithWork: "0.00"}},
		"nothing is told": {cost.Vat{Powders: []cost.Powder{{Material: "soda ash", Mass: 100}}, Heat: quantity.Joules(2 * 3.6e6), Tending: hour},
			cost.Sums{Powders: "?", Heat: "?", Tended: "?", Work: "?", Total: "?", WithWork: "?", Partly: true}},
		"stood made": {cost.Vat{Made: true}, cost.Sums{Powders: "?", Heat: "0.00", Tended: "0.00", Work: "0.00", Total: "0.00", WithWork: "0.00", Partly: true}},
		"one powder of two": {cost.Vat{Powders: []cost.Powder{{Mass: 100}, {Mass: 100, Priced: 100, Cost: 150}}, Total: 150},
			cost.Sums{Powders: "1.50", Heat: "0.00", Tended: "0.00", Work: "0.00", Total: "1.50", WithWork: "1.50", Partly: true}},
		"all": {cost.Vat{Powders: []cost.Powder{{Mass: 100, Priced: 100, Cost: 150}}, Heat: quantity.Joules(2 * 3.6e6), HeatCost: 60, Tending: hour, Tended: 2000,
			Total: 2210, Pieces: []cost.Piece{{Hours: hour, Work: 2000}, {Hours: hour, Work: 1000}}},
			cost.Sums{Powders: "1.50", Heat: "0.60", Tended: "20.00", Work: "30.00", Total: "22.10", WithWork: "52.10"}},
	} {
		if got := c.v.Sums(); got != c.want {
			t.Errorf("%s: %+v, want %+v", name, got, c.want)
		}
	}
}
