package command

import (
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

// vatCalled is a vat at its own present, by its name or its folder's; of those that are ended only where they count.
func (p *program) vatCalled(name string, ended bool) (library.Day, error) {
	h, err := p.shelf()
	if err != nil {
		return library.Day{}, err
	}
	all, err := p.survey(h)
	if err != nil {
		return library.Day{}, err
	}
	return library.Called(all, name, ended)
}
