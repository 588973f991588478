package command

import (
	"embed"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"example.org/vatside/model/wording"
)

// guideCommand prints what a dyer reads once: how a day goes on the screens, how a vat is kept, scripts, and the files.
func (p *program) guideCommand() *cobra.Command {
	var names []string
	long := "What is read once, a page each:\n"
	for _, t := range guides {
		names = append(names, t.name)
		long += fmt.Sprintf("\n  %-9s %s", t.name, t.of)
	}
	return &cobra.Command{
		Use: "guide [" + strings.Join(names, "|") + "]", Short: "How a day goes on the screens, how a vat is kept, scripts, files and their safety",
		Long: long, Args: usage(cobra.MaximumNArgs(1)), ValidArgs: names,
		Example: "  vatside guide day\n  vatside guide files",
		RunE: func(c *cobra.Command, args []string) error {
			if len(args) == 0 {
				fmt.Fprintln(p.Out, wording.ShowPage(fmt.Sprintf("%s\n\nvatside guide %s prints the first.", long, names[0])))
				return nil
			}
			text, err := guideTexts.ReadFile("guide/" + args[0] + ".txt")
			if err != nil {
				return usageError{fmt.Errorf("there is no page %q: there are %s", args[0], wording.List(names))}
			}
			fmt.Fprintln(p.Out, wording.ShowPage(strings.TrimSpace(string(text))))
			return nil
		},
	}
}

// guides are the pages, each a file of its name in guide/.
var guides = []struct{ name, of string }{
	{"day", "a day on the screens, its keys and its clock"},
	{"vat", "keeping a vat: signs, care, powders, after the dips, cost, its end"},
	{"scripts", "a day by a script, and what the commands take"},
	{"files", "where the data lie, what survives what, what is never deleted"},
}

//go:embed guide/*.txt
var guideTexts embed.FS
