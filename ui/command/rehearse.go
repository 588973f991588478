package command

import (
	"context"
	"errors"
	"fmt"
	"math"
	"os"
	"os/signal"
	"strconv"
	"strings"
	"syscall"
	"time"

	"github.com/spf13/cobra"

	"example.org/vatside/model/day"
	"example.org/vatside/recipes"
	"example.org/vatside/ui/cue"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/guard"
	"example.org/vatside/ui/library"
	"example.org/vatside/ui/plain"
	"example.org/vatside/ui/rehearse"
	"example.org/vatside/ui/shelf"
)

func (p *program) rehearseCommand() *cobra.Command {
	var speed string
	var k keptFlags
	var kept bool
	c := &cobra.Command{
		Use: "rehearse", Short: "An invented dye day, played on a fast clock",
		Long: "An invented dye day, played on a fast clock through the real engine. Without --home it is played in a folder\n" +
			"that vanishes; VATSIDE_HOME does not count, and a home with real days is refused. With --kept it is a vat of three months.",
		Example: "  vatside rehearse\n  vatside rehearse --workshop --speed 300\n  vatside rehearse --kept --home ./invented",
		Args:    usage(cobra.NoArgs),
		RunE: func(c *cobra.Command, _ []string) error {
			switch given := c.Flags().Changed; {
			case kept && (p.workshop || given("speed")):
				return usageError{errors.New("a kept vat is played at full speed and by itself: without --speed, without --workshop")}
			case !kept && (given("recipe") || given("fill") || given("begin")):
				return usageError{errors.New("--recipe, --fill and --begin are for a kept vat: they go with --kept")}
			case kept:
				return p.rehearse(func(h shelf.Home) error { return p.rehearseKept(h, k) })
			}
			factor, err := parseSpeed(speed)
			if err != nil {
				return err
			}
			return p.rehearse(func(h shelf.Home) error { return p.rehearseDay(h, factor) })
		},
	}
	c.Flags().StringVar(&speed, "speed", "60", fmt.Sprintf("how many times as fast as life: a number from 1 to %d, or max", mostSpeed))
	c.Flags().BoolVar(&p.plain, "plain", false, "a line an event, without screens")
	c.Flags().BoolVar(&p.workshop, "workshop", false, "a workshop of twelve at one vat, two of whom come late")
	c.Flags().BoolVar(&kept, "kept", false, "a vat kept for three months, at full speed, a line a day: built, dyed in, tired, revived, fed, ended")
	c.Flags().StringVar(&k.recipe, "recipe", "soda", "`id` of the kept vat's recipe: soda or thiourea")
	c.Flags().StringVar(&k.fill, "fill", "60 L", "`volume` of the kept vat")
	c.Flags().StringVar(&k.begin, "begin", "2026-03-02", "the first `date` of the kept vat")
	return c
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
func (p *program) rehearse(play func(shelf.Home) error) (err error) {
	var h shelf.Home
	if p.home != "" {
		dir, err := shelf.Locate(p.home, "")
		if err != nil {
			return err
		}
		h = shelf.At(dir, p.Now)
		if err := refuseReal(h); err != nil {
			return err
		}
	} else {
		if h, err = shelf.Throwaway(p.Now); err != nil {
			return err
		}
		defer func() { err = errors.Join(err, h.Discard()) }()
	}
	return play(h)
}

// rehearseDay plays one day: on the screens if there are any, else line by line.
func (p *program) rehearseDay(h shelf.Home, speed float64) error {
	if !p.plain && !math.IsInf(speed, 1) && p.canDraw() {
		o, err := p.take(h)
		if err != nil {
			return err
		}
		if err := o.Writer.Close(); err != nil { // the screens open it again
			return err
		}
		vat, name, _ := strings.Cut(o.ID, "/")
		p.haste.arm()
		return p.Screens(Screens{Home: h, Vat: vat, Day: name, Speed: speed, Err: p.Err, Hurry: p.haste.begin})
	}
	return p.play(h, speed)
}

// refuseReal refuses a home that holds a day of the dyer's own.
func refuseReal(h shelf.Home) error {
	vats, err := h.Vats()
	if err != nil {
		return err
	}
	for _, vat := range vats {
		days, err := h.Days(vat)
		if err != nil {
			return err
		}
		for _, d := range days {
			b, err := h.ReadDay(vat, d)
			if err != nil {
				return err
			}
			if !b.Empty() && !b.Head.Rehearsed {
				return fmt.Errorf("%s holds real days, such as %s/%s: rehearse in a folder of its own, or without --home", h.Dir(), vat, d)
			}
		}
	}
	return nil
}

// take opens the rehearsed day that is still open, else a fresh one.
func (p *program) take(h shelf.Home) (engine.Opening, error) {
	all, err := p.survey(h)
	if err != nil {
		return engine.Opening{}, err
	}
	for _, s := range all {
		if !s.Open() {
			continue
		}
		w, b, err := h.OpenDay(s.Vat, s.Name)
		if err != nil {
			return engine.Opening{}, fmt.Errorf("%s/%s: %w", s.Vat, s.Name, err)
		}
		if f := w.TornFile(); f != "" {
			p.say("A torn tail was set aside in %s.", f)
		}
		return engine.Opening{ID: s.Vat + "/" + s.Name, Head: b.Head, Events: b.Events, Writer: w}, nil
	}
	r, ok := recipes.Find("soda")
	if !ok {
		return engine.Opening{}, errors.New("the recipe of the rehearsal is missing")
	}
	wall := engine.Machine{}.Wall()
	made := rehearse.Head
	if p.workshop {
		made = rehearse.WorkshopHead
	}
	head := made(r, time.Date(wall.Year(), wall.Month(), wall.Day(), 9, 0, 0, 0, wall.Location()))
	head.Day = wall.Format("2006-01-02")
	if head.Vat, err = h.FreeVat(head.Setup.Name); err != nil {
		return engine.Opening{}, err
	}
	w, err := h.NewDay(head)
	if err != nil {
		return engine.Opening{}, err
	}
	head = w.Head()
	return engine.Opening{ID: head.Vat + "/" + head.Day, Head: head, Writer: w}, nil
}

// play plays the day, a line an event, each after it is on disk.
func (p *program) play(h shelf.Home, speed float64) (err error) {
	ctx, stop := p.endedBySignal()
	defer stop()
	o, err := p.take(h)
	if err != nil {
		return err
	}
	from := rehearse.From(o.Head, o.Events)
	var led *engine.Led
	if math.IsInf(speed, 1) {
		led = engine.NewLed(from)
		o.Source = led
	} else {
		o.Source = engine.NewPlaying(engine.Machine{}, from, speed)
	}
	e, halt := p.run()
	defer func() { err = p.parted(halt(), err) }()
	if _, err := e.Open(ctx, o); err != nil {
		return errors.Join(err, o.Writer.Close())
	}
	err = rehearse.Play(ctx, e, o.ID, led, func(s day.State, ev day.Event) { p.say("%s", plain.Line(o.ID, ev, s)) })
	if ctx.Err() != nil {
		return fmt.Errorf("stopped before the end of the day")
	}
	return err
}

// endedBySignal ends with the signals that end a program: what was done then goes to disk before it does.
func (p *program) endedBySignal() (context.Context, context.CancelFunc) {
	p.haste.arm()
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM, syscall.SIGHUP, syscall.SIGQUIT)
	kept := context.AfterFunc(ctx, p.haste.begin)
	return ctx, func() { kept(); stop() }
}

// parted says what of the acts is not in the files of their days; with any that is on no disk the command has failed.
func (p *program) parted(left engine.Parting, err error) error {
	switch words := left.Words(); {
	case left.Lost():
		return errors.Join(err, errors.New(words))
	case words != "":
		p.warn(errors.New(words))
	}
	return err
}

// run starts an engine; halt waits until all is on disk and the locks are free, and says what is not in the days.
func (p *program) run() (e *engine.Engine, halt func() engine.Parting) {
	e = engine.New(engine.Machine{}, shelf.BootID(), cue.Silent{})
	ctx, cancel := context.WithCancel(context.Background())
	left := e.Start(ctx)
	guard.Go("halt", func() {
		select {
		case <-guard.Fatal(): // of whatever part
			p.haste.begin()
			cancel()
		case <-ctx.Done():
		}
	})
	return e, func() engine.Parting { cancel(); return <-left }
}

// follow is `vatside --plain`: the most pressing open day line by line, or a new one.
func (p *program) follow(h shelf.Home) (err error) {
	all, err := p.survey(h)
	if err != nil {
		return err
	}
	if len(all) == 0 && len(p.warnings) > 0 { // nobody builds a vat once more that stands there
		return errors.New("no vat of the book can be read; vatside book verify names what is wrong")
	}
	t := plain.New(p.In, p.Out)
	t.Likened = func(c day.Command) (day.Command, error) { return library.Likened(h, c) }
	if settings, err := h.Settings(); err == nil {
		t.Emergency = settings.Emergency
	}
	var o engine.Opening
	if len(all) > 0 && all[0].Open() {
		s := all[0]
		w, b, err := h.OpenDay(s.Vat, s.Name)
		o = engine.Opening{ID: s.Vat + "/" + s.Name, Head: b.Head, Events: b.Events}
		switch {
		case errors.Is(err, shelf.ErrLocked): // it is looked at, and that is said
		case err != nil:
			return err
		default:
			o.Writer = w
			if f := w.TornFile(); f != "" {
				p.say("A torn tail was set aside in %s.", f)
			}
		}
		switch {
		case !b.Head.Rehearsed:
		case o.Writer == nil:
			o.Source = engine.FixedClock{At: s.Now}
		default:
			o.Source = engine.NewPlaying(engine.Machine{}, s.Now, 1)
		}
	} else {
		head, ok, err := p.setUp(t, h, all)
		if err != nil || !ok {
			return err
		}
		w, err := h.NewDay(head)
		if err != nil {
			return err
		}
		o = engine.Opening{ID: w.Head().Vat + "/" + w.Head().Day, Head: w.Head(), Writer: w}
	}
	ctx, stop := p.endedBySignal() // from here on: nothing was done before, and the system ends a question, or a disk that hangs
	defer stop()
	e, halt := p.run()
	defer func() { err = p.parted(halt(), err) }()
	if o.Writer == nil {
		o = p.followed(ctx, h, e, t, o, all[0])
	}
	if _, err := e.Open(ctx, o); err != nil {
		if o.Writer != nil {
			err = errors.Join(err, o.Writer.Close())
		}
		return err
	}
	return t.Follow(ctx, e, o.ID)
}

// setUp asks for what a new day needs: a vat that lives, or recipe, name, fill and place of a new one.
func (p *program) setUp(t *plain.Terminal, h shelf.Home, all []library.Day) (day.Head, bool, error) {
	settings, err := h.Settings()
	p.warn(err)
	wall := engine.Machine{}.Wall()
	q := plain.Questions{Units: settings.Units, Place: settings.Place}
	var living []library.Day
	for _, s := range all {
		if !s.State.Ended {
			living = append(living, s)
			q.Vats = append(q.Vats, s.VatName())
		}
	}
	rs := p.atHand()
	for _, r := range rs {
		q.Recipes = append(q.Recipes, r.ID+", "+r.Name)
	}
	a, ok := t.Ask(q)
	if !ok {
		return day.Head{}, false, nil
	}
	head := day.Head{}
	if a.Vat >= 0 {
		s := living[a.Vat]
		next, err := library.Next(s, a.End)
		if err != nil {
			return head, false, fmt.Errorf("%s: %w", s.Vat, err)
		}
		if next.Setup.Ending && !a.End {
			p.say("The end of %s has begun: it is not dyed in any more, and the day goes on with its end.", s.VatName())
		}
		head = next
	} else {
		head.Setup = day.Setup{Name: a.Name, Fill: a.Fill, Place: a.Place, Units: settings.Units, Cold: settings.Cold, Hot: settings.Hot}
		head.Recipe, head.Opening = rs[a.Recipe].Recipe, day.Opening{Number: 1}
		if head.Vat, err = h.FreeVat(a.Name); err != nil {
			return head, false, err
		}
	}
	head, err = p.dated(head, wall, settings)
	return head, err == nil, err
}
