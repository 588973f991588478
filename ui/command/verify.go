package command

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"example.org/vatside/model/book"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/shelf"
)

func (p *program) bookVerifyCommand() *cobra.Command {
	c := &cobra.Command{
		Use: "verify", Short: "Look whether every file of the book is whole", Args: usage(cobra.NoArgs),
		Long: "Names what is missing, doubled, out of order, torn or cannot be read in the days and in the list of tins, with file and line,\n" +
			"and then ends with 1. What was mended by hand and reads is a remark, and ends with 0.",
		RunE: func(*cobra.Command, []string) error { return p.verify() },
	}
	p.jsonFlag(c)
	return c
}

// verifying is a look at the whole book.
type verifying struct {
	days, events int
	acts         string // of the tins, in words
	found        []book.Finding
}

func (v *verifying) add(fs ...book.Finding) { v.found = append(v.found, fs...) }

// unreadable is a file that could not even be opened.
func (v *verifying) unreadable(file string, err error) {
	v.add(book.Finding{File: file, What: strings.TrimSuffix(err.Error(), "."), Lost: true})
}

// count is how many findings say that something cannot be read, how many others that the file is not whole, and how many are
// remarks.
func (v *verifying) count() (lost, damage, remarks int) {
	for _, f := range v.found {
		switch {
		case f.Lost:
			lost++
		case !f.Whole:
			damage++
		default:
			remarks++
		}
	}
	return lost, damage, remarks
}

// sum is the last line.
func (v *verifying) sum() string {
	lost, damage, remarks := v.count()
	var words []string
	switch {
	case lost+damage > 0:
		if lost > 0 {
			words = append(words, wording.Counted(lost, "part")+" cannot be read")
		}
		if damage > 0 {
			words = append(words, "not whole in "+wording.Counted(damage, "place"))
		}
		if remarks > 0 {
			words = append(words, wording.Counted(remarks, "remark"))
		}
	case remarks > 0:
		words = append(words, "all events can be read, with "+wording.Counted(remarks, "remark"))
	default:
		words = append(words, "all read whole")
	}
	return fmt.Sprintf("%s, %s%s: %s.", wording.Counted(v.days, "day"), wording.Counted(v.events, "event"), v.acts, wording.List(words))
}

// verify looks at every file of the book, the list of tins and the settings.
func (p *program) verify() error {
	p.Sparing()
	h, err := p.shelf()
	if err != nil {
		return err
	}
	vats, strays, err := h.VatFolders()
	if err != nil {
		return err
	}
	var v verifying
	for _, err := range strays {
		v.unreadable(h.Dir(), err)
	}
	for _, vat := range vats {
		v.vat(h, vat)
	}
	if _, err := h.Settings(); err != nil {
		v.add(remark(h.SettingsFile(), err))
	}
	if file, err := h.Stock(); err != nil {
		v.unreadable(h.StockFile(), err)
	} else {
		v.add(file.Verify()...)
		if file.HeadWhole {
			v.acts = ", " + wording.Counted(len(file.Events), "act") + " on the tins"
		}
	}
	return p.tellVerified(v)
}

// vat looks at the files of one vat.
func (v *verifying) vat(h shelf.Home, vat string) {
	names, err := h.Days(vat)
	if err != nil {
		v.unreadable(h.VatDir(vat), err)
		return
	}
	var read []book.Book
	for _, d := range names {
		b, err := h.ReadThrough(vat, d)
		if err != nil {
			v.unreadable(h.DayFile(vat, d), err)
			continue
		}
		if b.HeadWhole {
			v.days++
		}
		v.events += len(b.Events)
		read = append(read, book.Book{Frame: b.Frame, Faults: b.Faults}) // the events are much to hold
	}
	v.add(book.VerifyVat(read)...)
	strays, err := h.Strays(vat)
	if err != nil {
		v.unreadable(h.VatDir(vat), err)
	}
	for _, path := range strays {
		v.add(book.Finding{File: path, What: "this is no day's name, such as 2026-11-25.toml: it is not read", Whole: true})
	}
}

// remark is what is told of a file that costs nothing of the book; an error that begins with file and line has its line.
func remark(file string, err error) book.Finding {
	f := book.Finding{File: file, What: err.Error(), Whole: true}
	if rest, ok := strings.CutPrefix(f.What, file+":"); ok {
		line, what, _ := strings.Cut(rest, ": ")
		if n, err := strconv.Atoi(line); err == nil {
			f.Line, f.What = n, what
		}
	}
	return f
}

func (p *program) tellVerified(v verifying) error {
	lost, damage, _ := v.count()
	if p.json {
		// The keys of book verify --json. Line 0: of the file as a whole; lost: something cannot be read; whole: a remark only.
		findings := each(v.found, func(f book.Finding) object {
			return object{{"file", f.File}, {"line", f.Line}, {"what", f.What}, {"lost", f.Lost}, {"whole", f.Whole}}
		})
		if err := p.asJSON(object{{"days", v.days}, {"events", v.events}, {"whole", lost+damage == 0}, {"findings", findings}}); err != nil {
			return err
		}
	} else {
		for _, f := range v.found {
			p.say("%s", f)
		}
		p.say("%s", v.sum())
	}
	switch {
	case lost > 0 && damage > 0:
		return fmt.Errorf("%s of the book cannot be read, and it is not whole in %s: vatside book mend VAT/DAY shows what can be done", wording.Counted(lost, "part"), wording.Counted(damage, "place"))
	case lost > 0:
		return fmt.Errorf("%s of the book cannot be read", wording.Counted(lost, "part"))
	case damage > 0:
		return fmt.Errorf("the book is not whole in %s: vatside book mend VAT/DAY shows what can be done", wording.Counted(damage, "place"))
	}
	return nil
}
