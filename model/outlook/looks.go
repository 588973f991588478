package outlook

import (
	"example.org/vatside/model/colour"
	"example.org/vatside/model/day"
	"example.org/vatside/model/shade"
)

// Looks is how a piece of a day looks, dry and rinsed: by the last look at it or at the strip cut after its last dip, else as
// it was wished, else as its dips give it in that vat. false for a tag that the day does not have, or a day without a vat.
func Looks(s day.State, tag string) (lab colour.Lab, known Known, ok bool) {
	p, there := s.Piece(tag)
	if !there || !day.Filled(s) {
		return colour.Lab{}, Unknown, false
	}
	ground := goods(p).Ground
	b := Blues(s, Of(s, s.At), s.At)
	words := ""
	for _, e := range s.Told() {
		switch e := e.Body.(type) {
		case day.DipEnded:
			if e.Tag == tag {
				words = "" // what was seen before another dip is no longer so
			}
		case day.LookedAt:
			if e.Tag == tag && e.Rinsed && !e.Wet {
				words = e.Looks
			}
		case day.SwatchJudged:
			if e.Swatch == tag && e.Dips == p.Dips {
				words = e.Looks
			}
		}
	}
	if l, err := day.ParseLook(words); words != "" && err == nil {
		if lab, ok := l.ColourOn(ground); ok {
			return lab, Measured, true
		}
		if lab, ok := b.rungs[l.Rung]; ok {
			return lab, Measured, true
		}
	}
	if w := b.wish(p); w != nil {
		return ground.Colour(w.Aim(ground)), Guessed, true
	}
	if n := len(b.done[tag]); n > 0 {
		step := b.all.Forecast(goods(p), b.vat, b.done[tag][n-1].For, b.done[tag][:n-1], 1, nil)
		return step[0].Lab, Reckoned, true
	}
	return ground.Colour(shade.KS(0)), Guessed, true
}
