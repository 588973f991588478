package day

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"time"

	"example.org/vatside/model/fibre"
	"example.org/vatside/model/practice"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/wording"
)

// The steps after the last dip that are an answer: the rubbing test, and the look at the piece dry, which ends its record.
const (
	Crock  = "crock"
	Looked = "look"
)

// The baths after the last dip, by their ids in practice.FinishPlan.
const (
	bathRinse  = "rinse"
	bathSour   = "sour"
	bathSoap   = "soap"
	bathCitric = "citric"
	stepAir    = "air"
	stepDry    = "dry"
)

// benchWords are the steps after the last dip in words: a bath as it is called out, the act on a piece, what a piece wants where
// that is not the step's name, and in large letters.
var benchWords = map[string]struct{ bath, act, wants, short string }{
	bathRinse:  {"rinse", "Rinse %s", "", "RINSE"},
	bathSour:   {"sour bath", "Sour %s", "", "SOUR"},
	bathSoap:   {"soap", "Soap %s", "", "SOAP"},
	bathCitric: {"hot citric soak", "Clear the whites of %s", "", "CLEAR"},
	stepAir:    {"", "Air %s", "", "AIR"},
	stepDry:    {"", "Dry %s in the shade", "dry", "DRY"},
	Crock:      {"", "Rub %s on white cotton", "rub on white cotton", "RUB"},
	Looked:     {"", "Judge %s dry", "judge dry", "JUDGE"},
}

// bathName is a bath as it is called out.
func bathName(id string) string { return cmp.Or(benchWords[id].bath, "rinse") }

// BenchStep is one step after the last dip of a piece: practice.FinishPlan's, and how it stands.
type BenchStep struct {
	practice.FinishStep
	Done int // of Times.Likely
	Past bool
}

// Bench is the steps after the last dip of a piece, in order, with those that are behind it. A piece without a known
// fibre or weight has none, and so has a ladder: its strips are rinsed and ironed as they are cut.
func (s State) Bench(p Piece) []BenchStep {
	f, ids := s.finish(&p)
	return wording.Each(ids, func(id string) BenchStep { return p.benchStep(f, id) })
}

// finish is how a piece is finished, with the ids of its steps; no ids where it has none.
func (s State) finish(p *Piece) (practice.Finish, []string) {
	f, err := fibre.Parse(p.Spec.Fibre)
	finish := practice.Finish{Fibre: f, Family: s.Head.Recipe.Family, Dry: p.Spec.Dry, Thick: p.Spec.Form == "bound"}
	ids, unknown := finish.Steps()
	if err != nil || unknown != nil || p.Spec.Form == "ladder" || p.Phase == Dropped || p.Phase == Carried {
		return finish, nil
	}
	return finish, append(ids, Looked)
}

// past tells whether a step after the last dip is behind a piece.
func (p *Piece) past(id string) bool {
	switch {
	case id == stepAir:
		return p.Phase >= FinishedPiece
	case id == bathRinse && p.Finishing.Rinses >= practice.Rinses().Likely:
		return true
	}
	return slices.Contains(p.Finishing.Behind, id)
}

// benchStep is a step after the last dip of a piece.
func (p *Piece) benchStep(f practice.Finish, id string) BenchStep {
	b := BenchStep{Past: p.past(id)}
	switch id {
	case Looked:
		b.FinishStep = practice.FinishStep{ID: Looked, Name: "judge it dry", Do: "look at it dry, in daylight, beside its rung",
			Times: quantity.Exactly(1), Check: "its blue for the book: a rung, a colour, a depth name"}
		return b
	case bathRinse:
		b.Done = p.Finishing.Rinses
	}
	b.FinishStep = f.Step(id)
	return b
}

// BenchNext is the next step of a piece whose dips are over; false when its record has ended, or its dips are not over.
func (s State) BenchNext(p Piece) (BenchStep, bool) {
	if p.Phase != FinishedPiece {
		return BenchStep{}, false
	}
	f, ids := s.finish(&p)
	id, ok := wording.First(ids, func(id string) bool { return !p.past(id) })
	if !ok {
		return BenchStep{}, false
	}
	return p.benchStep(f, id), true
}

// Sulfur tells whether the vat's book shows a sulfur reducer at any time. A vat that was taken over as it stood is not
// known.
func (s State) Sulfur() practice.Known {
	switch {
	case s.Vat.Sulfur:
		return practice.Yes
	case s.Head.Opening.Built && s.Head.Opening.Number < 2:
		return practice.NotKnown
	}
	return practice.No
}

// sulfurOf tells it for a piece: of the vats in which it had dips that this vat's book does not show, nothing is known.
func (s State) sulfurOf(p Piece) practice.Known {
	ours := slices.ContainsFunc(s.Head.Opening.Pieces, func(c CarriedPiece) bool { return c.Tag == p.Tag && c.Had == p.Spec.Had })
	if s.Sulfur() == practice.No && p.Spec.Had > 0 && !ours {
		return practice.NotKnown
	}
	return s.Sulfur()
}

// acidGate says in a sentence why a piece may not be soured yet; empty when it may. There is no override.
func (s State) acidGate(p Piece, now time.Time) string {
	if ok, why := s.gateOf(p, now); !ok {
		return why
	}
	return ""
}

// gateOf is the gate of a piece, with the reason why it is shut or what to keep to.
// Aired is no green in any fold by the dyer's word, and not before the least time of a final airing.
func (s State) gateOf(p Piece, now time.Time) (ok bool, why string) {
	aired := p.Phase >= Aired && p.Phase != Dropped
	if n := len(p.Past); aired && n > 0 && now.Sub(p.Past[n-1].Ended) < s.leastTime(p, stepAir) {
		aired = false
	}
	return practice.AcidGate(s.sulfurOf(p), p.Finishing.Rinses, aired, s.BenchPlace())
}

// leastTime is the least time of a step after the last dip of a piece, by practice.FinishPlan; 0 where it has none.
func (s State) leastTime(p Piece, id string) time.Duration {
	f, ids := s.finish(&p)
	if !slices.Contains(ids, id) {
		return 0
	}
	return p.benchStep(f, id).Time.Low.Duration()
}

// rinsedByHand is a rinse that the dyer tells of: its least time has passed since the piece was last handled, and no other
// bath holds it.
func (s State) rinsedByHand(b Rinsed, now time.Time) ([]Body, error) {
	p, _ := s.Piece(b.Tag)
	if p.Finishing.Bath != "" && p.Finishing.Bath != bathRinse {
		return refuse("%s is in the %s: take it out first", b.Tag, bathName(p.Finishing.Bath))
	}
	least := s.leastTime(p, bathRinse)
	if left := least - now.Sub(p.handled); !p.handled.IsZero() && left > 0 {
		return refuse("a rinse takes at least %s: %s more", quantity.Span(least), Countdown(left))
	}
	return []Body{b}, nil
}

// inBath tells whether a piece is in a bath. One whose end was taken back meanwhile waits for the vat again.
func (p Piece) inBath() bool { return p.Finishing.Bath != "" && p.Phase == FinishedPiece }

// take tells the bench what happened to a piece.
func (f *Finishing) take(b Goods, at time.Time) {
	done := func(id string) {
		f.Bath, f.Since, f.For = "", time.Time{}, 0
		if id != bathRinse && !slices.Contains(f.Behind, id) {
			f.Behind = append(f.Behind, id)
		}
	}
	switch b := b.(type) {
	case DipBegun: // what it was rinsed of is in it again
		*f = Finishing{}
	case BathBegun:
		f.Bath, f.Since, f.For = b.Bath, at, b.For
	case Rinsed:
		f.Rinses++
		done(bathRinse)
	case Soured:
		id := bathSour
		if b.Whites {
			id = bathCitric
		}
		done(id)
	case Soaped:
		done(bathSoap)
	case Dried:
		done(stepDry)
	case CrockTested:
		done(Crock)
	case LookedAt:
		if !b.Wet && slices.Contains(f.Behind, stepDry) {
			done(Looked)
		}
	case LeftOut:
		done(b.What)
		if b.What == bathRinse {
			f.Behind = append(f.Behind, bathRinse)
		}
	}
}

// mayBath refuses acid before its gate, and hot water or acid while children are at the vat.
func (s State) mayBath(p Piece, st BenchStep, now time.Time) error {
	if st.Gated {
		if why := s.acidGate(p, now); why != "" {
			return errors.New(why)
		}
	}
	if s.Children && (st.Gated || st.Temp.Likely > ChildrenMost) {
		return s.notForChildren("acid and hot baths")
	}
	return nil
}

// hanging says what stands against leaving the vat, nil when nothing does.
func (s State) hanging() error {
	for _, p := range s.Pieces {
		if f := p.Finishing; p.inBath() {
			return fmt.Errorf("%s is in the %s since %s: take it out first", p.Tag, bathName(f.Bath), Clock(f.Since))
		}
		switch p.Phase {
		case InVat:
			return fmt.Errorf("%s is in the vat since %s: lift it first", p.Tag, Clock(p.Since))
		case Airing, Aired:
			if p.Dips < p.Want() {
				return fmt.Errorf("%s is between two dips: finish it, or carry it over, first", p.Tag)
			}
			return fmt.Errorf("%s still airs: finish it, or carry it over, first", p.Tag)
		}
	}
	if s.Vat.Heater {
		return errors.New("the heater is on: off and unplugged first")
	}
	return nil
}
