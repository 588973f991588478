// Package quiet keeps the start of the program from waiting on the terminal.
//
// bubbletea's own init asks lipgloss whether the background is dark, and lipgloss asks the terminal:
// five seconds on one that does not answer, for every subcommand. Go initialises packages that are
// ready in the order of their import paths, and example.org sorts before github.com/charmbracelet/bubbletea;
// so the answer is given here first and the question is never put. Dark or light is decided later, by setting.
package quiet

import "github.com/charmbracelet/lipgloss"

func init() { lipgloss.SetHasDarkBackground(true) }
