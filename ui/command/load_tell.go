package command

import (
	"cmp"
	"encoding/csv"
	"fmt"
	"math"
	"strconv"
	"strings"

	"example.org/vatside/model/load"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/water"
	"example.org/vatside/model/wording"
)

// pricing is what load was told of what things cost, and of the vat that they are for.
type pricing struct {
	recipe string
	fill   quantity.Volume
	fixed  bool
	prices []string
	energy *quantity.Money
}

// expense is what a day's vats cost: powders by the dyer's prices, the indigo of feeds in them, and the heat of their water.
type expense struct {
	Powders        quantity.Money
	Heat           quantity.Money
	Heated         bool // the price of its energy was told
	People, Pieces int
	Without        []string // powders that have no price
}

// head is the share of one person, or of one piece where none is anybody's.
func (c expense) head() quantity.Money {
	return quantity.Hundredths((c.Powders + c.Heat).Hundredths() / int64(cmp.Or(c.People, c.Pieces, 1)))
}

// among says who bears it.
func (c expense) among() string {
	switch c.People {
	case 0:
		if c.Pieces == 1 {
			return "for the piece"
		}
		return "a piece, of " + wording.Counted(c.Pieces, "piece")
	case 1:
		return "for 1 person"
	}
	return fmt.Sprintf("a head for %d people", c.People)
}

// priceOf reads what something costs.
func priceOf(s string, sys quantity.System) (quantity.Money, error) {
	each, err := quantity.ParseMoney(strings.TrimSpace(s), sys)
	if err == nil && each < 0 {
		err = fmt.Errorf("%s is negative; a price is never below zero", strings.TrimSpace(s))
	}
	return each, err
}

// costOf reckons it of a plan, from the cold water as set; nil where no price was given.
func (p *program) costOf(l loading, plan load.Plan, pieces []load.Piece, sys quantity.System) *expense {
	if len(l.prices) == 0 && l.energy == nil {
		return nil
	}
	r := got(p.find(l.recipe))
	am := got(recipe.Scale(r, l.fill, recipe.Options{}))
	price := map[string]quantity.Money{}
	var err error
	for _, s := range l.prices {
		id, each, ok := strings.Cut(s, "=")
		id = strings.TrimSpace(id)
		if _, known := r.Powder(id); !ok || !known {
			stop("--price %q: write a powder of the recipe and its price for a kilogram, such as 'indigo=90'", s)
		}
		price[id], err = priceOf(each, sys)
		must(about(fmt.Sprintf("--price %q", s), err))
	}
	c := &expense{Heated: l.energy != nil}
	var fed quantity.Mass // pure
	if way, is := wording.First(plan.Choices, func(c load.Choice) bool { return c.Chosen }); is {
		fed = way.Feed * quantity.Mass(len(way.Feeds))
	}
	for _, a := range am.Powders {
		kilograms := a.Grams.Kilograms() * float64(l.vats)
		if a.Powder.Role == recipe.Indigo {
			kilograms += fed.Kilograms() / float64(cmp.Or(a.Powder.Strength, 1))
			fed = 0
		}
		each, known := price[a.Powder.ID]
		if !known {
			c.Without = append(c.Without, a.Powder.Material)
			continue
		}
		c.Powders += priced(each, kilograms)
	}
	if cold := p.asSet().Cold; l.energy != nil && r.Liquor.Build > cold {
		c.Heat = priced(*l.energy, float64(l.vats)*water.Heat(l.fill, cold, r.Liquor.Build).KilowattHours())
	}
	c.People = len(wording.Once(wording.Some(pieces, func(x load.Piece) (string, bool) { return x.Who, x.Who != "" })))
	c.Pieces = len(pieces)
	return c
}

// priced is so many units of something at a price.
func priced(each quantity.Money, n float64) quantity.Money {
	return quantity.Hundredths(int64(float64(each.Hundredths())*n + 0.5))
}

// loadedOf are the keys of load --json; at says a time of the plan. hand is the pair that lowers a piece, 0: no limit of hands; round is
// of fair turns, 0: outside of them; choices are the ways where the vat tires; costs are in the dyer's
// own currency, cost_per_head of a piece where people is 0, heat_cost null where no price of energy was told.
func loadedOf(plan load.Plan, options []load.Option, price *expense, at func(quantity.Span) string) object {
	min := func(s quantity.Span) float64 { return tidy(s.Minutes()) }
	out := object{
		{"makespan_min", min(plan.Makespan)}, {"bound_min", min(plan.Bound)}, {"gap_min", min(plan.Gap)}, {"proven", plan.Proven},
		{"rows", each(plan.Rows, func(r load.Row) object {
			return object{
				{"tag", r.Tag}, {"dip", r.Dip}, {"in_min", min(r.In)}, {"out_min", min(r.Out)}, {"lower_min", min(r.Lower)}, {"lifted_min", min(r.Lifted)},
				{"who", r.Who}, {"vat", r.Vat}, {"hand", r.Hand}, {"round", r.Round},
			}
		})},
		{"done", each(plan.Done, func(d load.Done) object { return object{{"tag", d.Tag}, {"done_min", min(d.At)}} })},
		{"stands", each(plan.Stands, func(s load.Stand) object {
			return object{{"kind", s.Kind}, {"from_min", min(s.From)}, {"to_min", min(s.To)}, {"vat", s.Vat}}
		})},
		{"warnings", list(plan.Warnings)},
	}
	out = out.and(len(options) > 0, "what_if", each(options, func(o load.Option) object {
		fits := o.Fault == ""
		return object{
			{"id", o.ID}, {"makespan_min", when(fits, min(o.Plan.Makespan))}, {"finish_min", when(fits, min(o.Finish))},
			{"warnings", append(list(o.Warnings), wording.Filled(o.Fault)...)},
		}
	}))
	out = out.and(true, "choices", each(plan.Choices, func(c load.Choice) object {
		return object{
			{"id", c.ID}, {"chosen", c.Chosen}, {"makespan_min", min(c.Makespan)}, {"late_min", min(c.Late)}, {"weak_dips", c.Weak}, {"what", c.Words(at)},
		}
	}))
	if price != nil {
		out = append(out, object{
			{"cost_per_head", money(price.head())}, {"powders_cost", money(price.Powders)}, {"heat_cost", when(price.Heated, money(price.Heat))},
			{"people", price.People}, {"without_price", list(price.Without)},
		}...)
	}
	return out
}

// csvOf is a timetable as comma-separated values with a head line: tag, number of the dip, vat, and in minutes from the start
// when it is lowered, in, over and lifted, whether it lay behind already, whose the piece is, which pair of hands lowers it and
// the round of fair turns; 0 where there is none. Lines end in a line feed.
func csvOf(plan load.Plan) string {
	var b strings.Builder
	w := csv.NewWriter(&b)
	_ = w.Write(strings.Split("tag,dip,vat,lower_min,in_min,out_min,lifted_min,past,who,hand,round", ",")) // into memory: it cannot fail
	for _, r := range plan.Rows {
		fields := []string{r.Tag, strconv.Itoa(r.Dip), strconv.Itoa(r.Vat)}
		for _, at := range []quantity.Span{r.Lower, r.In, r.Out, r.Lifted} {
			fields = append(fields, strconv.FormatFloat(math.Round(at.Minutes()*100)/100, 'f', -1, 64))
		}
		past := wording.If(r.Past, "past")
		_ = w.Write(append(fields, past, r.Who, strconv.Itoa(r.Hand), strconv.Itoa(r.Round)))
	}
	w.Flush()
	return b.String()
}
