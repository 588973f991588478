package outlook

import (
	"example.org/vatside/model/day"
	"example.org/vatside/model/fibre"
	"example.org/vatside/model/liquor"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/shade"
)

// takenBy is what a piece took in so many dips, by the depth that so many usually give.
func takenBy(p day.Piece, dips int) liquor.Taken {
	on := func(n int) float64 {
		if d, err := shade.ByName(shade.AfterDips(n)); err == nil {
			return d.OnFibre.Fraction() * float64(n) / float64(max(d.Dips, 1))
		}
		return 0
	}
	likely := max(0, on(p.Dips)-on(p.Dips-dips))
	return liquor.Taken{Dry: p.Spec.Dry, OnFibre: quantity.Map(onFibre, func(f float64) quantity.Share { return quantity.Share(likely * f) })}
}

// Took is the pure indigo that a piece took in its dips of this day, by the depth that so many usually give: none without a
// dip or a weight.
func Took(p day.Piece) quantity.Range[quantity.Mass] {
	dips := p.Dips - p.Spec.Had
	if dips <= 0 {
		return quantity.Range[quantity.Mass]{}
	}
	return quantity.Map(takenBy(p, dips).OnFibre, func(s quantity.Share) quantity.Mass { return s.Of(p.Spec.Dry) })
}

// CarriedOut is the liquor that a piece takes out of the vat for good in so many dips: what the rinse gets. The part of its
// pick-up is from memory.
func CarriedOut(p day.PieceSpec, dips int) quantity.Volume {
	f, _ := fibre.Parse(p.Fibre) // unknown counts as cotton
	return f.Carried(p.Dry).Likely * quantity.Volume(float64(dips)*broughtBack)
}
