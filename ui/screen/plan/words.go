package plan

import (
	"fmt"
	"math"
	"strings"

	"example.org/vatside/model/colour"
	"example.org/vatside/model/day"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/shade"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/widget"
)

// first is how many warnings stand before what the number of dips gives.
const first = 2

// says are the sentences under the strip, the most needed first; the neighbours are told where they are not
// drawn.
func (s Screen) says(v engine.View, b outlook.Blue, p day.Piece, c outlook.Coming, known bool, n int, besides bool, env screen.Env) []string {
	short := env.Height < small
	sys := v.State.Head.Setup.System()
	if !known {
		return []string{"The usual blues, by common practice: nothing is forecast yet."}
	}
	out := []string{wording.Upper(wish(p)) + ", " + p.Name() + ": " + answer(p, c)}
	if unsure := b.Seen().Unsure(c.Answer); unsure != "" && c.Wish != nil {
		if env.Height < roomy { // the strip that would settle it is told with the strip
			unsure, _, _ = strings.Cut(unsure, ", and one strip")
		}
		out = append(out, wording.Sentence(unsure))
	}
	warned := wording.Each(cautions(v, p, c), wording.Sentence)
	now := min(first, len(warned))
	out = append(out, warned[:now]...)
	if here, ok := step(c, n); ok && !besides {
		out = append(out, neighbours(c, p, here, n, short)...)
	}
	if more := n - p.Dips; more == 0 {
		out = append(out, "It stays as it is: no dip more.")
	} else {
		left := s.memo.leaves.Of(v, leaving{p.Tag, more}, func() quantity.Range[quantity.Mass] { return b.Leaves(p, more) })
		what, leave := "dip", "leave"
		if p.Dips > 0 {
			what = "more dip"
		}
		if more == 1 {
			leave = "leaves"
		}
		out = append(out, fmt.Sprintf("%s of it %s %s of indigo in the vat.", wording.Counted(more, what), leave, masses(left, sys)))
	}
	return append(out, warned[now:]...)
}

// answer is the best number of dips in words, and its chance.
func answer(p day.Piece, c outlook.Coming) string {
	a := c.Answer
	switch {
	case c.Wish == nil && p.Spec.Like != "":
		return "its wish is kept; its blue is not read from that day of the book yet."
	case c.Wish == nil && p.Spec.Rung > 0:
		return fmt.Sprintf("rung %d has no colour yet: judge it (L), then the dips are reckoned.", p.Spec.Rung)
	case c.Wish == nil:
		return "1 says which blue you wish; the dips to it are reckoned then."
	case a.Likely >= shade.NotWithin:
		return a.Words() + ": the vat as it stands does not come to it."
	}
	known := wording.Either(screen.IsGuess(c.Claim), "a guess", "by your swatches")
	words := fmt.Sprintf("%s (%s). Those dips give the wish %s times in 100.", a.Words(), known, percent(a.Chance))
	if planned := p.Want(); planned != a.Likely {
		words += fmt.Sprintf(" The plan has %d, ", planned) + wording.Either(p.Spec.Dips > 0, "as was said.", "the usual number.")
	}
	return words
}

// neighbours says in a line each what the chosen number gives, and what one less and one more would, against the wish, else
// against it; short leaves out the words, but that a difference is
// unseen. They are as many lines for every number, so that nothing moves.
func neighbours(c outlook.Coming, p day.Piece, here shade.Step, n int, short bool) []string {
	against := func(is, of colour.Lab) string {
		d, words := off(is, of)
		if short && words != colour.Seen(0) { // which has no word for the way
			return d
		}
		return d + ", " + words
	}
	text, from := dips(n)+": "+here.Depth, here.Lab
	if c.Wished != nil {
		from = *c.Wished
		text += "; to " + aim(c) + " " + against(here.Lab, from)
	}
	var sides []string
	for _, i := range []int{n - 1, n + 1} {
		if st, ok := step(c, i); ok && i > 0 && i >= p.Dips {
			sides = append(sides, fmt.Sprintf("%d: %s", i, against(st.Lab, from)))
		}
	}
	return []string{text + ".", strings.Join(sides, "; ") + "."}
}

// why is the claim, and what makes it sharper.
func (s Screen) why(v engine.View, b outlook.Blue, p day.Piece, c outlook.Coming, known bool, env screen.Env) string {
	if !known {
		return ""
	}
	text, words := "", b.Words
	lesson := s.memo.lesson.Of(v, p.Tag, func() string {
		if l, ok := b.LessonFor(v.State, p, v.Now); ok {
			return wording.Upper(l.Words()) + " (L: swatches, ladder)."
		}
		return ""
	})
	if lesson != "" && !b.Seen().Seen() {
		return strings.TrimSpace(wording.Upper(shade.SwatchFirst) + ". " + lesson + " " + screen.FewColours(env.Style))
	}
	if screen.IsGuess(c.Claim) {
		text = "A guess: no swatch of this vat was judged; a ladder narrows it (L)."
		switch {
		case !screen.IsGuess(b.Claim):
			text = fmt.Sprintf("A guess: other cloth was judged, and it says less of %s.", p.Spec.Fibre)
		case len(words) > 0 && env.Height >= roomy:
			text, words = wording.Upper(words[0])+".", words[1:]
		case len(b.Rungs) > 0:
			text = "A guess: more rungs judged narrow it (L)."
		}
	}
	text = strings.TrimSpace(text + " " + screen.FewColours(env.Style))
	if env.Height >= roomy {
		text = strings.TrimSpace(text + " " + lesson)
	}
	if env.Height >= roomy && len(words) > 0 { // the first weighs most
		text += " " + wording.Upper(words[0]) + "."
	}
	return strings.TrimSpace(text)
}

// endToEnd says how level the piece comes out.
func (s Screen) endToEnd(sheet *widget.Sheet, v engine.View, b outlook.Blue, p day.Piece) {
	l := s.memo.level.Of(v, levelled{p.Tag, *s.ends}, func() shade.Level { return b.Level(p, s.ends.lower, s.ends.lift) })
	sheet.Act, sheet.Aside = "Lift first "+l.LiftFirst, p.Name()
	sheet.Figure = widget.Figure{Number: widget.Countdown(l.Shortest.Duration()), Note: "the shortest dip that stays level from end to end"}
	if p.DipTime() < l.Shortest {
		sheet.Figure.Note += ": its " + p.DipTime().String() + " are too short"
		sheet.Figure.Tone = widget.Now
	}
	sheet.How = append([]string{"Turn it end for end: " + l.Turn + "."}, wording.Each(l.Words, wording.Sentence)...)
	sheet.Why = fmt.Sprintf("%s to lower, %s to lift. Folds, trapped air and what runs down are not reckoned.", s.ends.lower, s.ends.lift)
}

// wish is the blue wished for, in words.
func wish(p day.Piece) string {
	lab, coloured := p.Spec.Colour()
	switch {
	case coloured:
		of := wording.Either(p.Spec.Like != "", "like "+p.Spec.Like, "wish")
		return fmt.Sprintf("%s L* %.0f a* %.0f b* %.0f in daylight", of, lab.L, lab.A, lab.B)
	case p.Spec.Rung > 0:
		return fmt.Sprintf("wish rung %d", p.Spec.Rung)
	case p.Spec.Depth != "":
		return "wish " + p.Spec.Depth
	case p.Spec.Like != "":
		return "like " + p.Spec.Like
	}
	return "no blue wished"
}

func dips(n int) string { return wording.Counted(n, "dip") }

// percent is a chance in a hundred.
func percent(chance float64) string {
	if chance < 0.01 {
		return "less than 1"
	}
	return fmt.Sprintf("%.0f", 100*chance)
}

func masses(r quantity.Range[quantity.Mass], sys quantity.System) string {
	low, high := whole(r.Low, sys), whole(r.High, sys)
	if low == high {
		return low
	}
	if sys == quantity.Metric {
		return strings.TrimSuffix(low, " g") + " to " + high
	}
	return low + " to " + high
}

func whole(m quantity.Mass, sys quantity.System) string {
	if sys == quantity.Metric {
		return quantity.Grams(math.Round(m.Grams())).Format(sys)
	}
	return m.Format(sys)
}
