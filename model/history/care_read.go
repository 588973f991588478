package history

import (
	"fmt"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/liquor"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/signs"
)

// coldNight is the warming of a vat that is left to itself in a long wait, when it is too cold by reckoning.
func coldNight(s day.State, now time.Time) (Due, bool) {
	_, brews := s.Slow(now)
	end, waits := s.WaitsUntil()
	if !s.Closed || !brews && (!waits || s.Head.Setup.Ending || !now.Before(end)) { // once that is over the look tells
		return Due{}, false
	}
	h := outlook.Of(s, now).Heat
	sys := s.Head.Setup.System()
	d := Due{ID: "cold", Do: "Warm it", How: "in place, hands out, to " + h.Aim.Format(sys) + "; lid on, wrapped", Why: "days below " + h.Low.Format(sys) + " do not count", Evidence: "K", At: h.Below}
	if !brews {
		d.Why = "colder than " + h.Low.Format(sys) + " it reduces slowly: the wait may not be enough"
	}
	switch {
	case h.Known != outlook.Unknown && h.Now <= h.Low: // it was left so
		d.At = s.At
	case h.Below.IsZero():
		return Due{}, false
	}
	if d.from(d.At, now); d.Coming {
		d.Do += fmt.Sprintf(": by reckoning it falls below %s about %s", h.Low.Format(sys), day.DateOf(d.At, now))
	} else {
		d.Do += fmt.Sprintf(": by reckoning it is below %s since about %s", h.Low.Format(sys), day.DateOf(d.At, now))
	}
	d.Do += h.HowSure(d.At, now)
	return d, true
}

// feedEvery is how soon after its food a ferment is fed again. M
const feedEvery = 3 * 24 * time.Hour

// seen is what was seen and read of a vat, and not treated or read again since.
type seen struct {
	Hungry bool // no froth
	Stayed *quantity.Span
	PH     *quantity.PH
	Off    float64 // by how much that may be off
	Limed  bool    // it was below 7, and alkali was given since
	Fed    time.Time
}

// take takes up an event.
func (n *seen) take(r *recipe.Recipe, e day.Event) {
	switch b := e.Body.(type) {
	case day.SignSeen:
		if sign, ok := b.Known(); ok && sign.Group == signs.GroupFroth {
			n.Hungry = sign.ID == "no-froth"
		}
	case day.StripTest:
		n.Stayed = &b.Stayed
	case day.Reading:
		if b.PH != nil && b.Of == "" {
			n.PH, n.Off, n.Limed = (*quantity.PH)(b.PH), outlook.PHError(b.With), false
		}
	}
	switch roleGiven(r, e.Body) {
	case recipe.Food:
		n.Hungry, n.Stayed = false, nil
	case recipe.Reducer:
		n.Stayed = nil
	case recipe.Alkali:
		if n.PH != nil && *n.PH < 7 {
			n.Limed = true
		} else {
			n.PH = nil
		}
	}
}

// weak says what was read of a vat last that wants doing about, as the judge of its liquor has it, and nothing was given since; and
// what is to be done, as long as what was read still speaks. Empty where there is nothing.
func (l *Life) weak(now time.Time) (words, do string) {
	last, seen := l.last.State, l.past.Seen
	n := liquor.State{Recipe: last.Head.Recipe, Fill: last.Head.Setup.Fill, Strip: seen.Stayed, PH: seen.PH, PHError: seen.Off}
	if seen.Limed && !n.Sour() { // that stands till it is read again
		n.PH = nil
	}
	if n.Sour() || n.LowPH() || n.PH != nil && *n.PH < 7 {
		words = fmt.Sprintf("it read pH %v", *n.PH)
	}
	if n.Weak() {
		words = joined("its strip stayed yellow "+n.Strip.String(), words)
	}
	if words == "" {
		return "", ""
	}
	a := outlook.Advise(last, outlook.Of(last, now), now, outlook.Ago(seen.Fed, now))
	if a.Mass > 0 || a.Do == liquor.DoStop || a.Cause == "acid-or-strip" {
		return words, a.Sentence
	}
	return words, "ask what is wrong with it, one dose at a time"
}

func joined(a, b string) string {
	if a != "" && b != "" {
		return a + ", and " + b
	}
	return a + b
}
