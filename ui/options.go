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
	"sync"
	"sync/atomic"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"example.org/vatside/model/day"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/cue"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/guard"
	"example.org/vatside/ui/library"
	"example.org/vatside/ui/shelf"
	"example.org/vatside/ui/terminal"
)

// Options are what a program is started with.
type Options struct {
	Home      shelf.Home
	Getenv    func(string) string
	Input     *os.File // both of a terminal
	Output    *os.File
	Err       io.Writer  // where it is said, once the screens are gone, what of the acts is not in the files of their days
	Hurry     func()     // called once a signal or a crash ends it, or its terminal is gone: then Err is not waited for long; nil: nothing is to be called
	Rehearsal *Rehearsal // nil: a real day
}

// Rehearsal plays an invented day inside the screens.
type Rehearsal struct {
	Vat, Day string // an open rehearsed day on Home, which is shown; those of its date play with it
	Speed    float64

	once  sync.Once
	clock *engine.Playing // of all its days
}

// Run shows the program until it is quit, a signal ends it or it fails (guard.Why). The error tells of acts that are on no disk; it is
// rehearse.ErrWanted or ErrClassWanted where the dyer left for a rehearsal.
func Run(o Options) error {
	ctx, stop := context.WithCancel(context.Background())
	defer stop()
	player := cue.New(cue.Settings{}, o.Home, o.Output)
	defer player.Close()
	cries := &crier{Player: player}
	var awake cue.Awake
	defer awake.Close()
	eng := engine.New(engine.Machine{}, shelf.BootID(), cries)
	eng.Advise(0) // it takes a tenth of a second of both processors
	parted := eng.Start(ctx)

	h := effects{
		asks: &cautions{}, wanted: new(atomic.Pointer[error]),
		ctx: ctx, eng: eng, home: o.Home, player: player, cries: cries, rehearsal: o.Rehearsal, beginning: make(beginning, 3),
		cares: &library.Cares{}, looks: &looks{}, grounds: shelf.TerminalGrounds(),
	}
	var procs processors
	defer procs.wake()
	guard.Go("home", func() {
		h.readHome()
		procs.start()
	})
	signals := make(chan os.Signal, 1) // from before the terminal is touched
	signal.Notify(signals, deadly()...)
	defer signal.Stop(signals)
	tty, err := terminal.Open(o.Input, o.Output, engine.Machine{})
	if err != nil {
		return fmt.Errorf("the terminal cannot be used: %w", err)
	}
	defer tty.Close() // where what follows panics
	if o.Getenv != nil {
		tty.Knows(o.Getenv)
		cries.notifies(tty.Notify)
	}
	m := newModel(o, shelf.Defaults(), h)
	m.width, m.height = tty.Size()
	m.snap.Wall = engine.Machine{}.Wall()
	soon, cancel := context.WithTimeout(ctx, patience)
	m, m.first = m.begun(soon)
	cancel()
	whole, isWhole := context.WithTimeout(ctx, secondPatience)
	defer isWhole()
	screens := onTerminal{guarded: guarded{m}, tty: tty, shown: isWhole}.asks()
	p := tea.NewProgram(screens, tea.WithoutRenderer(), tea.WithInput(nil), tea.WithOutput(io.Discard), tea.WithoutSignalHandler())
	if err := tty.Start(func(msg tea.Msg) { procs.wake(); p.Send(msg) }); err != nil {
		return fmt.Errorf("the terminal cannot be read: %w", err)
	}
	// The courier: the engine never waits for the screens, only this goroutine does.
	guard.Go("courier", func() {
		title, why, was := "", "", engine.Snapshot{}
		keep := func() { // it starts a program
			awake.Keep(timed(was))
			if now := awake.Why(); now != "" && now != why { // told once
				why = now
				p.Send(sleepyMsg{})
			}
		}
		first := whole.Done()
		for {
			select {
			case s := <-eng.Mail():
				procs.quiet()
				if s.Stands(was) {
					continue
				}
				was = s
				tty.Reverse(cries.reverses(s))
				if t := titleOf(s); t != title {
					title = t
					tty.Title(wording.Show(t))
				}
				p.Send(snapshotMsg(s))
				if first == nil { // else behind it
					keep()
				}
			case <-first:
				first = nil
				eng.Advise(engine.Fully)
				keep()
			case <-ctx.Done():
				return
			}
		}
	})
	cut, err := o.show(p, tty, signals, stop, parted)
	m.boards.leave(o.Home, engine.Machine{}.Wall())
	if wanted := h.wanted.Load(); err == nil && !cut && wanted != nil {
		return *wanted
	}
	return err
}

// onTerminal is the root whose screens are painted by the terminal's own painter, not by bubbletea.
type onTerminal struct {
	guarded
	tty   *terminal.Terminal
	theme *string // the setting for which it was settled last whether the terminal is asked; nil: for none
	shown func()  // is called once the first frame of the whole home is written; nil: it was
}

func (p onTerminal) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	if p.whole() {
		p.shown = nil
	}
	var cmd tea.Cmd
	p.guarded, cmd = p.guarded.update(msg)
	return p.asks(), cmd
}

// asks has the terminal asked for its ground where that decides the ink.
func (p onTerminal) asks() onTerminal {
	theme := p.home.Settings.Theme
	if p.theme != nil && *p.theme == theme {
		return p
	}
	if asksGround(theme, p.getenv) {
		p.tty.AskGround()
	}
	p.theme = &theme
	return p
}

func (p onTerminal) View() string {
	p.tty.Paint(p.lines(), p.width, p.height)
	if p.shown != nil && p.whole() {
		p.tty.Behind(p.shown)
	}
	return ""
}

// closing is how long screens that hang may hold up the end.
const closing = time.Second

// show runs the screens to their end, then the engine to its own. A signal, a crash or a terminal that is gone ends the engine
// first: the acts come before the screen.
// cut tells that it was not left by the dyer.
func (o Options) show(p *tea.Program, tty *terminal.Terminal, signals <-chan os.Signal, stop func(), parted <-chan engine.Parting) (cut bool, err error) {
	ran := make(chan error, 1)
	var ended error
	guard.GoThen("screens", func() { _, ended = p.Run() }, func(c *guard.Crash) {
		if c != nil {
			guard.End(*c)
		}
		ran <- ended
	})
	var left engine.Parting
	select {
	case err = <-ran:
		tty.Close()
		stop()
		left = <-parted
	case <-signals:
		cut = true
	case <-guard.Fatal():
		cut = true
	case <-tty.Gone():
		cut = true
	}
	if cut {
		left, err = o.cut(p, tty, stop, parted, ran)
	}
	if errors.Is(err, tea.ErrProgramKilled) {
		err = nil
	}
	switch words := left.Words(); {
	case left.Lost():
		return cut, errors.Join(err, errors.New(words))
	case words != "" && o.Err != nil:
		fmt.Fprintf(o.Err, "vatside: %s\n", words)
	}
	return cut, err
}

// cut ends the engine, then the screens, though they may hang, and gives the terminal back.
func (o Options) cut(p *tea.Program, tty *terminal.Terminal, stop func(), parted <-chan engine.Parting, ran <-chan error) (engine.Parting, error) {
	tty.Ending()
	if o.Hurry != nil {
		o.Hurry()
	}
	stop()
	left := <-parted
	defer tty.Close()
	guard.Go("screens' end", p.Kill)
	soon, cancel := context.WithTimeout(context.Background(), closing)
	defer cancel()
	select {
	case err := <-ran:
		return left, err
	case <-soon.Done():
		return left, nil
	}
}

// titleOf is what the window is called: the call that rules, so that it can be read off the task bar, with its vat where several
// days are open. A day that is only looked at is told where there is no other.
func titleOf(s engine.Snapshot) string {
	var rules day.Call
	var of *engine.View
	open := 0
	for i := range s.Days {
		v := &s.Days[i]
		if v.State.Closed {
			continue
		}
		c := v.Call()
		if open++; open == 1 || of.Looking && !v.Looking || of.Looking == v.Looking && c.Compare(rules) < 0 {
			rules, of = c, v
		}
	}
	switch open {
	case 0:
		return "vatside"
	case 1:
		return rules.Glance(of.Now)
	}
	return vatName(*of) + ": " + rules.Glance(of.Now)
}

// begun is the root with what of the home can be read before soon ends, and what is to be done then. It goes on as soon as there
// is something to show.
func (m model) begun(soon context.Context) (model, tea.Cmd) {
	m.reading, m.home.Coming = true, -1
	for m.reading {
		select {
		case msg := <-m.effects.beginning:
			next, cmd := m.Update(msg)
			m = next.(model)
			if g, is := msg.(glanceMsg); !m.reading || is && (len(g.vats) > 0 || g.of == 0) {
				return m, cmd
			}
		case <-soon.Done():
			return m, m.effects.next()
		}
	}
	return m, nil
}
