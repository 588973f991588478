// Command plainbubble is the least that a countdown costs with bubbletea and its default renderer, on the alternate screen with
// the mouse, as vatside has them. x puts a mark there and takes it away. It asks the terminal nothing at its start, which would
// take 5 s on a silent one.
package main

import (
	"fmt"
	"os"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	_ "example.org/vatside/ui/style/quiet"
)

type model struct {
	end    time.Time
	marked bool
}

type second struct{}

func tick() tea.Cmd {
	return tea.Tick(time.Until(time.Now().Truncate(time.Second).Add(time.Second)), func(time.Time) tea.Msg { return second{} })
}

func (m model) Init() tea.Cmd { return tick() }

func (m model) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	switch msg := msg.(type) {
	case second:
		return m, tick()
	case tea.KeyMsg:
		switch msg.String() {
		case "q", "ctrl+c":
			return m, tea.Quit
		case "x":
			m.marked = !m.marked
		}
	}
	return m, nil
}

func (m model) View() string {
	mark := ""
	if m.marked {
		mark = "MARK"
	}
	return fmt.Sprintf("left %v\n\n%s\n", time.Until(m.end).Round(time.Second), mark)
}

func main() {
	p := tea.NewProgram(model{end: time.Now().Add(15 * time.Minute)}, tea.WithAltScreen(), tea.WithMouseCellMotion())
	if _, err := p.Run(); err != nil {
		fmt.Fprintln(os.Stderr, "plainbubble:", err)
		os.Exit(1)
	}
}
