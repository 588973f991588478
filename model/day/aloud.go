package day

import (
	"cmp"
	"slices"
	"strconv"
	"strings"
	"time"

	"example.org/vatside/model/practice"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/wording"
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
			words = strings.Join(c.Tags, ", ") + wording.Either(len(c.Tags) == 1, " is in", " are in")
		case ActAir:
			words = c.Act.Piece.Tag + " airs"
		case ActBench:
			words = c.Act.Piece.Tag + " is in the " + bathName(c.Act.Piece.Finishing.Bath)
		}
		if c.Act.Kind != ActDecide { // how long it can be put off is no time of the piece
			words += ", " + Long(left)
		}
		if beside := c.Besides(s, now); beside != "" {
			words = strings.ReplaceAll(words+"; "+beside, "?; m", "? M")
		}
		return words
	case c.Act.Kind == ActStep && c.Act.Shut: // why, and no amount
		why, _, _ := strings.Cut(c.How, ":")
		return words + ". " + why
	case c.Press == "begin":
		return words + ", press to begin"
	case c.Act.Kind == ActAsk:
		return words + " " + c.How
	case c.Act.Kind == ActReady: // how much of what, how warm and how long; how it is done stands on the screen
		with, _, _ := strings.Cut(c.How, ";")
		return words + ", " + with
	case c.Act.Kind == ActStep && c.Due == nil || c.Act.Kind == ActBench:
		return wording.Joined(", ", words, cmp.Or(c.Amount(s, now), FigureOf(s, c).Note))
	}
	return c.spoken(s, now)
}

// Amount is how much a call takes, as one says it: "1.8 L of water", "4 L of plain water at 20 °C, 5 min", "under 50 °C"; empty where it
// takes nothing, or its time is over.
func (c Call) Amount(s State, now time.Time) string {
	st, f := c.Act.Step, FigureOf(s, c)
	switch {
	case f.Number == "" || c.Act.Kind == ActStep && c.Due != nil && !now.Before(c.Due.At):
		return ""
	case c.Act.Kind == ActBench:
		return f.Number + " " + f.Unit + " of " + f.Note
	case c.Verb == "read":
		return f.Line()
	case st.Water > 0 && (st.Do == recipe.Hydrate || st.Do == recipe.Dissolve):
		return f.Line() + " of water"
	case st.Do == recipe.Fill && st.Cold >= smallPour && st.Hot >= smallPour:
		_, mixed, _ := strings.Cut(f.Note, ": ")
		return wording.Joined(": ", s.says(st.Cold)+" cold, then "+s.says(st.Hot)+" hot", mixed)
	case st.Do == recipe.Fill:
		return f.Line() + " " + f.Note
	}
	return f.Line()
}

// Besides is what is said of what can be done while the call's time runs: "meanwhile: B1 in, peg 2"; empty where there is nothing.
func (c Call) Besides(s State, now time.Time) string {
	m, ok := c.Aside(s, now)
	if !ok {
		return ""
	}
	return "meanwhile: " + m.aloud(s, now)
}

// Together is what is said of deadlines, by Spoken or Soon, each text once; of pieces of which the same is said in one: "Look at P4, P6:
// enough?".
func Together(s State, dues []Due, now time.Time, says func(State, Due, time.Time) string) []string {
	var whole, shapes []string
	tags := map[string][]string{} // by shape: the text with a place for them
	for _, d := range dues {
		text := says(s, d, now)
		if slices.Contains(whole, text) {
			continue
		}
		whole = append(whole, text)
		if d.Tag != "" {
			text = strings.Replace(text, d.Tag, "\x00", 1)
		}
		if !slices.Contains(shapes, text) {
			shapes = append(shapes, text)
		}
		tags[text] = append(tags[text], d.Tag)
	}
	for i, text := range shapes {
		all := tags[text]
		if len(all) > 1 {
			text = strings.Replace(text, "\x00 has", "\x00 have", 1)
		}
		if i > 0 {
			text = wording.Lower(strings.TrimPrefix(text, soonWords))
		}
		shapes[i] = strings.Replace(text, "\x00", strings.Join(all, ", "), 1)
	}
	return shapes
}

// Aside is what is said aloud of what can be done while the call's time runs: a piece that can go in, else the first of it; false
// where there is nothing. The sound check speaks for itself.
func (c Call) Aside(s State, now time.Time) (Call, bool) {
	if a, ok := c.entry(s, now); ok {
		return s.CallFor(a, now), true
	}
	return c.Beside(s, now, func(a Act) bool { return a.Kind != ActSound && !c.settles(a) })
}

// entry is the lowering that can be done while the call's time runs; false where there is none.
func (c Call) entry(s State, now time.Time) (Act, bool) {
	if left, _ := c.Act.Left(now); left <= 0 {
		return Act{}, false
	}
	a, ok := s.entering(now)
	return a, ok && a.Kind == ActEnter && !c.settles(a)
}

// settles tells whether the call is the look that decides on the piece of an act.
func (c Call) settles(a Act) bool {
	return c.Act.Kind == ActDecide && (a.Piece.Tag == c.Act.Piece.Tag || slices.Contains(a.Tags, c.Act.Piece.Tag))
}

// Pegs says where pieces hang on the line, "peg 2", by their places on the list; empty where one piece is all.
func (s State) Pegs(tags []string) string {
	at := wording.Some(tags, func(tag string) (string, bool) {
		i := slices.IndexFunc(s.Pieces, func(p Piece) bool { return p.Tag == tag })
		return strconv.Itoa(i + 1), i >= 0
	})
	if len(at) == 0 || len(s.Pieces) < 2 {
		return ""
	}
	return "peg" + wording.If(len(at) > 1, "s") + " " + strings.Join(at, ", ")
}

// hung is where pieces that go in are found; one that was never in hangs nowhere yet.
func (s State) hung(tags []string) string {
	return s.Pegs(wording.Only(tags, func(tag string) bool { p, _ := s.Piece(tag); return p.Dips > 0 }))
}
