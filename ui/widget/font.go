package widget

import (
	_ "embed" // the letters
	"strings"
	"sync"
	"unicode/utf8"
)

// glyph is one letter shape: rows of pixels, '#' where there is ink, '/' where it is cut to a slope that
// only larger sizes show.
type glyph []string

// font is a set of shapes of one height. All digits have one width, so that a countdown stands still.
type font struct {
	height int
	shapes func() map[rune]glyph
}

// shapesOf reads shapes at the first need: a line a letter, with its rows of #, / and . behind it.
func shapesOf(drawn *string) func() map[rune]glyph {
	return sync.OnceValue(func() map[rune]glyph {
		shapes := map[rune]glyph{}
		for line := range strings.Lines(*drawn) {
			letter, size := utf8.DecodeRuneInString(line)
			shapes[letter] = strings.Fields(line[size:])
		}
		return shapes
	})
}

// shape finds the drawing of a letter. The small font has no lower case and shows capitals instead.
func (f *font) shape(r rune) (glyph, bool) {
	switch r {
	case '–', '—', '−':
		r = '-'
	case '\u00a0':
		r = ' '
	}
	shapes := f.shapes()
	g, ok := shapes[r]
	if !ok && r >= 'a' && r <= 'z' {
		g, ok = shapes[r-'a'+'A']
	}
	return g, ok
}

// measure is how wide all letters of a text are together and how deep the deepest is, in pixels; no letters if not all have a drawing.
func (f *font) measure(text string) (wide, deep, letters int) {
	for _, r := range text {
		g, ok := f.shape(r)
		if !ok {
			return 0, 0, 0
		}
		wide, deep, letters = wide+len(g[0]), max(deep, len(g)), letters+1
	}
	return wide, deep, letters
}

// The tall font: 5 × 7. Strokes are one pixel, corners are cut by a diagonal step that scaling turns into a clean slope, so that 0, 6, 8
// and 9 stay apart from afar. Lower case is for units and words; its descenders take two more rows, so that a g is not read as a 9.
//
//go:embed letters_tall.txt
var tallLetters string

// The low font: 3 × 5, for tight rooms.
//
//go:embed letters_low.txt
var lowLetters string

var tall, low = font{7, shapesOf(&tallLetters)}, font{5, shapesOf(&lowLetters)}
