package sheet

import (
	"slices"
	"strings"

	"example.org/vatside/model/practice"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/wording"
)

// Safety gathers the dangers: what to do at an accident, the substances, what never meets, what scalds, the rules that
// nothing passes over, and who decides. r is the recipe whose substances are told of, nil for all that are known;
// emergency is the dyer's own number, empty to leave room for it.
func Safety(r *recipe.Recipe, emergency string, sys quantity.System) Sheet {
	s := Sheet{Title: "Safety", Subtitle: "for every vat here; hang it where the powders are", Edge: edge(), Foot: practice.WhoDecides}
	if r != nil {
		s.Subtitle = r.Name + "; hang it where the powders are"
	}
	s.Add(Facts{[]Fact{{"emergency", emergency}, {"poison line", ""}, {"place to tell", ""}}})
	s.Add(Heading{"First aid"}, Paragraph{practice.HelpDecides})
	aid := Table{Columns: columns("what", "at once", "then")}
	for _, a := range practice.FirstAid() {
		aid.Rows = append(aid.Rows, texts(a.Name, a.Act, strings.Join(a.How, " ")))
	}
	s.Add(aid)
	s.Add(Heading{"Without exception"}, Cautions{practice.NoOverride()})
	s.Add(Heading{"What scalds"}, scalds(sys))
	s.Add(PageBreak{}, Heading{"The substances"})
	if list := substances(r); len(list) > 0 {
		s.Add(dangers(list), Paragraph{"A card is an International Chemical Safety Card (ICSC); H are the hazard statements, to be confirmed on the supplier's sheet. " +
			"Without a number no card was found."})
	}
	return s
}

func scalds(sys quantity.System) Table {
	t := Table{Columns: columns("*water at", "scalds within")}
	for _, c := range practice.Scalds() {
		t.Rows = append(t.Rows, texts(c.At.Format(sys), c.Within))
	}
	return t
}

// substances are those of a recipe and of what comes after it, the recipe's own first.
func substances(r *recipe.Recipe) []practice.Chemical {
	all := practice.Chemicals()
	if r == nil {
		return all
	}
	var out []practice.Chemical
	add := func(c practice.Chemical) {
		if !slices.ContainsFunc(out, func(o practice.Chemical) bool { return o.CAS == c.CAS }) {
			out = append(out, c)
		}
	}
	for _, p := range r.Powders {
		if c, ok := practice.ChemicalOf(p.Substance()); ok {
			add(c)
		}
	}
	after := []string{"64-19-7", "77-92-9"} // vinegar and citric acid, of the souring
	if r.Family.SulfurReducer() {
		after = append(after, "7446-09-5", "7722-84-1") // what acid frees; peroxide, which must not come near
	}
	for _, c := range all {
		if slices.Contains(after, c.CAS) {
			add(c)
		}
	}
	return out
}

func dangers(list []practice.Chemical) Table {
	t := Table{Columns: columns("substance", "danger", "never with", "wear", "first aid", "store, spill")}
	for _, c := range list {
		t.Rows = append(t.Rows, texts(
			wording.Joined(", ", c.Name, c.Signal, c.Card(), strings.Join(c.Hazards, " ")), c.Danger, strings.Join(c.NeverWith, ", "), c.Wear, c.FirstAid,
			wording.Joined("; spill: ", c.Store, c.Spill),
		))
	}
	return t
}
