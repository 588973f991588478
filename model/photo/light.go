package photo

import (
	"image"
	"math"
	"slices"
)

// paper is the light on the unprinted paper around a window: in each channel a plane over the card.
type paper struct {
	plane   [3][3]float64 // value = plane[0] + plane[1] x + plane[2] y, x and y from the window's middle
	uneven  float64       // the largest part by which a patch of paper is off the plane, with its sign
	clipped float64       // part of the patches that are whiter than the picture can tell
	ok      bool
}

// The paper is asked in patches of patchSide, from near on, outside the edge of the window: nearer there may be a cut, a
// shadow of the paper on the cloth, or blur.
const (
	near      = 2.0
	patchSide = 4.0
)

// paperAround reads the paper around a window.
func paperAround(img image.Image, m mapping, w Window) paper {
	type patch struct {
		x, y float64
		seen
	}
	var patches []patch
	clips, all := 0.0, 0.0
	c := w.middle()
	reach := w.Side/2 + near + patchSide/2
	const along = 8
	for i := range along {
		t := -reach + 2*reach*float64(i)/along
		for _, o := range [4]Point{{t, -reach}, {reach, t}, {-t, reach}, {-reach, -t}} {
			var values [3][]float64
			clipped := 0
			for k := range 16 {
				p := Point{c.X + o.X + patchSide*(float64(k%4)/4-0.375), c.Y + o.Y + patchSide*(float64(k/4)/4-0.375)}
				s, clip, ok := at(img, m.of(p))
				if !ok {
					return paper{}
				}
				if clip {
					clipped++
				}
				for ch := range 3 {
					values[ch] = append(values[ch], s[ch])
				}
			}
			all++
			if clipped > 5 {
				clips++
			}
			q := patch{x: o.X, y: o.Y}
			for ch := range 3 {
				slices.Sort(values[ch])
				for _, v := range values[ch][4:12] {
					q.seen[ch] += v / 8
				}
			}
			patches = append(patches, q)
		}
	}
	out := paper{clipped: clips / all, ok: true}
	for ch := range 3 {
		// The patches lie evenly around the middle: the sums of x, of y and of x y are nought.
		var n, sx, sy, sum, xs, ys float64
		for _, q := range patches {
			n, sum, xs, ys = n+1, sum+q.seen[ch], xs+q.x*q.seen[ch], ys+q.y*q.seen[ch]
			sx, sy = sx+q.x*q.x, sy+q.y*q.y
		}
		out.plane[ch] = [3]float64{sum / n, xs / sx, ys / sy}
		if !(out.plane[ch][0] > 0) {
			return paper{}
		}
		for _, q := range patches {
			off := q.seen[ch]/max(out.at(ch, q.x, q.y), 1e-6) - 1
			if ch == 1 && math.Abs(off) > math.Abs(out.uneven) {
				out.uneven = off
			}
		}
	}
	return out
}

// at is the light of a channel at a place from the window's middle.
func (p paper) at(ch int, x, y float64) float64 {
	return p.plane[ch][0] + p.plane[ch][1]*x + p.plane[ch][2]*y
}

// tinted tells whether the paper and its light are off what white paper is under daylight or a lamp: those lie near a line,
// redder as they are less blue, which leaves green in the middle of both. Set by testdata/bench/photo.
func (p paper) tinted() bool {
	r, g, b := p.plane[0][0], p.plane[1][0], max(p.plane[2][0], 1e-6)
	green, warm := g/math.Sqrt(max(r*b, 1e-9)), r/b
	return green < 0.82 || green > 1.25 && warm < 3 || warm > 8 || warm < 0.3
}

// edgeWidth is how far an edge of black on white is spread, in millimetres: its whole step over its steepest part, the middle
// of those of the four marks. It takes in blur, shake and how few pixels there are.
func edgeWidth(img image.Image, m mapping) float64 {
	const step, most = 0.25, 3.0 // from 3 mm outside the mark to 3 mm, the width of the ring, inside
	var widths []float64
	for _, s := range Marks() {
		c := s.middle()
		for _, d := range [4]Point{{1, 0}, {-1, 0}, {0, 1}, {0, -1}} {
			var line []float64
			for t := -most; t <= most; t += step {
				sum, n := 0.0, 0.0
				for side := -6.0; side <= 6; side++ {
					r := s.Side/2 - t
					v, _, ok := at(img, m.of(Point{c.X + d.X*r + d.Y*side, c.Y + d.Y*r + d.X*side}))
					if ok {
						sum, n = sum+v[1], n+1
					}
				}
				line = append(line, sum/max(n, 1))
			}
			steepest := 1e-9
			for i := 2; i < len(line); i++ {
				steepest = max(steepest, (line[i-2]-line[i])/(2*step))
			}
			widths = append(widths, (slices.Max(line)-slices.Min(line))/steepest)
		}
	}
	slices.Sort(widths)
	return widths[len(widths)/2]
}
