package screen

import (
	"slices"
	"strconv"

	"example.org/vatside/model/day"
	"example.org/vatside/model/outlook"
	"example.org/vatside/ui/library"
	"example.org/vatside/ui/style"
	"example.org/vatside/ui/widget"
)

// HungOf are the pieces of a day by their pegs, each in the blue that was seen or named for it, else in that of its forecast or of its
// dips as usual; the peg of one in the vat is empty. Of a closed day they are those that were dipped. blue may be nil.
func HungOf(s day.State, blue *outlook.Blue) []widget.Cloth {
	var out []widget.Cloth
	for i, p := range s.Pieces {
		if p.Dips == 0 && s.Closed || p.Phase == day.Dropped || p.Phase == day.Carried || p.Spec.Form == outlook.Ladder {
			continue
		}
		says, brief := "hangs", ""
		switch p.Phase {
		case day.Dry:
			says = "dry"
		case day.Wet:
			says = "wet"
		case day.InVat:
			says, brief = "in the vat", "in"
		case day.Airing:
			says = "airing"
		case day.FinishedPiece:
			says = "done"
			if next, ok := s.BenchNext(p); ok {
				says = next.Wants()
			}
		}
		out = append(out, widget.Cloth{Tag: p.Tag, Peg: i + 1, Blue: blueOf(s, p, blue), Says: says, Brief: brief, In: p.Phase == day.InVat, Dips: strconv.Itoa(p.Dips) + " of " + strconv.Itoa(max(p.Want(), p.Dips))})
	}
	return out
}

func blueOf(s day.State, p day.Piece, blue *outlook.Blue) style.Shade {
	for _, x := range slices.Backward(s.Samples()) {
		if x.Tag != p.Tag || x.Wet || !x.Rinsed || x.Dips != p.Dips {
			continue
		}
		if l, err := day.ParseLook(x.Looks); err == nil {
			if lab, ok := l.ColourOn(library.GroundOf(p.Spec.Fibre)); ok {
				return style.Dyed(lab)
			}
		}
	}
	if part, known := style.DepthFraction(p.Spec.Depth); known && p.Phase == day.FinishedPiece {
		return style.Cloth(part)
	}
	if blue != nil && blue.Claim != "" {
		if c, ok := blue.Pieces[p.Tag]; ok {
			return After(c, p.Dips)
		}
	}
	return ClothOf(p.Dips)
}
