package main

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"unicode/utf8"

	"example.org/vatside/testdata/bench/emulator"
	"example.org/vatside/testdata/bench/internal/apart"
)

// ownColours are those of a terminal: what is written where no colour is asked for, and behind it.
type ownColours struct{ ink, ground color.Color }

// themes are those that the pictures can have. Each is chosen in the settings, so that the program paints its own ground; the
// terminal's own colours stand only where it leaves one.
var themes = map[string]ownColours{
	"dark":  {color.RGBA{0xe0, 0xe0, 0xe0, 255}, color.RGBA{0x10, 0x10, 0x18, 255}},
	"light": {color.RGBA{0x18, 0x18, 0x18, 255}, color.RGBA{0xfa, 0xfa, 0xf5, 255}},
	"sun":   {color.RGBA{0, 0, 0, 255}, color.RGBA{0xff, 0xff, 0xff, 255}},
}

// margin is how far the grounds of the outermost cells go on around them, in pixels.
const margin = 16

// paint paints the cells of a screen. It tells of each glyph that it cannot paint.
func paint(s *emulator.Screen, cols, rows int, own ownColours) (*image.Paletted, error) {
	img := image.NewPaletted(image.Rect(-margin, -margin, cols*cellWidth+margin, rows*cellHeight+margin), nil)
	colours := map[color.RGBA]uint8{}
	index := func(c color.RGBA) (uint8, error) {
		i, ok := colours[c]
		if !ok {
			if len(img.Palette) == 256 {
				return 0, fmt.Errorf("the screen has more than 256 colours")
			}
			i = uint8(len(img.Palette))
			img.Palette, colours[c] = append(img.Palette, c), i
		}
		return i, nil
	}
	for y := range rows {
		for x := range cols {
			c := s.Cell(x, y)
			if c.Width != 1 {
				return nil, fmt.Errorf("row %d, column %d: %q is %d cells wide", y+1, x+1, c.Text, c.Width)
			}
			ink, err := glyph(c)
			if err != nil {
				return nil, fmt.Errorf("row %d, column %d: %w", y+1, x+1, err)
			}
			front, back, err := colouring(c.Look, own)
			if err != nil {
				return nil, fmt.Errorf("row %d, column %d: %w", y+1, x+1, err)
			}
			for dy := range cellHeight {
				for dx := range cellWidth {
					i, err := index(mixed(front, back, ink(dx, dy)))
					if err != nil {
						return nil, err
					}
					img.SetColorIndex(x*cellWidth+dx, y*cellHeight+dy, i)
				}
			}
		}
	}
	for y := -margin; y < rows*cellHeight+margin; y++ {
		for x := -margin; x < cols*cellWidth+margin; x++ {
			near := image.Pt(min(max(x, 0), cols*cellWidth-1), min(max(y, 0), rows*cellHeight-1))
			if near == (image.Point{X: x, Y: y}) {
				continue
			}
			_, ground, err := colouring(s.Cell(near.X/cellWidth, near.Y/cellHeight).Look, own)
			if err != nil {
				return nil, err
			}
			i, err := index(ground)
			if err != nil {
				return nil, err
			}
			img.SetColorIndex(x, y, i)
		}
	}
	return img, nil
}

// glyph is how much of its ink a cell has in a pixel.
func glyph(c emulator.Cell) (func(x, y int) int, error) {
	r, n := utf8.DecodeRuneInString(c.Text)
	at, ok := block(r)
	if r == ' ' || c.Attrs&emulator.Hidden != 0 {
		at, ok = func(int, int) int { return 0 }, true
	}
	if !ok {
		at, ok = lettering().ink(r, c.Attrs&emulator.Bold != 0)
	}
	if !ok || n != len(c.Text) {
		return nil, fmt.Errorf("there is no picture of %q", c.Text)
	}
	if c.Attrs&(emulator.Underline|emulator.Strike) == 0 {
		return at, nil
	}
	return func(x, y int) int {
		if c.Attrs&emulator.Underline != 0 && y/2 == (cellHeight-4)/2 || c.Attrs&emulator.Strike != 0 && y/2 == cellHeight/4 {
			return steps
		}
		return at(x, y)
	}, nil
}

// colouring is the colours of a cell's ink and ground.
func colouring(l emulator.Look, own ownColours) (ink, ground color.RGBA, err error) {
	if l.Ink == nil {
		l.Ink = own.ink
	}
	if l.Ground == nil {
		l.Ground = own.ground
	}
	if l.Attrs&emulator.Reverse != 0 {
		l.Ink, l.Ground = l.Ground, l.Ink
	}
	if ink, err = rgb(l.Ink); err != nil {
		return
	}
	if ground, err = rgb(l.Ground); err != nil {
		return
	}
	if l.Attrs&emulator.Faint != 0 {
		ink = mixed(ink, ground, (steps+1)/2)
	}
	return
}

// rgb is a colour that was asked for as RGB; the pictures are of a terminal that shows all.
func rgb(c color.Color) (color.RGBA, error) {
	out, is := c.(color.RGBA)
	if !is {
		return out, fmt.Errorf("the colour %v is not RGB", c)
	}
	return out, nil
}

// mixed is so much of an ink, 0 to steps, on a ground. The pixels of letters are mixed as they are stored, as terminals do.
func mixed(ink, ground color.RGBA, n int) color.RGBA {
	of := func(i, g uint8) uint8 { return uint8((int(i)*n + int(g)*(steps-n) + steps/2) / steps) }
	return color.RGBA{of(ink.R, ground.R), of(ink.G, ground.G), of(ink.B, ground.B), 0xff}
}

func encoded(img image.Image) []byte {
	var b bytes.Buffer
	apart.Must((&png.Encoder{CompressionLevel: png.BestCompression}).Encode(&b, img))
	return b.Bytes()
}
