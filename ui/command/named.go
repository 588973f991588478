package command

import (
	"fmt"
	"slices"
	"strings"

	"example.org/vatside/model/wording"
)

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
	return fmt.Errorf("vat %s has no day %q: it has %s", vat, name, wording.List(days))
}
