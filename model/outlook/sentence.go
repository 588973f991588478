package outlook

import (
	"fmt"
	"strings"

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
			parts = append(parts, "above "+h.Low.Format(sys)+" for twelve hours")
		default:
			parts = append(parts, "below "+h.Low.Format(sys)+" at "+day.Clock(h.Below))
		}
		switch {
		case h.LiddedHolds:
			parts = append(parts, "with the lid it holds")
		case !h.Lidded.IsZero():
			parts = append(parts, "with the lid at "+day.Clock(h.Lidded))
		}
		if h.Back > 0 {
			parts = append(parts, fmt.Sprintf("the heater of %s takes %.0f min to %s", h.Heater.Format(sys), h.Back.Minutes(), h.Aim.Format(sys)))
		}
		say(parts)
	}
	if p := o.PH; p.Known != Unknown {
		parts := []string{fmt.Sprintf("pH %s to %s, %s", p.Now.Low, p.Now.High, p.Known)}
		if p.Later.Likely < p.Now.Likely-0.05 {
			parts = append(parts, fmt.Sprintf("%s by %s", p.Later.Likely, day.Clock(p.At)))
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
