package signs

import (
	"fmt"
	"math"
	"slices"

	"example.org/vatside/model/fibre"
	"example.org/vatside/model/liquor"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
)

// treat turns a remedy into the treatment of a cause, by the rules of the dose: danger; what the goods do not bear; alkali
// where pH was read low; warmth, or cooling; then the remedy itself, within its limits.
func (t task) treat(c *Cause, r remedy) {
	c.Act, c.Do, c.How, c.Wait, c.Recheck, c.Then = r.act, r.do, r.how, r.wait, r.recheck, r.then
	c.Cautions = slices.Clone(r.extra)
	if c.Recheck == "" {
		c.Recheck = "pull a strip, look at the liquor in a glass"
	}
	touches := r.act == Give || r.act == Warm || r.act == Dye || r.tends
	g := t.gate
	switch {
	case t.dangerous():
		t.instead(c, Stop)
	case touches && g.Refused:
		t.instead(c, Stop)
		c.Refused = true
	case r.act == Give && t.v.Fill == 0:
		c.Act, c.Do, c.How, c.Then = Look, "measure the liquor: without a fill no dose can be reckoned", "", ""
	case touches && t.lowPH() && g.Do == liquor.DoAlkali:
		t.instead(c, Give)
		c.Doses = []Dose{{g.Powder, recipe.Alkali, recipe.IntoVat, g.Mass, 1}}
		c.Wait = liquor.AlkaliWait(t.v.Recipe.Family)
		c.Then = "the same step again, until pH is in its range; then warmth, "
		if t.v.Recipe.Family == recipe.Ferment {
			c.Then += "a stir a day, and patience"
		} else {
			c.Then += "then reducer if the strip asks for it"
		}
	case touches && t.lowPH() && (g.Do == liquor.DoStop || g.Do == liquor.DoWait):
		t.instead(c, Act(g.Do))
	case touches && !r.anyHeat && g.Do == liquor.DoWarm:
		t.instead(c, Warm)
		c.Wait = quantity.Minutes(math.Ceil(c.Wait.Minutes())) // a heating time is not known to the second
		after := r.do
		if r.after != "" {
			after = r.after
		}
		c.Then = "then " + after
	case t.coolsFirst(r):
		t.cool(c, t.v.Recipe.Liquor.High, "let it cool to "+t.says(t.v.Recipe.Liquor.High))
		c.Then = "wait on till it reads " + t.says(t.v.Recipe.Liquor.High) + ", then pull a strip"
	case r.act == Warm && t.v.Fill > 0:
		c.Act, c.Do = Wait, "it is as warm as the recipe, the goods and a class allow; keep it there, lid on, and look again"
		c.Then = r.after
	case r.act == Dye && g.Do == liquor.DoWait && g.To != nil:
		t.instead(c, Cool)
	case r.act == Dye && t.has("strip-weak"):
		c.Act, c.Do, c.Wait = Look, "pull a second strip before any goods go in", quantity.Minutes(5)
	case r.act == Give:
		t.give(c, r)
	}
	if c.Wait < 0 {
		c.Wait = 0
	}
}

// instead puts what the readings ask for in the place of a treatment.
func (t task) instead(c *Cause, act Act) {
	g := t.gate
	c.Act, c.Do, c.How, c.To, c.Wait, c.Recheck, c.Doses, c.Then = act, g.Sentence, g.How, g.To, g.Wait, g.Recheck, nil, ""
	c.Cautions = append(slices.Clone(g.Cautions), g.Warnings...)
	c.Why += "; before that: " + g.Why
}

// tillTomorrow is the rest of a vat that had its day's doses. C
const tillTomorrow = quantity.Span(12 * 3600e9)

// readySigns are those by which a vat is judged ready: two of them at least (S1 looks for all).
var readySigns = []string{"yellow", "coppery", "dark-froth", "strip-good"}

// ready is how many of them were seen.
func (t task) ready() int {
	n := 0
	for _, id := range readySigns {
		if t.has(id) {
			n++
		}
	}
	return n
}

// give reckons the doses of a remedy.
func (t task) give(c *Cause, r remedy) {
	stop := func(act Act, do, how string) { c.Act, c.Do, c.How, c.Doses, c.Then = act, do, how, nil, "" }
	even := quantity.Mass(-1)
	for _, n := range r.needs {
		p := n.powder
		if p.Role == recipe.Reducer && t.has("strip-over") {
			stop(Wait, "no reducer: the strip stays yellow long enough", "lid on, let it rest")
			return
		}
		if p.SulfurReducer() && liquor.Sour(t.s.PH) {
			stop(Stop, fmt.Sprintf("no reducer at pH %v: acid frees a choking gas from it", *t.s.PH), "outdoors, children away")
			c.Recheck = "read pH again with fresh paper or the probe rinsed"
			return
		}
		if p.SulfurReducer() && p.Into == recipe.IntoVat && t.tooHot(sprinkleMax) {
			t.cool(c, sprinkleMax, "let it cool to "+t.says(sprinkleMax)+" before any reducer")
			return
		}
		if why := t.alkaliRefused(n); why != "" {
			stop(Stop, why, "")
			c.Refused, c.Recheck = true, "read pH again, with fresh paper or the probe rinsed"
			if len(t.v.Goods) == 0 {
				c.Then = "add nothing: look again in a clear glass whether it is stirred sediment, and let it settle"
			}
			return
		}
		mass, why := t.allowed(n)
		if even >= 0 && r.even {
			mass = min(mass, even)
		}
		if mass <= 0 {
			_, today := liquor.Most(t.v.Recipe, p.ID, t.v.Fill, liquor.GivenToday(t.v.Recipe, p.ID, t.v.GivenToday))
			if today > liquor.Crumb(n.step.Of(t.v.Fill)) {
				stop(Wait, why, "lid on")
				return
			}
			stop(Stop, why, "no more goods today; lid on and let it rest till tomorrow")
			c.Wait, c.Recheck = tillTomorrow, "tomorrow: °C, pH and a strip"
			return
		}
		even = mass
		if first, ok := liquor.AlkaliFirst(t.v.Recipe, p.ID, mass, t.v.Finest, t.s.PH); ok {
			c.Doses = append(c.Doses, Dose{first.Powder, recipe.Alkali, recipe.IntoVat, first.Mass, 1})
		}
		c.Doses = append(c.Doses, Dose{p.ID, p.Role, p.Into, mass, lots(p, mass)})
		if why != "" {
			c.Cautions = append(c.Cautions, why)
		}
	}
	if len(c.Doses) == 0 {
		stop(Wait, "the recipe has no powder for this: "+c.Do, c.How)
		return
	}
	if r.even && len(r.needs) > 1 {
		for i := range c.Doses {
			c.Doses[i].Mass = even
		}
	}
	t.say(c, r)
	if up, _ := liquor.TopUpOf(t.v.Recipe, t.v.Fill, t.v.Strength, t.v.IndigoGone); r.topUp && up.Lots > 1 {
		c.Do += fmt.Sprintf(", the first of %d lots, a day apart", up.Lots)
		c.Then = fmt.Sprintf("the next lot tomorrow, %s of it in all; else ", up.Whole.Scale(t.v.System)) + c.Then
	}
}

// drawOffPart is the part of a liquor with too much caustic in it that warm water takes the place of: a quarter of the
// caustic goes with it. M
const drawOffPart = 0.25

// drawOff is that part of the fill in words.
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
	for _, n := range t.food(1) {
		if liquor.GivenToday(t.v.Recipe, n.powder.ID, t.v.GivenToday) > 0 {
			return new(quantity.Span)
		}
	}
	return nil
}

// say puts doses, their ways in and their dangers into words.
func (t task) say(c *Cause, r remedy) {
	doses, hows := "", r.how
	var cautions []string
	for i, d := range c.Doses {
		p, _ := t.v.Recipe.Powder(d.Powder)
		if i > 0 {
			doses += ", then "
		}
		doses += fmt.Sprintf("%s of %s", d.Mass.Scale(t.v.System), p.Material)
		if d.Into == recipe.IntoStock && p.Role == recipe.Reducer {
			doses += " into the stock jar"
		}
		how, beware := t.handling(p, d)
		if hows != "" && how != "" {
			hows += "; "
		}
		hows += how
		cautions = append(cautions, beware...)
	}
	if c.Do != "" {
		c.Do += ": "
	}
	c.Do += doses
	c.How = hows
	var first []string
	if t.v.HeaterOn {
		first = append(first, "heater off and unplugged first")
	}
	if t.v.HandsIn {
		first = append(first, "hands and goods out first")
	}
	if t.v.Class {
		first = append(first, "no child at the powders: an adult weighs and adds, the class stands off")
	}
	if t.s.Temp == nil && !r.anyHeat {
		first = append(first, "read °C first: below "+t.says(t.v.Recipe.Liquor.Low)+" warm the vat before any powder")
	}
	c.Cautions = slices.Compact(append(append(first, cautions...), c.Cautions...))
}

// coolsFirst tells whether a vat is above its range whose sugar, iron or bacteria work within it: no reducer, no food and no
// patience before it has cooled. A sulfur reducer has a mark of its own.
func (t task) coolsFirst(r remedy) bool {
	l := t.v.Recipe.Liquor
	if r.anyHeat || t.v.Recipe.Family.SulfurReducer() || !(l.High > 0) || !t.tooHot(l.High) {
		return false
	}
	return r.tends || r.act == Give && slices.ContainsFunc(r.needs, func(n need) bool { return n.powder.Role == recipe.Reducer || n.powder.Role == recipe.Food })
}

// cool puts cooling in the place of a treatment.
func (t task) cool(c *Cause, to quantity.Temperature, do string) {
	c.Act, c.Do, c.How, c.To, c.Wait, c.Recheck, c.Doses, c.Then = Cool, do, "lid on, heater off and unplugged", &to, liquor.HeatWait, "read °C", nil, ""
}

func (t task) tooHot(top quantity.Temperature) bool { return t.s.Temp != nil && *t.s.Temp > top }

// goodsRoom is how far below a fibre's ceiling pH must have been read before one step of alkali. M
const goodsRoom = 0.5

// alkaliRefused tells why an alkali that a sign asks for must not go in: pH read high, or goods that would not bear it.
func (t task) alkaliRefused(n need) string {
	if n.powder.Role != recipe.Alkali {
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

// gentleReducer is the most reducer at a time with wool or silk about. K
const gentleReducer = quantity.Concentration(1)

// allowed is the dose within the recipe's limits and on the scale's steps, and what there is to say of it.
func (t task) allowed(n need) (quantity.Mass, string) {
	want := n.mass
	if want == 0 {
		step := n.step
		if n.powder.Role == recipe.Reducer && slices.ContainsFunc(t.v.Goods, func(f fibre.Fibre) bool { return f.Class() == fibre.Protein }) {
			step = min(step, gentleReducer)
		}
		want = step.Of(t.v.Fill)
	}
	r, id := t.v.Recipe, n.powder.ID
	given := liquor.GivenToday(r, id, t.v.GivenToday)
	if n.powder.Role == recipe.Indigo && given > 0 {
		return 0, fmt.Sprintf("no more %s today: a lot a day", n.powder.Material)
	}
	may, why := liquor.Allowed(r, id, t.v.Fill, given, want)
	now, _ := liquor.Most(r, id, t.v.Fill, given)
	if may > 0 && given > 0 && may <= liquor.Crumb(want) {
		return 0, fmt.Sprintf("no more %s today: the %s that the day's limit leaves would do nothing", n.powder.Material, may.Scale(t.v.System))
	}
	m := onScale(may, now, t.v.Finest)
	if m <= 0 && why == "" {
		why = fmt.Sprintf("what may go in of %s is less than the scale shows: wait and look again", n.powder.Material)
	}
	return m, why
}

// onScale rounds a dose to what the scale shows and never above the limit: 0.1 g below 50 g, else 1 g, where the scale's
// step is not known. The same as for the right dose.
func onScale(want, limit, finest quantity.Mass) quantity.Mass {
	perGram := 1.0
	if want < 50 {
		perGram = 10
	}
	if finest > 0 {
		perGram = 1 / finest.Grams()
	}
	n := math.Round(want.Grams() * perGram)
	if n/perGram > limit.Grams() {
		n = math.Floor(limit.Grams()*perGram + 1e-9)
	}
	return max(0, min(quantity.Mass(n/perGram), limit))
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
