package command

import (
	"strings"

	"github.com/spf13/cobra"
)

// reckoning is one of them: what it needs, and what it does with a system of units.
func (p *program) reckoning(use, short, example string, needs []string, run func(*reader) error, flags func(*cobra.Command)) *cobra.Command {
	c := &cobra.Command{Use: use, Short: short, Args: usage(cobra.NoArgs), Example: "  vatside reckon " + strings.ReplaceAll(example, "\n", "\n  vatside reckon ")}
	var units string
	c.RunE = func(c *cobra.Command, _ []string) error {
		if err := needed(c, "reckon "+c.Name(), needs...); err != nil {
			return err
		}
		sys, err := p.units(units)
		if err != nil {
			return err
		}
		return said(run(&reader{sys: sys, c: c}), sys)
	}
	flags(c)
	p.flags(c, texted{"units": &units})
	return c
}
