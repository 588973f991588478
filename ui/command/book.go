package command

import (
	"bufio"
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
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
	c := p.command("book [VAT] [DAY]|[VAT/DAY]", "What happened, from the book", cobra.MaximumNArgs(2), nil, func(r *reader) error {
		if len(r.args) == 0 || !strings.Contains(r.args[0], "/") {
			return p.book(r.args)
		}
		if len(r.args) > 1 {
			return usageError{fmt.Errorf("the day is named twice: %s and %s", r.args[0], r.args[1])}
		}
		vat, name := dayNamed(r.args[0])
		return p.book([]string{vat, name})
	})
	verify := p.command("verify", "Look whether every file of the book is whole", nil, nil, p.inHome(p.verify))
	c.AddCommand(verify, p.bookMendCommand(), p.bookExportCommand(), p.bookImportCommand())
	return c
}

type page struct {
	vat, day string
	book     book.Book
}

// pages reads the days that were asked for, and hands over each as it is read. One without a head is told and left out; where it
// alone was asked for the command stops. It stops before the first page.
func (p *program) pages(h shelf.Home, args []string, each func(page)) {
	vats := got(h.Vats())
	if len(args) > 0 {
		vats = []string{got(library.VatNamed(h, args[0]))}
	}
	days := make([][]string, len(vats))
	for i, vat := range vats {
		days[i] = daysNamed(h, vat, strings.Join(args[min(1, len(args)):], ""))
	}
	for i, vat := range vats {
		for _, d := range days[i] {
			b, err := h.ReadDay(vat, d)
			what := b.Lacks()
			switch {
			case err != nil && len(args) > 1:
				must(err)
			case err != nil:
				p.warn(shelf.LeftOut(vat, d, err))
			case what == "":
				p.warn(library.NotWhole(vat, d, b.Frame))
				each(page{vat, d, b})
			case len(args) > 1:
				stop("%s cannot be read: %s", b.File, what)
			default:
				p.warn(shelf.LeftOut(vat, d, errors.New(what)))
			}
		}
	}
}

func dayNamed(arg string) (vat, name string) {
	vat, name, _ = strings.Cut(arg, "/")
	if vat == "" || name == "" {
		must(usageError{fmt.Errorf("a day is named as VAT/DAY, not as %q", arg)})
	}
	return vat, name
}

// daysNamed are the days of a vat: all, or the one that is named, which there must be.
func daysNamed(h shelf.Home, vat, name string) []string {
	days := got(h.Days(vat))
	switch {
	case name == "":
		return days
	case !slices.Contains(days, name):
		stop("vat %s has no day %q: it has %s", vat, name, wording.List(days))
	}
	return []string{name}
}

// bookJSON prints the events as one list, each day as it is read.
func (p *program) bookJSON(h shelf.Home, args []string) error {
	w := bufio.NewWriter(p.Out)
	var unread []error // told after the list, as what is not whole is told first
	var text bytes.Buffer
	in := json.NewEncoder(&text)
	in.SetIndent("  ", "  ")
	in.SetEscapeHTML(false)
	const next = ",\n  "
	before := "[\n  "
	p.pages(h, args, func(g page) {
		for _, e := range g.book.Events {
			text.Reset()
			must(in.Encode(book.Fields(g.vat, g.day, e)))
			w.WriteString(before)
			w.Write(bytes.TrimSuffix(text.Bytes(), []byte("\n")))
			before = next
		}
		if err := g.book.HeadErr; err != nil {
			unread = append(unread, fmt.Errorf("%s:1: its first lines cannot be read: %w", g.book.File, err))
		}
		for _, u := range g.book.Unread {
			unread = append(unread, fmt.Errorf("%s:%d: an event is left out, it cannot be read: %s", g.book.File, u.Line, u.What))
		}
	})
	p.warn(unread...)
	end := wording.Either(before != next, "[]\n", "\n]\n")
	w.WriteString(end)
	return w.Flush()
}

func (p *program) book(args []string) error {
	p.Sparing()
	h := got(p.shelf())
	if p.json {
		return p.bookJSON(h, args)
	}
	w := bufio.NewWriter(p.Out)
	some := false
	p.pages(h, args, func(g page) {
		if some {
			fmt.Fprintln(w)
		}
		some = true
		tellPage(w, g)
		w.Flush() // it tells of what it could not write at the end
	})
	if !some {
		word := wording.Either(len(p.warnings) > 0, "No day of it can be read.", "The book is empty.")
		fmt.Fprintln(w, word)
	}
	return w.Flush()
}

// tellPage prints a day.
func tellPage(w io.Writer, g page) {
	head := g.book.Head
	what := wording.If(g.book.HeadWhole, fmt.Sprintf(": %s, %s", head.Recipe.Name, head.Setup.Fill.Format(head.Setup.System())))
	what += wording.If(head.Rehearsed, ", rehearsed")
	fmt.Fprintf(w, "%s/%s%s\n", g.vat, g.day, what)
	told := day.State{Head: head, Log: g.book.Events} // by which a correction names what it is of
	for _, e := range g.book.Events {
		fmt.Fprintf(w, "#%d %s %s\n", e.Seq, day.Clock(e.At), wording.Show(told.Tell(e.Body)))
	}
	for _, f := range book.Verify(g.book) {
		line := wording.If(f.Line > 0, fmt.Sprintf("line %d: ", f.Line))
		fmt.Fprintf(w, "! %s%s\n", line, f.What)
	}
}
