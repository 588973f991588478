package photo

import (
	"math"

	"example.org/vatside/model/sorted"
)

// mark is the middle of what looks like a corner mark, and the side of its square, in pixels.
type mark struct {
	Point
	side float64
}

// part is one connected part of a picture in black and white.
type part struct {
	area, sumX, sumY       int
	left, top, right, down int
	startX, startY         int // its first pixel, row by row
}

func (p part) middle() Point {
	return Point{float64(p.sumX)/float64(p.area) + 0.5, float64(p.sumY)/float64(p.area) + 0.5}
}

func (p part) side() int { return max(p.right-p.left, p.down-p.top) + 1 }

// marks are all that look like corner marks, the largest first: a dark middle in a light ring in a dark ring. reach is how far
// around a pixel it is asked what is light there.
func (g grey) marks(reach int) []mark {
	dark := g.dark(reach)
	label, parts := connected(dark, g.w, g.h)
	labelAt := func(x, y int) int {
		if x < 0 || y < 0 || x >= g.w || y >= g.h {
			return -1
		}
		return int(label[y*g.w+x])
	}
	var out []mark
	for i, dot := range parts {
		if dot.area < 5 || !dark[dot.startY*g.w+dot.startX] || dot.side() > max(g.w, g.h)/6 {
			continue
		}
		light := labelAt(dot.startX, dot.startY-1)
		if light < 0 || parts[light].area > 6*dot.area || !around(parts[light], dot) {
			continue
		}
		ring := labelAt(parts[light].startX, parts[light].startY-1)
		if ring < 0 || ring == i || !around(parts[ring], parts[light]) {
			continue
		}
		// 3 × 3, 5 × 5 less 3 × 3, 7 × 7 less 5 × 5 modules: 9, 16, 24. Blur and light move them.
		r := float64(parts[ring].area)
		if a, b := float64(dot.area)/r, float64(parts[light].area)/r; a < 0.12 || a > 1.1 || b < 0.3 || b > 2.4 {
			continue
		}
		c, side := dot.middle(), float64(parts[ring].side())
		o := parts[ring].middle()
		if math.Hypot(c.X-o.X, c.Y-o.Y) > 0.12*side {
			continue
		}
		out = append(out, mark{c, side})
	}
	sorted.By(out, func(a, b mark) int { return int(math.Copysign(1, b.side-a.side)) })
	return out
}

// around tells whether one part's bounds hold another's.
func around(a, b part) bool {
	return a.left < b.left && a.top < b.top && a.right > b.right && a.down > b.down
}

// dark are the pixels clearly darker than the mean of their surroundings.
func (g grey) dark(reach int) []bool {
	sum := make([]uint32, (g.w+1)*(g.h+1)) // of all above and left
	for y := range g.h {
		row := uint32(0)
		for x := range g.w {
			row += uint32(g.pix[y*g.w+x])
			sum[(y+1)*(g.w+1)+x+1] = sum[y*(g.w+1)+x+1] + row
		}
	}
	out := make([]bool, g.w*g.h)
	for y := range g.h {
		up, down := max(0, y-reach)*(g.w+1), min(g.h, y+reach+1)*(g.w+1)
		rows := min(g.h, y+reach+1) - max(0, y-reach)
		for x := range g.w {
			l, r := max(0, x-reach), min(g.w, x+reach+1)
			mean := int(sum[down+r]-sum[down+l]-sum[up+r]+sum[up+l]) / (rows * (r - l))
			out[y*g.w+x] = int(g.pix[y*g.w+x])*100 < mean*80
		}
	}
	return out
}

// connected are the connected parts of what is dark and of what is light, and each pixel's part.
func connected(dark []bool, w, h int) (label []int32, parts []part) {
	label = make([]int32, w*h)
	var up []int32 // of each label the one that it is joined to
	root := func(i int32) int32 {
		for up[i] != i {
			up[i] = up[up[i]]
			i = up[i]
		}
		return i
	}
	for i := range dark {
		x, own := i%w, int32(-1)
		if x > 0 && dark[i-1] == dark[i] {
			own = root(label[i-1])
		}
		if i >= w && dark[i-w] == dark[i] {
			above := root(label[i-w])
			if own >= 0 && own != above {
				up[max(own, above)] = min(own, above)
				above = min(own, above)
			}
			own = above
		}
		if own < 0 {
			own = int32(len(up))
			up = append(up, own)
		}
		label[i] = own
	}
	number := make([]int32, len(up))
	for i := range up {
		number[i] = -1
	}
	for i := range label {
		r := root(label[i])
		x, y := i%w, i/w
		if number[r] < 0 {
			number[r] = int32(len(parts))
			parts = append(parts, part{left: x, top: y, right: x, down: y, startX: x, startY: y})
		}
		label[i] = number[r]
		p := &parts[number[r]]
		p.area, p.sumX, p.sumY = p.area+1, p.sumX+x, p.sumY+y
		p.left, p.right, p.down = min(p.left, x), max(p.right, x), y
	}
	return label, parts
}
