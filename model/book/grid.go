package book

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode/utf16"
	"unicode/utf8"

	"example.org/vatside/model/wording"
)

// cellMost is what the widespread spreadsheets keep of a cell, in UTF-16 units; they cut off the rest without a word.
const cellMost = 32_767

// Misread is one thing in a table that cannot be read, or that is to be told of it.
type Misread struct {
	File   string
	Line   int    // of the file, where the row or the cell begins; 0: the file as a whole
	Row    int    // of the spreadsheet; 1 is the head line, 0 is none
	Column string // empty: the row as a whole
	What   string // what is wrong and what would be right, a sentence without its full stop
}

// Error is the sentence, with its place before it.
func (m Misread) Error() string {
	at := m.File
	at += wording.If(m.Line > 0, fmt.Sprintf(":%d", m.Line))
	at += wording.If(m.Row > 0 && m.Row != m.Line, fmt.Sprintf(", row %d", m.Row))
	at += wording.If(m.Column != "", ", column "+m.Column)
	return at + ": " + m.What
}

// grid is a table of a spreadsheet: its rows, and the columns by name.
type grid struct {
	file  string
	names []string // of the columns
	rows  []gridRow
}

// gridRow is one row; lines are those on which its cells begin.
type gridRow struct {
	*grid
	row   int
	line  int
	cells []string
	lines []int
}

// at is the cell of a column, empty where the row has none.
func (r gridRow) at(column string) string {
	if i := slices.Index(r.names, column); i >= 0 && i < len(r.cells) {
		return unguard(r.cells[i])
	}
	return ""
}

// wrong tells of a cell, or with no column of the row.
func (r gridRow) wrong(column, format string, args ...any) *Misread {
	line := r.line
	if i := slices.Index(r.names, column); i >= 0 && i < len(r.lines) {
		line = r.lines[i]
	}
	return &Misread{r.file, line, r.row, column, fmt.Sprintf(format, args...)}
}

// readTable reads a table that has these columns, and maybe others, in any order. It takes a byte order mark, either sort
// of line ends, and semicolons or tabs for commas.
func readTable(file string, data []byte, needs ...string) (*grid, *Misread) {
	g := &grid{file: file}
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	if !utf8.Valid(data) {
		return g, &Misread{file, notUTF8(data), 0, "", "this line is not UTF-8; save the table as CSV in UTF-8"}
	}
	r := csv.NewReader(bytes.NewReader(data))
	r.Comma = comma(data)
	r.FieldsPerRecord = -1
	for n := 1; ; n++ {
		cells, err := r.Read()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return g, syntax(file, n, err)
		}
		row := gridRow{grid: g, row: n, cells: cells}
		for i := range cells {
			line, _ := r.FieldPos(i)
			row.lines = append(row.lines, line)
		}
		row.line = row.lines[0]
		if n == 1 {
			if wrong := g.head(row, needs); wrong != nil {
				return g, wrong
			}
			continue
		}
		if strings.Join(cells, "") == "" {
			continue // left below the last row by some programs
		}
		if len(cells) > len(g.names) {
			return g, row.wrong("", "this row has %d cells, and the head line has %d; a cell with a comma in it stands in quotes",
				len(cells), len(g.names))
		}
		for i, c := range cells {
			if len(c) >= cellMost && len(utf16.Encode([]rune(c))) == cellMost {
				return g, row.wrong(g.names[i], "this cell is %d characters long, where spreadsheets cut one off; "+
					"take it from a table that was not saved by one", cellMost)
			}
		}
		g.rows = append(g.rows, row)
	}
	if len(g.names) == 0 {
		return g, &Misread{file, 1, 0, "", "the table is empty; its head line names the columns " + strings.Join(needs, ", ")}
	}
	return g, nil
}

func (g *grid) head(row gridRow, needs []string) *Misread {
	for _, c := range row.cells {
		name := strings.ToLower(strings.TrimSpace(c))
		if name != "" && slices.Contains(g.names, name) {
			return &Misread{g.file, 1, 0, "", fmt.Sprintf("two columns are called %q; one is enough", name)}
		}
		g.names = append(g.names, name)
	}
	for _, n := range needs {
		if !slices.Contains(g.names, n) {
			what := fmt.Sprintf("there is no column %q; the head line names the columns %s", n, strings.Join(needs, ", "))
			return &Misread{g.file, 1, 0, "", what}
		}
	}
	return nil
}

// comma is what parts the cells of the first line.
func comma(data []byte) rune {
	first := data[:lineEnd(data, 0)]
	for _, c := range ",;\t" {
		if bytes.ContainsRune(first, c) {
			return c
		}
	}
	return ','
}

// notUTF8 is the first line, from 1, that is not UTF-8; 0: none.
func notUTF8(data []byte) int {
	line := 1
	for text := range bytes.Lines(data) {
		if !utf8.Valid(text) {
			break
		}
		line++
	}
	return line
}

// syntax is an error of the csv reader in our words.
func syntax(file string, row int, err error) *Misread {
	var parse *csv.ParseError
	if !errors.As(err, &parse) {
		return &Misread{file, 0, row, "", err.Error()}
	}
	what := `a quote stands where none can; a cell with quotes in it is written "so ""called"""`
	if errors.Is(parse.Err, csv.ErrQuote) && parse.Line != parse.StartLine {
		what = fmt.Sprintf(`a cell that begins with a quote in the row of line %d has no closing one; a quote within a cell is written ""`,
			parse.StartLine)
	}
	return &Misread{file, parse.Line, row, "", what}
}
