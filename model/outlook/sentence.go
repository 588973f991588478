package outlook

import (
	"fmt"
	"strings"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/liquor"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/wording"
)

// Sentences say the whole outlook in words, for the linear mode: what is known, how, and where it goes.
func (o Outlook) Sentences(sys quantity.System) []string {
	if o.Empty {
		return []string{"The vessel is empty."}
	}
	var out []string
	say := func(parts []string) { out = append(out, strings.Join(parts, ", ")+".") }
	if h := o.Heat; h.Known != Unknown {
		parts := []string{"The vat has " + h.Now.Format(sys) + ", " + h.Known.String()}
		switch {
		case len(h.Coming) == 0:
		case h.Now <= h.Low:
			parts = append(parts, "colder than "+h.Low.Format(sys))
		case h.Below.IsZero():
			parts = append(parts, "above "+h.Holds(sys))
		default:
			parts = append(parts, "below "+h.Low.Format(sys)+" at "+day.DateOf(h.Below, o.Now)+h.HowSure(h.Below, o.Now))
		}
		switch {
		case h.LiddedHolds:
			parts = append(parts, "with the lid it holds")
		case !h.Lidded.IsZero():
			parts = append(parts, "with the lid at "+day.DateOf(h.Lidded, o.Now))
		}
		if h.Back > 0 {
			parts = append(parts, fmt.Sprintf("the heater of %s takes %.0f min to %s", h.Heater.Format(sys), h.Back.Minutes(), h.Aim.Format(sys)))
		}
		say(parts)
	}
	if p := o.PH; p.Known != Unknown {
		parts := []string{fmt.Sprintf("pH %s to %s, %s", p.Now.Low, p.Now.High, p.Known)}
		if p.Later.Likely < p.Now.Likely-0.05 {
			parts = append(parts, fmt.Sprintf("%s by %s", p.Later.Likely, day.DateOf(p.At, o.Now)))
		}
		say(parts)
	}
	switch r := o.Reducer; {
	case r.Known != Unknown:
		say([]string{"Reducer for " + liquor.SayReserve(r.Work) + " in work", liquor.SayReserve(r.Rest) + " at rest under the lid", r.Known.String()})
	case r.Why != "":
		say([]string{"Reducer: " + r.Why})
	}
	if i := o.Indigo; i.Known != Unknown {
		say([]string{"Indigo " + i.Left.Likely.Format(sys), i.Known.String()})
		if i.Feed != "" {
			say([]string{wording.Upper(i.Feed)})
		}
	}
	return out
}

// HowSure says of a long wait how sure it is that the vat is too cold from an instant on: ", likely", ", sure", or by when it is sure,
// by what a thermometer is off, the width of the air around it and of its losses; empty of any other.
func (h Heat) HowSure(from, now time.Time) string {
	switch {
	case !h.Long:
		return ""
	case h.Surely.IsZero(), !from.After(now) && h.Surely.After(now):
		return ", likely"
	case from.After(now) && h.Surely.After(from):
		return ", sure by " + day.DateOf(h.Surely, now)
	}
	return ", sure"
}

// Holds says how far ahead it stays above its low mark: "26 °C by its thermostat", "30 °C for 12 h", "26 °C for 6 days, likely".
func (h Heat) Holds(sys quantity.System) string {
	low := h.Low.Format(sys)
	switch {
	case h.Kept:
		return low + " by its thermostat"
	case h.Far == 0:
		return low
	case h.Far >= 48*time.Hour:
		low += fmt.Sprintf(" for %d days", int(h.Far/(24*time.Hour)))
	default:
		low += " for " + day.Long(h.Far.Truncate(time.Hour))
	}
	switch {
	case !h.Long:
		return low
	case h.Perhaps.IsZero():
		return low + ", sure"
	}
	return low + ", likely"
}
