package stock

import (
	"slices"
	"strings"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/wording"
)

// The guided test of an old reducer: TestPowder of it with as much soda ash in TestWater of liquor of at most TestIndigo,
// at TestLow to TestHigh, turns yellow-green within TestWait. C/M
const (
	TestPowder = quantity.Mass(1)
	TestWater  = quantity.Volume(1)
	TestIndigo = quantity.Concentration(1) // pure
	TestLow    = quantity.Temperature(45)
	TestHigh   = quantity.Temperature(50)
)

// TestWait is how long the test may take. C/M
var TestWait = quantity.Minutes(10)

// UnfitRule is what is done with a tin that is caked, warm or smells acrid: such a powder heats itself (S21, S22, S23).
const UnfitRule = "neither test nor use it; outdoors with it, away from anything that burns, and ask the hazardous-waste service; " +
	"smoke or heat: leave it and call the fire service"

// FailedRule is what is done with a reducer that does not turn the test. C/M
const FailedRule = "it has no strength left: keep it dry and shut, and hand it in as hazardous waste; never into the bin or the drain"

// WasteRule is how a powder that poisons or burns leaves the shelf. C
const WasteRule = "what is left of it goes dry, shut and labelled to the hazardous-waste point; never down a drain, never into the bin"

// Waste is WasteRule where a tin is gone for a reason that is not a use of it, and holds a reducer, lye or lime; else empty.
func (t Tin) Waste(why string) string {
	switch t.Substance {
	case recipe.Dithionite, recipe.ThioureaDioxide, recipe.Sulfoxylate, recipe.Zinc, recipe.Lye, recipe.SlakedLime, recipe.Quicklime:
	default:
		return ""
	}
	why = strings.ToLower(why)
	fine := []string{"used up", "empty", "hazardous", "handed in"}
	return wording.If(!slices.ContainsFunc(fine, func(fine string) bool { return strings.Contains(why, fine) }), WasteRule)
}

// TestCaution comes before the test, every time.
const TestCaution = "goggles, gloves, dust mask on; outdoors or in a draught; a tin that is caked, warm or smells acrid is neither tested nor used"

// TestStep is one step of the guided test. Caution comes before it, where there is one; Wait is how long the clock runs
// after it, 0 for none.
type TestStep struct {
	Act     string
	How     string
	Caution string
	Wait    quantity.Span
}

// TestSteps are the steps, in the dyer's own units.
func TestSteps(u quantity.System) []TestStep {
	degrees := TestLow.Format(u) + " to " + TestHigh.Format(u)
	return []TestStep{
		{Act: "Look into the tin", How: "Loose, cool, no acrid smell: go on. Caked, warm or acrid: stop here.", Caution: TestCaution},
		{Act: "Warm " + TestWater.Format(u) + " of liquor", How: "With at most " + TestIndigo.Format(u) + " of pure indigo in it, at " + degrees + ". A glass jar, so that you see it."},
		{Act: "Stir in " + TestPowder.Scale(u) + " of soda ash", How: "Till it is clear of grains. The alkali first, always.",
			Caution: "its dust hurts the eyes: glasses on; no acid, no aluminium"},
		{Act: "Sprinkle " + TestPowder.Scale(u) + " of the reducer on it", How: "Dry spoon, dry powder onto the liquor, never water onto the powder; one slow turn, lid on the tin at once.",
			Caution: "goggles, mask, no damp spoon, no acid near", Wait: TestWait},
	}
}
