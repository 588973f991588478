package sheet

import (
	"slices"

	"example.org/vatside/model/cost"
	"example.org/vatside/model/day"
	"example.org/vatside/model/fibre"
	"example.org/vatside/model/load"
	"example.org/vatside/model/practice"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/wording"
)

// taken is a piece that goes home, with the steps after its last dip that were done or left out at the bench.
type taken struct {
	tag, who, words string
	fibre           fibre.Fibre // Unknown: not said
	dry             quantity.Mass
	bound           bool
	behind          []string // ids of practice.FinishPlan, in its order
}

// SlipsOf are the slips to take home of pieces that are to be dyed in vats of a family.
func SlipsOf(pieces []load.Piece, family recipe.Family, sys quantity.System) Slips {
	return slipsOf(wording.Each(pieces, func(p load.Piece) taken {
		return taken{p.Tag, p.Who, goods(p.Dry, p.Fibre.String(), p.What, p.Dips, sys), p.Fibre, p.Dry, p.Form == load.Bound, nil}
	}), family, sys)
}

// SlipsOfDay are the slips to take home of a day's pieces, with what is still to be done to each. Those that were dropped or
// carried over do not go home, nor does a ladder.
func SlipsOfDay(s day.State) Slips {
	var all []taken
	sys := s.Head.Setup.System()
	for _, p := range s.Pieces {
		if p.Phase == day.Dropped || p.Phase == day.Carried || p.Spec.Form == "ladder" {
			continue
		}
		f, err := fibre.Parse(p.Spec.Fibre)
		if err != nil {
			f = fibre.Unknown
		}
		of := taken{p.Tag, p.Spec.Who, goods(p.Spec.Dry, p.Spec.Fibre, p.Spec.What, max(p.Want(), p.Dips), sys), f, p.Spec.Dry, p.Spec.Form == load.Bound, nil}
		for _, b := range s.Bench(p) {
			if b.Past && (b.ID != "rinse" || b.Done >= b.Times.Likely) { // rinses left out at the bench still come before acid
				of.behind = append(of.behind, b.ID)
			}
		}
		all = append(all, of)
	}
	return slipsOf(all, s.Head.Recipe.Family, sys)
}

// slipsOf is one slip a person, in the order in which each first stands in the list, and one for each piece of nobody.
func slipsOf(all []taken, family recipe.Family, sys quantity.System) Slips {
	var out Slips
	for i, p := range all {
		mine := []taken{p}
		if p.who != "" {
			same := func(q taken) bool { return q.who == p.who }
			if slices.ContainsFunc(all[:i], same) {
				continue
			}
			mine = append(mine, wording.Only(all[i+1:], same)...)
		}
		out.List = append(out.List, slipOf(mine, family, sys))
	}
	return out
}

// slipOf is the slip of one person's pieces: those of one fibre that stand alike after the last dip are finished together.
func slipOf(mine []taken, family recipe.Family, sys quantity.System) Slip {
	out := Slip{Who: mine[0].who, Rubbing: cost.Rubs}
	var together [][]taken
	for _, p := range mine {
		out.Pieces = append(out.Pieces, wording.Joined(": ", p.tag, p.words))
		i := slices.IndexFunc(together, func(g []taken) bool {
			return g[0].fibre == p.fibre && g[0].bound == p.bound && slices.Equal(g[0].behind, p.behind)
		})
		if i < 0 {
			i, together = len(together), append(together, nil)
		}
		together[i] = append(together[i], p)
	}
	for _, g := range together {
		out.Goods = append(out.Goods, slipGoods(g, family, sys))
	}
	return out
}

// slipGoods is what is still to be done to goods that are finished together, with the water and the acid for all of them.
func slipGoods(g []taken, family recipe.Family, sys quantity.System) SlipGoods {
	var tags []string
	var dry quantity.Mass
	for _, p := range g {
		tags = append(tags, p.tag)
		dry += p.dry
	}
	f := g[0].fibre
	out := SlipGoods{Of: wording.List(tags), Care: cost.CareOf(f)}
	if f != fibre.Unknown {
		out.Of = wording.Upper(f.String()) + ", " + out.Of
	}
	plan, err := practice.FinishPlan(practice.Finish{Fibre: f, Family: family, Dry: dry, Thick: g[0].bound})
	if err != nil {
		out.Steps = []Tick{{Title: "Ask before you go", Words: []string{"Its fibre or its weight is not known, so nor are its water and acid."}}}
		return out
	}
	for _, st := range plan {
		if !slices.Contains(g[0].behind, st.ID) {
			if k, ok := atHome(st, sys); ok {
				out.Steps = append(out.Steps, k)
			}
		}
	}
	return out
}

// atHome is a step after the last dip as it stands on a slip; false for those that are left to the bench: soap, the hot
// citric soak, the rubbing test.
func atHome(st practice.FinishStep, sys quantity.System) (Tick, bool) {
	number, unit, note := st.Figure(sys)
	k := Tick{Figure: wording.Joined(" ", number, unit, note), Caution: wording.Joined("; ", st.Cautions...), Words: sentences(st.Do, st.Check)}
	switch st.ID {
	case "air":
		k.Title, k.Words = wording.Upper(st.Do), sentences(st.Check)
		k.Figure = between(st.Time.Low.Format(sys), st.Time.High.Format(sys), " to ")
	case "rinse":
		if k.Title = "Rinse " + wording.Counted(st.Times.Likely, "time"); st.Times.Likely == 2 {
			k.Title = "Rinse twice"
		}
		k.Figure += " each"
	case "sour":
		k.Title = "Then sour"
		k.Title += wording.If(st.Optional, ", if you like")
		k.Caution = wording.Joined("; ", "an adult does this", k.Caution) // as at the vat: acid is for adults
	case "dry":
		k.Title, k.Words = wording.Upper(st.Do), nil // its check is of the shade, which is for the book
	default:
		return Tick{}, false
	}
	return k, true
}

// OfSlips is a page of slips to print and cut.
func OfSlips(title string, s Slips) Sheet {
	out := Sheet{Title: "To take home", Subtitle: title, Edge: edge(), Foot: "Cut along the dashes. Care is common practice."}
	out.Add(s)
	return out
}
