package ui

import (
	"context"
	"io"
	"os"

	"github.com/charmbracelet/x/term"

	"example.org/vatside/ui/guard"
)

// terminal is how the terminal was before the program.
type terminal struct{ was *term.State }

// keepTerminal notes how the terminal is.
func keepTerminal() terminal {
	was, err := term.GetState(os.Stdin.Fd())
	if err != nil {
		return terminal{} // no terminal: nothing to give back
	}
	return terminal{was}
}

// ownScreen gives back the cursor, the mouse, pastes and the screen as it was.
const ownScreen = "\x1b[?2004l\x1b[?1006l\x1b[?1003l\x1b[?1002l\x1b[?1000l\x1b[?25h\x1b[?1049l"

// restore gives the terminal back as it was, where the screens did not. One that reads nothing is not waited for.
func (t terminal) restore(out io.Writer) {
	if t.was == nil {
		return
	}
	_ = term.Restore(os.Stdin.Fd(), t.was)
	soon, cancel := context.WithTimeout(context.Background(), closing)
	guard.Go("terminal", func() {
		defer cancel()
		_, _ = io.WriteString(out, ownScreen)
	})
	<-soon.Done()
}
