package signs

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"example.org/vatside/model/fibre"
	"example.org/vatside/model/liquor"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/wording"
)

// treat turns a remedy into the treatment of a cause. What the state of the liquor asks for comes first: goods that it would harm,
// alkali where pH was read low, cooling, warmth; then the remedy itself, its doses by the same rules.
func (t task) treat(c *Cause, r remedy) {
	c.Act, c.Do, c.How, c.Wait, c.Recheck, c.Then = r.act, r.do, r.how, r.wait, r.recheck, r.then
	c.Cautions = slices.Clone(r.extra)
	c.Recheck = cmp.Or(c.Recheck, "pull a strip, look at the liquor in a glass")
	touches := r.act == Give || r.act == Warm || r.act == Dye || r.tends
	g, l := t.gate, t.v.Recipe.Liquor
	switch {
	case touches && g.Refused:
		t.instead(c, "")
	case r.act == Give && t.v.Fill == 0:
		c.Act, c.Do, c.How, c.Then = Look, "measure the liquor: without a fill no dose can be reckoned", "", ""
	case touches && g.Cause == "alkali-high":
		t.instead(c, "")
	case touches && g.Cause == "alkali-eaten":
		if t.instead(c, wording.If(r.dose.Do == liquor.DoReducer, "then the reducer")); c.Act == Give {
			c.Then = "the same step again, until pH is in its range; then warmth, then reducer if the strip asks for it"
			if t.v.Recipe.Family == recipe.Ferment {
				c.Then = "the same step again, until pH is in its range; then warmth, a stir a day, and patience"
			}
		}
	case touches && !r.anyHeat && g.Do == liquor.DoWarm:
		t.instead(c, "")
		c.Wait = quantity.Minutes(math.Ceil(c.Wait.Minutes())) // a heating time is not known to the second
		c.Then = "then " + cmp.Or(r.after, r.do)
	case r.tends && t.s.Temp != nil && l.High > 0 && *t.s.Temp > l.High:
		c.Act, c.Do, c.How, c.To, c.Wait, c.Recheck = Cool, "let it cool to "+t.says(l.High), "lid on, heater off and unplugged", &l.High, liquor.HeatWait, "read "+t.v.System.DegreeUnit()
		c.Then = "wait on till it reads " + t.says(l.High) + ", then pull a strip"
	case r.act == Warm && t.v.Fill > 0:
		c.Act, c.Do = Wait, "it is as warm as the recipe, the goods and a class allow; keep it there, lid on, and look again"
		c.Then = r.after
	case r.act == Dye && g.Do == liquor.DoWait && g.To != nil:
		t.instead(c, "")
	case r.act == Dye && t.has("strip-weak"):
		c.Act, c.Do, c.Wait = Look, "pull a second strip before any goods go in", quantity.Minutes(5)
	case r.act == Give:
		t.give(c, r)
	}
	c.Wait = max(c.Wait, 0)
}

// instead puts what the state of the liquor asks for in the place of a treatment; then is what the treatment would have been.
func (t task) instead(c *Cause, then string) {
	t.follow(c, t.gate)
	c.Cautions = append(c.Cautions, t.gate.Warnings...)
	if c.ID == t.gate.Cause {
		c.Why = t.gate.Why
		return
	}
	reading, why, _ := strings.Cut(t.gate.Why, "; ")
	first := map[string]string{"alkali-eaten": "first the alkali: ", "cold": "first warmth: "}
	c.Before = wording.Joined("; ", cmp.Or(first[t.gate.Cause], "first: ")+reading, then)
	c.Why = wording.Joined("; ", c.Why, why)
}

// follow makes an advice the treatment of a cause.
func (t task) follow(c *Cause, a liquor.Advice) {
	c.Do, c.How, c.To, c.Wait, c.Recheck, c.Then, c.Doses, c.Refused = a.Sentence, a.How, a.To, a.Wait, a.Recheck, "", nil, a.Refused
	c.Cautions = slices.Clone(a.Cautions)
	switch {
	case a.Mass > 0:
		c.Act = Give
		for i, d := range append([]liquor.Amount{{Powder: a.Powder, Mass: a.Mass}}, a.With...) {
			p, _ := t.v.Recipe.Powder(d.Powder)
			if d := (Dose{p.ID, p.Role, recipe.IntoVat, d.Mass, lots(p, d.Mass)}); i == 0 || d.Mass > 0 {
				c.Doses = append(c.Doses, d)
			}
		}
	case a.Do == liquor.DoWarm:
		c.Act = Warm
	case a.Do == liquor.DoWait && a.To != nil:
		c.Act = Cool
	case a.Do == liquor.DoWait:
		c.Act = Wait
	case a.Do == liquor.DoStop:
		c.Act = Stop
	default:
		c.Act = Look
	}
	c.Recheck = cmp.Or(c.Recheck, "pull a strip, look at the liquor in a glass")
}

// tillTomorrow is the rest of a vat that had its day's doses. C
const tillTomorrow = quantity.Span(12 * 3600e9)

// readySigns are those by which a vat is judged ready: two of them at least (S1 looks for all).
var readySigns = []string{"yellow", "coppery", "dark-froth", "strip-good"}

// ready is how many of them were seen.
func (t task) ready() int {
	return len(slices.DeleteFunc(slices.Clone(readySigns), func(id string) bool { return !t.has(id) }))
}

// give puts the dose of a remedy into words, or says why there is none.
func (t task) give(c *Cause, r remedy) {
	stop := func(act Act, do, how string) { c.Act, c.Do, c.How, c.Doses, c.Then = act, do, how, nil, "" }
	a := r.dose
	if a.Do == "" {
		stop(Wait, "the recipe has no powder for this: "+c.Do, c.How)
		return
	}
	p, _ := t.v.Recipe.Powder(a.Powder)
	reduces := func(id string) bool { p, _ := t.v.Recipe.Powder(id); return p.Role == recipe.Reducer }
	with := slices.ContainsFunc(a.With, func(w liquor.Amount) bool { return reduces(w.Powder) })
	if (reduces(a.Powder) || with) && t.has("strip-over") {
		stop(Wait, "no reducer: the strip stays yellow long enough", "lid on, let it rest")
		return
	}
	if why := t.alkaliRefused(p); why != "" && a.Do == liquor.DoAlkali { // what goes in with a reducer is used up by it
		stop(Stop, why, "")
		c.Refused, c.Recheck = true, "read pH again, with fresh paper or the probe rinsed"
		if len(t.v.Goods) == 0 {
			c.Then = "add nothing: look again in a clear glass whether it is stirred sediment, and let it settle"
		}
		return
	}
	was := *c
	t.follow(c, a)
	switch {
	case a.Do == liquor.DoStop:
		c.Wait, c.Recheck = tillTomorrow, "tomorrow: °C, pH and a strip"
		return
	case a.Mass == 0:
		return
	}
	if r.jar {
		c.Doses[0].Into = recipe.IntoStock
	}
	c.Wait, c.Recheck, c.Then = was.Wait, was.Recheck, was.Then
	t.say(c, r, was)
}

// drawOffPart is the part of a liquor with too much caustic in it that warm water takes the place of: a quarter of the
// caustic goes with it. M
const drawOffPart = 0.25

func (t task) drawOff() string {
	if t.v.Fill == 0 {
		return "a quarter of it"
	}
	return "a quarter of it, " + quantity.Litres(math.Round(t.v.Fill.Litres()*drawOffPart*10)/10).Format(t.v.System) + ","
}

// fedLately tells whether a ferment vat had food less than three days ago.
func (t task) fedLately() bool {
	since := t.lastFood()
	return since != nil && *since < liquor.FoodEvery
}

// lastFood is how long ago its last food was; today where something of it was given today, nil where nobody knows.
func (t task) lastFood() *quantity.Span {
	if t.v.SinceFood != nil {
		return t.v.SinceFood
	}
	for _, p := range t.v.Recipe.Powders {
		if p.Role == recipe.Food && liquor.GivenToday(t.v.Recipe, p.ID, t.v.GivenToday) > 0 {
			return new(quantity.Span)
		}
	}
	return nil
}

// say puts doses, their ways in and their dangers into words: was is the treatment before.
func (t task) say(c *Cause, r remedy, was Cause) {
	var doses, cautions []string
	hows := []string{was.How}
	for _, d := range c.Doses {
		p, _ := t.v.Recipe.Powder(d.Powder)
		words := fmt.Sprintf("%s of %s", d.Mass.Scale(t.v.System), p.Material)
		words += wording.If(d.Into == recipe.IntoStock && p.Role == recipe.Reducer, " into the stock jar")
		doses = append(doses, words)
		how, beware := t.handling(p, d)
		hows, cautions = append(hows, how), append(cautions, beware...)
	}
	do := wording.Joined(": ", was.Do, strings.Join(doses, ", then "))
	if up, _ := liquor.TopUpOf(t.v.Recipe, t.v.Fill, t.v.Strength, t.v.IndigoGone); r.topUp && up.Lots > 1 {
		do += fmt.Sprintf(", the first of %d lots, a day apart", up.Lots)
		c.Then = fmt.Sprintf("the next lot tomorrow, %s of it in all; else ", up.Whole.Scale(t.v.System)) + c.Then
	}
	c.Do, c.How = do, wording.Joined("; ", hows...)
	first := t.v.First()
	if t.s.Temp == nil && !r.anyHeat {
		first = append(first, "read "+t.v.System.DegreeUnit()+" first: below "+t.says(t.v.Recipe.Liquor.Low)+" warm the vat before any powder")
	}
	c.Cautions = slices.Compact(append(append(first, cautions...), r.extra...))
}

// goodsRoom is how far below a fibre's ceiling pH must have been read before one step of alkali. M
const goodsRoom = 0.5

// alkaliRefused tells why an alkali that a sign asks for must not go in: pH read high, or goods that would not bear it.
func (t task) alkaliRefused(p recipe.Powder) string {
	if p.Role != recipe.Alkali {
		return ""
	}
	if top := t.v.Recipe.Liquor.PHHigh; t.s.PH != nil && top > 0 && float64(*t.s.PH) >= top {
		return fmt.Sprintf("no alkali: pH %v is at or above the recipe's %.1f", *t.s.PH, top)
	}
	for _, f := range t.v.Goods {
		ceiling := f.Facts().PH.Value
		switch {
		case f.Class() != fibre.Protein:
		case t.s.PH == nil:
			return fmt.Sprintf("no alkali with %v about before pH is read: %v bears at most %v", f, f, ceiling)
		case float64(*t.s.PH) > float64(ceiling)-goodsRoom:
			return fmt.Sprintf("no alkali with %v about: pH %v is too near the %v that it bears; take it to another vat first", f, *t.s.PH, ceiling)
		}
	}
	return ""
}

// lot is about the most of a sulfur reducer that is sprinkled before it is stirred under. M
const lot = quantity.Mass(10)

// lots is in how many small lots a dose goes in.
func lots(p recipe.Powder, m quantity.Mass) int {
	if !p.SulfurReducer() {
		return 1
	}
	return int(min(max(math.Ceil(m.Grams()/lot.Grams()), 2), 50))
}
