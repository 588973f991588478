// Command vatside is the clock, the numbers and the book beside an indigo vat.
package main

import (
	"os"

	"example.org/vatside/ui"
	"example.org/vatside/ui/command"
	"example.org/vatside/ui/shelf"
	_ "example.org/vatside/ui/style/quiet" // before bubbletea starts, which would wait on the terminal
)

func main() {
	os.Exit(command.Main(os.Args[1:], command.World{
		In: os.Stdin, Out: os.Stdout, Err: os.Stderr, Getenv: os.Getenv, Screens: screens, Index: shelf.IndexFolder(), Sparing: command.Sparing,
	}))
}

// screens hands what the command line chose to the screens.
func screens(s command.Screens) error {
	o := ui.Options{Home: s.Home, Getenv: os.Getenv, Input: os.Stdin, Output: os.Stdout, Err: s.Err, Hurry: s.Hurry}
	if s.Day != "" {
		o.Rehearsal = &ui.Rehearsal{Vat: s.Vat, Day: s.Day, Speed: s.Speed}
	}
	return ui.Run(o)
}
