package day

import (
	"fmt"
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
		a.How = fmt.Sprintf("%s; good is %v to %v. ", a.Words, signs.GoodStripLeast, signs.GoodStripMost) + a.How
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
	l := s.Head.Recipe.Liquor
	st, open := s.Open()
	switch t := s.Vat.Temp; {
	case t == nil || open && st.Into == recipe.IntoStock:
		return ""
	case l.Low > 0 && *t < l.Low:
		return fmt.Sprintf("It reads %s, below its %s to %s: slower, and paler.", s.says(t), s.says(l.Low), s.says(l.High))
	case l.High > 0 && *t > l.High:
		return fmt.Sprintf("It reads %s, above its %s to %s: its reducer goes sooner.", s.says(t), s.says(l.Low), s.says(l.High))
	}
	return ""
}

// usualWay is what the vat is ready by where no way is named: the usual one, but not a strip that has just said that it is not.
func (s State) usualWay() string {
	way := s.Ways()[0]
	if stayed, ready := s.stripSays(); way == ByStrip && stayed != nil && !ready {
		return ByEye
	}
	return way
}

// Watched is for how long a strip is out of the vat and not blue yet; false while none is watched.
func (s State) Watched(now time.Time) (time.Duration, bool) {
	if s.Vat.Pulled.IsZero() || s.Closed {
		return 0, false
	}
	return max(now.Sub(s.Vat.Pulled), 0), true
}

// stripAct is a strip that is watched, where it is what the hands are at: during a step that neither waits nor looks it only runs
// along.
func (s State) stripAct(now time.Time) (Act, bool) {
	out, watched := s.Watched(now)
	st, open := s.Open()
	if !watched || open && !st.Judges() && !st.Waits() {
		return Act{}, false
	}
	a := Act{Kind: ActStrip, Step: st, Words: "Strip out: is it blue?", How: "In the air, in the light; no yellow left anywhere on it.",
		Why: "The longer it stays yellow, the more reducer there is: about 45 s is good.", Press: "it is blue"}
	switch {
	case out > longestStrip:
		a.How, a.Press = "It is watched for more than an hour: it was forgotten.", "leave this strip"
	case out > unseenStrip:
		a.Words, a.Press = "Did you see it turn blue?", "leave this strip"
		a.How = "It is out for more than " + Long(unseenStrip) + ". Say that it is blue only if you saw it turn, just now; else it is not read: leave it, and pull another."
	}
	return a, true
}

// unseenStrip is from when on a strip may have turned while nobody looked, so that the press that goes on with the call leaves it and
// only the word that it is blue writes it down: good is about 45 s (S1), and nobody stands at it for longer without a look at the clock.
// The two minutes are from memory.
const unseenStrip = 2 * time.Minute

// longestStrip is longer than any strip stays yellow: one that is watched for longer was forgotten.
const longestStrip = time.Hour
