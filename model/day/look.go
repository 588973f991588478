package day

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"example.org/vatside/model/colour"
	"example.org/vatside/model/shade"
	"example.org/vatside/model/wording"
)

// Look is what a cloth was seen to be: one of the ways in which a blue is told.
type Look struct {
	How      shade.How
	Lab      colour.Lab // by meter or photo, as read at Observer
	Observer colour.Observer
	Rung     int      // like this rung of the ladder
	Name     string   // a depth's name
	KS       shade.KS // an instrument's K/S of the dye, else 0
	Place    float64  // between two rungs of the ladder, such as 4.3, Rung the nearest; else 0
	Error    float64  // standard deviation of Lab (CIEDE2000) or of Place (rungs); 0: not said, the usual of its How
}

// cutError takes "±2.5" or "+-2.5" off the end of a look: the standard deviation of what is told.
func cutError(s string) (rest string, e float64, err error) {
	for _, sign := range []string{"±", "+-", "+/-"} {
		before, after, found := strings.Cut(s, sign)
		if !found {
			continue
		}
		e, err := strconv.ParseFloat(strings.TrimSpace(after), 64)
		if err != nil || !(e > 0 && e <= 50) {
			return s, 0, fmt.Errorf("an error is a number above 0 and up to 50, such as ±2.5, not %q", strings.TrimSpace(after))
		}
		return strings.TrimSpace(before), e, nil
	}
	return s, 0, nil
}

// ParseLook reads the words of a look: "rung 5" (by eye, beside the ladder) or "rung 4.3", "lab 31 -3 -20" or
// "lab@D65/10 31 -3 -20" (a colour meter), "photo 31 -3 -20" (a photograph with its card), "#2a3b5c" (from a photograph), "ks 9"
// (an instrument), or a depth's name (by eye). A rung and a colour may end in their error: "photo 31 -3 -20 ±2.5".
func ParseLook(text string) (Look, error) {
	s, sure, err := cutError(strings.TrimSpace(text))
	if err != nil {
		return Look{}, err
	}
	word, rest, _ := strings.Cut(strings.ToLower(s), " ")
	switch {
	case s == "":
		return Look{}, fmt.Errorf("say what it looks like: a depth such as dark, rung 5, lab 31 -3 -20, or #2a3b5c from a photograph")
	case word == "rung":
		n, err := strconv.ParseFloat(strings.TrimSpace(rest), 64)
		if err != nil || !(n >= 1 && n <= 30) {
			return Look{}, fmt.Errorf("a rung is one of 1 to 30, such as rung 5, not %q", strings.TrimSpace(rest))
		}
		l := Look{How: shade.ByRung, Rung: int(math.Round(n)), Error: sure}
		if n != math.Round(n) {
			l.Place = n
		}
		return l, nil
	case word == "photo":
		lab, _, err := colour.ParseLab(rest)
		return Look{How: shade.ByPhoto, Lab: lab, Error: sure}, err
	case strings.HasPrefix(word, "lab") || strings.HasPrefix(s, "["):
		lab, at, err := colour.ParseLab(s)
		return Look{How: shade.ByMeter, Lab: lab, Observer: at, Error: sure}, err
	case strings.HasPrefix(s, "#"):
		c, err := colour.ParseHex(s)
		return Look{How: shade.ByPhoto, Lab: c.Lab(), Error: sure}, err
	case word == "ks" && sure == 0:
		v, err := strconv.ParseFloat(strings.Replace(strings.TrimSpace(rest), ",", ".", 1), 64)
		if err != nil || !(v > 0 && v <= 500) {
			return Look{}, fmt.Errorf("K/S is a number above 0 and up to 500, such as ks 9, not %q", strings.TrimSpace(rest))
		}
		return Look{How: shade.ByMeter, KS: shade.KS(v)}, nil
	}
	d, err := shade.ByName(s)
	if err == nil && sure > 0 {
		return Look{}, fmt.Errorf("a depth's name has no error of its own: write %s alone", d.Name)
	}
	if err != nil {
		return Look{}, fmt.Errorf("%w; or rung 5, lab 31 -3 -20, ks 9, #2a3b5c from a photograph", err)
	}
	return Look{How: shade.ByEye, Name: d.Name}, nil
}

// ColourOn is the colour of the look on a ground, dry, in daylight; false for a rung, whose colour only its ladder knows.
func (l Look) ColourOn(g shade.Ground) (colour.Lab, bool) {
	switch {
	case l.Rung > 0:
		return colour.Lab{}, false
	case l.KS > 0:
		return g.Colour(l.KS), true
	case l.Name != "":
		d, err := shade.ByName(l.Name)
		if err != nil {
			return colour.Lab{}, false
		}
		return g.Colour(shade.Band(d).Likely), true
	}
	return shade.FromMeter(l.Lab, l.Observer, g), true
}

// judged checks a strip that was read: of a piece that had so many dips, or of the vat's ladder of an earlier day.
func (s State) judged(b SwatchJudged) ([]Body, error) {
	if _, err := ParseLook(b.Looks); err != nil {
		return nil, err
	}
	dips := 0
	if p, ok := s.Piece(b.Swatch); ok {
		dips = p.Dips
	}
	for _, c := range s.Head.Opening.Swatches {
		if c.Tag == b.Swatch {
			dips = max(dips, c.Dips)
		}
	}
	switch {
	case dips == 0:
		return refuse("no piece and no ladder is tagged %q, or it had no dip yet", b.Swatch)
	case b.Dips < 1 || b.Dips > dips:
		return refuse("%s had %s: say after which one the strip was cut", b.Swatch, wording.Counted(dips, "dip"))
	}
	return []Body{b}, nil
}

// The answers to the look that decides.
const (
	LookStop    = "stop"       // no more dips; its last airing goes on, or it is done where that is over
	LookMore    = "one more"   // exactly one more dip
	LookPlanned = "as planned" // the plan stands
)
