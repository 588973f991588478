package signs

import (
	"slices"
	"strings"

	"example.org/vatside/model/wording"
)

// contradiction is signs that do not go together, and where to look again.
type contradiction struct{ sentence, look string }

// opposed are pairs that one vat does not show at once. C, M
var opposed = []struct{ a, b, why, look string }{
	{"clear", "cloudy", "", "in a clear glass against the light"},
	{"clear", "milky", "", "in a clear glass against the light"},
	{"clear", "grey-white", "", "in a clear glass, above the sediment"},
	{"coppery", "no-film", "", "at the surface after ten quiet minutes"},
	{"dark-froth", "no-froth", "", "at the froth after one gentle stir"},
	{"yellow", "strip-weak", "reduced liquor does not turn a strip blue at once", "pull a second strip from below the film"},
	{"yellow", "cloudy", "good liquor is clear", "in a clear glass, above the sediment"},
	{"blue", "strip-good", "a blue liquor has no strip that stays yellow", "pull a second strip, and draw a glass from below the film"},
	{"blue", "strip-over", "a blue liquor has no strip that stays yellow", "pull a second strip, and draw a glass from below the film"},
	{"blue-green", "strip-good", "a blue-green liquor has no strip that stays yellow", "pull a second strip, and draw a glass from below the film"},
	{"blue-green", "strip-over", "a blue-green liquor has no strip that stays yellow", "pull a second strip, and draw a glass from below the film"},
	{"grass-green", "strip-over", "a part reduced vat is not over-reduced", "pull a second strip, and draw a glass from below the film"},
	{"strip-weak", "paler-after", "a weak vat does not strip", "pull a second strip"},
	{"blue", "paler-after", "a blue vat does not strip", "pull a strip; look at the piece dry"},
	{"milky", "slimy", "too little alkali and too much of it", "read pH"},
	{"milky", phHigh, "white indigo stays dissolved in so much alkali", "read pH again, with the probe rinsed or fresh paper; is " +
		"it stirred sediment?"},
	{"slimy", phLow, "a slimy liquor holds much alkali", "read pH again, with the probe rinsed or fresh paper"},
	{"flat-lime", phLow, "a liquor that smells of lime holds much alkali", "read pH again"},
	{"too-yellow", phHigh, "too yellow means too little lime", "read pH again"},
	{"foul", "flat-lime", "", "smell again under the lid"},
	{"foul", "no-smell", "", "smell again under the lid"},
	{"sweet", "no-smell", "", "smell again under the lid"},
	{"sour", "no-smell", "", "smell again under the lid"},
	{"sour", "flat-lime", "", "smell again under the lid"},
	{"foul", phHigh, "a putrid vat makes acids", "read pH again"},
	{"sour", phHigh, "acids lower pH", "read pH again"},
}

// contradictions are all that do not go together in what was seen.
func contradictions(seen []string) []contradiction {
	var out []contradiction
	has := func(id string) bool { return slices.Contains(seen, id) }
	for _, g := range []struct {
		of           Group
		what, whereA string
	}{
		{GroupColour, "one liquor has one colour", "at the colour in a clear glass from below the film"},
		{GroupStrip, "one strip has one time", "pull a second strip and time it"},
	} {
		said := wording.Some(seen, func(id string) (string, bool) {
			s, ok := Find(id)
			return s.Words, ok && s.Group == g.of
		})
		if len(said) > 1 {
			out = append(out, contradiction{strings.Join(said, " and ") + ": " + g.what, g.whereA})
		}
	}
	for _, p := range opposed {
		if has(p.a) && has(p.b) {
			s := words(p.a) + " does not go with " + words(p.b)
			s += wording.If(p.why != "", ": "+p.why)
			out = append(out, contradiction{s, p.look})
		}
	}
	return out
}

func sentences(list []contradiction) string {
	return strings.Join(wording.Each(list, func(c contradiction) string { return c.sentence }), "; ")
}

func lookWhere(list []contradiction) string {
	return strings.Join(wording.Once(wording.Each(list, func(c contradiction) string { return c.look })), "; ")
}
