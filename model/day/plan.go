package day

import (
	"fmt"
	"strings"

	"example.org/vatside/model/practice"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/water"
)

// Step is one step of the day with its amounts for this fill and its words.
type Step struct {
	No        int
	Do        recipe.Do
	Powder    string
	Material  string
	Role      recipe.Role
	Into      recipe.Place
	Title     string          // the act, "Weigh the soda ash"
	Mass      quantity.Mass   // of the powder, for this step
	Water     quantity.Volume // that wets, dissolves or fills
	Hot, Cold quantity.Volume // of the fill, each at its own temperature
	To        *quantity.Temperature
	For       quantity.Span
	AtLeast   *quantity.Temperature
	AtMost    *quantity.Temperature
	Cover     bool
	How       string
	Why       string
	Look      string
	Caution   string // empty: the step goes on at one press
	Meanwhile string
}

// Water that the dyer has where the setup does not say.
const (
	defaultCold = quantity.Temperature(15)
	defaultHot  = quantity.Temperature(60)
)

// HandsMost is the hottest liquor that bare-gloved hands go into (scald table, S27, and practice: 45 °C).
const HandsMost = quantity.Temperature(45)

// Waits tells whether the step is a stretch of time that runs from the moment the step opens.
func (s Step) Waits() bool {
	return s.Do == recipe.Wait || s.Do == recipe.Settle || s.Do == recipe.Rest || s.Do == recipe.Cool
}

// Judges tells whether the step is a look at the vat that ends with ready or not yet; a check with a limit of °C only
// wants a reading.
func (s Step) Judges() bool { return s.Do == recipe.Check && s.AtMost == nil && s.AtLeast == nil }

// Figure is the one number of the step that must be read from afar, and its unit; empty when it has none.
func (s Step) Figure(sys quantity.System) (number, unit string) {
	switch {
	case s.Do == recipe.Warm || s.Do == recipe.Cool:
		if s.To != nil {
			return s.To.Figure(sys)
		}
	case s.Do == recipe.Fill:
		return s.Water.Figure(sys)
	case (s.Do == recipe.Hydrate || s.Do == recipe.Dissolve || s.Do == recipe.Simmer) && s.Water > 0:
		return s.Water.Figure(sys)
	case s.Mass > 0:
		return s.Mass.Figure(sys)
	case s.Water > 0:
		return s.Water.Figure(sys)
	case s.For > 0:
		return s.For.Figure(sys)
	}
	return "", ""
}

// Plan is the day's steps: the whole recipe for a vat to be built, warming and a look for one that lives, the way to its
// end for one that is to end.
func Plan(h Head) ([]Step, error) {
	switch {
	case h.Opening.Built && h.Setup.Ending:
		return endPlan(h), nil
	case h.Opening.Built:
		return tendPlan(h), nil
	}
	am, err := recipe.Scale(h.Recipe, h.Setup.Fill, recipe.Options{IndigoStrength: h.Setup.Strength})
	if err != nil {
		return nil, err
	}
	var steps []Step
	for i, rs := range h.Recipe.Steps {
		st := Step{
			No: i + 1, Do: rs.Do, Powder: rs.Powder, Into: rs.Into, To: rs.To, For: rs.For, AtLeast: rs.AtLeast, AtMost: rs.AtMost,
			Cover: rs.Cover, How: rs.How, Why: rs.Why, Look: rs.Look, Caution: rs.Caution, Meanwhile: rs.Meanwhile,
		}
		if p, ok := h.Recipe.Powder(rs.Powder); ok {
			st.Material, st.Role = p.Material, p.Role
			if a, ok := am.Of(p.ID); ok {
				st.Mass, st.Water = a.Grams, a.Hydrate
				if rs.Do == recipe.Dissolve || rs.Do == recipe.Simmer {
					st.Water = a.Dissolve
				}
			}
			if rs.Part > 0 {
				st.Mass = quantity.Mass(st.Mass.Grams() * rs.Part.Fraction())
				st.Water = quantity.Volume(st.Water.Litres() * rs.Part.Fraction())
			}
			if st.Do == recipe.Add || st.Do == recipe.Sprinkle || st.Do == recipe.Weigh {
				st.Water = 0
			}
		}
		if err := st.fill(h, am); err != nil {
			return nil, err
		}
		st.words(h)
		steps = append(steps, st)
	}
	return steps, nil
}

// fill gives a filling or stock step its water.
func (s *Step) fill(h Head, am recipe.Amounts) error {
	stockStep := s.Into == recipe.IntoStock
	switch {
	case s.Do == recipe.Fill && stockStep:
		s.Water = am.StockWater
	case s.Do == recipe.Fill:
		s.Water = am.FillWater
	case s.Do == recipe.Add && s.Powder == "" && h.Recipe.Stock != nil:
		s.Water = am.StockVolume
		s.Material = "stock"
		return nil
	default:
		return nil
	}
	if s.To == nil {
		return nil
	}
	cold, hot := h.Setup.Waters()
	if s.To.Celsius() <= cold.Celsius() {
		s.Cold = s.Water
		return nil
	}
	hotV, coldV, err := water.Mix(s.Water, cold, hot, *s.To)
	if err != nil {
		return err
	}
	s.Hot, s.Cold = hotV, coldV
	return nil
}

// tendPlan is the beginning of a day at a vat that lives: read it, warm it, look at it.
func tendPlan(h Head) []Step {
	aim := h.Recipe.Liquor.Aim
	low := h.Recipe.Liquor.Low
	steps := []Step{
		{Do: recipe.Warm, To: &aim, AtMost: nil,
			Title:   "Warm the vat",
			How:     fmt.Sprintf("Read the °C first. Below %s warm it in place, lid on, to %s.", low.Format(h.Setup.System()), aim.Format(h.Setup.System())),
			Why:     "A cold vat reduces slowly and dyes pale and uneven.",
			Caution: heaterCaution},
		{Do: recipe.Check,
			Title: "Look: is it ready?",
			How:   "Skim a little froth aside, lift liquor in a clear glass, pull a strip test.",
			Why:   "The liquor under the film tells more than the film.",
			Look:  "clear yellow-green under a coppery film; a strip that stays yellow about 45 s"},
	}
	if !h.Recipe.Family.SulfurReducer() { // no strip of 45 s: it looks as its recipe says
		steps[1].How, steps[1].Look = "Skim a little froth aside, lift liquor in a clear glass.", "a clear glass, a coppery film, a dark froth"
		for _, st := range h.Recipe.Steps {
			if st.Do == recipe.Check && st.Look != "" && st.Into != recipe.IntoStock {
				steps[1].Look = st.Look
			}
		}
	}
	for i := range steps {
		steps[i].No = i + 1
	}
	return steps
}

// words fills in what the recipe leaves unsaid.
func (s *Step) words(h Head) {
	sys := h.Setup.System()
	where := "the vat"
	if s.Into == recipe.IntoStock {
		where = "the stock jar"
	}
	the := "the " + s.Material
	or := func(to *string, words string) {
		if *to == "" {
			*to = words
		}
	}
	powder := s.Powder != ""
	switch s.Do {
	case recipe.Weigh:
		s.Title = "Weigh " + the
		or(&s.How, "Into a dry jar, tared.")
		or(&s.Caution, "mask and glasses on, no draught: the dust hurts")
	case recipe.Hydrate:
		s.Title = "Wet " + the
		or(&s.How, "Hand-warm water onto the grains, a little at a time; stir till no lump is felt.")
		or(&s.Caution, "gloves and glasses on")
	case recipe.Dissolve:
		s.Title = "Dissolve " + the
		or(&s.How, "Powder into the water, slowly, stirring; never water onto powder.")
		or(&s.Caution, "gloves and glasses on; powder into water, never the other way")
	case recipe.Simmer:
		s.Title = "Simmer " + the
		or(&s.Caution, "scald: lid on, handles in, nobody in the way")
	case recipe.Cool:
		s.Title = "Let it cool"
	case recipe.Fill:
		s.Title = "Fill " + where
		if s.Hot > 0 {
			or(&s.How, "Poured low; stir, read the °C.")
			s.How = fmt.Sprintf("First %s cold, then %s hot%s", s.Cold.Format(sys), s.Hot.Format(sys), afterWater(s.How))
			or(&s.Caution, "hot water: at most 4 L a carry above 60 °C, lidded; never hot into an empty plastic vessel")
		} else {
			or(&s.How, "Cold water, at most 8 to 10 L a carry.")
			or(&s.Caution, "fill in place: a full vessel is not lifted")
		}
	case recipe.Warm:
		s.Title = "Warm " + where
		or(&s.Caution, "hands and goods out before heat; heater guarded, clear of the walls, on an RCD")
	case recipe.Add:
		s.Title = "Add " + the
		if !powder {
			s.Title = "Add the stock"
		}
		or(&s.How, "Slowly, under the surface, stirring without air.")
		or(&s.Caution, "gloves and glasses on; no splash")
	case recipe.Sprinkle:
		s.Title = "Sprinkle " + the
		or(&s.How, "Dry, in small lots over the surface; stir each under before the next.")
		or(&s.Caution, "outdoors or in a draught; never a heap, never water onto the powder; lid back on the tin at once")
	case recipe.Stir:
		s.Title = "Stir, slowly"
		or(&s.How, "Along the wall to the bottom; half the time one way, then the other; blade under the surface.")
	case recipe.Cover:
		s.Title = "Cover " + where
	case recipe.Wait:
		s.Title = "Wait while it reduces"
		if s.Into == recipe.IntoStock {
			s.Title = "Wait while the stock reduces"
		}
	case recipe.Check:
		s.Title = "Look: is it ready?"
		if s.Into == recipe.IntoStock {
			s.Title = "Look: is the stock ready?"
		}
		if !s.Judges() {
			s.Title = "Read the °C of " + where
		}
	case recipe.Settle:
		s.Title = "Let it settle"
	case recipe.Skim:
		s.Title = "Skim the froth aside"
	case recipe.Rest:
		s.Title = "Let the vat rest"
	}
	if powder {
		s.dangers(h)
	}
}

// dangers puts the powder's own danger to the caution of the step at which its tin is opened, and the number of its card
// to every step that handles it.
func (s *Step) dangers(h Head) {
	p, ok := h.Recipe.Powder(s.Powder)
	c, known := practice.ChemicalOf(p.Substance())
	if !ok || !known || s.Caution == "" {
		return
	}
	add := c.Card()
	if s.Do == recipe.Weigh && !strings.Contains(s.Caution, c.Danger) {
		add = strings.TrimSuffix(c.Danger+"; "+add, "; ")
	}
	if add != "" {
		s.Caution += "; " + add
	}
}

// afterWater joins a recipe's own words to the amounts of cold and hot, without saying the order of both twice.
func afterWater(how string) string {
	for _, said := range []string{"Cold water first, then a little hot", "Cold water first, then hot"} {
		if rest, ok := strings.CutPrefix(how, said); ok && rest != "" {
			return rest
		}
	}
	return ". " + how
}

// overWords is what the hands do when the step's time is over.
func (s Step) overWords() string {
	switch s.Do {
	case recipe.Wait:
		return "Look: is it ready?"
	case recipe.Stir:
		return "Stop stirring"
	case recipe.Simmer:
		return "Take it off the heat"
	}
	return s.Title + ": time is over"
}
