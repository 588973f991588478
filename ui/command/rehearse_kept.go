package command

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"strings"
	"time"

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
	if err != nil {
		return fmt.Errorf("--fill: %w", err)
	}
	r, ok := recipes.Find(k.recipe)
	if !ok || !r.Family.SulfurReducer() || r.Stock != nil {
		return fmt.Errorf("--recipe is one of soda, thiourea and mild-soda, not %q", k.recipe)
	}
	head, at, err := rehearse.KeptHead(r, fill, date)
	if err != nil {
		return err
	}
	ctx, stop := p.endedBySignal()
	defer stop()
	if head.Vat, err = h.FreeVat(head.Setup.Name); err != nil {
		return err
	}
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
