package photo

import "math"

// mapping takes a point of the card to a point of the picture: a homography, row by row, the last number 1.
type mapping [9]float64

func (m mapping) of(p Point) Point {
	w := m[6]*p.X + m[7]*p.Y + m[8]
	return Point{(m[0]*p.X + m[1]*p.Y + m[2]) / w, (m[3]*p.X + m[4]*p.Y + m[5]) / w}
}

// mapped is the mapping that takes four points to four others; false where three lie in a line.
func mapped(from, to [4]Point) (mapping, bool) {
	var a [8][9]float64
	for i := range 4 {
		x, y, u, v := from[i].X, from[i].Y, to[i].X, to[i].Y
		a[2*i] = [9]float64{x, y, 1, 0, 0, 0, -u * x, -u * y, u}
		a[2*i+1] = [9]float64{0, 0, 0, x, y, 1, -v * x, -v * y, v}
	}
	for c := range 8 { // Gauss and Jordan, by the largest pivot
		best := c
		for r := c; r < 8; r++ {
			if math.Abs(a[r][c]) > math.Abs(a[best][c]) {
				best = r
			}
		}
		if a[c], a[best] = a[best], a[c]; math.Abs(a[c][c]) < 1e-9 {
			return mapping{}, false
		}
		for r := range 8 {
			if f := a[r][c] / a[c][c]; r != c {
				for k := c; k < 9; k++ {
					a[r][k] -= f * a[c][k]
				}
			}
		}
	}
	m := mapping{8: 1}
	for i := range 8 {
		m[i] = a[i][8] / a[i][i]
	}
	return m, true
}

// found is where a card lies on a picture.
type found struct {
	at    mapping
	code  Code
	coded bool // the code's check sum is right
	pixel float64
}

// lies tries which four of the marks are the card's, and which way up: the one in which the code's first cells and its check
// sum are right. At most the largest eight marks are tried.
func lies(g grey, by int, marks []mark) (found, bool) {
	marks = marks[:min(len(marks), 8)]
	best, most := found{}, 13 // of the first 16 cells, and 16 for the check sum
	n := len(marks)
	for a := range n {
		for b := a + 1; b < n; b++ {
			for c := b + 1; c < n; c++ {
				for d := c + 1; d < n; d++ {
					for _, corners := range ways([4]Point{marks[a].Point, marks[b].Point, marks[c].Point, marks[d].Point}) {
						f, score := tried(g, corners)
						if score > most {
							best, most = f, score
						}
					}
				}
			}
		}
	}
	if most < 14 {
		return found{}, false
	}
	for i := range 6 { // to pixels of the picture itself
		best.at[i] *= float64(by)
	}
	best.pixel *= float64(by)
	return best, true
}

// ways are the eight ways in which four corners may be a card's, clockwise and mirrored; none where they make no convex figure.
func ways(p [4]Point) (out [][4]Point) {
	c := Point{(p[0].X + p[1].X + p[2].X + p[3].X) / 4, (p[0].Y + p[1].Y + p[2].Y + p[3].Y) / 4}
	angle := func(i int) float64 { return math.Atan2(p[i].Y-c.Y, p[i].X-c.X) }
	for i := range 4 {
		for j := range i {
			if angle(i) < angle(j) {
				p[i], p[j] = p[j], p[i]
			}
		}
	}
	for i := range 4 {
		a, b, c := p[i], p[(i+1)%4], p[(i+2)%4]
		if (b.X-a.X)*(c.Y-b.Y)-(b.Y-a.Y)*(c.X-b.X) <= 0 {
			return nil
		}
	}
	for i := range 4 {
		out = append(out, [4]Point{p[i], p[(i+1)%4], p[(i+2)%4], p[(i+3)%4]}, [4]Point{p[i], p[(i+3)%4], p[(i+2)%4], p[(i+1)%4]})
	}
	return out
}

// tried takes corners for a card's, and tells how much of the code fits: cells of the first 16, and 16 for the check sum.
func tried(g grey, corners [4]Point) (found, int) {
	var from [4]Point
	for i, m := range Marks() {
		from[i] = m.middle()
	}
	m, ok := mapped(from, corners)
	if !ok {
		return found{}, 0
	}
	var cells [codeRow * codeColumn]bool
	for i := range cells {
		s := cellAt(i)
		// Paper and ink beside the code: the light falls on it unevenly.
		paper := max(g.mean(m, Square{s.X, codeY - cell, cell}), g.mean(m, Square{s.X, codeY + codeRow*cell, cell}))
		cells[i] = g.mean(m, s) < 0.62*paper
	}
	f := found{at: m}
	f.code, f.coded = decoded(cells[:])
	// The shorter side of a window in the middle, in pixels.
	o, x, y := m.of(Point{Width / 2, Height / 2}), m.of(Point{Width/2 + WindowSide, Height / 2}), m.of(Point{Width / 2, Height/2 + WindowSide})
	f.pixel = min(math.Hypot(x.X-o.X, x.Y-o.Y), math.Hypot(y.X-o.X, y.Y-o.Y))
	score := uprightCells(cells[:])
	if f.coded {
		score += 16
	}
	return f, score
}

// mean is the mean brightness within the middle of a square of the card.
func (g grey) mean(m mapping, s Square) float64 {
	sum, n := 0.0, 0.0
	for _, u := range [3]float64{0.35, 0.5, 0.65} {
		for _, v := range [3]float64{0.35, 0.5, 0.65} {
			p := m.of(Point{s.X + u*s.Side, s.Y + v*s.Side})
			if p.X >= 0 && p.Y >= 0 && p.X < float64(g.w) && p.Y < float64(g.h) {
				sum, n = sum+float64(g.pix[int(p.Y)*g.w+int(p.X)]), n+1
			}
		}
	}
	return sum / max(n, 1)
}
