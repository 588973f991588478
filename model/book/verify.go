package book

import (
	"cmp"
	"fmt"
	"slices"
)

// Finding is one thing that is told of a file. Lost is true only if something stands there, or stood there, that cannot be
// read: an event, a head, a day.
type Finding struct {
	File string
	Line int
	What string // a sentence without its full stop
	Lost bool
}

// String is the finding as it is printed: file, line, and what it is.
func (f Finding) String() string { return fmt.Sprintf("%s:%d: %s.", f.File, f.Line, f.What) }

// VerifyVat is Verify for the days of one vat, the oldest first. The newest alone may end inside its head and be only a
// remark: most likely it was killed as it was begun. Of an older one later days were opened, and so it counts as lost.
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

// Verify tells what is not as it was written, in the order of the lines. A whole file gives nothing.
func Verify(b Book) []Finding {
	fs := b.Frame.Verify()
	for _, f := range b.Faults {
		fs = append(fs, Finding{b.File, 1, fmt.Sprintf("the recipe in the head is at fault, in its line %d: %s", f.Line, f.What), false})
	}
	slices.SortStableFunc(fs, func(x, y Finding) int { return cmp.Compare(x.Line, y.Line) })
	return fs
}

// Verify is the same for any file of blocks.
func (b Frame) Verify() []Finding {
	var fs []Finding
	tell := func(line int, lost bool, format string, args ...any) {
		fs = append(fs, Finding{b.File, line, fmt.Sprintf(format, args...), lost})
	}
	if what := b.Lacks(); what != "" {
		tell(1, b.blank, "%s", what)
	}
	if b.HeadErr != nil {
		tell(1, true, "the head cannot be read: %v", b.HeadErr)
	}
	for _, m := range b.Marks {
		tell(m.Line, false, "%s", m.What)
	}
	for _, g := range b.Gaps {
		if g.From == g.To {
			tell(g.Line, false, "event %d is missing before this line", g.From)
		} else {
			tell(g.Line, false, "events %d to %d are missing before this line", g.From, g.To)
		}
	}
	for _, u := range b.Unread {
		name := "an event"
		if u.Seq > 0 {
			name = fmt.Sprintf("event %d", u.Seq)
		}
		tell(u.Line, true, "%s cannot be read: %s", name, u.What)
	}
	if len(b.Torn) > 0 {
		tell(b.TornLine, false, "the last block is torn and was never saved; its %d bytes are set aside", len(b.Torn))
	}
	slices.SortStableFunc(fs, func(x, y Finding) int { return cmp.Compare(x.Line, y.Line) })
	return fs
}
