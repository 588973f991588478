package screen

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/liquor"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/style"
	"example.org/vatside/ui/widget"
)

// The rules of the foot. It is the liquor in words, two rows at most. The first says how warm it is, how that is known and when it is
// too cold, then what the last strip said; the second its pH, what the indigo is enough for, the reducer, and what would help. A row
// ends where it is full: nothing wraps.

// Blue is what the engine reckoned of the pieces' blues; reckoned here where it has not come to it yet.
func Blue(v engine.View) outlook.Blue {
	if v.Blue != nil {
		return *v.Blue
	}
	return outlook.Blues(v.State, Outlook(v), v.Now)
}

// between parts the facts of the foot.
const between = " · "

// Outlook is what the engine reckoned of the liquor; reckoned here where it has not come to it yet.
func Outlook(v engine.View) outlook.Outlook {
	if v.Outlook != nil {
		return *v.Outlook
	}
	return outlook.Of(v.State, v.Now)
}

// Foot is what is known of the liquor, in one row or two for the window.
func Foot(v engine.View, env Env) []string {
	if env.Feet == nil || v.Outlook == nil || v.Outlook.Empty {
		return foot(v, env)
	}
	of := standing{v.Outlook, v.ID, len(v.State.Log), env.Width, env.Height, soon(v, v.Outlook.Heat), stripStands(v)}
	return env.Feet.Of(of, func() []string { return slices.Clip(foot(v, env)) })
}

func foot(v engine.View, env Env) []string {
	columns := widget.LiquorColumns(env.Width, env.Height)
	if v.State.Ended {
		return []string{"ended"}
	}
	o := Outlook(v)
	if o.Empty {
		return rows(toCome(v), nil, columns)
	}
	one, two := first(v, o), second(v, o)
	if stripStands(v) && !gone(v.State) {
		strip := "strip " + v.State.Vat.Strip.String() + " at " + day.DateOf(v.State.Vat.StripAt, v.Now)
		if _, left := fit(append(one, strip), columns); len(left) == 0 {
			one = append(one, strip)
		} else {
			two = slices.Insert(two, min(2, len(two)), strip)
		}
	}
	return rows(one, two, columns)
}

// rows are two rows of facts, each as far as it has room; what has none in the first leads the second.
func rows(one, two []string, columns int) []string {
	first, left := fit(one, columns)
	second, _ := fit(append(left, two...), columns)
	if second == "" {
		return []string{first}
	}
	return []string{first, second}
}

// fit is one row of the facts that have room, in order, and those that have none.
func fit(facts []string, columns int) (row string, left []string) {
	var in []string
	wide := -style.Width(between)
	for _, f := range facts {
		if w := wide + style.Width(between) + style.Width(f); in == nil || w <= columns {
			in, wide = append(in, f), w
		} else {
			left = append(left, f)
		}
	}
	return strings.Join(in, between), left
}

// first is how warm the liquor is.
func first(v engine.View, o outlook.Outlook) []string {
	s := v.State
	var facts []string
	if s.Vat.Heater {
		facts = append(facts, "HEATER ON, hands out")
	}
	return append(facts, heat(v, o.Heat))
}

// second is its pH, what the indigo is enough for, the reducer, and what would help, the most needed first.
func second(v engine.View, o outlook.Outlook) []string {
	s, sys := v.State, v.State.Head.Setup.System()
	var facts []string
	switch p := o.PH; {
	case p.Known == outlook.Measured && s.Vat.PH != nil: // as it was read, not as it was reckoned around the reading
		facts = append(facts, "pH "+quantity.PH(*s.Vat.PH).String()+" read "+day.DateOf(s.Vat.PHAt, v.Now))
	case p.Known != outlook.Unknown:
		facts = append(facts, "pH "+span(p.Now)+" "+known[p.Known])
	}
	dips, all := o.Indigo.Enough(s)
	switch {
	case gone(s):
		return facts
	case all > 0 && dips >= all:
		facts = append(facts, "indigo for all dips today")
	case all > 0:
		facts = append(facts, fmt.Sprintf("indigo for %d of %d dips", dips, all))
	case o.Indigo.Known != outlook.Unknown:
		facts = append(facts, "indigo "+roundly(o.Indigo.Left.Likely, sys))
	}
	facts = append(facts, coming(v, o)...)
	if r := o.Reducer; r.Known != outlook.Unknown {
		if atRest(s) {
			facts = append(facts, lasts(r.Rest))
		} else {
			facts = append(facts, lasts(r.Work))
		}
	}
	return facts
}

// known are the words for how a figure is known.
var known = map[outlook.Known]string{outlook.Measured: "read", outlook.Reckoned: "reckoned", outlook.Guessed: "guess"}

// gone tells whether the vat is past its last goods, on the way to its end: what keeps it alive is no matter any more, and air
// that is whisked in takes the reducer out of what is reckoned.
func gone(s day.State) bool { return s.Head.Setup.Ending && s.Step > 1 }

// atRest tells whether the vat is left alone: under its lid, or before its first dip.
func atRest(s day.State) bool { return s.Vat.Covered || s.Vat.Work.IsZero() }

// heat is the °C, how it is known, and when it is too cold.
func heat(v engine.View, h outlook.Heat) string {
	sys := v.State.Head.Setup.System()
	if h.Known == outlook.Unknown {
		if t := v.State.Vat.Temp; t != nil {
			return t.Format(sys) + ", an earlier day"
		}
		return "not read yet: r reads " + v.State.Head.Setup.System().DegreeUnit()
	}
	text := HeatNow(h, sys).Format(sys)
	switch {
	case h.Known == outlook.Measured, h.AsRead: // nothing carries the reading on
		text += " read " + day.DateOf(h.ReadAt, v.Now)
	default:
		text += " " + known[h.Known]
	}
	switch {
	case gone(v.State):
	case h.Now <= h.Low && HeatNow(h, sys).Format(sys) == h.Low.Format(sys): // "30 °C, below 30" says two things
	case h.Now <= h.Low:
		text += ", below " + number(h.Low, sys)
	case !h.Below.IsZero():
		text += ", below " + number(h.Low, sys) + " at " + day.DateOf(h.Below, v.Now)
	}
	return text
}

// HeatNow is the °C as it is told: as it was read, else to the whole degree.
func HeatNow(h outlook.Heat, sys quantity.System) quantity.Temperature {
	if h.Known == outlook.Measured {
		return h.Now
	}
	return degree(h.Now, sys)
}

// degree is a temperature to the whole degree of the dyer's own scale: a reckoning knows no halves.
func degree(t quantity.Temperature, sys quantity.System) quantity.Temperature {
	if sys == quantity.US {
		return quantity.Celsius((math.Round(t.Celsius()*9/5+32) - 32) * 5 / 9)
	}
	return quantity.Celsius(math.Round(t.Celsius()))
}

// colder is how far below the aim the heater is worth a word, while the liquor is not about to be too cold.
const colder = quantity.Temperature(2)

// coming is where the liquor goes, and what would help, the most needed first.
func coming(v engine.View, o outlook.Outlook) []string {
	s, sys, h := v.State, v.State.Head.Setup.System(), o.Heat
	var out []string
	switch {
	case h.Back <= 0 || len(s.InVat()) > 0: // no heat with goods in, so no word of it
	case s.Vat.Heater:
		out = append(out, h.Aim.Format(sys)+" in "+roughly(h.Back))
	case soon(v, h) || !h.Below.IsZero() && h.Now <= h.Aim-colder:
		out = append(out, "heater "+roughly(h.Back)+": "+h.Aim.Format(sys))
	}
	switch {
	case len(h.Coming) == 0 || h.Now <= h.Low || s.Vat.Covered:
	case h.Below.IsZero():
		out = append(out, "stays above "+h.Holds(sys))
	case h.LiddedHolds:
		out = append(out, "with the lid it holds "+h.Low.Format(sys))
	case !h.Lidded.IsZero():
		out = append(out, h.Low.Format(sys)+" lidded till "+day.DateOf(h.Lidded, v.Now))
	}
	if p := o.PH; p.Known != outlook.Unknown && p.Later.Likely < p.Now.Likely-0.05 && span(p.Later) != span(p.Now) {
		out = append(out, "pH "+span(p.Later)+" by "+day.DateOf(p.At, v.Now))
	}
	return out
}

// soon tells whether the liquor is too cold within the hour.
func soon(v engine.View, h outlook.Heat) bool {
	return h.Now <= h.Low || !h.Below.IsZero() && h.Below.Sub(v.Now) <= time.Hour
}

// stripStands tells whether the last strip still says something.
func stripStands(v engine.View) bool {
	return v.State.Vat.Strip != nil && v.Now.Sub(v.State.Vat.StripAt) < 2*time.Hour
}

// lasts is how long the reducer lasts, in the fewest words.
func lasts(r quantity.Range[quantity.Span]) string {
	switch words := fewWords.Replace(liquor.SayReserve(r)); words {
	case "none":
		return "no reducer"
	case overADay:
		return "reducer " + words
	default:
		return "reducer for " + words
	}
}

const overADay = "over a day"

var fewWords = strings.NewReplacer(" to more than a day", " or more", "more than a day", overADay)

// roughly is a time to the minute.
func roughly(s quantity.Span) string {
	return quantity.Span((s.Duration() + time.Minute - time.Second).Truncate(time.Minute)).String()
}

// number is a temperature without its unit.
func number(t quantity.Temperature, sys quantity.System) string {
	n, _ := t.Figure(sys)
	return n
}

// span is a range of pH: one figure where both ends print alike.
func span(r quantity.Range[quantity.PH]) string {
	low, high := r.Low.String(), r.High.String()
	if low == high {
		return low
	}
	return low + "–" + high
}

// roundly is a reckoned mass without the tenths that nobody knows: whole grams, or tenths of an ounce.
func roundly(m quantity.Mass, sys quantity.System) string {
	if sys == quantity.Metric {
		return quantity.Grams(math.Round(m.Grams())).Format(sys)
	}
	return quantity.Ounces(math.Round(m.Ounces()*10) / 10).Format(sys)
}

// toCome is what there is to know before the filling is done: how much is in it and how much is to come, and when its
// heating must begin.
func toCome(v engine.View) []string {
	s, sys := v.State, v.State.Head.Setup.System()
	if f, ok := s.Filling(); ok && f.Have > 0 {
		facts := []string{f.Have.Format(sys) + " in it", max(0, f.Fill-f.Have).Format(sys) + " to come"}
		if s.Vat.Temp != nil && f.HaveAt == *s.Vat.Temp {
			facts = append(facts, f.HaveAt.Format(sys)+" read "+day.DateOf(s.Vat.TempAt, v.Now))
		}
		return facts
	}
	all, hot := s.Head.Setup.Fill, quantity.Volume(0)
	for _, st := range s.Plan {
		if st.Do == recipe.Fill && st.Into == recipe.IntoVat {
			hot, all = st.Hot, wording.Either(st.Water > 0, st.Water, all)
		}
	}
	water := all.Format(sys) + " to come"
	at, takes, stove := s.HeatBy(v.Now)
	st, open := s.Open()
	switch {
	case hot <= 0:
		return []string{water}
	case !stove || open && st.Do == recipe.Fill && st.Into == recipe.IntoVat:
		return []string{water + ", " + hot.Format(sys) + " of it hot"}
	case at.After(v.Now):
		return []string{water, "begin heating " + hot.Format(sys) + " by " + day.DateOf(at, v.Now)}
	}
	return []string{water, "heat " + hot.Format(sys) + " now: it takes " + roughly(takes)}
}
