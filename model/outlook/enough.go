package outlook

import (
	"example.org/vatside/model/day"
	"example.org/vatside/model/fibre"
)

// Enough is how many dips the pieces of the day still want, but for those that the vat refuses, and for how many of them the indigo that
// can be used is likely enough. Each piece is taken to use its dry weight's part of the capacity for its depth, "mid" where it has no name,
// as much in each dip. All is 0 where nothing is to come, or nothing is known of the indigo.
func (i Indigo) Enough(s day.State) (dips, all int) {
	part, bears := 0.0, s.Bearing()
	for _, p := range s.Pieces {
		left := p.Want() - p.Dips
		if !p.Live() || left <= 0 || !(p.Spec.Dry > 0) {
			continue
		}
		if v, _ := bears(p); v == fibre.Refused {
			continue
		}
		holds := 0.0
		for _, c := range i.Capacity {
			if c.Depth.Name == p.Spec.Depth || holds == 0 && c.Depth.Name == "mid" {
				holds = c.KgLeft.Likely.Grams()
			}
		}
		if holds <= 0 {
			if len(i.Capacity) == 0 {
				return 0, 0
			}
			return 0, left
		}
		all += left
		part += p.Spec.Dry.Grams() * float64(left) / float64(p.Want()) / holds
	}
	if part <= 1 {
		return all, all
	}
	return int(float64(all) / part), all
}
