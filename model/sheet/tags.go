package sheet

import (
	"example.org/vatside/model/day"
	"example.org/vatside/model/load"
	"example.org/vatside/model/photo"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/wording"
)

// TagsOf are the labels of pieces that are to be dyed.
func TagsOf(pieces []load.Piece, sys quantity.System) Tags {
	return Tags{wording.Each(pieces, func(p load.Piece) Tag {
		return Tag{Tag: p.Tag, Who: p.Who, Words: goods(p.Dry, p.Fibre.String(), p.What, p.Dips, sys), Boxes: p.Dips}
	})}
}

// TagsOfDay are the labels of a day's pieces, those that were dropped left out, with the dips behind each.
func TagsOfDay(s day.State) Tags {
	var t Tags
	for _, p := range s.Pieces {
		if p.Phase == day.Dropped {
			continue
		}
		n := max(p.Want(), p.Dips)
		t.List = append(t.List, Tag{Tag: p.Tag, Who: p.Spec.Who, Words: goods(p.Spec.Dry, p.Spec.Fibre, p.Spec.What, n, s.Head.Setup.System()), Boxes: min(n, day.MostDips), Done: p.Dips})
	}
	return t
}

func goods(dry quantity.Mass, fibre, what string, dips int, sys quantity.System) string {
	return wording.Joined(" ", dry.Format(sys), fibre, what) + ", " + wording.Counted(dips, "dip")
}

// OfTags is a page of labels to print and cut.
func OfTags(title string, t Tags) Sheet {
	s := Sheet{Title: "Tags", Subtitle: title, Edge: edge(), Foot: "Cut along the dashes."}
	s.Add(t)
	return s
}

// OfCard is the card with windows for a piece of a vat; both may be empty.
func OfCard(vat, piece string) Sheet {
	s := Sheet{Title: "Card for the eye", Edge: "#ffffff",
		Foot: "Print at 100 %, on plain white matt paper. Photograph it flat with all four corner marks in the picture: vatside look PHOTO --rungs 1,3,5 reads it."}
	s.Add(Paragraph{"Cut out the four holes of the middle row. Fix your own rungs on the outlined places, the palest first, row by row. " +
		"Lay the card over dry cloth in open shade, away from walls of colour, and look through the holes: between which rungs is it?"},
		Mask{Of: wording.Joined(", piece ", vat, piece), Code: photo.CodeOf(vat, piece)})
	return s
}
