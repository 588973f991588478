package book

import (
	"cmp"
	"fmt"
	"math"
	"strings"

	"example.org/vatside/model/sorted"
	"example.org/vatside/model/wording"
)

// Finding is one thing that is told of a file. Lost is true only if something stands there, or stood there, that cannot be
// read: an event, a head, a day. Whole is true if it is a remark only and the file is whole all the same.
type Finding struct {
	File  string
	Line  int    // 0: of the file as a whole
	What  string // a sentence without its full stop
	Lost  bool
	Whole bool
}

// before is how a gap's place is told, as the line itself stands in front.
const before = "before this line"

// comesIn is how what lies elsewhere comes into its day; where the day is shown it is left out.
const comesIn = ": open the day, or `vatside book mend`"

// String is the finding as it is printed: file, line, and what it is.
func (f Finding) String() string {
	if f.Line == 0 {
		return fmt.Sprintf("%s: %s.", f.File, f.What)
	}
	return fmt.Sprintf("%s:%d: %s.", f.File, f.Line, f.What)
}

// placed is the finding with its line in its words, where the file is named elsewhere.
func (f Finding) placed() string {
	f.What = strings.TrimSuffix(f.What, comesIn)
	switch what, gap := strings.CutSuffix(f.What, before); {
	case gap:
		return fmt.Sprintf("%sbefore line %d", what, f.Line)
	case f.Line == 0:
		return f.What
	}
	return fmt.Sprintf("%s (line %d)", f.What, f.Line)
}

// VerifyVat is Verify for the days of one vat, the oldest first. The newest alone may end inside its head without being lost:
// most likely it was killed as it was begun. Of an older one later days were opened, and so it counts as lost.
func VerifyVat(days []Book) []Finding {
	var fs []Finding
	for i, b := range days {
		of := Verify(b)
		switch {
		case i < len(days)-1 && b.Empty():
			of[0].What += ", and there are later days"
			of[0].Lost = true
		case b.headTorn:
			of[0].What += ": a day that was never begun, or that is lost"
		}
		fs = append(fs, of...)
	}
	return fs
}

// Verify tells what is not as it was written, in the order of the lines. A whole file gives remarks at most.
func Verify(b Book) []Finding {
	fs := b.Frame.Verify()
	for _, f := range b.Faults {
		fs = append(fs, Finding{File: b.File, Line: 1, Whole: true,
			What: fmt.Sprintf("the recipe in the head is at fault, in its line %d: %s", f.Line, f.What)})
	}
	sortFindings(fs)
	return fs
}

// Verify is the same for any file of blocks.
func (b Frame) Verify() []Finding {
	var fs []Finding
	tell := func(f Finding, format string, args ...any) {
		f.File, f.What = b.File, fmt.Sprintf(format, args...)
		fs = append(fs, f)
	}
	if what := b.Lacks(); what != "" {
		tell(Finding{Line: 1, Lost: b.blank}, "%s", what)
	}
	if b.HeadErr != nil {
		tell(Finding{Line: 1, Lost: true}, "its first lines cannot be read: %v", b.HeadErr)
	}
	for _, m := range b.Marks {
		tell(Finding{Line: m.Line, Whole: !m.Misplaced}, "%s", m.What)
	}
	for _, g := range b.Gaps {
		tell(Finding{Line: g.Line}, "%s missing %s", g.events(), before)
	}
	for _, u := range b.Unread {
		name := wording.Either(u.Seq > 0, fmt.Sprintf("event %d", u.Seq), "an event")
		tell(Finding{Line: u.Line, Lost: true}, "%s cannot be read: %s", name, u.What)
	}
	if len(b.Torn) > 0 {
		tell(Finding{Line: b.TornLine}, "the last block is torn and was never saved; its %d bytes are set aside", len(b.Torn))
	}
	for _, s := range b.Spilled {
		verb := wording.Either(s.Events == 1, "event lies", "events lie")
		why := "not yet in the day"
		if s.Err != nil {
			why = fmt.Sprintf("not in the day (%v)", s.Err)
		}
		tell(Finding{}, "%d %s in %s, %s"+comesIn, s.Events, verb, s.File, why)
	}
	sortFindings(fs)
	return fs
}

// sortFindings puts findings in the order of their lines, those of the file as a whole last.
func sortFindings(fs []Finding) {
	line := func(f Finding) int {
		return cmp.Or(f.Line, math.MaxInt)
	}
	sorted.By(fs, func(x, y Finding) int { return cmp.Compare(line(x), line(y)) })
}

// events are the numbers of a gap, with their verb.
func (g Gap) events() string {
	if g.From == g.To {
		return fmt.Sprintf("event %d is", g.From)
	}
	return fmt.Sprintf("events %d to %d are", g.From, g.To)
}

// NotWhole is the line that tells of a day, vat/day, that is not whole; damage is why.
func NotWhole(path, damage string) string {
	return fmt.Sprintf("%s is not whole: %s; see vatside book verify", path, damage)
}

// Damage says in a line why a file is not whole: the first thing that is wrong in it, and how many more are. Empty: it is whole.
func (b Frame) Damage() string {
	words, more := "", 0
	for _, f := range b.Verify() {
		switch {
		case f.Whole:
		case words == "":
			words = f.placed()
		default:
			more++
		}
	}
	words += wording.If(more > 0, fmt.Sprintf(", and %d more", more))
	return words
}
