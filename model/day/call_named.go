package day

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"example.org/vatside/model/recipe"
	"example.org/vatside/model/wording"
)

// named are the verb, the object and the attempt of an act. They change with what the hands are asked for, never with time
// alone nor with what is written down beside it.
func (s State) named(a Act) (verb, object, attempt string) {
	p := a.Piece
	switch a.Kind {
	case ActStep:
		return s.stepNamed(a)
	case ActWetOut:
		return "wet", strings.Join(a.Tags, " "), s.dipNumbers(a.Tags, 1)
	case ActSkim:
		return "skim", "vat", strconv.Itoa(s.lifted() + 1)
	case ActEnter:
		return "lower", strings.Join(a.Tags, " "), s.dipNumbers(a.Tags, 1)
	case ActLift:
		return "lift", strings.Join(a.Tags, " "), s.dipNumbers(a.Tags, 1)
	case ActAir, ActFinish:
		if p.Dips >= p.Want() {
			return "finish", p.Tag, strconv.Itoa(p.Dips)
		}
		return "air", p.Tag, strconv.Itoa(p.Dips)
	case ActDecide:
		return "look", p.Tag, strconv.Itoa(p.Dips)
	case ActRest:
		if a.Due.Kind == DueRest {
			return "rest", "vat", Clock(s.RestSince)
		}
		return "look", "vat", Clock(s.Treating.Since)
	case ActLook:
		return "look", "vat", Clock(s.Treating.Since)
	case ActBench:
		attempt = fmt.Sprintf("%d.%d", p.Dips, a.Bench.Done+1)
		if a.Due != nil {
			return "take out", p.Tag, a.Bench.ID + " " + attempt
		}
		if words := s.benchCaution(p, a.Bench); words != "" && s.Said != words { // whether it may be done yet or not
			attempt += " caution"
		}
		return a.Bench.ID, p.Tag, attempt
	case ActGoods:
		return "add", "piece", strconv.Itoa(len(s.Pieces) + 1)
	case ActReady:
		return a.Do, p.Tag, "1"
	case ActRound:
		if a.Do == eveningRound {
			return "stir", "vat", eveningRound
		}
		at, _ := s.nextRound()
		return "stir", "vat", "round " + at.Format(time.DateOnly)
	case ActStrip:
		return "strip", "vat", strconv.Itoa(s.strips)
	case ActSound:
		return "hear", "calls", ""
	case ActAsk:
		return "ask", s.asking(), ""
	case ActHold:
		return "hold", "pieces", Clock(s.TalkSince)
	case ActComes:
		return "wait", p.Tag, strconv.Itoa(a.Dip)
	case ActClosed:
		return "close", "", ""
	}
	switch {
	case p.Tag == "":
		return "add", "piece", strconv.Itoa(len(s.Pieces) + 1)
	case s.refuses(&p):
		return "leave", p.Tag, strconv.Itoa(p.Dips + 1)
	}
	return "cool", "vat", Clock(s.Vat.TempAt)
}

// dipNumbers are the numbers of the dips that pieces have, counted on by so many; one where they are the same.
func (s State) dipNumbers(tags []string, on int) string {
	return strings.Join(wording.Once(wording.Each(tags, func(tag string) string {
		p, _ := s.Piece(tag)
		return strconv.Itoa(p.Dips + on)
	})), ",")
}

// lifted is how many dips of the day have ended.
func (s State) lifted() int {
	return wording.Sum(s.Pieces, func(p Piece) int { return wording.Count(p.Past, func(d Dip) bool { return !d.Ended.IsZero() }) })
}

// stepNamed names the open step: its attempt is its number, then the weighing, the look, the lot, or that its time was begun.
func (s State) stepNamed(a Act) (verb, object, attempt string) {
	st := a.Step
	verb, object, attempt = string(st.Do), "vat", strconv.Itoa(st.No)
	if st.Into == recipe.IntoStock {
		object = "stock jar"
	}
	if st.Powder != "" {
		object = st.Powder
	}
	switch {
	case a.Caution != "":
		attempt += " caution"
	case s.gate(st) != "":
		return "read", wording.Either(st.Into == recipe.IntoStock, "stock jar", "vat"), attempt
	case st.Do == recipe.Weigh:
		scoops := wording.Only(s.Scoops, func(sc Scoop) bool { return sc.Step == st.No })
		attempt += "." + strconv.Itoa(len(scoops)+1)
	case !s.Begun.IsZero():
		attempt += ".2"
	case st.Judges(), st.Do == DoSpent:
		verb, attempt = "look", attempt+"."+strconv.Itoa(s.looks+1)
		switch {
		case st.Do == DoSpent || s.Ways()[0] != ByStrip:
		case a.Press == "strip out":
			verb, object = "pull", "strip"
		default:
			attempt += " " + a.Press
		}
	case st.Do == recipe.Check:
		verb = "read"
	case st.Do == DoAcid:
		n, _ := s.lots()
		verb, object, attempt = "read", "pH", attempt+"."+strconv.Itoa(n+1)
		if s.wantsAcid() {
			verb, object = "add", "acid"
		} else if s.notMild() == "" {
			verb = "go on"
		}
	}
	return verb, object, attempt
}
