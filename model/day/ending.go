package day

import (
	"fmt"
	"slices"
	"strings"
	"time"
	"unicode"

	"example.org/vatside/model/practice"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/wording"
)

// What the end of a vat asks for that no building does. They stand in the book as what was done.
const (
	DoUseUp  recipe.Do = "use up"
	DoWhisk  recipe.Do = "whisk"
	DoSpent  recipe.Do = "blue"   // has it stayed blue?
	DoDecant recipe.Do = "decant" // draw the clear liquor off
	DoAcid   recipe.Do = "acid"
	DoEnd    recipe.Do = "end" // where it went, and the end of the vat
)

// The pH that a liquor is brought to before it leaves (common practice; the local authority may want another).
const (
	endLow  = quantity.PH(6)
	endHigh = quantity.PH(9)
)

// airOff is how long a vat stays blue by itself before acid comes near it. C
const airOff = quantity.Span(time.Hour)

// acidLot is citric acid for a litre of liquor, one lot; the pH is read after each. From memory.
const acidLot = quantity.Concentration(0.5)

// endPlan is the end of a vat: used up, oxidised, left alone for an hour, settled, drawn off, brought to a mild pH, and
// gone where the local authority says.
func endPlan(h Head) []Step {
	sys := h.Setup.System()
	fill := h.Setup.Fill
	steps := []Step{
		{Do: DoUseUp, Title: "Use it up: is a swatch white?",
			How:  "Dip scrap and pale goods until a swatch of two minutes, aired and rinsed, stays white.",
			Why:  "What is left of the indigo would be thrown away.",
			Look: "a two-minute swatch that stays white in the air; if it turns blue, dye another day"},
		{Do: DoWhisk, For: quantity.Minutes(30), Title: "Whisk air in",
			How:     "Outdoors. Whisk, pour or pump air through it to the floor, on and off over hours, until all of it is blue; at least half an hour.",
			Why:     "Reducer that is left would free a choking gas from acid.",
			Caution: "outdoors, gloves and glasses on, children away; a heater off and out of it; no acid near it yet"},
		{Do: recipe.Wait, For: airOff, Title: "Leave it alone, air off",
			Meanwhile: "No air, no hands. If it turns green or yellow again, reducer is left.",
			Why:       "An hour without air tells whether anything in it still reduces."},
		{Do: DoSpent, Title: "Has it stayed blue?",
			How: "Look below the surface, pull a strip and time it: t. No yellow at all on it, and blue to the floor, then y; else n, and whisk again.",
			Why: "There is no way round this look: acid in a vat that reduces frees sulfur dioxide."},
		{Do: recipe.Settle, For: quantity.Span(12 * time.Hour), Title: "Let the pigment settle", Cover: true,
			Meanwhile: "Overnight, lid on, out of reach of children. The day can be closed.",
			Why:       "The blue on the floor is indigo: washed and dried it can be used again."},
		{Do: DoDecant, Title: "Draw the clear liquor off the blue",
			How:     "Siphon or bail at most 8 to 10 L a carry into a plastic tub; stop above the blue. Pigment: wash it, dry it, label it.",
			Why:     "A full vessel is not lifted, and a filled tub neither.",
			Caution: "gloves and glasses on; siphon by a pump or a filled hose, never by mouth; no filled vessel is lifted"},
		{Do: DoAcid, Mass: acidLot.Of(fill), Material: "citric acid", Title: "Bring it to a mild pH, in small lots",
			How: fmt.Sprintf("Read the pH first: h. Above %g: one lot of citric acid, dissolved, poured slowly, stirred, then space; read again. Between %g and %g: done.",
				float64(endHigh), float64(endLow), float64(endHigh)),
			Why:     "An alkaline liquor burns pipes, skin and soil life. It froths: chalk and soda give off gas.",
			Caution: "outdoors, glasses on, who has asthma stands off; a choking smell: stop, leave it, into fresh air"},
		{Do: DoEnd, Title: "Ask where it may go, and write it down",
			How:     "The local authority's or the water utility's word only. Never a lawn, compost, stream or storm drain. Say where it went: o.",
			Why:     "Old reducer, lye and tins go to the hazardous-waste point, dry and labelled: " + fill.Format(sys) + " and its pH stand in the book.",
			Caution: "no filled vessel is lifted: at most 8 to 10 L a carry"},
	}
	acid, _ := practice.ChemicalNamed("citric acid")
	for i := range steps {
		steps[i].No = i + 1
		if steps[i].Do == DoAcid {
			steps[i].Caution += "; " + acid.Card()
		}
	}
	return steps
}

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
		return "this is not left out: acid in a vat that still reduces frees a choking gas"
	case DoAcid:
		return fmt.Sprintf("this is not left out: read its pH; from %g to %g it is done", float64(endLow), float64(endHigh))
	case DoEnd:
		return "this is not left out: where it went ends the vat"
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

// tooSour tells whether the liquor was read as too sour to go, at the step of the acid.
func (s State) tooSour() bool {
	st, ok := s.Open()
	return ok && st.Do == DoAcid && s.readSince(s.lastLot()) && quantity.PH(*s.Vat.PH) < endLow
}

// acidID is the acid of a vat's end, as its lots stand in the book. No recipe has it.
const acidID = "citric acid"

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
func (s State) wantsAcid() bool {
	return s.readSince(s.lastLot()) && quantity.PH(*s.Vat.PH) > endHigh
}

// mixing is how long a lot is stirred in before its pH tells of it. M
const mixing = time.Minute

// readSince tells whether the pH was read at this step, and a minute or more after a lot.
func (s State) readSince(lot time.Time) bool {
	if s.Vat.PH == nil || s.Vat.PHAt.IsZero() || s.Vat.PHAt.Before(s.StepSince) {
		return false
	}
	return lot.IsZero() || s.Vat.PHAt.Sub(lot) >= mixing
}

// acidLotIn is one lot of the acid.
func acidLotIn(st Step) []Body {
	return []Body{PowderAdded{Powder: acidID, Material: st.Material, Mass: st.Mass, Why: "to a mild pH, before it goes"}}
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
	case quantity.PH(*s.Vat.PH) < endLow:
		return fmt.Sprintf("pH %s: too sour; alkali in small lots, each with a reading after it, until it reads %g to %g", pH(*s.Vat.PH), float64(endLow), float64(endHigh))
	}
	return ""
}

// endVat ends the vat. On the day that leads to its end, every step before was done first.
func (s State) endVat(b VatEnded) ([]Body, error) {
	if err := s.hanging(); err != nil {
		return nil, err
	}
	if !s.Head.Setup.Ending {
		return []Body{b}, nil
	}
	st, open := s.Open()
	switch {
	case !open:
	case st.Do != DoEnd:
		return refuse("first %s", wording.Lower(st.Title))
	case !strings.ContainsFunc(b.Route, unicode.IsLetter):
		return refuse("say where it went, by the local authority's word, such as the foul sewer")
	}
	if b.Liquor == 0 {
		if b.Liquor = s.liquid.decanted; b.Liquor == 0 {
			b.Liquor = s.Level().In
		}
	}
	if b.PH == nil {
		b.PH = s.Vat.PH
	}
	return []Body{b}, nil
}
