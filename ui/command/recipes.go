package command

import (
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"example.org/vatside/model/fibre"
	"example.org/vatside/model/liquor"
	"example.org/vatside/model/practice"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/signs"
	"example.org/vatside/model/wording"
	"example.org/vatside/recipes"
	"example.org/vatside/ui/library"
	"example.org/vatside/ui/shelf"
)

func (p *program) recipesCommand() *cobra.Command {
	all := p.command("recipes", "The recipes at hand", nil, nil, func(*reader) error { return p.recipesList() })
	all.AddCommand(
		p.command("show ID", "One recipe in full", cobra.ExactArgs(1), nil,
			func(r *reader) error { return p.recipesShow(r.args[0]) }),
		p.withoutJSON("check FILE...", "Every fault in a recipe file, of form and of chemistry", cobra.MinimumNArgs(1), nil,
			func(r *reader) error { return p.recipesCheck(r.args) }),
		p.recipesChoose())
	return all
}

// atHand lists the recipes: the dyer's own replaces the built-in one of its id. What cannot be used is told.
func (p *program) atHand() []library.Recipe {
	h, err := p.shelf()
	if err != nil {
		p.warn(err)
		return library.Builtin()
	}
	all, faulty, err := library.Recipes(h)
	p.leftOut(faulty, err)
	return all
}

// recipes are those at hand, without their files.
func (p *program) recipes() []recipe.Recipe {
	return each(p.atHand(), func(r library.Recipe) recipe.Recipe { return r.Recipe })
}

func (p *program) recipeIDs() []string {
	return wording.Each(p.atHand(), func(r library.Recipe) string { return r.ID })
}

// leftOut tells of recipes that cannot be used.
func (p *program) leftOut(faulty []library.FaultyRecipe, err error) {
	p.warn(err)
	for _, f := range faulty {
		p.warn(fmt.Errorf("%s has faults and is left out: see vatside recipes check", f.Path))
	}
}

// find is a recipe by its id, else from a file of that name. Of the built-in ones only that one is read.
func (p *program) find(name string) (recipe.Recipe, error) {
	h, err := p.shelf()
	p.warn(err)
	if err == nil {
		own, faulty, err := library.Own(h)
		p.leftOut(faulty, err)
		for _, r := range slices.Backward(own) {
			if r.ID == name {
				return r.Recipe, nil
			}
		}
	}
	if r, ok := recipes.Find(name); ok {
		return r, nil
	}
	text, err := shelf.ReadArgument(name)
	switch {
	case errors.Is(err, fs.ErrNotExist) && !strings.HasSuffix(name, ".toml") && filepath.Base(name) == name:
		return recipe.Recipe{}, fmt.Errorf("no recipe is called %q; there are %s", name, wording.List(p.recipeIDs()))
	case err != nil:
		return recipe.Recipe{}, err
	}
	r, faults := recipe.Parse(name, text)
	if len(faults) > 0 {
		for _, ft := range faults {
			fmt.Fprint(p.Err, ft.Draw(text))
		}
		return r, fmt.Errorf("%s has %s and is not weighed from", name, wording.Counted(len(faults), "fault"))
	}
	return r, nil
}

// findFor is a recipe that can be built with such a fill.
func (p *program) findFor(name string, fill quantity.Volume) (recipe.Recipe, error) {
	r, err := p.find(name)
	if err == nil {
		_, err = recipe.Scale(r, fill, recipe.Options{})
	}
	return r, err
}

func (p *program) recipesList() error {
	var tell telling
	keys := each(p.atHand(), func(r library.Recipe) object {
		tell.line("%-14s %-32s %s%s", r.ID, r.Name, r.Family, wording.If(r.File != "", "   your own, "+r.File))
		return object{{"id", r.ID}, {"name", r.Name}, {"family", r.Family}}
	})
	return p.give(keys, tell)
}

// shown are the keys of recipes show --json.
func shown(r recipe.Recipe) object {
	l := r.Liquor
	return object{
		{"id", r.ID}, {"name", r.Name}, {"family", r.Family}, {"fibres", r.Fibres}, {"source", r.Source},
		{"liquor", object{
			{"build", l.Build}, {"low", l.Low}, {"aim", l.Aim}, {"high", l.High}, {"ph", [2]float64{l.PHLow, l.PHHigh}}, {"ph_fresh", tidy(float64(liquor.FreshPH(r)))},
			{"ready", l.Ready}, {"recheck", l.Recheck}, {"sediment", l.Sediment},
		}.and(l.Evidence != "", "evidence", l.Evidence)},
		{"stock", r.Stock},
		{"powders", each(r.Powders, func(w recipe.Powder) object {
			return object{{"id", w.ID}, {"material", w.Material}, {"role", w.Role}}.and(w.Form != "", "form", w.Form).
				and(true, "strength", w.Strength).and(true, "dose", r.PerLitre(w)).and(w.Hydrate != 0, "hydrate", w.Hydrate).
				and(w.Into != "", "into", w.Into).and(w.Evidence != "", "evidence", w.Evidence)
		})},
		{"steps", r.Steps},
	}
}

func (p *program) recipesShow(id string) error {
	r := got(p.find(id))
	if p.json {
		return p.asJSON(shown(r))
	}
	sys := got(p.units(""))
	if sys == quantity.Metric {
		sys = quantity.US // a recipe is read by others too: both systems stand side by side
	}
	both := func(q quantity.Quantity) string { return quantity.Both(q, sys) }
	l := r.Liquor
	p.say("%s (%s), %s", r.Name, r.ID, r.Family)
	p.say("For %s. Source: %s.", wording.List(r.Fibres), r.Source)
	p.say("Build at %s, work at %s to %s, best %s; pH %.1f to %.1f.", both(l.Build), both(l.Low), both(l.High), both(l.Aim), l.PHLow, l.PHHigh)
	p.say("Ready after about %s; look again each %s.", l.Ready, l.Recheck)
	if l.Evidence != "" {
		p.say("    %s", l.Evidence)
	}
	p.say("")
	for _, w := range r.Powders {
		strength := wording.If(w.Role == recipe.Indigo, " of "+w.Strength.String()+" strength")
		p.say("%s: %s%s, %s, %s", w.ID, w.Material, strength, w.Role, both(r.PerLitre(w)))
		if w.Evidence != "" {
			p.say("    %s", w.Evidence)
		}
	}
	p.say("")
	for i, s := range r.Steps {
		p.say("%2d  %s", i+1, stepLine(s, sys))
		for _, extra := range []struct{ word, text string }{{"Caution: ", s.Caution}, {"", s.How}, {"Look for: ", s.Look}, {"Why: ", s.Why}, {"Meanwhile: ", s.Meanwhile}} {
			if extra.text != "" {
				p.say("    %s%s", extra.word, extra.text)
			}
		}
	}
	return nil
}

// stepLine is a step of a recipe in a few words.
func stepLine(s recipe.Step, sys quantity.System) string {
	at := func(word string, t *quantity.Temperature) string {
		if t == nil {
			return ""
		}
		return word + " " + quantity.Both(*t, sys)
	}
	return wording.Joined(" ", string(s.Do), s.Powder,
		wording.If(s.Part > 0 && s.Part < 1, s.Part.String()+" of it"), wording.If(s.From == recipe.IntoStock, "stock"),
		wording.If(s.Into == recipe.IntoStock, "(stock jar)"), at("to", s.To), wording.If(s.For > 0, "for "+s.For.String()),
		at("at least", s.AtLeast), at("at most", s.AtMost))
}

// reckoned is what a recipe leaves out and has reckoned.
func reckoned(r recipe.Recipe) string {
	if r.Liquor.PHFresh > 0 {
		return ""
	}
	return fmt.Sprintf("; ph_fresh is left out, and reckoned pH %v at %v", liquor.ReckonedPH(r), r.Liquor.Build)
}

func (p *program) recipesCheck(files []string) error {
	faulty, unread := 0, false
	for _, name := range files {
		text, err := shelf.ReadArgument(name)
		if err != nil {
			p.warn(err)
			unread = true
			continue
		}
		r, faults := recipe.Parse(name, text)
		if len(faults) == 0 {
			faults = append(liquor.Faults(name, r), signs.Faults(name, r)...)
		}
		for _, ft := range faults {
			fmt.Fprint(p.Out, ft.Draw(text))
		}
		if len(faults) == 0 {
			p.say("%s: no fault%s", name, reckoned(r))
		}
		faulty += len(faults)
	}
	switch {
	case faulty > 0:
		return fmt.Errorf("%s found", wording.Counted(faulty, "fault"))
	case unread:
		return errTold
	}
	return nil
}

func (p *program) recipesChoose() *cobra.Command {
	var want practice.Wanted
	var fibres []string
	var place string
	return p.command("choose", "Which recipe fits: by fibre, resist, place and people", nil, func(r *reader) {
		r.StringArrayVar(&fibres, "fibre", nil, "a `fibre` of the goods; once for each")
		r.StringVar(&place, "place", "", "`where` the vat stands: outdoors, cross-draught or closed-room")
		r.BoolVar(&want.Pasted, "pasted", false, "the goods have a resist of paste on them")
		r.BoolVar(&want.Class, "class", false, "a class of adults dips")
		r.BoolVar(&want.Children, "children", false, "children dip")
		r.BoolVar(&want.Asthma, "asthma", false, "somebody with asthma is about")
	}, func(r *reader) (err error) {
		for _, name := range fibres {
			f, err := fibre.Parse(name)
			must(about("--fibre", err))
			want.Fibres = append(want.Fibres, f)
		}
		if want.Place, err = placeRead(place, r.sys); err != nil && place != "" {
			return fmt.Errorf("--place is outdoors, cross-draught or closed-room, not %q", place)
		}
		return p.choose(want)
	})
}

func (p *program) choose(want practice.Wanted) error {
	var tell telling
	keys := each(practice.Choose(p.recipes(), want), func(c practice.Choice) object {
		ready := tidy(c.Recipe.Liquor.Ready.Hours())
		tell.line("%-14s %-10s %s, ready in %s", c.Recipe.ID, c.Fit, c.Recipe.Name, quantity.Hours(ready))
		reasons := each(c.Reasons, func(r practice.Reason) object {
			tell.line("    %s (%s)", r.Words, r.Evidence)
			return object{{"words", r.Words}, {"evidence", r.Evidence}}
		})
		return object{
			{"id", c.Recipe.ID}, {"name", c.Recipe.Name}, {"family", c.Recipe.Family}, {"fit", c.Fit}, {"ready_h", ready}, {"reasons", reasons},
		}
	})
	return p.give(keys, tell)
}
