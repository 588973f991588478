// Package command holds the headless commands, and opens the screens when there is a terminal for them.
//
// The rules: what was asked for goes to stdout; what is wrong goes to stderr in one sentence. Wrong usage ends with 2; bad
// input, or output that cannot be written, with 1; a book mend that only shows what it would do with 3, and so does what a say
// wants answered first. The keys of --json are a contract. In a home only rehearse, --plain, begin, say, book import, book mend
// --yes and the acts of stock (add, open, weigh, test, gone, undo) write, and none writes over anything but book mend, which keeps
// the old file; book export and sheet make files where they are told.
package command

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"runtime/debug"
	"slices"
	"strings"
	"sync"
	"time"

	"github.com/charmbracelet/x/term"
	"github.com/spf13/cobra"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/guard"
	"example.org/vatside/ui/shelf"
)

// World is all that the commands touch besides their arguments.
type World struct {
	In       io.Reader
	Out, Err io.Writer
	Getenv   func(string) string
	Now      func() time.Time    // the wall clock, in the local zone; nil: the machine's
	Screens  func(Screens) error // opens the screens; nil where there are none
}

// Screens is how the screens are opened.
type Screens struct {
	Home     shelf.Home
	Vat, Day string    // the open rehearsed day that plays inside; empty: none
	Speed    float64   // of the rehearsal
	Err      io.Writer // for what is said once they are closed
	Hurry    func()    // to be called once a signal or a crash ends them: then Err is not waited for long
}

// usageError is wrong usage of the command line.
type usageError struct{ error }

// exitCode ends a run that went well with a code of its own.
type exitCode int

// Error is for the interface alone: it is not printed.
func (e exitCode) Error() string { return fmt.Sprintf("exit %d", int(e)) }

// errTold is a failure of which everything was said already.
var errTold = errors.New("told")

// program is one run.
type program struct {
	World
	atTerminal bool   // input and output are one
	home       string // --home
	plain      bool
	json       bool

	workshop bool // rehearse a workshop

	warnings []string // those that were told
	haste    haste
}

// Main runs one command line and gives the exit code: 1 also where its output could not be written.
func Main(args []string, w World) int {
	if w.Getenv == nil {
		w.Getenv = func(string) string { return "" }
	}
	if w.Now == nil {
		w.Now = engine.Machine{}.Wall
	}
	cobra.MousetrapHelpText = "" // a double-click opens the program too
	p := &program{atTerminal: terminal(w.In) && terminal(w.Out)}
	shut := w.doors(&p.haste)
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
		fmt.Fprintf(p.Err, "vatside: %s; see vatside --help\n", firstLine(err.Error()))
		return 2
	}
	fmt.Fprintf(p.Err, "vatside: %s\n", wording.OneLine(err))
	return 1
}

// obey carries out one command line. Without a word in it there is nothing to look for among the commands, which take a third
// of a millisecond to set up.
func (p *program) obey(args []string) error {
	if len(args) == 0 {
		return p.open()
	}
	root := p.root()
	root.SetArgs(args)
	root.SetIn(p.In)
	root.SetOut(p.Out)
	root.SetErr(p.Err)
	return root.Execute()
}

// firstLine drops what cobra adds below its message.
func firstLine(s string) string {
	s, _, _ = strings.Cut(strings.TrimSpace(s), "\n")
	return s
}

func (p *program) root() *cobra.Command {
	root := &cobra.Command{
		Use:   "vatside",
		Short: "The clock, the numbers and the book beside an indigo vat",
		Long: "vatside leads you through building an indigo vat, times dips and airings, and keeps each vat's book.\n" +
			"Without a command it opens; without a terminal it says in sentences how things stand.",
		Args:          usage(cobra.NoArgs),
		SilenceUsage:  true,
		SilenceErrors: true,
		Version:       version(),

		PersistentPreRunE: p.homeNamed,
		RunE:              func(*cobra.Command, []string) error { return p.open() },
	}
	root.CompletionOptions.DisableDefaultCmd = true
	root.SetVersionTemplate("{{.Version}}\n")
	root.SetFlagErrorFunc(flagError)
	root.PersistentFlags().StringVar(&p.home, "home", "", "`folder` with vats, recipes and settings (else VATSIDE_HOME, else the usual place)")
	root.Flags().BoolVar(&p.plain, "plain", false, "follow the open day line by line: for screen readers, pipes and simple terminals")
	root.AddCommand(p.recipesCommand(), p.weighCommand(), p.warmCommand(), p.loadCommand(), p.reckonCommand(),
		p.rehearseCommand(), p.nowCommand(), p.bookCommand(), p.dipsCommand(), p.likeCommand(), p.signsCommand(),
		p.prepareCommand(), p.finishCommand(), p.stockCommand(), p.sheetCommand(), p.costCommand(), p.careCommand(),
		p.beginCommand(), p.sayCommand())
	root.SetHelpCommand(helpCommand())
	return root
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
				return usageError{fmt.Errorf("there is no command %q", strings.Join(args, " "))}
			}
			found.InitDefaultHelpFlag()
			return found.Help()
		},
	}
}

// usage makes a wrong number of arguments wrong usage.
func usage(check cobra.PositionalArgs) cobra.PositionalArgs {
	return func(c *cobra.Command, args []string) error {
		if err := check(c, args); err != nil {
			if strings.HasPrefix(err.Error(), "accepts") || strings.HasPrefix(err.Error(), "requires") { // cobra counts; the dyer wants to know what
				given := wording.Counted(len(args), "argument") + " were given"
				switch len(args) {
				case 0:
					given = "nothing was given"
				case 1:
					given = "only " + args[0] + " was given"
				}
				err = fmt.Errorf("write it as %s; %s", strings.TrimSuffix(c.UseLine(), " [flags]"), given)
			}
			return usageError{err}
		}
		return nil
	}
}

// emptyFlag is a flag that is there with nothing in it: not one that is left out.
func emptyFlag(flag string) error {
	return usageError{fmt.Errorf("%s is given with nothing in it", flag)}
}

// needed makes missing flags wrong usage, and names them.
func needed(c *cobra.Command, what string, flags ...string) error {
	var missing []string
	for _, n := range flags {
		switch f := c.Flags().Lookup(n); {
		case !f.Changed:
			missing = append(missing, "--"+n)
		case strings.TrimSpace(f.Value.String()) == "":
			return emptyFlag("--" + n)
		}
	}
	if len(missing) == 0 {
		return nil
	}
	return usageError{fmt.Errorf("%s needs %s", what, wording.List(missing))}
}

// version is the program's, as the build knows it.
func version() string {
	v := "(devel)"
	if info, ok := debug.ReadBuildInfo(); ok && info.Main.Version != "" {
		v = info.Main.Version
	}
	return "vatside " + v
}

// jsonFlag gives a command --json.
func (p *program) jsonFlag(c *cobra.Command) { c.Flags().BoolVar(&p.json, "json", false, "as JSON") }

// asJSON prints a value as JSON.
func (p *program) asJSON(v any) error {
	e := json.NewEncoder(p.Out)
	e.SetIndent("", "  ")
	e.SetEscapeHTML(false)
	return e.Encode(v)
}

// say prints one line on stdout, whatever line breaks the texts in it have.
func (p *program) say(format string, a ...any) {
	fmt.Fprintln(p.Out, wording.Show(fmt.Sprintf(format, a...)))
}

// warn prints a line on stderr for each error and goes on; the same one once a run.
func (p *program) warn(errs ...error) {
	for _, err := range errs {
		if err == nil {
			continue
		}
		line := wording.OneLine(err)
		if !slices.Contains(p.warnings, line) {
			p.warnings = append(p.warnings, line)
			fmt.Fprintf(p.Err, "vatside: %s\n", line)
		}
	}
}

// shelf is the dyer's home.
func (p *program) shelf() (shelf.Home, error) {
	dir, err := shelf.Locate(p.home, p.Getenv("VATSIDE_HOME"))
	if err != nil {
		return shelf.Home{}, err
	}
	h := shelf.At(dir, p.Now)
	return h, h.Check()
}

// units is the system of units: as asked for, else as set.
func (p *program) units(flag string) (quantity.System, error) {
	if flag != "" {
		if !slices.Contains([]string{"metric", "us", "imperial"}, flag) {
			return quantity.Metric, fmt.Errorf("--units is metric, us or imperial, not %q", flag)
		}
		return quantity.ParseSystem(flag)
	}
	h, err := p.shelf()
	if err != nil {
		return quantity.Metric, nil
	}
	s, err := h.Settings()
	p.warn(err)
	return quantity.ParseSystem(s.Units)
}

// terminal tells whether a stream is one.
func terminal(stream any) bool {
	f, ok := stream.(interface{ Fd() uintptr })
	return ok && term.IsTerminal(f.Fd())
}

// canDraw tells whether the screens can be shown.
func (p *program) canDraw() bool {
	return p.Screens != nil && p.atTerminal && p.Getenv("TERM") != "dumb"
}

// open is `vatside` alone.
func (p *program) open() error {
	h, err := p.shelf()
	switch {
	case err != nil:
		return err
	case p.plain:
		return p.follow(h)
	case p.canDraw():
		p.haste.arm()
		return p.Screens(Screens{Home: h, Err: p.Err, Hurry: p.haste.begin})
	}
	return p.tellAll(h)
}
