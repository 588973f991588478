package command

import (
	"cmp"
	"fmt"
	"strconv"

	"github.com/spf13/cobra"

	"example.org/vatside/model/practice"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/wording"
)

type finishing struct {
	pieces             []string
	family             recipe.Family
	recipe, vat, place string
	rinses             int
	aired, bound       bool
}

func (p *program) finishCommand() *cobra.Command {
	var w finishing
	families := wording.List(wording.Each(recipe.Families, func(f recipe.Family) string { return string(f) }))
	const short = "After the dips: airing, rinses, sour, soap, drying, and the gate for acid"
	return p.command("finish --piece GOODS [--recipe ID | --family FAMILY | --vat VAT]", short, nil, func(r *reader) {
		r.rules = func() []rule {
			return []rule{
				{!r.Changed("piece"), "finish needs --piece: the dry weight and the fibre of the goods"},
				{len(r.typed("recipe", "family", "vat")) > 1, "one of --recipe, --family and --vat says where the goods were dyed"},
			}
		}
		r.StringArrayVar(&w.pieces, "piece", nil, "dry weight and fibre of `goods`, such as '420 g linen'; once for each")
		r.StringVar(&w.recipe, "recipe", "", "`id` of the recipe of the vat, or a recipe file")
		value(r, &w.family, "family", "", "`family` of the vat instead: "+families, oneOf(recipe.Families, "family of vats; write "+families))
		r.StringVar(&w.vat, "vat", "", "`name` of one of your vats instead: its book knows whether a sulfur reducer was in it")
		value(r, &w.rinses, "rinses", "0", "how `often` they were rinsed in plain water since their last dip",
			countRead(0, 99, "rinses; write 0, 1, 2"))
		r.BoolVar(&w.aired, "aired", false, "they are aired fully: no green in any fold")
		value(r, &w.place, "place", "", "`where` acid would be used: outdoors, cross-draught or closed-room (else as in the settings)", placeRead)
		r.BoolVar(&w.bound, "bound", false, "thick goods, or tied and clamped ones: they air longer")
		r.withUnits()
	}, func(r *reader) error { return p.finish(w, r) })
}

func (p *program) finish(w finishing, r *reader) error {
	lots := preparing{pieces: w.pieces}.lots(r)
	family, sulfur := p.dyedIn(w, r)
	gate := practice.Acid{Sulfur: sulfur, Rinses: w.rinses, Aired: w.aired, Place: cmp.Or(w.place, p.asSet().Place), Into: practice.OwnBath}
	open, why := gate.GateUnread()
	if r.Changed("vat") {
		open, why = gate.Gate()
	}
	notes := list(wording.Filled(wording.If(family == "",
		"no vat was named: cotton and the like are always neutralised after a vat of lime, else as you like")))
	var tell telling
	pieces := []object{}
	for _, l := range lots {
		steps, err := practice.FinishPlan(practice.Finish{Fibre: l.Fibre, Family: family, Dry: l.Dry, Thick: w.bound})
		must(about("--piece", err))
		name := l.Dry.Format(r.sys) + " " + l.Fibre.String()
		pieces = append(pieces, object{{"piece", name}, {"fibre", l.Fibre.String()}, {"dry_g", tidy(l.Dry.Grams())}, {"steps", each(steps, finishedOf)}})
		tell.add(tellFinish(name, steps, open, why, r.sys)...)
	}
	tell.notes("Note", notes)
	// The keys of finish --json. What a step has no figure for is null.
	return p.give(object{
		{"family", some(family)}, {"pieces", pieces},
		{"gate", object{{"open", open}, {"why", why}, {"sulfur_reducer", sulfurWords[gate.Sulfur]}, {"rinses", gate.Rinses}, {"aired", gate.Aired}, {"place", some(gate.Place)}}},
		{"notes", notes},
	}, tell)
}

var sulfurWords = map[practice.Known]string{practice.Yes: "yes", practice.No: "no", practice.NotKnown: "not known"}

// dyedIn is the family of the vat in which the goods were dyed, and whether it ever held a sulfur reducer: only a book can
// say that it did not.
func (p *program) dyedIn(w finishing, r *reader) (recipe.Family, practice.Known) {
	switch {
	case r.Changed("vat"):
		st := p.vatCalled(w.vat, true)
		return st.State.Head.Recipe.Family, st.State.Sulfur()
	case r.Changed("recipe"):
		w.family = got(p.find(w.recipe)).Family
	}
	return w.family, wording.Either(w.family.SulfurReducer(), practice.Yes, practice.NotKnown)
}

func finishedOf(s practice.FinishStep) object {
	return object{
		{"id", s.ID}, {"name", s.Name}, {"do", s.Do}, {"times", spreadOf(s.Times, whole)}, {"water_l", some(tidy(s.Water.Litres()))},
		{"temp_c", when(s.Water > 0, spreadOf(s.Temp, quantity.Temperature.Celsius))}, {"time_min", some(spreadOf(s.Time, quantity.Span.Minutes))},
		{"citric_g", some(spreadOf(s.Citric, quantity.Mass.Grams))}, {"vinegar_ml", some(spreadOf(s.Vinegar, quantity.Volume.Millilitres))}, {"soap_g", some(tidy(s.Soap.Grams()))},
		{"gated", s.Gated}, {"optional", s.Optional}, {"check", s.Check}, {"cautions", list(s.Cautions)}, {"evidence", s.Evidence},
	}
}

// tellFinish prints what is done to a piece, step by step. How the gate stands comes before any acid.
func tellFinish(name string, steps []practice.FinishStep, open bool, why string, sys quantity.System) (tell telling) {
	tell.line("%s, after the last dip:", name)
	for _, s := range steps {
		tell.line("")
		tell.line("%s%s", wording.Upper(s.Name), wording.If(s.Optional, ", if you like"))
		if s.Gated {
			tell.note("", why)
		}
		later := wording.If(s.Gated && !open, ", once the gate is open")
		var rows table
		often := "time" + wording.If(s.Times.Likely != 1, "s") + wording.If(s.Times.Low < s.Times.High, fmt.Sprintf(", %d to %d", s.Times.Low, s.Times.High))
		rows.where(s.Times.High > 1, strconv.Itoa(s.Times.Likely), often)
		rows.where(s.Citric.Likely > 0, s.Citric.Likely.Scale(sys), "of citric acid"+wide(s.Citric, sys)+later)
		rows.where(s.Vinegar.Likely > 0, "or "+s.Vinegar.Likely.Format(sys), "of 5 % vinegar instead"+wide(s.Vinegar, sys)+later)
		rows.where(s.Soap > 0, s.Soap.Scale(sys), "of neutral soap")
		rows.where(s.Water > 0, s.Water.Format(sys), "of water, fresh each time")
		rows.where(s.Water > 0, s.Temp.Likely.Format(sys), "warm"+wide(s.Temp, sys))
		rows.where(s.Time.Likely > 0, s.Time.Likely.Format(sys), "long"+wide(s.Time, sys))
		tell.table(rows)
		tell.note("Do", s.Do)
		tell.note("Check", s.Check)
		tell.notes("Caution", s.Cautions)
	}
	tell.line("")
	return tell
}
