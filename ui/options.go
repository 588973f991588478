// Package ui is the root of the screens: it holds the window, the stack of screens and the one help page, hands keys to
// the screen on top, and turns what screens want into commands. It knows no dyeing.
package ui

import (
	"context"
	"fmt"
	"io"
	"os"

	tea "github.com/charmbracelet/bubbletea"

	"example.org/vatside/model/day"
	"example.org/vatside/ui/cue"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/shelf"
	"example.org/vatside/ui/style"
)

// Options are what a program is started with.
type Options struct {
	Home      shelf.Home
	Getenv    func(string) string
	Output    *os.File
	Rehearsal *Rehearsal // nil: a real day
}

// Rehearsal plays an invented day inside the screens.
type Rehearsal struct {
	Vat, Day string // an open rehearsed day on Home
	Speed    float64
}

// Run shows the program until it is quit.
func Run(o Options) error {
	ctx, stop := context.WithCancel(context.Background())
	defer stop()
	settings, settingsErr := o.Home.Settings()
	var out io.Writer
	if o.Output != nil {
		out = o.Output
	}
	player := cue.New(cue.Settings(settings.Sound), o.Home, out)
	defer player.Close()
	eng := engine.New(engine.Machine{}, shelf.BootID(), player)
	done := make(chan struct{})
	go func() { eng.Run(ctx); close(done) }()

	m := newModel(o, settings, hands{ctx: ctx, eng: eng, home: o.Home, player: player, rehearsal: o.Rehearsal, cares: &cares{}, looks: &looks{}})
	if settingsErr != nil {
		m.word = settingsErr.Error()
	}
	opts := []tea.ProgramOption{tea.WithAltScreen(), tea.WithMouseCellMotion()}
	if o.Output != nil {
		opts = append(opts, tea.WithOutput(o.Output))
	}
	p := tea.NewProgram(m, opts...)
	// The courier: the engine never waits for the screens, only this goroutine does.
	go func() {
		title := ""
		for {
			select {
			case s := <-eng.Mail():
				if t := titleOf(s); t != title {
					title = t
					player.Title(t)
				}
				p.Send(snapshotMsg(s))
			case <-ctx.Done():
				return
			}
		}
	}()
	_, err := p.Run()
	stop()
	<-done
	return err
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
