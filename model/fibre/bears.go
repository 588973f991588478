package fibre

import "example.org/vatside/model/quantity"

// Verdict says whether goods may go into a liquor.
type Verdict int

// The verdicts, mildest first.
const (
	Fine Verdict = iota
	Warned
	Refused
)

// leeway is how far above its ceiling of pH a fibre is warned about and not yet refused. C
const leeway = 1

// shortDip is a dip that is short enough for goods in a liquor that is a little too alkaline. M
const shortDip = quantity.Span(5 * 60e9)

// hot is how far above its ceiling of heat a fibre is warned about and not yet refused. M
const hot = quantity.TempDiff(10)

// BearsPH tells whether the fibre bears a liquor of this pH, and a sentence if it does not quite:
// up to its ceiling fine, up to 1 above it a warning, beyond that a refusal. The Unknown fibre is taken as fine. Which other vat
// would do, liquor.Bears says.
func (f Fibre) BearsPH(ph quantity.PH) (Verdict, string) { return f.BearsPHSaid(ph, ph.String(), 0) }

// BearsPHSaid is BearsPH with a pH that the sentence gives in these words, and with the dip that is planned; 0 where none is.
func (f Fibre) BearsPHSaid(ph quantity.PH, said string, planned quantity.Span) (Verdict, string) {
	if f.Class() == NoClass {
		return Fine, ""
	}
	top := f.Facts().PH.Value
	switch {
	case !(ph > top):
		return Fine, ""
	case ph <= top+leeway:
		dip := "dip short"
		if planned > shortDip {
			dip = "dip shorter than the planned " + planned.String()
		}
		return Warned, f.String() + " is at its best up to pH " + top.String() + " and this liquor has " + said + ": " + dip + ", rinse soon"
	}
	return Refused, f.String() + " bears pH " + top.String() + " and this liquor has " + said + ", which harms it"
}

// BearsHeat tells whether the fibre bears a liquor this warm, as BearsPH does; the warning goes 10 °C above the ceiling.
func (f Fibre) BearsHeat(t quantity.Temperature) (Verdict, string) {
	if f.Class() == NoClass {
		return Fine, ""
	}
	top := f.Facts().Heat.Value
	switch {
	case !(t > top):
		return Fine, ""
	case t <= top.Plus(hot):
		return Warned, f.String() + " is at its best up to " + top.String() + " and this liquor has " + t.String() + ": let it cool"
	}
	return Refused, f.String() + " bears " + top.String() + " and this liquor has " + t.String() + ", which harms it: let it cool"
}
