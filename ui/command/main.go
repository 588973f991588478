package command

import (
	"cmp"
	"context"
	_ "embed"
	"errors"
	"fmt"
	"io/fs"
	"runtime"
	"runtime/debug"
	"slices"
	"strings"
	"sync"

	"github.com/spf13/cobra"

	"example.org/vatside/model/wording"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/guard"
	"example.org/vatside/ui/rehearse"
	"example.org/vatside/ui/shelf"
)

// Main runs one command line and gives the exit code: 1 also where its output could not be written.
func Main(args []string, w World) int {
	if w.Getenv == nil {
		w.Getenv = func(string) string { return "" }
	}
	if w.Now == nil {
		w.Now = engine.Machine{}.Wall
	}
	if w.Sparing == nil {
		w.Sparing = func() {}
	}
	cobra.MousetrapHelpText = "" // a double-click opens the program too
	p := &program{atTerminal: terminal(w.In) && terminal(w.Out), bell: w.Out}
	shut := doors(&p.haste, &w.Out, &w.Err)
	p.World = w
	code := p.main(args)
	if err := shut(); err != nil && (code == 0 || code == 3) {
		if path := (*fs.PathError)(nil); errors.As(err, &path) {
			err = path.Err
		}
		fmt.Fprintf(p.Err, "vatside: not all of the output could be written: %s; what was done stays done\n", wording.OneLine(err))
		return 1
	}
	return code
}

// main obeys a command line, tells what is wrong, and gives the exit code.
func (p *program) main(args []string) int {
	guard.Forget()
	var crash struct { // parts of the program may fail at the same time
		sync.Mutex
		report string
	}
	guard.Reports(func(c guard.Crash) {
		crash.Lock()
		defer crash.Unlock()
		crash.report = p.reported(c)
	})
	defer guard.Reports(nil)
	err := fitArguments(args)
	if err == nil {
		if c := guard.Try("command", func() { err = p.obey(args) }); c != nil {
			guard.End(*c)
		}
	}
	if c, failed := guard.Why(); failed {
		crash.Lock()
		defer crash.Unlock()
		fmt.Fprintf(p.Err, "vatside: %s\n", crashed(c, err, crash.report))
		return 1
	}
	var usage usageError
	var exit exitCode
	switch {
	case err == nil:
		return 0
	case errors.As(err, &exit):
		return int(exit)
	case errors.Is(err, errTold):
		return 1
	case errors.As(err, &usage):
		fmt.Fprintf(p.Err, "vatside: %s\n", strings.ReplaceAll(firstLine(err.Error())+"; see "+p.asked+" --help", "?; see", "? See"))
		return 2
	}
	fmt.Fprintf(p.Err, "vatside: %s\n", wording.OneLine(err))
	return 1
}

// obey carries out one command line. Without a word in it there is nothing to look for among the commands, which take a third
// of a millisecond to set up.
func (p *program) obey(args []string) error {
	if len(args) == 0 {
		err := through(p.open)
		p.opened.KeepIndex()
		return err
	}
	root := p.root()
	root.SetArgs(notFlags(root, args))
	c, err := root.ExecuteC()
	p.asked = strings.TrimSuffix(c.CommandPath(), " help")
	p.opened.KeepIndex()
	return err
}

// notFlags sets a space before an argument of a command such as "-20 g", which is no flag; what a flag is given stays as it is.
func notFlags(root *cobra.Command, args []string) []string {
	c, _, err := root.Find(args)
	if err != nil || c == root {
		return args
	}
	args = slices.Clone(args)
	for i, a := range args {
		if a == "--" {
			return args
		}
		if len(a) > 1 && a[0] == '-' && '0' <= a[1] && a[1] <= '9' && (i == 0 || !takesNext(c, args[i-1])) {
			args[i] = " " + a
		}
	}
	return args
}

// takesNext tells whether an argument is a flag of a command whose value is the next argument.
func takesNext(c *cobra.Command, arg string) bool {
	name, is := strings.CutPrefix(arg, "--")
	f := c.Flag(name)
	return is && f != nil && f.NoOptDefVal == ""
}

func (p *program) root() *cobra.Command {
	root := &cobra.Command{
		Use:           "vatside",
		Short:         "The clock, the numbers and the book beside an indigo vat",
		Args:          usage(cobra.NoArgs),
		SilenceUsage:  true,
		SilenceErrors: true,

		PersistentPreRunE: noEmptyFlag,
	}
	// Not cobra's Version: its template makes the linker keep every method of every type, 1 to 2 MB of them.
	told := root.Flags().BoolP("version", "v", false, "version for vatside")
	root.RunE = func(*cobra.Command, []string) error {
		if *told {
			_, err := fmt.Fprintln(p.Out, version())
			return err
		}
		return through(p.open)
	}
	root.SetIn(p.In)
	root.SetOut(p.Out)
	root.SetErr(p.Err)
	root.SetFlagErrorFunc(flagError)
	root.PersistentFlags().StringVar(&p.home, "home", "", "`folder` with vats, recipes and settings (else VATSIDE_HOME, else the usual place)")
	root.Flags().BoolVar(&p.plain, "plain", false, "follow the open day line by line: for screen readers, pipes and simple terminals")
	for _, g := range p.groups() {
		root.AddGroup(&cobra.Group{ID: g.title, Title: g.title + ":"})
		for _, c := range g.commands {
			c.GroupID = g.title
			root.AddCommand(c)
		}
	}
	root.AddCommand(manCommand())
	root.SetHelpCommand(helpCommand())
	texts := map[string]string{}
	for _, part := range strings.Split(helpText, "== ")[1:] {
		path, text, _ := strings.Cut(part, "\n")
		texts[path] = text
	}
	explain(root, texts)
	p.complete(root)
	root.InitDefaultCompletionCmd()
	if c, _, err := root.Find([]string{"completion"}); err == nil {
		c.Args, c.RunE = usage(cobra.NoArgs), func(c *cobra.Command, _ []string) error { return c.Help() }
		for _, shell := range c.Commands() {
			shell.Args = usage(cobra.NoArgs)
		}
	}
	return root
}

// helpText is what is said of the commands: of each "== " and its path, the text, and behind "--" examples.
//
//go:embed help.txt
var helpText string

// explain gives a command and those below it their texts. One that makes its text itself keeps it.
func explain(c *cobra.Command, texts map[string]string) {
	long, example, _ := strings.Cut(texts[c.CommandPath()], "--\n")
	c.Long, c.Example = cmp.Or(c.Long, strings.TrimSpace(long)), cmp.Or(c.Example, strings.TrimRight(example, "\n"))
	for _, sub := range c.Commands() {
		explain(sub, texts)
	}
}

// group is commands that serve the same part of the work, under a title in the root's help.
type group struct {
	title    string
	commands []*cobra.Command
}

func (p *program) groups() []group {
	return []group{
		{"A day", []*cobra.Command{p.beginCommand(), p.sayCommand(), p.nowCommand(), p.rehearseCommand()}},
		{"Before and after", []*cobra.Command{p.prepareCommand(), p.weighCommand(), p.warmCommand(), p.finishCommand(), p.stockCommand()}},
		{"The vat", []*cobra.Command{p.signsCommand(), p.careCommand(), p.reckonCommand(), p.recipesCommand()}},
		{"Pieces and their blue", []*cobra.Command{p.dipsCommand(), p.lookCommand(), p.loadCommand(), p.likeCommand()}},
		{"The book", []*cobra.Command{p.bookCommand(), p.costCommand(), p.sheetCommand(), p.settingsCommand()}},
		{"To read", []*cobra.Command{p.guideCommand()}},
	}
}

// helpCommand is cobra's, but an unknown topic is wrong usage.
func helpCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "help [command]",
		Short: "Help on a command",
		Args:  usage(cobra.ArbitraryArgs),
		RunE: func(c *cobra.Command, args []string) error {
			found, rest, err := c.Root().Find(args)
			if err != nil || found == nil || len(rest) > 0 {
				return usageError{fmt.Errorf("there is no command %q%s", strings.Join(args, " "), nearest(c.Root(), strings.Join(args, " ")))}
			}
			found.InitDefaultHelpFlag()
			return found.Help()
		},
	}
}

// open is `vatside` alone.
func (p *program) open() error {
	h := got(p.shelf())
	switch {
	case p.plain:
		return p.follow(h)
	case p.canDraw():
		for {
			p.haste.arm()
			err := p.Screens(Screens{Home: h, Err: p.Err, Hurry: p.haste.begin})
			if p.workshop = errors.Is(err, rehearse.ErrClassWanted); !p.workshop && !errors.Is(err, rehearse.ErrWanted) {
				return err
			}
			if err := p.aside(func(h shelf.Home) error { return p.rehearseDay(h, heardSpeed, "soda") }); err != nil || p.haste.began() {
				return err
			}
		}
	}
	return p.tellAll(h)
}

// reported writes a crash down beside the book and gives the path; empty where that is not to be had.
func (p *program) reported(c guard.Crash) string {
	h, err := p.shelf()
	if err != nil {
		return ""
	}
	now := p.Now()
	text := fmt.Sprintf("%s, %s, %s/%s\n%s\n%s\n\n%s", version(), runtime.Version(), runtime.GOOS, runtime.GOARCH,
		now.Format("2006-01-02 15:04:05 -07:00"), c.Error(), c.Stack)
	path, err := h.Report(now, []byte(text))
	return wording.If(err == nil, path)
}

// crashed is the sentence with which a program ends for its own fault. err is what came of the acts that were under way.
func crashed(c guard.Crash, err error, report string) string {
	stand := cmp.Or(remains(err), "All that was done is on disk")
	s := fmt.Sprintf("%s ended it. %s; start vatside again to go on.", c.Error(), stand)
	s += wording.If(report != "", " A report without your data is in "+report+".")
	return s
}

// remains is what an error says besides that the program had to end: where acts lie that are not in the book.
func remains(err error) string {
	if all, is := err.(interface{ Unwrap() []error }); is {
		for _, err := range all.Unwrap() {
			if s := remains(err); s != "" {
				return s
			}
		}
		return ""
	}
	if err == nil || errors.Is(err, engine.ErrGone) || errors.Is(err, context.Canceled) || errors.Is(err, errTold) {
		return ""
	}
	return strings.TrimSuffix(firstLine(err.Error()), ".")
}

// Version is the program's, by semantic versioning 2.0.0: the commands' flags, the JSON keys and the files are its interface.
const Version = "0.9.0"

// version is the version and, where the build knows it, the commit; "changed" where the source was not as committed.
func version() string {
	v := "vatside " + Version
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return v
	}
	commit, changed := "", ""
	for _, s := range info.Settings {
		switch {
		case s.Key == "vcs.revision":
			commit = s.Value
		case s.Key == "vcs.modified" && s.Value == "true":
			changed = ", changed"
		}
	}
	return v + wording.If(commit != "", " ("+commit[:min(len(commit), 12)]+changed+")")
}
