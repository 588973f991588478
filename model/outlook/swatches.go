package outlook

import (
	"slices"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/fibre"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/shade"
)

// swatches are all looks at cloth of known dips: of earlier days as they were carried, and of today.
func (b Blue) swatches(s day.State, now time.Time) []shade.Swatch {
	var out []shade.Swatch
	for _, c := range s.Head.Opening.Swatches {
		f, _ := fibre.Parse(c.Fibre)
		dip := shade.Dip{For: c.Dip, Confirmed: c.Sure, Temp: c.Temp, PH: quantity.PH(c.PH), PerLitre: c.PerLitre}
		w := shade.Swatch{Piece: shade.Piece{Fibre: f, Ground: shade.GroundOf(f), Tag: c.Tag}, Dips: slices.Repeat([]shade.Dip{dip}, min(max(c.Dips, 0), day.MostDips)),
			Wet: c.Wet, Unrinsed: c.Unrinsed, DaysAgo: daysBetween(c.At, now)}
		if c.Ladder {
			w.Rung = c.Dips
		}
		if look(&w, c.Looks) {
			out = append(out, w)
		}
	}
	for _, l := range b.looks(s) {
		out = append(out, l.swatch)
	}
	return out
}

// seen is one look of today.
type seen struct {
	at     time.Time
	piece  day.Piece
	looks  string
	swatch shade.Swatch
}

// looks are those of today: at strips that were cut, and at pieces on their way.
func (b Blue) looks(s day.State) []seen {
	dips := map[string]int{} // so far, in the order of the book
	for _, p := range s.Pieces {
		dips[p.Tag] = p.Spec.Had
	}
	var out []seen
	add := func(at time.Time, tag, looks string, n int, wet, unrinsed, cut bool) {
		p, ok := s.Piece(tag)
		done := b.done[tag]
		if !ok || n < 1 || n > len(done) {
			return
		}
		w := shade.Swatch{Piece: goods(p), Dips: done[:n:n], Wet: wet, Unrinsed: unrinsed}
		if cut {
			w.Piece.Dry = 0
			if p.Spec.Form == Ladder {
				w.Rung = n
			}
		}
		if look(&w, looks) {
			out = append(out, seen{at, p, looks, w})
		}
	}
	for _, e := range s.Corrected() {
		switch e := e; b := e.Body.(type) {
		case day.DipEnded:
			dips[b.Tag]++
		case day.LookedAt:
			add(e.At, b.Tag, b.Looks, dips[b.Tag], b.Wet, !b.Rinsed, false)
		case day.SwatchJudged:
			add(e.At, b.Swatch, b.Looks, b.Dips, false, false, true)
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
	w.How, w.Name = l.How, l.Name
	switch {
	case l.How == shade.ByRung:
		w.Rung = l.Rung
	case l.Name == "":
		w.Lab, _ = l.ColourOn(w.Piece.Ground)
	}
	return true
}

func daysBetween(a, b time.Time) int {
	y, m, d := a.In(b.Location()).Date()
	first := time.Date(y, m, d, 0, 0, 0, 0, time.UTC)
	y, m, d = b.Date()
	return max(0, int(time.Date(y, m, d, 0, 0, 0, 0, time.UTC).Sub(first)/(24*time.Hour)))
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
