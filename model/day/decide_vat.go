package day

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"
	"unicode"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/signs"
	"example.org/vatside/model/wording"
)

// errEnding is what is said of whatever is still to go into a vat that is being ended.
var errEnding = errors.New("the vat is being ended: nothing more is given to it")

// errNoLiquor is what is said of a vat that is not filled yet.
var errNoLiquor = errors.New("there is no liquor yet: the steps of the build say what goes in, and when")

// decide writes down what goes in, and the rest until it is looked at again, unless the vat rests longer already.
func (c Dose) decide(s State, now time.Time) ([]Body, error) {
	out, err := forEach(c.Powders, func(a Amount) ([]Body, error) {
		return s.give(PowderAdded{Powder: a.Powder, Mass: a.Mass, Why: c.Why})
	})
	if err != nil {
		return nil, err
	}
	if len(out) == 0 {
		return refuse("nothing is to be given")
	}
	if rests := s.RestUntil.Add(s.shift("rest")); c.Wait > 0 && c.Wait <= longest && now.Add(c.Wait.Duration()).After(rests) {
		out = append(out, Rested{For: c.Wait})
	}
	return out, nil
}

// give checks one powder that goes in beyond the build. Food has the kind of its own, whoever tells of it; all else is a powder
// that was added.
func (s State) give(b PowderAdded) ([]Body, error) {
	if b.Into != "" && b.Into != string(recipe.IntoStock) {
		return refuse("a powder goes into the vat or its stock jar, not into %q", b.Into)
	}
	if b.Into == "" {
		if err := s.handsOut("a dose"); err != nil {
			return nil, err
		}
	}
	p, err := s.powderOf(b.Powder, b.Material)
	if err != nil {
		return nil, err
	}
	if !(b.Mass > 0) {
		return refuse("say how much of the %s", p.Material)
	}
	if err := s.mayGive(p, b.Mass, b.Into); err != nil {
		return nil, err
	}
	if p.Role == recipe.Food && b.Into == "" {
		return []Body{Fed{Powder: p.ID, Material: p.Material, Mass: b.Mass, Why: b.Why}}, nil
	}
	b.Powder, b.Material = p.ID, p.Material
	return []Body{b}, nil
}

// powderOf finds one of the recipe's powders by its id; for a ferment, which lives on many, any food that is no chemical.
func (s State) powderOf(id, material string) (recipe.Powder, error) {
	if p, ok := s.Head.Recipe.Powder(id); ok {
		return p, nil
	}
	name := cmp.Or(strings.TrimSpace(material), strings.TrimSpace(id))
	food := recipe.Powder{ID: strings.TrimSpace(id), Material: name, Role: recipe.Food}
	switch (recipe.Powder{Material: id + " " + name}).Substance() {
	case recipe.Other, recipe.TableSugar, recipe.ReducingSugar:
		if name != "" && food.ID != "" && s.Head.Recipe.Family == recipe.Ferment {
			return food, nil
		}
	case recipe.Acid:
		if s.ending() {
			return recipe.Powder{}, fmt.Errorf("%q is no powder of this step: acid goes in when its step says so, in small lots", id)
		}
		return recipe.Powder{}, fmt.Errorf("this vat has no powder %q: no acid goes into a vat that dyes%s; the vat is neutralised on the day that leads to its end", id,
			wording.If(s.Head.Recipe.Family.SulfurReducer(), ", it frees sulfur dioxide from the reducer"))
	}
	ids := wording.Each(s.Head.Recipe.Powders, func(p recipe.Powder) string { return p.ID })
	return recipe.Powder{}, fmt.Errorf("this vat has no powder %q: it takes %s", id, strings.Join(ids, ", "))
}

// handsOut refuses what is not done with goods in the vat or its heater on.
func (s State) handsOut(before string) error {
	if in := s.InVat(); len(in) > 0 {
		return fmt.Errorf("%s is in the vat: hands and goods out before %s", in[0].Tag, before)
	}
	if s.Vat.Heater {
		return fmt.Errorf("the heater is on: off and unplugged before %s", before)
	}
	return nil
}

// drawStock checks stock that goes into the vat past its step.
func (s State) drawStock(b StockDrawn) ([]Body, error) {
	switch out := s.handsOut("stock goes in"); {
	case out != nil:
		return nil, out
	case s.Children:
		return nil, s.notForChildren("powders, lye and stock")
	case s.ending():
		return nil, errEnding
	case !Filled(s):
		return nil, errNoLiquor
	case s.noAcid("") != nil:
		return nil, s.noAcid("nothing goes into this vat")
	case s.SourJar():
		return nil, s.noSourJar()
	case !(b.Stock > 0):
		return refuse("say how much stock went in, such as 1 L")
	case s.Place() == ClosedRoom && s.Head.Recipe.Family.SulfurReducer():
		return nil, errClosedRoom
	}
	return unless(s.holdsMore(b.Stock), b)
}

// topUp checks water that makes up for what the vat lost. Where nobody says how warm it is, it is the setup's cold water.
func (s State) topUp(b ToppedUp) ([]Body, error) {
	cold, _ := s.Head.Setup.Waters()
	b.Temp = cmp.Or(b.Temp, cold)
	switch in := s.InVat(); {
	case s.ending():
		return nil, errEnding
	case !Filled(s):
		return refuse("there is no liquor yet: the filling is a step of the build")
	case !(b.Water > 0):
		return refuse("say how much water went in, such as 2 L")
	case b.Temp < 0 || b.Temp > 100:
		return refuse("water is poured between 0 and 100 °C")
	case s.Vat.Heater:
		return refuse("the heater is on: off and unplugged before water goes in")
	case s.Children && b.Temp > ChildrenMost:
		return nil, s.notForChildren("heat and hot water")
	case len(in) > 0 && b.Temp > HandsMost:
		return refuse("%s is in the vat: hands and goods out before hot water", in[0].Tag)
	}
	bar := s.holdsMore(b.Water)
	if t := s.liquid.after(&s, b, s.At).mixed; t != nil {
		bar = cmp.Or(bar, because(s.Head.Setup.Measured().Material.TooHot(*t, s.Head.Setup.System())))
	}
	return unless(bar, b)
}

// holdsMore refuses what would run over, as far as is known.
func (s State) holdsMore(v quantity.Volume) error {
	l := s.Level()
	vessel := s.Head.Setup.Measured()
	switch {
	case vessel.Shape != nil && v > vessel.Brim():
		return fmt.Errorf("the vessel holds %s to the brim", s.says(vessel.Brim()))
	case vessel.Shape != nil && l.Read && l.In+v > vessel.Brim():
		return fmt.Errorf("%s are in it by what was read, and the vessel holds %s to the brim: read how full it is again", s.says(l.In), s.says(vessel.Brim()))
	case l.In+v > mostHeld:
		return errors.New("a vat holds between 0 and 10,000 L")
	}
	return nil
}

// mostHeld is more than any vat holds.
const mostHeld = quantity.Volume(10000)

// drawOff checks liquor that is taken out of a vat that lives on.
func (s State) drawOff(b DrawnOff) ([]Body, error) {
	if s.ending() {
		st, _ := s.Open()
		return refuse("the vat is being ended, and its steps say when it is drawn off: first %s", wording.Lower(st.Title))
	}
	return unless(s.mayDraw(b.Liquor), b)
}

// decant checks clear liquor that is drawn off its sludge. On the day that leads to the end it has its step.
func (s State) decant(b Decanted) ([]Body, error) {
	if st, open := s.Open(); open && s.Head.Setup.Ending {
		if slices.ContainsFunc(s.Plan[st.No:], func(later Step) bool { return later.Do == DoDecant }) {
			return refuse("first %s", wording.Lower(st.Title))
		}
	}
	return unless(s.mayDraw(b.Liquor), b)
}

// mayDraw refuses to take more out than there is, and to lay a heater dry.
func (s State) mayDraw(v quantity.Volume) error {
	l := s.Level()
	switch {
	case !Filled(s):
		return errNoLiquor
	case !(v > 0):
		return errors.New("say how much was drawn off, such as 3 L")
	case s.Vat.Heater:
		return errors.New("the heater is on: off and unplugged before liquor is drawn off")
	case v > l.In && l.Read:
		return fmt.Errorf("%s are in it by what was read: no more can be drawn off", s.says(l.In))
	case v > l.In:
		return fmt.Errorf("%s are in it at most: no more can be drawn off", s.says(l.In))
	}
	return nil
}

func (s State) heaterOn(b HeaterOn) ([]Body, error) {
	switch in := s.InVat(); {
	case s.noAcid("no heat") != nil:
		return nil, s.noAcid("no heat")
	case len(in) > 0:
		return refuse("%s is in the vat: hands and goods out before heat", in[0].Tag)
	case s.Vat.Heater:
		return refuse("the heater is on already")
	case s.Children:
		return nil, s.notForChildren("heaters")
	case s.ending():
		return refuse("the vat is being ended: the heater stays off, and out of it")
	case !Filled(s):
		return refuse("there is no liquor yet: a heater is never on dry")
	case s.Level().In <= 0:
		return refuse("all of the liquor was drawn off: a heater is never on dry; say how full it is")
	}
	top := s.Head.Recipe.Liquor.High
	if st, open := s.Open(); open && st.To != nil && st.Into != recipe.IntoStock {
		top = max(top, *st.To)
	}
	if s.Vat.Temp != nil && *s.Vat.Temp >= top && top > 0 {
		return refuse("the vat reads %s already, and this recipe goes to %s: no heater", s.says(s.Vat.Temp), s.says(top))
	}
	return []Body{b}, nil
}

// noAcid refuses what a vat with a sulfur reducer that was read as acid does not bear, and says what that is.
func (s State) noAcid(what string) error {
	if !s.ending() && s.Gate().Sour() {
		return fmt.Errorf("pH %v was read: acid got in, and frees a choking gas; %s", quantity.PH(*s.Vat.PH), what)
	}
	return nil
}

// noSourJar refuses what has to do with a stock jar that was read as acid.
func (s State) noSourJar() error {
	return fmt.Errorf("pH %v was read in the stock jar: acid got in, and frees a choking gas; nothing goes into it, nor from it into the vat", quantity.PH(*s.Vat.StockPH))
}

// mostGiven is a dose beyond the build that is a slip of the hand, where it is also three times the recipe's. M
const mostGiven = quantity.Concentration(10)

// mayGive refuses a powder where its danger stands against it: in a closed room, with children at the vat, or far too much for what
// is in it. A stock jar is for the whole vat.
func (s State) mayGive(p recipe.Powder, m quantity.Mass, into string) error {
	if s.Children {
		return s.notForChildren("powders and lye")
	}
	if s.ending() && !(p.Role == recipe.Alkali && s.tooSour()) {
		return errEnding
	}
	if err := s.noAcid("nothing goes into this vat"); err != nil {
		return err
	}
	if !Filled(s) {
		return errNoLiquor
	}
	in := s.holds()
	if into == string(recipe.IntoStock) {
		if s.SourJar() {
			return s.noSourJar()
		}
		in = s.Head.Setup.Fill
	}
	if most := max(3*s.Head.Recipe.PerLitre(p), mostGiven).Of(in); m > most {
		return fmt.Errorf("%s of %s is more than anyone gives to %s at once: weigh again, and type the grams", s.says(m), p.Material, s.says(in))
	}
	return s.noDraught(p.ID)
}

// noDraught refuses a sulfur reducer in a closed room.
func (s State) noDraught(powder string) error {
	p, ok := s.Head.Recipe.Powder(powder)
	if s.Place() == ClosedRoom && s.Head.Recipe.Family.SulfurReducer() && ok && p.Role == recipe.Reducer {
		return errClosedRoom
	}
	return nil
}

// endVat ends the vat. On the day that leads to its end, every step before was done first.
func (s State) endVat(b VatEnded) ([]Body, error) {
	if err := cmp.Or(because(s.stillReduces()), s.hanging()); err != nil || !s.Head.Setup.Ending {
		return unless(err, b)
	}
	st, open := s.Open()
	switch {
	case !open:
	case st.Do != DoEnd:
		return refuse("first %s", wording.Lower(st.Title))
	case !strings.ContainsFunc(b.Route, unicode.IsLetter):
		return refuse("say where it went, as the local authority allows, such as the foul sewer")
	}
	if b.Liquor == 0 {
		if b.Liquor = s.liquid.decanted; b.Liquor == 0 {
			b.Liquor = s.Level().In
		}
	}
	if b.PH == nil {
		b.PH = s.Vat.PH
	}
	return []Body{b}, nil
}

// decide writes down what is done about what was seen: its powders, and the wait until it is looked at again.
func (c Treat) decide(s State, now time.Time) ([]Body, error) {
	if strings.TrimSpace(c.Cause) == "" || strings.TrimSpace(c.Do) == "" {
		return refuse("say what is treated, and how")
	}
	if in := s.InVat(); len(in) > 0 {
		return refuse("%s is in the vat: hands and goods out before a treatment", in[0].Tag)
	}
	if c.Wait < 0 || c.Wait > longest {
		return refuse("a treatment works for 30 days at most, not for %s", c.Wait)
	}
	var out []Body
	if len(c.Powders) > 0 {
		var err error
		out, err = Dose{Powders: c.Powders, Why: signs.NameOf(c.Cause)}.decide(s, now)
		if err != nil {
			return nil, err
		}
	}
	return append(out, Treated{c.Cause, c.Do, c.Wait}), nil
}

// decideRecheck takes the answer of the look after a treatment.
func (s State) decideRecheck(b Rechecked) ([]Body, error) {
	switch {
	case s.Treating == nil:
		return refuse("nothing was treated that is still to be looked at")
	case b.Answer != signs.Better.String() && b.Answer != signs.Same.String() && b.Answer != signs.Worse.String():
		return refuse("a look says better, the same or worse, not %q", b.Answer)
	}
	b.Cause = s.Treating.Cause
	return []Body{b}, nil
}
