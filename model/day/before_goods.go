package day

import (
	"fmt"
	"slices"
	"time"

	"example.org/vatside/model/fibre"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/signs"
)

// wetOut adds the soaks, one for each fibre, and tells when the first of each begins.
func (r *Readying) wetOut(vat *quantity.Temperature, sys quantity.System) map[fibre.Fibre]time.Time {
	begins := map[fibre.Fibre]time.Time{}
	for _, f := range fibre.All() {
		dry := quantity.Mass(0)
		for _, l := range r.Lots {
			if l.Fibre == f {
				dry += l.Dry
			}
		}
		w, err := signs.WetOut(f, min(dry, heaviest), vat)
		if err != nil {
			continue
		}
		begins[f] = r.Ready.Add(-w.Time.Likely.Duration())
		r.Ahead = append(r.Ahead, Ahead{
			Slot: Slot{begins[f], w.Time.Likely, "wet out the " + f.String()}, Kind: ToWet, Check: w.Check,
			How: fmt.Sprintf("%s in %s of %s; %s", dry.Format(sys), w.Water.Format(sys), degreesOf(w.Temp, sys), w.How),
		})
	}
	return begins
}

// bath is goods that are scoured together: how long each bath takes from cold, and the last with its cooling and rinse.
type bath struct {
	signs.Scour
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
func (r *Readying) baths(s Setup) []bath {
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
			if sum, err := signs.ScourFor(l.Fibre, l.State, out[at].Dry+l.Dry); err == nil {
				together = sum
			}
		}
		after := scourRinse
		if together.Temp.Likely > bathHot {
			after += bathCools
		}
		b := bath{Scour: together, each: s.heatsBath(together) + together.Time.Likely}
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
func (s Setup) heatsBath(b signs.Scour) quantity.Span {
	cold, hot := s.Waters()
	if t, err := s.heating(b.Water.Likely, cold, b.Temp.Likely); err == nil && t > 0 {
		return t
	}
	if b.Temp.Likely <= hot {
		return bathFills
	}
	return bathHeats
}

// scouring adds the baths, each over before its goods are wetted out, and no two at a time.
func (r *Readying) scouring(s Setup, now time.Time, wet map[fibre.Fibre]time.Time) {
	sys, baths := s.System(), r.baths(s)
	var out []Ahead
	end := r.Ready
	for i := len(baths) - 1; i >= 0; i-- {
		b := baths[i]
		if wet[b.Fibre].Before(end) {
			end = wet[b.Fibre]
		}
		for no := b.Baths.Likely; no >= 1; no-- {
			takes := b.takes(no)
			end = end.Add(-takes.Duration())
			a := Ahead{Slot: Slot{end, takes, "scour the " + b.Fibre.String()}, Kind: ToScour, How: scourHow(b.Scour, sys)}
			if b.Baths.Likely > 1 {
				a.What += fmt.Sprintf(", bath %d of %d", no, b.Baths.Likely)
			}
			if no == b.Baths.Likely {
				a.Check = b.Check
			}
			out = append(out, a)
		}
	}
	if len(out) == 0 {
		return
	}
	slices.Reverse(out)
	r.inTheEvening(out, now)
	r.Ahead = append(r.Ahead, out...)
	for _, b := range baths {
		if b.Baths.High > b.Baths.Likely {
			r.Notes = append(r.Notes, fmt.Sprintf("the %s may want up to %d baths: each takes %s more", b.Fibre, b.Baths.High, Long(b.each.Duration())))
		}
	}
}

// inTheEvening moves scouring that would begin before the morning into the evening before: over by 21 o'clock, or begun at
// once and over by midnight. Where that cannot be any more it stays, and a warning says that it begins in the night.
func (r *Readying) inTheEvening(baths []Ahead, now time.Time) {
	begin, takes := baths[0].At, baths[len(baths)-1].End().Sub(baths[0].At)
	y, m, d := r.Ready.Date()
	at := func(day, hour int) time.Time { return time.Date(y, m, day, hour, 0, 0, 0, r.Ready.Location()) }
	if !begin.Before(at(d, early)) {
		return
	}
	to := at(d-1, evening).Add(-takes)
	if soon := now.Truncate(time.Minute).Add(time.Minute); to.Before(now) && !soon.Add(takes).After(at(d, 0)) {
		to = soon
	}
	switch {
	case !to.Before(now) && to.Before(begin):
		for i := range baths {
			baths[i].At = baths[i].At.Add(to.Sub(begin))
		}
		r.Notes = append(r.Notes, "scoured the evening before, the goods stay damp overnight: cellulose may lie in clean water, wool and silk hang")
	case !begin.Before(now):
		r.Warnings = append(r.Warnings, fmt.Sprintf("the scouring begins at %s, in the night: wish for a later start, or dye what is scoured", Clock(begin)))
	}
}

// scourHow is a bath in a line: "8.4 g of detergent and 18.9 g of soda ash in 10.5 L at 90 °C, 1 h 30 min; simmer; …".
func scourHow(b signs.Scour, sys quantity.System) string {
	what := b.Detergent.Likely.Scale(sys) + " of " + b.Washes()
	if b.Alkali.Likely > 0 {
		what += " and " + b.Alkali.Likely.Scale(sys) + " of " + b.AlkaliIs
	}
	return fmt.Sprintf("%s in %s at %s, %s; %s", what, b.Water.Likely.Format(sys), b.Temp.Likely.Format(sys), Long(b.Time.Likely.Duration()), b.How)
}

func degreesOf(t quantity.Range[quantity.Temperature], sys quantity.System) string {
	low, unit := t.Low.Figure(sys)
	high, _ := t.High.Figure(sys)
	return low + "–" + high + " " + unit
}
