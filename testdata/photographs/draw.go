package photographs

import (
	"math/rand/v2"

	"example.org/vatside/model/wording"
)

// Truth is what a photograph of Draw shows.
type Truth struct {
	Rungs  []int   // on the places, in their order
	Pieces []int   // in the holes: so many dips each
	Cloth  []Cloth // the same as Pieces
	Glare  bool    // within a window
	// Reason is why it cannot be read, "" where it can.
	Reason string
}

func between(r *rand.Rand, a, b float64) float64 { return a + (b-a)*r.Float64() }

// Draw is a shot that can be read, by whatever light and hand: tilt to 40°, light to 3:1, warm and cool, noise, blur, JPEG of 60
// to 95, sometimes glare, sometimes bluish brightened paper.
func Draw(c Card, r *rand.Rand) (Shot, Truth) {
	s := Plain(r)
	t := Truth{}
	s.W = []int{640, 800, 1024, 1200}[r.IntN(4)]
	s.H = s.W * 3 / 4
	s.Tilt, s.Toward, s.Turn = between(r, 0, 40), between(r, 0, 360), between(r, 0, 360)
	s.Fill = between(r, 0.6, 0.95)
	s.Uneven, s.From = between(r, 1, 3), between(r, 0, 360)
	warm := between(r, -1, 1)
	s.Light = Cloth{1 + 0.35*max(warm, 0) - 0.25*max(-warm, 0), 1, 1 - 0.45*max(warm, 0) + 0.3*max(-warm, 0)}
	s.Level = between(r, 0.4, 0.72)
	s.Noise = between(r, 0.01, 0.08)
	s.Blur = between(r, 0, 1.6) * float64(s.W) / 1000
	s.Quality = 60 + r.IntN(36)
	if r.IntN(4) == 0 {
		s.Paper = Cloth{0.83, 0.86, 0.93}
	}
	s.Around = [3]Cloth{{0.2, 0.25, 0.35}, {0.5, 0.45, 0.4}, {0.03, 0.05, 0.12}}[r.IntN(3)]
	strength, power, dull := between(r, 0.7, 2.5), between(r, 0.75, 1.1), between(r, 0.9, 1.5)
	of := func(n int) Cloth {
		c := Indigo(float64(n), strength, power, dull)
		for i, f := 0, 1+0.03*r.NormFloat64(); i < 3; i++ { // no two swatches are the same
			c[i] *= f
		}
		return c
	}
	t.Rungs = [][]int{{1, 3, 5}, {1, 2, 4, 8}, {1, 2, 3, 4, 5, 6}, {1, 3, 5, 8}, {2, 4, 6, 8}}[r.IntN(5)]
	for _, n := range t.Rungs {
		cloth := of(n)
		s.Ladder = append(s.Ladder, &cloth)
	}
	s.Pieces = nil
	low, high := t.Rungs[0], t.Rungs[len(t.Rungs)-1]
	for range c.Holes {
		n := low + r.IntN(high-low+1)
		t.Pieces = append(t.Pieces, n)
		s.Pieces = append(s.Pieces, of(n))
	}
	t.Cloth = s.Pieces
	if r.IntN(8) == 0 {
		t.Glare = true
		h := c.hole(r.IntN(c.Holes))
		s.Glare = &[3]float64{h.x + between(r, 0, h.w), h.y + between(r, 0, h.h), between(r, 0.2, 1)}
	}
	return s, t
}

// hole is a hole of the card.
func (c Card) hole(no int) rect {
	r, _ := wording.First(c.rects, func(r rect) bool { return r.class == "hole" && r.no == no })
	return r
}

// Spoilt is a shot that cannot be read, for one reason each time, in the reader's words for it.
func Spoilt(c Card, r *rand.Rand, no int) (Shot, Truth) {
	s, t := Draw(c, r)
	s.Glare, t.Glare = nil, false
	s.Fill, s.Tilt = between(r, 0.8, 0.95), between(r, 0, 25)
	middle := c.hole(1 + r.IntN(2))
	switch no % 8 {
	case 0:
		t.Reason, s.Blur = "blur", between(r, 9, 20)*float64(s.W)/1000
	case 1:
		t.Reason, s.W, s.H, s.Blur = "too few pixels", 160, 120, 0
	case 2:
		t.Reason, s.Fill = "no card", 0.01 // it is far away
	case 3:
		t.Reason, s.Cover = "no card", &[4]float64{-5, -5, 24, 30} // a hand on a mark
	case 4:
		t.Reason, s.Level = "clipped", between(r, 2.4, 4)
	case 5:
		x := middle.x + between(r, 0.2, 0.8)*middle.w
		t.Reason, s.Shadow = "shadow edge", &x
	case 6:
		t.Reason, s.Glare = "glare", &[3]float64{middle.x + middle.w/2, middle.y + middle.h/2, between(r, 0.7, 1.2)}
	case 7:
		t.Reason = "paper not white"
		s.Paper = [2]Cloth{{0.85, 0.5, 0.6}, {0.45, 0.8, 0.4}}[r.IntN(2)]
	}
	return s, t
}
