package day

import (
	"fmt"
	"slices"
	"time"

	"example.org/vatside/model/practice"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
)

// notSpent says why a vat may not be called oxidised yet; empty when it may. A strip that shows no yellow at all was pulled
// after an hour with the air off, and after the last "not yet" another hour passed.
func (s State) notSpent(now time.Time) string {
	since := s.StepSince
	if !s.Judged.IsZero() {
		since = s.Judged.Add(airOff.Duration())
		if left := since.Sub(now); left > 0 {
			return "whisk air in again, leave it alone for an hour, then look: " + Countdown(left) + " more"
		}
	}
	switch {
	case s.Vat.Strip == nil || s.Vat.StripAt.Before(since):
		return "pull a strip first and time it: only one that shows no yellow at all will do"
	case *s.Vat.Strip > 0:
		return "the strip stayed yellow " + s.Vat.Strip.String() + ": reducer is left; say not yet, and whisk again"
	}
	return ""
}

// MayLeaveOut tells whether the open step may be left out. What stands between a vat and acid, or the drain, may not: there
// is no override.
func (s State) MayLeaveOut() bool { st, ok := s.Open(); return ok && s.notLeftOut(st) == "" }

// notLeftOut says why a step of a vat's end is not left out; empty when it may be.
func (s State) notLeftOut(st Step) string {
	if !s.Head.Setup.Ending {
		return ""
	}
	switch st.Do {
	case DoWhisk, recipe.Wait, DoSpent:
		return "this cannot be left out: acid in a vat that still reduces frees a choking gas"
	case DoAcid:
		switch {
		case !s.lastLot().IsZero():
			return fmt.Sprintf("this cannot be left out once acid went in: read its pH; from %g to %g it is done", float64(s.endLow()), float64(endHigh))
		case !s.readSince(time.Time{}):
			return fmt.Sprintf("read its pH first: where it is taken as it is, say this with its pH; else from %g to %g it is done", float64(s.endLow()), float64(endHigh))
		}
		return s.stillReduces()
	case DoEnd:
		return "this cannot be left out: where it went ends the vat"
	}
	return ""
}

// gates tells whether a timer is the whisking's or the hour's before a vat's end.
func (s State) gates(timer string) bool {
	st, ok := s.Open()
	return ok && s.Head.Setup.Ending && timer == stepTimer(st.No) && (st.Do == DoWhisk || st.Do == recipe.Wait)
}

// hourAlone tells whether the hour without air runs, before a vat's end.
func (s State) hourAlone() bool {
	st, ok := s.Open()
	return ok && s.Head.Setup.Ending && st.Do == recipe.Wait
}

// hourSince is when the hour without air began, or began again.
func (s State) hourSince() time.Time {
	st, _ := s.Open()
	return s.StepSince.Add(s.shift(stepTimer(st.No)))
}

// stillReduces says why nothing may follow the look that called a vat oxidised: a strip since then showed yellow, and none an
// hour later showed that it is gone. Empty where all is well.
func (s State) stillReduces() string {
	st, ok := s.Open()
	if !ok || !s.Head.Setup.Ending || !slices.ContainsFunc(s.Plan[:max(0, st.No-1)], func(p Step) bool { return p.Do == DoSpent }) {
		return ""
	}
	if s.yellow == (yellowStrip{}) || !s.spentAt.IsZero() && s.yellow.at.Before(s.spentAt) {
		return ""
	}
	return "the strip stayed yellow " + s.yellow.stayed.String() + ": reducer is left; whisk air in, leave it alone for an hour, then pull another: only one without any yellow goes on"
}

// endLow is the pH that a liquor is not brought below.
func (s State) endLow() quantity.PH {
	if s.Sulfur() == practice.No {
		return endLow
	}
	return endLowSulfur
}

// tooSour tells whether the liquor was read as too sour to go, at the step of the acid, and alkali may still go in.
func (s State) tooSour() bool {
	st, ok := s.Open()
	return ok && st.Do == DoAcid && s.readSince(s.lastLot()) && quantity.PH(*s.Vat.PH) < s.endLow() && s.gasses() == ""
}

// gasses says of a liquor that held a sulfur reducer and was read below endStop that nothing goes in; empty for any other.
func (s State) gasses() string {
	if s.Vat.PH == nil || quantity.PH(*s.Vat.PH) >= endStop || s.Sulfur() == practice.No {
		return ""
	}
	return fmt.Sprintf("pH %s: sulfur dioxide; nothing goes in, step upwind, send everyone else away; once nothing stings, read a ladled sample again, outdoors, with a fresh strip; else leave it and ask the local authority", pH(*s.Vat.PH))
}

// lastLot is when the last lot of acid, or of alkali against too much of it, went in at this step; zero for none.
func (s State) lastLot() time.Time {
	_, at := s.lots()
	return at
}

// lots is how many lots of acid, or of alkali against too much of it, went in at this step, and when the last one did.
func (s State) lots() (n int, last time.Time) {
	for _, p := range s.portions {
		if p.Way == Added && p.Step == 0 && !p.At.Before(s.StepSince) {
			n, last = n+1, p.At
		}
	}
	return n, last
}

// wantsAcid tells whether the liquor was read as too alkaline to go since the last lot of acid.
func (s State) wantsAcid() bool { return s.readSince(s.lastLot()) && quantity.PH(*s.Vat.PH) > endHigh }

// mixing is how long a lot is stirred in before its pH tells of it. M
const mixing = time.Minute

// readSince tells whether the pH was read at this step, and a minute or more after a lot.
func (s State) readSince(lot time.Time) bool {
	if s.Vat.PH == nil || s.Vat.PHAt.IsZero() || s.Vat.PHAt.Before(s.StepSince) {
		return false
	}
	return lot.IsZero() || s.Vat.PHAt.Sub(lot) >= mixing
}

// acidLot is the next lot of the acid: two thirds of what is still reckoned to be wanted, since near its end a liquor hardly
// resists; a tenth of the plan's at least, the plan's at most. M
func (s State) acidLot(st Step) quantity.Mass {
	n := lastLiquor(s.Head)
	n.PH = (*quantity.PH)(s.Vat.PH)
	each, ok := n.Citric(endAim, 1)
	if !ok || n.PH == nil {
		return st.Mass
	}
	return quantity.TwoFigures(min(max(each.Of(s.Head.Setup.Fill)*2/3, st.Mass/10), st.Mass))
}

// notMild says why the liquor's pH does not let it go yet; empty when it does.
func (s State) notMild() string {
	switch {
	case !s.readSince(s.lastLot()) && !s.lastLot().IsZero():
		return "stir, wait a minute, and read its pH again"
	case !s.readSince(time.Time{}):
		return "read its pH first and type it"
	case quantity.PH(*s.Vat.PH) > endHigh:
		return fmt.Sprintf("pH %s: one lot of acid more, stir, read again; at most %g lets it go", pH(*s.Vat.PH), float64(endHigh))
	case s.gasses() != "":
		return s.gasses()
	case quantity.PH(*s.Vat.PH) < s.endLow():
		return fmt.Sprintf("pH %s: too acid; alkali in small lots, each with a reading after it, until it reads %g to %g", pH(*s.Vat.PH), float64(s.endLow()), float64(endHigh))
	}
	return ""
}
