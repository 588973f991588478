package command

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
)

type weighing struct {
	recipe, fill, strength, units string
	have, spoon                   []string
}

func (p *program) weighCommand() *cobra.Command {
	var w weighing
	c := &cobra.Command{
		Use: "weigh --recipe ID|FILE --fill VOLUME", Short: "What to weigh for a fill, or how large a fill the powders at hand allow",
		Args:    usage(cobra.NoArgs),
		Example: "  vatside weigh --recipe soda --fill 60L\n  vatside weigh --recipe soda --have 'indigo=38 g' --have 'soda=120 g'",
		RunE: func(c *cobra.Command, _ []string) error {
			if w.recipe == "" {
				return usageError{errors.New("weigh needs --recipe")}
			}
			if w.fill == "" && len(w.have) == 0 {
				return usageError{errors.New("weigh needs --fill, or --have to find the largest one")}
			}
			return p.weigh(w)
		},
	}
	f := c.Flags()
	texts(c, texted{"recipe": &w.recipe, "fill": &w.fill, "indigo-strength": &w.strength, "units": &w.units})
	f.StringArrayVar(&w.have, "have", nil, "powder at hand, such as 'indigo=38 g'; once for each")
	f.StringArrayVar(&w.spoon, "spoon", nil, "five level spoons of a powder, weighed, such as 'soda=41 g'; once for each")
	p.jsonFlag(c)
	return c
}

func (p *program) weigh(w weighing) error {
	sys, err := p.units(w.units)
	if err != nil {
		return err
	}
	r, err := p.find(w.recipe)
	if err != nil {
		return err
	}
	var opt recipe.Options
	if w.strength != "" {
		if opt.IndigoStrength, err = quantity.ParseShare(w.strength, sys); err != nil {
			return fmt.Errorf("--indigo-strength: %w", err)
		}
	}
	have, err := parseHave("--have", w.have, sys)
	if err != nil {
		return err
	}
	five, err := parseHave("--spoon", w.spoon, sys)
	if err != nil {
		return err
	}
	var fill, most quantity.Volume
	var limit string
	if w.fill != "" {
		if fill, err = quantity.ParseVolume(w.fill, sys); err != nil {
			return fmt.Errorf("--fill: %w", err)
		}
		if fill > mostFill {
			return fmt.Errorf("--fill: %s is more than is reckoned here; %s at most", strings.TrimSpace(w.fill), mostFill.Format(sys))
		}
	}
	var tooLittle error
	if len(have) > 0 {
		most, limit, err = recipe.Largest(r, have, opt)
		if err != nil && (w.fill == "" || limit == "") {
			return err
		}
		tooLittle = err
	}
	short := limit != "" && w.fill != "" && (tooLittle != nil || most < fill*(1-1e-9))
	if w.fill == "" {
		fill = most
	} else if !short {
		limit = ""
	}
	am, err := recipe.Scale(r, fill, opt)
	if err != nil {
		return err
	}
	careful := cautions(r, am)
	if short {
		allow := fmt.Sprintf("enough for a fill of %s", most.Format(sys))
		if tooLittle != nil {
			allow = "too little for any vat"
		}
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
		if spoons[id], err = recipe.SpoonFor(r, id, mass); err != nil {
			return fmt.Errorf("--spoon: %w", err)
		}
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
			if a.Jars > 1 {
				wet += fmt.Sprintf(" in %d jars", a.Jars)
			}
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
	out := list(a.Cautions)
	if len(out) == 0 {
		for _, s := range r.Steps {
			if s.Caution != "" && !slices.Contains(out, s.Caution) {
				out = append(out, s.Caution)
			}
		}
	}
	return out
}
