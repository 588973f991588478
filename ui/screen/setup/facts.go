package setup

import (
	"cmp"
	"errors"
	"fmt"
	"strings"

	"example.org/vatside/model/day"
	"example.org/vatside/model/fibre"
	"example.org/vatside/model/practice"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/vessel"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/library"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/shelf"
	"example.org/vatside/ui/widget"
)

// facts is what the answers come to, with the answer that the program would give where none was typed.
type facts struct {
	sys      quantity.System
	name     string
	recipe   recipe.Recipe
	vessel   vessel.Vessel
	fill     quantity.Volume
	room     vessel.Room
	cold     quantity.Temperature
	hot      quantity.Temperature
	kept     string         // of a slow vat
	strength quantity.Share // 0: the recipe's own
	amounts  recipe.Amounts
	usual    [pages]string // what Enter takes
	wrong    [pages]error
}

// shapes are the vessels that can be described, and one that is not.
var shapes = []struct {
	word, says string
	measures   []string
	usual      []quantity.Length
	of         string // what the usual measures are of
}{
	{"pail or bin", "round, wider at the rim", []string{"across the floor", "across the rim", "high"}, []quantity.Length{0.254, 0.299, 0.368}, "a common 20 L pail"},
	{"straight and round", "a pot, a drum", []string{"across", "high"}, []quantity.Length{0.40, 0.60}, "a drum of 75 L"},
	{"box", "a tub, a trough", []string{"long", "wide", "high"}, []quantity.Length{0.60, 0.40, 0.42}, "a stacking box of 100 L"},
	{"not measured", "no warning near the rim", nil, nil, ""},
}

// purpose is what recipes are sorted for.
type purpose struct {
	word string
	want practice.Wanted
}

func (p purpose) said() string { return "for " + cmp.Or(p.word, "anything") }

// wanted is what the recipes can be sorted for, one after the other by one key, the first of them nothing.
var wanted = []purpose{
	{"", practice.Wanted{}},
	{"cotton", practice.Wanted{Fibres: []fibre.Fibre{fibre.Cotton}}},
	{"wool", practice.Wanted{Fibres: []fibre.Fibre{fibre.Wool}}},
	{"silk", practice.Wanted{Fibres: []fibre.Fibre{fibre.Silk}}},
	{"a paste", practice.Wanted{Pasted: true}},
	{"a class", practice.Wanted{Class: true}},
	{"children", practice.Wanted{Children: true}},
}

// other is what the key sorts them for next.
func (s setup) other() purpose { return wanted[(s.wants+1)%len(wanted)] }

// sorted are the recipes of a home as they are listed: in their own order, or as they fit what the dyer sorts them for, and the place. The
// pH of each is solved for that: it is done once, not at each key and each frame. Nobody changes what it gives.
type sorted struct {
	recipes []practice.Choice
	list    []widget.Choice // their lines
}

// sortedBy is what they hang on. The recipes of a home are read anew, not changed, and with them which are the dyer's own.
type sortedBy struct {
	first     *recipe.Recipe
	of, wants int
	place     string
}

func (s setup) sorted(env screen.Env) sorted {
	all := env.Home.Recipes
	return s.memo.Of(sortedBy{&all[0], len(all), s.wants, env.Home.Settings.Place}, func() sorted {
		recipes := sort(env, s.wants)
		return sorted{recipes, listed(recipes, env.Home.Own, s.wants)}
	})
}

// sort puts the recipes into the order in which they fit what is wanted.
func sort(env screen.Env, wants int) []practice.Choice {
	if wants == 0 {
		return wording.Each(env.Home.Recipes, func(r recipe.Recipe) practice.Choice { return practice.Choice{Recipe: r, Fit: practice.Fits} })
	}
	want := wanted[wants].want
	want.Place = env.Home.Settings.Place
	return practice.Choose(env.Home.Recipes, want)
}

// picked is the line chosen on a page: the dyer's choice, else the usual one.
func (s setup) picked(p page, env screen.Env) int {
	if !s.set[p] && p == keep && env.Home.Settings.Heater <= 0 {
		return 1
	}
	return s.pick[p]
}

// answer is what was typed on a page, with the usual unit after bare figures, else what Enter takes.
func (s setup) answer(p page, usual, unit string) string {
	if strings.TrimSpace(s.typed[p].Text) == "" {
		return usual
	}
	return quantity.WithUnit(s.typed[p].Text, unit)
}

func (s setup) facts(env screen.Env) facts {
	set := env.Home.Settings
	all := s.sorted(env).recipes
	f := facts{sys: set.System(), recipe: all[min(s.pick[recipeOf], len(all)-1)].Recipe}
	taken := wording.Each(env.Home.Vats, func(v screen.Vat) string { return v.Name })
	f.usual[name] = library.FreeName(taken)
	f.name = cmp.Or(strings.TrimSpace(s.typed[name].Text), f.usual[name])
	f.wrong[name] = library.NameTaken(f.name, taken)
	if s.measured {
		s.vessel(&f)
	} else {
		s.litres(&f)
	}
	s.volume(&f)
	s.waters(&f, set)
	if library.Slow(f.recipe) {
		f.kept = library.Keepings[s.picked(keep, env)].Kept
	}
	s.indigo(&f)
	return f
}

// litres reads a vessel that is told by its litres, or in one line.
func (s setup) litres(f *facts) {
	f.usual[holds] = "20 L"
	if f.sys != quantity.Metric {
		f.usual[holds] = "5 " + f.sys.VolumeUnit()
	}
	text := s.answer(holds, f.usual[holds], f.sys.VolumeUnit())
	form, _, err := library.VesselOf(text, f.sys)
	if f.wrong[holds] = err; err == nil && form != "" {
		f.vessel.Shape, f.wrong[holds] = vessel.ParseShape(form, quantity.Metric)
	}
}

// vessel reads the measures.
func (s setup) vessel(f *facts) {
	form := shapes[s.pick[shape]]
	unit := f.sys.LengthUnit()
	words := []string{[]string{"frustum", "cylinder", "box", ""}[s.pick[shape]]}
	for i := range form.measures {
		p := first + page(i)
		f.usual[p] = form.usual[i].Format(f.sys)
		l, err := quantity.ParseLength(s.answer(p, f.usual[p], unit), f.sys)
		switch {
		case err != nil:
			f.wrong[p] = err
		case l < 0.01 || l > 5:
			f.wrong[p] = fmt.Errorf("a vessel is between %s and %s here", quantity.Centimetres(1).Format(f.sys), quantity.Metres(5).Format(f.sys))
		}
		text, _ := l.MarshalText()
		words = append(words, strings.ReplaceAll(string(text), " ", ""))
	}
	if len(form.measures) > 0 && f.wrong[first] == nil && f.wrong[second] == nil && f.wrong[third] == nil {
		v, err := vessel.ParseShape(strings.Join(words, " "), quantity.Metric)
		if err != nil {
			f.wrong[first+page(len(form.measures)-1)] = err
		} else {
			f.vessel.Shape = v
		}
	}
}

// volume reads the fill: a volume, or how deep it stands in the vessel.
func (s setup) volume(f *facts) {
	f.usual[fill] = s.usualFill(f)
	typed := s.answer(fill, f.usual[fill], f.sys.VolumeUnit())
	v, err := quantity.ParseVolume(typed, f.sys)
	if err != nil && f.vessel.Shape != nil {
		switch depth, no := quantity.ParseLength(typed, f.sys); {
		case no != nil:
		case depth <= f.vessel.Rim():
			v, err = f.vessel.Volume(depth), nil
		default:
			err = fmt.Errorf("%s is above the rim, which stands at %s", depth.Format(f.sys), f.vessel.Rim().Format(f.sys))
		}
	}
	if err != nil {
		f.wrong[fill] = err
		return
	}
	f.fill = v
	if f.vessel.Shape == nil {
		return
	}
	f.room = f.vessel.RoomFor(vessel.Plan{Fill: v, Sediment: f.recipe.Liquor.Sediment, Hottest: f.recipe.Liquor.Build, Alkali: true, System: f.sys})
	for _, w := range f.room.Warnings {
		if w.Kind == vessel.OverBrim {
			f.wrong[fill] = errors.New(w.Sentence)
		}
	}
}

// usualFill is the most that leaves room for goods, rounded down to what a jug can measure.
func (s setup) usualFill(f *facts) string {
	if s.measured && f.vessel.Shape != nil {
		return library.RoundFill(f.vessel.MaxFill(vessel.Load{}), f.sys).Format(f.sys)
	}
	text := s.answer(holds, f.usual[holds], f.sys.VolumeUnit())
	if text == "" { // a vessel that is not measured, and was never told by its litres
		text = "20 L"
	}
	_, v, err := library.VesselOf(text, f.sys)
	if err != nil {
		return ""
	}
	return v.Format(f.sys)
}

// waters reads the temperatures of the cold and the hot water.
func (s setup) waters(f *facts, set shelf.Settings) {
	cold, _ := set.Cold.Figure(f.sys)
	hot, unit := set.Hot.Figure(f.sys)
	f.usual[water] = cold + " " + hot + " " + unit
	f.cold, f.hot, f.wrong[water] = library.WatersOf(s.typed[water].Text, set)
}

// indigo reads the strength of the dyer's own indigo and weighs the powders.
func (s setup) indigo(f *facts) {
	f.usual[strength] = "the recipe's"
	for _, p := range f.recipe.Powders {
		if p.Role == recipe.Indigo {
			f.usual[strength] = p.Strength.Format(f.sys)
		}
	}
	if t := strings.TrimSpace(s.typed[strength].Text); t != "" {
		v, err := quantity.ParseShare(s.answer(strength, "", "%"), f.sys)
		if err == nil && (v <= 0 || v > 1) {
			err = errors.New("a strength is above 0 and at most 100 %: see the label")
		}
		f.wrong[strength], f.strength = err, v
	}
	if f.wrong[fill] != nil || f.wrong[strength] != nil {
		return
	}
	a, err := recipe.Scale(f.recipe, f.fill, recipe.Options{IndigoStrength: f.strength})
	if err != nil {
		at := strength
		if _, own := recipe.Scale(f.recipe, f.fill, recipe.Options{}); own != nil {
			at = fill
		}
		f.wrong[at] = err
	}
	f.amounts = a
}

// head is the vat to begin.
func (f facts) head(env screen.Env) day.Head {
	zone := env.Now.Location().String()
	if zone == "Local" || zone == "" {
		zone = env.Now.Format("-07:00")
	}
	h := day.Head{
		Zone: zone, Recipe: f.recipe, Opening: day.Opening{Number: 1},
		Setup: day.Setup{
			Name: f.name, Fill: f.fill, Place: env.Home.Settings.Place, Asks: true, Units: f.sys.String(),
			Cold: f.cold, Hot: f.hot, Strength: f.strength, Kept: f.kept, GoodsFirst: true,
		},
	}
	if f.vessel.Shape != nil {
		h.Setup.Vessel = f.vessel.Shape.String()
	}
	return library.Set(h, env.Home.Settings, env.Now)
}
