package command

import (
	"errors"
	"fmt"
	"slices"

	"example.org/vatside/model/book"
	"example.org/vatside/model/day"
	"example.org/vatside/model/history"
	"example.org/vatside/ui/shelf"
)

// History reads days of a vat by their names, the oldest first. The errors are of what could not be read; the rest is there.
func History(h shelf.Home, vat string, names []string) (history.Vat, []error) {
	var out history.Vat
	var errs []error
	for _, name := range names {
		b, err := readable(h, vat, name)
		if err != nil {
			errs = append(errs, shelf.LeftOut(vat, name, err))
			continue
		}
		state, wrong := day.Replay(b.Head, b.Events)
		if len(state.Plan) == 0 && len(wrong) > 0 {
			errs = append(errs, shelf.LeftOut(vat, name, wrong[0]))
			continue
		}
		damage := b.Damage()
		if damage != "" {
			errs = append(errs, errors.New(book.NotWhole(vat+"/"+name, damage)))
		}
		out = append(out, history.Day{Name: name, State: state, Damage: damage})
	}
	return out, errs
}

// readable reads a day that has a head; the error says why there is none.
func readable(h shelf.Home, vat, name string) (book.Book, error) {
	b, err := h.ReadDay(vat, name)
	switch {
	case err != nil:
	case b.Lacks() != "":
		err = errors.New(b.Lacks())
	case b.HeadErr != nil:
		err = fmt.Errorf("its first lines cannot be read: %w", b.HeadErr)
	}
	return b, err
}

// NotWhole says that a day is not whole, and why; nil if it is whole.
func NotWhole(vat, name string, f book.Frame) error {
	if damage := f.Damage(); damage != "" {
		return errors.New(book.NotWhole(vat+"/"+name, damage))
	}
	return nil
}

// lately is how many days of a vat are read to say in short what it wants: what was last done more days ago than that is
// overdue either way.
const lately = 10

// Lately reads the days before one of a vat that are enough to say in short what it wants.
func Lately(h shelf.Home, vat, before string) (history.Vat, []error) {
	names, err := h.Days(vat)
	at := slices.Index(names, before)
	if at < 0 {
		return nil, []error{err}
	}
	return History(h, vat, names[max(0, at+1-lately):at])
}
