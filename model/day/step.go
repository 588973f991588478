package day

import (
	"cmp"
	"fmt"
	"math"
	"strings"
	"time"

	"example.org/vatside/model/practice"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/wording"
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

func (s *Step) words(h Head) {
	sys := h.Setup.System()
	where := wording.Either(s.Into == recipe.IntoStock, "the stock jar", "the vat")
	the := "the " + s.Material
	powder := s.Powder != ""
	say := func(title, how, caution string) {
		s.Title, s.How, s.Caution = title, cmp.Or(s.How, how), cmp.Or(s.Caution, caution)
	}
	switch s.Do {
	case recipe.Weigh:
		say("Weigh "+the, "Into a dry jar, tared.", "mask and glasses on, no draught: the dust hurts")
	case recipe.Hydrate:
		say("Wet "+the, "Hand-warm water onto the grains, a little at a time; stir till no lump is felt.", "gloves and glasses on")
	case recipe.Dissolve:
		say("Dissolve "+the, "Powder into the water, slowly, stirring; never water onto powder.",
			"gloves and glasses on; powder into water, never the other way")
	case recipe.Simmer:
		say("Simmer "+the, "", "scald: lid on, handles in, nobody in the way")
	case recipe.Cool:
		s.Title = "Let it cool"
	case recipe.Fill:
		if s.Hot > 0 {
			say("Fill "+where, "Poured low; stir, read the "+sys.DegreeUnit()+".", "hot water: at most 4 L a carry from 50 °C on, lidded; never hot into an empty plastic vessel")
			s.How = fmt.Sprintf("First %s cold, then %s hot%s", s.Cold.Format(sys), s.Hot.Format(sys), afterWater(s.How))
		} else {
			say("Fill "+where, "Cold water, at most 8 to 10 L a carry.", "fill in place: a full vessel is not lifted")
		}
	case recipe.Warm:
		say("Warm "+where, "", "hands and goods out before heat; heater guarded, clear of the walls, behind an RCD")
	case recipe.Add:
		say(wording.Either(powder, "Add "+the, "Add the stock"), "Slowly, under the surface, stirring without air.", "gloves and glasses on; no splash")
	case recipe.Sprinkle:
		say("Sprinkle "+the, "Dry, in small lots over the surface; stir each under before the next.",
			"outdoors or in a draught; never a heap, never water onto the powder; lid back on the tin at once")
	case recipe.Stir:
		say("Stir, slowly", "Along the wall to the bottom; half the time one way, then the other; blade under the surface.", "")
	case recipe.Cover:
		s.Title = "Cover " + where
		if h.Recipe.Family == recipe.Ferment {
			s.How = strings.TrimSpace(s.How + " Never airtight: gas must get out.")
		}
	case recipe.Wait:
		s.Title = "Wait while " + wording.Either(s.Into == recipe.IntoStock, "the stock", "it") + " reduces"
	case recipe.Check:
		s.Title = "Look: is " + wording.Either(s.Into == recipe.IntoStock, "the stock", "it") + " ready?"
		if !s.Judges() {
			s.Title = "Read the " + sys.DegreeUnit() + " of " + where
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
	s.Caution += wording.If(add != "", "; "+add)
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
	own := map[recipe.Do]string{recipe.Wait: "Look: is it ready?", recipe.Stir: "Stop stirring", recipe.Simmer: "Take it off the heat"}[s.Do]
	return cmp.Or(own, s.Title+": time is over")
}

// HandsMost is the hottest liquor that bare-gloved hands go into (scald table, S27, and practice: 45 °C).
const HandsMost = quantity.Temperature(45)

// ChildrenMost is the warmest liquor that children dip into (scald table, S27, and practice: 40 °C).
const ChildrenMost = quantity.Temperature(40)

// Cautions that belong to no powder.
const (
	heaterCaution = "hands and goods out before heat; heater guarded, clear of the walls, behind an RCD; off and unplugged before hands go in"
	hotWater      = "hot water: hands and goods out; at most 4 L a carry from 50 °C on, lidded, poured low; read the °C before hands go in"
	stockCaution  = "gloves and glasses on; under the surface, no splash"
)

// What the hands take for a step that has no time of its own. From memory, one pair of hands; the dyer's own mornings
// will differ.
var handsTake = map[recipe.Do]quantity.Span{
	recipe.Weigh:    quantity.Minutes(3),
	recipe.Hydrate:  quantity.Minutes(10),
	recipe.Dissolve: quantity.Minutes(5),
	recipe.Simmer:   quantity.Minutes(20),
	recipe.Cool:     quantity.Minutes(20),
	recipe.Warm:     quantity.Minutes(20),
	recipe.Add:      quantity.Minutes(3),
	recipe.Sprinkle: quantity.Minutes(5),
	recipe.Stir:     quantity.Minutes(3),
	recipe.Cover:    quantity.Minutes(1),
	recipe.Check:    quantity.Minutes(5),
	recipe.Skim:     quantity.Minutes(2),
}

// aCarry is the time to fetch and pour one jug, 8 L of cold water or 4 of hot. From memory.
const aCarry = quantity.Span(40 * time.Second)

// Takes is how long the step takes: its own time, else what the hands take, filling by the carry.
func (s Step) Takes() quantity.Span {
	switch {
	case s.Do == recipe.Fill && s.Into == recipe.IntoVat:
		cold, hot := s.Cold, s.Hot
		if cold+hot == 0 {
			cold = s.Water
		}
		jugs := math.Ceil(cold.Litres()/8) + math.Ceil(hot.Litres()/4)
		return max(quantity.Minutes(3), quantity.Span(jugs*float64(aCarry)))
	case s.Do == recipe.Fill:
		return quantity.Minutes(3)
	case s.For > 0:
		return s.For
	}
	return handsTake[s.Do]
}
