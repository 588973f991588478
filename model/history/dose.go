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
	Role recipe.Role
	At   time.Time // the first lot
	Last time.Time
}

// doses are all doses of a vat beyond its build, the oldest first.
type doses struct {
	List   []dosing
	Waits  int // those from here on have no strip after them yet
	Strip  time.Time
	Stayed quantity.Span
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

// SinceFood is the same of a life.
func (l *Life) SinceFood(now time.Time) *quantity.Span { return outlook.Ago(l.past.Fed, now) }

// given is a powder that an event gave beyond the build; false for none.
func given(b day.Body) (powder, material string, m quantity.Mass, is bool) {
	switch b := b.(type) {
	case day.PowderAdded:
		return b.Powder, b.Material, b.Mass, b.Step == 0 && b.Into == ""
	case day.Fed:
		return b.Powder, b.Material, b.Mass, true
	}
	return "", "", 0, false
}

// give takes up a powder that was given.
func (g *doses) give(s *day.State, at time.Time, powder, material string, m quantity.Mass) {
	fill := s.Head.Setup.Fill
	if fill <= 0 || m <= 0 || (recipe.Powder{Material: material}).Substance() == recipe.Acid {
		return
	}
	for i := len(g.List) - 1; i >= g.Waits; i-- {
		if d := &g.List[i]; d.Powder == powder && at.Sub(d.Last) <= oneDose {
			d.PerLitre += m.Per(fill)
			d.Last = at
			return
		}
	}
	d := dosing{signs.Episode{Powder: powder, Material: material, PerLitre: m.Per(fill), Before: -1, After: -1}, roleOf(&s.Head.Recipe, powder, material), at, at}
	if !g.Strip.IsZero() && at.Sub(g.Strip) <= stripBefore {
		d.Before = g.Stayed
	}
	g.List = append(g.List, d)
}

// strip takes up a strip.
func (g *doses) strip(at time.Time, stayed quantity.Span) {
	g.Strip, g.Stayed = at, stayed
	wait := g.List[g.Waits:]
	reducer := slices.ContainsFunc(wait, func(d dosing) bool { return d.Role == recipe.Reducer })
	for i := range wait {
		d := &wait[i]
		if d.Role == recipe.Indigo || reducer && d.Role != recipe.Reducer {
			d.Before = -1
		} else if at.Sub(d.Last) <= stripAfter {
			d.After, d.Took = stayed, quantity.Span(at.Sub(d.At))
		}
	}
	g.Waits = len(g.List)
}

// Episodes are all doses of a vat beyond its build, the oldest first, with the strips before and after each: what was given as a treatment,
// as a dose or as food; lots close together are one dose. The acid of a vat's end is none. Doses of other powders between the same strips
// keep theirs unpulled where a reducer was among them, since a strip tells of the reducer, and so does indigo, which is no remedy. Figures
// are grams of powder in a litre of the whole fill.
func (l *Life) Episodes() []signs.Episode {
	return wording.Each(l.past.Doses.List, func(d dosing) signs.Episode { return d.Episode })
}

// treated is how the treatments of one cause went.
type treated struct {
	Cause, Do string // Do: what was done the last time
	Of, Good  int
	Newest    bool // the last that was looked at again is one of them
}

// treat takes up a treatment.
func (p *Past) treat(b day.Body) {
	switch b := b.(type) {
	case day.Treated:
		p.Do = b.Do
	case day.Rechecked:
		i := slices.IndexFunc(p.Treated, func(t treated) bool { return t.Cause == b.Cause })
		if i < 0 {
			i, p.Treated = len(p.Treated), append(p.Treated, treated{Cause: b.Cause})
		}
		for k := range p.Treated {
			p.Treated[k].Newest = k == i
		}
		t := &p.Treated[i]
		t.Of++
		if t.Do = p.Do; b.Answer == signs.Better.String() {
			t.Good++
		}
	}
}

// Worked says what worked at this vat: what the last like doses did to its strips, else how the newest treatment was
// judged at its recheck, with those of the same cause before it. Empty where nothing is known.
func (l *Life) Worked() string {
	if s := signs.Worked(l.Episodes()); s != "" {
		return s
	}
	newest, is := wording.First(l.past.Treated, func(t treated) bool { return t.Newest && t.Do != "" })
	if !is {
		return ""
	}
	cause := signs.NameOf(newest.Cause)
	if newest.Of == 1 {
		better := [2]string{"no better", "better"}[newest.Good]
		return fmt.Sprintf("the last time (%s) this made it %s: %s", cause, better, newest.Do)
	}
	return fmt.Sprintf("%s: treated %d times here, better after %d of them; the last time: %s", cause, newest.Of, newest.Good, newest.Do)
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
