package command

import (
	"errors"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"example.org/vatside/model/wording"
)

// flagNamed finds the flag's name in the library's words.
var flagNamed = wording.Pattern(`for "(?:-\w, )?--([^"]+)" flag: `)

// flagError is wrong usage of a flag. A value that its flag cannot take is told in words for the dyer: the library's name
// the function that could not read it.
func flagError(c *cobra.Command, err error) error {
	var wrong interface{ GetValue() string }
	named := flagNamed().FindStringSubmatch(err.Error())
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

// homeNamed refuses a --home with nothing in it: it would be the dyer's own home. VATSIDE_HOME with nothing in it is not set.
func (p *program) homeNamed(c *cobra.Command, _ []string) error {
	if c.Flags().Changed("home") && strings.TrimSpace(p.home) == "" {
		return emptyFlag("--home")
	}
	return nil
}
