package photo

// The form of the card, in millimetres from its upper left corner; x runs right, y down. It prints at its own size on A4 and
// on Letter.
const (
	Width  = 176.0
	Height = 174.0

	// MarkSide is a corner mark: a black square of 7 modules, in it a white one of 5, in that a black one of 3. Nothing else
	// on a card or on cloth has a dark ring around a light one around a dark middle in these parts.
	MarkSide = 21.0

	WindowSide = 26.0 // of holes and places: two fingers wide, and 40 pixels where the whole card fills a 0.1-megapixel picture
	gap        = 8.0  // unprinted paper between windows
	left, top  = 24.0, 32.0
	cell       = 4.0
	codeColumn = 24
	codeRow    = 4
	codeX      = 40.0
	codeY      = 152.0
)

// Point is a place on the card, in millimetres, or on a picture, in pixels.
type Point struct{ X, Y float64 }

// Square is a square by its upper left corner.
type Square struct{ X, Y, Side float64 }

// Window is one square of cloth on the card: a hole over the piece in row 2, or in rows 1 and 3 a place for a rung.
type Window struct {
	Row, Column int // from 1
	Square
	Hole bool
	Rung int // which place for a rung it is, from 1, row 1 first; 0: a hole
}

// Windows are all windows by rows: each hole has a place for a rung above and below it.
func Windows() []Window {
	var out []Window
	for r := range 3 {
		for c := range 4 {
			w := Window{Row: r + 1, Column: c + 1, Square: Square{left + float64(c)*(WindowSide+gap), top + float64(r)*(WindowSide+gap), WindowSide}, Hole: r == 1}
			if !w.Hole {
				w.Rung = r/2*4 + c + 1
			}
			out = append(out, w)
		}
	}
	return out
}

// Places is how many rungs a card has room for.
const Places = 8

// Marks are the four corner marks, clockwise from the upper left.
func Marks() [4]Square {
	const far, low = Width - MarkSide, Height - MarkSide
	return [4]Square{{0, 0, MarkSide}, {far, 0, MarkSide}, {far, low, MarkSide}, {0, low, MarkSide}}
}

// middle is the middle of a square.
func (s Square) middle() Point { return Point{s.X + s.Side/2, s.Y + s.Side/2} }

// Inset is the square without a border of so many millimetres.
func (s Square) Inset(by float64) Square { return Square{s.X + by, s.Y + by, s.Side - 2*by} }
