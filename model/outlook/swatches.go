package outlook

import (
	"slices"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/fibre"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/shade"
	"example.org/vatside/model/wording"
)

// swatches are all looks at cloth of known dips: of earlier days as they were carried, and of today.
func (b Blue) swatches(s day.State, now time.Time) []shade.Swatch {
	var out []shade.Swatch
	for _, c := range s.Head.Opening.Swatches {
		f, _ := fibre.Parse(c.Fibre)
		dip := shade.Dip{For: c.Dip, Confirmed: c.Sure, Temp: c.Temp, PH: quantity.PH(c.PH), PerLitre: c.PerLitre}
		w := shade.Swatch{Piece: shade.Piece{Fibre: f, Ground: shade.GroundOf(f), Tag: c.Tag}, Dips: slices.Repeat([]shade.Dip{dip}, min(max(c.Dips, 0), day.MostDips)),
			Wet: c.Wet, Unrinsed: c.Unrinsed, DaysAgo: max(0, wording.Nights(c.At.In(now.Location()), now))}
		if c.Ladder {
			w.Rung = c.Dips
		}
		if look(&w, c.Looks) {
			out = append(out, w)
		}
	}
	return append(out, wording.Each(b.looks(s), func(l seen) shade.Swatch { return l.swatch })...)
}

type seen struct {
	at     time.Time
	piece  day.Piece
	looks  string
	swatch shade.Swatch
}

// looks are those of today: at strips that were cut, and at pieces on their way.
func (b Blue) looks(s day.State) []seen {
	var out []seen
	for _, x := range s.Samples() {
		p, ok := s.Piece(x.Tag)
		done := b.done[x.Tag]
		if !ok || x.Dips < 1 || x.Dips > len(done) {
			continue
		}
		w := shade.Swatch{Piece: goods(p), Dips: done[:x.Dips:x.Dips], Wet: x.Wet, Unrinsed: !x.Rinsed}
		if x.Strip {
			w.Piece.Dry = 0
			if p.Spec.Form == Ladder {
				w.Rung = x.Dips
			}
		}
		if look(&w, x.Looks) {
			out = append(out, seen{x.At, p, x.Looks, w})
		}
	}
	return out
}

// look puts the words of a look into a swatch.
func look(w *shade.Swatch, words string) bool {
	l, err := day.ParseLook(words)
	if err != nil {
		return false
	}
	w.How, w.Name, w.Place, w.Error = l.How, l.Name, l.Place, l.Error
	switch {
	case l.How == shade.ByRung:
		w.Rung = l.Rung
	case l.Name == "":
		w.Lab, _ = l.ColourOn(w.Piece.Ground)
	}
	return true
}

// kept are the swatches that the next day takes over.
func (b Blue) kept(s day.State) []day.CarriedSwatch {
	out := slices.Clone(s.Head.Opening.Swatches)
	for _, l := range b.looks(s) {
		w := l.swatch
		if w.How == shade.ByRung && w.Piece.Tag == "" || len(w.Dips) == 0 {
			continue
		}
		c := day.CarriedSwatch{At: l.at, Tag: l.piece.Tag, Fibre: l.piece.Spec.Fibre, Ladder: l.piece.Spec.Form == Ladder, Dips: len(w.Dips), Looks: l.looks,
			Wet: w.Wet, Unrinsed: w.Unrinsed, Sure: true}
		for _, d := range w.Dips {
			c.Sure = c.Sure && d.Confirmed
		}
		// Means of what is known; a dip of an earlier day has its time alone.
		c.Dip = quantity.Minutes(round(mean(w.Dips, func(d shade.Dip) float64 { return d.For.Minutes() }), 10))
		c.Temp = quantity.Celsius(round(mean(w.Dips, func(d shade.Dip) float64 { return d.Temp.Celsius() }), 10))
		c.PH = round(mean(w.Dips, func(d shade.Dip) float64 { return float64(d.PH) }), 100)
		c.PerLitre = quantity.GramsPerLitre(round(mean(w.Dips, func(d shade.Dip) float64 { return d.PerLitre.GramsPerLitre() }), 1000))
		out = append(out, c)
	}
	return out[max(0, len(out)-mostKept):]
}

// mean is the mean of the values that are known, 0 where none is.
func mean(dips []shade.Dip, of func(shade.Dip) float64) float64 {
	sum, n := 0.0, 0.0
	for _, d := range dips {
		if v := of(d); v != 0 {
			sum, n = sum+v, n+1
		}
	}
	return sum / max(n, 1)
}
