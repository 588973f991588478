package prepare

import (
	"cmp"
	"slices"
	"strings"

	"example.org/vatside/model/day"
	"example.org/vatside/model/practice"
	ahead "example.org/vatside/model/prepare"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/screen"
)

// facts is what the page shows.
type facts struct {
	sys   quantity.System
	head  day.Head
	vat   string // its name; empty: none is chosen
	ready ahead.Schedule
	items []practice.Item
}

func (s prepare) facts(env screen.Env) (facts, error) {
	f := facts{sys: env.System(), head: head(env)}
	if v, ok := vat(env); ok {
		f.vat = v.Name
	}
	around := ahead.Around(f.head, s.lots)
	around.Emergency = env.Home.Settings.Emergency
	f.items = practice.Checklist(around)
	var err error
	f.ready, err = ahead.Before(f.head, s.lots, s.asked, s.start)
	return f, err
}

// vat is the one chosen on home, else the last that was worked with.
func vat(env screen.Env) (screen.Vat, bool) {
	name, _, _ := strings.Cut(env.ID, "/")
	vats := env.Home.Vats
	if at := slices.IndexFunc(vats, func(v screen.Vat) bool { return v.ID() == env.ID }); at >= 0 {
		return vats[at], true
	}
	if at := slices.IndexFunc(vats, func(v screen.Vat) bool { return v.Vat == name }); at >= 0 {
		return vats[at], true
	}
	if len(vats) == 0 {
		return screen.Vat{}, false
	}
	return slices.MaxFunc(vats, func(a, b screen.Vat) int { return cmp.Or(a.At.Compare(b.At), strings.Compare(a.Day, b.Day)) }), true
}

// usualFill is what a vat that nobody chose is built with.
const usualFill = quantity.Volume(60)

// head is the next day's: of the vat, built, or at the step where its build stands; else of a new soda vat.
func head(env screen.Env) day.Head {
	set := env.Home.Settings
	h := day.Head{Setup: day.Setup{Units: set.Units, Place: set.Place, Gear: set.Gear, Fill: usualFill, Cold: set.Cold, Hot: set.Hot}}
	v, ok := vat(env)
	if !ok {
		h.Recipe, _ = wording.First(env.Home.Recipes, func(r recipe.Recipe) bool { return r.ID == "soda" })
		return h
	}
	if d, open := env.Days.Day(v.Vat + "/" + v.Day); open {
		h = ahead.NextHead(d.State)
		h.Setup.Units = set.Units
		return h
	}
	h.Opening.Built = v.Day != ""
	r, known := wording.First(env.Home.Recipes, func(r recipe.Recipe) bool { return r.Name == v.Recipe || r.ID == v.Recipe })
	if !known { // of a recipe that is not at hand any more only the goods are laid out
		return h
	}
	h.Recipe = r
	if fill, err := quantity.ParseVolume(v.Fill, h.Setup.System()); err == nil {
		h.Setup.Fill = fill
	}
	return h
}

// answer is one way in which the goods can have come.
type answer struct {
	says, aside string
	lots        []ahead.Lot
}

// answers are the ways in which goods can have come of which it was not said: scoured; of one fibre each of its states; of
// several as they usually come.
func (s prepare) answers() []answer {
	open := func(l ahead.Lot) bool { return !l.Scoured && l.State == "" }
	if !slices.ContainsFunc(s.lots, open) {
		return nil
	}
	with := func(change func(*ahead.Lot)) []ahead.Lot {
		out := slices.Clone(s.lots)
		for i := range out {
			if open(out[i]) {
				change(&out[i])
			}
		}
		return out
	}
	var out []answer
	first := s.lots[slices.IndexFunc(s.lots, open)].Fibre
	mixed := slices.ContainsFunc(s.lots, func(l ahead.Lot) bool { return open(l) && l.Fibre != first })
	if mixed {
		out = append(out, answer{"not scoured", "each as it usually comes", with(func(*ahead.Lot) {})})
	} else {
		for _, state := range practice.StatesOf(first) {
			out = append(out, answer{"not scoured: " + string(state), meaning[state], with(func(l *ahead.Lot) { l.State = state })})
		}
	}
	return append(out, answer{"scoured", "a drop of water sinks in at once", with(func(l *ahead.Lot) { l.Scoured = true })})
}

// meaning says what a state is.
var meaning = map[practice.State]string{
	practice.Raw: "as it grew", practice.Greige: "fresh off the loom", practice.Prepared: "sold as prepared for dyeing", practice.InGum: "stiff, the gum still on it",
	practice.Degummed: "soft and bright", practice.Yarn: "spun and washed", practice.Greasy: "fleece, with its grease",
}
