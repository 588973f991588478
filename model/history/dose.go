package history

import (
	"fmt"
	"slices"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/signs"
	"example.org/vatside/model/wording"
)

// How long a strip speaks of a dose. From memory.
const (
	stripBefore = 4 * time.Hour  // the vat was still so when the dose went in
	stripAfter  = 24 * time.Hour // and what is seen later has other causes
	oneDose     = 2 * time.Hour  // lots of a powder so near to one another, with no strip between, are one dose
)

// dosing is a dose that is still to be looked at.
type dosing struct {
	signs.Episode
	role recipe.Role
	at   time.Time // the first lot
	last time.Time
}

// SinceFood is how long ago a vat last got food, on any of its days; nil where its book has none.
func SinceFood(v Vat, now time.Time) *quantity.Span {
	for _, d := range slices.Backward(v) {
		if ago := outlook.SinceFood(d.State, now); ago != nil {
			return ago
		}
	}
	return nil
}

// Episodes are all doses of a vat beyond its build, the oldest first, with the strips before and after each: what was given
// as a treatment, as a dose or as food; lots close together are one dose. The acid of a vat's end is none. Doses of other powders between the same strips
// keep theirs unpulled where a reducer was among them, since a strip tells of the reducer, and so does indigo, which is no
// remedy. Figures are grams of powder in a litre of the whole fill.
func Episodes(v Vat) []signs.Episode {
	var out []dosing
	waits := 0 // those from here on have no strip after them yet
	var strip struct {
		at     time.Time
		stayed quantity.Span
	}
	give := func(d Day, at time.Time, powder, material string, m quantity.Mass) {
		s := d.State
		fill := s.Head.Setup.Fill
		if fill <= 0 || m <= 0 || (recipe.Powder{Material: material}).Substance() == recipe.Acid {
			return
		}
		for i := len(out) - 1; i >= waits; i-- {
			if out[i].Powder == powder && at.Sub(out[i].last) <= oneDose {
				out[i].PerLitre += m.Per(fill)
				out[i].last = at
				return
			}
		}
		e := dosing{signs.Episode{Powder: powder, Material: material, PerLitre: m.Per(fill), Before: -1, After: -1}, roleOf(s.Head.Recipe, powder, material), at, at}
		if !strip.at.IsZero() && at.Sub(strip.at) <= stripBefore {
			e.Before = strip.stayed
		}
		out = append(out, e)
	}
	v.each(func(d Day, e day.Event) {
		switch b := e.Body.(type) {
		case day.PowderAdded:
			if b.Step == 0 && b.Into == "" {
				give(d, e.At, b.Powder, b.Material, b.Mass)
			}
		case day.Fed:
			give(d, e.At, b.Powder, b.Material, b.Mass)
		case day.StripTest:
			strip.at, strip.stayed = e.At, b.Stayed
			reducer := slices.ContainsFunc(out[waits:], func(g dosing) bool { return g.role == recipe.Reducer })
			for i := waits; i < len(out); i++ {
				g := &out[i]
				if g.role == recipe.Indigo || reducer && g.role != recipe.Reducer {
					g.Before = -1
				} else if e.At.Sub(g.last) <= stripAfter {
					g.After, g.Took = b.Stayed, quantity.Span(e.At.Sub(g.at))
				}
			}
			waits = len(out)
		}
	})
	return wording.Each(out, func(g dosing) signs.Episode { return g.Episode })
}

// treated is how the treatments of one cause went.
type treated struct {
	cause, do string
	of, good  int
}

// Worked says what worked at this vat: what the last like doses did to its strips, else how the newest treatment was
// judged at its recheck, with those of the same cause before it. Empty where nothing is known.
func Worked(v Vat) string {
	if s := signs.Worked(Episodes(v)); s != "" {
		return s
	}
	var newest *treated
	all := map[string]*treated{}
	do := ""
	v.each(func(_ Day, e day.Event) {
		switch b := e.Body.(type) {
		case day.Treated:
			do = b.Do
		case day.Rechecked:
			t := all[b.Cause]
			if t == nil {
				t = &treated{cause: b.Cause}
				all[b.Cause] = t
			}
			t.of++
			if t.do = do; b.Answer == signs.Better.String() {
				t.good++
			}
			newest = t
		}
	})
	if newest == nil || newest.do == "" {
		return ""
	}
	cause := signs.NameOf(newest.cause)
	if newest.of == 1 {
		better := [2]string{"no better", "better"}[newest.good]
		return fmt.Sprintf("the last time (%s) this made it %s: %s", cause, better, newest.do)
	}
	return fmt.Sprintf("%s: treated %d times here, better after %d of them; the last time: %s", cause, newest.of, newest.good, newest.do)
}

// Draw is a powder that was weighed for a vat: for its build, or beyond it.
type Draw struct {
	At        time.Time
	Material  string
	Substance recipe.Substance
	Mass      quantity.Mass // not above zero where more was taken off the scale than was put on
}

// Draws are what was weighed for a vat from an instant on, the oldest first: each step's scoops as one, at the last of them.
func Draws(v Vat, since time.Time) []Draw {
	var out []Draw
	for _, d := range v {
		out = append(out, wording.Only(drawsOf(d.State.Portions()), func(w Draw) bool { return !w.At.Before(since) })...)
	}
	return out
}

// drawsOf are the powders that were weighed on one day, as Draws gives them.
func drawsOf(portions []day.Portion) []Draw {
	var out []Draw
	scoops := map[string]int{}
	for _, p := range portions {
		if p.Way == day.Weighed {
			key := fmt.Sprintf("%d %s", p.Step, p.Powder)
			if i, more := scoops[key]; more {
				out[i].At, out[i].Mass = p.At, out[i].Mass+p.Mass
				continue
			}
			scoops[key] = len(out)
		} else if !p.Gave() {
			continue
		}
		out = append(out, Draw{At: p.At, Material: p.Material, Substance: recipe.Powder{Material: p.Material}.Substance(), Mass: p.Mass})
	}
	return out
}
