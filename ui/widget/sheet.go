// Package widget draws: pure functions of data that return lines of text, exact to the cell. Nothing here
// knows a formula, a clock or a file; what a number means is the caller's business.
package widget

import (
	"strings"
	"unicode"

	"github.com/charmbracelet/bubbles/key"

	"example.org/vatside/model/wording"
	"example.org/vatside/ui/style"
)

// Sheet is one whole screen. Every field may be left empty.
type Sheet struct {
	Head     Head
	Call     CallRow // what another place asks for while its time runs
	Banner   string  // a standing trouble, such as "not yet on disk"
	Act      string  // a verb and its object
	Aside    string  // dim, on the act's line: "in 4:10"
	ActBig   bool    // the act in big letters where there is room
	ActTone  Tone
	Figure   Figure
	Big      bool     // a clock: the figure takes at least a quarter of the rows, and all it can get
	Body     []string // further rows, such as the table of pieces; may carry colour
	Spots    []Spot   // which of them are rows of a list
	Large    []string // what of them is said in large letters
	How      []string // sentences
	HowWhole bool     // on a stage the sentences are never cut: what can be answered, why something is refused
	HowTop   bool     // the sentences stand over the body, not under it
	BodyTop  bool     // the body is a picture, and stands over the act; on a stage it stands in the figure's place
	Halved   bool     // from widget.Halves on the right half of the window is Side's
	Side     []string // what stands there; may carry colour
	Why      string
	Caution  *Caution
	Next     string
	Foot     []string // the liquor
	Keys     []Key
	Answers  []string // words of the sentences, the note or Next that name a key and begin with it: "y ready", "enter: home"
	Stage    *Stage   // the line and the vessel: a day's own screens
}

// Head is the line that is never needed from afar. Facts are set apart by " · "; where room is short the
// left side loses them from its end and the right side from its start.
type Head struct{ Left, Right string }

// CallRow is the call of a day that stands over what is shown, in one row of its own, and in big letters under it where the window is
// high enough. It gives way last.
type CallRow struct {
	Vat   string // in front of it, where there are several
	Words string // "A1 IN, out in 1:55"; empty: none
	Big   string // what stands in big letters, "LIFT A1 0:40"; empty: nothing
	Tone  Tone
}

// Figure is the one number that matters.
type Figure struct {
	Number, Unit string
	Counts       string // on the stage, beside a time and where it leaves room: LEFT, LATE
	Note         string // one plain line under it
	Tone         Tone
	Key          string // what a click on it is, where it is not of the act
}

// Caution stands between act and foot; the word itself is added.
type Caution struct{ Text, Key string }

// Key is one entry of the last line: a key as it is shown, and what it does.
type Key = key.Help

// Tone is the ink of a figure or an entry.
type Tone int

const (
	Plain   Tone = iota
	Now          // do it now
	Trouble      // over time, or wrong; the words say so too
)

// cautionWord begins every caution.
const cautionWord = "CAUTION"

// Drawable makes a text fit to be drawn: in the glyph set, with nothing that cannot be shown, and without marks of no width, which
// would break the picture.
func Drawable(s string, g style.Glyphs) string {
	if !strings.ContainsFunc(s, func(r rune) bool { return r < ' ' || r > '~' }) {
		return s
	}
	return g.Text(strings.Map(func(r rune) rune {
		if r > 127 && !style.OneCell(r) && unicode.Is(unicode.Cf, r) {
			return -1
		}
		return r
	}, wording.Show(s).String()))
}

// bodyLine is a line of the body in the glyph set; it may carry colour.
func bodyLine(s string, g style.Glyphs) string { return inked(g.Text(s)) }

// twin puts every word of the sheet into the glyph set. The body may carry colour and is only translated.
func (s Sheet) twin(g style.Glyphs) Sheet {
	text := func(s string) string { return Drawable(s, g) }
	for _, f := range []*string{
		&s.Head.Left, &s.Head.Right, &s.Banner, &s.Act, &s.Aside, &s.Figure.Number, &s.Figure.Unit, &s.Figure.Note,
		&s.Why, &s.Next,
	} {
		*f = text(*f)
	}
	coloured := func(s string) string { return bodyLine(s, g) }
	s.Body, s.Side = wording.Each(s.Body, coloured), wording.Each(s.Side, coloured)
	s.How, s.Foot = wording.Each(s.How, text), wording.Each(s.Foot, text)
	if s.Caution != nil {
		s.Caution = &Caution{text(s.Caution.Text), text(s.Caution.Key)}
	}
	s.Keys = wording.Each(s.Keys, func(k Key) Key { return Key{Key: text(k.Key), Desc: text(k.Desc)} })
	s.Answers = wording.Each(s.Answers, func(s string) string { return strings.ReplaceAll(text(s), "\u00a0", " ") })
	return s
}

// Stage is what a day's own screens show at the right of the call: a line with cloths over the vessel. A Sheet with a Stage is laid
// out on fixed rows (anchors): Act is the call, in large letters, Aside a small word over it, Figure the figure with its unit, then
// Banner, Caution, Body, Figure.Note, How, Next and Why as far as there are rows, Foot the liquor in words, two lines. A call, a
// figure or a number of pieces of another size moves none of them: what finds no room shrinks where it stands, and only a caution
// takes rows of the figure. Without cloths the vessel has all of the right side, and the call all of the width.
//
// A Sheet without a Stage is any other screen: its head, the row of the running call (Sheet.Call), its own content, its keys.
//
//	widget.Sheet{Head: …, Act: "A1 IN", Figure: widget.Figure{Number: "6:55"}, Next: "then: lift it", Foot: …,
//		Stage: &widget.Stage{Cloths: …, Rest: "14 airing, next 11:40", Vessel: widget.Vessel{…}}}
type Stage struct {
	Cloths []Cloth // by their pegs; Pegs says how many have room
	Rest   string  // of the pieces that are not drawn, in one row
	Count  string  // the same where it has no room, "19 more, next 10:26"
	Vessel Vessel
}

// hangs tells what of a stage its layout goes by: 0 none, 1 a vessel alone, 2 with cloths over it.
func (s *Stage) hangs() int {
	switch {
	case s == nil:
		return 0
	case len(s.Cloths) == 0:
		return 1
	}
	return 2
}

// Spot is a part of the body that is a row of a list: in one line of the body the columns from From to before To, or all of
// the line where To is 0.
type Spot struct{ Line, From, To, Row int }

// Choice is one line of a list.
type Choice struct {
	Text   string
	Aside  string       // dim, in a column of its own where there is room
	Colour *style.Shade // a patch of it stands beside the text
}

// Vessel is the cut through a vat. Lengths are parts of the height of its rim.
type Vessel struct {
	Top, Floor     float64 // how wide it is
	Fill           float64 // how deep the liquor stands
	Next           float64 // how deep after what is poured next; 0: nothing is
	Mark           string  // of that: "60 L"
	Says           string  // over the liquor: "20 L, 12 °C"
	Film, Skimmed  bool    // a film lies on it; it was skimmed off, but for what stays
	Sediment, Rack float64 // how high the sediment lies, and the rack that keeps cloth off it; 0: none
	Lid            bool
	Liquor         style.Shade
}

// Cloth is one piece on the line of a stage.
type Cloth struct {
	Tag   string
	Peg   int         // its place on the line, from 1
	Blue  style.Shade // as it is so far
	Green float64     // of an airing what is left of it, 1 to 0: so much of the cloth is still yellow-green
	In    bool        // it is in the liquor, wholly under
	Says  string      // under it: "5:10", "due"
	Brief string      // the same where there is less room: "look", "25m"; empty: nothing is said there
	Dips  string      // "2 of 3"
	Size  float64     // of the largest of the day, 0 to 1: how wide it is
	Tone  Tone        // of its hem: Now, the hands want it; Trouble, it is late
	Click bool        // it can be chosen
	Row   int         // as which row of a list
}
