package command

import (
	"errors"
	"fmt"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/stock"
)

type adding struct{ material, mass, price, bought, opened, strength string }

type trying struct {
	turned, strength         string
	not, caked, warm, smells bool
}

// stockActs are the acts of the shelf, each of which writes to stock.toml.
func (p *program) stockActs(units *string) []*cobra.Command {
	var a adding
	var y trying
	var on, why string
	acts := []*cobra.Command{
		{Use: "add --material NAME --mass MASS", Short: "A tin that came onto the shelf", Args: usage(cobra.NoArgs),
			Example: "  vatside stock add --material 'sodium dithionite' --mass 500g --price 12.50 --opened 2026-09-01",
			RunE:    func(c *cobra.Command, _ []string) error { return p.stockAdd(a, c, *units) }},
		{Use: "open TIN", Short: "A tin that was opened, now or --on a day", Args: usage(cobra.ExactArgs(1)),
			RunE: func(_ *cobra.Command, args []string) error {
				at, err := p.date("--on", on)
				if err != nil {
					return err
				}
				return p.keep(*units, stock.OpenTin{Tin: args[0], At: at})
			}},
		{Use: "weigh TIN MASS", Short: "What the scale shows to be in a tin", Args: usage(cobra.ExactArgs(2)),
			RunE: func(_ *cobra.Command, args []string) error {
				sys, err := p.units(*units)
				if err != nil {
					return err
				}
				m, err := quantity.ParseMass(args[1], sys)
				if err != nil {
					return err
				}
				return p.keep(*units, stock.WeighTin{Tin: args[0], Mass: m})
			}},
		{Use: "test TIN (--turned TIME | --not | --caked | --warm | --smells)", Short: "How the test of an old reducer came out, or what forbade it",
			Args: usage(cobra.ExactArgs(1)), Long: guided(),
			RunE: func(c *cobra.Command, args []string) error { return p.stockTest(args[0], y, c, *units) }},
		{Use: "gone TIN --why WORDS", Short: "A tin that left the shelf: used up, or handed in", Args: usage(cobra.ExactArgs(1)),
			Example: "  vatside stock gone T1 --why 'hazardous waste'",
			RunE: func(c *cobra.Command, args []string) error {
				if err := needed(c, "stock gone", "why"); err != nil {
					return err
				}
				return p.keep(*units, stock.DropTin{Tin: args[0], Why: why})
			}},
		{Use: "undo", Short: "Takes the last of these acts back", Args: usage(cobra.NoArgs),
			RunE: func(*cobra.Command, []string) error { return p.keep(*units, stock.TakeBack{}) }},
	}
	f := acts[0].Flags()
	f.StringVar(&a.material, "material", "", "`name` of the powder, as on the label")
	f.StringVar(&a.mass, "mass", "", "what is in it, such as `500g`")
	f.StringVar(&a.price, "price", "", "what the whole tin cost, in your own currency, such as `12.50`")
	f.StringVar(&a.bought, "bought", "", "`date` on which it was bought, such as 2026-09-01 (else today)")
	f.StringVar(&a.opened, "opened", "", "`date` on which it was opened, if it is")
	f.StringVar(&a.strength, "strength", "", "active share, such as `60%`: the label's of indigo, your own test's of a reducer")
	acts[1].Flags().StringVar(&on, "on", "", "`date` on which it was opened (else now)")
	f = acts[3].Flags()
	f.StringVar(&y.turned, "turned", "", "`time` after which it was yellow-green, such as '6 min'")
	f.BoolVar(&y.not, "not", false, "it did not turn within 10 min")
	f.BoolVar(&y.caked, "caked", false, "the powder is caked: nothing was tested")
	f.BoolVar(&y.warm, "warm", false, "the tin is warm: nothing was tested")
	f.BoolVar(&y.smells, "smells", false, "it smells acrid: nothing was tested")
	f.StringVar(&y.strength, "strength", "", "your own figure for what is left of it, such as `60%`")
	acts[4].Flags().StringVar(&why, "why", "", "`words`, such as 'used up'")
	return acts
}

// guided is the guided test in words.
func guided() string {
	var b strings.Builder
	fmt.Fprintf(&b, "The test of an old reducer.\nCaution: %s.\n", stock.TestCaution)
	for i, s := range stock.TestSteps(quantity.Metric) {
		fmt.Fprintf(&b, "%d. %s. %s\n", i+1, s.Act, s.How)
		if i > 0 && s.Caution != "" {
			fmt.Fprintf(&b, "   Caution: %s.\n", s.Caution)
		}
	}
	fmt.Fprintf(&b, "Yellow-green within %s: it is fit for use. Not: %s.\nCaked, warm or acrid: %s.", stock.TestWait, stock.FailedRule, stock.UnfitRule)
	return b.String()
}

func (p *program) stockAdd(a adding, c *cobra.Command, units string) error {
	if err := needed(c, "stock add", "material", "mass"); err != nil {
		return err
	}
	sys, err := p.units(units)
	if err != nil {
		return err
	}
	r := &reader{sys: sys, c: c}
	n := stock.NewTin{Material: a.material}
	read(r, &n.Holds, "--mass", a.mass, quantity.ParseMass)
	if a.price != "" {
		n.Price = new(quantity.Money)
		read(r, n.Price, "--price", a.price, quantity.ParseMoney)
	}
	read(r, &n.Strength, "--strength", a.strength, someShare)
	if r.err != nil {
		return r.err
	}
	if n.Bought, err = p.date("--bought", a.bought); err != nil {
		return err
	}
	if n.Opened, err = p.date("--opened", a.opened); err != nil {
		return err
	}
	return p.keep(units, stock.AddTin{New: n})
}

func (p *program) stockTest(tin string, y trying, c *cobra.Command, units string) error {
	sys, err := p.units(units)
	if err != nil {
		return err
	}
	r := &reader{sys: sys, c: c}
	t := stock.Tested{Turned: r.given("--turned")}
	read(r, &t.After, "--turned", y.turned, quantity.ParseSpan)
	read(r, &t.Strength, "--strength", y.strength, someShare)
	if r.err != nil {
		return r.err
	}
	for i, is := range []bool{y.caked, y.warm, y.smells} {
		if is {
			t.Seen = append(t.Seen, stock.Seen()[i])
		}
	}
	said := 0
	for _, is := range []bool{t.Turned, y.not, len(t.Seen) > 0} {
		if is {
			said++
		}
	}
	if said != 1 {
		return usageError{errors.New("stock test needs one of --turned, --not, or what forbids it: --caked, --warm, --smells; see vatside stock test --help for the test")}
	}
	return p.keep(units, stock.TestTin{Tin: tin, Result: t})
}

// someShare refuses a strength of nothing, which the list takes for one that was not told.
func someShare(text string, sys quantity.System) (quantity.Share, error) {
	s, err := quantity.ParseShare(text, sys)
	if err == nil && s == 0 {
		err = errors.New("a powder without strength is no use; leave it out where it is not known")
	}
	return s, err
}

// date reads a date as its midnight where the dyer is; nil where none was given.
func (p *program) date(flag, text string) (*time.Time, error) {
	text = strings.TrimSpace(text)
	if text == "" {
		return nil, nil
	}
	t, err := time.ParseInLocation(time.DateOnly, text, p.Now().Location())
	if err != nil {
		return nil, fmt.Errorf("%s: %q is not a date; write it as %s", flag, text, p.Now().Format(time.DateOnly))
	}
	return &t, nil
}

// keep puts one act into stock.toml, and says it.
func (p *program) keep(units string, c stock.Command) error {
	sys, err := p.units(units)
	if err != nil {
		return err
	}
	h, err := p.shelf()
	if err != nil {
		return err
	}
	done, torn, err := h.KeepStock(p.Now(), c)
	if torn != "" {
		p.warn(fmt.Errorf("the last line of the list of tins was torn off by a power cut or a full disk: it stands in %s", torn))
	}
	l := stock.List{}
	if len(done) > 0 {
		file, readErr := h.Stock()
		p.warn(readErr)
		l, _ = stock.Replay(file.Events) // what is wrong in it, stock tells
	}
	for _, b := range done {
		p.tellAct(l, b, sys)
	}
	return err
}

// tellAct says an act of the shelf that is on disk, and what is to be thought of with it.
func (p *program) tellAct(l stock.List, b stock.Body, sys quantity.System) {
	var tell telling
	defer func() { p.show(tell) }()
	if c, is := b.(stock.Corrected); is {
		tell.line("Taken back: %s.", l.Undone(c, sys))
		return
	}
	tell.line("%s.", b.Sentence(sys))
	switch b := b.(type) {
	case stock.Tested:
		if len(b.Seen) > 0 {
			tell.note("Caution", stock.UnfitRule)
		} else if !b.Turned {
			tell.note("Caution", stock.FailedRule)
		}
	case stock.Discarded:
		for _, t := range l.Tins {
			if t.ID == b.Tin {
				tell.note("Caution", t.Waste(b.Why))
			}
		}
	case stock.Bought:
		if !stock.Known(b.Material, p.recipes()) {
			tell.note("", "no recipe at hand takes "+b.Material+", so no vat draws on it: write the name as your recipe has it, or leave it on the list as it is")
		}
	}
}
