package command

import (
	"cmp"
	"errors"
	"fmt"
	"time"

	"github.com/spf13/cobra"

	"example.org/vatside/model/calendar"
	"example.org/vatside/model/history"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/sheet"
	"example.org/vatside/model/sorted"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/library"
	"example.org/vatside/ui/shelf"
)

func (p *program) careCommand() *cobra.Command {
	var vat, as string
	var weeks int
	return p.command("care", "What your vats need, now and next: looks, stirs, feeds, top-ups", nil, func(r *reader) {
		r.rules = func() []rule {
			return []rule{
				{as != "" && p.json, asJSON},
				{as != "" && as != "ical", fmt.Sprintf("--as is ical, not %q", as)},
				{as == "" && r.Changed("weeks"), "--weeks goes with --as ical"},
			}
		}
		r.StringVar(&vat, "vat", "", "`name` of one of your vats (else all)")
		r.StringVar(&as, "as", "", "the `form`, ical: a calendar of the next weeks instead")
		r.IntVar(&weeks, "weeks", 4, "how many `weeks` the calendar has, 1 to 26")
		r.withUnits()
	}, func(r *reader) error {
		if as == "ical" {
			return p.careCalendar(vat, weeks, r.sys)
		}
		return p.care(vat, r.sys)
	})
}

// asJSON is said of a command that has two forms to answer in.
const asJSON = "give --as or --json, not both"

// keeping is a vat with its history, at its own present.
type keeping struct {
	library.Day
	life *history.Life
	dues []history.Due
}

func (p *program) care(vat string, sys quantity.System) error {
	type told struct { // and no more: the days of all vats at once are much to hold
		pressure quantity.Span
		words    telling
		cared    object
	}
	var list []told
	some := p.kept(vat, func(k keeping) {
		t := told{pressure: pressure(k.dues)}
		if p.json {
			t.cared = caredOf(k)
		} else {
			t.words = tellCare(k, sys)
		}
		list = append(list, t)
	})
	sorted.By(list, func(a, b told) int { return cmp.Compare(b.pressure, a.pressure) })
	if p.json {
		return p.asJSON(object{{"vats", each(list, func(t told) object { return t.cared })}})
	}
	var tell telling
	switch {
	case !some:
		tell.line("%s", p.noVat())
	case len(list) == 0:
		tell.line("No vat is kept: those of the book have ended.")
	}
	for i, t := range list {
		if i > 0 {
			tell.line("")
		}
		tell.add(t.words...)
	}
	p.show(tell)
	return nil
}

// careCalendar prints what the kept vats are due over the next weeks as a calendar. A rehearsed vat has a time of its own, and no
// place in it.
func (p *program) careCalendar(vat string, weeks int, sys quantity.System) error {
	if weeks < 1 || weeks > 26 {
		return fmt.Errorf("--weeks: %d; write 1 to 26", weeks)
	}
	now := p.Now()
	c := calendar.Calendar{Name: "vats", At: now}
	p.kept(vat, func(k keeping) {
		switch {
		case !k.State.Head.Rehearsed:
			c.Events = append(c.Events, calendar.OfVat(k.life, k.Vat, k.VatName(), now, now.AddDate(0, 0, 7*weeks), sys)...)
		case vat != "":
			stop("%s was only rehearsed: a calendar has real vats", k.Vat)
		}
	})
	if len(c.Events) == 0 {
		p.warn(errors.New("nothing is due: the calendar is empty"))
	}
	fmt.Fprint(p.Out, c.Text())
	return nil
}

// kept gives the vats that have not ended, or the one that is named, one at a time; some is whether the book has one at all.
func (p *program) kept(vat string, each func(keeping)) (some bool) {
	p.Sparing()
	h := got(p.shelf())
	if vat != "" {
		vat = got(library.VatNamed(h, vat))
	}
	all := got(p.survey(h))
	found := false
	for _, s := range all {
		if vat != "" && s.Vat != vat || vat == "" && s.State.Ended {
			continue
		}
		each(got(p.keeping(h, s)))
		found = true
	}
	if vat != "" && !found {
		stop("no day of vat %s can be read", vat)
	}
	return len(all) > 0
}

// keeping looks at all days of a vat. A closed day's present is the command's own clock.
func (p *program) keeping(h shelf.Home, s library.Day) (keeping, error) {
	if now := p.Now(); !s.Open() && !s.State.Head.Rehearsed && now.After(s.State.At) {
		s.Now = now
	}
	names, err := h.Days(s.Vat)
	if err != nil {
		return keeping{}, err
	}
	life, errs := library.Life(h, s.Vat, names)
	p.warn(errors.Join(errs...))
	return keeping{s, life, life.Care(s.Now)}, nil
}

// pressure orders vats: by how far the most overdue of what they want is past; far below 0 where nothing is due.
func pressure(list []history.Due) quantity.Span {
	if len(list) == 0 || list[0].Coming {
		return -1
	}
	return max(0, list[0].Past)
}

func tellCare(k keeping, sys quantity.System) (tell telling) {
	tell.line("%s", k.Title())
	var facts sheet.Facts
	fact := func(name, words string) { facts.List = append(facts.List, sheet.Fact{Name: name, Value: words}) }
	words := func(d history.Due) string {
		if when := d.When(k.Now); when != "" {
			return d.Words(sys) + ", " + when
		}
		return d.Words(sys)
	}
	for _, d := range k.dues {
		if !d.Coming {
			fact("", words(d)+wording.If(d.How != "", ": "+d.How)+wording.If(d.Why != "", " ("+d.Why+")"))
		}
	}
	switch {
	case k.State.Ended:
		fact("", "The vat has ended.")
	case len(facts.List) == 0:
		fact("", "Nothing is due.")
	}
	for _, d := range k.dues {
		if d.Coming {
			fact("Next", words(d)+wording.If(d.ID == "revive" || d.ID == "winter", ": "+d.How+" ("+d.Why+")"))
		}
	}
	if !k.State.Ended {
		for _, f := range k.life.Stand(k.Now).Facts(k.Now, sys) {
			fact(f.Name, f.Words)
		}
	}
	if worked := k.life.Worked(); worked != "" {
		fact("What worked here", worked)
	}
	tell.add(facts)
	return tell
}

// caredOf are the keys of a vat in care --json. What is not known is null, and so is how it is known.
func caredOf(k keeping) object {
	s, worked := k.life.Stand(k.Now), k.life.Worked()
	since, _, rests := k.life.Resting(k.Now)
	due, next := []object{}, []object{}
	for _, d := range k.dues {
		j := object{
			{"id", d.ID}, {"do", d.Do}, {"amount_l", when(d.Amount > 0, tidy(d.Amount.Litres()))}, {"how", d.How}, {"why", d.Why}, {"evidence", d.Evidence},
			{"at", instant(d.At)}, {"past_h", when(!d.At.IsZero(), tidy(d.Past.Hours()))}, // past_h: below 0 it is still to come
			{"overdue", d.Overdue()}, {"when", d.When(k.Now)},
		}
		if d.Coming {
			next = append(next, j)
		} else {
			due = append(due, j)
		}
	}
	capacity, readings, feed := []object{}, []object{}, ""
	indigo, level := knownAs(s.Indigo.Known), knownAs(s.Level.Known)
	if indigo != nil {
		feed = s.Feeding.Sentence
		for _, c := range s.Indigo.Capacity {
			if c.KgLeft.High > 0 {
				capacity = append(capacity, object{{"depth", c.Depth.Name}, {"goods_kg", spreadOf(c.KgLeft, quantity.Mass.Kilograms)}})
			}
		}
	}
	read := func(what string, known outlook.Known, value float64, at time.Time) {
		if known != outlook.Unknown {
			readings = append(readings, object{{"what", what}, {"value", tidy(value)}, {"at", stamp(at)}})
		}
	}
	read("temp_c", s.Temp.Known, s.Temp.Temp.Celsius(), s.Temp.At)
	read("ph", s.PH.Known, float64(s.PH.PH), s.PH.At)
	read("strip_s", s.Strip.Known, s.Strip.Stayed.Seconds(), s.Strip.At)
	return object{
		{"vat", k.Vat}, {"name", k.VatName()}, {"rehearsed", k.State.Head.Rehearsed}, {"at", stamp(k.Now)}, {"last_day", k.Name}, {"day_open", k.Open()},
		{"ended", k.State.Ended}, {"rests_since", when(rests && !since.IsZero(), stamp(since))}, {"due", due}, {"next", next},
		{"indigo_g", when(indigo != nil, spreadOf(s.Indigo.Left, quantity.Mass.Grams))}, {"indigo_known", indigo},
		{"indigo_used_percent", when(indigo != nil && s.In > 0, tidy(s.Used.Percent()))}, // of what a vat as strong as the recipe can give
		{"feed", feed}, {"capacity", capacity}, {"under_full_l", when(level != nil, spreadOf(s.Level.Lost, quantity.Volume.Litres))}, {"level_known", level},
		{"sediment_cm", when(s.Sludge.Height > 0, tidy(s.Sludge.Height.Centimetres()))}, {"sediment_deep", s.Sludge.Deep}, {"last_readings", readings}, {"worked", worked},
	}
}
