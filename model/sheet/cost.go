package sheet

import (
	"fmt"

	"example.org/vatside/model/cost"
	"example.org/vatside/model/quantity"
)

// OfCost is what a vat cost and how its pieces share it, for the dyer's own book: sums in the dyer's own currency.
func OfCost(name string, v cost.Vat, sys quantity.System) Sheet {
	out := Sheet{Title: "What " + name + " cost", Subtitle: "for the dyer, not for the buyer", Edge: edge()}
	powders := Table{Columns: columns("what", "*how much", "*cost")}
	for _, p := range v.Powders {
		price := p.Cost.String()
		if p.Priced == 0 {
			price = "not told"
		}
		powders.Rows = append(powders.Rows, texts(p.Material, p.Mass.Format(sys), price))
	}
	powders.Rows = append(powders.Rows,
		texts("heat", fmt.Sprintf("%.1f kWh", v.Heat.KilowattHours()), v.HeatCost.String()),
		texts("building and tending", fmt.Sprintf("%.1f h", v.Tending.Hours()), v.Tended.String()),
		texts("in all", "", v.Total.String()))
	out.part("The vat", powders)
	pieces := Table{Columns: columns("day", "piece", "*dry", "*of the vat", "*own work", "*cost", "*per 100 g")}
	for _, p := range v.Pieces {
		per := p.Per100g.String()
		if p.Per100g == 0 {
			per = ""
		}
		pieces.Rows = append(pieces.Rows, texts(p.Day, joined(" ", p.Tag, p.What), p.Dry.Format(sys),
			(p.Powders+p.Heat+p.Tended).String(), p.Work.String(), p.Total.String(), per))
	}
	out.part("The pieces", pieces)
	for _, n := range v.Notes {
		out.Add(Paragraph{sentence(n)})
	}
	return out
}

// OfLabels are the words for the buyers of a vat's pieces: what it is, how to wash it, and that its blue rubs off.
func OfLabels(name string, v cost.Vat) Sheet {
	out := Sheet{Title: "Labels, " + name, Edge: edge(), Foot: "Care is common practice; put into your own words what you know better."}
	for _, p := range v.Pieces {
		out.Add(Heading{joined(" ", p.Tag, p.What)}, Paragraph{p.Label.Made})
		for _, w := range append(append([]string{}, p.Label.Care...), p.Label.Rubbing...) {
			out.Add(Paragraph{w})
		}
	}
	return out
}
