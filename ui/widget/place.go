package widget

// Widths of the anatomy, in columns.
const (
	narrow, wide  = 70, 140 // below and above these the edge is thinner and thicker
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
	edge          int // columns of cloth
	left          int // where text begins
	text          int // columns for text
	line          int // columns for sentences
	indent        int // the figure stands this much to the right of the text
}

// Columns is how wide a sheet's body is in a window.
func Columns(width int) int { return placeIn(width, 1).text }

func placeIn(width, height int) place {
	p := place{width: max(width, 1), height: max(height, 1), edge: 2}
	gap, right := 2, 2
	switch {
	case width < 40:
		p.edge, gap, right = 1, 1, 0
	case width < narrow:
		p.edge, gap, right, p.indent = 1, 2, 1, 0
	case width > wide:
		p.edge, gap, right, p.indent = 4, 6, 6, 0
	default:
		p.indent = 2
	}
	p.left = p.edge + gap
	p.text = max(1, p.width-p.left-right)
	p.line = min(p.text, longestLine)
	return p
}
