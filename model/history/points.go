package history

import (
	"cmp"
	"maps"
	"slices"
	"time"

	"example.org/vatside/model/colour"
	"example.org/vatside/model/day"
	"example.org/vatside/model/fibre"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/shade"
	"example.org/vatside/model/sorted"
)

// Temps is a temperature of the liquor at a time. The zero value was never read.
type Temps struct {
	At    time.Time
	Temp  quantity.Temperature
	Known outlook.Known
}

// PHs is a pH of the liquor at a time.
type PHs struct {
	At    time.Time
	PH    quantity.PH
	Known outlook.Known
}

// Strips is how long a strip stayed yellow.
type Strips struct {
	At     time.Time
	Stayed quantity.Span
	Known  outlook.Known
}

// Swatch is a strip of cloth that was judged, after so many dips.
type Swatch struct {
	At    time.Time
	Tag   string
	Dips  int // 0: not said
	Looks string
	Lab   colour.Lab
	KS    shade.KS      // its depth on its own ground
	Known outlook.Known // Measured by a meter or a photograph, Guessed by eye
}

// Points are what was read of a vat over its life, each series the oldest first.
type Points struct {
	Temps    []Temps
	PHs      []PHs
	Strips   []Strips
	Swatches []Swatch
}

// PointsOf are the points of all days. Only what was read or judged is a point; a swatch that was judged by a rung has the
// colour that the rung itself was last judged to have, and is left out where that is not known.
func PointsOf(v Vat) Points {
	var p Points
	rungs := map[int]colour.Lab{}
	for i := range v {
		for e := range v[i].State.Corrected() {
			switch b := e.Body.(type) {
			case day.Reading:
				if b.Temp != nil && b.Of == "" {
					p.Temps = append(p.Temps, Temps{e.At, *b.Temp, outlook.Measured})
				}
				if b.PH != nil && b.Of == "" {
					p.PHs = append(p.PHs, PHs{e.At, quantity.PH(*b.PH), outlook.Measured})
				}
			case day.StripTest:
				p.Strips = append(p.Strips, Strips{e.At, b.Stayed, outlook.Measured})
			case day.SwatchJudged:
				if s, ok := judged(v[i].State, b, rungs); ok {
					s.At = e.At
					p.Swatches = append(p.Swatches, s)
				}
			}
		}
	}
	return p
}

// judged is a swatch as it was judged; a rung of the ladder is remembered.
func judged(s day.State, b day.SwatchJudged, rungs map[int]colour.Lab) (Swatch, bool) {
	l, err := day.ParseLook(b.Looks)
	if err != nil {
		return Swatch{}, false
	}
	piece, _ := s.Piece(b.Swatch)
	f, _ := fibre.Parse(piece.Spec.Fibre) // unknown counts as cotton
	g := shade.GroundOf(f)
	out := Swatch{Tag: b.Swatch, Dips: b.Dips, Looks: b.Looks, Known: outlook.Measured}
	lab, ok := l.ColourOn(g)
	if l.How == shade.ByRung {
		lab, ok = rungs[l.Rung]
	} else if ok && piece.Spec.Form == outlook.Ladder {
		rungs[b.Dips] = lab
	}
	if l.How == shade.ByRung || l.How == shade.ByEye {
		out.Known = outlook.Guessed
	}
	out.Lab = lab
	out.KS, _ = g.Depth(lab)
	return out, ok
}

// Compared are the swatches that can be set beside one another: those of the number of dips that was judged on most days,
// the fewest of such numbers.
func (p Points) Compared() []Swatch {
	days := map[int]map[string]bool{}
	for _, s := range p.Swatches {
		if days[s.Dips] == nil {
			days[s.Dips] = map[string]bool{}
		}
		days[s.Dips][s.At.Format(time.DateOnly)] = true
	}
	dips := slices.Collect(maps.Keys(days))
	if len(dips) == 0 {
		return nil
	}
	sorted.By(dips, func(a, b int) int { return cmp.Or(cmp.Compare(len(days[b]), len(days[a])), cmp.Compare(a, b)) })
	return slices.DeleteFunc(slices.Clone(p.Swatches), func(s Swatch) bool { return s.Dips != dips[0] })
}
