package widget

import "example.org/vatside/ui/style"

// Widths of the anatomy, in columns.
const (
	narrow, wide  = 70, 140 // below and above these the margins are smaller and larger
	longestLine   = 100     // sentences are not wider, however wide the window
	leastSentence = 18      // columns under which a caution has no margin
	leastFigure   = 4       // rows a step's figure keeps as long as it can
	leastLetters  = 3       // rows of an act in big letters
	leastUnit     = 10      // rows of a figure that makes even a thin unit worth drawing
	leastBody     = 3       // rows the body keeps while sentences are still there
	tallWindow    = 30      // rows from which the foot has air
	tallestFigure = 3       // a step's figure is at most one in so many rows
)

// place is where things stand in a window.
type place struct {
	width, height int
	left          int // where text begins
	whole         int // columns of the head and the keys
	text          int // columns for text
	line          int // columns for sentences
	indent        int // the figure stands this much to the right of the text
}

// Columns is how wide a sheet's body is in a window.
func Columns(width int) int { return placeIn(width, 1).text }

// halvedFrom is from how many columns on a window has a right half, and gutter the columns between the halves.
const halvedFrom, gutter = 150, 6

// Halves are the columns of the left and the right half of a window; none is halved that is too narrow for it.
func Halves(width int) (left, right int, halved bool) {
	whole := Columns(width)
	if width < halvedFrom {
		return whole, 0, false
	}
	left = (whole - gutter) / 2
	return left, whole - gutter - left, true
}

// margin is the free columns at either side of a window.
func margin(width int) int {
	switch {
	case width < 40:
		return 0
	case width < narrow:
		return 1
	case width > wide:
		return 5
	}
	return 3
}

func placeIn(width, height int) place {
	p := place{width: max(width, 1), height: max(height, 1), left: margin(width)}
	p.text = max(1, p.width-2*p.left)
	p.line, p.whole = min(p.text, longestLine), p.text
	return p
}

// row is one line of the window.
type row struct {
	text string    // without the margin
	ink  style.Ink // of all of it; none if it carries its own
	part part
	no   int // which line of the part, from 0
}

// part is what a row belongs to.
type part int

const (
	air part = iota
	headPart
	callPart
	bannerPart
	actPart
	figurePart
	notePart
	howPart
	whyPart
	bodyPart
	cautionPart
	nextPart
	asidePart
	footPart
	keysPart
)
