// Package command holds the headless commands, and opens the screens when there is a terminal for them.
//
// The rules: what was asked for goes to stdout; what is wrong goes to stderr in one sentence. Wrong usage ends with 2; bad
// input, or output that cannot be written, with 1; a book mend that only shows what it would do with 3, and so does what a say
// wants answered first. The keys of --json are a contract. In a home only rehearse, --plain, begin, say, book import, book mend
// --yes and the acts of stock (add, open, weigh, test, gone, undo) write, and none writes over anything but book mend, which keeps
// the old file; book export and sheet make files where they are told.
package command

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"time"

	"github.com/charmbracelet/x/term"
	"github.com/spf13/cobra"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/library"
	"example.org/vatside/ui/shelf"
)

// World is all that the commands touch besides their arguments.
type World struct {
	In       io.Reader
	Out, Err io.Writer
	Getenv   func(string) string
	Now      func() time.Time    // the wall clock, in the local zone; nil: the machine's
	Screens  func(Screens) error // opens the screens; nil where there are none
	Sparing  func()              // before a whole home is read, day by day; nil: nothing
	Index    string              // the folder of the homes' indices (shelf.IndexFolder); empty: each day is read anew
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

type program struct {
	World
	atTerminal bool      // input and output are one
	bell       io.Writer // that terminal, past the door
	home       string    // --home
	plain      bool
	json       bool
	asked      string // the command that was carried out, with those it belongs to

	workshop bool // rehearse a workshop

	opened   shelf.Home // the dyer's, once it was asked for
	warnings []string   // those that were told
	haste    haste
}

// usage makes a wrong number of arguments wrong usage.
func usage(check cobra.PositionalArgs) cobra.PositionalArgs {
	return func(c *cobra.Command, args []string) error {
		if err := check(c, args); err != nil {
			if strings.HasPrefix(err.Error(), "unknown command") {
				err = fmt.Errorf("%w%s", err, nearest(c, args[0]))
			}
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

// nearest offers the commands whose names are like the word.
func nearest(c *cobra.Command, word string) string {
	c.SuggestionsMinimumDistance = 2
	near := wording.Either(word == "version", []string{"--version"}, c.SuggestionsFor(word))
	return wording.If(len(near) > 0, "; did you mean "+strings.Join(near, " or ")+"?")
}

func (p *program) jsonFlag(c *cobra.Command) { c.Flags().BoolVar(&p.json, "json", false, "print JSON") }

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

func (p *program) shelf() (shelf.Home, error) {
	dir, err := shelf.Locate(p.home, p.Getenv("VATSIDE_HOME"))
	if err != nil {
		return shelf.Home{}, err
	}
	if p.opened.Dir() != dir {
		p.opened = shelf.At(dir, p.Now).Indexed(p.Index)
	}
	return p.opened, p.opened.Check()
}

// asSet are the dyer's settings; the usual ones where there is no home to read them from.
func (p *program) asSet() shelf.Settings {
	h, err := p.shelf()
	if err != nil {
		return shelf.Defaults()
	}
	s, err := h.Settings()
	p.warn(err)
	return s
}

// units is the system of units: as asked for, else as set.
func (p *program) units(flag string) (quantity.System, error) {
	if flag != "" {
		if !slices.Contains([]string{"metric", "us", "imperial"}, flag) {
			return quantity.Metric, fmt.Errorf("--units is metric, us or imperial, not %q", flag)
		}
		return quantity.ParseSystem(flag)
	}
	return quantity.ParseSystem(p.asSet().Units)
}

// firstLine drops what cobra adds below its message.
func firstLine(s string) string {
	s, _, _ = strings.Cut(strings.TrimSpace(s), "\n")
	return s
}

// terminal tells whether a stream is one.
func terminal(stream any) bool {
	f, ok := stream.(interface{ Fd() uintptr })
	return ok && term.IsTerminal(f.Fd())
}

// columns is how wide the window of the output is; 0: nobody knows.
func (p *program) columns() int {
	f, is := p.bell.(interface{ Fd() uintptr })
	if !is {
		return 0
	}
	wide, _, _ := term.GetSize(f.Fd())
	return wide
}

// canDraw tells whether the screens can be shown.
func (p *program) canDraw() bool {
	return p.Screens != nil && p.atTerminal && p.Getenv("TERM") != "dumb"
}

// survey looks at all vats without a lock and without changing anything: open days first, the one whose call rules foremost. The call
// of a day of many pieces goes by a timetable, as when it is opened.
func (p *program) survey(h shelf.Home) ([]library.Day, error) {
	all, errs, err := library.Survey(h)
	p.warn(errs...)
	for i := range all {
		all[i].State, _ = engine.Advised(all[i].State)
	}
	return all, err
}

// noVat is what is said where survey found none.
func (p *program) noVat() string {
	return wording.Either(len(p.warnings) > 0, "No vat of the book can be read.", "No vat is in the book yet.")
}

// vatCalled is a vat at its own present, by its name or its folder's; of those that are ended only where they count.
func (p *program) vatCalled(name string, ended bool) library.Day {
	return got(library.Called(got(p.survey(got(p.shelf()))), name, ended))
}
