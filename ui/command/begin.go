package command

import (
	"cmp"
	"errors"
	"fmt"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"example.org/vatside/model/day"
	"example.org/vatside/model/practice"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/vessel"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/library"
	"example.org/vatside/ui/shelf"
)

type beginFlags struct {
	recipe, place, kept string
	fill                quantity.Volume
	vessel              vessel.Vessel
	at                  string
	built, goods        bool
}

func (p *program) beginCommand() *cobra.Command {
	var f beginFlags
	return p.command("begin VAT [--recipe ID --fill VOLUME]", "Open a new vat's first day, or the next day of one that exists", cobra.ExactArgs(1), func(r *reader) {
		given := r.Changed
		r.rules = func() []rule {
			return []rule{
				{strings.TrimSpace(r.args[0]) == "", "begin needs the name of the vat"},
				{given("recipe") != given("fill"), "--recipe and --fill go together: what is built, and how much of it"},
				{(given("vessel") || given("built")) && !given("recipe"), "--vessel and --built are for a new vat: they go with --recipe and --fill"},
			}
		}
		value(r, &f.place, "place", "", "`where` it stands: outdoors, cross-draught or closed-room (else as in the settings, or as the last day had it)", placeRead)
		value(r, &f.kept, "kept", "", "`how` it is kept warm between its days: heater (with a thermostat), wrapped, sun or not (else as the last day had it)", keptRead)
		r.StringVar(&f.recipe, "recipe", "", "`id` of a recipe, or a recipe file: what a new vat is built by")
		value(r, &f.fill, "fill", "", "`volume` of a new vat's liquor in all, such as 60L", fillRead)
		value(r, &f.vessel, "vessel", "", "inside measures of a new vat's `vessel`, and its material, such as 'frustum 36cm 44cm 62cm HDPE'", vessel.Parse)
		r.BoolVar(&f.built, "built", false, "it stands full and made: the day is for reading it and dyeing in it")
		r.BoolVar(&f.goods, "goods", false, "the day's first call asks what is to be dyed (else the day begins without goods, and says so); scouring and soak are called either way")
		r.StringVar(&f.at, "at", "", "`time` at which the day began, of today's date or RFC 3339; not before the vat's last event")
		r.units = r.String("units", "", "`system` of units of a new vat: metric, us or imperial (else as in the settings)")
		r.refused = func(err error) error { return p.told(saying{err: err}) }
	}, func(r *reader) error { return p.told(p.beginDay(strings.TrimSpace(r.args[0]), f, r)) })
}

func (p *program) beginDay(name string, f beginFlags, r *reader) saying {
	h, err := p.shelf()
	if err != nil {
		return saying{err: err}
	}
	settings, err := h.Settings()
	p.warn(err)
	vat, err := library.VatNamed(h, name)
	if err != nil {
		vat = shelf.Slug(name)
	}
	s := saying{}
	w, err := h.BeginDay(vat, func() (day.Head, []day.Event, error) {
		head, at, err := p.firstOf(h, vat, name, f, r, settings)
		if err != nil {
			return head, nil, err
		}
		e := day.Event{Seq: 1, At: at.Truncate(time.Second), Body: day.Opened{How: engine.How(head)}}
		if f.at == "" {
			e.Boot, e.Up = engine.Stamp(shelf.BootID())
		}
		s.events, s.now = []day.Event{e}, at
		return head, s.events, nil
	})
	if errors.Is(err, shelf.ErrLocked) {
		err = fmt.Errorf("%s is open in another program, which writes it: no day is begun from here", vat)
	}
	if err != nil {
		return p.openNow(h, vat, err)
	}
	s.id = vat + "/" + w.Head().Day
	if w.Head().Setup.GoodsLater {
		p.warn(fmt.Errorf("no goods were named, so the day begins without any; name them when you know, vatside say %s 'piece A1 linen about 400 g dark', or begin with --goods", vat))
	}
	s.state, _ = day.Replay(w.Head(), s.events)
	s.err = w.Close()
	return s
}

// openNow is a refusal, with the day of the vat that is open, if one is.
func (p *program) openNow(h shelf.Home, vat string, why error) saying {
	days, err := h.VatDays(vat)
	if err != nil || len(days.Open) == 0 {
		return saying{err: why}
	}
	name := days.Open[len(days.Open)-1]
	st, err := library.Read(h, vat, name)
	if err != nil {
		return saying{err: why}
	}
	p.warn(st.NotWhole())
	return saying{id: vat + "/" + name, state: st.State, now: st.Now, err: why}
}

// firstOf is the head of the day that begins, and when it begins. The vat is locked meanwhile.
func (p *program) firstOf(h shelf.Home, vat, name string, f beginFlags, r *reader, settings shelf.Settings) (day.Head, time.Time, error) {
	days, err := h.VatDays(vat)
	if err != nil {
		return day.Head{}, time.Time{}, err
	}
	for _, open := range days.Open {
		return day.Head{}, time.Time{}, fmt.Errorf("%s/%s is open: close it first, or go on with it", vat, open)
	}
	lastName, last, found, err := h.LastOf(vat, days)
	switch {
	case found && last.HeadErr != nil, !found && err != nil:
		return day.Head{}, time.Time{}, err
	case err != nil:
		p.warn(err)
	}
	before := library.Of(vat, lastName, last)
	p.warn(before.NotWhole())
	wall := p.Now()
	at := wall
	if f.at != "" {
		if at, err = p.instant(f.at, wall, wall.Location(), before.State.At, false); err != nil {
			return day.Head{}, at, err
		}
	}
	var head day.Head
	switch {
	case !found:
		head, err = p.newVat(name, f, r, settings)
	case r.Changed("recipe"):
		err = fmt.Errorf("%s exists: its next day has its recipe, its fill and its vessel; leave those out", vat)
	case last.Head.Rehearsed:
		err = fmt.Errorf("%s was only rehearsed: begin a real vat, in a home of its own", vat)
	default:
		if head, err = library.Next(before, false); err != nil {
			err = fmt.Errorf("%s, last day %s: %w", vat, lastName, err)
		}
	}
	if err != nil {
		return head, at, err
	}
	if f.place != "" {
		head.Setup.Place = f.place
	}
	if f.kept != "" {
		head.Setup.Kept = f.kept
	}
	head.Setup.GoodsFirst = !head.Setup.Ending
	head.Setup.GoodsLater = head.Setup.GoodsFirst && !f.goods // nobody is there to be asked
	head.Vat = vat
	head, err = p.dated(head, at, settings)
	return head, at, err
}

// dated is a head with its date, its zone and what the dyer set once for all days. It errs where its amounts cannot be reckoned.
func (p *program) dated(head day.Head, at time.Time, settings shelf.Settings) (day.Head, error) {
	head.Day, head.Zone = at.Format(time.DateOnly), p.Getenv("TZ")
	head.Zone = cmp.Or(head.Zone, at.Format("-07:00"))
	head = engine.InZone(library.Set(head, settings, at))
	_, err := day.Plan(head)
	return head, err
}

// newVat is the head of a new vat's first day, as far as the flags and the settings tell.
func (p *program) newVat(name string, f beginFlags, r *reader, settings shelf.Settings) (day.Head, error) {
	head := day.Head{Opening: day.Opening{Number: 1, Built: f.built}}
	if !r.Changed("recipe") {
		return head, fmt.Errorf("no vat is called %q: a new one needs --recipe and --fill", name)
	}
	head.Setup = day.Setup{Name: name, Place: settings.Place, Units: r.sys.String(), Fill: f.fill, Cold: settings.Cold, Hot: settings.Hot}
	v := f.vessel
	var err error
	if head.Recipe, err = p.find(f.recipe); err != nil {
		return head, err
	}
	if v.Shape != nil {
		head.Setup.Vessel = v.Shape.String()
	}
	if v.Material != vessel.Unstated {
		head.Setup.Material = v.Material.String()
	}
	place := cmp.Or(f.place, settings.Place)
	if place == day.ClosedRoom && head.Recipe.Family.SulfurReducer() && !f.built {
		return head, errors.New("no sulfur reducer in a closed room: make a cross-draught or go outdoors, and say so with --place; or take " + practice.WithoutSulfur(head.Recipe))
	}
	return head, fits(v, head, r.sys)
}

// fits refuses a fill that no such vat has: of no doses, over the brim, or in a material that does not bear it.
func fits(v vessel.Vessel, head day.Head, sys quantity.System) error {
	if _, err := recipe.Scale(head.Recipe, head.Setup.Fill, recipe.Options{}); err != nil {
		return fmt.Errorf("--fill: %w", err)
	}
	if v.Shape == nil {
		return nil
	}
	l := head.Recipe.Liquor
	for _, w := range v.RoomFor(vessel.Plan{Fill: head.Setup.Fill, Sediment: l.Sediment, Hottest: l.Build, Alkali: true, System: sys}).Warnings {
		if w.Blocks() {
			return fmt.Errorf("--vessel: %s", w.Sentence)
		}
	}
	return nil
}
