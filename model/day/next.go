package day

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"example.org/vatside/model/fibre"
	"example.org/vatside/model/practice"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/wording"
)

// Next is the act for the hands at an instant. While goods are in the liquor it is to lift them, whatever else could be done.
func Next(s State, now time.Time) Act {
	if s.Closed {
		return Act{Kind: ActClosed, Words: "The day is closed", How: "The vat is in the book; " + s.Follows() + "."}
	}
	if lifts := s.lifts(); len(lifts) > 0 {
		return s.liftAct(lifts[0])
	}
	if s.acid() {
		return Act{Kind: ActIdle, Words: "Stop: acid got into the vat",
			How: fmt.Sprintf("pH %s was read. Step upwind, send everyone else away; nothing goes in, no heat, lid off. Later one more reading, only outdoors, where nothing stings, of a ladled sample at arm's length.", pH(*s.Vat.PH)),
			Why: "Acid frees sulfur dioxide from the reducer; warmth and soda drive it out."}
	}
	if a, ok := s.stripAct(now); ok {
		return a
	}
	goods, ready := s.goodsAct(now)
	st, open := s.Open()
	if a, asks := s.askAct(st); open && asks && !(ready && goods.Kind == ActGoods) { // scouring has its powder, too
		return a
	}
	if ready {
		return goods
	}
	if open {
		a := s.stepAct(st, now)
		if left, _ := a.Left(now); left > 0 {
			if round, ok := s.roundAct(now); ok {
				return round
			}
		}
		return a
	}
	return s.clockAct(now)
}

// Follows is what comes after a closed day.
func (s State) Follows() string {
	switch {
	case s.Head.Rehearsed:
		return "a rehearsal, no day follows"
	case s.Ended:
		return "it has ended, no day follows"
	}
	return "the next day on it begins from home"
}

// acid tells whether a vat that holds a sulfur reducer was last read as acid: then nothing else is called. The end of a vat has its own
// words for it.
func (s State) acid() bool { return s.Vat.Sulfur && !s.ending() && s.Gate().Sour() }

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
	case s.jarGasses(st) != "":
		a.Press, a.Words, a.How, a.Why = "", "Stop: acid got into the stock jar", s.jarGasses(st), ""
	case s.adults(st) != nil:
		a.Press, a.How, a.Why, a.Shut = "", wording.Sentence(s.adults(st).Error()), "", true
		a.Words = "Adults only: " + wording.Lower(a.Words)
	case s.warmEnough():
		a.Words, a.How = "It is warm enough", "It reads "+s.says(s.Vat.Temp)+": no heat, go on."
	case st.Caution != "" && s.Answered.IsZero():
		a.Caution, a.Press = s.cautionOf(st), "on"
	case s.gate(st) != "":
		a.Entry, a.Press = TempEntry, ""
		a.Words, a.How = "Read the "+s.degrees()+" first", s.gate(st)
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
		if st.Meanwhile != "" && (len(s.Pieces) > 0 || !strings.HasPrefix(st.Meanwhile, "The goods ")) { // nothing is said of goods that are not there
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
			a.Step.Mass = s.acidLot(st)
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

// clockAct is the act once the vat is ready and nothing is in it: whatever a running time asks for first, else the next piece
// to go in.
func (s State) clockAct(now time.Time) Act {
	dues := Dues(s)
	if d, over := wording.First(dues, func(d Due) bool { return d.Kind == DueBath && !now.Before(d.At) }); over {
		return s.bathAct(d, now)
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
		return s.enterAct(in, now)
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
			if s.Talks() && !now.Before(d.At) {
				continue
			}
			p, _ := s.Piece(d.Tag)
			return s.airAct(p, d)
		case DueBath:
			return s.bathAct(d, now)
		}
	}
	for _, p := range s.Pieces {
		if p.Phase == Aired && p.Dips >= p.Want() { // its end was taken back, or it wants fewer dips now
			return s.finishAct(p, nil)
		}
	}
	bears := s.Bearing()
	for _, p := range s.Pieces {
		if s.Talks() || !p.Live() {
			continue
		}
		if v, words := bears(p); v == fibre.Refused {
			return Act{Kind: ActIdle, Piece: p, Words: p.Tag + " stays out of this vat", How: wording.Upper(words) + ".", Why: "Add another piece, or carry this one over to another vat."}
		}
	}
	if act, ok := s.benchWaiting(now); ok {
		return act
	}
	if a, ok := s.roundAct(now); ok {
		return a
	}
	if s.Talks() {
		return s.holdAct()
	}
	if a, ok := s.comesAct(now); ok {
		return a
	}
	a := Act{Kind: ActIdle, Words: "No piece is waiting", How: "Add a piece, or close the day."}
	if !s.Vat.Lifted.IsZero() && !s.Vat.Covered && !s.Head.Setup.Ending {
		if s.Head.Setup.GoodsFirst {
			return Act{Kind: ActRound, Do: eveningRound, Words: "Evening round", Press: "done, lid on", How: wording.Upper(s.Evening()) + ".", Why: "Or add a piece: p. The night uses up reducer too, and cools it."}
		}
		a.How = "Add a piece; or the evening round: " + s.Evening() + "; then close the day."
	}
	return a
}

// holdAct is the wait while the class is talked to.
func (s State) holdAct() Act {
	return Act{Kind: ActHold, Words: "Talking: pieces wait", How: "No piece goes in since " + Clock(s.TalkSince) + ". Lifts and baths are still called. M: the talk is over.",
		Why: "An airing is a least time: longer does no harm."}
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

// liftAct is the lift of all that comes out together.
func (s State) liftAct(dues []Due) Act {
	d := dues[0]
	p, _ := s.Piece(d.Tag)
	a := Act{Kind: ActLift, Piece: p, Dip: p.Dips + 1, How: "Out: squeeze at the surface, no splash; no drip back.", Why: "Air whisked in uses up the reducer.", Due: &d, Press: "out"}
	a.Load = wording.Each(dues, func(d Due) Piece { p, _ := s.Piece(d.Tag); return p })
	if a.Tags = tagsOf(a.Load); s.anyPasted(a.Tags) {
		a.How, a.Why = "Out slowly: no squeeze, let it drip; hang it still, nothing touching.", "Squeezed or rubbed, the paste comes off."
	}
	a.Words = "Lift " + strings.Join(a.Tags, ", ") + " out"
	if p.Dips == 0 && p.plunges() {
		a.How = strings.TrimSuffix(a.How, ".") + "; " + practice.Plunge().Do + "."
	}
	if s.scalds() {
		a.Words += ", no hands"
		a.How, a.Why = "The vat reads "+s.says(s.Vat.Temp)+": sticks or tongs, no hands in it.", s.scaldWhy()
	}
	return a
}
