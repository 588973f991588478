package widget

import (
	"math"

	"example.org/vatside/ui/style"
)

// paint fills pixels, margin and marks.
func (p *plot) paint() {
	p.pixels = make([][]ink, 2*p.rows)
	for y := range p.pixels {
		p.pixels[y] = make([]ink, p.cols)
	}
	for x := range p.cols {
		if sound(p.likely[x]) {
			p.upright(x, p.pixel(p.high[x]), p.pixel(p.low[x]), mist)
		}
		if sound(p.past[x]) {
			p.upright(x, p.pixel(p.past[x]), 2*p.rows-1, body)
		}
	}
	p.line(p.other, second)
	p.line(p.past, surface)
	p.line(p.likely, surface)
	if p.now >= 0 && p.now < p.cols {
		y := 2*p.rows - 2
		for _, v := range []float64{p.past[p.now], p.likely[p.now]} {
			if sound(v) {
				y = min(y, p.pixel(v))
			}
		}
		p.upright(p.now, y, 2*p.rows-1, present)
	}
	p.marks = map[[2]int]bool{}
	for _, r := range p.Readings {
		if x, ok := p.column(r.When); ok && sound(r.Value) {
			p.marks[[2]int{p.pixel(r.Value) / 2, x}] = true
		}
	}
	p.paintLevels()
	p.placeName()
}

func (p *plot) upright(x, from, to int, with ink) {
	for y := from; y <= to; y++ {
		p.pixels[y][x] = max(p.pixels[y][x], with)
	}
}

// line draws one value a column; a step from column to column is filled in the higher of the two.
func (p *plot) line(values []float64, with ink) {
	shown := func(x int) bool { return with != second || x%dash < dashOn }
	for x, v := range values {
		if !sound(v) {
			continue
		}
		y := p.pixel(v)
		if shown(x) {
			p.upright(x, y, y, with)
		}
		if x == 0 || !sound(values[x-1]) {
			continue
		}
		switch before := p.pixel(values[x-1]); {
		case before > y && shown(x):
			p.upright(x, y, before-1, with)
		case before < y && shown(x-1):
			p.upright(x-1, before, y-1, with)
		}
	}
}

// paintLevels gives the outermost levels their rows first: of two in one row the outer one stays.
func (p *plot) paintLevels() {
	p.labels, p.dotted = make([]string, p.rows), make([]bool, p.rows)
	put := func(l Level, through bool) {
		if row := p.pixel(l.Value) / 2; p.labels[row] == "" {
			p.labels[row], p.dotted[row] = p.levelText(l), through
		}
	}
	if n := len(p.Bands); n > 0 {
		put(p.Bands[0], true)
		put(p.Bands[n-1], true)
		for _, l := range p.Bands[:n-1] { // those in the middle, without dots
			put(l, false)
		}
		return
	}
	// No levels given: two round figures, so that the scale can be read.
	step := math.Pow(10, math.Floor(math.Log10(p.top-p.bottom)))
	for _, part := range []float64{10, 5, 2, 1, 0.5, 0.2, 0.1} {
		from, to := math.Ceil(p.bottom/(step*part)), math.Floor(p.top/(step*part))
		if to > from {
			for _, v := range []float64{to, from} {
				if l := (Level{Value: v * step * part}); len(p.levelText(l)) < p.margin {
					put(l, false)
				}
			}
			return
		}
	}
}

// placeName finds a place for the second forecast's name: over its end or under it, touching nothing.
func (p *plot) placeName() {
	name := Drawable(p.OtherName, p.st.Glyphs)
	w := style.Width(name)
	end := p.cols - 1
	for end >= 0 && !sound(p.other[end]) {
		end--
	}
	if name == "" || end < 0 || w > p.cols {
		return
	}
	for _, least := range []ink{bare, mist} { // better not even over the mist
		for x := min(end+1, p.cols) - w; x > max(p.now, 0) && x > end-3*w; x-- {
			middle := p.other[min(x+w/2, end)]
			if !sound(middle) {
				continue
			}
			under := p.pixel(middle)
			for _, row := range []int{under/2 - 1, under/2 + 1} {
				if p.free(row, x, w, least) {
					p.name, p.nameRow, p.nameColumn = name, row, x
					return
				}
			}
		}
	}
}

// free tells whether nothing above an ink stands in some cells of a row, nor beside them.
func (p *plot) free(row, from, w int, least ink) bool {
	if row < 0 || row >= p.rows || p.dotted[row] {
		return false
	}
	for x := max(from-1, 0); x < min(from+w+1, p.cols); x++ {
		if p.pixels[2*row][x] > least || p.pixels[2*row+1][x] > least || p.marks[[2]int{row, x}] {
			return false
		}
	}
	return true
}
