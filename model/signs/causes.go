package signs

import (
	"slices"

	"example.org/vatside/model/quantity"
)

// WeightIsJudged is what a screen says beside the weights.
const WeightIsJudged = "weights are a dyer's judgement, not measured chances"

// Causes ranks what may be the cause of what was seen at a vat, likeliest first, and gives each its treatment under the
// rules of the package. At least one comes back: to look first, where nothing was seen; that nothing ails it, where all is
// well. Signs that contradict each other put another look first, and say which; so do signs that speak against a vat that is
// ready and that no cause here is known for. What was tried already and did not help
// falls back. A smell of burnt sulfur silences all other signs; so does a vat that is being built, is being ended, or has
// ended. The same arguments give the same answer.
func Causes(s Seen, v Vat) []Cause {
	s, v = s.clean(), v.clean()
	t := task{s: s, v: v, seen: s.evidence(v)}
	t.gate = t.advised()
	if c, only := t.alone(); only {
		return weigh([]Cause{c})
	}
	if !slices.ContainsFunc(t.seen, func(id string) bool { return id != warmRight && id != phRight }) {
		c := Cause{ID: "not-looked", Name: "nothing was seen that tells of a cause", Why: "a vat is judged by all its signs together (S1)"}
		t.treat(&c, remedy{act: Look, do: "look first: liquor in a clear glass from below the film, strip, °C, pH, a two-minute swatch",
			recheck: "say what was seen"})
		return weigh([]Cause{c})
	}
	var list []Cause
	var untried []float64
	for _, b := range beliefs() {
		if !b.family.has(v.Recipe.Family) || b.id == chokingID {
			continue
		}
		b = b.in(v.Recipe.Family)
		c := Cause{ID: b.id, Name: b.name, Weight: b.weight(t.seen, s.Tried), Why: b.reasons(t.seen)}
		t.treat(&c, b.remedy(t))
		list, untried = append(list, c), append(untried, b.weight(t.seen, nil))
	}
	list = weigh(notReady(t, list, untried))
	against := contradictions(t.seen)
	if len(against) == 0 {
		if t.unknown(list) && !t.dangerous() {
			return t.first(weigh(t.spoken(list)), t.notKnown())
		}
		return list
	}
	for i := range list {
		list[i].Contradicts = sentences(against)
	}
	if t.dangerous() {
		return list
	}
	c := Cause{ID: "look-again", Name: "the signs contradict each other", Why: "no powder goes in on signs that do not go together, common practice",
		Contradicts: sentences(against)}
	t.treat(&c, remedy{act: Look, do: "add nothing yet; look again: " + lookWhere(against),
		how:     "draw a clear glass from below the film, wipe the strip clean, let it hang a moment in the liquor; lid back on",
		wait:    quantity.Minutes(5),
		recheck: "say what is seen now"})
	return t.first(list, c)
}

// alone is the one answer that lets no other speak: the smell of burnt sulfur, a danger, a vat that is being built, is
// being ended, or has ended.
func (t task) alone() (Cause, bool) {
	c := Cause{Why: t.gate.Why}
	switch {
	case t.has(Choking) && t.v.Recipe.Family.SulfurReducer():
		c.ID, c.Name = chokingID, "acid has met sulfur reducer"
	case t.has(Choking):
		c.ID, c.Name = chokingID, "burnt sulfur near the vat"
	case t.dangerous():
		return c, false
	case t.v.Ended != "":
		c.ID, c.Name, c.Barred = "ended", "the vat has ended", true
	case t.v.Ending:
		c.ID, c.Name, c.Barred = "being-ended", "the vat is being ended", true
	case t.v.Building:
		c.ID, c.Name, c.Barred = "being-built", "the vat is being built", true
	default:
		return c, false
	}
	g := t.gate
	c.Act, c.Do, c.How, c.Cautions, c.Wait, c.Recheck = Stop, g.Sentence, g.How, slices.Clone(g.Cautions), g.Wait, g.Recheck
	if c.Barred {
		c.Wait, c.Cautions = 0, nil
	}
	if c.Recheck == "" {
		c.Recheck = "nothing more here"
	}
	return c, true
}

// first puts a look before a list of causes.
func (t task) first(list []Cause, c Cause) []Cause {
	for i := range list {
		list[i].Weight *= 1 - lookAgainPart
	}
	c.Weight = lookAgainPart
	if list = append([]Cause{c}, list...); len(list) == 1 {
		list[0].Weight = 1
	}
	rank(list)
	return list
}

// NameOf is a cause in words, by its ID; the ID itself where nobody knows it.
func NameOf(id string) string {
	for _, b := range beliefs() {
		if b.id == id {
			return b.name
		}
	}
	return id
}
