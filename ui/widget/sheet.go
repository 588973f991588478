// Package widget draws: pure functions of data that return lines of text, exact to the cell. Nothing here
// knows a formula, a clock or a file; what a number means is the caller's business.
package widget

import (
	"strings"
	"unicode"

	"example.org/vatside/model/wording"
	"example.org/vatside/ui/style"
)

// Sheet is one whole screen. Every field may be left empty.
type Sheet struct {
	Head    Head
	Call    CallRow // what another place asks for while its time runs
	Banner  string  // a standing trouble, such as "not yet on disk"
	Act     string  // a verb and its object
	Aside   string  // dim, on the act's line: "in 4:10"
	ActBig  bool    // the act in big letters where there is room
	ActTone Tone
	Figure  Figure
	Big     bool     // a clock: the figure takes at least a quarter of the rows, and all it can get
	Body    []string // further rows, such as the table of pieces; may carry colour
	Spots   []Spot   // which of them are rows of a list
	Large   []string // what of them is said in large letters
	How     []string // sentences
	HowTop  bool     // the sentences stand over the body, not under it
	BodyTop bool     // the body is a picture, and stands over the act; on a stage it stands in the figure's place
	Halved  bool     // from widget.Halves on the right half of the window is Side's
	Side    []string // what stands there; may carry colour
	Why     string
	Caution *Caution
	Next    string
	Foot    []string // the liquor
	Keys    []Key
	Answers []string // words of the sentences, the note or Next that name a key and begin with it: "y ready", "enter: home"
	Stage   *Stage   // the line and the vessel: a day's own screens
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
	Note         string // one plain line under it
	Tone         Tone
	Key          string // what a click on it is, where it is not of the act
}

// Caution stands between act and foot; the word itself is added.
type Caution struct{ Text, Key string }

// Key is one entry of the last line.
type Key struct{ Key, Does string }

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
	list := func(in []string, each func(string) string) []string {
		out := make([]string, len(in))
		for i := range in {
			out[i] = each(in[i])
		}
		return out
	}
	text := func(s string) string { return Drawable(s, g) }
	for _, f := range []*string{
		&s.Head.Left, &s.Head.Right, &s.Banner, &s.Act, &s.Aside, &s.Figure.Number, &s.Figure.Unit, &s.Figure.Note,
		&s.Why, &s.Next,
	} {
		*f = text(*f)
	}
	coloured := func(s string) string { return bodyLine(s, g) }
	s.Body, s.Side, s.How, s.Foot = list(s.Body, coloured), list(s.Side, coloured), list(s.How, text), list(s.Foot, text)
	if s.Caution != nil {
		s.Caution = &Caution{text(s.Caution.Text), text(s.Caution.Key)}
	}
	keys := make([]Key, len(s.Keys))
	for i, k := range s.Keys {
		keys[i] = Key{text(k.Key), text(k.Does)}
	}
	s.Keys = keys
	s.Answers = list(s.Answers, func(s string) string { return strings.ReplaceAll(text(s), "\u00a0", " ") })
	return s
}
