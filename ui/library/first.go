package library

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/vessel"
	"example.org/vatside/ui/shelf"
)

// WhatIsHere says what the program does, for one who has never used it.
var WhatIsHere = []string{
	"vatside leads you through building an indigo vat: what to weigh, how warm the water, when to stir, how long to wait.",
	"When the vat is ready it times each dip and airing, and says which piece comes out and which goes in.",
	"It tells how many dips a blue takes, what is wrong with a vat, what keeps it alive, what it cost.",
	"All is written down at once: nothing is lost when the battery runs empty.",
	"Seven recipes, one of them for wool and silk.",
}

// VesselOf reads what a vessel is, as it is typed for a new vat: its litres to the brim, "20 L"; or its measures, "frustum 25cm 30cm
// 37cm"; or what a jug told, "jug 5L=8.4cm 10L=16.1cm 36.8cm". Of one that was not measured no form is known. fill is what it takes with
// room for goods, in round figures.
func VesselOf(text string, sys quantity.System) (form string, fill quantity.Volume, err error) {
	if brim, no := quantity.ParseVolume(quantity.WithUnit(text, sys.VolumeUnit()), sys); no == nil {
		if !(brim.Litres() >= 0.1 && brim.Litres() <= 12_500) {
			return "", 0, fmt.Errorf("a vessel holds 0.1 to 12,500 L, not %s", brim.Format(sys))
		}
		return "", RoundFill(quantity.Litres(brim.Litres()*roomLeft), sys), nil
	}
	shape, err := vessel.ParseShape(text, sys)
	if err != nil {
		if !slices.Contains([]string{"frustum", "cylinder", "box", "jug"}, strings.ToLower(strings.Split(strings.TrimSpace(text)+" ", " ")[0])) {
			err = fmt.Errorf("say how many litres the vessel holds, such as 20 L, or what a jug told: jug 5L=8.4cm 10L=16.1cm 36.8cm; not %q", text)
		}
		return "", 0, err
	}
	return fmt.Sprint(shape), RoundFill(vessel.Vessel{Shape: shape}.MaxFill(vessel.Load{}), sys), nil
}

// roomLeft is the share of a vessel that is filled where only its litres are known: the rest is for goods and the hand's breadth below the
// rim. A common 20 L pail takes 16 L (vessel.MaxFill).
const roomLeft = 0.8

// RoundFill is a fill rounded down to what a jug can measure.
func RoundFill(v quantity.Volume, sys quantity.System) quantity.Volume {
	one, err := quantity.ParseVolume("1 "+sys.VolumeUnit(), sys)
	if err != nil {
		return v
	}
	step := 0.1
	if v.Litres()/one.Litres() > 10 {
		step = 1
	}
	text := strconv.FormatFloat(math.Floor(v.Litres()/one.Litres()/step+1e-9)*step, 'f', 1, 64)
	round, err := quantity.ParseVolume(text+" "+sys.VolumeUnit(), sys)
	if err != nil {
		return v
	}
	return round
}

// WatersOf reads the cold and the hot water that is at hand, "12 60" or "12 C and 60 C"; an empty text is what the settings have.
func WatersOf(text string, s shelf.Settings) (cold, hot quantity.Temperature, err error) {
	sys := s.System()
	_, unit := quantity.Celsius(0).Figure(sys)
	text = strings.NewReplacer(" and ", " ", ",", " ", "°", "", "cold", "", "hot", "").Replace(text)
	words := strings.Fields(strings.NewReplacer(" C", "C", " F", "F").Replace(text))
	switch len(words) {
	case 0:
		return s.Cold, s.Hot, nil
	case 2:
	default:
		c, _ := s.Cold.Figure(sys)
		h, _ := s.Hot.Figure(sys)
		return 0, 0, fmt.Errorf("type the cold and the hot water, such as %s %s", c, h)
	}
	for i, to := range []*quantity.Temperature{&cold, &hot} {
		if *to, err = quantity.ParseTemperature(quantity.WithUnit(words[i], unit), sys); err != nil {
			return 0, 0, err
		}
		if *to < 0 || *to > 100 {
			return 0, 0, fmt.Errorf("water is between %s and %s, not %s", quantity.Celsius(0).Format(sys), quantity.Celsius(100).Format(sys), to.Format(sys))
		}
	}
	if hot <= cold {
		return 0, 0, fmt.Errorf("the hot water must be warmer than the cold, which has %s", cold.Format(sys))
	}
	return cold, hot, nil
}

// slowFrom is the wait from which it is asked how a vat is kept warm.
const slowFrom = quantity.Span(12 * time.Hour)

// Slow tells whether a vat of a recipe is left to itself for so long that it cools.
func Slow(r recipe.Recipe) bool { return r.Liquor.Ready >= slowFrom }

// Keepings are how a slow vat can be kept warm; the usual one is the second.
var Keepings = []struct{ Kept, Word, Says string }{
	{day.KeptByHeater, "a heater with a thermostat", "guarded, behind an RCD; out before hands go in"},
	{day.KeptWrapped, "wrapped", "lid on, never airtight; warmed by hand when it cools"},
	{day.KeptBySun, "the sun", "the night cools it"},
	{day.NotKept, "not at all", "as cold as its air"},
}

// FreeName is a name that no vat has: Vat 1, Vat 2.
func FreeName(names []string) string {
	for n := 1; ; n++ {
		if name := fmt.Sprint("Vat ", n); NameTaken(name, names) == nil {
			return name
		}
	}
}

// NameTaken says that a vat is called so already; nil where none is.
func NameTaken(name string, names []string) error {
	for _, n := range names {
		if strings.EqualFold(strings.TrimSpace(n), name) {
			return fmt.Errorf("a vat is called %s already: take another name", n)
		}
	}
	return nil
}

// FreeTag is the next tag that no piece of a day has: A1, A2.
func FreeTag(s day.State) string {
	for n := 1; ; n++ {
		tag := fmt.Sprint("A", n)
		if _, there := s.Piece(tag); !there {
			return tag
		}
	}
}
