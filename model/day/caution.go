package day

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"example.org/vatside/model/liquor"
	"example.org/vatside/model/practice"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/signs"
	"example.org/vatside/model/wording"
)

// CautionOf is the caution that a command would have to have answered first, in full the first time of the day and in its first
// words after that; empty where it wants none, or is refused. Done and Bench, which answer it by a first press, have theirs too.
func CautionOf(s State, c Command, now time.Time) string {
	bodies, err := s.decide(c, now)
	if pending := (*Pending)(nil); errors.As(err, &pending) {
		return pending.Caution
	}
	if err != nil {
		return ""
	}
	if said, ok := onlyAnswer(c, bodies); ok {
		return s.brief(said)
	}
	if said := s.wants(c, bodies, now); said != nil {
		return s.brief(*said)
	}
	return ""
}

// onlyAnswer is the answer to a caution where a press makes nothing else.
func onlyAnswer(c Command, bodies []Body) (CautionAnswered, bool) {
	if _, told := c.(Record); told || len(bodies) != 1 {
		return CautionAnswered{}, false
	}
	said, ok := bodies[0].(CautionAnswered)
	return said, ok
}

// brief is a caution in full the first time today, its first words after that.
func (s State) brief(c CautionAnswered) string {
	caution, untold, also := strings.Cut(c.Caution, "; "+neverTold)
	if !s.given(caution) {
		return c.Caution
	}
	short, _, _ := strings.Cut(caution, ";")
	short += wording.If(also, "; "+neverTold+untold)
	return short
}

// cautioned holds what was decided back where a caution is to be answered first.
func (s State) cautioned(c Command, bodies []Body, now time.Time) ([]Body, error) {
	if said := s.wants(c, bodies, now); said != nil {
		return nil, &Pending{s.brief(*said)}
	}
	return bodies, nil
}

func (c Answered) decide(s State, now time.Time) ([]Body, error) {
	switch c.Command.(type) {
	case nil, Answered:
		return refuse("say what is to be done")
	}
	bodies, err := s.decideAsked(c.Command, now)
	if err != nil {
		return nil, err
	}
	if said, ok := onlyAnswer(c.Command, bodies); ok {
		next, err := Apply(s, Event{Seq: s.Seq + 1, At: now, Body: said})
		if err != nil {
			return nil, err
		}
		long := now.Add(-cautionLeast)
		if next.SaidAt = long; said.Step != 0 {
			next.Answered = long
		}
		act := c.Command
		if _, press := act.(Done); press { // the call that was named is answered with its caution
			act = Done{}
		}
		more, err := next.decideAsked(act, now)
		if err != nil {
			return nil, err
		}
		return append(bodies, more...), nil
	}
	said := s.wants(c.Command, bodies, now)
	if said == nil {
		return bodies, nil
	}
	return append([]Body{*said}, bodies...), nil
}

// decideAsked decides a command that was asked for twice: a press long before the end of a dip lifts.
func (s State) decideAsked(c Command, now time.Time) ([]Body, error) {
	if press, ok := c.(Done); ok {
		return s.decideDone(press, now, true)
	}
	return s.decide(c, now)
}

// wants is the caution of what was decided, as its answer is written down; nil where it wants none. What a step's own caution
// stands before was answered with it.
func (s State) wants(c Command, bodies []Body, now time.Time) *CautionAnswered {
	switch c.(type) {
	case PutScoop, Judge:
		if st, ok := s.Open(); ok && st.Caution != "" && s.Answered.IsZero() && !s.warmEnough() {
			return &CautionAnswered{OfStep{st.No}, s.stepCaution(st)}
		}
		if judged, is := c.(Judge); is && s.hurries(judged, now) != "" {
			return &CautionAnswered{Caution: s.hurries(judged, now)}
		}
		return nil
	}
	var words []string
	for _, b := range bodies {
		if answer, own := s.cautionBefore(b, now); answer.Caution != "" && own {
			return &answer
		} else if answer.Caution != "" && !slices.Contains(words, answer.Caution) {
			words = append(words, answer.Caution)
		}
	}
	if len(words) == 0 {
		return nil
	}
	return &CautionAnswered{Caution: wording.Joined("; ", append(words, s.untoldOf(bodies))...)}
}

// cautionBefore is the caution that stands before a body; empty where it has none, or where its step's was answered. own is
// whether it is the step's.
func (s State) cautionBefore(b Body, now time.Time) (answer CautionAnswered, own bool) {
	if read, ok := b.(Reading); ok {
		return CautionAnswered{Caution: s.slips(read)}, false
	}
	if st, ok := b.(Stepped); ok && st.StepNo() != 0 {
		return CautionAnswered{}, false
	}
	st, open := s.Open()
	answered := open && !s.Answered.IsZero()
	words := ""
	switch b := b.(type) {
	case PowderAdded:
		if b.Powder == acidID && open && st.Do == DoAcid { // by its step
			break
		}
		p, ok := s.Head.Recipe.Powder(b.Powder)
		if !ok {
			p.Material = b.Material
		}
		words = powderCaution(p)
		if first, wants := liquor.AlkaliFirst(s.Head.Recipe, b.Powder, b.Mass, 0, (*quantity.PH)(s.Vat.PH)); wants && !open {
			alkali, _ := s.Head.Recipe.Powder(first.Powder)
			words += fmt.Sprintf("; %s of %s goes in before it", first.Mass.Scale(s.Head.Setup.System()), alkali.Material)
		}
		if whole := s.Head.Recipe.PerLitre(p).Of(s.holds()); ok && !open && b.Mass > whole && whole > 0 {
			words += fmt.Sprintf("; %s is more than a new vat of this fill has in all, %s: weigh again", b.Mass.Scale(s.Head.Setup.System()), whole.Scale(s.Head.Setup.System()))
		}
	case StockDrawn:
		words = stockCaution
	case DipBegun:
		if b.When == nil { // else it is told afterwards
			words = wording.Joined("; ", s.resting(now), s.notReduced(), s.stale(now), s.soaksUp(b.Tag))
		}
	case HeaterOn:
		if words = heaterCaution; answered && st.Do == recipe.Warm {
			words = ""
		}
	case ToppedUp:
		if b.Temp > HandsMost {
			words = hotWater
		}
	case HelperChanged:
		if b.Children && !s.Children && s.Vat.Temp != nil {
			words = s.childrenOff(*s.Vat.Temp)
		}
	case Soured:
		id := bathSour
		if b.Whites {
			id = bathCitric
		}
		words = s.bathCaution(b.Tag, id)
	case Soaped:
		words = s.bathCaution(b.Tag, bathSoap)
	case Closed:
		words = s.closing()
	case VatEnded:
		switch {
		case !s.Head.Setup.Ending:
			words = "this ends the vat for good, and no key takes it back; what is still in it is used up, whisked blue and brought to " +
				fmt.Sprintf("pH %g to %g on the day that leads to its end", float64(s.endLow()), float64(endHigh))
		case open && !answered:
			return CautionAnswered{OfStep{st.No}, st.Caution}, true
		}
	}
	return CautionAnswered{Caution: words}, false
}

// resting is the question before goods go into a vat that rests, or in which a treatment works; empty where neither is so.
func (s State) resting(now time.Time) string {
	d, rests := wording.First(Dues(s), func(d Due) bool { return (d.Kind == DueRest || d.Timer == recheckTimer) && d.At.After(now) })
	if !rests {
		return ""
	}
	return wording.Either(d.Kind == DueRest, "the vat rests ", "a treatment works ") + Countdown(d.At.Sub(now)) + " more, lid on and no hands in it"
}

// hurries is the question before a vat is called ready, and nobody says by what it was seen, against a strip that has just said that it is
// not, or while it is to wait: empty where a good strip was read.
func (s State) hurries(c Judge, now time.Time) string {
	st, open := s.Open()
	if !open || !c.Ready || c.By != "" || st.Do != recipe.Wait && !st.Judges() {
		return ""
	}
	stayed, ready := s.stripSays()
	switch {
	case stayed != nil && !ready && s.Ways()[0] == ByStrip:
		return fmt.Sprintf("the strip stayed yellow %v, good is %v to %v: is it ready, by your eye?", stayed, signs.GoodStripLeast, signs.GoodStripMost)
	case st.Do != recipe.Wait || stayed != nil:
		return ""
	}
	if left := s.waitEnd(st).Sub(now); left > 0 {
		return Long(left) + " to go, no strip read: is it ready?"
	}
	return ""
}

// powderCaution is what stands before a powder of the recipe: what to wear, its danger, what it must never meet.
func powderCaution(p recipe.Powder) string {
	parts := []string{"gloves and glasses on"}
	if c, ok := practice.ChemicalOf(p.Substance()); ok {
		parts = c.Cautions()
	}
	switch {
	case p.SulfurReducer():
		parts = append(parts, "outdoors or in a draught; small lots, never a heap; anyone with asthma stays away")
	case p.Lye():
		parts = append(parts, "lye into cold water, never water onto lye")
	}
	return practice.Unsourced(p.Material + ": " + strings.Join(parts, "; "))
}

// bathCaution is the caution of a step after the last dip that is told of by hand; empty where it was answered before the bath.
func (s State) bathCaution(tag, id string) string {
	p, _ := s.Piece(tag)
	if p.Finishing.Bath == id {
		return ""
	}
	for _, st := range s.Bench(p) {
		if st.ID != id {
			continue
		}
		if words := s.benchCaution(p, st); words != s.Said {
			return words
		}
	}
	return ""
}

// closing is the question before a day is closed: what it leaves open.
func (s State) closing() string {
	st, open := s.Open()
	n, waits := s.Unconfirmed(), tagsOf(wording.Only(s.Pieces, Piece.Live))
	if s.Head.Setup.GoodsFirst && s.atFirst() && !s.Head.Opening.Built && n == 0 { // an entry of the evening before
		words := "this closes the entry; the build is for its next day"
		words += wording.If(len(waits) > 0, ", and takes "+strings.Join(waits, ", ")+" over")
		return words
	}
	return wording.Joined("; ", "this closes the day, and no key takes it back",
		wording.If(open, fmt.Sprintf("step %d is open, %s", st.No, strings.TrimSuffix(wording.Lower(st.Title), "?"))),
		wording.If(n > 0, wording.Counted(n, "act")+" not confirmed"),
		wording.If(len(waits) > 0, strings.Join(waits, ", ")+" not finished"))
}
