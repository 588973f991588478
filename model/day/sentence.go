package day

import (
	"cmp"
	"fmt"
	"strings"
	"time"

	"example.org/vatside/model/load"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/wording"
)

// Clock is a time of day as the hands need it, 10:42.
func Clock(t time.Time) string {
	h, m, _ := t.Clock()
	return string([]byte{byte('0' + h/10), byte('0' + h%10), ':', byte('0' + m/10), byte('0' + m%10)})
}

// DateOf is a time with its day, where that is not the other's: "9:00", "Mon 30 Nov 9:00".
func DateOf(at, now time.Time) string {
	at = at.In(now.Location())
	if at.Format(time.DateOnly) == now.Format(time.DateOnly) {
		return Clock(at)
	}
	if at.Year() != now.Year() {
		return at.Format("2 Jan 2006 ") + Clock(at)
	}
	return at.Format("Mon 2 Jan ") + Clock(at)
}

// Countdown is a stretch of time as a countdown shows it, 4:10 or 1:02:30; a part of a second counts as a whole one.
func Countdown(d time.Duration) string {
	if d += time.Second - 1; d <= -time.Second {
		return "-" + wording.Minutes(-d)
	}
	return wording.Minutes(d)
}

// Long is a stretch of time in words for the log and the past, 3 h 10 min.
func Long(d time.Duration) string {
	if d < time.Minute {
		return fmt.Sprintf("%d s", int(d.Round(time.Second)/time.Second))
	}
	d = d.Round(time.Minute)
	h, m := int(d/time.Hour), int(d/time.Minute)%60
	switch {
	case h == 0:
		return fmt.Sprintf("%d min", m)
	case m == 0:
		return fmt.Sprintf("%d h", h)
	}
	return fmt.Sprintf("%d h %d min", h, m)
}

func presumed(a Assumption) string {
	return wording.If(a.Assumed, " (as planned, not confirmed)")
}

func toldAt(t *time.Time) string {
	if t == nil {
		return ""
	}
	return ", at " + Clock(*t)
}

func with(what string) string { return wording.If(what != "", " with "+what) }

// placed is a place as a sentence says it.
func placed(place string) string {
	switch place {
	case ClosedRoom:
		return "in a closed room"
	case CrossDraught:
		return "in a cross-draught"
	}
	return place
}

func pH(v float64) string { return strings.TrimSuffix(fmt.Sprintf("%.1f", v), ".0") }

// Sentence says what happened, as one dyer would tell it.
func (b Opened) Sentence(quantity.System) string {
	switch b.How {
	case "build":
		return "day opened, a vat to build"
	case "tend":
		return "day opened on a living vat"
	case "end":
		return "day opened to end the vat"
	}
	return "day opened, the build goes on"
}

// The sentences of the other kinds follow the same form.

func (b StepBegun) Sentence(quantity.System) string {
	return fmt.Sprintf("step %d begun: %s", b.Step, cmp.Or(b.What, "its time runs"))
}

func (b StepDone) Sentence(quantity.System) string {
	return fmt.Sprintf("step %d done: %s", b.Step, cmp.Or(b.What, b.Do))
}

func (b StepSkipped) Sentence(quantity.System) string {
	return fmt.Sprintf("step %d left out, %s", b.Step, cmp.Or(b.What, b.Do)) + wording.Because(b.Reason)
}

func (b PowderWeighed) Sentence(u quantity.System) string {
	if b.Mass < 0 {
		return fmt.Sprintf("took %s of %s off the scale", (-b.Mass).Format(u), b.Material)
	}
	return fmt.Sprintf("weighed %s of %s", b.Mass.Format(u), b.Material)
}

func (b PowderAdded) Sentence(u quantity.System) string {
	if b.Powder == acidID {
		return fmt.Sprintf("%s of %s went into the vat, oxidised, at its end", b.Mass.Format(u), b.Material)
	}
	return fmt.Sprintf("%s of %s went %s", b.Mass.Format(u), b.Material, wording.Either(b.Into == "stock", "into the stock jar", "into the vat"))
}

func (b VatJudged) Sentence(quantity.System) string {
	of := "the vat"
	switch b.Of {
	case "stock":
		of = "the stock"
	case "end":
		return "it has not stayed blue" + wording.Because(b.Seen)
	}
	by := wording.If(b.By != "", " by "+b.By)
	if b.Ready {
		return of + " is ready" + by + wording.Because(b.Seen)
	}
	return of + " is not ready yet" + by + wording.Because(b.Seen)
}

func (b Reading) Sentence(u quantity.System) string {
	var parts []string
	if b.Temp != nil {
		parts = append(parts, b.Temp.Format(u))
	}
	if b.PH != nil {
		p := "pH " + pH(*b.PH)
		if b.PHTemp != nil {
			p += " at " + b.PHTemp.Format(u)
		}
		parts = append(parts, p)
	}
	words, and := wording.Either(b.Of == "stock", "the stock jar", "the vat"), ""
	switch {
	case b.BelowRim != nil:
		words, and = words+" is full to "+b.BelowRim.Format(u)+" below the rim", ", and"
	case b.Holds != nil:
		words, and = words+" holds "+b.Holds.Format(u), ", and"
	}
	if len(parts) == 0 && and != "" {
		return words
	}
	return words + and + " reads " + strings.Join(parts, ", ")
}

func (b StripBegun) Sentence(quantity.System) string { return "strip out, and watched" }

func (b StripTest) Sentence(quantity.System) string {
	s := wording.Either(b.Stayed == 0, "strip showed no yellow", "strip stayed yellow "+b.Stayed.String())
	return s + wording.If(b.Colour != "", ", "+b.Colour)
}

func (b SignSeen) Sentence(quantity.System) string { return "seen: " + b.Sign }

func (b VatCovered) Sentence(quantity.System) string {
	return "covered" + with(b.With)
}

func (b VatUncovered) Sentence(quantity.System) string { return "uncovered" }
func (b FrothSkimmed) Sentence(quantity.System) string {
	return "froth skimmed" + presumed(b.Assumption)
}

func (b Stirred) Sentence(quantity.System) string {
	return "stirred" + wording.If(b.For != 0, " "+b.For.String()) + presumed(b.Assumption)
}

func (b Rested) Sentence(quantity.System) string    { return "rest of the vat, " + b.For.String() }
func (b Settled) Sentence(quantity.System) string   { return "settled " + b.For.String() }
func (b HeaterOn) Sentence(quantity.System) string  { return "heater on, hands out" }
func (b HeaterOff) Sentence(quantity.System) string { return "heater off and unplugged" }

func (b ToppedUp) Sentence(u quantity.System) string {
	return "topped up with " + b.Water.Format(u) + " of water" + wording.If(b.Temp != 0, " at "+b.Temp.Format(u))
}

func (b DrawnOff) Sentence(u quantity.System) string {
	return b.Liquor.Format(u) + " of liquor drawn off" + wording.Because(b.Why)
}

func (b Fed) Sentence(u quantity.System) string {
	return fmt.Sprintf("fed %s of %s", b.Mass.Format(u), b.Material) + wording.Because(b.Why)
}

func (b StockDrawn) Sentence(u quantity.System) string {
	return b.Stock.Format(u) + " of stock went into the vat"
}

func (b Decanted) Sentence(u quantity.System) string {
	return b.Liquor.Format(u) + " of clear liquor decanted" + wording.Because(b.Why)
}

func (b TimerStretched) Sentence(quantity.System) string {
	return b.Timer + ": " + b.By.String() + " more"
}
func (b TimerCut) Sentence(quantity.System) string { return b.Timer + ": " + b.By.String() + " less" }

func (b WayChosen) Sentence(quantity.System) string {
	switch b.Way {
	case load.ChoiceFull:
		return "when the vat tires: full dips, even if it takes longer"
	case load.ChoiceFeed:
		return "when the vat tires: it is fed"
	}
	return "when the vat tires: weak dips, and done in time"
}

func (b HandsTold) Sentence(quantity.System) string {
	words := wording.Either(b.Hands != 1, fmt.Sprintf("%d pairs of hands at the vat", b.Hands), "1 pair of hands at the vat")
	return words + wording.If(b.People > 0, fmt.Sprintf(", pieces of at most %d people in it at once", b.People))
}

func (b HelperChanged) Sentence(quantity.System) string {
	if b.Children {
		return b.Who + " at the vat: no powders, no hot water, no vat above " + ChildrenMost.String() + " for them"
	}
	return b.Who + wording.Either(strings.HasPrefix(b.Who, "adults"), " are", " is") + " at the vat"
}

func (b Talking) Sentence(quantity.System) string {
	return wording.Either(b.On, "talking: pieces wait to go in", "talking is over: pieces go in again")
}

func (b PlaceChanged) Sentence(quantity.System) string {
	return wording.Either(b.Of == OfGoods, "goods are finished "+placed(b.Place), "the vat stands "+placed(b.Place))
}

func (b VesselTold) Sentence(quantity.System) string { return "the vessel is " + b.Material }

func (b HotWork) Sentence(u quantity.System) string {
	return "the vat reads " + b.Temp.Format(u) + ": sticks or tongs, no hands" + wording.Because(b.Reason)
}

func (b Treated) Sentence(quantity.System) string {
	return b.Do + wording.If(b.Wait > 0, "; look again after "+b.Wait.String())
}

func (b Rechecked) Sentence(quantity.System) string       { return "looked again: " + b.Answer }
func (b CautionAnswered) Sentence(quantity.System) string { return "caution answered: " + b.Caution }
func (b Note) Sentence(quantity.System) string            { return "note: " + b.Text }

func (b Corrected) Sentence(quantity.System) string {
	switch b.Way {
	case "undone":
		return fmt.Sprintf("taken back: #%d", b.Of)
	case "moved":
		return fmt.Sprintf("corrected: #%d was", b.Of) + strings.TrimPrefix(toldAt(b.To), ",")
	}
	return fmt.Sprintf("confirmed: #%d", b.Of)
}

func (b ClockStepped) Sentence(quantity.System) string {
	d := b.By.Duration()
	if d < 0 {
		return "the computer's clock is " + Long(-d) + " behind the day's time; no running time was moved"
	}
	return "the computer's clock is " + Long(d) + " ahead of the day's time; no running time was moved"
}

func (b Slept) Sentence(quantity.System) string {
	return "the computer slept " + Long(b.For.Duration()) + "; the times ran on"
}

func (b SoundChecked) Sentence(quantity.System) string {
	return wording.Either(b.Heard, "sound check: heard", "sound check: not heard; nothing is taken as planned")
}

func (b SoundFailed) Sentence(quantity.System) string {
	return fmt.Sprintf("%q could not be sounded: %s", b.Call, b.Why)
}

func (b Closed) Sentence(quantity.System) string { return "day closed" + wording.Because(b.Why) }

func (b VatEnded) Sentence(u quantity.System) string {
	s := "the vat has ended" + wording.Because(b.Why) + wording.If(b.Liquor > 0, ", "+b.Liquor.Format(u))
	if b.PH != nil {
		s += ", pH " + pH(*b.PH)
	}
	return s + wording.If(b.Route != "", ", to "+strings.TrimPrefix(b.Route, "to "))
}

func (b Lost) Sentence(quantity.System) string {
	if b.Text != "" {
		return "an act is missing here: it could not be read, and its text is kept"
	}
	return "an act is missing here: the file had lost it"
}

func (b Unknown) Sentence(quantity.System) string { return "kept from a later version: " + b.Name }
