package command

import (
	"bufio"
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"example.org/vatside/model/book"
	"example.org/vatside/model/day"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/library"
	"example.org/vatside/ui/shelf"
)

func (p *program) bookCommand() *cobra.Command {
	c := &cobra.Command{
		Use: "book [VAT] [DAY]|[VAT/DAY]", Short: "What happened, from the book", Args: usage(cobra.MaximumNArgs(2)),
		Example: "  vatside book garden-bin\n  vatside book garden-bin/2026-11-25",
		RunE: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 {
				return p.book(nil)
			}
			switch {
			case !strings.Contains(args[0], "/"):
				return p.book(args)
			case len(args) > 1:
				return usageError{fmt.Errorf("the day is named twice: %s and %s", args[0], args[1])}
			}
			vat, name, err := dayNamed(args[0])
			if err != nil {
				return err
			}
			return p.book([]string{vat, name})
		},
	}
	p.jsonFlag(c)
	c.AddCommand(p.bookVerifyCommand(), p.bookMendCommand(), p.bookExportCommand(), p.bookImportCommand())
	return c
}

// dayNamed parts VAT/DAY.
func dayNamed(arg string) (vat, name string, err error) {
	vat, name, _ = strings.Cut(arg, "/")
	if vat == "" || name == "" {
		return "", "", usageError{fmt.Errorf("a day is named as VAT/DAY, not as %q", arg)}
	}
	return vat, name, nil
}

// among refuses the name of a day that its vat does not have.
func among(vat, name string, days []string) error {
	if slices.Contains(days, name) {
		return nil
	}
	return fmt.Errorf("vat %s has no day %q: it has %s", vat, name, wording.List(days))
}

// page is one day of the book.
type page struct {
	vat, day string
	book     book.Book
}

// pages reads the days that were asked for. One without a head is told and left out; where it alone was asked for it is an
// error.
func (p *program) pages(h shelf.Home, args []string) ([]page, error) {
	vats, err := h.Vats()
	if err != nil {
		return nil, err
	}
	if len(args) > 0 {
		vat, err := library.VatNamed(h, args[0])
		if err != nil {
			return nil, err
		}
		vats = []string{vat}
	}
	var out []page
	for _, vat := range vats {
		days, err := h.Days(vat)
		if err != nil {
			return nil, err
		}
		if len(args) > 1 {
			if err := among(vat, args[1], days); err != nil {
				return nil, err
			}
			days = []string{args[1]}
		}
		for _, d := range days {
			b, err := h.ReadDay(vat, d)
			if err != nil && len(args) > 1 {
				return nil, err
			}
			if err != nil {
				p.warn(shelf.LeftOut(vat, d, err))
				continue
			}
			what := b.Lacks()
			switch {
			case what == "":
				out = append(out, page{vat, d, b})
				p.warn(library.NotWhole(vat, d, b.Frame))
			case len(args) > 1:
				return nil, fmt.Errorf("%s cannot be read: %s", b.File, what)
			default:
				p.warn(shelf.LeftOut(vat, d, errors.New(what)))
			}
		}
	}
	return out, nil
}

func (p *program) book(args []string) error {
	h, err := p.shelf()
	if err != nil {
		return err
	}
	pages, err := p.pages(h, args)
	if err != nil {
		return err
	}
	if p.json {
		events := []map[string]any{}
		for _, g := range pages {
			for _, e := range g.book.Events {
				events = append(events, book.Fields(g.vat, g.day, e))
			}
			if err := g.book.HeadErr; err != nil {
				p.warn(fmt.Errorf("%s:1: its first lines cannot be read: %w", g.book.File, err))
			}
			for _, u := range g.book.Unread {
				p.warn(fmt.Errorf("%s:%d: an event is left out, it cannot be read: %s", g.book.File, u.Line, u.What))
			}
		}
		return p.asJSON(events)
	}
	w := bufio.NewWriter(p.Out)
	if len(pages) == 0 {
		word := "The book is empty."
		if len(p.warnings) > 0 {
			word = "No day of it can be read."
		}
		fmt.Fprintln(w, word)
	}
	for i, g := range pages {
		if i > 0 {
			fmt.Fprintln(w)
		}
		head := g.book.Head
		what := ""
		if g.book.HeadWhole {
			what = fmt.Sprintf(": %s, %s", head.Recipe.Name, head.Setup.Fill.Format(head.Setup.System()))
		}
		if head.Rehearsed {
			what += ", rehearsed"
		}
		fmt.Fprintf(w, "%s/%s%s\n", g.vat, g.day, what)
		told := day.State{Head: head, Log: g.book.Events} // by which a correction names what it is of
		for _, e := range g.book.Events {
			fmt.Fprintf(w, "#%d %s %s\n", e.Seq, day.Clock(e.At), wording.Show(told.Tell(e.Body)))
		}
		for _, f := range book.Verify(g.book) {
			line := ""
			if f.Line > 0 {
				line = fmt.Sprintf("line %d: ", f.Line)
			}
			fmt.Fprintf(w, "! %s%s\n", line, f.What)
		}
	}
	return w.Flush()
}
