package piece

import (
	"fmt"
	"slices"
	"strconv"

	"example.org/vatside/model/day"
	"example.org/vatside/model/fibre"
	"example.org/vatside/model/shade"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/library"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/style"
	"example.org/vatside/ui/widget"
)

// fibres are those that the recipe is for, then the others.
func fibres(s day.State) []fibre.Fibre {
	var list, others []fibre.Fibre
	for _, f := range fibre.All() {
		if suits(s, f) {
			list = append(list, f)
		} else {
			others = append(others, f)
		}
	}
	return append(list, others...)
}

func suits(s day.State, f fibre.Fibre) bool {
	names := s.Head.Recipe.Fibres
	return len(names) == 0 || slices.ContainsFunc(names, func(name string) bool {
		g, err := fibre.Parse(name)
		return err == nil && g == f
	})
}

var forms = []struct{ word, says string }{
	{"cloth", "flat goods, opened at every airing"},
	{"skein", "yarn on a stick, turned"},
	{"garment", "sewn; seams air longest"},
	{"bound", "tied or clamped; airs 20 min or more"},
	{"pasted", "paste resist: not soaked, hung still"},
	{"tight", "close cloth, canvas: long first dip"},
}

func (p piece) choices(d engine.View, c day.AddPiece) []widget.Choice {
	var list []widget.Choice
	add := func(text, aside string) {
		list = append(list, widget.Choice{Text: strconv.Itoa(len(list)+1) + "  " + text, Aside: aside})
	}
	switch p.at {
	case goods:
		for _, f := range fibres(d.State) {
			aside := wording.If(!suits(d.State, f), "this recipe is not made for it")
			add(f.String(), aside)
		}
	case depth:
		answers := p.answers(d, c)
		for _, sh := range shade.Depths() {
			aside := dipsOf(sh)
			if a, ok := answers[sh.Name]; ok {
				aside = a.Short()
			}
			add(sh.Name, aside)
			blue := named(sh, c.Spec.Fibre)
			list[len(list)-1].Colour = &blue
		}
		add("a number of dips", "you say it")
		add("like a rung, or a colour", "typed")
	case form:
		for _, f := range forms {
			add(f.word, f.says)
		}
	}
	return list
}

// named is cloth of a fibre in the blue of a depth.
func named(d shade.Depth, fibre string) style.Shade {
	return style.Dyed(library.GroundOf(fibre).Colour(shade.Band(d).Likely))
}

// blue is the piece in the blue that was chosen for it; undyed before one was.
func (p piece) blue(c day.AddPiece) style.Shade {
	depths := shade.Depths()
	switch at := p.picked(depth); {
	case p.at < depth || p.byWish():
		return style.Dyed(library.GroundOf(c.Spec.Fibre).Undyed())
	case p.byNumber():
		return screen.ClothOf(c.Spec.Dips)
	default:
		return named(depths[at], c.Spec.Fibre)
	}
}

func dipsOf(sh shade.Depth) string {
	out := wording.Counted(sh.Dips, "dip")
	out += wording.If(sh.DipsLow != sh.DipsHigh, fmt.Sprintf(", %d–%d", sh.DipsLow, sh.DipsHigh))
	return out
}
