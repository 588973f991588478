package command

import (
	"os"
	"slices"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/book"
	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
)

// A look before the last dip is not how the piece was left; one in work has no more than its look.
func TestLikeOfPiecesInWork(t *testing.T) {
	home := rehearsed(t, 1)
	rewritten(t, home, "garden-bin", first(46)) // A1 is in the vat for the first time
	if pieces, _, _ := likeJSON(t, home, "--lab", "50,-5,-20"); len(pieces) != 0 {
		t.Errorf("nothing has come out yet: %v", tags(pieces))
	}
	out, _, code := run(t, home, "like", "--lab", "50,-5,-20")
	if code != 0 || !strings.Contains(out, "No piece of the book is of that kind.\n") || !strings.Contains(out, "Today in garden-bin: ") {
		t.Errorf("%d %s", code, out)
	}
	seen := false
	rewritten(t, rehearsedAt(t, home), "garden-bin", func(e day.Event) []day.Body { // A1 is out for the first time
		d, ok := e.Body.(day.DipEnded)
		if seen {
			return nil
		}
		seen = ok && d.Tag == "A1"
		return []day.Body{e.Body}
	})
	if pieces, _, _ := likeJSON(t, home, "--lab", "50,-5,-20"); len(pieces) != 0 {
		t.Errorf("a piece in work has no blue of its own: %v", tags(pieces))
	}
	if _, errs, code := run(t, home, "like", "--piece", "garden-bin/"+theDay+"/A1"); code != 1 ||
		errs != "vatside: --piece: A1 is not finished, and was not looked at dry and rinsed since its last dip\n" {
		t.Errorf("%d %s", code, errs)
	}
	for _, c := range []struct {
		dip   int
		known string
	}{{2, "depth"}, {4, "measured"}} {
		rewritten(t, rehearsedAt(t, home), "garden-bin", func(e day.Event) []day.Body {
			if d, ok := e.Body.(day.AiringEnded); ok && d.Tag == "A1" && d.Dip == c.dip {
				return []day.Body{d, seenAs("A1", "lab 50 -5 -20")}
			}
			return []day.Body{e.Body}
		})
		pieces, _, _ := likeJSON(t, home, "--lab", "50,-5,-20", "--fibre", "linen")
		if len(pieces) != 1 || pieces[0]["lab_known"] != c.known || (pieces[0]["de00"] == 0.0) != (c.known == "measured") {
			t.Errorf("looked at after dip %d of 4: %v", c.dip, pieces)
		}
	}
}

// rehearsedAt puts the rehearsed day back into a home.
func rehearsedAt(t *testing.T, home string) string {
	t.Helper()
	text, err := played()
	if err != nil {
		t.Fatal(err)
	}
	place(t, home, "garden-bin", theDay, text)
	return home
}

// A piece that is carried over stands once, on its last day, and keeps its look until it is dipped again.
func TestLikeOfCarriedPieces(t *testing.T) {
	home := rehearsed(t, 1)
	rewritten(t, home, "garden-bin", func(e day.Event) []day.Body {
		if f, ok := e.Body.(day.Finished); ok && f.Tag == "A1" {
			return []day.Body{day.CarriedOver{OfPiece: f.OfPiece, Dips: f.Dips}}
		}
		return []day.Body{e.Body}
	})
	if pieces, _, _ := likeJSON(t, home, "--lab", "50,-5,-20", "--fibre", "linen"); len(pieces) != 0 {
		t.Errorf("a piece on its way, never seen, has no blue: %v", tags(pieces))
	}
	rewritten(t, rehearsedAt(t, home), "garden-bin", func(e day.Event) []day.Body {
		if f, ok := e.Body.(day.Finished); ok && f.Tag == "A1" {
			return []day.Body{seenAs("A1", "lab 50 -5 -20"), day.CarriedOver{OfPiece: f.OfPiece, Dips: f.Dips}}
		}
		return []day.Body{e.Body}
	})
	data, _ := os.ReadFile(fileOf(home, "garden-bin", theDay))
	b := book.Read(theDay, data)
	s, _ := day.Replay(b.Head, b.Events)
	head := b.Head
	head.Day, head.Opening = "2026-11-27", day.Carry(s)
	next := func(bodies ...day.Body) {
		var events []day.Event
		for i, body := range bodies {
			events = append(events, day.Event{At: s.At.Add(24*time.Hour + time.Duration(i)*10*time.Minute), Body: body})
		}
		place(t, home, "garden-bin", head.Day, encoded(t, head, events))
	}
	a1, a2 := day.OfPiece{Tag: "A1"}, day.OfPiece{Tag: "A2"}
	again := []day.Body{day.Opened{How: "tend"}, day.WettedOut{OfPiece: a1}, day.DipBegun{OfPiece: a1, Dip: 5, For: quantity.Minutes(10)}, day.DipEnded{OfPiece: a1, Dip: 5},
		day.AiringEnded{OfPiece: a1, Dip: 5}, day.Finished{OfPiece: a1, Dips: 5}}
	for _, c := range []struct {
		name        string
		bodies      []day.Body
		day, known  string
		dips, likes float64
	}{
		{"no next day yet", nil, theDay, "measured", 4, 50},
		{"another piece was looked at", []day.Body{day.Opened{How: "tend"}, day.PieceAdded{OfPiece: a2, PieceSpec: day.PieceSpec{Fibre: "linen", Dry: 1}}, seenAs("A2", "lab 20 -1 -15"), day.Closed{}}, "2026-11-27", "measured", 4, 50},
		{"nothing done", []day.Body{day.Opened{How: "tend"}, day.Closed{}}, "2026-11-27", "measured", 4, 50},
		{"dipped again", append(slices.Clone(again), day.Closed{}), "2026-11-27", "depth", 5, 0},
		{"dipped again and seen", append(slices.Clone(again), seenAs("A1", "lab 35 -3 -21"), day.Closed{}), "2026-11-27", "measured", 5, 35},
	} {
		if c.bodies != nil {
			next(c.bodies...)
		}
		pieces, _, errs := likeJSON(t, home, "--lab", "50,-5,-20", "--fibre", "linen")
		if len(pieces) != 1 || pieces[0]["day"] != c.day || pieces[0]["lab_known"] != c.known || pieces[0]["dips"] != c.dips || errs != "" ||
			c.likes > 0 && pieces[0]["lab"].([]any)[0] != c.likes {
			t.Errorf("%s: %v %s", c.name, pieces, errs)
		}
		if _, _, code := run(t, home, "like", "--piece", "garden-bin/"+theDay+"/A1"); code != 0 {
			t.Errorf("%s: it is not found by its first day", c.name)
		}
	}
}

// Cloth dries over night: a look of the next day counts, unless that day has another piece of the tag.
func TestLikeSeenTheDayAfter(t *testing.T) {
	for _, c := range []struct {
		bodies []day.Body
		known  string
	}{
		{nil, "measured"},
		{[]day.Body{day.PieceAdded{OfPiece: day.OfPiece{Tag: "A1"}, PieceSpec: day.PieceSpec{Fibre: "silk", Dry: quantity.Grams(50)}}}, "depth"},
	} {
		home := rehearsed(t, 1)
		data, _ := os.ReadFile(fileOf(home, "garden-bin", theDay))
		b := book.Read(theDay, data)
		s, _ := day.Replay(b.Head, b.Events)
		head := b.Head
		head.Day, head.Opening = "2026-11-27", day.Carry(s)
		var events []day.Event
		for i, body := range slices.Concat([]day.Body{day.Opened{How: "tend"}}, c.bodies, []day.Body{seenAs("A1", "lab 50 -5 -20"), day.Closed{}}) {
			events = append(events, day.Event{At: s.At.Add(24*time.Hour + time.Duration(i)*time.Minute), Body: body})
		}
		place(t, home, "garden-bin", head.Day, encoded(t, head, events))
		pieces, _, errs := likeJSON(t, home, "--lab", "50,-5,-20", "--fibre", "linen")
		if len(pieces) != 1 || pieces[0]["day"] != theDay || pieces[0]["lab_known"] != c.known || errs != "" {
			t.Errorf("%v %s", pieces, errs)
		}
	}
}
