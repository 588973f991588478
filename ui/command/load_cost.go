package command

import (
	"cmp"
	"fmt"
	"strings"

	"example.org/vatside/model/load"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/water"
)

// coldWater is what the heat of a fill is reckoned from. From memory.
const coldWater = quantity.Temperature(12)

// pricing is what load was told of what things cost, and of the vat that they are for.
type pricing struct {
	recipe string
	fill   quantity.Volume
	fixed  bool
	prices []string
	energy *quantity.Money
}

// expense is what a day's vat costs: powders by the dyer's prices, and the heat of its water.
type expense struct {
	Powders quantity.Money
	Heat    quantity.Money
	Heads   int
	Without []string // powders that have no price
}

// head is the share of one person.
func (c expense) head() quantity.Money {
	return quantity.Hundredths((c.Powders + c.Heat).Hundredths() / int64(max(c.Heads, 1)))
}

// priceOf reads what something costs.
func priceOf(s string, sys quantity.System) (quantity.Money, error) {
	each, err := quantity.ParseMoney(strings.TrimSpace(s), sys)
	if err == nil && each < 0 {
		err = fmt.Errorf("%s is negative; a price is never below zero", strings.TrimSpace(s))
	}
	return each, err
}

// costOf reckons it; nil where no price was given.
func (p *program) costOf(l pricing, pieces []load.Piece, sys quantity.System) (*expense, error) {
	if len(l.prices) == 0 && l.energy == nil {
		return nil, nil
	}
	if l.fixed {
		return nil, usageError{fmt.Errorf("--price and --energy need --recipe and --fill: the plain problem has no powders")}
	}
	r, err := p.find(l.recipe)
	if err != nil {
		return nil, err
	}
	am, err := recipe.Scale(r, l.fill, recipe.Options{})
	if err != nil {
		return nil, err
	}
	price := map[string]quantity.Money{}
	for _, s := range l.prices {
		id, each, ok := strings.Cut(s, "=")
		id = strings.TrimSpace(id)
		if _, known := r.Powder(id); !ok || !known {
			return nil, fmt.Errorf("--price %q: write a powder of the recipe and its price for a kilogram, such as 'indigo=90'", s)
		}
		if price[id], err = priceOf(each, sys); err != nil {
			return nil, fmt.Errorf("--price %q: %w", s, err)
		}
	}
	c := &expense{}
	for _, a := range am.Powders {
		each, known := price[a.Powder.ID]
		if !known {
			c.Without = append(c.Without, a.Powder.Material)
			continue
		}
		c.Powders += priced(each, a.Grams.Kilograms())
	}
	if l.energy != nil && r.Liquor.Build > coldWater {
		c.Heat = priced(*l.energy, water.Heat(l.fill, coldWater, r.Liquor.Build).KilowattHours())
	}
	heads := map[string]bool{}
	for _, piece := range pieces {
		heads[cmp.Or(piece.Who, piece.Tag)] = true
	}
	c.Heads = len(heads)
	return c, nil
}

// priced is so many units of something at a price.
func priced(each quantity.Money, n float64) quantity.Money {
	return quantity.Hundredths(int64(float64(each.Hundredths())*n + 0.5))
}

func people(n int) string {
	if n == 1 {
		return "1 person"
	}
	return fmt.Sprintf("%d people", n)
}
