// Package ui is the root of the screens: it holds the window, the stack of screens and the one help page, hands keys to
// the screen on top, and turns what screens want into commands. It knows no dyeing.
package ui

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"syscall"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"example.org/vatside/model/day"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/cue"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/guard"
	"example.org/vatside/ui/shelf"
	"example.org/vatside/ui/style"
)

// Options are what a program is started with.
type Options struct {
	Home      shelf.Home
	Getenv    func(string) string
	Output    *os.File
	Err       io.Writer  // where it is said, once the screens are gone, what of the acts is not in the files of their days
	Hurry     func()     // called once a signal or a crash ends it: then Err is not waited for long; nil: nothing is to be called
	Rehearsal *Rehearsal // nil: a real day
}

// Rehearsal plays an invented day inside the screens.
type Rehearsal struct {
	Vat, Day string // an open rehearsed day on Home
	Speed    float64
}

// Run shows the program until it is quit, a signal ends it or it fails (guard.Why). The error tells of acts that are on no disk.
func Run(o Options) error {
	ctx, stop := context.WithCancel(context.Background())
	defer stop()
	var out io.Writer
	if o.Output != nil {
		out = o.Output
	}
	player := cue.New(cue.Settings{}, o.Home, out)
	defer player.Close()
	eng := engine.New(engine.Machine{}, shelf.BootID(), player)
	parted := eng.Start(ctx)

	h := hands{ctx: ctx, eng: eng, home: o.Home, player: player, rehearsal: o.Rehearsal, beginning: make(beginning, 3), cares: &cares{}, looks: &looks{}}
	guard.Go("home", h.readHome)
	m := newModel(o, shelf.Defaults(), h)
	m.snap.Wall = engine.Machine{}.Wall()
	soon, cancel := context.WithTimeout(ctx, patience)
	m, m.first = m.begun(soon)
	cancel()
	opts := []tea.ProgramOption{tea.WithAltScreen(), tea.WithMouseCellMotion(), tea.WithoutSignalHandler()}
	if o.Output != nil {
		opts = append(opts, tea.WithOutput(o.Output))
	}
	p := tea.NewProgram(guarded{m}, opts...)
	// The courier: the engine never waits for the screens, only this goroutine does.
	guard.Go("courier", func() {
		title := ""
		for {
			select {
			case s := <-eng.Mail():
				if t := titleOf(s); t != title {
					title = t
					player.Title(wording.Show(t))
				}
				p.Send(snapshotMsg(s))
			case <-ctx.Done():
				return
			}
		}
	})
	return o.show(p, stop, parted)
}

// closing is how long a terminal may take to show its own screen again: one that has stopped reading never does.
const closing = time.Second

// show runs the screens to their end, then the engine to its own. A signal or a crash ends the engine first: the acts come
// before the screen.
func (o Options) show(p *tea.Program, stop func(), parted <-chan engine.Parting) error {
	signals := make(chan os.Signal, 1)
	signal.Notify(signals, os.Interrupt, syscall.SIGTERM, syscall.SIGHUP, syscall.SIGQUIT)
	defer signal.Stop(signals)
	tty := keepTerminal()
	ran := make(chan error, 1)
	var ended error
	guard.GoThen("screens", func() { _, ended = p.Run() }, func(c *guard.Crash) {
		if c != nil {
			guard.End(*c)
		}
		ran <- ended
	})
	var err error
	var left engine.Parting
	select {
	case err = <-ran:
		stop()
		left = <-parted
	case <-signals:
		left, err = o.cut(p, stop, parted, ran, tty)
	case <-guard.Fatal():
		left, err = o.cut(p, stop, parted, ran, tty)
	}
	if errors.Is(err, tea.ErrProgramKilled) {
		err = nil
	}
	switch words := left.Words(); {
	case left.Lost():
		return errors.Join(err, errors.New(words))
	case words != "" && o.Err != nil:
		fmt.Fprintf(o.Err, "vatside: %s\n", words)
	}
	return err
}

// cut ends the engine and then the screens, though they may hang.
func (o Options) cut(p *tea.Program, stop func(), parted <-chan engine.Parting, ran <-chan error, tty terminal) (engine.Parting, error) {
	if o.Hurry != nil {
		o.Hurry()
	}
	stop()
	left := <-parted
	guard.Go("screens' end", p.Kill)
	soon, cancel := context.WithTimeout(context.Background(), closing)
	defer cancel()
	select {
	case err := <-ran:
		return left, err
	case <-soon.Done():
		tty.restore(o.Output)
		return left, nil
	}
}

// titleOf is what the window is called: what the hands do next, so that it can be read off the task bar.
func titleOf(s engine.Snapshot) string {
	for _, v := range s.Days {
		if v.State.Closed {
			continue
		}
		a := day.Next(v.State, v.Now)
		left, over := a.Left(v.Now)
		switch {
		case a.Due == nil:
			return a.Words
		case over > 0:
			return a.Words + " now"
		}
		return fmt.Sprintf("%s in %d min", a.Words, int(left.Minutes())+1)
	}
	return "vatside"
}

// styleFor is the style of the terminal at hand. The ground is dark unless the terminal says otherwise in COLORFGBG or
// the dyer has chosen a theme: a question to the terminal could go unanswered for seconds.
func styleFor(theme string, getenv func(string) string) style.Style {
	o := style.Options{Theme: style.DarkTheme, Profile: style.ProfileOf(getenv), ASCII: style.WantsASCII(getenv)}
	switch theme {
	case "light", "dark", "sun":
		o.Theme, o.PaintGround = style.Theme(theme), true // chosen by the dyer, whatever ground the terminal has
	default:
		if light(getenv("COLORFGBG")) {
			o.Theme = style.LightTheme
		}
	}
	return style.New(o)
}

// light tells whether COLORFGBG ("15;0", foreground;background) names a light background.
func light(fgbg string) bool {
	if fgbg == "" {
		return false
	}
	bg := fgbg
	for i := len(fgbg) - 1; i >= 0; i-- {
		if fgbg[i] == ';' {
			bg = fgbg[i+1:]
			break
		}
	}
	return bg == "7" || bg == "15"
}
