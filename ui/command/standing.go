package command

import (
	"errors"
	"fmt"
	"strings"

	"example.org/vatside/model/day"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/library"
	"example.org/vatside/ui/shelf"
)

// survey looks at all vats without a lock and without changing anything: open days first, the one whose call rules foremost.
func (p *program) survey(h shelf.Home) ([]library.Day, error) {
	all, errs, err := library.Survey(h)
	p.warn(errs...)
	return all, err
}

// noVat is what is said where survey found none.
func (p *program) noVat() string {
	if len(p.warnings) > 0 {
		return "No vat of the book can be read."
	}
	return "No vat is in the book yet."
}

// vatState is how a vat stands, by its name or its folder's; of those that are ended only where they count.
func (p *program) vatState(name string, ended bool) (day.State, error) {
	h, err := p.shelf()
	if err != nil {
		return day.State{}, err
	}
	all, err := p.survey(h)
	if err != nil {
		return day.State{}, err
	}
	var names []string
	for _, st := range all {
		this := strings.EqualFold(st.Vat, name) || strings.EqualFold(st.VatName(), name)
		switch {
		case this && st.State.Ended && !ended:
			return day.State{}, fmt.Errorf("the vat %s has ended, on %s: build another with --recipe and --fill", st.VatName(), st.State.At.Format("2 January 2006"))
		case this:
			return st.State, nil
		case !st.State.Ended || ended:
			names = append(names, st.Vat)
		}
	}
	return day.State{}, errors.New("no vat is called " + name + "; there are " + wording.List(names))
}
