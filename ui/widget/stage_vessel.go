package widget

import (
	"math"

	"example.org/vatside/ui/style"
)

// ground is where a vessel stands: columns, and the rows of its rim and its floor. Whole: it takes all of the columns, for the cloths
// over it; else it is as wide as its shape has it, in their middle.
type ground struct {
	x, wide, rim, floor int
	whole               bool
}

// vessel paints the vat with what is in it.
func (c *canvas) vessel(v Vessel, a ground) bath {
	if v.Top <= 0 {
		v.Top, v.Floor = 0.8, 0.7
	}
	st, g := c.st, c.st.Glyphs
	rim, most := a.rim, a.wide
	rows := a.floor - rim
	wide := int(math.Round(max(v.Top, v.Floor) * float64(rows) * 2))
	if wide > most { // wide and low: not so low that nothing is seen in it
		rows = max(rows/2, int(math.Round(float64(most)/(2*max(v.Top, v.Floor)))))
		rim, wide = a.floor-rows, most
	}
	if wide = min(max(wide, 8), most); a.whole {
		wide = most
	}
	x := a.x + (most-wide)/2
	inset := func(y int) int { // by how much the wall stands in at a row
		top, floor := v.Top, v.Floor
		part := (float64(a.floor-y) - 0.5) / float64(rows)
		at := floor + (top-floor)*part
		return int(math.Round((1 - at/max(top, floor)) * float64(wide) / 2))
	}
	level := func(part float64) int { return int(math.Round(min(max(part, 0), 1) * float64(rows))) }
	deep := level(v.Fill)
	if v.Fill > 0 {
		deep = max(deep, 1)
	}
	top := a.floor - deep
	for y := rim; y < a.floor; y++ {
		in := inset(y)
		c.set(x+in, y, daub{glyph: g.Right, ink: st.Dim})
		c.set(x+wide-1-in, y, daub{glyph: g.Left, ink: st.Dim})
		if y > rim && !g.ASCII {
			for u := inset(y - 1); u < in; u++ { // where it steps in the wall is still one line
				c.set(x+u, y, daub{glyph: "▝", ink: st.Dim})
				c.set(x+u+1, y, daub{glyph: "▜", ink: st.Dim})
				c.set(x+wide-1-u, y, daub{glyph: "▘", ink: st.Dim})
				c.set(x+wide-2-u, y, daub{glyph: "▛", ink: st.Dim})
			}
		}
		if y >= top {
			c.fill(x+in+1, y, wide-2-2*in, 1, v.Liquor, "")
		}
	}
	in := inset(a.floor - 1)
	for u := x + in; u < x+wide-in; u++ {
		c.set(u, a.floor, daub{glyph: g.Upper, ink: st.Dim})
	}
	if n := level(v.Sediment); v.Sediment > 0 && deep > 2 {
		for y := a.floor - min(max(n, 1), deep/3+1); y < a.floor; y++ {
			i := inset(y)
			c.fill(x+i+1, y, wide-2-2*i, 1, settled(v.Liquor), "")
		}
	}
	if n := level(v.Rack); v.Rack > 0 && deep > 6 {
		y := a.floor - max(n, 2)
		c.fill(x+inset(y)+1, y, wide-2-2*inset(y), 1, folded(v.Liquor), "")
	}
	room := bath{top, a.floor, x + in + 1, x + wide - in - 1, v.Liquor}
	if v.Film && deep > 1 {
		i := inset(top)
		c.fill(x+i+1, top, wide-2-2*i, 1, film, g.Lower)
		if v.Skimmed {
			for u := x + i + 3; u < x+wide-3-i; u += 5 {
				c.fill(u, top, 2, 1, v.Liquor, g.Lower)
			}
		}
		room.top++
	}
	if deep > 2 {
		room.end--
	}
	if says := Drawable(v.Says, g); says != "" && top-1 >= rim {
		i := inset(top-1) + 2
		c.text(x+i, top-1, clip(fitParts(says, wide-2*i, ", ", false), wide-2*i, ""), st.Text)
	}
	if n := level(v.Next); v.Next > 0 && n > deep {
		y := a.floor - n
		i := inset(y) + 1
		for u := x + i; u < x+wide-i; u++ {
			c.set(u, y, daub{glyph: g.Coming, ink: st.Dim})
		}
		if mark := Drawable(v.Mark, g); y > rim {
			c.text(x+i+1, y-1, clip(mark, wide-2*i-2, ""), st.Dim)
		}
	}
	if v.Lid {
		for u := x; u < x+wide; u++ {
			c.set(u, rim-1, daub{glyph: g.Lower, ink: st.Text})
		}
	}
	return room
}

// bath is the room in the liquor: the first row and the row behind the last, the first column and that behind the last.
type bath struct {
	top, end, left, right int
	of                    style.Shade
}
