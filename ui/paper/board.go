package paper

import (
	_ "embed"
	"fmt"
	"strings"

	"example.org/vatside/model/wording"
)

// Board is whose turn it is on a day, as a page for a second screen. It has times of day and nothing that counts, so that time alone
// never changes it.
type Board struct {
	Vat   string
	Call  string      // what the hands are asked for
	At    string      // until when its time runs; empty: none runs
	Notes []string    // what else all are to know
	Turns []BoardTurn // in the order of the turns
	Done  string      // when the last piece is done
}

// BoardTurn is a person, or a piece of nobody, with the next turn.
type BoardTurn struct {
	Who, Piece string
	When       string // the next turn: "out 10:42", "in 10:50", "waits"
	Dip        string // "2 of 4"
	Ends       string // when it is done, when the last of the person's pieces is, and when the person leaves: "done 14:10, leaves 15:00"
	In         bool   // the piece is in the vat
}

// BoardMark begins each page of a board: a file without it is none of the program's.
const BoardMark = "<!DOCTYPE html>\n<!-- a board of vatside, written anew as the day runs -->\n"

// boardStyle fills a screen with the rows, however many they are: LINE is the height of one. A page fetches nothing and runs nothing.
//
//go:embed board.css
var boardStyle string

// Rows of a board that a screen holds beside its rows of turns, and the most that the height of a line is of the screen's.
const (
	boardBeside  = 4
	boardTallest = 10 // in hundredths of its height
)

// Page is the board as one HTML file, well-formed XML too, that reads itself again each ten seconds. changed is when it last said
// something else, as a time of day: who sees a board that stands still knows how old it is.
func (b Board) Page(changed string) wording.Page {
	h := &page{}
	line := min(boardTallest, 72/(len(b.Turns)+boardBeside))
	h.put("%s<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\"/>\n<meta http-equiv=\"refresh\" content=\"10\"/>\n", BoardMark)
	h.put("<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'\"/>\n")
	h.put("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>\n<title>%s</title>\n", text(b.Vat))
	h.put("<style>\n%s</style>\n</head>\n<body>\n", strings.ReplaceAll(boardStyle, "LINE", fmt.Sprintf("min(%dvh, 3.6vw)", max(line, 2))))
	till := wording.If(b.At != "", fmt.Sprintf("<b>till %s</b> ", text(b.At)))
	h.put("<h1>%s%s</h1>\n", till, text(b.Call))
	for _, n := range b.Notes {
		h.put("<p>%s</p>\n", text(n))
	}
	if len(b.Turns) > 0 {
		h.put("<table>\n<tbody>\n")
		for _, t := range b.Turns {
			class := wording.If(t.In, " class=\"in\"")
			h.put("<tr%s><td>%s</td><td>%s</td><td>%s</td><td>%s</td><td>%s</td></tr>\n", class, text(t.Who), text(t.When), text(t.Piece), told("dip ", t.Dip), text(t.Ends))
		}
		h.put("</tbody>\n</table>\n")
	}
	h.some("<p>All done %s</p>\n", b.Done)
	h.put("<p class=\"under\">%s, as of %s</p>\n</body>\n</html>\n", text(b.Vat), text(changed))
	return wording.ShowPage(h.b.String())
}

// told is a value with its word before it; nothing where there is no value.
func told(word, value string) string {
	return wording.If(value != "", word+text(value))
}
