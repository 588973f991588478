package library

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"

	"example.org/vatside/model/wording"
	"example.org/vatside/ui/shelf"
)

// VatNamed finds a vat by its folder's name or its own.
func VatNamed(h shelf.Home, name string) (string, error) {
	vats, err := h.Vats()
	switch {
	case err != nil:
		return "", err
	case slices.Contains(vats, name):
		return name, nil
	case slices.Contains(vats, shelf.Slug(name)):
		return shelf.Slug(name), nil
	case len(vats) == 0:
		return "", fmt.Errorf("no vat is called %q: there is none in the book yet", name)
	}
	return "", fmt.Errorf("no vat is called %q: there are %s", name, wording.List(vats))
}

// Called finds a vat of a Survey by its name or its folder's, in letters of any size; of those that are ended only where they count.
func Called(all []Day, name string, ended bool) (Day, error) {
	var names []string
	for _, d := range all {
		switch this := strings.EqualFold(d.Vat, name) || strings.EqualFold(d.VatName(), name); {
		case this && d.State.Ended && !ended:
			return Day{}, fmt.Errorf("the vat %s has ended, on %s: build another with --recipe and --fill", d.VatName(), d.State.At.Format("2 January 2006"))
		case this:
			return d, nil
		case !d.State.Ended || ended:
			names = append(names, d.Vat)
		}
	}
	return Day{}, errors.New("no vat is called " + name + "; there are " + wording.List(names))
}

// Survey looks at all vats: of each its open days, where none is open its last one that can be read. Open days stand first, the one
// whose call rules foremost. errs is what could not be read or is not whole; err says that no vat could be looked at.
func Survey(h shelf.Home) (all []Day, errs []error, err error) {
	vats, strays, err := h.VatFolders()
	if err != nil {
		return nil, nil, err
	}
	if stray := errors.Join(strays...); stray != nil {
		errs = append(errs, stray)
	}
	for _, vat := range vats {
		days, wrong := present(h, vat)
		all, errs = append(all, days...), append(errs, wrong...)
	}
	slices.SortStableFunc(all, func(a, b Day) int {
		if a.Open() != b.Open() {
			if a.Open() {
				return -1
			}
			return 1
		}
		if !a.Open() {
			return cmp.Compare(a.Vat, b.Vat)
		}
		return cmp.Or(a.Call().Compare(b.Call()), cmp.Compare(a.Vat, b.Vat))
	})
	return all, errs, nil
}

// present are the open days of a vat; where none is open its last one that can be read. What is newer and cannot be read is told.
func present(h shelf.Home, vat string) (out []Day, errs []error) {
	tell := func(err error) {
		if err != nil {
			errs = append(errs, err)
		}
	}
	days, err := h.VatDays(vat)
	tell(err)
	var last []Day
	for _, name := range slices.Backward(days.All) {
		d, err := Read(h, vat, name)
		if err == nil {
			last = append(last, d)
			tell(d.NotWhole())
			break
		}
		tell(shelf.LeftOut(vat, name, err))
	}
	for _, name := range days.Open {
		d, err := Day{}, error(nil)
		if len(last) > 0 && last[0].Name == name {
			d = last[0]
		} else if d, err = Read(h, vat, name); err != nil {
			tell(shelf.LeftOut(vat, name, err))
			continue
		}
		tell(d.NotWhole())
		out = append(out, d)
	}
	for i := range out {
		out[i].Others = len(out) > 1
	}
	if len(out) == 0 {
		return last, errs
	}
	return out, errs
}

// Glance are the newest days of the vats that are open and whole, as far as their files tell at once, and how many vats there are; -1
// where nobody knows. What is not sure of itself is left for who reads the whole home.
func Glance(h shelf.Home) (open []Day, vats int) {
	names, err := h.Vats()
	if err != nil {
		return nil, -1
	}
	for _, vat := range names {
		name, b, ok := h.Glance(vat)
		if !ok || len(b.Spilled) > 0 || b.Damage() != "" {
			continue
		}
		if d := Of(vat, name, b); d.Open() {
			open = append(open, d)
		}
	}
	return open, len(names)
}

// Last is the newest day of a vat, as it stands. False where there is none, or its head cannot be read.
func Last(h shelf.Home, vat string) (Day, bool) {
	name, b, found, _ := h.Last(vat) // what cannot be read is told where its day is opened
	if !found || b.HeadErr != nil {
		return Day{}, false
	}
	return Of(vat, name, b), true
}
