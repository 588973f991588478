package command

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"example.org/vatside/model/fibre"
	"example.org/vatside/model/liquor"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/signs"
	"example.org/vatside/model/wording"
)

// dosing is a vat as its flags tell of it.
type dosing struct {
	recipe, seen                    string
	fill                            quantity.Volume
	temp                            *quantity.Temperature
	ph                              *quantity.PH
	strip, fed                      *quantity.Span
	heater                          quantity.Power
	given, goods                    []string
	milky, class, handsIn, heaterOn bool
}

func (p *program) reckonDose() *cobra.Command {
	var d dosing
	return p.reckoning("dose --recipe ID --fill VOLUME", "The one next thing for a vat, by what was read of it",
		func(r *reader) {
			r.needs = []string{"recipe", "fill"}
			d.flags(r)
			r.BoolVar(&d.milky, milky, false, "the liquor is milky")
			r.BoolVar(&d.class, "class", false, "a class is at the vat")
			r.BoolVar(&d.handsIn, "hands-in", false, "hands or goods are in the liquor")
			r.BoolVar(&d.heaterOn, "heater-on", false, "the heater is on")
		},
		func(r *reader) error {
			n := p.standingOf(d, r.sys)
			seen := seenOf(d.seen, n)
			if d.milky && !slices.ContainsFunc(seen.Signs, func(s signs.Sign) bool { return s.ID == milky }) {
				sign, _ := signs.Find(milky)
				seen.Signs = append(seen.Signs, sign)
			}
			a := signs.Advise(seen, n)
			return p.give(adviceAsJSON(a), tellAdvice(a, n))
		})
}

// flags are those by which a vat and its readings are told.
func (d *dosing) flags(r *reader) {
	r.recipe(&d.recipe)
	value(r, &d.fill, "fill", "", "", fillRead)
	value(r, &d.temp, "temp", "", "`°C` of the liquor, if it was read", optional(liquorRead))
	value(r, &d.ph, "ph", "", "`pH` of the liquor, if it was read", optional(phRead))
	value(r, &d.strip, "strip", "", "`time` that a strip stayed yellow, such as 12s", optional(quantity.ParseSpan))
	r.StringVar(&d.seen, "seen", "", "what is seen, in `words` with commas between, such as 'blue, cloudy'")
	value(r, &d.fed, "fed", "", "how long ago a ferment vat got its last food: a `time` such as '3 d'", optional(quantity.ParseSpan))
	value(r, &d.heater, "heater", "", "`power` of the heater that reaches the liquor, such as 1000W", powerRead)
	r.StringArrayVar(&d.given, "given", nil, "the `powder` that was given today beyond the build, such as 'reducer=30 g'; once for each")
	r.StringArrayVar(&d.goods, "goods", nil, "`fibre` of goods that are to go in; once for each")
}

func (p *program) standingOf(d dosing, sys quantity.System) liquor.State {
	n := liquor.State{
		Fill: d.fill, Temp: d.temp, PH: d.ph, PHError: liquor.PaperError, Strip: d.strip, SinceFood: d.fed, Heater: d.heater,
		Class: d.class, HandsIn: d.handsIn, HeaterOn: d.heaterOn, System: sys,
	}
	n.Recipe = got(p.findFor(d.recipe, d.fill))
	if d.fed != nil && n.Recipe.Family != recipe.Ferment {
		stop("--fed: recipe %s is no ferment vat, and gets no food", n.Recipe.ID)
	}
	n.GivenToday = got(parseHave("--given", d.given, sys))
	for id := range n.GivenToday {
		if _, ok := n.Recipe.Powder(id); !ok {
			stop("--given: recipe %s has no powder %q; it has %s", n.Recipe.ID, id, wording.List(wording.Each(n.Recipe.Powders, func(w recipe.Powder) string { return w.ID })))
		}
	}
	for _, g := range d.goods {
		f, err := fibre.Parse(g)
		must(about("--goods", err))
		n.Goods = append(n.Goods, f)
	}
	n.Goods = wording.Once(n.Goods)
	return n
}

// milky is the sign that has a flag of its own.
const milky = "milky"

// seenOf is what was seen, in words, and what was read.
func seenOf(words string, n liquor.State) signs.Seen {
	s := signs.Seen{Temp: n.Temp, PH: n.PH, PHError: n.PHError, Strip: n.Strip}
	if words != "" {
		s.Signs = got(signs.Parse(words))
	}
	return s
}

func tellAdvice(a liquor.Advice, n liquor.State) (tell telling) {
	tell.note("", a.Sentence)
	for _, w := range a.With {
		what := w.Powder
		if powder, ok := n.Recipe.Powder(w.Powder); ok {
			what = powder.Material
		}
		if !strings.Contains(a.Sentence, what) {
			tell.note("", fmt.Sprintf("then %s of %s", w.Mass.Scale(n.System), what))
		}
	}
	tell.notes("Note", a.Warnings)
	tell.notes("Caution", a.Cautions)
	tell.note("How", a.How)
	tell.note("Why", a.Why)
	wait := a.Wait
	if wait > quantity.Minutes(10) { // to the minute is close enough
		wait = quantity.Minutes(math.Ceil(wait.Minutes()))
	}
	switch {
	case a.Wait > 0 && a.Recheck != "":
		tell.note("", fmt.Sprintf("wait %s, then: %s", wait, a.Recheck))
	case a.Wait > 0:
		tell.note("", fmt.Sprintf("wait %s", wait))
	default:
		tell.note("Then", a.Recheck)
	}
	if powder, ok := n.Recipe.Powder(a.Next); ok {
		tell.note("", fmt.Sprintf("then look at the %s: the reducer uses it up", powder.Material))
	}
	return tell
}

// adviceAsJSON are the keys of reckon dose --json.
func adviceAsJSON(a liquor.Advice) object {
	return object{
		{"do", a.Do}, {"powder", some(a.Powder)}, {"grams", when(a.Mass > 0, tidy(a.Mass.Grams()))},
		{"with", each(a.With, func(w liquor.Amount) object { return object{{"powder", w.Powder}, {"grams", tidy(w.Mass.Grams())}} })},
		{"to_c", celsius(a.To)}, {"wait_min", when(a.Wait > 0, tidy(a.Wait.Minutes()))}, {"sentence", a.Sentence}, {"why", some(a.Why)}, {"how", some(a.How)},
		{"cautions", list(a.Cautions)}, {"warnings", list(a.Warnings)}, {"recheck", some(a.Recheck)}, {"next", some(a.Next)}, {"refused", a.Refused},
	}
}
