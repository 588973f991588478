package screen

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/charmbracelet/x/ansi"

	"example.org/vatside/ui/style"
	"example.org/vatside/ui/widget"
)

// mostTyped is how many characters a field takes.
const mostTyped = 120

// Field is a line of text that is typed; the zero value is an empty one. A pasted text comes letter by letter, without what cannot
// be shown: the root sees to it.
type Field struct {
	What   string // which line, the screen's own word; empty: On is false
	Label  string // above the text: what is asked
	Text   string
	Behind int    // how many characters stand behind the cursor
	Unit   string // behind the text, dim
	Hint   string // under it, dim: what may be typed
	Wrong  string // in the hint's place: why the last try was not taken
}

// On tells whether something is being typed.
func (f Field) On() bool { return f.What != "" }

// Take answers a key; entered is true at Enter, left at Esc, and at Backspace where nothing is typed.
func (f Field) Take(k Key) (next Field, entered, left bool) {
	switch {
	case k.Name == "enter" || k.Name == "pgdown":
		return f, true, false
	case k.Name == "esc" || k.Name == "pgup" || k.Name == "backspace" && f.Text == "":
		return Field{}, false, true
	}
	f = f.Edit(k)
	f.Wrong = ""
	return f, false, false
}

// Edit is the field after a key that changes the text or moves the cursor; any other key leaves it as it is.
func (f Field) Edit(k Key) Field {
	typed := []rune(f.Text)
	at := len(typed) - min(f.Behind, len(typed))
	switch {
	case k.Name == "backspace":
		if at > 0 {
			typed = slices.Delete(typed, at-1, at)
			at--
		}
	case k.Name == "delete":
		if at < len(typed) {
			typed = slices.Delete(typed, at, at+1)
		}
	case k.Name == "ctrl+u": // as terminals clear a line, up to the cursor
		typed, at = typed[at:], 0
	case k.Name == "left":
		at = max(0, at-1)
	case k.Name == "right":
		at = min(len(typed), at+1)
	case k.Name == "home":
		at = 0
	case k.Name == "end":
		at = len(typed)
	case unicode.IsControl(k.Rune) || k.Rune == utf8.RuneError || len(typed) >= mostTyped:
		return f
	default:
		typed = slices.Insert(typed, at, k.Rune)
		at++
	}
	if text := string(typed); text != f.Text {
		f.Text, f.Wrong = text, ""
	}
	f.Behind = len(typed) - at
	return f
}

// Lines draws the label, what is typed with the mark of the cursor, and the hint, in the room that a sheet has for them.
func (f Field) Lines(env Env) []string {
	width, st, g := max(20, widget.LiquorColumns(env.Width, env.Height)), env.Style, env.Style.Glyphs
	rows := widget.Words(f.Label, width, st.Dim, g)
	unit := widget.Drawable(f.offered(f.Unit), g)
	room := max(0, width-1)
	if unit != "" && style.Width(unit)+2 < width {
		room -= style.Width(unit) + 1
	} else {
		unit = ""
	}
	typed := []rune(f.Text)
	at := len(typed) - min(f.Behind, len(typed))
	before, after := widget.Drawable(string(typed[:at]), g), widget.Drawable(string(typed[at:]), g)
	// Where the room is short the text about the cursor is seen.
	free := room - min(style.Width(after), max(room/2, room-style.Width(before)))
	if over := style.Width(before) - free; over > 0 {
		before = ansi.TruncateLeft(before, over+style.Width(g.Ellipsis), g.Ellipsis)
	}
	after = ansi.Truncate(after, max(0, room-style.Width(before)), g.Ellipsis)
	line := st.Act.Render(before) + st.Now.Render(g.Lower)
	if after != "" {
		line += st.Act.Render(after)
	}
	if unit != "" {
		line += " " + st.Dim.Render(unit)
	}
	rows = append(rows, f.large(line, width, env)...)
	under, ink := f.Hint, st.Dim
	if f.Wrong != "" {
		under, ink = f.Wrong, st.Trouble
	}
	lines := widget.Words(f.offered(under), width, ink, g)
	for len(lines) < len(widget.Wrap(widget.Drawable(under, g), width)) { // what stands below does not jump
		lines = append(lines, ink.Render(""))
	}
	return append(rows, lines...)
}

// A typed text is in large letters from so tall a window on, on one of so many of its rows.
const roomyField, typedPart = 36, 6

// large is what is typed in large letters, where the window has the rows and it fits; else its line, on the same rows.
func (f Field) large(line string, width int, env Env) []string {
	if env.Height < roomyField {
		return []string{line}
	}
	high := env.Height / typedPart
	st, rows := env.Style, make([]string, high)
	caret := st.Now.Render(strings.Repeat(st.Glyphs.Full, 2))
	text, ink := widget.Drawable(f.Text, st.Glyphs), st.Digits
	if text == "" { // what Enter takes
		text, ink = widget.Drawable(f.proposed(), st.Glyphs), st.Dim
	}
	big := widget.Big(text, width-len("    ")-2, high, st.Glyphs)
	if f.Text != "" && (f.Behind > 0 || len(big) < leastTyped) {
		rows[high-1] = line
		return rows
	}
	if text == "" || len(big) < leastTyped {
		big = nil
	}
	for i, l := range big {
		if f.Text == "" { // behind the cursor
			l = "    " + l
		}
		rows[high-len(big)+i] = ink.Render(l)
	}
	if last := &rows[high-1]; f.Text == "" {
		*last = caret
		if len(big) > 0 {
			*last += ink.Render("  " + big[len(big)-1])
		}
	} else {
		*last += "  " + caret
	}
	if unit := widget.Drawable(f.offered(f.Unit), st.Glyphs); unit != "" && style.Width(rows[high-1])+2+style.Width(unit) <= width {
		rows[high-1] += "  " + st.Dim.Render(unit)
	}
	return rows
}

// leastTyped is how many rows such letters have at least.
const leastTyped = 3

// proposed is what Enter takes on an empty line, without what is said of it.
func (f Field) proposed() string {
	text, is := strings.CutPrefix(f.Hint, "Enter: ")
	if end := strings.IndexAny(text, ",;"); end >= 0 {
		text = text[:end]
	}
	if !is || strings.HasPrefix(text, "nothing") {
		return ""
	}
	return text
}

// offered is a hint without what Enter gives on an empty line, once something is typed.
func (f Field) offered(hint string) string {
	if f.Text == "" || !strings.HasPrefix(hint, "Enter: ") {
		return hint
	}
	_, other, _ := strings.Cut(hint, "; ")
	return other
}

// Choose puts a list with one line chosen onto a sheet; where not all of it has room the reason gives way.
func Choose(sheet *widget.Sheet, list []widget.Choice, at int, env Env) {
	columns, rows := env.Room(*sheet)
	if rows < len(list) {
		sheet.Why = ""
		columns, rows = env.Room(*sheet)
	}
	sheet.Add(widget.Pick(list, at, columns, max(rows, 3), env.Style))
}
