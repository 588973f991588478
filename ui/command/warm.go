package command

import (
	"cmp"
	"fmt"
	"math"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"example.org/vatside/model/day"
	"example.org/vatside/model/prepare"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/water"
)

type warming struct {
	fill, cold, hot, aim    string
	pot, stove, by, timed   string
	have, at, recipe, units string
	readyBy                 string
}

func (p *program) warmCommand() *cobra.Command {
	var w warming
	c := &cobra.Command{
		Use: "warm --fill VOLUME --cold °C --hot °C --aim °C", Short: "How much hot and cold water, in which pots, and when to begin",
		Args: usage(cobra.NoArgs),
		Example: "  vatside warm --fill 15L --cold 12C --hot 60C --aim 40C\n" +
			"  vatside warm --fill 60L --cold 12C --hot 90C --aim 38C --pot 8L --stove 1800W --by induction --ready-by 10:00 --recipe soda\n" +
			"  vatside warm --fill 60L --cold 12C --hot 60C --aim 38C --have 28L --at 13C",
		RunE: func(c *cobra.Command, _ []string) error {
			if err := needed(c, "warm", "fill", "cold", "hot", "aim"); err != nil {
				return err
			}
			return p.warm(w, &reader{c: c})
		},
	}
	f := c.Flags()
	f.StringVar(&w.fill, "fill", "", "`volume` to fill, such as 60L")
	f.StringVar(&w.cold, "cold", "", "`°C` of the cold water")
	f.StringVar(&w.hot, "hot", "", "`°C` of the hot water")
	f.StringVar(&w.aim, "aim", "", "`°C` that the fill should have")
	f.StringVar(&w.have, "have", "", "`volume` that is in the vessel already")
	f.StringVar(&w.at, "at", "", "and its `°C`")
	f.StringVar(&w.pot, "pot", "", "`volume` that one pot holds as you fill it")
	f.StringVar(&w.stove, "stove", "", "`power` of the stove, such as 1800W")
	f.StringVar(&w.by, "by", "electric", "gas, electric, induction or immersion: which part of the power reaches the water")
	f.StringVar(&w.timed, "timed", "", "`time` that one pot, from --cold to --hot, really took: corrects that part")
	f.StringVar(&w.readyBy, "ready-by", "", "`time` of day at which it should be ready, such as 10:00")
	f.StringVar(&w.recipe, "recipe", "", "`id` of a recipe: then ready means the first piece going in")
	p.flags(c, texted{"units": &w.units})
	return c
}

func (p *program) warm(w warming, r *reader) error {
	r.sys, r.err = p.units(w.units)
	if err := cmp.Or(r.err, w.fits(r)); err != nil {
		return err
	}
	f, err := w.filling(r)
	if err != nil {
		return err
	}
	rest, err := f.Rest()
	if err != nil {
		return said(err, r.sys)
	}
	var heat quantity.Span
	if r.given("--stove") {
		if heat, err = w.heat(r, f, rest); err != nil {
			return err
		}
	}
	warnings := []string{}
	if rest.Short != "" {
		warnings = append(warnings, strings.TrimSuffix(rest.ShortIn(r.sys), "."))
	}
	var begin time.Time
	var slots []prepare.Slot
	if r.given("--ready-by") {
		if begin, slots, err = p.begin(w, heat, f, &warnings, r.sys); err != nil {
			return err
		}
	}
	// The keys of warm --json.
	return p.give(object{
		{"hot_l", tidy(rest.Hot.Litres())}, {"cold_l", tidy(rest.Cold.Litres())}, {"pots", when(f.Pot > 0, rest.Pots)}, {"pot_l", when(f.Pot > 0, tidy(rest.PotFill.Litres()))},
		{"heat_min", when(r.given("--stove"), tidy(heat.Minutes()))}, {"begin_at", instant(begin)}, {"reaches_c", tidy(rest.Reaches.Celsius())}, {"warnings", warnings},
		{"steps", each(slots, func(s prepare.Slot) object {
			return object{{"at", stamp(s.At)}, {"minutes", tidy(s.For.Minutes())}, {"what", s.What}}
		})},
	}, tellWarm(f, rest, heat, begin, slots, warnings, r.sys))
}

// fits refuses flags that say nothing without another.
func (w warming) fits(r *reader) error {
	for _, f := range []struct{ flag, wants, why string }{
		{"--have", "--at", "what is in the vessel, and its °C"},
		{"--at", "--have", "what is in the vessel, and its °C"},
		{"--timed", "--stove", "the power of the timed stove"},
		{"--timed", "--pot", "how much was in the timed pot"},
		{"--by", "--stove", "its power"},
		{"--recipe", "--ready-by", "when the first piece is to go in"},
	} {
		if r.given(f.flag) && !r.given(f.wants) {
			return usageError{fmt.Errorf("%s needs %s: %s", f.flag, f.wants, f.why)}
		}
	}
	return nil
}

func (w warming) filling(r *reader) (water.Filling, error) {
	var f water.Filling
	fillUpTo(r, &f.Fill, "--fill", w.fill)
	temperature(r, &f.Cold, "--cold", w.cold)
	temperature(r, &f.Hot, "--hot", w.hot)
	temperature(r, &f.Aim, "--aim", w.aim)
	fillUpTo(r, &f.Have, "--have", w.have)
	temperature(r, &f.HaveAt, "--at", w.at)
	fillUpTo(r, &f.Pot, "--pot", w.pot)
	if r.err == nil && r.given("--pot") && f.Pot < quantity.Millilitres(100) {
		return f, fmt.Errorf("--pot: %s is no pot; it must hold %s or more", f.Pot.Format(r.sys), quantity.Millilitres(100).Format(r.sys))
	}
	return f, r.err
}

// heat is how long the hot water takes on the stove, all pots one after the other.
func (w warming) heat(r *reader, f water.Filling, rest water.Rest) (quantity.Span, error) {
	var watts quantity.Power
	power(r, &watts, "--stove", w.stove)
	stove := water.Electric
	read(r, &stove, "--by", w.by, func(s string, _ quantity.System) (water.Stove, error) { return water.ParseStove(s) })
	var took quantity.Span
	read(r, &took, "--timed", w.timed, quantity.ParseSpan)
	if r.err != nil {
		return 0, r.err
	}
	part := stove.Reaches()
	if r.given("--timed") {
		var err error
		if part, err = water.Timed(f.Pot, f.Cold, f.Hot, took, watts); err != nil {
			return 0, said(err, r.sys)
		}
	}
	// What is heated is weighed cold, and poured hot.
	t, err := water.HeatTime(water.VolumeOf(water.MassOf(rest.Hot, f.Hot), f.Cold), f.Cold, f.Hot, watts, part)
	return t, said(err, r.sys)
}

// begin reckons back from the wished time.
func (p *program) begin(w warming, heat quantity.Span, f water.Filling, warnings *[]string, sys quantity.System) (time.Time, []prepare.Slot, error) {
	now := p.Now()
	ready, err := nextAt(w.readyBy, now)
	if err != nil {
		return time.Time{}, nil, fmt.Errorf("--ready-by: %w", err)
	}
	// Whole seconds, and rather a second early than late.
	begin := ready.Add(-time.Duration(math.Ceil(tidy(heat.Minutes())*60-1e-9)) * time.Second)
	var slots []prepare.Slot
	if w.recipe != "" {
		r, err := p.find(w.recipe)
		if err != nil {
			return time.Time{}, nil, err
		}
		slots, err = prepare.Backwards(day.Head{Recipe: r, Setup: day.Setup{Fill: f.Fill, Cold: f.Cold, Hot: f.Hot}}, ready, heat)
		if err != nil {
			return time.Time{}, nil, err
		}
		begin = slots[0].At.Truncate(time.Second)
		if build := r.Liquor.Build; math.Abs((build - f.Aim).Celsius()) > 0.5 {
			*warnings = append(*warnings, fmt.Sprintf("recipe %s is built at %s, and the aim is %s", r.ID, build.Format(sys), f.Aim.Format(sys)))
		}
	}
	if late := now.Sub(begin); late > 0 {
		*warnings = append(*warnings, fmt.Sprintf("to be ready at %s it should have begun at %s, %s ago", day.Clock(ready), day.Clock(begin), day.Long(late)))
	}
	return begin, slots, nil
}

func tellWarm(f water.Filling, rest water.Rest, heat quantity.Span, begin time.Time, slots []prepare.Slot, warnings []string, sys quantity.System) (tell telling) {
	there := ""
	if f.Have > 0 {
		there = fmt.Sprintf(", with %s at %s in it already", f.Have.Format(sys), f.HaveAt.Format(sys))
	}
	tell.line("%s at %s%s:", f.Fill.Format(sys), f.Aim.Format(sys), there)
	in := func(n int, what string, each quantity.Volume) string {
		if n < 2 {
			return ""
		}
		return fmt.Sprintf(", in %d %s of %s", n, what, each.Format(sys))
	}
	var rows table
	if rest.Cold > 0 {
		first := ", first"
		if f.Have > 0 {
			first = ""
		}
		rows.add(rest.Cold.Format(sys), fmt.Sprintf("cold, %s%s%s", f.Cold.Format(sys), first, in(rest.ColdCarries, "carries", rest.ColdCarry)))
	}
	if rest.Hot > 0 {
		pots := in(rest.Pots, "pots", rest.PotFill)
		if rest.HotCarries != rest.Pots {
			pots += in(rest.HotCarries, "carries", rest.HotCarry)
		}
		rows.add(rest.Hot.Format(sys), fmt.Sprintf("hot, %s%s; poured low, then stir and read the temperature", f.Hot.Format(sys), pots))
	}
	if rest.Cold == 0 && rest.Hot == 0 {
		rows.add("nothing", "is to be poured")
	}
	if m := tidy(heat.Minutes()); m > 0 {
		rows.add(quantity.Minutes(math.Ceil(m)).String(), "on the stove, one pot after the other")
	}
	if !begin.IsZero() {
		rows.add(day.Clock(begin), begin.Format("begin, on Monday 2 January"))
	}
	for _, s := range slots {
		rows.add(day.Clock(s.At), s.What)
	}
	tell.table(rows)
	tell.notes("Note", warnings)
	if rest.Hot > 0 {
		tell.note("Caution", fmt.Sprintf("above %s at most %s a carry, lidded, nobody in the way; never hot into an empty plastic vessel, nor into a vat with reducer or indigo; a filled vessel is not lifted",
			water.Scalding.Format(sys), water.HotCarry.Format(sys)))
	}
	return tell
}
