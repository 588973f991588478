package day

import (
	"cmp"
	"fmt"
	"strings"
	"time"

	"example.org/vatside/model/practice"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/sorted"
	"example.org/vatside/model/wording"
)

// Standing is what a vat waits for between two days: shown and called on home.
type Standing struct {
	Words string
	At    time.Time // zero: no time of its own
	Round bool      // the daily round of a ferment
	Judge bool      // whether the vat is ready
}

// Between says what a closed day leaves to be done. A long wait is looked at when it ends; a ferment is stirred each
// day meanwhile.
func Between(s State, now time.Time) []Standing {
	if s.Ended || !s.Closed {
		return nil
	}
	st, ok := s.Open()
	slow, brews := s.Slow(now)
	var round []Standing
	if at, due := s.nextRound(); due && brews {
		round = []Standing{{Words: slow.Round(), At: at, Round: true}}
	}
	if !ok || !st.Waits() {
		switch {
		case brews && !slow.End.IsZero():
			return append(round, Standing{Words: "look: is it ready?", At: slow.End, Judge: true})
		case ok && s.Head.Setup.Ending && s.Step > 1:
			return []Standing{{Words: "go on ending it: " + wording.Lower(st.Title)}}
		case ok && !s.Head.Opening.Built:
			return s.evening(Standing{Words: "go on building: " + wording.Lower(st.Title)})
		}
		return nil
	}
	end := s.waitEnd(st)
	if s.Head.Setup.Ending {
		return []Standing{{Words: "go on ending it: " + wording.Lower(st.Title), At: end}}
	}
	look := Standing{Words: "look: is it ready?", At: end, Judge: true}
	if brews && st.No < len(s.Plan) && !s.Plan[st.No].Judges() {
		look.Words, look.Judge = "go on building: "+wording.Lower(s.Plan[st.No].Title), false
	}
	if !now.Before(end) {
		return []Standing{look}
	}
	return append(round, look)
}

// evening is what waits after an entry of the evening before: each soak at its time, and the build, so that the vat is ready at
// the wished hour.
func (s State) evening(build Standing) []Standing {
	by := s.Head.Setup.ReadyBy
	if !s.Head.Setup.GoodsFirst || by == nil || s.Step > 1 || !by.After(s.At) {
		return []Standing{build}
	}
	build.Words, build.At = strings.Replace(build.Words, "go on building", "begin the build", 1), *by
	for _, st := range s.Plan {
		build.At = build.At.Add(-st.Takes().Duration())
	}
	out := append([]Standing{build}, wording.Some(s.Pieces, func(p Piece) (Standing, bool) {
		at, ok := s.soakAt(p)
		return Standing{Words: "put " + p.Tag + " to soak", At: at}, ok
	})...)
	sorted.By(out, func(a, b Standing) int { return a.At.Compare(b.At) })
	return out
}

// Carry is what the vat is when the next day on it opens.
func Carry(s State) Opening {
	o := Opening{
		Number: s.Head.Opening.Number + 1, Built: s.Head.Opening.Built || s.Step > len(s.Plan), Sulfur: s.Vat.Sulfur,
		Cover: s.Vat.Covered, Temp: s.Vat.Temp, PH: s.Vat.PH,
	}
	if l := s.Level(); s.drawn() && l.In < s.Head.Setup.Fill*95/100 {
		o.Holds = &l.In
	}
	if s.Sulfur() == practice.NotKnown {
		o.Sulfur = true // it is taken that it held one
	}
	if o.Number < 2 {
		o.Number = 2
	}
	if o.Brewing = s.brewing; o.Brewing.Brews == nil {
		if _, brews := s.brews(); brews {
			since := s.brewsSince()
			o.Brewing.Brews = &since
		}
	}
	if !o.Built || s.Head.Setup.Ending && s.Step > 1 && s.Step <= len(s.Plan) {
		// What the dyer gave to the wait, or took, moves its beginning: so its end stays where it was.
		since := s.StepSince.Add(s.shift(fmt.Sprintf("step %d", s.Step)))
		o.Step, o.Since = s.Step, &since
	}
	for _, p := range s.Pieces {
		_, unfinished := s.BenchNext(p)
		if p.Phase == Carried || unfinished || s.Head.Setup.GoodsFirst && p.Phase <= Wet { // goods that were made ready go on
			c := CarriedPiece{OfPiece: OfPiece{p.Tag}, PieceSpec: p.Spec, Scoured: p.readied.scour}
			c.Had, c.HadOf = p.Dips, p.meanDip()
			if unfinished {
				c.Finished, c.Rinses, c.Behind = true, p.Finishing.Rinses, strings.Join(p.Finishing.Behind, ", ")
			}
			o.Pieces = append(o.Pieces, c)
		}
	}
	return o
}

// meanDip is the mean length of all dips of a piece, those of earlier days included.
func (p Piece) meanDip() quantity.Span {
	n := max(p.Spec.Had, 0)
	// In whole nanoseconds for all that a vat can do; a duration would run over.
	sum := float64(cmp.Or(p.Spec.HadOf, p.DipTime())) * float64(n)
	for _, d := range p.Past {
		if !d.Ended.IsZero() {
			sum, n = sum+float64(d.Ended.Sub(d.Begun)), n+1
		}
	}
	mean := min(max(sum/float64(max(n, 1)), 0), float64(longest))
	return quantity.Span(time.Duration(mean).Round(time.Second))
}
