package clock

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/sorted"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/widget"
)

// all is up to how many pieces the line shows all of them, where it has room; nextOnes how many beside those in the vat and the late
// ones are shown of more.
const all, nextOnes = 6, 3

// hung is a piece with the time that runs for it.
type hung struct {
	p    *day.Piece
	peg  int
	due  *day.Due
	rank int // how soon it matters: 0 in the vat or called, 1 late, 2 by its time, 3 no more today
}

// hungOf are the pieces of the day in the order of their pegs, which never changes.
func hungOf(v engine.View, focus string, call day.Call) []hung {
	dues := v.Dues()
	out := make([]hung, 0, len(v.State.Pieces))
	for i := range v.State.Pieces {
		p := &v.State.Pieces[i]
		if p.Phase == day.Dropped || p.Phase == day.Carried {
			continue
		}
		h := hung{p: p, peg: i + 1, rank: 2}
		if at := slices.IndexFunc(dues, func(d day.Due) bool { return d.Tag == p.Tag }); at >= 0 {
			h.due = &dues[at]
		}
		switch {
		case p.Phase == day.InVat, p.Tag == focus, slices.Contains(call.Tags, p.Tag):
			h.rank = 0
		case h.due != nil && !v.Now.Before(h.due.At):
			h.rank = 1
		case p.Phase == day.FinishedPiece && h.due == nil:
			h.rank = 3
		}
		out = append(out, h)
	}
	return out
}

// hangs are those of them that the line shows, and those that it counts.
func hangs(v engine.View, list []hung, pegs int) (shown, rest []hung) {
	if len(list) <= min(all, pegs) {
		return list, nil
	}
	turn := func(h hung) int {
		if i := slices.Index(v.State.Turn, h.p.Tag); i >= 0 {
			return i
		}
		return len(v.State.Turn)
	}
	at := func(h hung) time.Time {
		if h.due == nil {
			return v.Now
		}
		return h.due.At
	}
	order := slices.Clone(list)
	sorted.By(order, func(a, b hung) int {
		return cmp.Or(cmp.Compare(a.rank, b.rank), at(a).Compare(at(b)), cmp.Compare(turn(a), turn(b)))
	})
	next := 0
	chosen := map[string]bool{}
	for _, h := range order {
		if h.rank > 1 {
			if next++; next > nextOnes {
				continue
			}
		}
		if len(chosen) < pegs {
			chosen[h.p.Tag] = true
		}
	}
	for _, h := range list {
		if chosen[h.p.Tag] {
			shown = append(shown, h)
		} else {
			rest = append(rest, h)
		}
	}
	return shown, rest
}

// shownPieces are the pieces of the line: figures and clicks name them in this order.
func (s Screen) shownPieces(v engine.View, env screen.Env) []day.Piece {
	shown, _ := hangs(v, hungOf(v, s.focus(v), v.Call()), widget.Pegs(env.Width, env.Height))
	return wording.Each(shown, func(h hung) day.Piece { return *h.p })
}

// stage is the line and the vessel.
func (s Screen) stage(v engine.View, call day.Call, env screen.Env) *widget.Stage {
	out := &widget.Stage{Vessel: screen.VesselOf(v.State), Cloths: make([]widget.Cloth, 0, len(v.State.Pieces))}
	list := hungOf(v, s.focus(v), call)
	shown, rest := hangs(v, list, widget.Pegs(env.Width, env.Height))
	heaviest := wording.Most(list, func(h hung) quantity.Mass { return h.p.Spec.Dry })
	whole := v.Call()
	parts, left := s.parts(v, whole), s.left(whole)
	for i, h := range shown {
		p := *h.p
		of := widget.Cloth{Tag: p.Tag, Peg: h.peg, Blue: s.cloth(v, p, p.Dips), In: p.Phase == day.InVat, Click: p.Live(), Row: i}
		if heaviest > 0 {
			of.Size = float64(p.Spec.Dry / heaviest)
		}
		s.says(&of, v, h, call)
		if parts && slices.Contains(left, p.Tag) {
			of.Says, of.Dips, of.Brief = "left", "out", ""
		}
		out.Cloths = append(out.Cloths, of)
	}
	if out.Rest, out.Count = counted(v, rest), more(v, rest); out.Rest == "" {
		out.Rest = claim(v)
		out.Count = strings.TrimPrefix(out.Rest, "blues ")
	}
	return out
}

// says is what changes on a cloth while its time runs: what is said under it, what is still green of it, and whether the hands want it.
func (s Screen) says(of *widget.Cloth, v engine.View, h hung, call day.Call) {
	of.Says, of.Dips, of.Green = hangsAs(v, h)
	of.Tone = widget.Plain
	switch {
	case h.p.Tag == s.chosen, s.chosen == "" && wanted(call.Act, v) && (h.p.Tag == call.Act.Piece.Tag || slices.Contains(call.Tags, h.p.Tag)):
		of.Tone = widget.Now
	case h.rank == 1 && h.due != nil && v.Now.Sub(h.due.At) > lateBy:
		of.Tone, of.Says = widget.Trouble, "late"
	}
	of.Brief = screen.Briefly(of.Says)
}

// Runs is the sheet a moment later: its countdown and those of the cloths.
func (s Screen) Runs(sheet widget.Sheet, v *engine.View) (widget.Sheet, bool) {
	call := v.Call()
	left, over := call.Act.Left(v.Now)
	if sheet.Stage == nil || s.chosen != "" || len(s.tags) > 0 || over > 0 || call.Held(v.Now) {
		return sheet, false
	}
	if call.Due != nil {
		f := counting(left, 0)
		sheet.Figure.Number, sheet.Figure.Tone = f.Number, f.Tone
	}
	stage, list := *sheet.Stage, hungOf(*v, s.focus(*v), call)
	stage.Cloths = slices.Clone(stage.Cloths)
	for i := range stage.Cloths {
		at := slices.IndexFunc(list, func(h hung) bool { return h.peg == stage.Cloths[i].Peg })
		s.says(&stage.Cloths[i], *v, list[at], call)
	}
	sheet.Stage = &stage
	return sheet, true
}

// lateBy is how long after its time a piece is late.
const lateBy = time.Minute

// claim is how sure the blues of the line are.
func claim(v engine.View) string {
	switch {
	case v.Blue == nil || v.Blue.Claim == "":
		return "blues as usual"
	case screen.IsGuess(v.Blue.Claim):
		return "blues a guess"
	}
	return "blues by your swatches"
}

// hangsAs is what is said under a piece, in two rows, and how much of an airing is left of it, 1 to 0.
func hangsAs(v engine.View, h hung) (says, under string, green float64) {
	p, left := *h.p, time.Duration(0)
	if h.due != nil {
		left = h.due.At.Sub(v.Now)
	}
	dips := strconv.Itoa(p.Dips) + " of " + strconv.Itoa(max(p.Want(), p.Dips))
	switch {
	case h.due != nil && h.due.Kind == day.DueBath && left > 0:
		return widget.Countdown(left), bath(v, p), 0
	case h.due != nil && h.due.Kind == day.DueBath:
		return "out", bath(v, p), 0
	case p.Phase == day.InVat && left > 0:
		return widget.Countdown(left), dips, 0
	case p.Phase == day.InVat:
		return "out", dips, 0
	case (p.Phase == day.Airing || p.Phase == day.Aired) && left > 0:
		if whole := h.due.At.Sub(p.Since); whole > 0 {
			green = float64(left) / float64(whole)
		}
		return widget.Countdown(left), dips, green
	case p.Phase == day.Dry:
		return "dry", dips, 0
	case p.Phase == day.FinishedPiece:
		if word := bath(v, p); word != "" {
			return word, "to do", 0
		}
		return "done", dips, 0
	case h.due != nil && h.due.Kind == day.DueFinish:
		return "blue?", dips, 0
	}
	return "due", dips, 0
}

// bath is the next bath of a piece after its dips in a word, "rinse"; empty where there is none.
func bath(v engine.View, p day.Piece) string {
	b, _ := v.State.BenchNext(p)
	return b.ID
}

// more is counted in fewer words: "16 more, next 11:40".
func more(v engine.View, rest []hung) string {
	if len(rest) == 0 {
		return ""
	}
	words := strconv.Itoa(len(rest)) + " more"
	if at := nextOf(v, rest); !at.IsZero() {
		words += ", next " + day.Clock(at)
	}
	return words
}

// nextOf is when the first of some pieces has aired; zero: none airs.
func nextOf(v engine.View, rest []hung) (next time.Time) {
	for _, h := range rest {
		if h.due != nil && h.due.At.After(v.Now) && (next.IsZero() || h.due.At.Before(next)) {
			next = h.due.At
		}
	}
	return next
}

// counted are the pieces that the line does not show, in a few words, the most needed first: "14 airing, next 11:40, 2 dry, 3 on the
// bench"; empty without any.
func counted(v engine.View, rest []hung) string {
	if len(rest) == 0 {
		return ""
	}
	words := map[string]int{}
	next := nextOf(v, rest)
	for _, h := range rest {
		word := "due"
		switch {
		case h.due != nil && h.due.At.After(v.Now):
			word = "airing"
		case h.p.Phase == day.Dry:
			word = "dry"
		case h.p.Phase == day.FinishedPiece && bath(v, *h.p) != "":
			word = "on the bench"
		case h.p.Phase == day.FinishedPiece:
			word = "done"
		}
		words[word]++
	}
	var out []string
	for _, word := range []string{"airing", "due", "dry", "on the bench", "done"} {
		out = append(out, wording.If(words[word] > 0, fmt.Sprintf("%d %s", words[word], word)),
			wording.If(word == "airing" && !next.IsZero(), "next "+day.DateOf(next, v.Now)))
	}
	return wording.Joined(", ", out...)
}
