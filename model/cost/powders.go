package cost

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"example.org/vatside/model/history"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/stock"
)

// Powder is all of one powder that went into a vat, and what it cost.
type Powder struct {
	Material string
	Mass     quantity.Mass
	Cost     quantity.Money // of Priced
	Priced   quantity.Mass  // the part of Mass that has a price
	Like     quantity.Mass  // the part of Priced that came out of no tin on the list: by the price last paid for such a powder
}

// Powders sums the draws that are mine, each at the price of the tin that it came out of; what came out of none of them, as
// a rehearsed day or one before the list was kept, at the price last paid for the same powder. Takes are those of
// stock.Reckon for the same draws.
func Powders(tins []stock.Tin, draws []history.Draw, takes []stock.Take, mine func(draw int) bool) []Powder {
	byTin := map[string]stock.Tin{}
	for _, t := range tins {
		byTin[t.ID] = t
	}
	var out []Powder
	var from []map[string]quantity.Mass // of each powder, what came out of each tin
	at := map[string]int{}
	of := make([]int, len(draws))
	rest := make([]quantity.Mass, len(draws))
	for n, d := range draws {
		of[n] = -1
		if !mine(n) || d.Mass <= 0 {
			continue
		}
		key := strings.ToLower(d.Material)
		i, ok := at[key]
		if !ok {
			i = len(out)
			at[key] = i
			out, from = append(out, Powder{Material: d.Material}), append(from, map[string]quantity.Mass{})
		}
		of[n], rest[n] = i, d.Mass
		out[i].Mass += d.Mass
	}
	for _, t := range takes {
		if t.Draw < len(of) && of[t.Draw] >= 0 {
			from[of[t.Draw]][t.Tin] += t.Mass
			rest[t.Draw] -= t.Mass
		}
	}
	for n, d := range draws {
		if of[n] < 0 || rest[n] <= 1e-9 {
			continue
		}
		if t, ok := stock.LastPaid(tins, d); ok {
			from[of[n]][t.ID] += rest[n]
			out[of[n]].Like += rest[n]
		}
	}
	for i := range out {
		cost := 0.0
		for id, m := range from[i] {
			if t := byTin[id]; t.Price != nil && t.Holds > 0 {
				cost += float64(t.Price.Hundredths()) * m.Grams() / t.Holds.Grams()
				out[i].Priced += m
			}
		}
		out[i].Cost = quantity.Hundredths(int64(math.Round(cost)))
	}
	slices.SortStableFunc(out, func(a, b Powder) int { return cmp.Compare(b.Cost, a.Cost) })
	return out
}
