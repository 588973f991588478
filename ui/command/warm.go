package command

import (
	"fmt"
	"math"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"example.org/vatside/model/day"
	"example.org/vatside/model/prepare"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/water"
	"example.org/vatside/model/wording"
)

type warming struct {
	water.Filling
	stove           quantity.Power
	by              water.Stove
	timed           quantity.Span
	readyBy, recipe string
}

func (p *program) warmCommand() *cobra.Command {
	var w warming
	return p.reckoning("warm --fill VOLUME --cold °C --hot °C --aim °C", "How much hot and cold water, in which pots, and when to begin", func(r *reader) {
		r.needs = []string{"fill", "cold", "hot", "aim"}
		r.rules = func() []rule { return goTogether(r) }
		value(r, &w.Fill, "fill", "", "`volume` to fill, such as 60L", fillRead)
		value(r, &w.Cold, "cold", "", "`°C` of the cold water", quantity.ParseTemperature)
		value(r, &w.Hot, "hot", "", "`°C` of the hot water", quantity.ParseTemperature)
		value(r, &w.Aim, "aim", "", "`°C` that the fill should have", quantity.ParseTemperature)
		value(r, &w.Have, "have", "", "`volume` that is in the vessel already", fillRead)
		value(r, &w.HaveAt, "at", "", "and its `°C`", quantity.ParseTemperature)
		value(r, &w.Pot, "pot", "", "`volume` that one pot holds as you fill it", potRead)
		value(r, &w.stove, "stove", "", "`power` of the stove, such as 1800W", powerRead)
		value(r, &w.by, "by", "electric", "how the stove `heats`, gas, electric, induction or immersion: which part of the power reaches the water", anywhere(water.ParseStove))
		value(r, &w.timed, "timed", "", "`time` that one pot, from --cold to --hot, really took: corrects that part", quantity.ParseSpan)
		r.StringVar(&w.readyBy, "ready-by", "", "`time` of day at which it should be ready, such as 10:00")
		r.StringVar(&w.recipe, "recipe", "", "`id` of a recipe: then ready means the first piece going in")
	}, func(r *reader) error { return p.warm(w, r) })
}

func (p *program) warm(w warming, r *reader) error {
	rest := got(w.Rest())
	var heat quantity.Span
	if r.Changed("stove") {
		heat = w.heat(r, rest)
	}
	warnings := []string{}
	if rest.Short != "" {
		warnings = append(warnings, strings.TrimSuffix(rest.ShortIn(r.sys), "."))
	}
	var begin time.Time
	var slots []prepare.Slot
	if r.Changed("ready-by") {
		begin, slots = p.begin(w, heat, &warnings, r.sys)
	}
	// The keys of warm --json.
	return p.give(object{
		{"hot_l", tidy(rest.Hot.Litres())}, {"cold_l", tidy(rest.Cold.Litres())}, {"pots", when(w.Pot > 0, rest.Pots)}, {"pot_l", when(w.Pot > 0, tidy(rest.PotFill.Litres()))},
		{"heat_min", when(r.Changed("stove"), tidy(heat.Minutes()))}, {"begin_at", instant(begin)}, {"reaches_c", tidy(rest.Reaches.Celsius())}, {"warnings", warnings},
		{"steps", each(slots, func(s prepare.Slot) object {
			return object{{"at", stamp(s.At)}, {"minutes", tidy(s.For.Minutes())}, {"what", s.What}}
		})},
	}, tellWarm(w.Filling, rest, heat, begin, slots, warnings, r.sys))
}

// goTogether are the flags that say nothing without another.
func goTogether(r *reader) []rule {
	needs := func(flag, other, why string) rule {
		return rule{r.Changed(flag) && !r.Changed(other), "--" + flag + " needs --" + other + ": " + why}
	}
	return []rule{
		needs("have", "at", "what is in the vessel, and its °C"),
		needs("at", "have", "what is in the vessel, and its °C"),
		needs("timed", "stove", "the power of the timed stove"),
		needs("timed", "pot", "how much was in the timed pot"),
		needs("by", "stove", "its power"),
		needs("recipe", "ready-by", "when the first piece is to go in"),
	}
}

// potRead reads what one pot holds, and refuses what is none.
func potRead(s string, sys quantity.System) (quantity.Volume, error) {
	v, err := fillRead(s, sys)
	if err == nil && v < quantity.Millilitres(100) {
		err = fmt.Errorf("%s is no pot; it must hold %s or more", v.Format(sys), quantity.Millilitres(100).Format(sys))
	}
	return v, err
}

// heat is how long the hot water takes on the stove, all pots one after the other.
func (w warming) heat(r *reader, rest water.Rest) quantity.Span {
	part := w.by.Reaches()
	if r.Changed("timed") {
		part = got(water.Timed(w.Pot, w.Cold, w.Hot, w.timed, w.stove))
	}
	// What is heated is weighed cold, and poured hot.
	return got(water.HeatTime(water.VolumeOf(water.MassOf(rest.Hot, w.Hot), w.Cold), w.Cold, w.Hot, w.stove, part))
}

// begin reckons back from the wished time.
func (p *program) begin(w warming, heat quantity.Span, warnings *[]string, sys quantity.System) (begin time.Time, slots []prepare.Slot) {
	now := p.Now()
	var ready time.Time
	within("--ready-by", func() { ready = nextAt(w.readyBy, now) })
	// Whole seconds, and rather a second early than late.
	begin = ready.Add(-time.Duration(math.Ceil(tidy(heat.Minutes())*60-1e-9)) * time.Second)
	if w.recipe != "" {
		r := got(p.find(w.recipe))
		slots = got(prepare.Backwards(day.Head{Recipe: r, Setup: day.Setup{Fill: w.Fill, Cold: w.Cold, Hot: w.Hot}}, ready, heat))
		begin = slots[0].At.Truncate(time.Second)
		if build := r.Liquor.Build; math.Abs((build - w.Aim).Celsius()) > 0.5 {
			*warnings = append(*warnings, fmt.Sprintf("recipe %s is built at %s, and the aim is %s", r.ID, build.Format(sys), w.Aim.Format(sys)))
		}
	}
	if late := now.Sub(begin); late > 0 {
		*warnings = append(*warnings, fmt.Sprintf("to be ready at %s it should have begun at %s, %s ago", day.Clock(ready), day.Clock(begin), day.Long(late)))
	}
	return begin, slots
}

func tellWarm(f water.Filling, rest water.Rest, heat quantity.Span, begin time.Time, slots []prepare.Slot, warnings []string, sys quantity.System) (tell telling) {
	there := wording.If(f.Have > 0, fmt.Sprintf(", with %s at %s in it already", f.Have.Format(sys), f.HaveAt.Format(sys)))
	tell.line("%s at %s%s:", f.Fill.Format(sys), f.Aim.Format(sys), there)
	in := func(n int, what string, each quantity.Volume) string {
		if n < 2 {
			return ""
		}
		return fmt.Sprintf(", in %d %s of %s", n, what, each.Format(sys))
	}
	var rows table
	first := wording.If(f.Have <= 0, ", first") + in(rest.ColdCarries, "carries", rest.ColdCarry)
	rows.where(rest.Cold > 0, rest.Cold.Format(sys), "cold, "+f.Cold.Format(sys)+first)
	pots := in(rest.Pots, "pots", rest.PotFill) + wording.If(rest.HotCarries != rest.Pots, in(rest.HotCarries, "carries", rest.HotCarry))
	rows.where(rest.Hot > 0, rest.Hot.Format(sys), "hot, "+f.Hot.Format(sys)+pots+"; poured low, then stir and read the temperature")
	rows.where(rest.Cold == 0 && rest.Hot == 0, "nothing", "is to be poured")
	minutes := tidy(heat.Minutes())
	rows.where(minutes > 0, quantity.Minutes(math.Ceil(minutes)).String(), "on the stove, one pot after the other")
	rows.where(!begin.IsZero(), day.Clock(begin), begin.Format("begin, on Monday 2 January"))
	for _, s := range slots {
		rows.add(day.Clock(s.At), s.What)
	}
	tell.table(rows)
	tell.notes("Note", warnings)
	if rest.Hot > 0 {
		tell.note("Caution", fmt.Sprintf("from %s on at most %s a carry, lidded, nobody in the way; never hot into an empty plastic vessel, nor into a vat with reducer or indigo; a filled vessel is not lifted",
			water.Scalding.Format(sys), water.HotCarry.Format(sys)))
	}
	return tell
}
