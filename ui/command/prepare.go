package command

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"example.org/vatside/model/day"
	"example.org/vatside/model/practice"
	"example.org/vatside/model/prepare"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/sheet"
	"example.org/vatside/model/water"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/shelf"
)

type preparing struct {
	pieces                 []string
	state, water           string
	recipe, fill, vat      string
	readyBy, heater, stove string
	by, place              string
	children, class        bool
}

// usualStart is when the first piece goes in where nobody wished for a time.
const usualStart = "10:00"

func (p *program) prepareCommand() *cobra.Command {
	var w preparing
	const short = "Before the day: scouring, wetting out, a checklist, and when to begin"
	return p.command("prepare --piece GOODS [--recipe ID --fill VOLUME | --vat VAT]", short, nil, func(r *reader) {
		given := r.Changed
		r.rules = func() []rule {
			return []rule{
				{!given("piece") && !given("recipe") && !given("vat"), "prepare needs --piece, --recipe or --vat"},
				{given("vat") && (given("recipe") || given("fill")), "--vat has its recipe and its fill: leave --recipe and --fill out"},
				{given("recipe") && !given("fill"), "--recipe needs --fill: how much is to be built"},
				{given("fill") && !given("recipe"), "--fill needs --recipe: what it is filled with"},
				{given("by") && !given("stove"), "--by needs --stove: its power"},
				{given("state") && !given("piece"), "--state needs --piece: the goods that it is of"},
			}
		}
		r.StringArrayVar(&w.pieces, "piece", nil, "dry weight and fibre of `goods`, such as '420 g linen'; once for each")
		r.StringVar(&w.state, "state", "", "what pieces of which it is not said have been `through`: raw, greige, prepared, in gum, degummed, yarn, greasy, or scoured")
		r.StringVar(&w.recipe, "recipe", "", "`id` of a recipe, or a recipe file: the vat to be built")
		r.StringVar(&w.fill, "fill", "", "`volume` of that vat, such as 60L")
		r.StringVar(&w.vat, "vat", "", "`name` of one of your vats instead")
		r.StringVar(&w.readyBy, "ready-by", "", "`time` of day at which the first piece goes in (else as in the settings, else "+usualStart+")")
		r.StringVar(&w.heater, "heater", "", "`power` of the heater that hangs in the vat, such as 1000W")
		r.StringVar(&w.stove, "stove", "", "`power` of the stove for hot water and scouring, such as 1800W")
		r.StringVar(&w.by, "by", "electric", "how the stove `heats`, gas, electric, induction or immersion: which part of the stove's power reaches the water")
		r.StringVar(&w.place, "place", "", "`where` the vat stands: outdoors, cross-draught or closed-room")
		r.StringVar(&w.water, "water", "", "what is known of the `water`: soft or hard, chlorinated or unchlorinated, with a comma between")
		r.BoolVar(&w.children, "children", false, "children are about")
		r.BoolVar(&w.class, "class", false, "a class is at the vat")
		r.withUnits()
	}, func(r *reader) error { return p.prepare(w, r) })
}

func (p *program) prepare(w preparing, r *reader) error {
	lots := w.lots(r)
	set := p.asSet()
	head := p.headFor(w, r, set)
	around := prepare.Around(head, lots)
	around.Children, around.Class, around.Emergency = w.children, w.class, set.Emergency
	w.ofWater(&around)
	ready := p.laidOut(w, r, set, head, lots)
	items, warnings, notes := practice.Checklist(around), slices.Concat([]string{}, ready.Unfit, ready.Warnings), list(ready.Notes)
	if slices.ContainsFunc(ready.Lots, func(l prepare.Prepared) bool { return l.Scour != nil }) {
		notes = append(notes, practice.DropTest)
	}
	if mind := prepare.WithChildren(head, lots); w.children && mind != "" {
		warnings = append([]string{mind}, warnings...)
	}
	if w.readyBy == "" && set.ReadyBy == "" {
		notes = append(notes, "no start was wished for: "+usualStart+" is taken")
	}
	return p.give(preparedOf(ready, items, warnings, notes, r.sys), tellPrepare(ready, items, warnings, notes, r.sys))
}

// lots reads the pieces; --state is for those of which none is said.
func (w preparing) lots(r *reader) (lots []prepare.Lot) {
	var usual practice.State
	scoured := strings.EqualFold(strings.TrimSpace(w.state), "scoured")
	if !scoured {
		read(r, &usual, "--state", w.state, anywhere(practice.ParseState))
	}
	must(r.err)
	for _, text := range w.pieces {
		l, err := prepare.ParseLot(text, r.sys)
		must(about("--piece", err))
		if l.State == "" {
			l.State, l.Scoured = usual, l.Scoured || scoured
		}
		_, err = practice.ScourFor(l.Fibre, l.State, l.Dry)
		must(about("--state", err))
		lots = append(lots, l)
	}
	return lots
}

// headFor is the vat that is chosen, with what stands around it; without a recipe where none is.
func (p *program) headFor(w preparing, r *reader, set shelf.Settings) day.Head {
	head := day.Head{Setup: day.Setup{Place: set.Place, Cold: set.Cold, Hot: set.Hot, Gear: set.Gear}}
	if w.vat != "" {
		head = prepare.NextHead(p.vatCalled(w.vat, false).State)
	}
	head.Setup.Units = r.sys.String()
	read(r, &head.Setup.Fill, "--fill", w.fill, fillRead)
	read(r, &head.Setup.Heater, "--heater", w.heater, powerRead)
	read(r, &head.Setup.Stove, "--stove", w.stove, powerRead)
	read(r, &head.Setup.Place, "--place", w.place, placeRead)
	if r.Changed("stove") {
		head.Setup.PotTook = 0 // it was timed on another
		var by water.Stove
		read(r, &by, "--by", w.by, anywhere(water.ParseStove))
		head.Setup.StoveBy = by.String()
	}
	must(r.err)
	if r.Changed("recipe") {
		head.Recipe = got(p.findFor(w.recipe, head.Setup.Fill))
	}
	return head
}

// ofWater reads --water.
func (w preparing) ofWater(c *practice.Circumstances) {
	for _, word := range strings.FieldsFunc(strings.ToLower(w.water), func(r rune) bool { return r == ',' || r == ' ' }) {
		switch word {
		case "hard":
			c.Hard = practice.Yes
		case "soft", "rain":
			c.Hard = practice.No
		case "chlorinated":
			c.Chlorinated = practice.Yes
		case "unchlorinated":
			c.Chlorinated = practice.No
		default:
			stop("--water: %q is not known of water here; write soft or hard, chlorinated or unchlorinated", word)
		}
	}
}

// laidOut is what comes before the wished start. A start that was typed is the next of that time; one of the settings is
// the first that can still be kept.
func (p *program) laidOut(w preparing, r *reader, set shelf.Settings, head day.Head, lots []prepare.Lot) prepare.Schedule {
	now := p.Now()
	if r.Changed("ready-by") {
		var at time.Time
		within("--ready-by", func() { at = nextAt(w.readyBy, now) })
		return got(prepare.Before(head, lots, now, at))
	}
	return got(prepare.BeforeFrom(head, lots, now, nextAt(cmp.Or(set.ReadyBy, usualStart), now)))
}

// tellPrepare prints what prepare found: the goods, the times, the checklist.
func tellPrepare(ready prepare.Schedule, items []practice.Item, warnings, notes []string, sys quantity.System) (tell telling) {
	for _, l := range ready.Lots {
		tell.line("%s:", l.Name(sys))
		tell.add(tellScour(l.Scour, sys)...)
		w := l.Wet
		tell.note("Wet out", fmt.Sprintf("%s of %s, %s; %s; till %s", w.Water.Format(sys), rangeOf(w.Temp, sys), rangeOf(w.Time, sys), w.How, w.Check))
		tell.line("")
	}
	tell.line("%s", ready.Ready.Format("For the first piece at 15:04 on Monday 2 January:"))
	var rows table
	for _, a := range ready.Tasks {
		rows.add(clockOn(a.At, ready.Ready), a.What+wording.If(a.For > 0, ", "+prepare.Lasting(a.For.Duration())))
	}
	tell.table(rows)
	tell.notes("Mind", warnings)
	tell.notes("Note", notes)
	for _, when := range []practice.Moment{practice.EveningBefore, practice.AtTheStart, practice.BeforePowders} {
		head := when.String()
		for _, i := range items { // what guards eyes, skin and lungs stands first in it
			if i.When != when {
				continue
			}
			if head != "" {
				tell.line("")
				tell.line("%s:", wording.Upper(head))
				head = ""
			}
			tell.add(sheet.Ticks{List: []sheet.Tick{{Title: i.What}}})
		}
	}
	return tell
}

func tellScour(s *practice.Scour, sys quantity.System) (tell telling) {
	if s == nil {
		tell.note("", "scoured already")
		return tell
	}
	var rows table
	rows.add(s.Detergent.Likely.Scale(sys), "of "+s.Washes()+wide(s.Detergent, sys))
	switch {
	case s.Alkali.Likely > 0:
		rows.add(s.Alkali.Likely.Scale(sys), "of "+s.AlkaliIs+wide(s.Alkali, sys))
	case s.Alkali.High > 0:
		rows.add("none", "of "+s.AlkaliIs+", or up to "+s.Alkali.High.Scale(sys))
	}
	rows.add(s.Water.Likely.Format(sys), "of water"+wide(s.Water, sys))
	rows.add(s.Temp.Likely.Format(sys), "hot"+wide(s.Temp, sys))
	rows.add(s.Time.Likely.Format(sys), "each bath"+wide(s.Time, sys))
	baths := "bath" + wording.If(s.Baths.Likely != 1, "s") + wording.If(s.Baths.Low < s.Baths.High, fmt.Sprintf(", %d to %d", s.Baths.Low, s.Baths.High))
	rows.add(strconv.Itoa(s.Baths.Likely), baths)
	tell.table(rows)
	tell.note("Scour", s.How)
	tell.note("Done", s.Check)
	tell.notes("Caution", s.Cautions)
	return tell
}

// clockOn is a time of day, with the weekday where it is not that of the start.
func clockOn(at, ready time.Time) string {
	if at.YearDay() == ready.YearDay() && at.Year() == ready.Year() {
		return day.Clock(at)
	}
	return at.Format(wording.Either(ready.Sub(at) > 6*24*time.Hour, "2 Jan 15:04", "Mon 15:04"))
}

// preparedOf are the keys of prepare --json. scour is null for goods that are scoured.
func preparedOf(ready prepare.Schedule, items []practice.Item, warnings, notes []string, sys quantity.System) object {
	return object{
		{"ready_at", stamp(ready.Ready)}, {"begin_at", stamp(ready.Begin())},
		{"pieces", each(ready.Lots, func(l prepare.Prepared) object {
			name := l.Name(sys)
			if l.Scoured && l.State == "" {
				l.State = "scoured"
			}
			return object{
				{"piece", name}, {"fibre", l.Fibre.String()}, {"dry_g", tidy(l.Dry.Grams())}, {"state", l.State}, {"scour", scourOf(l.Scour)},
				{"wet_out", object{
					{"water_l", tidy(l.Wet.Water.Litres())}, {"temp_c", spreadOf(l.Wet.Temp, quantity.Temperature.Celsius)}, {"time_min", spreadOf(l.Wet.Time, quantity.Span.Minutes)},
					{"how", l.Wet.How}, {"check", l.Wet.Check}, {"evidence", l.Wet.Evidence}}},
			}
		})},
		{"checklist", each(items, func(i practice.Item) object {
			return object{{"id", i.ID}, {"what", i.What}, {"why", i.Why}, {"when", i.When.String()}, {"safety", i.Safety}, {"evidence", i.Evidence}}
		})},
		{"schedule", each(ready.Tasks, func(t prepare.Task) object {
			return object{{"at", stamp(t.At)}, {"for_min", tidy(t.For.Minutes())}, {"what", t.What}, {"how", t.How}, {"check", t.Check}}
		})},
		{"warnings", warnings}, {"notes", notes},
	}
}

func scourOf(s *practice.Scour) object {
	if s == nil {
		return nil
	}
	return object{
		{"detergent", s.Washes()}, {"detergent_g", spreadOf(s.Detergent, quantity.Mass.Grams)}, {"alkali", some(s.AlkaliIs)}, {"alkali_g", spreadOf(s.Alkali, quantity.Mass.Grams)},
		{"water_l", spreadOf(s.Water, quantity.Volume.Litres)}, {"temp_c", spreadOf(s.Temp, quantity.Temperature.Celsius)}, {"time_min", spreadOf(s.Time, quantity.Span.Minutes)},
		{"baths", spreadOf(s.Baths, whole)}, {"how", s.How}, {"check", s.Check}, {"cautions", list(s.Cautions)}, {"evidence", s.Evidence},
	}
}
