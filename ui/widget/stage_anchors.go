package widget

// anchors are the rows and columns of a stage in a window, from 0.
type anchors struct {
	left, text, whole  int // the first column of the left side, its columns, and those of the head and the keys
	head, keys         int // rows; -1: none
	over               int // the row of a small word, or of another vat's call; -1: none
	call, callRows     int // the first row of the letters, and how high they may be
	figure, figureRows int
	words              int // the first row under the figure
	liquor, liquorRows int

	right, wide int // the first column of the picture, and its columns; 0: none
	line        int // the row of the line; tags stand over it
	cloth       int // rows of a cloth that hangs on it
	rim, floor  int // rows of the vessel
}

// Smaller windows have no picture.
const leastStageRows, leastStageColumns = 18, 50

// Columns from peg to peg that a tag and a time take, and the most pegs.
const leastPitch, mostPegs = 5, 9

// airyWindow is from how many rows on there is more than one row of air.
const airyWindow = 36

// letterRows and digitRows are how high call and figure are by the rows of the window: 4 and 7 of 24, 7 and 14 of 40. A test reckons
// how large they look.
func letterRows(height int) int { return (height*7 + 20) / 40 }
func digitRows(height int) int  { return 7 + (height-24)*7/16 }

func anchorsOf(width, height int, hangs bool) anchors {
	width, height = max(width, 1), max(height, 1)
	a := anchors{head: -1, keys: -1, over: -1, left: margin(width)}
	a.whole = max(1, width-2*a.left)
	a.text = a.whole
	if height < leastStageRows || width < leastStageColumns {
		return a.small(height)
	}
	a.head, a.over, a.call, a.keys = 0, 1, 2, height-1
	if height >= airyWindow { // the row over the letters does not touch them
		a.call++
	}
	a.callRows = letterRows(height)
	a.figure, a.figureRows = 3+a.callRows+height/airyWindow, digitRows(height)
	a.words = a.figure + a.figureRows + 1
	a.liquor, a.liquorRows = height-5, 2
	switch {
	case height < 22:
		a.liquor, a.liquorRows = height-3, 1
	case height >= tallWindow:
		a.liquor = height - 6
	}
	a.wide = width * 29 / 100
	a.right = width - a.wide - a.left/2
	a.text = a.right - 2 - a.left
	a.line, a.cloth, a.rim, a.floor = 2, max(4, height*11/40), (height*59+50)/100, height-2
	if !hangs {
		a.rim = a.figure
	}
	return a
}

// small are the anchors without a picture: the call, the figure and what stands under it, as high as there is room.
func (a anchors) small(height int) anchors {
	if height >= 7 {
		a.head, a.call = 0, 1
	}
	a.liquor = height
	if height >= 9 {
		a.keys, a.liquor = height-1, height-1
	}
	if height >= 10 {
		a.liquor, a.liquorRows = a.liquor-1, 1
	}
	a.callRows = 1
	if height >= 14 {
		a.callRows = leastLetters
	}
	rest := max(0, a.liquor-a.call-a.callRows)
	a.figure, a.figureRows = a.call+a.callRows, max(0, min(rest*2/3, rest-1))
	a.words = a.figure + a.figureRows
	return a
}

// Pegs is how many cloths a line has room for with their tags and times; 0: there is no picture.
func Pegs(width, height int) int { return anchorsOf(width, height, true).pegs() }

// LiquorColumns is how wide the liquor in words may be on a stage.
func LiquorColumns(width, height int) int { return anchorsOf(width, height, true).text }

func (a anchors) pegs() int { return min(a.wide/leastPitch, mostPegs) }
