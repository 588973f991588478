package paper

import (
	"fmt"

	"example.org/vatside/model/photo"
	"example.org/vatside/model/sheet"
	"example.org/vatside/model/wording"
)

// mask draws the card at its own size. Only its marks and its code are black: the paper around the windows is what the light is
// read from, so that lines there are thin and pale.
func (h *page) mask(k sheet.Mask) {
	h.put("<svg class=\"mask\" width=\"%gmm\" height=\"%gmm\" viewBox=\"0 0 %[1]g %[2]g\" shape-rendering=\"crispEdges\">\n", photo.Width, photo.Height)
	h.put("<style>.mask { display: block; break-inside: avoid; -webkit-print-color-adjust: exact; print-color-adjust: exact; } " +
		".mask .ink { fill: #000; } .mask .paper { fill: #fff; } .mask .hole, .mask .place { fill: none; stroke: #999; stroke-width: 0.2; } " +
		".mask .hole { stroke-dasharray: 2 1.5; } .mask text { font-size: 3px; fill: #444; text-anchor: middle; }</style>\n")
	rect := func(class string, s photo.Square) {
		h.put("<rect class=\"%s\" x=\"%g\" y=\"%g\" width=\"%g\" height=\"%g\"/>\n", class, s.X, s.Y, s.Side, s.Side)
	}
	for _, m := range photo.Marks() {
		module := m.Side / 7
		rect("ink", m)
		rect("paper", m.Inset(module))
		rect("ink", m.Inset(2*module))
	}
	for _, c := range k.Code.Cells() {
		rect("ink", c)
	}
	for _, w := range photo.Windows() {
		if w.Hole {
			rect("hole", w.Square)
			h.put("<text x=\"%g\" y=\"%g\">cut out</text>\n", w.X+w.Side/2, w.Y+w.Side/2+1)
			continue
		}
		rect("place", w.Square)
		y := wording.Either(w.Row > 1, w.Y+w.Side+8.5, w.Y-6.5)
		h.put("<text x=\"%g\" y=\"%g\">rung ____</text>\n", w.X+w.Side/2, y)
	}
	h.some(fmt.Sprintf("<text x=\"%g\" y=\"4\">%%s</text>\n", photo.Width/2), k.Of)
	h.put("</svg>\n")
}

// aDrawing is what text and Markdown say in place of the card, which is a drawing.
const aDrawing = "The card is a drawing: write it as HTML and print that, vatside sheet --what card -o card.html."
