package command

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"example.org/vatside/model/colour"
	"example.org/vatside/model/day"
	"example.org/vatside/model/fibre"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/shade"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/library"
)

// A swatch is typed as '[N x] TIME FIBRE [OPTIONS] = LOOK': what was done to it before the sign, what it looks like after it.

const swatchHelp = `A swatch is cloth of known dips that was looked at: '[N x] TIME FIBRE [OPTIONS] = LOOK', once for each.
  OPTIONS, with spaces or commas between: wet, unrinsed, mercerised, 2 days ago, a ground (white, greige, natural wool,
    natural silk), and rung 3: it is rung 3 of your ladder. If nothing is said: dry, rinsed, of today, the usual ground.
  LOOK  lab 55,-5,-20 or lab@D65/10 55 -5 -20   a colour meter, at D65/2 or as it says
        #33557a                                 a photograph
        ks 6                                    an instrument's K/S of the dye at 660 nm
        dark                                    by eye, a depth's name
        rung 2                                  by eye, like rung 2 of your ladder
  Its dips are taken as given in the vat as it stands.`

// swatchExample stands in the faults of a swatch.
const swatchExample = "'3x5min cotton, wet = lab 55,-5,-20'"

// mostSwatchDips and longestDip are what no swatch, and no dip, goes beyond.
const (
	mostSwatchDips = 60
	longestDip     = quantity.Span(24 * 3600 * 1e9)
)

var times = wording.Pattern(`^(\S+?)\s*[xX×*]\s*(\d.*)$`)

// swatchOf reads one --swatch; its dips are those of a vat.
func swatchOf(text string, v shade.Liquor, sys quantity.System) shade.Swatch {
	done, look, ok := strings.Cut(text, "=")
	if !ok {
		stop("there is no = sign between what was done and what it looks like; write %s", swatchExample)
	}
	n, left := dipsOfSwatch(strings.TrimSpace(done))
	long, cloth := timeOfSwatch(left, sys)
	s := clothOfSwatch(cloth)
	s.Dips = slices.Repeat([]shade.Dip{dipIn(v, long)}, n)
	lookOfSwatch(&s, look)
	return s
}

// dipIn is a dip in a vat as it stands.
func dipIn(v shade.Liquor, long quantity.Span) shade.Dip {
	dip := shade.Dip{For: long, Confirmed: true, Temp: v.Temp, PH: v.PH, Strong: v.Strong}
	if v.Fill > 0 {
		dip.PerLitre = quantity.GramsPerLitre(v.Indigo.Grams() / v.Fill.Litres())
	}
	return dip
}

// dipsOfSwatch takes the number of dips off the front; one where there is none.
func dipsOfSwatch(s string) (n int, rest string) {
	m := times().FindStringSubmatch(s)
	if m == nil {
		return 1, s
	}
	n, err := strconv.Atoi(m[1])
	if err != nil || n < 1 || n > mostSwatchDips {
		stop("%s is no number of dips; a swatch has 1 to %d", m[1], mostSwatchDips)
	}
	return n, m[2]
}

// timeOfSwatch takes the time of a dip off the front: as many words as make one.
func timeOfSwatch(s string, sys quantity.System) (quantity.Span, []string) {
	words := strings.Fields(s)
	for n := min(4, len(words)); n > 0; n-- {
		if t, err := quantity.ParseSpan(strings.TrimSuffix(strings.Join(words[:n], " "), ","), sys); err == nil {
			must(aDip(t))
			return t, words[n:]
		}
	}
	if len(words) == 0 {
		stop("nothing is said of its dips; write %s", swatchExample)
	}
	stop("%q does not begin with the time of a dip; write %s", strings.Join(words, " "), swatchExample)
	return 0, nil
}

func aDip(t quantity.Span) error {
	switch {
	case t <= 0:
		return fmt.Errorf("%s is no dip; it takes 1 s or more", t)
	case t > longestDip:
		return fmt.Errorf("%s is more than is reckoned here; 24 h at most", t)
	}
	return nil
}

// clothOfSwatch reads the fibre and the options, in any order.
func clothOfSwatch(words []string) (s shade.Swatch) {
	words = strings.Fields(strings.ReplaceAll(strings.Join(words, " "), ",", " "))
	grounded := false
	for at := 0; at < len(words); {
		if f, err := fibre.Parse(words[at]); err == nil {
			if s.Piece.Fibre != fibre.Unknown && s.Piece.Fibre != f {
				stop("a swatch is of one fibre, and this names %s and %s", s.Piece.Fibre, f)
			}
			s.Piece.Fibre = f
			at++
			continue
		}
		if g, n := groundIn(words[at:]); n > 0 {
			s.Piece.Ground, grounded = g, true
			at += n
			continue
		}
		at += option(&s, words[at:])
	}
	if s.Piece.Fibre == fibre.Unknown && grounded { // "natural wool" says both
		s.Piece.Fibre = map[shade.Ground]fibre.Fibre{shade.NaturalWool: fibre.Wool, shade.NaturalSilk: fibre.Silk}[s.Piece.Ground]
	}
	switch {
	case s.Piece.Fibre == fibre.Unknown:
		stop("the fibre is missing; write %s", swatchExample)
	case s.Piece.Mercerised && s.Piece.Fibre != fibre.Cotton:
		stop("only cotton is mercerised, and this is %s", s.Piece.Fibre)
	case !grounded:
		s.Piece.Ground = shade.GroundOf(s.Piece.Fibre)
	}
	return s
}

// groundIn is a ground at the front, and how many words name it; 0 where none does.
func groundIn(words []string) (shade.Ground, int) {
	for n := min(2, len(words)); n > 0; n-- {
		if g, err := shade.ParseGround(strings.Join(words[:n], " ")); err == nil {
			return g, n
		}
	}
	return shade.White, 0
}

// option reads one option and tells how many words it took.
func option(s *shade.Swatch, words []string) int {
	word := strings.ToLower(words[0])
	next := func(n int) string {
		if n < len(words) {
			return strings.ToLower(words[n])
		}
		return ""
	}
	switch word {
	case "wet":
		s.Wet = true
	case "unrinsed":
		s.Unrinsed = true
	case "mercerised", "mercerized":
		s.Piece.Mercerised = true
	case "dry", "rinsed", "today": // as it is taken if nothing is said
	case "yesterday":
		s.DaysAgo = 1
	case "rung":
		n, err := strconv.Atoi(next(1))
		if err != nil || n < 1 || n > mostRung {
			stop("a rung has a number from 1 to %d, such as rung 3", mostRung)
		}
		s.Rung, s.Piece.Tag = n, "ladder" // all rungs are of one strip
		return 2
	default:
		if !strings.HasPrefix(next(1), "day") || next(2) != "ago" {
			stop("%q is no fibre and no option of a swatch; options are wet, unrinsed, mercerised, 2 days ago, rung 3 and a ground", words[0])
		}
		n, err := strconv.Atoi(word)
		if err != nil || n < 0 || n > 36500 {
			stop("%s is no number of days; write it so: 2 days ago", word)
		}
		s.DaysAgo = n
		return 3
	}
	return 1
}

const mostRung = library.MostRung

// lookOfSwatch puts what it looks like into a swatch.
func lookOfSwatch(s *shade.Swatch, text string) {
	l := aLook(text)
	s.How, s.Name, s.Place, s.Error = l.How, l.Name, l.Place, l.Error
	switch l.How {
	case shade.ByRung:
		if s.Rung > 0 {
			stop("rung %d of the ladder cannot look like a rung; say its colour, such as = lab 55,-5,-20", s.Rung)
		}
		s.Rung = l.Rung
	case shade.ByMeter, shade.ByPhoto:
		s.Lab, _ = l.ColourOn(s.Piece.Ground)
	}
}

// aLook reads a look and tells of an option that stands where none is read.
func aLook(text string) day.Look {
	text = strings.TrimSpace(text)
	if text == "" {
		stop("nothing is said of what it looks like; write %s", swatchExample)
	}
	for _, word := range strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return r == ' ' || r == ',' }) {
		switch word {
		case "wet", "unrinsed", "ago", "mercerised", "dry", "rinsed", "yesterday":
			stop("%q stands behind the = sign; options stand before it, such as %s", word, swatchExample)
		}
	}
	l, err := day.ParseLook(text)
	must(plainly(err))
	return l
}

// plainly is a fault of a colour as one sentence.
func plainly(err error) error {
	var fault *colour.Error
	if errors.As(err, &fault) && fault.Line == 0 {
		return errors.New(fault.Reason)
	}
	return err
}
