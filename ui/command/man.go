package command

import (
	"cmp"
	"fmt"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"example.org/vatside/model/wording"
)

// manCommand prints the manual page of the program, made from the commands themselves, in the macros of man(7).
func manCommand() *cobra.Command {
	return &cobra.Command{
		Use: "man", Short: "The manual page, as man(1) sets it", Args: usage(cobra.NoArgs),
		RunE: func(c *cobra.Command, _ []string) error {
			_, err := fmt.Fprint(c.OutOrStdout(), manual(c.Root()))
			return err
		},
	}
}

// manual is the page: the root, then each command with its flags and examples.
func manual(root *cobra.Command) string {
	var b strings.Builder
	fmt.Fprintf(&b, ".TH VATSIDE 1 \"\" \"vatside %s\" \"User commands\"\n", Version)
	fmt.Fprintf(&b, ".SH NAME\nvatside \\- %s\n", roff(wording.Lower(root.Short)))
	b.WriteString(".SH SYNOPSIS\n.B vatside\n[\\fIcommand\\fR] [\\fIflags\\fR]\n.SH DESCRIPTION\n" + roffText(root.Long))
	b.WriteString(".SH OPTIONS\n" + manFlags(root.NonInheritedFlags()))
	for _, g := range root.Groups() {
		fmt.Fprintf(&b, ".SH %s\n", strings.ToUpper(roff(g.ID)))
		for _, c := range root.Commands() {
			if c.GroupID == g.ID {
				manCommandOf(&b, c)
			}
		}
	}
	b.WriteString(".SH OTHER COMMANDS\n")
	for _, c := range root.Commands() {
		if c.GroupID == "" && c.IsAvailableCommand() && c.Name() != "help" {
			manCommandOf(&b, c)
		}
	}
	b.WriteString(".SH EXAMPLES\n" + manExample(root.Example))
	b.WriteString(".SH EXIT STATUS\n.TP\n0\nIt went well.\n.TP\n1\nBad input, output that could not be written, or something that is not in the book: one sentence says what.\n" +
		".TP\n2\nWrong usage of the command line.\n.TP\n3\nNothing was written yet: a caution is to be answered first, or \\fBbook mend\\fR only showed what it would do.\n")
	b.WriteString(".SH ENVIRONMENT\n.TP\nVATSIDE_HOME\nThe folder with vats, recipes and settings.\n" +
		".TP\nNO_COLOR\nNothing is painted, also by CLICOLOR=0; CLICOLOR_FORCE and FORCE_COLOR paint where the terminal is not known.\n" +
		".TP\nLC_ALL, LC_CTYPE, LANG\nWithout UTF\\-8 in them the screens are drawn with plain letters.\n")
	return b.String()
}

// manCommandOf adds a command and those below it.
func manCommandOf(b *strings.Builder, c *cobra.Command) {
	if c.Runnable() {
		fmt.Fprintf(b, ".SS %s\n", roff(c.UseLine()))
		text := cmp.Or(c.Long, c.Short+".")
		b.WriteString(roffText(text) + manFlags(c.NonInheritedFlags()) + manExample(c.Example))
	}
	for _, sub := range c.Commands() {
		if sub.IsAvailableCommand() {
			manCommandOf(b, sub)
		}
	}
}

// manFlags are flags with what they take and mean.
func manFlags(flags *pflag.FlagSet) string {
	var b strings.Builder
	flags.VisitAll(func(f *pflag.Flag) {
		if f.Hidden || f.Name == "help" || f.Name == "version" {
			return
		}
		takes, means := pflag.UnquoteUsage(f)
		fmt.Fprintf(&b, ".TP\n\\fB%s\\fR", roff("--"+f.Name))
		if takes != "" {
			fmt.Fprintf(&b, " \\fI%s\\fR", roff(takes))
		}
		b.WriteString("\n" + roffText(wording.Sentence(means)))
	})
	return b.String()
}

// manExample is lines as they are typed.
func manExample(lines string) string {
	if lines == "" {
		return ""
	}
	var b strings.Builder
	b.WriteString(".PP\n.nf\n")
	for line := range strings.Lines(lines) {
		b.WriteString(roffLine(strings.TrimRight(line, "\n")))
	}
	return b.String() + ".fi\n"
}

// roffText is paragraphs; an empty line parts them.
func roffText(text string) string {
	var b strings.Builder
	for line := range strings.Lines(strings.TrimSpace(text)) {
		if line = strings.TrimSpace(line); line == "" {
			b.WriteString(".PP\n")
			continue
		}
		b.WriteString(roffLine(line))
	}
	return b.String()
}

// roffLine is a line of text; a dot or a quote at its start would be a macro.
func roffLine(line string) string {
	if strings.HasPrefix(line, ".") || strings.HasPrefix(line, "'") {
		line = `\&` + roff(line)
	} else {
		line = roff(line)
	}
	return line + "\n"
}

// roff is text in which nothing is a command of roff; a hyphen stays one that can be copied.
var roff = strings.NewReplacer(`\`, `\e`, "-", `\-`).Replace
