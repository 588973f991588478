package command

import (
	"fmt"
	"slices"
	"strings"

	"example.org/vatside/ui/shelf"
)

// vatNamed finds a vat of the book by its folder's name or its own.
func vatNamed(h shelf.Home, name string) (string, error) {
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
	return "", fmt.Errorf("no vat is called %q: there are %s", name, list(vats))
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
	return fmt.Errorf("vat %s has no day %q: it has %s", vat, name, list(days))
}
