package history

import (
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/practice"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/signs"
	"example.org/vatside/model/wording"
)

// rest is the last long rest of a vat that was woken from it; the zero rest is none.
type rest struct {
	since   time.Time // the end of the last day on which something was done to it before
	woke    time.Time // when something was first done to it again
	day     int       // the day of the vat on which it was
	revived bool
}

func (r rest) woken() bool { return !r.woke.IsZero() }

// does tells whether an event does something to the vat, or reads it: to open a day, to plan and to write does not.
func does(b day.Body) bool {
	switch b := b.(type) {
	case day.Reading:
		return b.Of == ""
	case day.PowderAdded:
		return b.Into == ""
	case day.StripTest, day.SignSeen, day.VatJudged, day.Fed, day.Treated, day.Rechecked, day.ToppedUp, day.DrawnOff, day.Decanted, day.StockDrawn, day.Stirred, day.FrothSkimmed,
		day.HeaterOn, day.DipBegun, day.StepDone:
		return true
	}
	return false
}

// revives tells whether an event shows that a vat is awake: it was judged ready, its strip is good, or goods go in that are
// no swatches.
func revives(s day.State, b day.Body) bool {
	switch b := b.(type) {
	case day.VatJudged:
		return b.Ready && b.Of == ""
	case day.StripTest:
		return b.Stayed >= signs.GoodStripLeast
	case day.SignSeen:
		sign, ok := b.Known()
		return ok && sign.ID == "strip-good"
	case day.DipBegun:
		p, ok := s.Piece(b.Tag)
		return ok && p.Spec.Form != outlook.Ladder
	}
	return false
}

// rested goes through the days: the last rest that the vat was woken from, the end of the last day on which something was
// done to it, and whether the dyer has said since that it rests. A day that was opened and on which nothing was done ends no
// rest. idle is whether the last day is such a day.
func rested(v Vat) (r rest, since time.Time, said, idle bool) {
	for i, d := range v {
		words := false
		idle = true
		for e := range d.State.Corrected() {
			switch b := e.Body.(type) {
			case day.Note:
				words = words || winter(b.Text)
			case day.Closed:
				words = words || winter(b.Why)
			}
			if idle && does(e.Body) {
				idle = false
				if i > 0 && d.State.Head.Opening.Built && (said || e.At.Sub(since) >= restLong) {
					r = rest{since: since, woke: e.At, day: i}
				}
				said = false
			}
			r.revived = r.revived || r.woken() && !idle && revives(d.State, e.Body)
		}
		if said = said || words; i == 0 || !idle {
			since = d.State.At
		}
	}
	return r, since, said, idle && len(v) > 1
}

func restOf(v Vat) rest {
	r, _, _, _ := rested(v)
	return r
}

// Resting tells since when a vat rests: the dyer said so as its last day closed, or in a note on it ("for the winter"), or
// nothing was done to it for six weeks. said is whether the dyer said so. A day that is open ends the rest once something is
// done to the vat on it: a reading, a strip, a dose, the heater, a stir, a dip.
func Resting(v Vat, now time.Time) (since time.Time, said, rests bool) {
	last, ok := v.Last()
	if _, built := v.Built(); !ok || !built || last.State.Ended {
		return time.Time{}, false, false
	}
	_, since, said, idle := rested(v)
	if !last.State.Closed && !idle {
		return time.Time{}, false, false
	}
	return since, said, said || now.Sub(since) >= restLong
}

// asleep tells whether a vat rests, or was woken and is not revived yet.
func asleep(v Vat, now time.Time) bool {
	if _, _, rests := Resting(v, now); rests {
		return true
	}
	r := restOf(v)
	return r.woken() && !r.revived
}

// survives is what cold does to a family.
func survives(f recipe.Family) string {
	switch f {
	case recipe.SugarLime, recipe.IronLime:
		return "It survives cold"
	case recipe.Ferment:
		return "Cold may kill a ferment: keep it warm each 8 to 10 days, or end it"
	}
	return "Its reducer is gone by then: it needs alkali and reducer by its signs, or an end"
}

// revival is what a resting vat waits for.
func revival(s day.State, since time.Time, said bool) Due {
	d := reviveBy(s)
	d.Coming = said
	if said {
		d.Why = "it rests since " + since.Format("2 Jan") + ": before it dyes again"
		return d
	}
	d.Why = "nothing was done to it since " + since.Format("2 Jan") + "; or let it rest for the winter, or end it: " + wording.Lower(d.Why)
	return d
}

// reviving is what a vat wants that was woken from its rest, and is not revived yet.
func reviving(s day.State, r rest) Due {
	d := reviveBy(s)
	d.Why = "it rested since " + r.since.Format("2 Jan") + ": until it is judged ready, or a strip of it is good"
	return d
}

// reviveBy is how a family is revived.
func reviveBy(s day.State) Due {
	d := Due{ID: "revive", Do: doing["revive"]}
	d.How, d.Why, d.Evidence = "warm it to its aim, stir, let it settle; look at it; then one dose at a time by its signs; a test dip", survives(s.Head.Recipe.Family), "M"
	for _, t := range practice.Care(s.Head.Recipe.Family) {
		if t.ID == "revive" {
			d.How, d.Why, d.Evidence = t.What, t.Why, t.Evidence
		}
	}
	return d
}
