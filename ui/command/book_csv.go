package command

import (
	"errors"
	"fmt"
	"path/filepath"
	"slices"

	"github.com/spf13/cobra"

	"example.org/vatside/model/book"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/library"
	"example.org/vatside/ui/shelf"
)

// toldMost is how many faults of a table are told in one run.
const toldMost = 20

func (p *program) bookExportCommand() *cobra.Command {
	var dir string
	var mark bool
	return p.command("export --csv DIR [VAT...]", "The book as tables for a spreadsheet", cobra.ArbitraryArgs, func(r *reader) {
		r.needs = []string{"csv"}
		r.StringVar(&dir, "csv", "", "`DIR` to write the tables into; it is made if it is not there")
		r.BoolVar(&mark, "bom", false, "a byte order mark in front, for a program that shows Â° for °")
	}, p.inHome(func(h shelf.Home, r *reader) error { return p.bookExport(h, dir, mark, r.args) }))
}

func (p *program) bookImportCommand() *cobra.Command {
	var dir string
	return p.command("import --csv DIR", "Days out of tables that export wrote", nil, func(r *reader) {
		r.needs = []string{"csv"}
		r.StringVar(&dir, "csv", "", "`DIR` with the tables")
	}, p.inHome(func(h shelf.Home, _ *reader) error { return p.bookImport(h, dir) }))
}

// moved is what an export or an import did, as --json shows it.
type moved struct {
	Days       int      `json:"days"`
	Events     int      `json:"events"`
	Pieces     int      `json:"pieces"`
	Readings   int      `json:"readings"`
	Files      []string `json:"files"`
	PassedOver []string `json:"passed_over"` // vat/day
}

func movedOf(x book.Exported) moved {
	m := moved{Files: []string{}, PassedOver: append([]string{}, x.PassedOver...)}
	for i, n := range []*int{&m.Days, &m.Events, &m.Pieces, &m.Readings} {
		*n = x.Tables[i].Rows
	}
	return m
}

// sum is one line for the terminal: how many days, events and pieces were imported.
func (m moved) sum() string {
	return fmt.Sprintf("%s, %s, %s, %s", wording.Counted(m.Days, "day"), wording.Counted(m.Events, "event"),
		wording.Counted(m.Pieces, "piece"), wording.Counted(m.Readings, "reading"))
}

func (p *program) bookExport(h shelf.Home, dir string, mark bool, names []string) error {
	vats := got(h.Vats())
	if len(names) > 0 {
		var asked []string
		for _, n := range names {
			asked = append(asked, got(library.VatNamed(h, n)))
		}
		vats = wording.Once(asked)
	}
	var leaves []book.Leaf
	for _, vat := range vats {
		for _, d := range got(h.Days(vat)) {
			leaves = append(leaves, got(h.DayText(vat, d)))
		}
	}
	x := book.Export(p.Now(), leaves)
	m := movedOf(x)
	if mark {
		for i, t := range x.Tables {
			x.Tables[i].Text = append([]byte("\ufeff"), t.Text...)
		}
	}
	m.Files = got(h.WriteTables(dir, x.Tables))
	for _, line := range x.Damage {
		p.warn(errors.New(line))
	}
	for _, f := range x.LeftOut {
		p.warn(fmt.Errorf("%s:%d: %s", f.File, f.Line, f.What))
	}
	if p.json {
		return p.asJSON(m)
	}
	rest := ""
	if n := len(x.LeftOut); n > 0 {
		verb := wording.Either(n > 1, "are", "is")
		rest = fmt.Sprintf("; %s of the book cannot be read and %s not in them", wording.Counted(n, "part"), verb)
	}
	p.say("%s in %s%s.", m.sum(), dir, rest)
	return nil
}

func (p *program) bookImport(h shelf.Home, dir string) error {
	days := got(shelf.ReadTable(dir, book.DaysFile))
	events := got(shelf.ReadTable(dir, book.EventsFile))
	in := book.Import(p.Now(), days, events, shelf.CheckVat)
	if len(in.Wrong) > 0 {
		return p.misread(dir, in.Wrong)
	}
	made, passed, err := h.AddDays(in.Leaves)
	if err != nil {
		return fmt.Errorf("nothing is imported: %w", err)
	}
	for _, r := range in.Remarks {
		p.warn(inFolder(dir, r))
	}
	m := movedOf(book.Export(p.Now(), made))
	m.PassedOver = list(passed)
	m.Files = each(made, func(l book.Leaf) string { return h.DayFile(l.Vat, l.Day) })
	if p.json {
		return p.asJSON(m)
	}
	for _, d := range passed {
		p.say("%s is in the book already, the same: passed over.", d)
	}
	if len(made) == 0 {
		p.say("No day of the tables is new.")
		return nil
	}
	p.say("%s imported.", m.sum())
	return nil
}

// inFolder names a table with its folder; what is told of a day keeps the day's name.
func inFolder(dir string, m book.Misread) book.Misread {
	if slices.Contains(book.TableFiles, m.File) {
		m.File = filepath.Join(dir, m.File)
	}
	return m
}

// misread tells what is wrong with the tables, one line each.
func (p *program) misread(dir string, wrong []book.Misread) error {
	for i := range wrong {
		wrong[i] = inFolder(dir, wrong[i])
	}
	if len(wrong) == 1 {
		return fmt.Errorf("%w; nothing is imported", wrong[0])
	}
	for i, w := range wrong {
		if i == toldMost {
			p.warn(fmt.Errorf("and %d more", len(wrong)-i))
			break
		}
		p.warn(w)
	}
	return fmt.Errorf("%d parts of the tables cannot be read; nothing is imported", len(wrong))
}
