package command

import (
	"cmp"
	"fmt"
	"math"
	"strings"

	"github.com/spf13/cobra"

	"example.org/vatside/model/cost"
	"example.org/vatside/model/history"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/library"
	"example.org/vatside/ui/shelf"
)

func (p *program) costCommand() *cobra.Command {
	var piece string
	var hour, kwh *quantity.Money
	return p.command("cost [VAT]", "What a vat cost, each piece's share of it, and what its buyer should know", cobra.MaximumNArgs(1), func(r *reader) {
		r.StringVar(&piece, "piece", "", "`tag` of a piece: its cost and its label alone")
		value(r, &hour, "hour", "", "what an `hour` of yours costs, such as 18.50 (else as in the settings)", optional(quantity.ParseMoney))
		value(r, &kwh, "kwh", "", "what a `kilowatt-hour` costs, such as 0.32 (else as in the settings)", optional(quantity.ParseMoney))
		r.withUnits()
	}, p.inHome(func(h shelf.Home, r *reader) error {
		rates := p.rates(h)
		rates.Hour, rates.KWh = *cmp.Or(hour, &rates.Hour), *cmp.Or(kwh, &rates.KWh)
		if hour != nil && *hour < 0 {
			return fmt.Errorf("--hour %s: it costs nothing or more, such as 18.50", *hour)
		}
		if kwh != nil && *kwh < 0 {
			return fmt.Errorf("--kwh %s: it costs nothing or more, such as 18.50", *kwh)
		}
		return p.cost(h, strings.Join(r.args, ""), piece, rates, r.sys)
	}))
}

// rates are what the settings say of the dyer's work and of heat.
func (p *program) rates(h shelf.Home) cost.Rates {
	set, err := h.Settings()
	p.warn(err)
	return cost.Rates{Hour: set.Hour, KWh: set.KWh}
}

func (p *program) cost(h shelf.Home, named, piece string, rates cost.Rates, sys quantity.System) error {
	days := p.daysOf(h, named, "")
	vat := days[0].State.Head.Vat
	v, err := library.Costs(h, vat, days, rates)
	p.warn(err)
	if piece != "" {
		all := v.Pieces
		v.Pieces = wording.Only(all, func(x cost.Piece) bool { return strings.EqualFold(x.Tag, piece) })
		switch {
		case len(all) == 0:
			return fmt.Errorf("no piece was dipped in %s yet", vat)
		case len(v.Pieces) == 0:
			tags := wording.List(wording.Each(all, func(x cost.Piece) string { return x.Tag }))
			return fmt.Errorf("no piece %q was dipped in %s; there are %s", piece, vat, tags)
		}
	}
	return p.give(costedOf(v, days), tellCost(v, days, piece != "", sys))
}

// tellCost prints a vat's costs, or those of one piece with its label.
func tellCost(v cost.Vat, days history.Vat, one bool, sys quantity.System) (tell telling) {
	head := days[0].State.Head
	name := head.Name() + wording.If(head.Rehearsed, ", rehearsed")
	sums := v.Sums()
	if !one {
		so := sums.Total + " so far"
		if v.Work() > 0 {
			so = fmt.Sprintf("the vat %s so far, and %s of work on its pieces: %s", sums.Total, sums.Work, sums.WithWork)
		}
		switch {
		case sums.Total == cost.Unpriced:
			so = "no price is told yet"
		case sums.Partly:
			so += ", without what is not told"
		}
		tell.line("%s, %s: %s.", name, wording.Counted(len(days), "day"), so)
		tell.line("")
		var t table
		for _, w := range v.Powders {
			t.add(w.Shown(), w.Mass.Format(sys)+" of "+w.Material)
		}
		t.add(sums.Heat, fmt.Sprintf("heat, %.1f kWh", v.Heat.KilowattHours()))
		t.add(sums.Tended, "building and tending it, "+quantity.Minutes(math.Round(v.Tending.Minutes())).String())
		tell.table(t)
		tell.line("")
	}
	var t table
	for _, x := range v.Pieces {
		t.add(v.SumsOf(x).Total, pieceCost(v, x, sys))
	}
	tell.table(t)
	if !one && v.Per100g > 0 {
		tell.table(table{{v.Per100g.String(), "for each 100 g of goods"}})
	}
	if one {
		tell.line("")
		l := v.Pieces[len(v.Pieces)-1].Label
		tell.note("Label", l.Made)
		tell.notes("", append(l.Care, l.Rubbing...))
	}
	tell.line("")
	tell.notes("", v.Notes)
	return tell
}

// pieceCost is one piece in a line: what it is, and what its cost is made of.
func pieceCost(v cost.Vat, x cost.Piece, sys quantity.System) string {
	sums := v.SumsOf(x)
	words := wording.Joined(", ", x.Tag, x.What, x.Fibre, wording.If(x.Dry > 0, x.Dry.Format(sys)),
		wording.Counted(x.Dips, "dip"), "on "+x.Day)
	text := words + fmt.Sprintf(": powders %s, heat %s, the vat's hours %s, its own %s",
		sums.Powders, sums.Heat, sums.Tended, sums.Work)
	text += wording.If(x.Per100g > 0, fmt.Sprintf("; %s for each 100 g", x.Per100g))
	return text
}

// costedOf are the keys of cost --json. Sums are in the dyer's own currency, null where no price or rate was told; share is of
// all that the vat cost. cost is without work_cost, the pieces' own hours; cost_with_work is both.
func costedOf(v cost.Vat, days history.Vat) object {
	told := func(m quantity.Money, shown string) *float64 { return when(shown != cost.Unpriced, money(m)) }
	sums := v.Sums()
	return object{
		{"vat", days[0].State.Head.Vat}, {"rehearsed", days[0].State.Head.Rehearsed}, {"days", len(days)},
		{"powders", each(v.Powders, func(w cost.Powder) object {
			return object{{"material", w.Material}, {"grams", tidy(w.Mass.Grams())}, {"priced_g", tidy(w.Priced.Grams())}, {"cost", told(w.Cost, w.Shown())}}
		})},
		{"heat_kwh", tidy(v.Heat.KilowattHours())}, {"heat_cost", told(v.HeatCost, sums.Heat)}, {"tending_h", tidy(v.Tending.Hours())}, {"tending_cost", told(v.Tended, sums.Tended)},
		{"cost", told(v.Total, sums.Total)}, {"work_cost", told(v.Work(), sums.Work)}, {"cost_with_work", told(v.Total+v.Work(), sums.WithWork)},
		{"used_share", tidy(v.Used.Fraction())}, {"goods_g", tidy(v.Goods.Grams())}, {"cost_per_100g", money(v.Per100g)},
		{"pieces", each(v.Pieces, func(x cost.Piece) object {
			l, s := x.Label, v.SumsOf(x)
			return object{
				{"day", x.Day}, {"tag", x.Tag}, {"what", x.What}, {"fibre", x.Fibre}, {"dry_g", tidy(x.Dry.Grams())}, {"dips", x.Dips}, {"indigo_g", tidy(x.Indigo.Grams())},
				{"share", tidy(x.Share.Fraction())}, {"powders_cost", told(x.Powders, s.Powders)}, {"heat_cost", told(x.Heat, s.Heat)}, {"tending_cost", told(x.Tended, s.Tended)},
				{"work_h", tidy(x.Hours.Hours())}, {"work_cost", told(x.Work, s.Work)}, {"cost", told(x.Total, s.Total)}, {"cost_per_100g", money(x.Per100g)},
				{"label_made", l.Made}, {"label_care", l.Care}, {"label_rubbing", l.Rubbing},
			}
		})},
		{"notes", list(v.Notes)},
	}
}
