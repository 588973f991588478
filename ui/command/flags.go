package command

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"example.org/vatside/model/wording"
)

// flagNamed finds the flag's name in the library's words.
var flagNamed = wording.Pattern(`for "(?:-\w, )?--([^"]+)" flag: `)

// flagError is wrong usage of a flag. A value that its flag cannot take is told in words for the dyer: the library's name
// the function that could not read it.
func flagError(c *cobra.Command, err error) error {
	var wrong interface{ GetValue() string }
	named := flagNamed().FindStringSubmatch(err.Error())
	if unknown := (*pflag.NotExistError)(nil); errors.As(err, &unknown) {
		var names []string
		c.Flags().VisitAll(func(f *pflag.Flag) { names = append(names, f.Name) })
		if near, ok := wording.Nearest(unknown.GetSpecifiedName(), names); ok {
			err = fmt.Errorf("%w; did you mean --%s?", err, near)
		}
		return usageError{err}
	}
	if !errors.As(err, &wrong) || named == nil {
		return usageError{err}
	}
	name, value, wants := named[1], wrong.GetValue(), "cannot be"
	if f := c.Flags().Lookup(name); f != nil {
		switch f.Value.Type() {
		case "bool":
			wants = "is a switch, true or false, not"
		case "int":
			wants = "is a whole number, such as 2, not"
		}
	}
	return usageError{fmt.Errorf("--%s %s %q", name, wants, value)}
}

// noEmptyFlag refuses a flag that is given with nothing in it, before any command runs; one that is left out is none. An empty
// --home would be the dyer's own home; VATSIDE_HOME with nothing in it is not set.
func noEmptyFlag(c *cobra.Command, _ []string) (err error) {
	c.Flags().Visit(func(f *pflag.Flag) {
		texts := []string{f.Value.String()}
		if several, ok := f.Value.(pflag.SliceValue); ok {
			texts = several.GetSlice()
		}
		blank := func(text string) bool { return strings.TrimSpace(text) == "" }
		if err == nil && slices.ContainsFunc(texts, blank) {
			err = usageError{fmt.Errorf("--%s is given with nothing in it", f.Name)}
		}
	})
	return err
}
