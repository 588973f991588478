package shade

import (
	"fmt"
	"math"

	"example.org/vatside/model/colour"
	"example.org/vatside/model/quantity"
)

// Wish is the blue that a piece shall have. Make it with WishDepth, WishLab or WishKS.
type Wish struct {
	words string
	depth string      // a name, or ""
	lab   *colour.Lab // or a colour, or nil
	ks    KS          // or a depth
}

// nearEnough is how far from the wished colour a piece still is what was wished (CIEDE2000): above 3 it is plain to see.
const nearEnough = 3.0

// WishDepth wishes for a depth by its name: whatever lies within its band. The error is ByName's.
func WishDepth(name string) (Wish, error) {
	d, err := ByName(name)
	if err != nil {
		return Wish{}, err
	}
	return Wish{words: d.Name, depth: d.Name, ks: Band(d).Likely}, nil
}

// WishLab wishes for a colour of dry cloth, in daylight (D65, 2°): within a CIEDE2000 of 3. Where the colour lies off the
// dye's line the wish is for the nearest on it, since indigo alone comes no nearer; Off tells how far that is.
func WishLab(l colour.Lab) Wish {
	return Wish{words: fmt.Sprintf("L* %.0f a* %.0f b* %.0f", l.L, l.A, l.B), lab: &l}
}

// WishKS wishes for a depth in K/S: what is within a CIEDE2000 of 3 of its colour.
func WishKS(s KS) Wish { return Wish{words: fmt.Sprintf("K/S %.1f", tidy(s)), ks: KS(tidy(s))} }

// Same tells whether two wishes are for the same.
func (w Wish) Same(x Wish) bool {
	return w.words == x.words && w.depth == x.depth && w.ks == x.ks && (w.lab == nil) == (x.lab == nil) && (w.lab == nil || *w.lab == *x.lab)
}

// String is the wish in words.
func (w Wish) String() string { return w.words }

// Aim is the depth to aim for on a cloth.
func (w Wish) Aim(c Cloth) KS {
	if w.lab == nil {
		return w.ks
	}
	s, _ := c.Depth(*w.lab)
	return s
}

// Off is how far the line of this cloth passes by the wished colour (CIEDE2000); 0 for a depth.
func (w Wish) Off(c Cloth) float64 {
	if w.lab == nil {
		return 0
	}
	_, off := c.Depth(*w.lab)
	return off
}

// Caution is a sentence on a wish that indigo alone does not give on a cloth, "" where it does.
func (w Wish) Caution(c Cloth) string {
	off := w.Off(c)
	if off <= nearEnough {
		return ""
	}
	return fmt.Sprintf("indigo alone on %s cloth comes no nearer to %s than %.0f, which is %s: the nearest blue is aimed for",
		c.Ground, w, off, colour.Seen(off))
}

// Band is from the palest to the darkest that is what was wished; Likely is the Aim.
func (w Wish) Band(c Cloth) quantity.Range[KS] {
	if d, err := ByName(w.depth); err == nil {
		return Band(d)
	}
	aim := w.Aim(c)
	middle := c.Colour(aim)
	// the distance rises from the aim outwards: halve to where it passes nearEnough
	edge := func(in, out float64) KS {
		if colour.Difference(c.Colour(KS(out)), middle) <= nearEnough {
			return KS(out)
		}
		for range 24 {
			m := (in + out) / 2
			if colour.Difference(c.Colour(KS(m)), middle) <= nearEnough {
				in = m
			} else {
				out = m
			}
		}
		return KS(in)
	}
	return quantity.Range[KS]{Low: edge(tidy(aim), 0), Likely: aim, High: edge(tidy(aim), math.Max(5*tidy(aim), 5))}
}
