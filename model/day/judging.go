package day

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/signs"
	"example.org/vatside/model/wording"
)

// Ways are what a vat is judged by, all equal in the book.
var Ways = []string{ByStrip, BySwatch, ByFilm, ByEye}

// The ways, as the book has them.
const (
	ByStrip  = "strip"
	BySwatch = "swatch"
	ByFilm   = "film and froth"
	ByEye    = "eye"
)

// Ways are those that fit the vat, or the stock jar where its step is open, the usual one first. A strip of 45 s belongs to the
// vats of sulfur reducers; an iron vat can look copper-brown and dye well, so that its swatch decides; what lime clouds or a
// ferment colours is told by its film.
func (s State) Ways() []string {
	st, open := s.Open()
	switch f := s.Head.Recipe.Family; {
	case open && st.Into == recipe.IntoStock:
		return []string{ByStrip, ByEye}
	case f.SulfurReducer():
		return Ways
	case f == recipe.IronLime:
		return []string{BySwatch, ByFilm, ByEye}
	}
	return []string{ByFilm, BySwatch, ByEye}
}

// waysWords are the ways with the figures that choose them: "1 strip, 2 swatch, 3 film and froth, 4 your eye".
func (s State) waysWords() string {
	var out []string
	for i, way := range s.Ways() {
		if way == ByEye {
			way = "your eye"
		}
		out = append(out, strconv.Itoa(i+1)+" "+way)
	}
	return strings.Join(out, ", ")
}

// Judging tells whether the call asks if the vat is ready, so that each of Ways answers it.
func (a Act) Judging() bool {
	return a.Caution == "" && a.Step.Judges() && (a.Kind == ActStep || a.Kind == ActStrip)
}

// judging is the look that decides whether the vat is ready. Where the usual way is a strip, the press pulls one, and what it then
// said is what the next press says.
func (s State) judging(a *Act, now time.Time) {
	left, _ := a.Left(now)
	a.Press = "ready"
	if left > 0 {
		a.Words = "Not yet: leave it covered"
	}
	a.How = "Ready by: " + s.waysWords() + "."
	if look := a.Step.Look; look != "" {
		a.How = "Look for " + strings.TrimSuffix(wording.Lower(look), ".") + ". " + a.How
	}
	if words := s.outOfRange(); words != "" {
		a.How = words + " " + a.How
	}
	if s.Ways()[0] != ByStrip {
		return
	}
	switch stayed, ready := s.stripSays(); {
	case stayed == nil:
		if a.Press = "strip out"; left <= 0 {
			a.Words = strings.Replace(a.Step.Title, "Look:", "Pull a strip:", 1)
		}
	case ready:
		a.Words = "The strip says ready: blue after " + stayed.String()
	default:
		a.Press = "not yet"
		if a.Words = "Not ready: the strip was blue after " + stayed.String(); *stayed > signs.GoodStripMost {
			a.Words = "Not ready: the strip stayed yellow " + stayed.String()
		}
	}
}

// stripSays is how long the strip stayed yellow that was pulled since the open step is looked at, nil for none, and whether a vat
// is ready by it.
func (s State) stripSays() (stayed *quantity.Span, ready bool) {
	if s.Vat.Strip == nil || s.Vat.StripAt.Before(s.StepSince) || s.Vat.StripAt.Before(s.Judged) || s.stripJudged {
		return nil, false
	}
	t := *s.Vat.Strip
	return &t, t >= signs.GoodStripLeast && t <= signs.GoodStripMost
}

// outOfRange says that the vat reads outside its working range; empty where it does not. It bars nothing.
func (s State) outOfRange() string {
	l, sys := s.Head.Recipe.Liquor, s.Head.Setup.System()
	st, open := s.Open()
	switch t := s.Vat.Temp; {
	case t == nil || open && st.Into == recipe.IntoStock:
		return ""
	case l.Low > 0 && *t < l.Low:
		return fmt.Sprintf("It reads %s, below its %s to %s: slower, and paler.", t.Format(sys), l.Low.Format(sys), l.High.Format(sys))
	case l.High > 0 && *t > l.High:
		return fmt.Sprintf("It reads %s, above its %s to %s: its reducer goes sooner.", t.Format(sys), l.Low.Format(sys), l.High.Format(sys))
	}
	return ""
}

// looked answers the big key at the look that decides whether the vat is ready.
func (s State) looked(a Act, now time.Time) ([]Body, error) {
	switch a.Press {
	case "strip out":
		return s.pull(now)
	case "not yet":
		return s.judge(Judge{By: ByStrip}, now)
	}
	return s.judge(Judge{Ready: true}, now)
}

// usualWay is what the vat is ready by where no way is named: the usual one, but not a strip that has just said that it is not.
func (s State) usualWay() string {
	way := s.Ways()[0]
	if stayed, ready := s.stripSays(); way == ByStrip && stayed != nil && !ready {
		return ByEye
	}
	return way
}

// judge takes ready or not yet at a check, or during the wait before it. Ready at a step that names no way is by
// the usual one.
func (s State) judge(c Judge, now time.Time) ([]Body, error) {
	if c.By != "" && !slices.Contains(Ways, c.By) {
		return refuse("a vat is judged by %s, not by %q", strings.Join(Ways, ", "), c.By)
	}
	st, ok := s.Open()
	if !ok {
		return []Body{VatJudged{Ready: c.Ready, By: c.By, Seen: c.Seen}}, nil
	}
	if c.Ready && c.By == "" && st.Do != DoSpent {
		c.By = s.usualWay()
	}
	if c.Ready && st.Do != DoSpent {
		if words := s.gate(st); words != "" {
			return nil, errors.New(words)
		}
	}
	switch {
	case st.Do == DoSpent && c.Ready:
		return s.stepDone(s.stepAct(st, now), now)
	case st.Do == DoSpent:
		return []Body{VatJudged{OfStep{st.No}, false, c.By, c.Seen, "end"}}, nil
	case st.Judges():
		return []Body{VatJudged{OfStep{st.No}, c.Ready, c.By, c.Seen, string(st.Into)}}, nil
	case st.Do == recipe.Wait && s.Head.Setup.Ending:
		return refuse("only the whole hour without air tells; then look, and pull a strip")
	case st.Do == recipe.Wait && c.Ready:
		out := []Body{StepDone{OfStep{st.No}, string(st.Do), wording.Lower(st.Title)}}
		if st.No < len(s.Plan) && s.Plan[st.No].Judges() {
			out = append(out, VatJudged{OfStep{st.No + 1}, true, c.By, c.Seen, string(st.Into)})
		}
		return out, nil
	case st.Do == recipe.Wait:
		return refuse("the wait runs on; look again when it is over")
	}
	return refuse("first %s", wording.Lower(st.Title))
}
