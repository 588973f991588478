package sheet

import (
	"cmp"
	"fmt"
	"slices"
	"time"

	"example.org/vatside/model/cost"
	"example.org/vatside/model/history"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/wording"
)

// OfCost is what a vat cost and how its pieces share it, for the dyer's own book: sums in the dyer's own currency.
func OfCost(name string, v cost.Vat, sys quantity.System) Sheet {
	out := Sheet{Title: "What " + name + " cost", Subtitle: "for the dyer, not for the buyer", Edge: edge()}
	sums := v.Sums()
	powders := Table{Columns: columns("what", "*how much", "*cost")}
	for _, p := range v.Powders {
		powders.Rows = append(powders.Rows, texts(p.Material, p.Mass.Format(sys), p.Shown()))
	}
	powders.Rows = append(powders.Rows,
		texts("heat", fmt.Sprintf("%.1f kWh", v.Heat.KilowattHours()), sums.Heat),
		texts("building and tending", fmt.Sprintf("%.1f h", v.Tending.Hours()), sums.Tended),
		texts("the vat", "", sums.Total),
		texts("work on its pieces", "", sums.Work),
		texts("in all", "", sums.WithWork))
	out.part("The vat", powders)
	pieces := Table{Columns: columns("day", "piece", "*dry", "*of the vat", "*own work", "*cost", "*per 100 g")}
	for _, p := range v.Pieces {
		one, per := v.SumsOf(p), p.Per100g.String()
		if p.Per100g == 0 {
			per = ""
		}
		share := (p.Powders + p.Heat + p.Tended).String()
		if p.Powders+p.Heat+p.Tended == 0 {
			share = cost.Unpriced
		}
		pieces.Rows = append(pieces.Rows, texts(p.Day, wording.Joined(" ", p.Tag, p.What), p.Dry.Format(sys),
			share, one.Work, one.Total, per))
	}
	out.part("The pieces", pieces)
	for _, n := range v.Notes {
		out.Add(Paragraph{wording.Sentence(n)})
	}
	return out
}

// OfLabels are cards for the buyers of a vat's pieces, to be cut out: what it is, its blue where that was seen, how to wash it,
// and that it rubs off. days are the vat's, the oldest first. A blue that was only wished for or reckoned stands on no card.
func OfLabels(name string, days []Day, v cost.Vat, now time.Time) Sheet {
	out := Sheet{Title: "Labels, " + name, Subtitle: "Cut along the dashes. Care is common practice; put into your own words what you know better.", Edge: edge()}
	blues, look := history.BluesOf(days), lookers(now)
	var cards Cards
	for _, p := range v.Pieces {
		c := Card{Tag: p.Tag, What: cmp.Or(p.What, p.Fibre), Made: p.Label.Made, Care: p.Label.Care, Rubbing: p.Label.Rubbing}
		for _, b := range blues {
			if b.Piece.Tag == p.Tag && b.Seen && slices.Contains(b.Days, p.Day) {
				if sw, ok := look(b); ok {
					c.Swatch = &sw
				}
			}
		}
		cards.List = append(cards.List, c)
	}
	out.Add(cards)
	return out
}
