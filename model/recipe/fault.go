package recipe

import (
	"cmp"
	"errors"
	"fmt"
	"strings"
	"unicode/utf8"

	"example.org/vatside/model/sorted"
	"example.org/vatside/model/tree"
	"example.org/vatside/model/wording"
)

// Fault is one thing wrong with a recipe's text: where it is, what it is, and what would be right.
type Fault struct {
	File  string
	Line  int    // from 1
	Col   int    // from 1, in characters
	What  string // what is wrong, without a full stop
	Right string // what would be right, without a full stop; may be empty

	width int // characters to underline
}

// Fault is a fault at a key of the recipe's own text, such as "liquor.ph" or "step.3.look".
func (r Recipe) Fault(file, key, what, right string) Fault {
	at := tree.PlacesOf([]byte(r.Text)).Value(key)
	return Fault{file, at.Line, at.Col, what, right, at.Width}
}

// Error is the fault in one sentence that begins with its place: file:line:column.
func (f Fault) Error() string {
	s := fmt.Sprintf("%s:%d:%d: %s", wording.Show(f.File), f.Line, f.Col, f.What)
	s += wording.If(f.Right != "", "; "+f.Right)
	if strings.HasSuffix(s, "?") {
		return s
	}
	return s + "."
}

// Draw shows the faulty line of the recipe's text, with carets under the place and what would be right below.
func (f Fault) Draw(text []byte) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s:%d:%d: %s\n", wording.Show(f.File), f.Line, f.Col, f.What)
	lines := strings.Split(string(text), "\n")
	indent := "       "
	if f.Line >= 1 && f.Line <= len(lines) {
		line := []rune(printable(strings.TrimSuffix(lines[f.Line-1], "\r")))
		col := min(max(f.Col, 1), len(line)+1)
		width := max(1, min(f.width, len(line)-col+1))
		fmt.Fprintf(&b, "%5d | %s\n", f.Line, string(line))
		fmt.Fprintf(&b, "      | %s%s\n", strings.Repeat(" ", col-1), strings.Repeat("^", width))
		indent = "        "
	}
	if f.Right != "" {
		fmt.Fprintf(&b, "%s%s\n", indent, f.Right)
	}
	return b.String()
}

// printable replaces what would move the cursor by one space each, so that columns stay where they are.
func printable(s string) string {
	return strings.Map(func(r rune) rune {
		if wording.Unfit(r) || r == utf8.RuneError {
			return ' '
		}
		return r
	}, s)
}

// Faults is every fault of one recipe, in the order of its lines. It is empty for a good recipe.
type Faults []Fault

// Err is nil for a good recipe, else all faults as one error, a line each.
func (fs Faults) Err() error {
	if len(fs) == 0 {
		return nil
	}
	return errors.New(fs.String())
}

// String is all faults, a line each.
func (fs Faults) String() string { return strings.Join(wording.Each(fs, Fault.Error), "\n") }

// sort puts the faults in the order of their places.
func (fs Faults) sort() {
	sorted.By(fs, func(a, b Fault) int {
		return cmp.Or(cmp.Compare(a.Line, b.Line), cmp.Compare(a.Col, b.Col))
	})
}
