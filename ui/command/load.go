package command

import (
	"fmt"
	"math"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"example.org/vatside/model/calendar"
	"example.org/vatside/model/day"
	"example.org/vatside/model/load"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/practice"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/sheet"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/paper"
	"example.org/vatside/ui/shelf"
)

type loading struct {
	pricing
	capacity               *quantity.Mass
	hands, most, vats      int
	handling               *quantity.Span
	start, finishBy        string
	breaks                 []string
	fair, together, whatIf bool
	as, choice             string
	rest, reheat, feed     string
}

func (p *program) loadCommand() *cobra.Command {
	var l loading
	return p.command("load FILE.toml --recipe ID --fill VOLUME", "One vat, many pieces: the timetable of a day", cobra.ExactArgs(1), func(r *reader) {
		r.rules = func() []rule {
			given := slices.IndexFunc(notPlain, r.Changed)
			return []rule{
				{l.fixed && given >= 0, fmt.Sprintf("--%s needs --recipe and --fill: --fixed-dips reckons with weight, dips, airings and hands alone", notPlain[max(0, given)])},
				{l.fixed && len(r.typed("price", "energy")) > 0, "--price and --energy need --recipe and --fill: --fixed-dips knows no powders"},
				{!l.fixed && len(r.typed("recipe", "fill")) < 2, "load needs --recipe and --fill, or --fixed-dips"},
				{!slices.Contains([]string{"", "csv", "ical", "tags"}, l.as), fmt.Sprintf("--as is csv, ical or tags, not %q", l.as)},
				{l.as != "" && p.json, asJSON},
				{!slices.Contains([]string{"", load.ChoiceWeak, load.ChoiceFull, load.ChoiceFeed}, l.choice), fmt.Sprintf("--choice is weak, full or feed, not %q", l.choice)},
			}
		}
		r.recipe(&l.recipe)
		value(r, &l.fill, "fill", "", "", fillRead)
		value(r, &l.capacity, "capacity", "", "dry `weight` of goods in the vat at once (else by the liquor ratio)", optional(quantity.ParseMass))
		r.IntVar(&l.hands, "hands", 0, "the `number` of pairs of hands (else as in the settings, else 1)")
		value(r, &l.handling, "handling", "", "`time` to lower or to lift a piece (else by its form); 0s: none", optional(quantity.ParseSpan))
		r.IntVar(&l.most, "most", 0, "the `number` of pieces in the vat at once, to keep them apart; 0: no limit")
		r.IntVar(&l.vats, "vats", 1, "the `number` of like vats side by side, each of the --fill")
		r.StringVar(&l.rest, "rest", "", "`pause` of the vat, such as '1 h after 3 h' of work (the usual one), or none")
		r.StringVar(&l.reheat, "reheat", "", "`pause` in which the vat is heated, such as '20 min after 2 h' of work (else none)")
		r.StringVar(&l.feed, "feed", "", "pure `indigo` of a feed when the vat tires, such as '40 g', or '40 g then 2 h' to wait (else 1 h)")
		r.StringVar(&l.start, "start", "", "`time` of day at which it begins, such as 09:30, or with its day: '2026-12-05 10:00'")
		r.StringVar(&l.finishBy, "finish-by", "", "`time` of day by which every piece is done, rinses and souring in it (else as in the settings)")
		r.StringArrayVar(&l.breaks, "break", nil, "a `break` of the hands, such as 12:30-13:15; needs --start")
		r.BoolVar(&l.fixed, "fixed-dips", false, "reckon with weight, dips and airings alone, and hands and handling if given")
		r.BoolVar(&l.fair, "fair", false, "turns by rounds, everybody's first dip first, instead of dark pieces first")
		r.StringVar(&l.choice, "choice", "", "`ID` of what to do when the vat tires: weak, full or feed (else the wish, --finish-by, decides)")
		r.BoolVar(&l.together, "together", false, "like pieces of one person go in and come out as one")
		r.BoolVar(&l.whatIf, "what-if", false, "also with one more person, a second vat, a bigger vat, shorter dips")
		r.StringVar(&l.as, "as", "", "the `form` instead: csv or ical, the timetable; tags: a list of tags to print")
		r.StringArrayVar(&l.prices, "price", nil, "`price` of a kilogram of a powder, such as 'indigo=90'; once for each")
		value(r, &l.energy, "energy", "", "`price` of a kilowatt-hour of heat, such as 0.30", optional(priceOf))
		r.withUnits()
	}, func(r *reader) error { return p.load(l, r) })
}

// notPlain are the flags that the plain problem does not have.
var notPlain = []string{"vats", "rest", "reheat", "feed", "break", "most", "finish-by", "fair", "choice", "together", "what-if"}

func (p *program) load(l loading, r *reader) error {
	file, sys := r.args[0], r.sys
	start := p.begins(l.start)
	begins := sinceMidnight(start)
	pieces := piecesIn(file, begins)
	if !l.fixed && l.as != "tags" {
		p.warn(l.asSet(p.asSet(), r, pieces, start)...)
	}
	limits := p.limits(l, r.Changed("hands"), begins, sys)
	if l.start != "" {
		limits.Zero = start.Add(time.Minute / 2) // to the next minute, as sayer says them
	}
	long := tightened(pieces, l.fixed)
	plan := got(load.Make(pieces, limits))
	if l.choice != "" && !slices.ContainsFunc(plan.Choices, func(c load.Choice) bool { return c.ID == l.choice && c.Chosen }) {
		return fmt.Errorf("--choice %s: %s", l.choice, noChoice(plan.Choices))
	}
	if r, err := p.find(l.recipe); err == nil && !l.fixed {
		plan.Warnings = append(plan.Warnings, pasted(r, pieces)...)
	}
	plan.Warnings = append(plan.Warnings, long...)
	if limits.Fair && (plan.Leaving > 0 || late(plan, limits)) {
		plan.Warnings = append(plan.Warnings, darkFirst(pieces, limits, plan)...)
	}
	switch l.as {
	case "csv":
		fmt.Fprint(p.Out, csvOf(plan))
		return nil
	case "tags":
		fmt.Fprint(p.Out, got(paper.Set(sheet.Sheet{Blocks: []sheet.Block{sheet.TagsOf(pieces, sys)}}, "txt")))
		return nil
	case "ical":
		fmt.Fprint(p.Out, calendar.Calendar{Name: calendarName(file), At: p.Now(), Events: calendar.OfPlan(plan, start)}.Text())
		return nil
	}
	var options []load.Option
	if l.whatIf {
		options = got(load.Options(pieces, limits))
	}
	price := p.costOf(l, plan, pieces, sys)
	if p.json {
		return p.asJSON(loadedOf(plan, options, price, sayer(l.start != "", start)))
	}
	tell := tellLoad(plan, pieces, limits.Breaks, options, sayer(l.start != "", start))
	if price != nil {
		tell.note("Cost", fmt.Sprintf("powders %s%s: %s %s", price.Powders, wording.If(price.Heated, ", heat "+price.Heat.String()), price.head(), price.among()))
		if len(price.Without) > 0 {
			tell.note("Note", "no price was given for "+wording.List(price.Without))
		}
	}
	p.show(tell)
	return nil
}

// asSet takes what the flags leave open from the settings, and gives what the dyer should know of it: whose hands it reckons with where
// pieces are people's, and the wished finish. Without a start there is none: it counts from now.
func (l *loading) asSet(set shelf.Settings, r *reader, pieces []load.Piece, start time.Time) (told []error) {
	from := wording.If(set.Hands > 0, ", as set")
	if !r.Changed("hands") {
		l.hands = max(1, set.Hands)
		if slices.ContainsFunc(pieces, func(x load.Piece) bool { return x.Who != "" }) {
			hands := wording.Either(l.hands == 1, "one pair", fmt.Sprintf("%d pairs", l.hands))
			told = append(told, fmt.Errorf("the pieces are of named people: reckoned with %s of hands at the vat%s; --hands says how many", hands, from))
		}
	}
	wish := day.Wished(start, set.DoneBy)
	switch {
	case l.start == "" && (l.finishBy != "" || slices.ContainsFunc(pieces, func(x load.Piece) bool { return x.From != 0 || x.Till != 0 })):
		told = append(told, fmt.Errorf("times of day are counted from now, %s; --start says when the day begins", day.Clock(start)))
	case l.start != "" && !r.Changed("finish-by") && wish != nil && wish.Day() == start.Day():
		l.finishBy = set.DoneBy
		told = append(told, fmt.Errorf("every piece should be done by %s, as set; --finish-by says another time", set.DoneBy))
	}
	return told
}

// calendarName is a file of pieces without its folder and ending. The calendar of the same file moves what is in a calendar
// already.
func calendarName(file string) string {
	if name := strings.TrimSuffix(filepath.Base(file), filepath.Ext(file)); name != "-" && name != "" {
		return name
	}
	return "vatside"
}

// pasted is what is to be said of pieces with a resist of paste in a vat of this recipe; nothing where there are none.
func pasted(r recipe.Recipe, pieces []load.Piece) []string {
	fit, words := practice.PasteFits(r)
	return wording.Some(pieces, func(x load.Piece) (string, bool) {
		return fmt.Sprintf("piece %s: %s", x.Tag, words), x.Form == load.Pasted && fit != practice.Fits
	})
}

// tightened plans tight cloth as cloth of its mean dip, in which its longer first dip is, and says so; fixed dips stay as they are given.
func tightened(pieces []load.Piece, fixed bool) (out []string) {
	for i, x := range pieces {
		if x.Form != load.Tight {
			continue
		}
		if pieces[i].Form = load.Cloth; !fixed {
			pieces[i].Dip = practice.MeanDip(x.Dip, x.Dips)
			out = append(out, fmt.Sprintf("piece %s: %s in its first dip of tight cloth, then %s; the times above have the mean, %s", x.Tag, practice.LongFirst(x.Dip), x.Dip, pieces[i].Dip))
		}
	}
	return out
}

// begins is when the plan starts: at the time of day as given, today where no day is, else now, to the minute.
func (p *program) begins(clock string) time.Time {
	now := p.Now()
	if clock == "" {
		return now.Truncate(time.Minute)
	}
	on := now
	t, err := time.Parse("15:04", clock)
	if err != nil {
		t, err = time.Parse("2006-01-02 15:04", clock)
		on = t
	}
	if err != nil {
		stop("--start %q: write a time of day, such as 09:30, or with its day, such as 2026-12-05 10:00", clock)
	}
	return time.Date(on.Year(), on.Month(), on.Day(), t.Hour(), t.Minute(), 0, 0, now.Location())
}

func sinceMidnight(t time.Time) quantity.Span {
	return quantity.Span(time.Duration(t.Hour())*time.Hour + time.Duration(t.Minute())*time.Minute)
}

// darkFirst says of a plan by rounds, in which one who leaves early is not out in time, or a piece is late, that dark pieces first would do.
func darkFirst(pieces []load.Piece, limits load.Limits, fair load.Plan) []string {
	limits.Fair = false
	other := got(load.Make(pieces, limits))
	return wording.Filled(
		wording.If(fair.Leaving > 0 && other.Leaving == 0, "without --fair all who leave early would be out in time"),
		wording.If(late(fair, limits) && !late(other, limits), "without --fair every piece would be done by the latest finish"))
}

// late tells whether a piece is done after the latest finish.
func late(plan load.Plan, limits load.Limits) bool {
	return limits.Latest > 0 && plan.Finish() > limits.Latest
}

func noChoice(ways []load.Choice) string {
	if len(ways) == 0 {
		return "the vat does not tire, so there is nothing to choose; leave it out"
	}
	return "that way gives no more full dips; choose " + wording.List(wording.Each(ways, func(c load.Choice) string { return c.ID }))
}

// sayer says times of a plan: by the clock where a start was given, else in minutes.
func sayer(clocked bool, start time.Time) func(quantity.Span) string {
	return func(s quantity.Span) string {
		if clocked {
			return day.DateOf(start.Add(s.Duration().Round(time.Minute)), start)
		}
		return strconv.FormatFloat(math.Round(s.Minutes()*10)/10, 'f', -1, 64) + " min"
	}
}

func tellLoad(plan load.Plan, pieces []load.Piece, breaks []load.Break, options []load.Option, at func(quantity.Span) string) (tell telling) {
	told := outlook.TellPlan(plan, pieces, breaks, at)
	tell = tellTable(told)
	for _, o := range options {
		if o.Fault != "" {
			tell.note("What if, "+o.Name, o.Fault)
			continue
		}
		tell.note("What if, "+o.Name, fmt.Sprintf("last lift at %s, all done at %s", at(o.Plan.LastLift()), at(o.Finish)))
	}
	for _, c := range plan.Choices {
		name := "The vat tires, --choice " + c.ID + wording.If(c.Chosen, " (this one)")
		tell.note(name, c.Words(at))
	}
	tell.notes("Note", told.Notes)
	return tell
}

// tellTable prints a timetable, but for its notes.
func tellTable(t outlook.Told) (tell telling) {
	tell.line("%s", t.Head)
	var rows table
	for _, l := range t.Rows {
		rows.add(l.At, l.Words)
	}
	tell.table(rows)
	rows = nil
	for _, l := range t.Done {
		rows.add(l.At, l.Words)
	}
	tell.table(rows)
	return tell
}
