package outlook

import (
	"sync"

	"example.org/vatside/model/colour"
	"example.org/vatside/model/day"
	"example.org/vatside/model/shade"
)

// Looks is how a piece of a day looks, dry and rinsed: by the last look at it or at the strip cut after its last dip, else as
// it was wished, else as its dips give it in that vat. false for a tag that the day does not have, or a day without a vat.
func Looks(s day.State, tag string) (lab colour.Lab, known Known, ok bool) { return LooksOf(s)(tag) }

// Looker tells the looks of the pieces of one day.
type Looker func(tag string) (lab colour.Lab, known Known, ok bool)

// LooksOf is Looks for the pieces of one day: what is the same for all is reckoned once, when the first is asked for.
func LooksOf(s day.State) Looker {
	blues := sync.OnceValue(func() Blue { return Blues(s, Of(s, s.At), s.At) })
	words := sync.OnceValue(func() map[string]string { return lastLooks(s) })
	return func(tag string) (lab colour.Lab, known Known, ok bool) {
		p, there := s.Piece(tag)
		if !there || !day.Filled(s) {
			return colour.Lab{}, Unknown, false
		}
		ground, b := goods(p).Ground, blues()
		if l, err := day.ParseLook(words()[tag]); words()[tag] != "" && err == nil {
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
}

// lastLooks are the words of the last look at each piece after its last dip, dry and rinsed, or at the strip cut after it.
func lastLooks(s day.State) map[string]string {
	words := map[string]string{}
	for _, x := range s.Samples() {
		if p, ok := s.Piece(x.Tag); ok && x.Rinsed && !x.Wet && x.Dips == p.Dips {
			words[x.Tag] = x.Looks
		}
	}
	return words
}
