package prepare

import (
	"fmt"
	"slices"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/fibre"
	"example.org/vatside/model/practice"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/wording"
)

// bath is goods that are scoured together: how long each bath takes from cold, and the last with its cooling and rinse.
type bath struct {
	practice.Scour
	each, last quantity.Span
}

// takes is how long bath number no takes.
func (b bath) takes(no int) quantity.Span {
	if no == b.Baths.Likely {
		return b.last
	}
	return b.each
}

// baths puts goods of one fibre and state together, as far as one pot goes.
func (r *Schedule) baths(s day.Setup) []bath {
	var out []bath
	for _, l := range r.Lots {
		if l.Scour == nil {
			continue
		}
		together := *l.Scour
		at := slices.IndexFunc(out, func(b bath) bool {
			return b.Fibre == l.Fibre && b.State == l.Scour.State && b.Water.Likely+l.Scour.Water.Likely <= onePot
		})
		if at >= 0 {
			if sum, err := practice.ScourFor(l.Fibre, l.State, out[at].Dry+l.Dry); err == nil {
				together = sum
			}
		}
		after := scourRinse
		if together.Temp.Likely > bathHot {
			after += bathCools
		}
		b := bath{Scour: together, each: heatsBath(s, together) + together.Time.Likely}
		b.last = b.each + after
		if together.Fibre.Class() != fibre.Protein { // lifted warm from bath to bath, or the change felts it
			b.each = b.last
		}
		if at >= 0 {
			out[at] = b
		} else {
			out = append(out, b)
		}
	}
	return out
}

// heatsBath is how long a scouring bath takes to get hot.
func heatsBath(s day.Setup, b practice.Scour) quantity.Span {
	cold, hot := s.Waters()
	if t, err := s.Heating(b.Water.Likely, cold, b.Temp.Likely); err == nil && t > 0 {
		return t
	}
	if b.Temp.Likely <= hot {
		return bathFills
	}
	return bathHeats
}

// stint is baths that follow each other at once, and when they are over at the latest.
type stint struct {
	baths []Task
	takes time.Duration
	by    time.Time
}

// lay puts the stint where it ends at an instant.
func (s stint) lay(end time.Time) []Task {
	at := end.Add(-s.takes)
	out := slices.Clone(s.baths)
	for i := range out {
		out[i].At = at
		at = out[i].End()
	}
	return out
}

// stints are the baths in their order. Those of wool and silk follow each other while they are warm; others can wait.
func (b bath) stints(by time.Time, sys quantity.System) []stint {
	var out []stint
	for no := 1; no <= b.Baths.Likely; no++ {
		a := Task{Slot: Slot{For: b.takes(no), What: "scour the " + b.Fibre.String()}, Kind: ToScour, How: scourHow(b.Scour, sys)}
		a.What += wording.If(b.Baths.Likely > 1, fmt.Sprintf(", bath %d of %d", no, b.Baths.Likely))
		if no == b.Baths.Likely {
			a.Check = b.Check
		}
		if n := len(out); n > 0 && b.Fibre.Class() == fibre.Protein {
			out[n-1].baths = append(out[n-1].baths, a)
			out[n-1].takes += a.For.Duration()
			continue
		}
		out = append(out, stint{[]Task{a}, a.For.Duration(), by})
	}
	return out
}

// scouring adds the baths, each over before its goods are wetted out, no two at a time, and none while the vat wants the
// hands or the stove.
func (r *Schedule) scouring(s day.Setup, now time.Time, wet map[fibre.Fibre]time.Time, busy []Slot) {
	baths := r.baths(s)
	var all []stint
	for _, b := range baths {
		all = append(all, b.stints(wet[b.Fibre], s.System())...)
	}
	if len(all) == 0 {
		return
	}
	laid := r.onGoodTime(all, busy, now)
	for _, a := range r.Tasks {
		if a.Kind == ToBuild && laid[len(laid)-1].End().After(a.At) {
			r.Notes = append(r.Notes, "some of the scouring lies in a wait of the build, when the vat needs neither hands nor stove")
		}
	}
	r.Tasks = append(r.Tasks, laid...)
	for _, b := range baths {
		if b.Baths.High > b.Baths.Likely {
			r.Notes = append(r.Notes, fmt.Sprintf("the %s may need up to %d baths: each takes %s more", b.Fibre, b.Baths.High, day.Long(b.each.Duration())))
		}
	}
}

// onGoodTime lays the baths before the first dip; where they would begin before the morning, into the day before and those
// before it: between 6 and 21 o'clock, or begun at once and over by midnight. Where that cannot be any more they stay, and a
// warning says that they begin in the night.
func (r *Schedule) onGoodTime(all []stint, busy []Slot, now time.Time) []Task {
	y, m, d := r.Ready.Date()
	at := func(day, hour int) time.Time { return time.Date(y, m, day, hour, 0, 0, 0, r.Ready.Location()) }
	straight := backwards(all, r.Ready, busy, false)
	begin := straight[0].At
	if !begin.Before(at(d, early)) {
		return straight
	}
	const dried = "scoured the day before, the goods dry again, or stay damp overnight: cellulose in clean water, wool and silk hung up"
	if sooner := backwards(all, at(d-1, evening), busy, true); !sooner[0].At.Before(now) {
		r.Notes = append(r.Notes, dried)
		return sooner
	}
	if soon := atOnce(all, now.Truncate(time.Minute).Add(time.Minute)); !soon[len(soon)-1].End().After(at(d, 0)) && !crossed(soon, busy) {
		r.Notes = append(r.Notes, dried)
		return soon
	}
	if !begin.Before(now) {
		r.night = true
		later := r.Ready.Add(at(d, early).Sub(begin))
		r.Warnings = append(r.Warnings, fmt.Sprintf("the scouring begins %s, in the night: scour the day before and let the goods dry, or begin it at %d:00 and dye %s",
			onTheDay(begin, r.Ready), early, onTheDay(later, r.Ready)))
	}
	return straight
}

// backwards lays stints so that the last ends at an instant at the latest; by day only between 6 and 21 o'clock, but for one
// that takes longer than that.
func backwards(all []stint, end time.Time, busy []Slot, byDay bool) []Task {
	var out []Task
	for _, s := range slices.Backward(all) {
		if s.by.Before(end) {
			end = s.by
		}
		laid := s.lay(s.free(end, busy, byDay && s.takes <= (evening-early)*time.Hour))
		out = append(laid, out...)
		end = laid[0].At
	}
	return out
}

// free is the last instant up to one at which the stint can end. Each busy stretch puts it off once, and each night between.
func (s stint) free(end time.Time, busy []Slot, byDay bool) time.Time {
	for range 4 * (len(busy) + 1) {
		was := end
		y, m, d := end.Date()
		at := func(day, hour int) time.Time { return time.Date(y, m, day, hour, 0, 0, 0, end.Location()) }
		switch {
		case byDay && end.After(at(d, evening)):
			end = at(d, evening)
		case byDay && end.Add(-s.takes).Before(at(d, early)):
			end = at(d-1, evening)
		}
		for _, b := range busy {
			if b.At.Before(end) && b.At.Add(b.For.Duration()).After(end.Add(-s.takes)) {
				end = b.At
			}
		}
		if end.Equal(was) {
			break
		}
	}
	return end
}

// atOnce lays stints one after the other from an instant on.
func atOnce(all []stint, at time.Time) []Task {
	var out []Task
	for _, s := range all {
		at = at.Add(s.takes)
		out = append(out, s.lay(at)...)
	}
	return out
}

// crossed tells whether any of it stands while the vat wants hands or stove.
func crossed(laid []Task, busy []Slot) bool {
	return slices.ContainsFunc(laid, func(a Task) bool {
		return slices.ContainsFunc(busy, func(b Slot) bool {
			return b.At.Before(a.End()) && b.At.Add(b.For.Duration()).After(a.At)
		})
	})
}

// scourHow is a bath in a line: "8.4 g of detergent and 18.9 g of soda ash in 10.5 L at 90 °C, 1 h 30 min; simmer; …".
func scourHow(b practice.Scour, sys quantity.System) string {
	what := b.Detergent.Likely.Scale(sys) + " of " + b.Washes()
	what += wording.If(b.Alkali.Likely > 0, " and "+b.Alkali.Likely.Scale(sys)+" of "+b.AlkaliIs)
	return fmt.Sprintf("%s in %s at %s, %s; %s", what, b.Water.Likely.Format(sys), b.Temp.Likely.Format(sys), day.Long(b.Time.Likely.Duration()), b.How)
}
