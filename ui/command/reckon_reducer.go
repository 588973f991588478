package command

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"example.org/vatside/model/liquor"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/shade"
	"example.org/vatside/model/sorted"
	"example.org/vatside/model/vessel"
	"example.org/vatside/model/wording"
)

func (p *program) reckonReducer() *cobra.Command {
	var id string
	var b liquor.Budget
	var v vessel.Vessel
	var lid bool
	return p.reckoning("reducer --recipe ID --fill VOLUME --temp °C --vessel VESSEL", "How long the reducer of a recipe lasts, at rest and in work",
		func(r *reader) {
			r.needs = []string{"recipe", "fill", "temp", "vessel"}
			r.recipe(&id)
			value(r, &b.Fill, "fill", "", "", fillRead)
			value(r, &b.Temp, "temp", "", "", liquorRead)
			value(r, &v, "vessel", "", "", vessel.Parse)
			r.BoolVar(&lid, "lid", false, "the lid is on between the acts")
		},
		func(r *reader) error {
			b.Recipe = got(p.findFor(id, b.Fill))
			must(bears(v))
			b.Surface = v.Surface(got(stands(v, b.Fill, "--fill", r.sys)))
			b.Quiet = wording.Either(lid, liquor.Lidded, liquor.Open)
			return p.reserve(b, r.sys)
		})
}

func (p *program) reserve(b liquor.Budget, sys quantity.System) error {
	res, err := liquor.State{Recipe: b.Recipe, Fill: b.Fill, Temp: &b.Temp, Age: liquor.JustBuilt}.Lasts(b)
	var none *liquor.NoBudgetError
	if errors.As(err, &none) {
		why := none.Error()
		return p.giveLine(reservedOf(liquor.Reserve{}, &why), "%s.", wording.Upper(strings.TrimSuffix(why, ".")))
	}
	must(err)
	return p.give(reservedOf(res, nil), tellReserve(b, res, sys))
}

// reservedOf are the keys of reckon reducer --json; with a note, why nothing is reckoned, all else is null or empty.
func reservedOf(res liquor.Reserve, note *string) object {
	known := note == nil
	parts := []object{}
	add := func(when string, of []liquor.Part) {
		for _, p := range of {
			parts = append(parts, object{{"loss", p.ID}, {"when", when}, {"per_hour_g", spreadOf(p.Grams, quantity.Mass.Grams)}, {"part", tidy(p.Share.Fraction())}, {"why", p.Why}})
		}
	}
	add("rest", res.RestParts)
	add("work", res.WorkParts)
	return object{
		{"fill_water_g", when(known, tidy(res.FillWater.Likely.Grams()))}, {"indigo_g", when(known, tidy(res.Indigo.Likely.Grams()))},
		{"per_hour_g", when(known, spreadOf(res.RestPerHour, quantity.Mass.Grams))}, {"per_hour_work_g", when(known, spreadOf(res.WorkPerHour, quantity.Mass.Grams))},
		{"reserve_rest_h", when(known, spreadOf(res.Rest, quantity.Span.Hours))}, {"reserve_work_h", when(known, spreadOf(res.Work, quantity.Span.Hours))},
		{"parts", parts}, {"longer", each(res.Longer, func(l liquor.Change) string { return l.Sentence })}, {"note", note},
	}
}

// tellReserve says where the reducer goes, the greatest loss first.
func tellReserve(b liquor.Budget, res liquor.Reserve, sys quantity.System) (tell telling) {
	quiet := map[liquor.Quiet]string{liquor.Open: "open", liquor.Lidded: "under the lid"}[b.Quiet]
	tell.line("At rest, %s: %s", quiet, liquor.SayReserve(res.Rest))
	tell.line("In work: %s", liquor.SayReserve(res.Work))
	var doses, losses table
	doses.add(res.Dosed.Format(sys), "of reducer as weighed")
	doses.add(res.FillWater.Likely.Format(sys), "of it goes to the air in the fill water")
	doses.add(res.Indigo.Likely.Format(sys), "the indigo takes")
	tell.table(doses)
	tell.line("An hour of work takes:")
	parts := slices.Clone(res.WorkParts)
	sorted.By(parts, func(a, b liquor.Part) int { return cmp.Compare(b.Share, a.Share) })
	for _, part := range parts {
		losses.add(between(loss(part.Grams.Low, sys), loss(part.Grams.High, sys)), fmt.Sprintf("%s (%.0f %%): %s", part.Name, part.Share.Percent(), part.Why))
	}
	tell.table(losses)
	for _, l := range res.Longer {
		if !l.AtRest || res.Rest.Low < quantity.Hours(24) { // who rests for more than a day already needs no more
			tell.note("Longer", l.Sentence)
		}
	}
	tell.note("", "Estimates: the strip test decides")
	return tell
}

func (p *program) reckonCapacity() *cobra.Command {
	var id string
	var fill quantity.Volume
	return p.reckoning("capacity --recipe ID --fill VOLUME", "How much cloth a vat can still dye, at each depth",
		func(r *reader) {
			r.needs = []string{"recipe", "fill"}
			r.recipe(&id)
			value(r, &fill, "fill", "", "", fillRead)
		},
		func(r *reader) error {
			return p.capacity(got(p.findFor(id, fill)), fill, r.sys)
		})
}

func (p *program) capacity(r recipe.Recipe, fill quantity.Volume, sys quantity.System) error {
	in := liquor.State{Recipe: r, Fill: fill}.Holds().Likely
	balance := liquor.Indigo(in, fill, nil, 0)
	depths := wording.Each(shade.Depths(), func(d shade.Depth) liquor.Depth { return liquor.Depth{Name: d.Name, OnFibre: d.OnFibre} })
	caps := liquor.Capacities(balance, r, fill, 0, depths)
	out := object{{"indigo_g", tidy(in.Grams())}, {"depths", each(caps, func(c liquor.Capacity) object {
		return object{{"depth", c.Depth.Name}, {"kg_left", spreadOf(c.KgLeft, quantity.Mass.Kilograms)}, {"kg_today", tidy(c.Today.Kilograms())}, {"reach", c.Reach.String()}}
	})}}
	var tell telling
	tell.line("%s, %s: %s of pure indigo.", r.Name, fill.Format(sys), in.Format(sys))
	var rows table
	for _, c := range caps {
		kg := c.KgLeft
		rows.add(rough(kg.Likely, sys), fmt.Sprintf("%s, %s; today %s; %s", c.Depth.Name, between(rough(kg.Low, sys), rough(kg.High, sys)), rough(c.Today, sys), reaches[c.Reach]))
	}
	tell.table(rows)
	tell.note("", "Dry goods, if all of it goes to one depth. Of the indigo 0.4 to 0.8 is usable, from memory; your own swatches decide")
	return p.give(out, tell)
}

var reaches = map[liquor.Reach]string{liquor.Yes: "in the usual dips", liquor.Slowly: "with more dips, or over days", liquor.No: "not in this vat"}

// loss is a mass as fine as a loss is known.
func loss(m quantity.Mass, sys quantity.System) string {
	return wording.Either(sys != quantity.Metric, trimmed(m.Ounces(), 2)+" oz", trimmed(m.Grams(), 1)+" g")
}

// trimmed is a number without the noughts at its end.
func trimmed(v float64, decimals int) string {
	s := strconv.FormatFloat(v, 'f', decimals, 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	return s
}

// rough is a mass to two figures: what is known of a vat's indigo is no finer.
func rough(m quantity.Mass, sys quantity.System) string {
	v, unit := m.Kilograms(), "kg"
	if sys != quantity.Metric {
		v, unit = m.Pounds(), "lb"
	}
	digits := 0
	if v > 0 {
		digits = max(0, 1-int(math.Floor(math.Log10(v))))
	}
	return trimmed(v, min(digits, 2)) + " " + unit
}
