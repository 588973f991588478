package command

import (
	"fmt"

	"github.com/spf13/cobra"

	"example.org/vatside/model/fibre"
	"example.org/vatside/model/practice"
	"example.org/vatside/model/quantity"
)

type choosing struct {
	fibres                          []string
	place                           string
	pasted, class, children, asthma bool
}

// places are the words of --place, and what they are in a day.
var places = map[string]string{"outdoors": "outdoors", "cross-draught": "cross-draught", "closed-room": "closed room"}

func (p *program) recipesChoose() *cobra.Command {
	var w choosing
	c := &cobra.Command{
		Use: "choose", Short: "Which recipe fits: by fibre, resist, place and people", Args: usage(cobra.NoArgs),
		Example: "  vatside recipes choose --fibre wool --place cross-draught\n  vatside recipes choose --fibre cotton --pasted --children --json",
		RunE:    func(*cobra.Command, []string) error { return p.choose(w) },
	}
	f := c.Flags()
	f.StringArrayVar(&w.fibres, "fibre", nil, "a `fibre` of the goods; once for each")
	f.StringVar(&w.place, "place", "", "where the vat stands: outdoors, cross-draught or closed-room")
	f.BoolVar(&w.pasted, "pasted", false, "the goods bear a resist of paste")
	f.BoolVar(&w.class, "class", false, "a class of adults dips")
	f.BoolVar(&w.children, "children", false, "children dip")
	f.BoolVar(&w.asthma, "asthma", false, "somebody with asthma is about")
	p.jsonFlag(c)
	return c
}

func (p *program) choose(w choosing) error {
	want := practice.Wanted{Pasted: w.pasted, Class: w.class, Children: w.children, Asthma: w.asthma}
	for _, name := range w.fibres {
		f, err := fibre.Parse(name)
		if err != nil {
			return fmt.Errorf("--fibre: %w", err)
		}
		want.Fibres = append(want.Fibres, f)
	}
	var known bool
	if want.Place, known = places[w.place]; w.place != "" && !known {
		return fmt.Errorf("--place is outdoors, cross-draught or closed-room, not %q", w.place)
	}
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
