package command

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"example.org/vatside/model/day"
	"example.org/vatside/model/practice"
	"example.org/vatside/model/prepare"
	"example.org/vatside/model/water"
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
	return p.command(&cobra.Command{
		Use: "prepare --piece GOODS [--recipe ID --fill VOLUME | --vat VAT]", Short: "Before the day: scouring, wetting out, a checklist, and when to begin",
	}, func(r *reader) {
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
	lots, err := w.lots(r)
	if err != nil {
		return err
	}
	set := p.asSet()
	head, err := p.headFor(w, r, set)
	if err != nil {
		return err
	}
	around := prepare.Around(head, lots)
	around.Children, around.Class, around.Emergency = w.children, w.class, set.Emergency
	if err := w.ofWater(&around); err != nil {
		return err
	}
	ready, err := p.laidOut(w, r, set, head, lots)
	if err != nil {
		return err
	}
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
func (w preparing) lots(r *reader) ([]prepare.Lot, error) {
	var lots []prepare.Lot
	var usual practice.State
	scoured := strings.EqualFold(strings.TrimSpace(w.state), "scoured")
	if !scoured {
		read(r, &usual, "--state", w.state, anywhere(practice.ParseState))
	}
	if r.err != nil {
		return nil, r.err
	}
	for _, text := range w.pieces {
		l, err := prepare.ParseLot(text, r.sys)
		if err != nil {
			return nil, fmt.Errorf("--piece: %w", err)
		}
		if l.State == "" {
			l.State, l.Scoured = usual, l.Scoured || scoured
		}
		if _, err := practice.ScourFor(l.Fibre, l.State, l.Dry); err != nil {
			return nil, fmt.Errorf("--state: %w", err)
		}
		lots = append(lots, l)
	}
	return lots, nil
}

// headFor is the vat that is chosen, with what stands around it; without a recipe where none is.
func (p *program) headFor(w preparing, r *reader, set shelf.Settings) (day.Head, error) {
	head := day.Head{Setup: day.Setup{Place: set.Place, Cold: set.Cold, Hot: set.Hot, Gear: set.Gear}}
	var err error
	if w.vat != "" {
		if head, err = p.headOf(w.vat); err != nil {
			return head, err
		}
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
	if r.err != nil {
		return head, r.err
	}
	if r.Changed("recipe") {
		head.Recipe, err = p.findFor(w.recipe, head.Setup.Fill)
	}
	return head, err
}

// headOf is the head of a vat's next day: built, or at the step where its build stands.
func (p *program) headOf(name string) (day.Head, error) {
	st, err := p.vatCalled(name, false)
	if err != nil {
		return day.Head{}, err
	}
	return prepare.NextHead(st.State), nil
}

// ofWater reads --water.
func (w preparing) ofWater(c *practice.Circumstances) error {
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
			return fmt.Errorf("--water: %q is not known of water here; write soft or hard, chlorinated or unchlorinated", word)
		}
	}
	return nil
}

// laidOut is what comes before the wished start. A start that was typed is the next of that time; one of the settings is
// the first that can still be kept.
func (p *program) laidOut(w preparing, r *reader, set shelf.Settings, head day.Head, lots []prepare.Lot) (prepare.Schedule, error) {
	now := p.Now()
	if r.Changed("ready-by") {
		at, err := nextAt(w.readyBy, now)
		if err != nil {
			return prepare.Schedule{}, fmt.Errorf("--ready-by: %w", err)
		}
		return prepare.Before(head, lots, now, at)
	}
	clock := cmp.Or(set.ReadyBy, usualStart)
	at, err := nextAt(clock, now)
	if err != nil {
		return prepare.Schedule{}, err
	}
	return prepare.BeforeFrom(head, lots, now, at)
}
