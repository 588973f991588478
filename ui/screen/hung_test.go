package screen_test

import (
	"testing"

	"example.org/vatside/model/day"
	"example.org/vatside/ui/screen"
)

// Of an open day all pieces have their pegs, those in the vat an empty one; of a closed day those that were dipped hang.
func TestWhatHangs(t *testing.T) {
	s := day.State{Pieces: []day.Piece{
		{Tag: "A1", Phase: day.InVat, Dips: 1}, {Tag: "B1", Phase: day.Dropped, Dips: 1}, {Tag: "C1", Phase: day.Dry}, {Tag: "D1", Phase: day.FinishedPiece, Dips: 4, Spec: day.PieceSpec{Depth: "navy", Dips: 4}},
	}}
	got := screen.HungOf(s, nil)
	if len(got) != 3 || !got[0].In || got[1].In || got[1].Says != "dry" || got[2].Peg != 4 || got[2].Dips != "4 of 4" {
		t.Errorf("open: %+v", got)
	}
	if deep, pale := got[2].Blue.Colour, screen.ClothOf(4).Colour; deep == pale {
		t.Error("a finished piece is not in the blue that was named for it")
	}
	s.Closed = true
	if got := screen.HungOf(s, nil); len(got) != 2 || got[0].Tag != "A1" || got[1].Tag != "D1" {
		t.Errorf("closed: %+v", got)
	}
}
