package answer

import (
	"slices"
	"strconv"
	"strings"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/wording"
)

// A row's key is carried out in one of three ways: it opens the row's place, or a line that asks for what stands behind the row's
// words, or the row's words alone are done at once.

// KeyDoes is what a row's key does, in a few words.
func (r Row) KeyDoes(s day.State) string {
	switch {
	case r.short != nil:
		return r.short(s)
	case r.Short != "":
		return r.Short
	}
	return r.Does
}

// Tagged tells whether a row is about a piece; MayBeTagged whether it may be about one that is on the bench.
func (r Row) Tagged() bool      { return r.tagged }
func (r Row) MayBeTagged() bool { return r.maybe }

// Numbered tells whether a row can be about an event by its number.
func (r Row) Numbered() bool { return r.numbered }

// Said is a row in words: those that name it, what it is of, a tag or a number, and what stands behind that.
func (r Row) Said(of, text string) string {
	words := []string{}
	if len(r.Words) > 0 {
		words = append(words, r.Words[0])
	}
	return spaced(strings.Join(append(words, of, text), " "))
}

// Of is the number of an event as it is said; 0 is none.
func Of(seq int) string {
	return wording.If(seq != 0, strconv.Itoa(seq))
}

func levelBlank(l Line) Blank {
	switch {
	case l.State.Head.Setup.Measured().Shape == nil:
		return Blank{"In the vat now", "litres"}
	case l.system() != quantity.Metric:
		return Blank{"From the rim down to the liquor", "in; or what is in it, 7 gal"}
	}
	return Blank{"From the rim down to the liquor", "cm; or what is in it, 28 L"}
}

func movedBlank(l Line) Blank {
	const unit = "time of day, or 2 min ago"
	first, _, _ := strings.Cut(l.Rest, " ")
	n, _ := numbered(first)
	_, presumed := assumed(l.State)
	switch {
	case n > 0:
		return Blank{"When was #" + first + "?", unit}
	case l.Act.Kind == day.ActLift:
		return Blank{"When did " + l.Act.Piece.Tag + " come out?", unit}
	case presumed:
		return Blank{"When did it come out, really?", unit}
	case l.Act.Kind == day.ActEnter:
		return Blank{"When did " + l.Act.Piece.Tag + " go in?", unit}
	}
	return Blank{"Which act, and when was it?", "its number, then a time of day"}
}

// stripBlank asks how long a strip was yellow where it cannot be timed: at a vat's end, where it may show no yellow at all. Else
// nothing is asked: it is out now, and then blue.
func stripBlank(l Line) Blank {
	if l.Act.Kind == day.ActStep && l.Act.Step.Do == day.DoSpent {
		return Blank{"How long was the strip yellow? 0: not at all", "s"}
	}
	return Blank{}
}

// skipBlank asks why a step of a piece is left out that must not be without a reason; any other is left out at once.
func skipBlank(l Line) Blank {
	tags, _ := cutTags(l.State, l.Rest)
	if len(tags) == 0 && !open(l.State) && l.Act.Kind == day.ActBench {
		tags = []string{l.Act.Piece.Tag}
	}
	wants := func(tag string) bool {
		_, err := day.Decide(l.State, day.LeaveOut{Tag: tag}, l.Now)
		return err != nil
	}
	if slices.ContainsFunc(tags, wants) {
		return Blank{strings.Join(tags, ", ") + " without its next step: why?", ""}
	}
	return Blank{}
}

// finishedAmong tells whether all these pieces are over their dips.
func finishedAmong(s day.State, tags []string) bool {
	return len(tags) > 0 && !slices.ContainsFunc(tags, func(tag string) bool {
		p, ok := s.Piece(tag)
		return !ok || !finished(p)
	})
}
