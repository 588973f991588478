package signs

import (
	"cmp"
	"slices"

	"example.org/vatside/model/liquor"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
)

// WeightIsJudged is what a screen says beside the weights.
const WeightIsJudged = "weights are a dyer's judgement, not measured chances"

// Causes ranks what may be the cause of what was seen at a vat, likeliest first, and gives each its treatment under the
// rules of the package. At least one comes back: to look first, where nothing was seen; that nothing ails it, where all is
// well. What the state of the liquor asks for by its readings stands first. Signs that contradict each other put another look
// first, and say which; so do signs that speak against a vat that is ready and that no cause here is known for. What was tried
// already and did not help falls back. A danger silences all other signs; so does a vat that is being built, is being ended, or
// has ended. The same arguments give the same answer.
func Causes(s Seen, v Vat) []Cause {
	t := asked(s, v)
	list := t.causes()
	if near := t.v.Near(); near != "" && t.gate.Cause != "acid-or-strip" {
		list[0].Why += "; " + near
	}
	return list
}

// Advise is the one next thing for the vat, the same as the first of the causes has it.
func Advise(s Seen, v Vat) liquor.Advice {
	t := asked(s, v)
	return t.advice(t.causes()[0])
}

func asked(s Seen, v Vat) task {
	s = s.clean()
	t := task{s: s, v: s.on(v).Clean(), look: lookOf(v.Recipe)}
	t.seen, t.gate = s.evidence(t.v), liquor.Advise(t.v)
	return t
}

func (t task) causes() []Cause {
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
		if !b.family.has(t.v.Recipe.Family) || b.id == chokingID {
			continue
		}
		b = b.in(t.v.Recipe, t.look)
		c := Cause{ID: b.id, Name: b.name, Weight: b.weight(t.seen, t.s.Tried), Why: b.reasons(t.seen)}
		t.treat(&c, b.remedy(t))
		list, untried = append(list, c), append(untried, b.weight(t.seen, nil))
	}
	list = weigh(notReady(t, list, untried))
	if list[0].Before != "" { // the treatment is that of the readings' own cause, which is not called unlikely below it
		list = weigh(slices.DeleteFunc(list, func(c Cause) bool { return c.ID == t.gate.Cause }))
	}
	if t.leads(list[0]) {
		return t.lead(list)
	}
	against := contradictions(t.seen)
	if len(against) == 0 {
		if t.unknown(list) {
			return t.first(weigh(t.spoken(list)), t.notKnown())
		}
		return list
	}
	for i := range list {
		list[i].Contradicts = sentences(against)
	}
	c := Cause{ID: "look-again", Name: "the signs contradict each other", Why: "no powder goes in on signs that do not go together, common practice",
		Contradicts: sentences(against)}
	t.treat(&c, remedy{act: Look, do: "add nothing yet; look again: " + lookWhere(against),
		how:     "draw a clear glass from below the film, wipe the strip clean, let it hang a moment in the liquor; lid back on",
		wait:    quantity.Minutes(5),
		recheck: "say what is seen now"})
	return t.first(list, c)
}

// alone is the one answer that lets no other speak: burnt sulfur, acid, a danger, a pH that cannot be, a vat that is being built, is
// being ended, or has ended.
func (t task) alone() (Cause, bool) {
	g := t.gate
	c := Cause{ID: g.Cause, Why: g.Why}
	switch g.Cause {
	case "alkali-high":
		if c.Name = NameOf(g.Cause); g.Refused { // goods that it harms: the vat itself may be as it should be
			return c, false
		}
	case chokingID:
		if c.Name = NameOf(chokingID); !t.v.Recipe.Family.SulfurReducer() {
			c.Name = "burnt sulfur near the vat"
		}
	case "acid-in-vat":
		c.Name = "acid got into the vat"
	case "acid-or-strip":
		c.Name = "either acid got in or the strip is wrong"
	case "danger":
		c.Name = "a danger comes first"
	default:
		switch c.Barred = true; {
		case t.v.Ended != "":
			c.ID, c.Name = "ended", "the vat has ended"
		case t.v.Ending:
			c.ID, c.Name = "being-ended", "the vat is being ended"
		case t.v.Building:
			c.ID, c.Name = "being-built", "the vat is being built"
		default:
			return c, false
		}
	}
	if t.follow(&c, g); g.Cause == "acid-or-strip" || g.Cause == "alkali-high" {
		c.Act = Look
	}
	if c.Barred {
		c.Act, c.Wait, c.Cautions = Stop, 0, nil
	}
	if g.Recheck == "" {
		c.Recheck = "nothing more here"
	}
	return c, true
}

// leads tells whether what the state of the liquor asks for by its readings comes before a treatment: goods that it harms, alkali,
// warmth or cooling, a dose. A dose of its own that the liquor is not too hot for stands, and so does the test of an old powder.
func (t task) leads(c Cause) bool {
	g := t.gate
	switch {
	case t.same(c):
		return false
	case g.Refused, g.Cause == "alkali-eaten", g.Cause == "alkali-high":
		return true
	case g.Cause == "cold", g.Cause == "hot":
		return len(c.Doses) == 0 && (c.Act != Cool || g.Cause == "cold" || c.ID == readyID)
	}
	return (g.Cause == "air-in" || g.Cause == "air-in-lime" || g.Cause == "slow-ferment") && g.Mass > 0 && (len(c.Doses) == 0 || c.Doses[0].Role == recipe.Indigo) && c.ID != "old-powder"
}

// same tells whether a cause's treatment is what the state of the liquor asks for.
func (t task) same(c Cause) bool {
	g := t.gate
	if c.ID == readyID {
		return g.Do == liquor.DoNothing && len(c.Doses) == 0
	}
	if g.Mass > 0 {
		return len(c.Doses) > 0 && c.Doses[0].Powder == g.Powder && c.Doses[0].Mass == g.Mass
	}
	return c.Do == g.Sentence
}

// lead puts the cause that the readings tell of first.
func (t task) lead(list []Cause) []Cause {
	c := Cause{ID: t.gate.Cause, Name: NameOf(t.gate.Cause)}
	t.instead(&c, "")
	if list = slices.DeleteFunc(list, func(x Cause) bool { return x.ID == c.ID }); len(list) > 0 {
		list = weigh(list)
	}
	return t.first(list, c)
}

func (t task) advice(c Cause) liquor.Advice {
	g := t.gate
	if c.Act == Goods || t.same(c) || c.ID == g.Cause && len(c.Doses) == 0 || len(t.s.Signs) == 0 && len(c.Doses) == 0 {
		return g
	}
	a := liquor.Advice{Cause: c.ID, Sentence: c.Do, To: c.To, Why: c.Why, How: c.How, Cautions: c.Cautions, Wait: c.Wait, Recheck: c.Recheck, Refused: c.Refused, Warnings: g.Warnings}
	switch c.Act {
	case Give:
		d := c.Doses[0]
		role := d.Role
		if slices.ContainsFunc(c.Doses, func(d Dose) bool { return d.Role == recipe.Reducer }) { // which an alkali goes in before, or after
			role = recipe.Reducer
		}
		a.Do = map[recipe.Role]string{recipe.Alkali: liquor.DoAlkali, recipe.Reducer: liquor.DoReducer, recipe.Food: liquor.DoFood, recipe.Indigo: liquor.DoIndigo}[role]
		a.Powder, a.Mass = d.Powder, d.Mass
		for _, w := range c.Doses[1:] {
			a.With = append(a.With, liquor.Amount{Powder: w.Powder, Mass: w.Mass})
		}
	case Warm:
		a.Do = liquor.DoWarm
	case Cool, Wait:
		a.Do = liquor.DoWait
	case Stop:
		a.Do = liquor.DoStop
	default:
		a.Do = liquor.DoNothing
	}
	return a
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
func NameOf(id string) string { return cmp.Or(beliefOf(id).name, id) }
