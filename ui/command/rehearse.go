package command

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"example.org/vatside/model/day"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/wording"
	"example.org/vatside/recipes"
	"example.org/vatside/ui/cue"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/plain"
	"example.org/vatside/ui/rehearse"
	"example.org/vatside/ui/shelf"
)

func (p *program) rehearseCommand() *cobra.Command {
	var speed string
	var k keptFlags
	var kept bool
	return p.withoutJSON("rehearse", "An invented dye day, played on a fast clock", nil, func(r *reader) {
		given := r.Changed
		r.rules = func() []rule {
			return []rule{
				{kept && (p.workshop || given("speed")), "a kept vat is played at full speed and by itself: without --speed, without --workshop"},
				{!kept && (given("fill") || given("begin")), "--fill and --begin are for a kept vat: they go with --kept"},
				{p.workshop && given("recipe"), "the workshop dyes in a soda vat: without --recipe"},
			}
		}
		r.StringVar(&speed, "speed", "60", fmt.Sprintf("how many `times` as fast as life: a number from 1 to %d, or max", mostSpeed))
		r.BoolVar(&p.plain, "plain", false, "a line an event, without screens")
		r.BoolVar(&p.workshop, "workshop", false, "a workshop of sixteen at two vats by one clock: one comes late, one leaves early, one piece is torn")
		r.BoolVar(&kept, "kept", false, "a vat kept for three months, at full speed, a line a day: built, dyed in, tired, revived, fed, ended")
		r.StringVar(&k.recipe, "recipe", "soda", "`id` of the recipe; of a kept vat soda, thiourea or mild-soda")
		r.StringVar(&k.fill, "fill", "60 L", "`volume` of the kept vat")
		r.StringVar(&k.begin, "begin", "2026-03-02", "the first `date` of the kept vat")
	}, func(*reader) error {
		if kept {
			return p.rehearse(func(h shelf.Home) error { return p.rehearseKept(h, k) })
		}
		factor, err := parseSpeed(speed)
		if err != nil {
			return err
		}
		return p.rehearse(func(h shelf.Home) error { return p.rehearseDay(h, factor, k.recipe) })
	})
}

// mostSpeed is the fastest that a rehearsal is played on a clock: ten hours in a second.
const mostSpeed = 36_000

// parseSpeed reads --speed; max is infinite.
func parseSpeed(s string) (float64, error) {
	if s == "max" {
		return math.Inf(1), nil
	}
	f, err := strconv.ParseFloat(s, 64)
	if err != nil || !(f >= 1 && f <= mostSpeed) { // nor NaN
		return 0, fmt.Errorf("--speed is a number from 1 to %d, or max, not %q", mostSpeed, s)
	}
	return f, nil
}

// rehearse plays in the home that was named, if it holds no real day, else in a folder that vanishes.
func (p *program) rehearse(play func(shelf.Home) error) error {
	if p.home == "" {
		return p.aside(play)
	}
	h := shelf.At(got(shelf.Locate(p.home, "")), p.Now)
	refuseReal(h)
	return play(h)
}

// aside plays in a folder that vanishes when it is left.
func (p *program) aside(play func(shelf.Home) error) (err error) {
	h := got(shelf.Throwaway(p.Now))
	defer func() { err = errors.Join(err, h.Discard()) }()
	return through(func() error { return play(h) })
}

// rehearseDay plays one day, or a workshop's at two vats: on the screens if there are any, else line by line.
func (p *program) rehearseDay(h shelf.Home, speed float64, id string) error {
	if !p.plain && !math.IsInf(speed, 1) && p.canDraw() {
		all := got(p.take(h, id))
		for _, o := range all { // the screens open them again
			must(o.Writer.Close())
		}
		vat, name, _ := strings.Cut(all[0].ID, "/")
		p.haste.arm()
		return p.Screens(Screens{Home: h, Vat: vat, Day: name, Speed: speed, Err: p.Err, Hurry: p.haste.begin})
	}
	return p.play(h, speed, id)
}

// refuseReal refuses a home that holds a day of the dyer's own.
func refuseReal(h shelf.Home) {
	for _, vat := range got(h.Vats()) {
		for _, d := range got(h.Days(vat)) {
			if b := got(h.ReadDay(vat, d)); !b.Empty() && !b.Head.Rehearsed {
				stop("%s holds real days, such as %s/%s: rehearse in a folder of its own, or without --home", h.Dir(), vat, d)
			}
		}
	}
}

// take opens the rehearsed days that are still open, those of the date of the first, else fresh ones of a built-in recipe.
func (p *program) take(h shelf.Home, id string) (out []engine.Opening, err error) {
	defer func() {
		for n := 0; err != nil && n < len(out); n++ {
			err = errors.Join(err, out[n].Writer.Close())
		}
	}()
	all, err := p.survey(h)
	if err != nil {
		return nil, err
	}
	for _, s := range all {
		if !s.Open() || len(out) > 0 && out[0].Head.Day != s.Name {
			continue
		}
		w, b, err := h.OpenDay(s.Vat, s.Name)
		if err != nil {
			return out, fmt.Errorf("%s/%s: %w", s.Vat, s.Name, err)
		}
		p.torn(w)
		out = append(out, engine.Opening{ID: s.Vat + "/" + s.Name, Head: b.Head, Events: b.Events, Writer: w})
	}
	if len(out) > 0 {
		return out, nil
	}
	r, ok := recipes.Find(id)
	if !ok {
		return nil, fmt.Errorf("--recipe: no built-in recipe is called %q: see vatside recipes", id)
	}
	wall := engine.Machine{}.Wall()
	begin := time.Date(wall.Year(), wall.Month(), wall.Day(), 9, 0, 0, 0, wall.Location())
	heads := []day.Head{rehearse.DyeingHead(r, begin)}
	if p.workshop {
		heads = nil
		for n := range rehearse.WorkshopVats {
			heads = append(heads, rehearse.WorkshopHead(r, begin, n))
		}
	}
	for _, head := range heads {
		head.Day = wall.Format("2006-01-02")
		if head.Vat, err = h.FreeVat(head.Setup.Name); err != nil {
			return out, err
		}
		w, err := h.NewDay(head)
		if err != nil {
			return out, err
		}
		head = w.Head()
		out = append(out, engine.Opening{ID: head.Vat + "/" + head.Day, Head: head, Writer: w})
	}
	return out, nil
}

// play plays the days by one clock, a line an event, each after it is on disk.
func (p *program) play(h shelf.Home, speed float64, id string) (err error) {
	ctx, stop := p.endedBySignal()
	defer stop()
	err = p.plays(ctx, h, speed, id, func(id string, s day.State, ev day.Event) { p.say("%s", plain.Line(id, ev, s)) })
	if ctx.Err() != nil {
		return fmt.Errorf("stopped before the end of the day")
	}
	return err
}

// plays has the invented dyers lead the days by one clock; told gets each event.
func (p *program) plays(ctx context.Context, h shelf.Home, speed float64, id string, told func(string, day.State, day.Event)) (err error) {
	all := got(p.take(h, id))
	from := rehearse.From(all[0].Head, all[0].Events)
	var led *engine.Led
	var source engine.Source = engine.NewPlaying(engine.Machine{}, from, speed)
	if math.IsInf(speed, 1) {
		led = engine.NewLed(from)
		source = led
	}
	e, halt := p.run(cue.Silent{})
	defer func() { err = p.parted(halt(), err) }()
	var ids []string
	for n, o := range all {
		o.Source = source
		if _, err := e.Open(ctx, o); err != nil {
			for _, left := range all[n:] {
				err = errors.Join(err, left.Writer.Close())
			}
			return err
		}
		ids = append(ids, o.ID)
	}
	return rehearse.Play(ctx, e, ids, led, told)
}

// keptZone is that of the kept vat, the same wherever it is rehearsed, so that its book is the same.
var keptZone = time.FixedZone("+01:00", 3600)

type keptFlags struct{ recipe, fill, begin string }

// rehearseKept plays the vat that is kept for three months, day by day at full speed, into a home: a line a day, or with --plain an event.
func (p *program) rehearseKept(h shelf.Home, k keptFlags) (err error) {
	date, err := time.ParseInLocation(time.DateOnly, k.begin, keptZone)
	if err != nil {
		return fmt.Errorf("--begin is a date such as 2026-03-02, not %q", k.begin)
	}
	fill, err := quantity.ParseVolume(k.fill, quantity.Metric)
	must(about("--fill", err))
	r, ok := recipes.Find(k.recipe)
	if !ok || !r.Family.SulfurReducer() || r.Stock != nil {
		return fmt.Errorf("--recipe is one of soda, thiourea and mild-soda, not %q", k.recipe)
	}
	head, at, err := rehearse.KeptHead(r, fill, date)
	must(err)
	ctx, stop := p.endedBySignal()
	defer stop()
	head.Vat = got(h.FreeVat(head.Setup.Name))
	e, halt := p.run(cue.Silent{})
	defer func() { err = p.parted(halt(), err) }()
	for {
		s, err := p.keepDay(ctx, e, h, head, at)
		switch {
		case ctx.Err() != nil:
			return errors.New("stopped before the end of the vat")
		case err != nil:
			return err
		case s.Ended:
			return nil
		}
		if head, at, ok = rehearse.KeptAfter(s); !ok {
			return fmt.Errorf("%s has no day left, and was not ended", s.Head.Vat)
		}
		head.Opening = outlook.Carry(s)
	}
}

// keepDay plays one day of it, from its head to its close.
func (p *program) keepDay(ctx context.Context, e *engine.Engine, h shelf.Home, head day.Head, at time.Time) (day.State, error) {
	w, err := h.NewDay(head)
	if err != nil {
		return day.State{}, err
	}
	head = w.Head()
	led := engine.NewLed(at)
	o := engine.Opening{ID: head.Vat + "/" + head.Day, Head: head, Writer: w, Source: led}
	if _, err := e.Open(ctx, o); err != nil {
		return day.State{}, errors.Join(err, w.Close())
	}
	var last day.State
	err = rehearse.Play(ctx, e, []string{o.ID}, led, func(_ string, s day.State, ev day.Event) {
		last = s
		if p.plain {
			p.say("%s", plain.Line(o.ID, ev, s))
		}
	})
	if err == nil && !p.plain {
		p.say("%s  %s", o.ID, keptLine(last))
	}
	return last, errors.Join(err, e.Leave(ctx, o.ID))
}

// keptLine is a day of the kept vat in one line.
func keptLine(s day.State) string {
	var parts []string
	say := func(format string, a ...any) { parts = append(parts, fmt.Sprintf(format, a...)) }
	if !s.Head.Opening.Built {
		say("built")
	}
	sys := s.Head.Setup.System()
	dips, pieces := 0, 0
	var strips []string
	for e := range s.Corrected() {
		switch b := e.Body.(type) {
		case day.DipEnded:
			dips++
		case day.Finished:
			if p, ok := s.Piece(b.Tag); ok && p.Spec.Form != outlook.Ladder {
				pieces++
			}
		case day.StripTest:
			strips = append(strips, fmt.Sprintf("%.0f", b.Stayed.Seconds()))
		case day.Treated:
			say("%s", b.Do)
		case day.Rechecked:
			parts[len(parts)-1] += " (" + b.Answer + ")"
		case day.ToppedUp:
			say("%s of water", b.Water.Format(sys))
		case day.VatEnded:
			say("the vat has ended: %s, %s", b.Liquor.Format(sys), b.Route)
		}
	}
	switch {
	case pieces == 0 && dips > 0:
		say("a swatch")
	case dips > 0:
		say("%s dyed, %s", wording.Counted(pieces, "piece"), wording.Counted(dips, "dip"))
	}
	if len(strips) > 0 {
		say("strip %s s", strings.Join(strips, ", "))
	}
	if t := s.Vat.Temp; t != nil {
		say("%s", t.Format(sys))
	}
	if v := s.Vat.PH; v != nil {
		say("pH %v", quantity.PH(*v))
	}
	return cmp.Or(strings.Join(parts, "; "), "looked at")
}
