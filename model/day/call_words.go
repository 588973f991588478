package day

import (
	"slices"
	"strconv"
	"strings"
	"time"

	"example.org/vatside/model/recipe"
	"example.org/vatside/model/wording"
)

// mostShort is how many cells the short form of a call has at most, mostTag how many a tag in it.
const (
	mostShort = 12
	mostTag   = 5
)

// dangerous tells whether powder, lye, hot water, heater, acid or a vessel to be lifted belongs to an act. The recipes and the
// trade's own steps say so by a caution.
func (s State) dangerous(a Act) bool {
	switch a.Kind {
	case ActStep:
		return a.Step.Caution != "" || a.Step.Powder != "" && a.Step.Do != recipe.Wait
	case ActEnter, ActLift:
		return s.scalds() || s.Vat.Heater
	case ActBench:
		return s.benchCaution(a.Piece, a.Bench) != ""
	}
	return false
}

// toDo is the figure of an act that no time runs for: what is still to be weighed, poured, given, or the °C that is aimed at.
func (s State) toDo(a Act) (figure *float64, unit string) {
	number := func(v float64, unit string) (*float64, string) { return &v, unit }
	if a.Kind != ActStep {
		return nil, ""
	}
	st := a.Step
	switch {
	case a.Caution == "" && s.gate(st) != "":
		return nil, ""
	case st.Do == recipe.Weigh:
		return number(roundMass(st.Mass-s.Weighed(st.No)).Grams(), "g")
	case (st.Do == recipe.Add || st.Do == recipe.Sprinkle) && st.Powder != "":
		return number(roundMass(s.toAdd(st)).Grams(), "g")
	case st.Do == recipe.Warm || st.Do == recipe.Cool:
		if st.To != nil {
			return number(st.To.Celsius(), "°C")
		}
	case st.Do == DoAcid && s.wantsAcid():
		return number(st.Mass.Grams(), "g")
	case st.Do == recipe.Fill && st.Hot+st.Cold > 0:
		return number((st.Hot + st.Cold).Litres(), "L")
	case st.Water > 0:
		return number(st.Water.Litres(), "L")
	}
	return nil, ""
}

// short is the call in at most 12 cells.
func (s State) short(c Call, now time.Time) string {
	a, tag := c.Act, s.cutTag(c.Act.Piece.Tag)
	over := c.Due == nil || !now.Before(c.Due.At)
	if len(a.Tags) > 1 {
		tag = strconv.Itoa(len(a.Tags))
	}
	word := func(runs, then string) string {
		if over {
			return then
		}
		return runs
	}
	switch a.Kind {
	case ActStep:
		return s.stepShort(c, over)
	case ActWetOut:
		return tag + " WET?"
	case ActSkim:
		return "SKIM"
	case ActEnter:
		return "LOWER " + tag
	case ActLift:
		if c.Held(now) {
			return "HOLD " + tag
		}
		if c.Due.At.Sub(now) > LastMinute {
			return tag + " IN"
		}
		return "LIFT " + tag
	case ActAir, ActFinish:
		return word(tag+" AIRS", tag+" BLUE?")
	case ActDecide:
		return "LOOK " + tag
	case ActRest, ActLook:
		return word("REST", "LOOK AGAIN")
	case ActBench:
		if a.Due != nil {
			return word(tag+" SOAKS", "OUT "+tag)
		}
		if a.Shut {
			return tag + " WAITS"
		}
		return benchWords[a.Bench.ID].short + " " + tag
	case ActGoods:
		return "WHAT TO DYE?"
	case ActReady:
		return strings.ToUpper(a.Do) + " " + tag
	case ActRound:
		return wording.Either(a.Do == eveningRound, "EVENING", "DAILY ROUND")
	case ActStrip:
		return "BLUE YET?"
	case ActAsk:
		return questions[s.asking()].short
	case ActComes:
		return tag + " WAITS"
	case ActHold:
		return "PIECES WAIT"
	case ActClosed:
		return "DAY CLOSED"
	}
	switch c.Verb {
	case "leave":
		return tag + " STAYS"
	case "cool":
		return "LET IT COOL"
	}
	return "ADD A PIECE"
}

// stepShorts are the steps that no powder belongs to.
var stepShorts = map[recipe.Do]string{
	recipe.Fill: "FILL", recipe.Warm: "WARM", recipe.Cool: "COOL", recipe.Stir: "STIR", recipe.Cover: "COVER", recipe.Wait: "WAIT",
	recipe.Settle: "SETTLE", recipe.Skim: "SKIM", recipe.Rest: "REST", recipe.Check: "LOOK", recipe.Add: "ADD STOCK", recipe.Simmer: "SIMMER",
	DoUseUp: "USE IT UP", DoWhisk: "WHISK", DoSpent: "STILL BLUE?", DoDecant: "DRAW OFF", DoEnd: "WHERE TO?",
}

// stepShort is the open step in at most 12 cells.
func (s State) stepShort(c Call, over bool) string {
	st := c.Act.Step
	switch {
	case c.Act.Shut:
		return "ADULTS ONLY"
	case c.Verb == "read" && c.Object == "pH":
		return "READ pH"
	case c.Verb == "read":
		return "READ " + s.degrees()
	case s.warmEnough():
		return "WARM ENOUGH"
	case st.Do == recipe.Weigh && s.Weighed(st.No) > 0 && c.Caution == "":
		return s.toWeigh(st)
	case st.Do == DoAcid && c.Verb == "add":
		return "ADD ACID"
	case st.Do == DoAcid:
		return "MILD pH"
	case st.Do == recipe.Stir && !s.Begun.IsZero() && over:
		return "STOP"
	case st.Do == recipe.Simmer && !s.Begun.IsZero() && over:
		return "OFF THE HEAT"
	case st.Do == recipe.Wait && over:
		return "WAIT IS OVER"
	case (st.Judges() || st.Do == DoSpent) && !over, c.Press == "not yet":
		return "NOT YET"
	case c.Verb == "pull":
		return "STRIP OUT"
	case st.Judges() && c.Press == "ready":
		return "READY?"
	}
	if st.Powder == "" {
		if word, ok := stepShorts[st.Do]; ok {
			return word
		}
	}
	verb := strings.ToUpper(string(st.Do))
	switch {
	case st.Do == recipe.Hydrate:
		verb = "WET"
	case st.Do == recipe.Sprinkle: // the role has more need of the room
		verb = "ADD"
	}
	return verb + " " + shorten(strings.ToUpper(string(st.Role)), mostShort-1-len(verb))
}

// Large is the call for large letters: the short form, but for a powder what is handled by its own name, "WEIGH SODA ASH", where that
// has at most 12 cells, else by its role: who has no room for all of it sets the first word small. While it is weighed
// the figure says how much more; the call says only that it is too much: "MORE SODA ASH" would be put into the vat.
func (c Call) Large() string {
	st := c.Act.Step
	if c.Act.Kind != ActStep || st.Powder == "" || c.Verb != string(st.Do) || c.Short == "WEIGHED" || c.Act.Shut {
		return c.Short
	}
	what := strings.ToUpper(st.Material)
	if what == "" || cells(what) > mostShort {
		what = strings.ToUpper(string(st.Role))
	}
	if strings.HasSuffix(c.Short, "OFF") {
		return "TAKE OFF"
	}
	switch st.Do {
	case recipe.Weigh, recipe.Dissolve, recipe.Add:
		return strings.ToUpper(string(st.Do)) + " " + what
	case recipe.Hydrate:
		return "WET " + what
	case recipe.Sprinkle:
		return "ADD " + what
	}
	return c.Short
}

// toWeigh is how far a weighing is: "148 g MORE".
func (s State) toWeigh(st Step) string {
	left := st.Mass - s.Weighed(st.No)
	word, short := " MORE", "MORE"
	if left < 0 {
		left, word, short = -left, " OFF", "TAKE OFF"
	}
	switch text := s.says(roundMass(left)) + word; {
	case roundMass(left) == 0:
		return "WEIGHED"
	case len([]rune(text)) <= mostShort:
		return text
	}
	return short
}

func shorten(text string, most int) string {
	if r := []rune(text); cells(text) > most {
		for cells(string(r)) > most-1 {
			r = r[:len(r)-1]
		}
		return string(r) + "~"
	}
	return text
}

// cells is how many cells a text takes at most: whatever is beyond the plain alphabets is taken as wide.
func cells(text string) int {
	n := 0
	for _, r := range text {
		if n++; r >= 0x1100 {
			n++
		}
	}
	return n
}

// cutTag is a tag in at most 5 cells, with ~ where something is left out, so that no two pieces of the day are cut alike.
func (s State) cutTag(tag string) string {
	if cells(tag) <= mostTag {
		return tag
	}
	r := []rune(tag)
	for tail := range mostTag {
		text := headAndTail(r, tail)
		if !slices.ContainsFunc(s.Pieces, func(p Piece) bool {
			return p.Tag != tag && (p.Tag == text || cells(p.Tag) > mostTag && headAndTail([]rune(p.Tag), tail) == text)
		}) {
			return text
		}
	}
	at := slices.IndexFunc(s.Pieces, func(p Piece) bool { return p.Tag == tag })
	return "~" + strconv.Itoa(at+1)
}

// headAndTail are the beginning and so many letters of the end of a tag, in at most 5 cells.
func headAndTail(r []rune, tail int) string {
	last := string(r[len(r)-tail:])
	for n := mostTag - 1; n >= 0; n-- {
		if text := string(r[:min(n, len(r)-tail)]) + "~" + last; cells(text) <= mostTag {
			return text
		}
	}
	return "~"
}
