package command

import (
	"cmp"
	"errors"

	"github.com/spf13/cobra"

	"example.org/vatside/model/liquor"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/signs"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/library"
)

func (p *program) signsCommand() *cobra.Command {
	var d dosing
	var vat string
	return p.command("signs --seen WORDS (--vat VAT | --recipe ID --fill VOLUME)", "What is seen at a vat: its causes, and one thing to do", nil, func(r *reader) {
		r.rules = func() []rule {
			of := len(r.typed("recipe", "fill"))
			return []rule{
				{len(r.typed("seen", "ph", "temp", "strip")) == 0, "signs needs --seen, or a reading: --ph, --temp, --strip"},
				{vat != "" && of > 0, "signs takes --vat, or --recipe and --fill, not both: the vat's book has its recipe and its fill"},
				{vat == "" && of < 2, "signs needs --vat, or --recipe and --fill"},
			}
		}
		r.StringVar(&vat, "vat", "", "`name` of one of your vats")
		d.flags(r)
		r.withUnits()
	}, func(r *reader) error { return p.signs(d, vat, r.sys) })
}

func (p *program) signs(d dosing, name string, sys quantity.System) error {
	seen, vat, worked := p.seenAt(d, name, sys)
	causes := signs.Causes(seen, vat)
	var tell telling
	tell.note("What worked here", worked)
	tell.note("", causes[0].Before)
	for i, cause := range causes {
		tell.note(cause.Rank.String(), cause.Name+": "+cause.Why)
		if i > 0 {
			continue
		}
		tell.note("Do", cause.Do)
		var rows table
		for _, d := range cause.Doses {
			if powder, ok := vat.Recipe.Powder(d.Powder); ok {
				lots := wording.If(d.Portions > 1, ", in "+wording.Counted(d.Portions, "lot"))
				rows.add(d.Mass.Scale(sys), powder.Material+lots)
			}
		}
		tell.table(rows)
		tell.notes("Caution", cause.Cautions)
		tell.note("How", cause.How)
		if cause.Wait > 0 {
			tell.note("Wait", cause.Wait.String()+", then: "+cause.Recheck)
		}
		tell.note("And if it says the same", cause.Then)
	}
	tell.line("%s", signs.WeightIsJudged)
	return p.give(signedOf(causes, worked), tell)
}

// seenAt reads the flags: what was seen, and the vat, by its recipe or by its book; and what worked at that vat.
func (p *program) seenAt(d dosing, name string, sys quantity.System) (seen signs.Seen, vat signs.Vat, worked string) {
	seen = signs.Seen{PHError: liquor.PaperError}
	if name != "" {
		seen, vat, worked = p.ofBook(name)
		d.recipe, d.fill = vat.Recipe.ID, vat.Fill
	}
	if d.seen != "" {
		seen.Signs = got(signs.Parse(d.seen))
	}
	n := p.standingOf(d, sys)
	if vat.System = sys; name == "" {
		vat = n
	} else {
		for id, m := range n.GivenToday {
			vat.GivenToday[id] += m
		}
	}
	if len(n.Goods) > 0 {
		vat.Goods = n.Goods
	}
	vat.Heater, vat.SinceFood = cmp.Or(n.Heater, vat.Heater), cmp.Or(n.SinceFood, vat.SinceFood)
	seen.Temp, seen.PH, seen.Strip = cmp.Or(n.Temp, seen.Temp), cmp.Or(n.PH, seen.PH), cmp.Or(n.Strip, seen.Strip)
	return seen, vat, worked
}

// ofBook is a vat as its book leaves it: the newest day, with what was seen and read on it while it is open, and given and
// tried where that is today;
// and what worked on all its days.
func (p *program) ofBook(name string) (signs.Seen, signs.Vat, string) {
	h := got(p.shelf())
	st := p.vatCalled(name, true)
	var o outlook.Outlook
	if st.Open() {
		o = outlook.Of(st.State, st.Now)
	}
	seen, vat := outlook.Asked(st.State, o, st.Now, nil)
	if vat.Ended != "" {
		stop("%s: it has ended on %s; no sign of it is left to judge", st.VatName(), vat.Ended)
	}
	if f := outlook.Of(st.State, st.Now).Indigo.Feeding; f.Soon || f.Now {
		vat.IndigoGone = f.Gone
	}
	if !st.Open() { // what was read then speaks of the vat as it was left
		seen.Signs, seen.PH, seen.Strip = nil, nil, nil
	}
	if !st.Today() {
		seen.Tried, vat.GivenToday = nil, map[string]quantity.Mass{}
	}
	life, errs := library.Life(h, st.Vat, got(h.Days(st.Vat)))
	p.warn(errors.Join(errs...))
	vat.SinceFood = life.SinceFood(st.Now)
	return seen, vat, life.Worked()
}

// signedOf are the keys of signs --json; worked is what worked at this vat. A weight is by judgement: it orders, and is no chance.
func signedOf(causes []signs.Cause, worked string) object {
	return object{
		{"worked", worked},
		{"causes", each(causes, func(c signs.Cause) object {
			return object{
				{"id", c.ID}, {"name", c.Name}, {"rank", c.Rank.String()}, {"weight", tidy(c.Weight)}, {"before", c.Before}, {"why", c.Why}, {"do", c.Do}, {"how", c.How},
				{"doses", each(c.Doses, func(d signs.Dose) object {
					return object{{"powder", d.Powder}, {"role", d.Role}, {"grams", tidy(d.Mass.Grams())}, {"portions", d.Portions}}
				})},
				{"to_c", celsius(c.To)}, {"wait_min", tidy(c.Wait.Minutes())}, {"recheck", c.Recheck}, {"cautions", list(c.Cautions)},
			}
		})},
		{"note", signs.WeightIsJudged},
	}
}
