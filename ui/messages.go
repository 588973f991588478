package ui

import (
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/history"
	"example.org/vatside/model/recipe"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/library"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/shelf"
	"example.org/vatside/ui/terminal"
)

// What effects answer with: what has happened, never a wish.
type (
	snapshotMsg engine.Snapshot
	homeMsg     struct {
		vats    []screen.Vat
		recipes []recipe.Recipe
		own     map[string]bool
		word    string
		show    string // a day to show at once: the one that is rehearsed
	}
	openedMsg struct {
		id, word string
		what     string // the turn that it gives back
		log      bool   // its log is wanted, not the day
		err      error
	}
	repliedMsg struct {
		acted  bool // it answers an act on a day
		err    error
		reload bool
		word   string
		asks   bool   // a second press answers it
		what   string // the turn that it gives back
	}
	settingsMsg struct {
		settings shelf.Settings
		err      error
	}
)

// What was read of the vats.
type (
	// careMsg is what the vats of home want, by vat.
	careMsg map[string][]history.Due
	// stockMsg is the shelf of powders; the doses of all days draw on it.
	stockMsg screen.Stock
	// pastMsg is the whole history of one vat.
	pastMsg struct {
		vat  string
		days history.Vat
		err  error
	}
)

// photoMsg is what the photographs that were given at once say of a piece.
type photoMsg struct {
	no      int // which one it was, counted from 1
	id, tag string
	wet     bool
	typed   bool // it was given where the look is typed
	seen    []library.Seen
}

// boardMsg tells that boards were written, or why one was not.
type boardMsg struct{ err error }

type costMsg struct{ cost screen.Cost }

// saidMsg is what came of a line.
type saidMsg struct {
	id     string
	err    error         // a *day.Pending where a caution stands before the first of left
	left   []day.Command // what is not done
	at     time.Duration // when the caution was told, on the machine's monotonic clock
	note   string        // what is amiss with a piece that was listed
	closes bool          // the day was closed
}

// changedMsg names the vats in whose folders something changed.
type changedMsg []string

type (
	// settingsReadMsg has the settings as they are read at the start.
	settingsReadMsg settingsMsg
	// glanceMsg has those of the vats whose newest day is open.
	glanceMsg struct {
		vats []screen.Vat
		of   int // how many vats there are; -1: nobody knows
	}
)

type groundMsg = terminal.Ground

// sleepyMsg says that the machine may go to sleep though a time runs.
type sleepyMsg struct{}
