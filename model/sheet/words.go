package sheet

import (
	"fmt"
	"strings"
	"time"

	"example.org/vatside/model/colour"
	"example.org/vatside/model/day"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/shade"
	"example.org/vatside/model/wording"
)

// Marks says what the signs behind a figure mean.
const Marks = "Behind a figure: = measured, ~ reckoned, ? guessed."

// edge is the cloth's edge where no cloth was dyed: dark on white cotton.
func edge() string { return ofDepth("dark").Hex }

// ofDepth is a depth's likely colour on white cotton.
func ofDepth(name string) Swatch {
	d, err := shade.ByName(name)
	if err != nil {
		return Swatch{}
	}
	return blue(shade.White.Colour(shade.Band(d).Likely), shade.White)
}

// depthOf names the depth of cloth that was dipped: pale where it is too little to be told from undyed, as of silk after a short dip.
func depthOf(s shade.KS) string {
	if n := shade.Name(s); n != shade.Name(0) {
		return n
	}
	return "pale"
}

// blue is a colour of dry cloth that was dipped, as a swatch: what a screen or a printer can show of it, and the name of its depth.
func blue(lab colour.Lab, on shade.Ground) Swatch {
	s, _ := on.Depth(lab)
	return Swatch{Hex: lab.RGB().Clip().Hex(), Name: depthOf(s)}
}

// seen says how the colour of a piece is known.
func seen(k outlook.Known) string { return [...]string{"", "as seen", "by its dips", "as wished"}[k] }

// clock is a time of day; nothing for the zero time.
func clock(t time.Time) string {
	if t.IsZero() {
		return ""
	}
	return day.Clock(t)
}

// clockOf is a time of a day's sheet: with its date where that is not the one on which the day was opened; nothing for the zero time.
func clockOf(s day.State, t time.Time) string {
	if t.IsZero() || s.Opened.IsZero() {
		return clock(t)
	}
	return day.DateOf(t, s.Opened)
}

// between are two figures with a word between them, the unit once where both have the same: "8 to 35 °C". Where they are the
// same it is one.
func between(a, b, word string) string {
	if a == b {
		return a
	}
	number, unit, one := strings.Cut(a, " ")
	if _, other, _ := strings.Cut(b, " "); one && unit == other {
		a = number
	}
	return a + word + b
}

// from is a time from the start as hours and minutes, 1:05.
func from(s quantity.Span) string {
	m := int(s.Duration().Round(time.Minute) / time.Minute)
	return fmt.Sprintf("%d:%02d", m/60, m%60)
}

// sentences are the texts as sentences, the empty ones left out.
func sentences(list ...string) []string {
	return wording.Filled(wording.Each(list, wording.Sentence)...)
}

func text(s string) Cell { return Cell{Text: s} }

func texts(words ...string) []Cell { return wording.Each(words, text) }

// columns are heads: with figures under those that begin with a star, with whole cells under those that begin with a bar.
func columns(heads ...string) []Column {
	return wording.Each(heads, func(h string) Column {
		name, figures := strings.CutPrefix(h, "*")
		name, whole := strings.CutPrefix(name, "|")
		return Column{name, figures, whole}
	})
}

// lightness is L* of a swatch.
func lightness(hex string) float64 {
	c, err := colour.ParseHex(hex)
	if err != nil {
		return 100
	}
	return c.Lab().L
}
