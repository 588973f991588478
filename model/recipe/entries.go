package recipe

import (
	"fmt"
	"slices"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/wording"
)

// places and forms in the order in which they are named to the dyer.
var (
	roles      = []Role{Indigo, Reducer, Alkali, Food}
	forms      = []Form{PreReduced, PowderForm}
	placeNames = []Place{IntoStock}
)

// powder reads one [[powder]]; before are the powders above it.
func (t *table) powder(before []Powder) Powder {
	var p Powder
	p.ID = t.id("indigo")
	if p.ID != "" {
		t.name = fmt.Sprintf("powder %q", p.ID)
	}
	if slices.ContainsFunc(before, func(q Powder) bool { return q.ID != "" && q.ID == p.ID }) {
		t.wrong("id", fmt.Sprintf("there are two powders with the id %q", p.ID), "give each its own id")
	}
	p.Material = t.text("material", true, "soda ash")
	p.Role = oneOf(t, "role", true, roles)
	p.Form = oneOf(t, "form", false, forms)
	p.Strength = t.share("strength", 1)
	if p.Role == Indigo {
		if !t.has("form") {
			t.missing("form", `write form = "pre-reduced" or form = "powder"`)
		}
		if !t.has("strength") {
			t.missing("strength", "write the active share, as strength = 0.60")
		}
	} else if p.Role != "" && t.has("form") {
		t.stray("form", fmt.Sprintf("form is for indigo only, and %q is %s", p.ID, p.Role), "leave it out")
	}
	t.dose(&p)
	p.Hydrate, _ = measure[quantity.Wetting](t, "hydrate", false, wetting)
	p.Rinse, _ = measure[quantity.Wetting](t, "rinse", false, rinsing)
	switch {
	case t.has("rinse") && !t.has("hydrate"):
		t.stray("rinse", "rinse is for the jar of a powder that is wetted", "write hydrate too, or leave both out")
	case !t.has("rinse"):
		p.Rinse = p.Hydrate / 2
	}
	p.Into = oneOf(t, "into", false, placeNames)
	p.AtOnce, _ = measure[quantity.Concentration](t, "at_once", false, addition)
	p.PerDay, _ = measure[quantity.Concentration](t, "per_day", false, addition)
	if p.AtOnce > 0 && p.PerDay > 0 && p.AtOnce > p.PerDay {
		t.wrong("at_once", fmt.Sprintf("at_once is more than per_day of powder %q", p.ID), "no single addition can be above the day's")
	}
	p.AlkaliFirst, _ = measure[quantity.Ratio](t, "alkali_first", false, ratio)
	if p.AlkaliFirst > 0 && p.Role != Reducer && p.Role != "" {
		t.stray("alkali_first", fmt.Sprintf("alkali_first is for a reducer, and %q is %s", p.ID, p.Role), "leave it out")
	}
	p.Evidence = t.text("evidence", false, "")
	t.asked = append(t.asked, "of") // read with the reference
	t.close()
	return p
}

// dose reads dose as grams for each litre, or as grams for each gram of another powder.
func (t *table) dose(p *Powder) {
	l, ok := doseOf[p.Role]
	if !ok {
		l = limit{"grams for each litre", "2 g/L", 0.05, 100, "between 0.05 g/L and 100 g/L"}
	}
	if t.has("of") {
		p.PerOther, _ = measure[quantity.Ratio](t, "dose", true, ratio)
		return
	}
	s, isText := t.keys["dose"].(string)
	var r quantity.Ratio
	if isText && r.UnmarshalText([]byte(s)) == nil {
		t.get("dose")
		t.wrong("dose", fmt.Sprintf("dose %q is for each gram, but of what", s), `write of = "indigo", or a dose in g/L`)
		return
	}
	p.Dose, _ = measure[quantity.Concentration](t, "dose", true, l)
}

// reference reads of, when all powders are known, and checks the dose that comes of it.
func (t *table) reference(p *Powder, all []Powder) {
	if !t.has("of") {
		return
	}
	p.Of = t.text("of", true, "indigo")
	if p.Of == "" {
		return
	}
	i := slices.IndexFunc(all, func(q Powder) bool { return q.ID == p.Of })
	switch {
	case i < 0:
		t.wrong("of", fmt.Sprintf("of %q is no powder of this recipe", p.Of), suggestion(p.Of, powderIDs(all)))
	case p.Of == p.ID:
		t.wrong("of", fmt.Sprintf("powder %q is reckoned from itself", p.ID), `name another powder, as of = "indigo"`)
	case all[i].Of != "" || all[i].PerOther > 0:
		t.wrong("of", fmt.Sprintf("powder %q is reckoned from %q, which is itself reckoned from another", p.ID, p.Of), "name a powder that is dosed in g/L")
	case all[i].Dose > 0 && p.PerOther > 0:
		c := float64(p.PerOther) * float64(all[i].Dose)
		if l := doseOf[p.Role]; p.Role != "" && !(c >= l.low && c <= l.high) {
			t.wrong("dose", fmt.Sprintf("dose of %q comes to %.3g g/L, out of all bounds", p.ID, c), "it must come to "+l.bounds)
		}
		return
	}
	p.Of = ""
}

func powderIDs(all []Powder) []string {
	return wording.Once(wording.Some(all, func(p Powder) (string, bool) { return p.ID, p.ID != "" }))
}

// What each kind of step needs and takes besides its words.
var (
	needsPowder = []Do{Weigh, Hydrate, Dissolve, Sprinkle}
	takesPowder = []Do{Weigh, Hydrate, Dissolve, Sprinkle, Add, Simmer}
	needsTime   = []Do{Simmer, Wait, Settle, Rest}
	takesTo     = []Do{Fill, Warm, Cool, Simmer}
	needsTo     = []Do{Warm, Cool}
	takesWater  = []Do{Dissolve, Simmer}
)

func (t *table) step(powders []Powder) Step {
	var s Step
	s.Do = oneOf(t, "do", true, dos)
	t.name += wording.If(s.Do != "", " ("+string(s.Do)+")")
	t.stepPowder(&s, powders)
	s.Part = t.share("part", 1)
	s.Into = oneOf(t, "into", false, placeNames)
	s.From = oneOf(t, "from", false, placeNames)
	s.Water, _ = measure[quantity.Wetting](t, "water", false, wetting)
	s.For, _ = measure[quantity.Span](t, "for", slices.Contains(needsTime, s.Do), stepTime)
	s.AtLeast = t.degrees("at_least", anyHeat)
	s.AtMost = t.degrees("at_most", anyHeat)
	if s.AtLeast != nil && s.AtMost != nil && *s.AtLeast > *s.AtMost {
		t.wrong("at_least", "at_least is above at_most", "the liquor can never read both")
	}
	s.To = t.degrees("to", anyHeat)
	if slices.Contains(needsTo, s.Do) && !t.has("to") {
		t.missing("to", `write to = "38 °C"`)
	}
	s.Cover = t.truth("cover")
	s.How = t.text("how", false, "")
	s.Why = t.text("why", false, "")
	s.Look = t.text("look", false, "")
	s.Caution = t.text("caution", false, "")
	s.Meanwhile = t.text("meanwhile", false, "")
	s.Evidence = t.text("evidence", false, "")
	t.misplaced(s)
	t.close()
	return s
}

// stepPowder reads the powder of a step; a near miss is taken for the likely one.
func (t *table) stepPowder(s *Step, powders []Powder) {
	s.Powder = t.text("powder", slices.Contains(needsPowder, s.Do), "indigo")
	if s.Powder == "" {
		return
	}
	ids := powderIDs(powders)
	if s.Do != "" && !slices.Contains(takesPowder, s.Do) {
		t.stray("powder", fmt.Sprintf("a %s step takes no powder", s.Do), "leave it out, or add the powder in a step of its own")
		s.Powder = ""
	} else if !slices.Contains(ids, s.Powder) {
		t.wrong("powder", fmt.Sprintf("powder %q is not in this recipe", s.Powder), suggestion(s.Powder, ids))
		s.Powder, _ = wording.Nearest(s.Powder, ids)
	}
}

// misplaced faults known keys on a kind of step that has no use for them.
func (t *table) misplaced(s Step) {
	if s.Do == "" {
		return
	}
	if s.Do == Add && !t.has("powder") && !t.has("from") {
		t.missing("powder", `write what is added, as powder = "indigo", or from = "stock"`)
	}
	if t.has("powder") && t.has("from") {
		t.stray("from", "a step adds a powder or pours the stock, not both", "make two steps of it")
	}
	if t.has("from") && (s.Do != Add || s.Into == IntoStock) {
		t.stray("from", "only an add step into the vat pours the stock", "leave it out")
	}
	if t.has("part") && !t.has("powder") && !t.has("from") {
		t.stray("part", "part is a part of a powder, and this step has none", "leave it out")
	}
	if t.has("to") && !slices.Contains(takesTo, s.Do) {
		t.stray("to", fmt.Sprintf("a %s step goes to no temperature", s.Do), "at_least and at_most say what the liquor must read")
	}
	if t.has("water") && (!slices.Contains(takesWater, s.Do) || !t.has("powder")) {
		t.stray("water", fmt.Sprintf("a %s step takes no water of its own", s.Do), "water is for the powder of a dissolve or simmer step")
	}
}

// truth is true or false; false if left out.
func (t *table) truth(key string) bool {
	v, ok := t.get(key)
	b, isBool := v.(bool)
	if ok && !isBool {
		t.wrong(key, fmt.Sprintf("%s %s is not true or false", key, shown(v)), fmt.Sprintf("write %s = true, or leave it out", key))
	}
	return b
}
