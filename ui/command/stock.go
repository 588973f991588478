package command

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/stock"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/library"
	"example.org/vatside/ui/shelf"
)

type stocking struct {
	recipe, fill []string
	options      recipe.Options
}

func (p *program) stockCommand() *cobra.Command {
	var s stocking
	var units string
	c := p.command("stock [--recipe ID --fill VOLUME]", "The powders on the shelf: what is left, what is old, what to buy", nil, func(r *reader) {
		r.rules = func() []rule {
			return []rule{{len(s.recipe) != len(s.fill), "stock needs --recipe and --fill together, as often as there are vats"}}
		}
		r.StringArrayVar(&s.recipe, "recipe", nil, "`id` of a recipe, or a recipe file; once for each vat")
		r.StringArrayVar(&s.fill, "fill", nil, "`volume` of the whole liquor, such as 60L; once for each vat")
		value(r, &s.options.IndigoStrength, "indigo-strength", "", "`strength` of the indigo in it, such as 45% (else the recipe's)", someShare)
		r.units = &units
	}, p.inHome(func(h shelf.Home, r *reader) error { return p.stock(h, s, r) }))
	c.PersistentFlags().StringVar(&units, "units", "", shared["units"])
	c.AddCommand(p.stockActs(&units)...)
	return c
}

func (p *program) stock(h shelf.Home, s stocking, r *reader) error {
	wishes := p.wishes(s, r)
	_, b, err := library.Tins(h)
	p.warn(err)
	tins, now := b.OnShelf(), p.Now()
	needs, buy, err := stock.Buy(wishes, tins, now)
	must(err)
	act := stock.Pressing(tins, listed(slices.Concat(needs...)), now, r.sys)
	var tell telling
	tell.line("%s.", act.Sentence)
	tell.add(tellTins(tins, now, r.sys)...)
	tell.add(tellNeeds(wishes, needs, buy, r.sys)...)
	return p.give(stockedOf(tins, wishes, needs, buy, act, now, r.sys), tell)
}

// listed are needs as if the dyer kept account of all of them: who asks for a vat wants to know.
func listed(needs []stock.Need) []stock.Need {
	for i := range needs {
		needs[i].Listed = true
	}
	return needs
}

func (p *program) wishes(s stocking, r *reader) (out []stock.Wish) {
	for i := range s.recipe {
		w := stock.Wish{Options: s.options}
		read(r, &w.Fill, "--fill", s.fill[i], fillRead)
		must(r.err)
		w.Recipe = got(p.find(s.recipe[i]))
		out = append(out, w)
	}
	return out
}

// tellTins is each tin with what is to be said of it, and once for each substance how it is kept.
func tellTins(tins []stock.TinBalance, now time.Time, sys quantity.System) (tell telling) {
	if len(tins) == 0 {
		return nil
	}
	tell.line("")
	for _, t := range tins {
		rows := table{{t.Left.Scale(sys), tinLine(t, now, sys)}}
		for _, w := range t.Cautions(now, sys) {
			rows.add("", "! "+w+".")
		}
		tell.table(rows)
	}
	tell.line("")
	var kept []recipe.Substance
	for _, t := range tins {
		if keep := t.Keep(); len(keep) > 0 && !slices.Contains(kept, t.Substance) {
			kept = append(kept, t.Substance)
			tell.note(string(t.Substance), strings.Join(keep, "; "))
		}
	}
	return tell
}

// tinLine is a tin on one line, but for what is left in it.
func tinLine(t stock.TinBalance, now time.Time, sys quantity.System) string {
	s, price := t.Strength(), ""
	if t.Price != nil {
		price = t.Price.String()
	}
	return wording.Joined(", ", t.ID+": "+t.Material, "of "+t.Holds.Format(sys), t.Since(now),
		wording.If(s > 0 && s < 1, s.Format(sys)+" strong"), price)
}

// tellNeeds is whether there is enough, vat by vat, and what to buy.
func tellNeeds(wishes []stock.Wish, needs [][]stock.Need, buy []stock.Purchase, sys quantity.System) (tell telling) {
	for i, w := range wishes {
		tell.line("")
		tell.line("%s, %s:", w.Recipe.Name, w.Fill.Format(sys))
		for _, n := range needs[i] {
			line := n.Powder.Material + ": enough"
			switch {
			case n.Enough():
			case n.Perhaps():
				line = fmt.Sprintf("%s: perhaps not enough: by its age it may count for %s only; test %s", n.Powder.Material, n.There.Format(sys), wording.List(n.Test))
			default:
				line = fmt.Sprintf("%s: %s there, %s short", n.Powder.Material, n.There.Format(sys), n.Short.Format(sys))
			}
			line += wording.If(len(n.From) > 0 && !n.Perhaps(), " ("+strings.Join(n.From, ", ")+")")
			if n.Stead != nil {
				line += "; " + n.Stead.Says(sys)
			}
			tell.table(table{{n.Needed.Scale(sys), line}})
		}
	}
	if len(buy) > 0 {
		tell.line("")
		tell.line("To buy:")
		for _, b := range buy {
			tell.table(table{{b.Mass.Scale(sys), b.Material}})
		}
	}
	return tell
}

// stockedOf are the keys of stock --json. left_g is what is reckoned by the books; there_g counts a weaker powder for less.
func stockedOf(tins []stock.TinBalance, wishes []stock.Wish, needs [][]stock.Need, buy []stock.Purchase, act stock.Act, now time.Time, sys quantity.System) object {
	date := func(t time.Time) string { return t.In(now.Location()).Format(time.DateOnly) }
	wanted := []object{}
	for i, w := range wishes {
		for _, n := range needs[i] {
			var instead object // what would do the same; not counted
			if s := n.Stead; s != nil {
				instead = object{{"tin", s.Tin}, {"needed_g", tidy(s.Needed.Grams())}, {"there_g", tidy(s.There.Grams())}}
			}
			wanted = append(wanted, object{
				{"recipe", w.Recipe.ID}, {"fill_l", tidy(w.Fill.Litres())}, {"powder", n.Powder.ID}, {"material", n.Powder.Material},
				{"needed_g", tidy(n.Needed.Grams())}, {"there_g", tidy(n.There.Grams())}, {"short_g", tidy(n.Short.Grams())}, {"enough", n.Enough()},
				{"from", list(n.From)}, {"test", list(n.Test)}, // test: short only if these are as weak as their age allows
				{"instead", instead},
			})
		}
	}
	return object{
		{"tins", each(tins, func(t stock.TinBalance) object {
			return object{
				{"id", t.ID}, {"material", t.Material}, {"substance", t.Substance}, {"state", t.Fitness()}, {"bought_on", date(t.Bought)}, {"opened_on", as(t.Opened, date)},
				{"full_g", tidy(t.Holds.Grams())}, {"left_g", tidy(t.Left.Grams())}, {"price", as(t.Price, money)},
				{"strength", when(t.Strength() > 0, tidy(t.Strength().Fraction()))}, // null: indigo without a label
				{"age_days", int(t.Age(now).Hours() / 24)},                          // since it was opened, else bought
				{"words", list(t.Words(now, sys))},
			}
		})},
		{"needs", wanted},
		{"buy", each(buy, func(b stock.Purchase) object {
			return object{{"material", b.Material}, {"mass_g", tidy(b.Mass.Grams())}}
		})},
		{"act", act.Sentence},
	}
}
