package setup

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/vessel"
	"example.org/vatside/ui/library"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/shelf"
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
	place    string
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
	{"not measured", "nothing watches the rim", nil, nil, ""},
}

// places are where the dyer can stand.
var places = []string{day.Outdoors, day.CrossDraught, day.ClosedRoom}

// keepings are how a vat can be kept warm; the usual one is the second.
var keepings = []struct{ kept, word, says string }{
	{day.KeptByHeater, "a heater with a thermostat", "guarded, on an RCD; out before hands go in"},
	{day.KeptWrapped, "wrapped", "lid on, never airtight; warmed by hand when it cools"},
	{day.KeptBySun, "the sun", "the night cools it"},
	{day.NotKept, "not at all", "as cold as its air"},
}

var errAir = errors.New("no sulfur reducer in a closed room: open a cross-draught or go outdoors, or go back and take a sugar–lime or a ferment vat")

// picked is the line chosen on a page: the dyer's choice, else the usual one.
func (s setup) picked(p page, env screen.Env) int {
	if !s.set[p] && p == place {
		return max(0, slices.Index(places, env.Home.Settings.Place))
	}
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
	f := facts{sys: set.System(), recipe: env.Home.Recipes[min(s.pick[recipeOf], len(env.Home.Recipes)-1)]}
	f.usual[name] = "vat " + strconv.Itoa(len(env.Home.Vats)+1)
	f.name = s.answer(name, f.usual[name], "")
	for _, v := range env.Home.Vats {
		if strings.EqualFold(strings.TrimSpace(v.Name), strings.TrimSpace(f.name)) {
			f.wrong[name] = fmt.Errorf("a vat is called %s already: take another name", v.Name)
		}
	}
	s.vessel(&f)
	s.volume(&f)
	s.water(&f, set)
	f.place = places[s.picked(place, env)]
	if f.place == day.ClosedRoom && f.recipe.Family.SulfurReducer() {
		f.wrong[place] = errAir
	}
	if slow(f.recipe) {
		f.kept = keepings[s.picked(keep, env)].kept
	}
	s.indigo(&f)
	return f
}

// vessel reads the measures and the material.
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
	f.vessel.Material = vessel.Materials()[s.pick[material]]
	if no := f.vessel.Material.Refusal(true); no != "" {
		f.wrong[material] = errors.New(no)
	} else if no := f.vessel.Material.TooHot(f.recipe.Liquor.Build, f.sys); no != "" {
		f.wrong[material] = errors.New(no)
	}
}

// volume reads the fill: a volume, or how deep it stands in the vessel.
func (s setup) volume(f *facts) {
	f.usual[fill] = usualFill(f.vessel, f.sys)
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

// usualFill is the vessel's own most, rounded down to what a jug can measure.
func usualFill(v vessel.Vessel, sys quantity.System) string {
	unit := sys.VolumeUnit()
	if v.Shape == nil {
		if sys == quantity.Metric {
			return "60 " + unit
		}
		return "15 " + unit
	}
	one, err := quantity.ParseVolume("1 "+unit, sys)
	n := v.MaxFill(vessel.Load{}).Litres()
	if err == nil {
		n /= one.Litres()
	}
	if n > 10 {
		n = math.Floor(n)
	} else {
		n = math.Floor(n*10) / 10
	}
	return strconv.FormatFloat(n, 'f', -1, 64) + " " + unit
}

// water reads the temperatures of the cold and the hot water.
func (s setup) water(f *facts, set shelf.Settings) {
	_, unit := quantity.Celsius(0).Figure(f.sys)
	read := func(p page, usual quantity.Temperature) quantity.Temperature {
		f.usual[p] = usual.Format(f.sys)
		if strings.TrimSpace(s.typed[p].Text) == "" {
			return usual
		}
		t, err := quantity.ParseTemperature(s.answer(p, "", unit), f.sys)
		switch {
		case err != nil:
			f.wrong[p] = err
		case t < 0 || t > 100:
			f.wrong[p] = fmt.Errorf("water is between %s and %s", quantity.Celsius(0).Format(f.sys), quantity.Celsius(100).Format(f.sys))
		}
		return t
	}
	f.cold = read(cold, set.Cold)
	f.hot = read(hot, set.Hot)
	if f.wrong[cold] == nil && f.wrong[hot] == nil && f.hot <= f.cold {
		f.wrong[hot] = fmt.Errorf("the hot water must be warmer than the cold, which has %s", f.cold.Format(f.sys))
	}
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
			Name: f.name, Fill: f.fill, Material: f.vessel.Material.String(), Place: f.place, Units: f.sys.String(),
			Cold: f.cold, Hot: f.hot, Strength: f.strength, Kept: f.kept, GoodsFirst: true,
		},
	}
	if f.vessel.Shape != nil {
		h.Setup.Vessel = f.vessel.Shape.String()
	}
	return library.Set(h, env.Home.Settings, env.Now)
}
