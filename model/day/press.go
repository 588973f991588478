package day

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"example.org/vatside/model/wording"
)

// What the big key means after an assumed lift.
const (
	confirmWithin = 3 * time.Second // after an assumed lift a press confirms it
	bookSecond    = time.Second     // by which a time in the book may be earlier than it was
)

func (s State) decideDone(c Done, now time.Time, answered bool) ([]Body, error) {
	a := Next(s, now)
	call := s.CallFor(a, now)
	if seqs, id := s.justAssumed(now); len(seqs) > 0 && (c.Call == "" || c.Call == call.ID || c.Call == id) {
		return forEach(seqs, func(seq int) ([]Body, error) {
			if e, _ := s.Event(seq); c.Without != "" && slices.Contains(strings.Split(c.Without, "\t"), e.Body.(Goods).PieceTag()) {
				return nil, nil // left out of the press: nobody has said that it was so
			}
			return s.decideCorrection(seq, "confirmed", nil, now)
		})
	}
	if c.Call != "" && c.Call != call.ID {
		return nil, &Other{Seen: c.Call, Now: call.Brief()}
	}
	if c.Without != "" {
		var ok bool
		if a, ok = s.less(a, strings.Split(c.Without, "\t"), now); !ok {
			return refuse("%s cannot be left out of it: it is for %s", strings.ReplaceAll(c.Without, "\t", ", "), strings.Join(call.Tags, ", "))
		}
	}
	if c.Call != "" && s.hears(a, now) { // it was shown what the press says
		return []Body{SoundChecked{Heard: true}}, nil
	}
	if left, _ := a.Left(now); a.Kind == ActLift && left > LastMinute && !answered && !s.bounced(a, now) {
		return nil, &Pending{fmt.Sprintf("%s: %s left, and %s would come out now", strings.Join(a.Tags, ", "), Countdown(left), wording.Either(len(a.Tags) == 1, "it", "them"))}
	}
	return s.answer(a, now)
}

func (c Take) decide(s State, now time.Time) ([]Body, error) {
	if m, named := wording.First(Meanwhile(s, now), func(m Call) bool { return m.ID == c.Call }); named {
		return s.answer(m.Act, now)
	}
	return nil, &Other{Seen: c.Call, Now: CallOf(s, now).Brief()}
}

// answer are the events of an act that is done.
func (s State) answer(a Act, now time.Time) ([]Body, error) {
	switch a.Kind {
	case ActStep:
		return s.stepDone(a, now)
	case ActWetOut:
		return wording.Each(a.Tags, func(tag string) Body { return WettedOut{OfPiece{tag}} }), nil
	case ActGoods:
		return []Body{GoodsAsked{}}, nil
	case ActReady:
		return s.decideReadied(Readied{OfPiece{a.Piece.Tag}, a.Do, false})
	case ActSkim:
		return []Body{FrothSkimmed{}}, nil
	case ActRound:
		if a.Do == eveningRound {
			return []Body{Stirred{}, VatCovered{}}, nil
		}
		return []Body{Stirred{For: roundStir}}, nil
	case ActEnter:
		return forEach(a.Tags, func(tag string) ([]Body, error) {
			p, _ := s.Piece(tag)
			return s.decideLower(p, nil)
		})
	case ActLift:
		if s.bounced(a, now) {
			return nil, ErrTooSoon
		}
		return forEach(a.Tags, func(tag string) ([]Body, error) { return Decide(s, Lift{Tag: tag}, now) })
	case ActStrip:
		return StripBlue{Pressed: true}.decide(s, now)
	case ActFinish:
		return Finish{a.Piece.Tag}.decide(s, now)
	case ActDecide:
		return Decided{Tag: a.Piece.Tag, Say: LookPlanned}.decide(s, now)
	case ActAir:
		left, _ := a.Left(now)
		return refuse("%s airs %s more; green left anywhere keeps it out longer", a.Piece.Tag, Countdown(left))
	case ActRest:
		left, _ := a.Left(now)
		return refuse("the vat rests %s more", Countdown(left))
	case ActAsk:
		return nil, s.answerFirst()
	case ActComes:
		return refuse("%s waits for its person, who comes at %s; if that is now: lower %s", a.Piece.Tag, a.Piece.Spec.From, a.Piece.Tag)
	case ActHold:
		return refuse("pieces wait since %s; once the talk is over, M or hold", Clock(s.TalkSince))
	case ActLook:
		return refuse("say whether it is better, the same or worse")
	case ActBench:
		return Bench{a.Piece.Tag}.decide(s, now)
	case ActSound:
		return []Body{SoundChecked{Heard: true}}, nil
	}
	return refuse("no piece is waiting: add one, or close the day")
}

// bounced tells whether one of the pieces to come out only just went in.
func (s State) bounced(a Act, now time.Time) bool {
	return slices.ContainsFunc(a.Tags, func(tag string) bool {
		p, _ := s.Piece(tag)
		return now.Sub(p.Since) < bounce
	})
}

// decide are the lifts of pieces as of the end of their times.
func (c LiftAsPlanned) decide(s State, now time.Time) ([]Body, error) {
	return forEach(c.Tags, func(tag string) ([]Body, error) {
		p, ok := s.Piece(tag)
		if !ok || p.Phase != InVat {
			return refuse("%s is not in the vat", tag)
		}
		return Lift{Tag: tag, When: s.liftDue(&p).At, Assumed: true}.decide(s, now)
	})
}

// justAssumed are the lifts that were assumed at the last event, moments ago, and the id of the call that they answered.
func (s State) justAssumed(now time.Time) (seqs []int, id string) {
	var tags []string
	for i := len(s.Log) - 1; i >= 0; i-- {
		e := s.Log[i]
		b, is := e.Body.(DipEnded)
		if !is || !b.Assumed || now.Sub(e.At) > confirmWithin+bookSecond || !e.At.Equal(s.Log[len(s.Log)-1].At) {
			break
		}
		seqs = append([]int{e.Seq}, seqs...)
		tags = append([]string{b.Tag}, tags...)
	}
	if len(seqs) == 0 {
		return nil, ""
	}
	return seqs, wording.Joined(" ", "lift", strings.Join(tags, " "), s.dipNumbers(tags, 0))
}
