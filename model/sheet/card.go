package sheet

import (
	"example.org/vatside/model/photo"
	"example.org/vatside/model/wording"
)

// OfCard is the card with windows for a piece of a vat; both may be empty.
func OfCard(vat, piece string) Sheet {
	s := Sheet{Title: "Card for the eye", Edge: "#ffffff",
		Foot: "Print at 100 %, on plain white matt paper. Photograph it flat with all four corner marks in the picture: vatside look PHOTO --rungs 1,3,5 reads it."}
	s.Add(Paragraph{"Cut out the four holes of the middle row. Fix your own rungs on the outlined places, the palest first, row by row. " +
		"Lay the card over dry cloth in open shade, away from walls of colour, and look through the holes: between which rungs is it?"},
		Mask{Of: wording.Joined(", piece ", vat, piece), Code: photo.CodeOf(vat, piece)})
	return s
}
