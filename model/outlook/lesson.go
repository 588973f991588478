package outlook

import (
	"fmt"
	"math"
	"slices"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/fibre"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/shade"
)

// A strip of swatches: so heavy, so many dips where nothing says better, each so long; common practice, no source.
const (
	stripGrams   = 10
	StripDips    = 8
	StripMinutes = 5
)

// Strip is a strip of swatches (a new ladder) of a fibre as a piece of the list, which the timetable folds in with the others.
func Strip(s day.State, fibre string, dips int) day.AddPiece {
	return day.AddPiece{Tag: freeLadder(s), Spec: day.PieceSpec{
		What: "ladder", Fibre: fibre, Dry: quantity.Grams(stripGrams), Dips: dips, Dip: quantity.Minutes(StripMinutes), Form: Ladder,
	}}
}

// freeLadder is the next tag that no ladder of the vat has.
func freeLadder(s day.State) string {
	for n := 1; ; n++ {
		tag := fmt.Sprintf("L%d", n)
		_, there := s.Piece(tag)
		if !there && !slices.ContainsFunc(s.Head.Opening.Swatches, func(c day.CarriedSwatch) bool { return c.Tag == tag }) {
			return tag
		}
	}
}

// Lesson is the strip that would help most with the wishes of a day.
type Lesson struct {
	shade.Lesson
	For   string       // the tag of the piece whose wish it serves, the least sure one
	Strip day.AddPiece // it, as a piece of the list
}

// Lesson says which strip to dip next: on the cloth of the piece whose dips are the least sure, in the time that the day has. ok is
// false where no piece has a wish, a strip is in work already, or none would help.
func (b Blue) Lesson(s day.State, now time.Time) (Lesson, bool) {
	var least day.Piece
	widest := 0.0
	for _, p := range s.Pieces {
		c, live := b.Pieces[p.Tag]
		switch {
		case live && p.Spec.Form == Ladder:
			return Lesson{}, false
		case live && c.Wish != nil && c.Answer.Low > 0:
			if wide := math.Log(float64(c.Answer.High) / float64(c.Answer.Low)); wide > widest {
				least, widest = p, wide
			}
		}
	}
	if widest == 0 {
		return Lesson{}, false
	}
	return b.LessonFor(s, least, now)
}

// LessonFor is the same for one piece, which may be only thought of.
func (b Blue) LessonFor(s day.State, p day.Piece, now time.Time) (Lesson, bool) {
	wish, time := b.wish(p), quantity.Span(0)
	if done := s.Head.Setup.DoneBy; done != nil {
		if time = quantity.Span(done.Sub(now)); time <= 0 {
			return Lesson{}, false
		}
	}
	if wish == nil || b.all.None() {
		return Lesson{}, false
	}
	f, _ := fibre.Parse(p.Spec.Fibre) // unknown counts as cotton
	strip := day.Piece{Spec: Strip(s, f.String(), StripDips).Spec}
	l, ok := b.all.Teach(goods(p), b.vat, p.DipTime(), b.done[p.Tag], *wish, goods(strip), strip.DipTime(), strip.AirTime(false), time)
	if !ok {
		return Lesson{}, false
	}
	return Lesson{Lesson: l, For: p.Tag, Strip: Strip(s, p.Spec.Fibre, l.Dips)}, true
}
