// Package terminal is the terminal that the screens have: its modes, what it is shown, and what it tells of keys, clicks and
// itself.
package terminal
