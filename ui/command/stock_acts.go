package command

import (
	"errors"
	"fmt"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/stock"
	"example.org/vatside/model/wording"
)

// stockActs are the acts of the shelf, each of which writes to stock.toml.
func (p *program) stockActs(units *string) []*cobra.Command {
	act := func(use, short string, args cobra.PositionalArgs, flags func(*reader), act func(*reader) stock.Command) *cobra.Command {
		return p.withoutJSON(use, short, args, func(r *reader) { r.units = units; flags(r) },
			func(r *reader) error { return p.keep(r.sys, act(r)) })
	}
	one, none := cobra.ExactArgs(1), func(*reader) {}
	var n stock.NewTin
	var opened *time.Time
	var t stock.Tested
	var not, caked, warm, smells bool
	var why string
	add := act("add --material NAME --mass MASS", "A tin that came onto the shelf", nil, func(r *reader) {
		r.needs = []string{"material", "mass"}
		r.StringVar(&n.Material, "material", "", "`name` of the powder, as on the label")
		value(r, &n.Holds, "mass", "", "the `mass` of what is in it, such as 500g", quantity.ParseMass)
		value(r, &n.Price, "price", "", "the `price` of the whole tin, in your own currency, such as 12.50", optional(quantity.ParseMoney))
		value(r, &n.Strength, "strength", "", "active `share`, such as 60%: the label's of indigo, your own test's of a reducer", someShare)
		value(r, &n.Bought, "bought", "", "`date` on which it was bought, such as 2026-09-01 (else today)", p.dateRead)
		value(r, &n.Opened, "opened", "", "`date` on which it was opened, if it is", p.dateRead)
	}, func(*reader) stock.Command { return stock.AddTin{New: n} })
	open := act("open TIN", "A tin that was opened, now or --on a day", one, func(r *reader) {
		value(r, &opened, "on", "", "`date` on which it was opened (else now)", p.dateRead)
	}, func(r *reader) stock.Command { return stock.OpenTin{Tin: r.args[0], At: opened} })
	weigh := act("weigh TIN MASS", "What the scale shows to be in a tin", cobra.ExactArgs(2), none, func(r *reader) stock.Command {
		return stock.WeighTin{Tin: r.args[0], Mass: got(quantity.ParseMass(r.args[1], r.sys))}
	})
	test := act("test TIN (--turned TIME | --not | --caked | --warm | --smells)", "How the test of an old reducer came out, or what forbade it", one, func(r *reader) {
		value(r, &t.After, "turned", "", "`time` after which it was yellow-green, such as '6 min'", quantity.ParseSpan)
		r.BoolVar(&not, "not", false, "it did not turn within 10 min")
		r.BoolVar(&caked, "caked", false, "the powder is caked: nothing was tested")
		r.BoolVar(&warm, "warm", false, "the tin is warm: nothing was tested")
		r.BoolVar(&smells, "smells", false, "it smells acrid: nothing was tested")
		value(r, &t.Strength, "strength", "", "your own figure for the `share` that is left of it, such as 60%", someShare)
	}, func(r *reader) stock.Command {
		t.Turned = r.Changed("turned")
		for i, is := range []bool{caked, warm, smells} {
			if is {
				t.Seen = append(t.Seen, stock.Seen()[i])
			}
		}
		if wording.Count([]bool{t.Turned, not, len(t.Seen) > 0}, func(is bool) bool { return is }) != 1 {
			must(usageError{errors.New("stock test needs one of --turned, --not, or what forbids it: --caked, --warm, --smells")})
		}
		return stock.TestTin{Tin: r.args[0], Result: t}
	})
	test.Long = guided()
	gone := act("gone TIN --why WORDS", "A tin that left the shelf: used up, or handed in", one, func(r *reader) {
		r.needs = []string{"why"}
		r.StringVar(&why, "why", "", "`words`, such as 'used up'")
	}, func(r *reader) stock.Command { return stock.DropTin{Tin: r.args[0], Why: why} })
	undo := act("undo", "Takes the last of these acts back", nil, none, func(*reader) stock.Command { return stock.TakeBack{} })
	return []*cobra.Command{add, open, weigh, test, gone, undo}
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

// someShare refuses a strength of nothing, which is taken for one that was not told.
func someShare(text string, sys quantity.System) (quantity.Share, error) {
	s, err := quantity.ParseShare(text, sys)
	if err == nil && s == 0 {
		err = errors.New("a powder without strength is no use; leave it out where it is not known")
	}
	return s, err
}

// dateRead reads a date as its midnight where the dyer is.
func (p *program) dateRead(text string, _ quantity.System) (*time.Time, error) {
	t, err := time.ParseInLocation(time.DateOnly, strings.TrimSpace(text), p.Now().Location())
	if err != nil {
		return nil, fmt.Errorf("%q is not a date; write it as %s", strings.TrimSpace(text), p.Now().Format(time.DateOnly))
	}
	return &t, nil
}

// keep puts one act into stock.toml, and says it.
func (p *program) keep(sys quantity.System, c stock.Command) error {
	h := got(p.shelf())
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
