// Package screen is the contract between the root and the screens. A screen is a value: it is given what it may know
// (Env), it answers with what it wants (Request), and it draws a widget.Sheet. Only the root knows tea.Cmd, the engine
// and the shelf; screens never import one another.
package screen

import (
	"slices"
	"time"

	"example.org/vatside/model/cost"
	"example.org/vatside/model/day"
	"example.org/vatside/model/history"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/stock"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/answer"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/library"
	"example.org/vatside/ui/shelf"
	"example.org/vatside/ui/style"
	"example.org/vatside/ui/widget"
)

// Screen is one screen.
type Screen interface {
	// Update answers one key. The root hands keys on one at a time.
	Update(k Key, env Env) (Screen, []Request)
	// View is the screen as data; the root adds trouble and draws it.
	View(env Env) widget.Sheet
	// Keys are the keys that work now, for the last line (the first four) and for help (all).
	Keys(env Env) []widget.Key
}

// Capturing tells that letters are text now on a screen: the root then takes none of them for itself. Most screens have no text.
func Capturing(s Screen) bool {
	c, is := s.(interface{ Capturing() bool })
	return is && c.Capturing()
}

// Counter is a screen with a stopwatch of its own: a figure that changes each second though no time of a day runs and no strip is
// watched.
type Counter interface {
	// Counts tells whether it runs.
	Counts(env Env) bool
}

// Env is what a screen may know: values, no services.
type Env struct {
	Now           time.Time      // the present: of the day in hand, else of the machine
	Width, Height int            // without the rows of Call
	Call          widget.CallRow // what stands over the screen
	CallRows      int            // how many rows it takes
	Style         style.Style
	Days          engine.Snapshot
	ID            string // the day in hand, VAT/DAY; empty on home and setup
	Tag           string // the piece that the screen was opened for, if for one
	Home          Home
	History       history.Vat // all days of the vat in hand, on the screens that ask for them; nil until they are read
	Word          string      // the last refusal or answer, until the next key
	Feet          *Feet       // nil: each foot is reckoned
}

// Day is the day in hand. Not inlined: that was 6 kB of the program.
//
//go:noinline
func (e Env) Day() (engine.View, bool) { return e.Days.Day(e.ID) }

// System is the system of units of the settings.
func (e Env) System() quantity.System { return e.Home.Settings.System() }

// Present is the time of the machine, whatever the time of the day in hand is.
func (e Env) Present() time.Time {
	if e.Days.Wall.IsZero() {
		return e.Now
	}
	return e.Days.Wall
}

// Room is what a list or a picture can have on a sheet, to which the root adds the last word.
func (e Env) Room(sheet widget.Sheet) (columns, rows int) {
	sheet.Banner, sheet.Call = e.Word, e.Call
	return widget.Room(sheet, e.Width, e.Height+e.CallRows, e.Style)
}

// Home is what the shelf holds, as far as screens need it.
type Home struct {
	Vats     []Vat
	Coming   int // vats that are there and not read yet; -1: nobody knows how many there are
	Recipes  []recipe.Recipe
	Own      map[string]bool // recipes of the dyer's own that replace a built-in one
	Settings shelf.Settings
	Stock    Stock
	Cost     *Cost // of the vat whose costs were asked for last; nil while it is reckoned
}

// Cost is what a vat cost.
type Cost struct {
	Vat, Name string
	Of        cost.Vat
	Trouble   string // what could not be read
}

// Stock is the shelf of powders.
type Stock struct {
	List    stock.List
	Tins    []stock.TinBalance // those on the shelf
	All     []stock.TinBalance // with those that are gone: they tell which powders the dyer keeps account of
	Next    *stock.Wish        // the vat that is likely built next, as the last one was; nil: none was built yet
	Trouble string             // what could not be read
}

// Vat is one living vat on home.
type Vat struct {
	Vat, Name string
	Day       string    // the day: an open one, else the last
	At        time.Time // of its last event
	Open      bool      // that day is not closed
	Elsewhere bool      // another program has it open
	Free      bool      // another program had it open and has left it
	Ended     bool      // used up: its book stays, no day follows
	Rehearsed bool
	Unread    bool // nothing of it can be read
	Recipe    string
	Fill      string
	Line      string         // where it stands, in one line
	Short     string         // of an open day its call in large letters
	Vessel    widget.Vessel  // as it stood then
	Hung      []widget.Cloth // its pieces that hung then
	Due       []day.Standing // what it waits for
	Care      []history.Due  // what it wants to be kept alive, the most overdue first, then what comes; nil until it is read
	Trouble   string         // what was wrong with its file, such as a torn tail set aside
}

// ID is the day, VAT/DAY. Of a vat with several open days each has an entry of its own.
func (v Vat) ID() string { return v.Vat + "/" + v.Day }

// Key is one key, or a click. Name is set for keys that are no letter: enter, space, pgup, pgdown, up, down, left,
// right, esc, tab, backspace, delete, home, end; a click on the act is "enter". Space has Name "space" and Rune ' '. A click on
// a row of a list is "row", and Row which of them, as the sheet's Spots count them.
type Key struct {
	Name string
	Rune rune
	Row  int
}

// Done tells whether it is the one big key: space, Enter, PageDown or a click on the act. Not inlined: that was 5 kB of the program.
//
//go:noinline
func (k Key) Done() bool { return k.Name == "enter" || k.Name == "space" || k.Name == "pgdown" }

// Press is the big key on a day: it names the call that was seen.
func Press(v engine.View) day.Command { return day.Done{Call: v.Call().ID} }

// Way is where an arrow leads: -1 up or left, 1 down or right; 0: it is another key.
func (k Key) Way() int { return map[string]int{"up": -1, "left": -1, "down": 1, "right": 1}[k.Name] }

// On is the row that was clicked, if it is one of n.
func (k Key) On(n int) (row int, ok bool) { return k.Row, k.Name == "row" && k.Row >= 0 && k.Row < n }

// Choose is a key in a list of n lines of which one, at, is chosen: an arrow goes to the next line, a figure or a click takes its own.
// False for any other key.
func (k Key) Choose(at, n int) (to int, takes, ok bool) {
	if row, is := k.On(n); is {
		return row, true, true
	}
	if figure := int(k.Rune - '1'); figure >= 0 && figure < min(n, 9) {
		return figure, true, true
	}
	if n == 0 || k.Name != "up" && k.Name != "down" {
		return at, false, false
	}
	return min(max(at+k.Way(), 0), n-1), false, true
}

// Bound is a key as it is shown, and what it does.
func Bound(shown, does string) widget.Key { return widget.Key{Key: shown, Desc: does} }

// Keys are keys as they are shown, each followed by what it does; one that does nothing is left out.
func Keys(shown ...string) (out []widget.Key) {
	for k := range slices.Chunk(shown, 2) {
		if k[1] != "" {
			out = append(out, Bound(k[0], k[1]))
		}
	}
	return out
}

// Place is a screen by name: the root makes it.
type Place string

const (
	AtHome   Place = "home"
	AtSetup  Place = "setup"
	AtDay    Place = "day" // following along while steps are open, then the clock
	AtPiece  Place = "piece"
	AtLog    Place = "log"
	AtCourse Place = "course"
	AtPlan   Place = "plan"
	AtLadder Place = "ladder"
	AtTable  Place = "timetable"
	AtDose   Place = "dose"
	AtSigns  Place = "signs"
	AtCare   Place = "care"
	AtBench  Place = "bench" // after the dips
	AtAid    Place = "aid"
	AtUnsaid Place = "unsaid" // what was taken as planned

	AtPrepare Place = "before" // the day: goods, times, checklist
	AtStock   Place = "powders"
	AtCost    Place = "cost" // of a vat and its pieces
)

// Request is what a screen wants; the root carries it out.
type Request interface{ request() }

type (
	// Go opens a place over this one. Day is VAT/DAY where the place is about a day.
	Go struct {
		To  Place
		Day string
		Tag string // the piece that it is about, where it is about one
	}
	// Leave goes back to the place below.
	Leave struct{}
	// Do sends a command to the day in hand; a refusal comes back as Env.Word.
	Do struct{ Command day.Command }
	// Begin opens a new vat with this head (Vat and Day are given by the shelf) and goes to its day.
	Begin struct{ Head day.Head }
	// NextDay opens the next day on a living vat, or takes up its open day; End makes it the one that leads to its end.
	NextDay struct {
		Vat string
		End bool
	}
	// Ask opens a line over the screen for what stands behind the words of a row of the table and what it is of, a tag or a number.
	Ask struct {
		Row   string // its ID
		Of    string
		Blank answer.Blank
	}
	// Say shows a word until the next key. Asks: it is a question that a second press answers.
	Say struct {
		Word string
		Asks bool
	}
	// Set stores the settings.
	Set struct{ Settings shelf.Settings }
	// List puts pieces on the list of the day in hand: those of a file of [[piece]] blocks, or with no path those of the
	// vat's day before.
	List struct{ Path string }
	// Photo reads a photograph of the card for a look at a piece of the day in hand.
	Photo struct {
		Tag   string
		Asked library.PhotoAsked
	}
	// Keep puts an act of the shelf of powders on its list; a refusal comes back as Env.Word.
	Keep struct{ Command stock.Command }
	// Quit ends the program; the root asks first when a time runs.
	Quit struct{}
	// Rehearse leaves for a rehearsal in a folder of its own, of a day or of a class; when it is left, the program is opened again.
	Rehearse struct{ Class bool }
)

// Doing are requests for commands, in their order.
func Doing(commands ...day.Command) []Request {
	return wording.Each(commands, func(c day.Command) Request { return Do{c} })
}

func (Go) request()       {}
func (Rehearse) request() {}
func (Leave) request()    {}
func (Do) request()       {}
func (Begin) request()    {}
func (NextDay) request()  {}
func (Say) request()      {}
func (Ask) request()      {}
func (Set) request()      {}
func (List) request()     {}
func (Photo) request()    {}
func (Keep) request()     {}
func (Quit) request()     {}
