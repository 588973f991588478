package command

import (
	"strings"

	"github.com/spf13/cobra"
)

// complete lets a shell offer the recipes and the vats at hand where a command takes one, and the settings by their keys.
func (p *program) complete(c *cobra.Command) {
	const as = cobra.ShellCompDirectiveNoFileComp
	recipes := func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
		return p.recipeIDs(), cobra.ShellCompDirectiveDefault // or a file
	}
	vats := func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
		h, err := p.shelf()
		if err != nil {
			return nil, as
		}
		names, _ := h.Vats() // a home that cannot be read offers nothing
		return names, as
	}
	for name, offer := range map[string]cobra.CompletionFunc{"recipe": recipes, "vat": vats} {
		if c.Flags().Lookup(name) != nil {
			_ = c.RegisterFlagCompletionFunc(name, offer) // fails only for a flag that is not there or was given one
		}
	}
	first := func(offer cobra.CompletionFunc) cobra.CompletionFunc {
		return func(c *cobra.Command, args []string, typed string) ([]string, cobra.ShellCompDirective) {
			if len(args) > 0 {
				return nil, as
			}
			return offer(c, args, typed)
		}
	}
	_, takes, _ := strings.Cut(c.Use, " ")
	switch takes = strings.TrimLeft(takes, "["); {
	case strings.HasPrefix(takes, "VAT"):
		c.ValidArgsFunction = first(vats)
	case c.Name() == "show":
		c.ValidArgsFunction = first(recipes)
	case c.Name() == "set":
		c.ValidArgsFunction = first(settingKeys)
	}
	for _, sub := range c.Commands() {
		p.complete(sub)
	}
}
