package day

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"example.org/vatside/model/fibre"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/shade"
	"example.org/vatside/model/wording"
)

// ActKind is what the hands are asked for.
type ActKind int

// The kinds of act.
const (
	ActStep   ActKind = iota // the open step of the plan
	ActWetOut                // is the piece wet through?
	ActSkim                  // skim the froth before a load
	ActEnter                 // lower a piece in
	ActLift                  // lift a piece out, now or when its time is over
	ActAir                   // nothing but airing: wait
	ActFinish                // no green left: the piece is done
	ActRest                  // the vat rests
	ActLook                  // look again after a treatment
	ActBench                 // a piece whose dips are over: rinse, sour, soap, dry
	ActIdle                  // no piece wants hands
	ActClosed                // the day is over
	ActDecide                // the look that decides: has the piece enough?
	ActStrip                 // a strip is watched: is it blue?
)

// Entry is what typed figures mean at an act.
type Entry int

// What figures are taken for.
const (
	NoEntry Entry = iota
	MassEntry
	TempEntry
)

// Act is the one thing for the hands: at any moment there is exactly one.
type Act struct {
	Kind    ActKind
	Step    Step      // for ActStep
	Piece   Piece     // for acts on a piece
	Tags    []string  // of ActWetOut, ActEnter and ActLift: all the pieces that it is about, Piece first
	Bench   BenchStep // for ActBench
	Dip     int       // which dip it is about, from 1
	Words   string
	How     string
	Why     string
	Caution string // stands before the act and wants an answer
	Due     *Due   // the deadline that the act waits for
	Press   string // what the big key does now; empty: nothing
	Shut    bool   // for ActBench: it may not be done yet, and How says why
	Entry   Entry
}

// Left is what remains until the act's deadline; over is by how much it has passed.
func (a Act) Left(now time.Time) (left, over time.Duration) {
	if a.Due == nil {
		return 0, 0
	}
	return a.Due.left(now)
}

// Next is the act for the hands at an instant. While goods are in the liquor it is to lift them, whatever else could be done.
func Next(s State, now time.Time) Act {
	if s.Closed {
		return Act{Kind: ActClosed, Words: "The day is closed", How: "The vat is in the book; the next day on it begins from home."}
	}
	if lifts := s.lifts(); len(lifts) > 0 {
		return s.liftAct(lifts[0])
	}
	if a, ok := s.stripAct(now); ok {
		return a
	}
	if st, ok := s.Open(); ok {
		return s.stepAct(st, now)
	}
	return s.clockAct(now)
}

// stepAct is the open step as an act.
func (s State) stepAct(st Step, now time.Time) Act {
	if st.Do == recipe.Fill {
		st = s.corrected(st)
	}
	a := Act{Kind: ActStep, Step: st, Words: st.Title, How: st.How, Why: st.Why, Press: "done"}
	for _, d := range s.stepDues() {
		if d.Kind != DueTurn || now.Before(d.At) {
			a.Due = &d
			break
		}
	}
	if (st.Do == recipe.Add || st.Do == recipe.Sprinkle) && st.Into == recipe.IntoVat {
		if words := s.strength(); words != "" {
			a.How = strings.TrimSpace(a.How + " " + words)
		}
	}
	switch {
	case st.Caution != "" && s.Answered.IsZero():
		a.Caution, a.Press = s.cautionOf(st), "on"
	case s.gate(st) != "":
		a.Entry, a.Press = TempEntry, ""
		a.Words, a.How = "Read the °C first", s.gate(st)
	case st.Do == recipe.Weigh:
		a.Entry = MassEntry
		if got := s.Weighed(st.No); got != 0 {
			a.How = wording.Upper(s.OnScale(st)) + "."
		}
	case st.Do == recipe.Fill || st.Do == recipe.Warm || st.Do == recipe.Cool:
		a.Entry = TempEntry
		if left, _ := a.Left(now); left > 0 {
			a.Press = ""
		}
	case (st.Do == recipe.Stir || st.Do == recipe.Simmer || st.Do == DoWhisk) && st.For > 0 && s.Begun.IsZero():
		a.Press = "begin"
	case st.Do == DoWhisk:
		if left, _ := a.Left(now); left > 0 {
			a.Press = ""
		}
	case st.Waits() && st.For > 0:
		left, _ := a.Left(now)
		if left > 0 {
			a.Press = ""
		}
		if st.Meanwhile != "" {
			a.How = st.Meanwhile
		}
		if left > LongWait {
			a.Why = "A long wait: the day can be closed, and home calls when it is over."
		}
	case st.Do == DoSpent:
		if why := s.notSpent(now); why == "" {
			a.Press = "still blue"
		} else if !s.Judged.IsZero() {
			if left, _ := a.Left(now); left > 0 { // the figure counts it down
				why, _, _ = strings.Cut(why, ":")
			}
			a.How, a.Press = wording.Upper(why)+".", ""
		} else {
			a.Press = ""
		}
	case st.Do == DoAcid:
		switch lot := s.lastLot(); {
		case s.readSince(lot):
		case lot.IsZero():
			a.Words = "Read its pH first"
		default:
			a.Words = "Stir, then read its pH again"
		}
		if why := s.notMild(); why != "" {
			a.How, a.Press = st.How+" Now: "+why+".", ""
		}
		if s.wantsAcid() {
			a.Press = "a lot is in"
		}
		if why := s.stillReduces(); why != "" {
			a.How, a.Press = wording.Upper(why)+".", ""
		}
	case st.Do == DoEnd:
		a.Press = ""
	case st.Judges():
		s.judging(&a, now)
	}
	if st.Do == DoAcid && !s.wantsAcid() { // no lot is shown before the pH asks for it
		a.Step.Mass = 0
	}
	return a
}

// OnScale says what was weighed of a powder so far, and what is still to go or too much; empty before the first scoop.
func (s State) OnScale(st Step) string {
	sys, got := s.Head.Setup.System(), s.Weighed(st.No)
	text := "on the scale " + got.Format(sys)
	if sys == quantity.Metric && got < quantity.Grams(1000) { // to the tenth, so that it adds up with what is to go
		text = "on the scale " + strings.TrimSuffix(fmt.Sprintf("%.1f", got.Grams()), ".0") + " g"
	}
	switch to := (st.Mass - got).Format(sys); {
	case got == 0:
		return ""
	case got.Format(sys) == st.Mass.Format(sys):
		return text + ", all of it"
	case got > st.Mass:
		return text + ", " + (got - st.Mass).Format(sys) + " too much"
	default:
		return text + ", " + to + " to go"
	}
}

// cautionOf is the caution in full the first time today, its first words after that; and what was never told.
func (s State) cautionOf(st Step) string {
	if !s.given(st.Caution) {
		return s.stepCaution(st)
	}
	short := st.Caution
	if at := strings.IndexAny(short, ";:"); at >= 0 {
		short = short[:at]
	}
	return short + strings.TrimPrefix(s.stepCaution(st), st.Caution)
}

// gate says in a sentence why a step cannot be done before the liquor was read; empty when it can.
func (s State) gate(st Step) string {
	st = s.limited(st)
	if st.AtMost == nil && st.AtLeast == nil {
		return ""
	}
	sys := s.Head.Setup.System()
	t, at, where := s.Vat.Temp, s.Vat.TempAt, "the liquor"
	if st.Into == recipe.IntoStock {
		t, at, where = s.Vat.StockT, s.Vat.StockAt, "the stock jar"
	}
	limit := "at most "
	mark := st.AtMost
	if mark == nil {
		limit, mark = "at least ", st.AtLeast
	}
	if t == nil || at.IsZero() || (st.Into != recipe.IntoStock && (at.Before(s.Vat.Warmed) || at.Before(s.liquid.poured))) {
		return fmt.Sprintf("First read the °C of %s and type it: %s%s.", where, limit, mark.Format(sys))
	}
	if st.AtMost != nil && *t > *st.AtMost {
		return fmt.Sprintf("%s reads %s: let it cool to %s, then type the new °C.", wording.Upper(where), t.Format(sys), st.AtMost.Format(sys))
	}
	if st.AtLeast != nil && *t < *st.AtLeast {
		return fmt.Sprintf("%s reads %s: warm it to %s, then type the new °C.", wording.Upper(where), t.Format(sys), st.AtLeast.Format(sys))
	}
	return ""
}

// clockAct is the act once the vat is ready and nothing is in it: whatever a running time asks for first, else the next piece
// to go in.
func (s State) clockAct(now time.Time) Act {
	dues := Dues(s)
	for _, d := range dues {
		if d.Kind == DueBath && !now.Before(d.At) {
			return s.bathAct(d, now)
		}
	}
	for _, d := range dues {
		if d.Kind == DueBath && restsBeyond(dues, d.At) {
			return s.bathAct(d, now)
		}
		if d.Kind == DueRest && now.Before(d.At) {
			return Act{Kind: ActRest, Words: "The vat rests", How: "Lid on, no hands in it.", Why: "A worked vat needs time to reduce again.", Due: &d}
		}
	}
	if act, waits := s.lookAct(dues, now); waits {
		return act
	}
	in := s.called(now)
	if act, asked := s.decides(in, now); asked {
		return act
	}
	if len(in) > 0 {
		return s.enterAct(in)
	}
	for _, d := range dues {
		if d.Kind == DueFinish && !now.Before(d.At) {
			p, _ := s.Piece(d.Tag)
			return s.finishAct(p, &d)
		}
	}
	for _, d := range dues {
		switch d.Kind {
		case DueEnter, DueFinish:
			p, _ := s.Piece(d.Tag)
			return airAct(p, d)
		case DueBath:
			return s.bathAct(d, now)
		}
	}
	for _, p := range s.Pieces {
		if p.Phase == Aired && p.Dips >= p.Want() { // its end was taken back, or it wants fewer dips now
			return s.finishAct(p, nil)
		}
	}
	for _, p := range s.Pieces {
		if v, words := s.bears(p); v == fibre.Refused && p.Live() {
			return Act{Kind: ActIdle, Piece: p, Words: p.Tag + " stays out of this vat", How: wording.Upper(words) + ".", Why: "Add another piece, or carry this one over to another vat."}
		}
	}
	if act, ok := s.benchWaiting(now); ok {
		return act
	}
	return Act{Kind: ActIdle, Words: "No piece is waiting", How: "Add a piece, or close the day."}
}

// restsBeyond tells whether the vat still rests at an instant.
func restsBeyond(dues []Due, at time.Time) bool {
	return slices.ContainsFunc(dues, func(d Due) bool {
		return (d.Kind == DueRest || d.Timer == recheckTimer) && d.At.After(at)
	})
}

// bathAct is a piece in a bath as an act.
func (s State) bathAct(d Due, now time.Time) Act {
	p, _ := s.Piece(d.Tag)
	a, _ := s.BenchAct(p, now)
	return a
}

// airAct is the wait for an airing.
func airAct(p Piece, d Due) Act {
	return Act{Kind: ActAir, Piece: p, Dip: p.Dips, Words: "Air " + p.Tag, How: "Open every fold, turn it, so that none stays green.",
		Why: "Airing is a least time: in again only when no green shows.", Due: &d}
}

// lookAct is the wait for a treatment to work, and then the look whether it did; false when neither is wanted.
func (s State) lookAct(dues []Due, now time.Time) (Act, bool) {
	for _, d := range dues {
		if d.Kind != DueRecheck || d.Timer != recheckTimer {
			continue
		}
		a := Act{Kind: ActRest, Words: "Let the treatment work", How: "Lid on, no hands in it.", Why: wording.Upper(s.Treating.Do) + ".", Due: &d}
		if !now.Before(d.At) {
			a.Kind, a.Words = ActLook, "Look again: what is it now?"
			a.How = "Pull a strip (t), look at it, and say whether it is better, the same or worse: u."
		}
		return a, true
	}
	return Act{}, false
}

func (s State) finishAct(p Piece, d *Due) Act {
	return Act{Kind: ActFinish, Piece: p, Dip: p.Dips, Words: "Look at " + p.Tag + ": no green left?",
		How: "Open every fold; green anywhere: leave it to air.", Why: "Green is indigo that the air has not turned yet: a rinse would carry it off.",
		Due: d, Press: "done"}
}

// liftAct is the lift of all that comes out together.
func (s State) liftAct(dues []Due) Act {
	d := dues[0]
	p, _ := s.Piece(d.Tag)
	a := Act{Kind: ActLift, Piece: p, Dip: p.Dips + 1, How: "Out: squeeze at the surface, no splash; no drip back.", Why: "Air whisked in eats the reducer.", Due: &d, Press: "out"}
	for _, d := range dues {
		a.Tags = append(a.Tags, d.Tag)
	}
	a.Words = "Lift " + strings.Join(a.Tags, ", ") + " out"
	if s.scalds() {
		a.Words += ", no hands"
		a.How, a.Why = "The vat reads "+s.Vat.Temp.Format(s.Head.Setup.System())+": sticks or tongs, no hands in it.", s.scaldWhy()
	}
	return a
}

// scalds tells whether the vat was last read too hot for the hands that are at it.
func (s State) scalds() bool { return s.Vat.Temp != nil && *s.Vat.Temp > s.handsMost() }

// scaldWhy is why.
func (s State) scaldWhy() string {
	if s.Children && *s.Vat.Temp <= HandsMost {
		return "Children dip up to 40 °C only."
	}
	return "Above 45 °C a liquor scalds in minutes."
}

// ColourName is the depth that a piece has by its dips, and how that is known.
func (p Piece) ColourName() string { return shade.AfterDips(p.Dips) }
