// Package answer is everything that a dyer can say of a day, one row each: the words, the key, when it is possible, and the
// command that it becomes. Plain mode, its list of answers, `vatside say`, and the keys of the screens, their help and
// the line that is typed there are made from it.
//
// A row is added in one of the rows_*.go files. Its example is read by a test, and so is each kind of event that the row makes.
package answer

import (
	"slices"
	"strings"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/wording"
)

// Group is the heading under which a row is listed.
type Group int

// The groups, as they are listed.
const (
	Call   Group = iota // the call, and taking back
	Seen                // what was read or seen
	Vat                 // what was done to the vat
	Goods               // pieces, till their last airing
	Bench               // pieces after their dips
	Around              // who is there and where it stands; the day's end
	Ask                 // what is only asked: nothing is written
)

func (g Group) String() string {
	return wording.Named(g, "The call", "What you read or see", "What you do to the vat", "Pieces", "Pieces after their dips", "Around the vat", "Asking")
}

// Row is one thing that a dyer can say.
type Row struct {
	ID    string   // its name in code; it never changes
	Say   string   // as the list shows it; capitals stand for what is filled in
	Words []string // what a line begins with, in small letters; the longest that fits counts
	Verbs []string // the same behind the tags of pieces: "A1 out"
	Does  string
	Key   string // as it is shown: "r", "PgUp"; empty: none. It means the same on each screen of a day
	Short string // what the key does, in a few words; empty: as Does
	Group Group

	// Example is a line that is understood; of a row that has no words at all it is empty.
	Example string

	// Opens is the place of the screens that answers a question, as screen.Place; empty: none.
	Opens string

	// Blank is what the row's key asks for, by a line of which the tag or the number is known; nil: nothing.
	Blank func(Line) Blank
	// Possible tells whether it can be said now, as far as the state tells; nil: always. Fits tells whether it is what the act
	// asks for; nil: never.
	Possible func(day.State) bool
	Fits     func(day.State, day.Act) bool

	// Parse makes the commands, in the order in which they are carried out; nil: the row asks, and writes nothing.
	Parse func(Line) ([]day.Command, error)

	tagged   bool                   // its words are followed by a piece's tag
	maybe    bool                   // they may be followed by one, of a piece that is on the bench
	numbered bool                   // they may be followed by the number of an event
	bare     bool                   // by nothing
	all      func(day.Piece) bool   // the pieces that "all" before its verbs means; nil: none
	alone    string                 // the row that its words are without anything behind them
	short    func(day.State) string // Short, where it hangs on the state
}

// Asks tells whether the row is a question, which writes nothing.
func (r Row) Asks() bool { return r.Parse == nil }

// Now tells whether the row can be said now. Of a closed day something can still be taken back.
func (r Row) Now(s day.State) bool {
	if s.Closed && !r.Asks() && r.ID != "take back" {
		return false
	}
	return r.Possible == nil || r.Possible(s)
}

// Line is a line of words, as far as it was understood.
type Line struct {
	State day.State
	Act   day.Act // at Now
	Now   time.Time
	Word  string   // the words that named the row, in small letters
	Tags  []string // the pieces that it is about, one or more, where the row is about pieces
	Rest  string   // what stands behind them
}

func (l Line) system() quantity.System { return l.State.Head.Setup.System() }

// tag is the one piece that it is about.
func (l Line) tag() string {
	if len(l.Tags) == 0 {
		return ""
	}
	return l.Tags[0]
}

// one is a single command.
func one(c day.Command, err error) ([]day.Command, error) {
	if err != nil {
		return nil, err
	}
	return []day.Command{c}, nil
}

// record is a body that is written down where no rule stands against it.
func record(b day.Body, err error) ([]day.Command, error) { return one(day.Record{Body: b}, err) }

// wrote is a row that writes such a body down, whatever the line.
func wrote(b day.Body) func(Line) ([]day.Command, error) {
	return func(Line) ([]day.Command, error) { return record(b, nil) }
}

// eachPiece is a command for each of the line's pieces.
func eachPiece(l Line, c func(tag string) (day.Command, error)) ([]day.Command, error) {
	var out []day.Command
	for _, tag := range l.Tags {
		x, err := c(tag)
		if err != nil {
			return nil, err
		}
		out = append(out, x)
	}
	return out, nil
}

// ofEach is a row that makes such a command for each of the line's pieces, and wroteOfEach one that writes such a body down.
func ofEach(c func(l Line, tag string) day.Command) func(Line) ([]day.Command, error) {
	return func(l Line) ([]day.Command, error) {
		return eachPiece(l, func(tag string) (day.Command, error) { return c(l, tag), nil })
	}
}

func wroteOfEach(b func(l Line, of day.OfPiece) day.Body) func(Line) ([]day.Command, error) {
	return ofEach(func(l Line, tag string) day.Command { return day.Record{Body: b(l, day.OfPiece{Tag: tag})} })
}

// open tells whether a step of the plan is open.
func open(s day.State) bool { _, ok := s.Open(); return ok }

// anyPiece tells whether a piece of the day is such a one.
func anyPiece(is func(day.Piece) bool) func(day.State) bool {
	return func(s day.State) bool { return slices.ContainsFunc(s.Pieces, is) }
}

// live tells whether a piece still wants hands at the vat.
func live(p day.Piece) bool { return p.Live() }

// finished tells whether the dips of a piece are over.
func finished(p day.Piece) bool { return p.Phase == day.FinishedPiece }

// atKind fits acts of these kinds.
func atKind(kinds ...day.ActKind) func(day.State, day.Act) bool {
	return func(_ day.State, a day.Act) bool { return a.Caution == "" && slices.Contains(kinds, a.Kind) }
}

// spaced is a line with one space between its words.
func spaced(s string) string { return strings.Join(strings.Fields(s), " ") }

// Blank is a line that is to be filled in; the zero value asks nothing.
type Blank struct {
	Label string // what is asked: "The vat reads"
	Unit  string // how it is written: "°C"
}

// blank is the line of a row that asks the same on each day.
func blank(label, unit string) func(Line) Blank {
	return func(Line) Blank { return Blank{label, unit} }
}

// cutTags cuts the tags of the day's pieces off the beginning of a text: "A1", "A1 B2", "A1, B2 and C3".
func cutTags(s day.State, text string) (tags []string, rest string) {
	for rest = text; ; {
		tag, behind, ok := cutTag(s, rest)
		if !ok {
			return tags, rest
		}
		tags, rest = append(tags, tag), strings.TrimSpace(behind)
		more := strings.TrimPrefix(strings.TrimSpace(strings.TrimPrefix(rest, ",")), "and ")
		if _, _, another := cutTag(s, more); another {
			rest = more
		}
	}
}

// cutTag cuts the longest tag of a piece off; capitals count only where two tags differ by nothing else.
func cutTag(s day.State, text string) (tag, rest string, ok bool) {
	exact := false
	for _, p := range s.Pieces {
		n := len(p.Tag)
		if n == 0 || len(text) < n || len(text) > n && text[n] != ' ' && text[n] != ',' {
			continue
		}
		same := text[:n] == p.Tag
		if strings.EqualFold(text[:n], p.Tag) && (n > len(tag) || n == len(tag) && same && !exact) {
			tag, rest, ok, exact = p.Tag, text[n:], true, same
		}
	}
	return tag, rest, ok
}
