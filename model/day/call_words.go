package day

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"example.org/vatside/model/recipe"
)

// mostShort is how many cells the short form of a call has at most, mostTag how many a tag in it.
const (
	mostShort = 12
	mostTag   = 5
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
	var out []string
	for _, tag := range tags {
		p, _ := s.Piece(tag)
		if no := strconv.Itoa(p.Dips + on); !slices.Contains(out, no) {
			out = append(out, no)
		}
	}
	return strings.Join(out, ",")
}

// lifted is how many dips of the day have ended.
func (s State) lifted() int {
	n := 0
	for _, p := range s.Pieces {
		for _, d := range p.Past {
			if !d.Ended.IsZero() {
				n++
			}
		}
	}
	return n
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
		return "read", s.readOf(st), attempt
	case st.Do == recipe.Weigh:
		n := 1
		for _, sc := range s.Scoops {
			if sc.Step == st.No {
				n++
			}
		}
		attempt += "." + strconv.Itoa(n)
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

// readOf is what the open step wants the °C of.
func (s State) readOf(st Step) string {
	if st.Into == recipe.IntoStock {
		return "stock jar"
	}
	return "vat"
}

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
		return "WET " + tag + "?"
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
		return word(tag+" AIRS", "GREEN "+tag+"?")
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
		return benchShort[a.Bench.ID] + " " + tag
	case ActGoods:
		return "WHAT TO DYE?"
	case ActReady:
		return strings.ToUpper(a.Do) + " " + tag
	case ActRound:
		if a.Do == eveningRound {
			return "EVENING"
		}
		return "DAILY ROUND"
	case ActStrip:
		return "BLUE YET?"
	case ActAsk:
		return questions[s.asking()].short
	case ActClosed:
		return "DAY CLOSED"
	}
	switch c.Verb {
	case "leave":
		return tag + " STAYS"
	case "cool":
		return "LET IT COOL"
	}
	return "NO PIECE"
}

var benchShort = map[string]string{
	bathRinse: "RINSE", bathSour: "SOUR", bathSoap: "SOAP", bathCitric: "CLEAR", stepDry: "DRY", Crock: "RUB", Looked: "JUDGE", stepAir: "AIR",
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
	case c.Verb == "read" && c.Object == "pH":
		return "READ pH"
	case c.Verb == "read":
		return "READ °C"
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
// has at most 12 cells, else by its role: who has no room for all of it sets the first word small.
func (c Call) Large() string {
	st := c.Act.Step
	if c.Act.Kind != ActStep || st.Powder == "" || c.Verb != string(st.Do) || c.Short == "WEIGHED" {
		return c.Short
	}
	what := strings.ToUpper(st.Material)
	if what == "" || cells(what) > mostShort {
		what = strings.ToUpper(string(st.Role))
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
	sys, left := s.Head.Setup.System(), st.Mass-s.Weighed(st.No)
	word, short := " MORE", "MORE"
	if left < 0 {
		left, word, short = -left, " OFF", "TAKE OFF"
	}
	switch text := roundMass(left).Format(sys) + word; {
	case roundMass(left) == 0:
		return "WEIGHED"
	case len([]rune(text)) <= mostShort:
		return text
	}
	return short
}

// shorten is a text in so many cells.
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
