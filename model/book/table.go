package book

import (
	"bytes"
	"encoding/csv"
	"strings"
	"unicode"

	"example.org/vatside/model/wording"
)

// The book as tables for a spreadsheet. Days and events hold all of the book, so that it can be made again from them;
// pieces and readings are told from those, to be looked at. A table is UTF-8 without a byte order mark, as RFC 4180 has
// it: commas, CRLF after each row, a head line with the names of the columns. Head and fields are the book's own bytes, so that
// nothing is lost in a copy; Import refuses those that cannot be shown. The columns to be looked at are as they are shown.
//
// A spreadsheet takes a cell that begins with = + - or @ for a formula, and 007 or 1e5 for a number. Such a text gets an
// apostrophe in front, and so does one that has an apostrophe there already; reading takes one away again. Columns of
// numbers have none.

// Leaf is one day's file as text, with the folder and the name that it stands under.
type Leaf struct {
	Vat, Day string
	Text     []byte
}

// Path is the leaf's name, vat/day.
func (l Leaf) Path() string { return l.Vat + "/" + l.Day }

// Table is one file of a spreadsheet.
type Table struct {
	Name string // of the file
	Rows int    // without the head line
	Text []byte
}

// The names of the tables' files.
const (
	DaysFile     = "days.csv"
	EventsFile   = "events.csv"
	PiecesFile   = "pieces.csv"
	ReadingsFile = "readings.csv"
)

// TableFiles are the names of all the tables, in the order in which Export gives them.
var TableFiles = []string{DaysFile, EventsFile, PiecesFile, ReadingsFile}

// A number column is one that holds numbers alone, and is marked so behind its name here.
const numberMark = "#"

var columns = map[string][]string{
	DaysFile:   {"vat", "day", "name", "recipe", "fill_l#", "zone", "opened", "closed", "events#", "head"},
	EventsFile: {"vat", "day", "seq#", "at", "boot", "up#", "kind", "fields", "sentence"},
	PiecesFile: {"vat", "day", "tag", "what", "fibre", "dry_g#", "depth", "who", "dips#", "first_in", "last_out", "in_vat_min#",
		"last_look", "state", "finished"},
	ReadingsFile: {"vat", "day", "seq#", "at", "temp_c#", "ph#", "ph_temp_c#", "strip_s#", "below_rim_cm#", "holds_l#", "of"},
}

type tableWriter struct {
	Table
	number []bool
	buf    bytes.Buffer
	rows   *csv.Writer
}

func newTable(name string) *tableWriter {
	t := &tableWriter{Table: Table{Name: name, Rows: -1}}
	t.rows = csv.NewWriter(&t.buf)
	t.row(wording.Each(columns[name], func(c string) string { return strings.TrimSuffix(c, numberMark) })...)
	for _, c := range columns[name] {
		t.number = append(t.number, strings.HasSuffix(c, numberMark))
	}
	return t
}

// row writes one row. Only a row ends in CRLF: a line feed within a cell stays one, as the spreadsheets themselves write it.
func (t *tableWriter) row(cells ...string) {
	for i, c := range cells {
		if t.number == nil || !t.number[i] {
			cells[i] = guard(c)
		}
	}
	_ = t.rows.Write(cells) // into memory: it cannot fail
	t.rows.Flush()
	t.buf.Truncate(t.buf.Len() - 1)
	t.buf.WriteString("\r\n")
	t.Rows++
}

func (t *tableWriter) done() Table {
	t.Text = t.buf.Bytes()
	return t.Table
}

// risky is a text that a spreadsheet would take for something else; the apostrophe is there so that guard can be undone.
var risky = wording.Pattern(`^(?:[=+\-@\t\r']|0\d+$|\d+[eE]\d+$)`)

// guard makes a cell harmless.
func guard(cell string) string {
	if risky().MatchString(cell) {
		return "'" + cell
	}
	return cell
}

// unguard is what guard was given.
func unguard(cell string) string {
	if rest, ok := strings.CutPrefix(cell, "'"); ok && risky().MatchString(rest) {
		return rest
	}
	return cell
}

// oneLine is a text to be looked at in a cell.
func oneLine(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsControl(r) || r == '\u2028' || r == '\u2029' {
			return ' '
		}
		return r
	}, s)
}
