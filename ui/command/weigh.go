package command

import (
	"fmt"

	"github.com/spf13/cobra"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/wording"
)

type weighing struct {
	recipe      string
	fill        quantity.Volume
	options     recipe.Options
	have, spoon []string
}

func (p *program) weighCommand() *cobra.Command {
	var w weighing
	return p.command("weigh --recipe ID|FILE --fill VOLUME", "What to weigh for a fill, or how large a fill the powders at hand allow", nil, func(r *reader) {
		r.needs = []string{"recipe"}
		r.rules = func() []rule {
			return []rule{{len(r.typed("fill", "have")) == 0, "weigh needs --fill, or --have to find the largest one"}}
		}
		r.recipe(&w.recipe)
		value(r, &w.options.IndigoStrength, "indigo-strength", "", "", someShare)
		r.StringArrayVar(&w.have, "have", nil, "a `powder` at hand, such as 'indigo=38 g'; once for each")
		r.StringArrayVar(&w.spoon, "spoon", nil, "five level `spoons` of a powder, weighed, such as 'soda=41 g'; once for each")
		value(r, &w.fill, "fill", "", "", fillRead)
		r.withUnits()
	}, func(r *reader) error { return p.weigh(w, r.Changed("fill"), r.sys) })
}

// weigh tells the powders of a fill: the one that was asked for, else the largest that what is at hand allows.
func (p *program) weigh(w weighing, asked bool, sys quantity.System) error {
	r := got(p.find(w.recipe))
	have := got(parseHave("--have", w.have, sys))
	five := got(parseHave("--spoon", w.spoon, sys))
	fill, most, limit := w.fill, quantity.Volume(0), ""
	var tooLittle error
	if len(have) > 0 {
		if most, limit, tooLittle = recipe.Largest(r, have, w.options); !asked || limit == "" {
			must(tooLittle)
		}
	}
	short := limit != "" && asked && (tooLittle != nil || most < fill*(1-1e-9))
	if !asked {
		fill = most
	} else if !short {
		limit = ""
	}
	am := got(recipe.Scale(r, fill, w.options))
	careful := cautions(r, am)
	if short {
		allow := wording.Either(tooLittle != nil, "too little for any vat", fmt.Sprintf("enough for a fill of %s", most.Format(sys)))
		careful = append([]string{fmt.Sprintf("the %s at hand, %s, is %s", limit, have[limit].Format(sys), allow)}, careful...)
	}
	var tell telling
	tell.line("%s, %s", r.Name, fill.Format(sys))
	if limit != "" && !short {
		tell.line("The largest fill that the powders at hand allow; %s limits it.", limit)
	}
	tell.line("")
	spoons := map[string]recipe.Spoon{}
	for id, mass := range five {
		spoon, err := recipe.SpoonFor(r, id, mass)
		must(about("--spoon", err))
		spoons[id] = spoon
	}
	var rows table
	powders := []object{}
	for _, a := range am.Powders {
		keys := object{
			{"id", a.Powder.ID}, {"material", a.Powder.Material}, {"role", a.Powder.Role},
			{"grams", tidy(a.Grams.Grams())}, {"hydrate_ml", tidy(a.Hydrate.Millilitres())},
		}
		wet := ""
		if sp, known := spoons[a.Powder.ID]; known { // five level spoons of it were weighed
			keys = keys.and(true, "spoons", sp.Spoons(a.Grams))
			wet = ", or " + sp.Say(a.Grams)
		}
		powders = append(powders, keys)
		if a.Hydrate > 0 {
			wet += ", wetted with " + a.Hydrate.Format(sys) + " of water"
			wet += wording.If(a.Jars > 1, fmt.Sprintf(" in %d jars", a.Jars))
		}
		rows.add(a.Grams.Scale(sys), fmt.Sprintf("%s (%s)%s", a.Powder.Material, a.Powder.ID, wet))
	}
	tell.table(rows)
	tell.line("")
	tell.notes("Caution", careful)
	tell.note("Source of the doses", r.Source)
	return p.give(object{{"recipe", r.ID}, {"fill_l", tidy(fill.Litres())}, {"powders", powders}, {"cautions", careful}, {"limited_by", some(limit)}}, tell)
}

// cautions are those of the amounts, else those of the recipe's steps, each once.
func cautions(r recipe.Recipe, a recipe.Amounts) []string {
	if len(a.Cautions) > 0 {
		return list(a.Cautions)
	}
	return list(wording.Once(wording.Filled(wording.Each(r.Steps, func(s recipe.Step) string { return s.Caution })...)))
}
