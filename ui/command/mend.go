package command

import (
	"errors"
	"fmt"

	"github.com/spf13/cobra"

	"example.org/vatside/model/book"
	"example.org/vatside/ui/shelf"
)

// exitPlanned is the code of a mending that was shown and not done.
const exitPlanned exitCode = 3

func (p *program) bookMendCommand() *cobra.Command {
	var yes bool
	return p.command(&cobra.Command{
		Use: "mend VAT/DAY", Short: "Mend a day that book verify names",
		Long: "Shows what it would do to a day that is not whole, and changes nothing: then it ends with 3. With --yes it puts the\n" +
			"mended day in place and keeps the old file beside it as DAY.before-mend-1 (-2 and so on). No act that can be read is lost;\n" +
			"where one is missing an event says so. It ends with 0 if the day is whole, with 1 if it cannot be mended.",
		Args:    usage(cobra.ExactArgs(1)),
		Example: "  vatside book mend garden-bin/2026-11-25\n  vatside book mend garden-bin/2026-11-25 --yes",
	}, func(r *reader) { r.BoolVar(&yes, "yes", false, "do it") }, func(r *reader) error {
		vat, name, err := dayNamed(r.args[0])
		if err != nil {
			return err
		}
		return p.inHome(func(h shelf.Home, _ *reader) error { return p.mend(h, vat, name, yes) })(r)
	})
}

func (p *program) mend(h shelf.Home, vat, name string, yes bool) error {
	vat, _, err := daysNamed(h, vat, name)
	if err != nil {
		return err
	}
	id := vat + "/" + name
	var m book.Mending
	kept := ""
	if yes {
		m, kept, err = h.Mend(vat, name)
	} else {
		m, err = h.MendPlan(vat, name)
	}
	switch {
	case errors.Is(err, shelf.ErrLocked):
		return fmt.Errorf("%s is not mended: the vat %s is open in another window; close it there first", id, vat)
	case err != nil && kept == "":
		err = fmt.Errorf("%s cannot be mended: %w", id, err)
	}
	if p.json {
		// The keys of book mend --json. kept is the old file, null where nothing was changed; line 0 is of no line in it.
		out := object{
			{"day", id}, {"whole", m.Whole}, {"possible", err == nil},
			{"steps", each(m.Steps, func(s book.Step) object { return object{{"line", s.Line}, {"what", s.What}} })},
			{"kept", some(kept)}, {"done", err == nil && kept != ""},
		}
		if err := p.asJSON(out); err != nil {
			return err
		}
	}
	switch {
	case err != nil:
		return err
	case !p.json:
		p.tellMended(id, m, kept)
	}
	if !m.Whole && !yes {
		return exitPlanned
	}
	return nil
}

// tellMended says what was done, or would be.
func (p *program) tellMended(id string, m book.Mending, kept string) {
	if m.Whole {
		p.say("%s is whole: nothing is changed.", id)
		return
	}
	if kept == "" {
		p.say("%s is not whole. To mend it:", id)
	}
	for _, s := range m.Steps {
		if s.Line == 0 {
			p.say("  %s.", s.What)
			continue
		}
		p.say("  line %d: %s.", s.Line, s.What)
	}
	if kept == "" {
		p.say("Nothing is changed yet: vatside book mend %s --yes does it, and keeps the old file.", id)
		return
	}
	p.say("%s is mended; the old file is kept as %s.", id, kept)
}
