package command

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"example.org/vatside/model/book"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/library"
	"example.org/vatside/ui/shelf"
)

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
	lost = wording.Count(v.found, func(f book.Finding) bool { return f.Lost })
	damage = wording.Count(v.found, func(f book.Finding) bool { return !f.Lost && !f.Whole })
	return lost, damage, len(v.found) - lost - damage
}

// sum is the last line.
func (v *verifying) sum() string {
	lost, damage, remarks := v.count()
	words, told := "all read whole", wording.Counted(remarks, "remark")
	switch {
	case lost+damage > 0:
		words = wording.List(wording.Filled(
			wording.If(lost > 0, wording.Counted(lost, "part")+" cannot be read"),
			wording.If(damage > 0, "not whole in "+wording.Counted(damage, "place")), wording.If(remarks > 0, told)))
	case remarks > 0:
		words = "all events can be read, with " + told
	}
	return fmt.Sprintf("%s, %s%s: %s.", wording.Counted(v.days, "day"), wording.Counted(v.events, "event"), v.acts, words)
}

// verify looks at every file of the book, the list of tins and the settings.
func (p *program) verify(h shelf.Home, _ *reader) error {
	p.Sparing()
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
			if of := b.Head.Vat + "/" + b.Head.Day; of != vat+"/"+d {
				v.add(book.Finding{File: h.DayFile(vat, d), Line: 1, What: fmt.Sprintf("its head says that it is %s; where it was not meant to move, give it its name again", of), Whole: true})
			}
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
		must(p.asJSON(object{{"days", v.days}, {"events", v.events}, {"whole", lost+damage == 0}, {"findings", findings}}))
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

// exitPlanned is the code of a mending that was shown and not done.
const exitPlanned exitCode = 3

func (p *program) bookMendCommand() *cobra.Command {
	var yes bool
	return p.command("mend VAT/DAY", "Mend a day that book verify names", cobra.ExactArgs(1), func(r *reader) {
		r.BoolVar(&yes, "yes", false, "do it")
	}, p.inHome(func(h shelf.Home, r *reader) error { return p.mend(h, r.args[0], yes) }))
}

func (p *program) mend(h shelf.Home, named string, yes bool) error {
	vat, name := dayNamed(named)
	vat = got(library.VatNamed(h, vat))
	daysNamed(h, vat, name)
	id := vat + "/" + name
	var m book.Mending
	var err error
	kept := ""
	if yes {
		m, kept, err = h.Mend(vat, name)
	} else {
		m, err = h.MendPlan(vat, name)
	}
	switch {
	case errors.Is(err, shelf.ErrLocked):
		return fmt.Errorf("%s is not mended: the vat %s is open in another program; close it there first", id, vat)
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
		must(p.asJSON(out))
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
