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
			vat, name, named := strings.Cut(args[0], "/")
			switch {
			case named && len(args) > 1:
				return usageError{fmt.Errorf("the day is named twice: %s and %s", args[0], args[1])}
			case named && (vat == "" || name == ""):
				return usageError{fmt.Errorf("a day is named as VAT/DAY, not as %q", args[0])}
			case named:
				args = []string{vat, name}
			}
			return p.book(args)
		},
	}
	p.jsonFlag(c)
	c.AddCommand(&cobra.Command{
		Use: "verify", Short: "Look whether every file of the book reads whole", Args: usage(cobra.NoArgs),
		RunE: func(*cobra.Command, []string) error { return p.verify() },
	}, p.bookExportCommand(), p.bookImportCommand())
	return c
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
		vat := args[0]
		if !slices.Contains(vats, vat) {
			vat = shelf.Slug(vat)
		}
		if !slices.Contains(vats, vat) {
			if len(vats) == 0 {
				return nil, fmt.Errorf("no vat is called %q: there is none in the book yet", args[0])
			}
			return nil, fmt.Errorf("no vat is called %q: there are %s", args[0], list(vats))
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
			if !slices.Contains(days, args[1]) {
				return nil, fmt.Errorf("vat %s has no day %q: it has %s", vat, args[1], list(days))
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
				p.warn(fmt.Errorf("%s:1: the head cannot be read: %w", g.book.File, err))
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
		for _, e := range g.book.Events {
			fmt.Fprintf(w, "#%d %s %s\n", e.Seq, day.Clock(e.At), e.Body.Sentence(head.Setup.System()))
		}
		for _, f := range book.Verify(g.book) {
			fmt.Fprintf(w, "! line %d: %s\n", f.Line, f.What)
		}
	}
	return w.Flush()
}

func (p *program) verify() error {
	h, err := p.shelf()
	if err != nil {
		return err
	}
	vats, err := h.Vats()
	if err != nil {
		return err
	}
	days, events, lost, told := 0, 0, 0, 0
	tell := func(findings []book.Finding) {
		for _, f := range findings {
			p.say("%s", f)
			told++
			if f.Lost {
				lost++
			}
		}
	}
	for _, vat := range vats {
		names, err := h.Days(vat)
		if err != nil {
			p.warn(err)
			lost++
			continue
		}
		var read []book.Book
		for _, d := range names {
			b, err := h.ReadDay(vat, d)
			if err != nil {
				p.warn(err)
				lost++
				continue
			}
			if b.HeadWhole {
				days++
			}
			events += len(b.Events)
			read = append(read, b)
		}
		tell(book.VerifyVat(read))
		strays, err := h.Strays(vat)
		p.warn(err)
		for _, path := range strays {
			p.say("%s: this is no day's name, such as 2026-11-25.toml: it is not read.", path)
			told++
		}
	}
	if _, err := h.Settings(); err != nil {
		p.say("%s.", err)
		told++
	}
	acts := ""
	if file, err := h.Stock(); err != nil {
		p.warn(err)
		lost++
	} else {
		tell(file.Verify())
		if file.HeadWhole {
			acts = ", " + wording.Counted(len(file.Events), "act") + " on the tins"
		}
	}
	if lost > 0 {
		return fmt.Errorf("%s of the book cannot be read", wording.Counted(lost, "part"))
	}
	whole := "all read whole"
	if told > 0 {
		whole = "all events can be read, with " + wording.Counted(told, "remark")
	}
	p.say("%s, %s%s: %s.", wording.Counted(days, "day"), wording.Counted(events, "event"), acts, whole)
	return nil
}
