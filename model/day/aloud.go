package day

import (
	"strings"
	"time"

	"example.org/vatside/model/practice"
	"example.org/vatside/model/recipe"
)

// Said is a call as it is said aloud once an act has made it the call: what to do and how much, its caution with it; or what runs, for
// how long, and what can be done meanwhile.
func (c Call) Said(s State, now time.Time) string {
	words := strings.TrimSuffix(c.Words, ".")
	left := time.Duration(0)
	if c.Due != nil {
		left = c.Due.At.Sub(now)
	}
	switch {
	case c.Caution != "":
		return words + ". Caution: " + practice.Unsourced(c.Caution)
	case c.Held(now):
		return words
	case left > 0:
		switch c.Act.Kind {
		case ActLift:
			words = strings.Join(c.Tags, ", ") + isOrAre(c.Tags) + "in"
		case ActAir:
			words = c.Act.Piece.Tag + " airs"
		case ActBench:
			words = c.Act.Piece.Tag + " is in the " + bathName(c.Act.Piece.Finishing.Bath)
		}
		words += ", " + Long(left)
		if m, ok := c.Aside(s, now); ok {
			words += "; meanwhile: " + m.Brief()
		}
		return words
	case c.Press == "begin":
		return words + ", press to begin"
	case c.Act.Kind == ActStep && c.Due == nil:
		f := FigureOf(s, c)
		if figure := f.Line(); figure != "" {
			words += ", " + figure
		}
		if f.Note != "" && (f.Number == "" || c.Act.Step.Do == recipe.Fill) {
			words += ", " + f.Note
		}
		return words
	}
	return c.spoken(s, now)
}

// Aside is what is said aloud of what can be done while the call's time runs: a piece that can go in, else the first of it; false
// where there is nothing. The sound check speaks for itself.
func (c Call) Aside(s State, now time.Time) (Call, bool) {
	var first *Call
	for _, m := range c.Meanwhile(s, now) {
		switch {
		case m.Act.Kind == ActEnter:
			return m, true
		case first == nil && m.Act.Kind != ActSound:
			first = &m
		}
	}
	if first == nil {
		return Call{}, false
	}
	return *first, true
}

func isOrAre(tags []string) string {
	if len(tags) == 1 {
		return " is "
	}
	return " are "
}
