package command

import (
	"fmt"

	"github.com/spf13/cobra"

	"example.org/vatside/model/fibre"
	"example.org/vatside/model/practice"
	"example.org/vatside/model/quantity"
)

// places are the words of --place, and what they are in a day.
var places = map[string]string{"outdoors": "outdoors", "cross-draught": "cross-draught", "closed-room": "closed room"}

func (p *program) recipesChoose() *cobra.Command {
	var want practice.Wanted
	var fibres []string
	var place string
	return p.command(&cobra.Command{
		Use: "choose", Short: "Which recipe fits: by fibre, resist, place and people",
		Example: "  vatside recipes choose --fibre wool --place cross-draught\n  vatside recipes choose --fibre cotton --pasted --children --json",
	}, func(r *reader) {
		r.StringArrayVar(&fibres, "fibre", nil, "a `fibre` of the goods; once for each")
		r.StringVar(&place, "place", "", "where the vat stands: outdoors, cross-draught or closed-room")
		r.BoolVar(&want.Pasted, "pasted", false, "the goods bear a resist of paste")
		r.BoolVar(&want.Class, "class", false, "a class of adults dips")
		r.BoolVar(&want.Children, "children", false, "children dip")
		r.BoolVar(&want.Asthma, "asthma", false, "somebody with asthma is about")
	}, func(*reader) error {
		for _, name := range fibres {
			f, err := fibre.Parse(name)
			if err != nil {
				return fmt.Errorf("--fibre: %w", err)
			}
			want.Fibres = append(want.Fibres, f)
		}
		if want.Place = places[place]; place != "" && want.Place == "" {
			return fmt.Errorf("--place is outdoors, cross-draught or closed-room, not %q", place)
		}
		return p.choose(want)
	})
}

func (p *program) choose(want practice.Wanted) error {
	fit := practice.Choose(p.recipes(), want)
	if p.json {
		return p.asJSON(each(fit, func(c practice.Choice) object {
			return object{
				{"id", c.Recipe.ID}, {"name", c.Recipe.Name}, {"family", c.Recipe.Family}, {"fit", c.Fit}, {"ready_h", tidy(c.Recipe.Liquor.Ready.Hours())},
				{"reasons", each(c.Reasons, func(r practice.Reason) object { return object{{"words", r.Words}, {"evidence", r.Evidence}} })},
			}
		}))
	}
	for _, c := range fit {
		p.say("%-14s %-10s %s, ready in %s", c.Recipe.ID, c.Fit, c.Recipe.Name, quantity.Hours(tidy(c.Recipe.Liquor.Ready.Hours())))
		for _, r := range c.Reasons {
			p.say("    %s (%s)", r.Words, r.Evidence)
		}
	}
	return nil
}
