package screen

import (
	"math"
	"slices"
	"strings"
	"time"

	"github.com/charmbracelet/x/ansi"

	"example.org/vatside/model/day"
	"example.org/vatside/model/liquor"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/style"
	"example.org/vatside/ui/widget"
)

// The rules of the foot. Its first row says how the liquor stands, in this order: °C and where it goes, pH, reducer,
// indigo; what the window has no room for goes to the second row. The second says where the rest goes and what would
// help, and ends where it is full: nothing wraps, and small windows lose it whole. A figure has the mark of how it is
// known directly behind it.

// Blue is what the engine reckoned of the pieces' blues; reckoned here where it has not come to it yet.
func Blue(v engine.View) outlook.Blue {
	if v.Blue != nil {
		return *v.Blue
	}
	return outlook.Blues(v.State, Outlook(v), v.Now)
}

// between parts the facts of the foot, and a row of them is not wider than the eye takes in.
const between, widest = "   ", 114

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
	of := standing{v.Outlook, v.ID, len(v.State.Log), env.Width, soon(v, v.Outlook.Heat), stripStands(v)}
	return env.Feet.Of(of, func() []string { return slices.Clip(foot(v, env)) })
}

func foot(v engine.View, env Env) []string {
	columns := min(widget.Columns(env.Width), widest)
	if v.State.Ended {
		return []string{"ended"}
	}
	if o := Outlook(v); !o.Empty {
		first := stands(v, o, lasts)
		if _, left := fit(first, columns); len(left) > 0 { // in words it is too long
			first = stands(v, o, lastsShort)
		}
		if gone(v.State) {
			return rows(first, nil, columns)
		}
		return rows(first, coming(v, o), columns)
	}
	first := toCome(v)
	if with := append([]string{"empty"}, first...); !filling(v) && style.Width(strings.Join(with, between)) <= columns {
		first = with
	}
	return rows(first, nil, columns)
}

// tall is from how many rows on a clock leaves its foot both its rows; leastDigits is what a step's figure wants with its
// note and the air around them; calm is the blank rows that a sheet keeps.
const tall, leastDigits, calm = 30, 7, 5

// WithFoot gives a sheet that is otherwise finished its foot: the second row only where nothing else loses its place to it.
func WithFoot(sheet widget.Sheet, v engine.View, env Env) widget.Sheet {
	sheet.Foot = Foot(v, env)
	if len(sheet.Foot) < 2 {
		return sheet
	}
	one := sheet
	one.Foot = sheet.Foot[:1]
	if sheet.Big && env.Height >= tall || !sheet.Big && keeps(sheet, one, env) {
		return sheet
	}
	return one
}

var stripped style.Memory[string, string]

// keeps tells whether a sheet has room for all that it has with less of a foot, and air between.
func keeps(sheet, less widget.Sheet, env Env) bool {
	drawn := func(s widget.Sheet) []string {
		s.Keys, s.Banner = []widget.Key{{Key: "?", Does: "keys"}}, env.Word // the root adds them
		if s.Figure.Number != "" {                                          // it grows into what is left: its least stands for it
			s.Figure, s.Body = widget.Figure{}, append(slices.Repeat([]string{"x"}, leastDigits), s.Body...)
		}
		lines := widget.Lay(s, env.Width, env.Height, env.Style).Lines()
		for i, l := range lines {
			lines[i] = stripped.Of(l, ansi.Strip)
		}
		return lines
	}
	with := drawn(sheet)
	blank := 0
	for _, row := range with {
		if strings.TrimLeft(row, " █▓▒░#%+.") == "" {
			blank++
		}
	}
	for _, row := range drawn(less) {
		if !slices.Contains(with, row) {
			return false
		}
	}
	return blank >= calm
}

// typedRows is what a line takes that is typed under the act, with what is said of it.
const typedRows = 3

// EnlargeAct sets an act without a figure in large letters, as short where that is given, with its sentence under them, if every
// other row still fits and a typed line would too.
func EnlargeAct(sheet widget.Sheet, short string, env Env) widget.Sheet {
	if sheet.Figure.Number != "" || sheet.Act == "" || sheet.ActBig {
		return sheet
	}
	big := sheet
	if big.ActBig = true; short != "" {
		big.Act, big.How = short, append([]string{sentence(sheet.Act)}, sheet.How...)
	}
	try := big
	if len(try.Body) < typedRows {
		try.Body = slices.Repeat([]string{"x"}, typedRows)
	}
	without := try
	without.Act = ""
	if keeps(try, without, env) {
		return big
	}
	return sheet
}

// sentence is a text with its end.
func sentence(text string) string {
	if strings.HasSuffix(text, "?") || strings.HasSuffix(text, ".") {
		return text
	}
	return text + "."
}

// rows sets the facts in one row if all of them fit, else in two: the first takes of its own what fits, in order, and the
// second what is left of them, then what comes.
func rows(first, then []string, columns int) []string {
	if all, left := fit(slices.Concat(first, then), columns); len(left) == 0 {
		return []string{all}
	}
	one, left := fit(first, columns)
	two, _ := fit(append(left, then...), columns)
	if two == "" {
		return []string{one}
	}
	return []string{one, two}
}

// fit is one row of the facts that have room, in order, and those that have none.
func fit(facts []string, columns int) (row string, left []string) {
	var in []string
	wide := -len(between)
	for _, f := range facts {
		if w := wide + len(between) + style.Width(f); in == nil || w <= columns {
			in, wide = append(in, f), w
		} else {
			left = append(left, f)
		}
	}
	return strings.Join(in, between), left
}

// stands is how the liquor stands, the most needed first; says words the time that the reducer lasts.
func stands(v engine.View, o outlook.Outlook, says func(quantity.Range[quantity.Span]) string) []string {
	s, sys := v.State, v.State.Head.Setup.System()
	var facts []string
	if s.Vat.Heater {
		facts = append(facts, "HEATER ON, hands out")
	}
	facts = append(facts, heat(v, o.Heat))
	switch p := o.PH; {
	case p.Known == outlook.Measured && s.Vat.PH != nil: // as it was read, not as it was reckoned around the reading
		facts = append(facts, "pH "+quantity.PH(*s.Vat.PH).String()+p.Known.Mark())
	case p.Known != outlook.Unknown:
		facts = append(facts, "pH "+span(p.Now)+p.Known.Mark())
	}
	if r := o.Reducer; r.Known != outlook.Unknown && !gone(s) {
		reserve := r.Work
		if atRest(s) {
			reserve = r.Rest
		}
		facts = append(facts, "reducer "+says(reserve)+r.Known.Mark())
	}
	if i := o.Indigo; i.Known != outlook.Unknown {
		facts = append(facts, "indigo "+roundly(i.Left.Likely, sys)+i.Known.Mark())
	}
	return facts
}

// gone tells whether the vat is past its last goods, on the way to its end: what keeps it alive is no matter any more, and air
// that is whisked in takes the reducer out of what is reckoned.
func gone(s day.State) bool { return s.Head.Setup.Ending && s.Step > 1 }

// atRest tells whether the vat is left alone: under its lid, or before its first dip.
func atRest(s day.State) bool { return s.Vat.Covered || s.Vat.Work.IsZero() }

// heat is the °C now and where it goes.
func heat(v engine.View, h outlook.Heat) string {
	sys := v.State.Head.Setup.System()
	if h.Known == outlook.Unknown {
		if t := v.State.Vat.Temp; t != nil {
			return t.Format(sys) + ", an earlier day"
		}
		return "not read yet: r reads " + Degrees(v)
	}
	if h.AsRead { // nothing carries the reading on
		return h.Now.Format(sys) + ", read at " + day.DateOf(h.ReadAt, v.Now)
	}
	text := HeatNow(h, sys).Format(sys) + h.Known.Mark()
	switch {
	case gone(v.State):
	case h.Now <= h.Low && HeatNow(h, sys).Format(sys) == h.Low.Format(sys): // "30 °C, below 30" says two things
	case h.Now <= h.Low:
		text += ", below " + number(h.Low, sys)
	case !h.Below.IsZero():
		text += ", " + number(h.Low, sys) + " at " + day.DateOf(h.Below, v.Now)
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
	if s.Vat.Covered {
		out = append(out, "covered")
	}
	switch {
	case len(h.Coming) == 0 || h.Now <= h.Low:
	case h.Below.IsZero():
		out = append(out, "stays above "+h.Holds(sys))
	case h.LiddedHolds:
		out = append(out, "with the lid it holds "+h.Low.Format(sys))
	case !h.Lidded.IsZero():
		out = append(out, "with the lid "+number(h.Low, sys)+" at "+day.DateOf(h.Lidded, v.Now))
	}
	switch {
	case h.Back <= 0 || len(s.InVat()) > 0: // no heat with goods in, so no word of it
	case s.Vat.Heater:
		out = append(out, h.Aim.Format(sys)+" in "+roughly(h.Back))
	case soon(v, h) || !h.Below.IsZero() && h.Now <= h.Aim-colder:
		out = append(out, "heater "+roughly(h.Back)+": "+h.Aim.Format(sys))
	}
	if p := o.PH; p.Known != outlook.Unknown && p.Later.Likely < p.Now.Likely-0.05 && span(p.Later) != span(p.Now) {
		out = append(out, "pH "+span(p.Later)+" by "+day.DateOf(p.At, v.Now))
	}
	if r := o.Reducer; r.Known != outlook.Unknown && !gone(s) {
		if atRest(s) {
			out = append(out, "reducer in work "+lasts(r.Work))
		} else {
			out = append(out, "reducer under the lid "+lasts(r.Rest))
		}
	}
	if stripStands(v) {
		out = append(out, "strip "+s.Vat.Strip.String()+" at "+day.DateOf(s.Vat.StripAt, v.Now))
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
	return fewWords.Replace(liquor.SayReserve(r))
}

var (
	fewWords = strings.NewReplacer("anything up to more than a day", "up to a day or more", " to more than a day", " or more", "more than a day", "over a day")
	fewer    = strings.NewReplacer(" or more", "+", "over a day", "a day+")
)

// lastsShort is the same for the narrowest windows: "9 h+".
func lastsShort(r quantity.Range[quantity.Span]) string {
	return fewer.Replace(lasts(r))
}

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
	const ounce = 28.349523125
	return quantity.Grams(math.Round(m.Grams()/ounce*10) / 10 * ounce).Format(sys)
}

// filling tells whether some of the water is in, by a reading.
func filling(v engine.View) bool {
	f, ok := v.State.Filling()
	return ok && f.Have > 0
}

// toCome is what there is to know before the filling is done: how much is in it and how much is to come, and when its
// heating must begin.
func toCome(v engine.View) []string {
	s, sys := v.State, v.State.Head.Setup.System()
	if f, ok := s.Filling(); ok && f.Have > 0 {
		facts := []string{f.Have.Format(sys) + outlook.Measured.Mark() + " in it", max(0, f.Fill-f.Have).Format(sys) + " to come"}
		if s.Vat.Temp != nil && f.HaveAt == *s.Vat.Temp {
			facts = append(facts, f.HaveAt.Format(sys)+outlook.Measured.Mark())
		}
		return facts
	}
	all, hot := s.Head.Setup.Fill, quantity.Volume(0)
	for _, st := range s.Plan {
		if st.Do == recipe.Fill && st.Into == recipe.IntoVat {
			hot = st.Hot
			if st.Hot+st.Cold > 0 {
				all = st.Hot + st.Cold
			}
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
