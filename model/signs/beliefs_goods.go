package signs

import "example.org/vatside/model/quantity"

// onGoods is a treatment of the goods: no powder goes into the vat for it. Not inlined: that was 5 kB of the program.
//
//go:noinline
func onGoods(do, how, recheck, then string) func(task) remedy {
	return always(remedy{act: Goods, do: do, how: how, recheck: recheck, then: then})
}

// throughGate is said wherever goods are soured.
const throughGate = "souring only through the acid gate: two rinses and full airing first, outdoors or in a cross-draught, " +
	"in a bath of its own, never in a vat"

// goodsBeliefs are the causes of faults on goods. S1 (Defective vat dyes), C
func goodsBeliefs() []belief {
	return []belief{
		{
			id: "folds", name: "folds, or air in the cloth", family: inAny, prior: 1,
			speaks: map[string]float64{"streaks": 10, "uneven": 5, "spots": 1},
			why:    "a fold keeps liquor out, and a pocket of air turns it blue in the cloth (C)",
			remedy: onGoods("re-dip in a weak vat, every fold kept open under the surface",
				"wet out without dry pockets, in edge first, squeeze the air out below, turn end for end each dip",
				"the piece dry, against the light", "scour it and begin again with one more weak dip"),
		},
		{
			id: "unscoured", name: "goods not clean", family: inAny, prior: 0.9,
			speaks: map[string]float64{"streaks": 6, "uneven": 6, "crocking": 5, "spots": 2, "washes-out": 1.5},
			why:    "unscoured goods dye unevenly, and the blue rubs off (S1)",
			remedy: onGoods("scour the next piece better; this one: soap it, and re-dip in a weak vat",
				"the drop test before wetting out: a drop sinks in 3 to 5 s", "a drop on a dry scrap of the same goods", ""),
		},
		{
			id: "touching", name: "goods floated, or touched wall or sediment", family: inAny, prior: 0.8,
			speaks: map[string]float64{"uneven": 6, "streaks": 3, "spots": 3, "sediment-rises": 1.5, "sediment-deep": 1.5},
			why:    "goods belong in the middle of the liquor: under the surface, off wall and floor, turned end for end (S1, S30)",
			remedy: onGoods("hang the goods lower or on a net, turn both ends, re-dip in a weak vat",
				"at least 3 cm under the surface, clear of the sediment", "the piece dry", ""),
		},
		{
			id: "froth-on-cloth", name: "froth, film or drips on the cloth", family: inAny, prior: 0.9,
			speaks: map[string]float64{"spots": 9, "streaks": 1.2, "coppery": 1.2, "dark-froth": 1.2},
			why:    "froth and film are indigo that has turned blue: on cloth they leave spots (C)",
			remedy: onGoods("skim before each load, let nothing drip on the piece, rinse it between dips", "froth to a jar, back at night (S1)",
				"the next piece", "strain the liquor: grains or sludge"),
		},
		{
			id: "sludge-on-cloth", name: "sludge on the cloth", family: inLime, prior: 0.9,
			speaks: map[string]float64{"spots": 7, "streaks": 2, "crocking": 3, "cloudy": 1.5, "grey-white": 1.5, "sediment-rises": 1.5},
			why:    "sediment that was stirred up lies on the goods and rubs off (C)",
			remedy: onGoods("let the vat settle, lower a net, rinse the piece every second or third dip", "two to four hours without stirring",
				"a clear glass above the sediment", ""),
		},
		{
			id: "short-dips", name: "the vat too strong, the dips too short or too few", family: inAny, prior: 0.9,
			speaks: map[string]float64{"crocking": 6, "washes-out": 4, "streaks": 3, "pale": 1, "uneven": 1.5},
			why:    "the more dips in weak vats to reach a shade, the faster to washing and rubbing; dips of seconds streak and crock (S1, C)",
			remedy: onGoods("soap it, cotton at the boil, and build the shade again with more dips in a weaker vat",
				"five minutes and more a dip; where that does not help: a wash with fuller's earth, then re-dye (S1)",
				"rub a dry and a wet white cloth 30 times", ""),
		},
		{
			id: "dried-early", name: "dried with loose blue on it, before the rinse", family: inAny, prior: 0.8,
			speaks: map[string]float64{"crocking": 4, "uneven": 1.5, "streaks": 1.5},
			why:    "blue that dries on unrinsed sits on the surface (S1, C)",
			remedy: onGoods("soap it, rinse till the water is clear, and keep the next piece wet until its last rinse", "",
				"rub a dry and a wet white cloth 30 times", ""),
		},
		{
			id: "rinsed-early", name: "rinsed before it had turned blue", family: inAny, prior: 0.8,
			speaks: map[string]float64{"washes-out": 8, "pale": 1.5, "green-cast": 1.5},
			why:    "what is still green washes away with the water (C)",
			remedy: onGoods("air until no fold is green before any rinse; re-dip this piece",
				"cotton 30 to 60 min, silk and wool 20 to 30, thick or bound goods 2 to 24 h", "the rinse water", ""),
		},
		{
			id: "metal-left", name: "iron or lime left in the goods", family: inSugar | inIron, prior: 1,
			speaks: map[string]float64{"grey-cast": 14, "dull": 1.5, "crocking": 2},
			why:    "lime and iron grey the blue and the whites (C)",
			remedy: always(remedy{act: Goods, do: "rinse twice, air fully, then a hot citric soak, and soap after it",
				how:   "cellulose: citric acid 1 to 2 g a litre, hot; wool and silk: no hotter than 40 °C",
				extra: []string{throughGate}, wait: quantity.Minutes(20), recheck: "the whites in daylight", then: "a second soak"}),
		},
		{
			id: "loose-grey", name: "loose dirt or hard water in the goods", family: inSulfur | inFerment, prior: 0.7,
			speaks: map[string]float64{"grey-cast": 10}, why: "grey over the blue is what was not rinsed out (C)",
			remedy: onGoods("soap it, and rinse in soft water", "", "the piece dry, in daylight", "a weak sour, through the acid gate"),
		},
		{
			id: "not-turned", name: "not turned blue all through", family: inAny, prior: 1,
			speaks: map[string]float64{"green-cast": 12, "washes-out": 1.5, "pale": 1},
			why:    "green in the folds is indigo that air has not reached yet (C)",
			remedy: onGoods("air it longer, opened and turned, then rinse", "thick or bound goods 2 to 24 h", "the inner folds",
				"it is yellow matter: soap it"),
		},
		{
			id: "yellow-matter", name: "yellow matter in the cloth", family: inAny, prior: 0.7,
			speaks: map[string]float64{"green-cast": 6, "brown": 1.2},
			why:    "plant matter or sugar stains the cloth yellow under the blue (C)",
			remedy: onGoods("rinse, soap, and air longer", "", "the piece dry, in daylight", ""),
		},
		{
			id: "alkali-left", name: "alkali left in the goods", family: inAny, prior: 1,
			speaks: map[string]float64{"fade-patches": 14, "harsh-wool": 1.5},
			why:    "what is left of the alkali fades blue in patches in store (C)",
			remedy: always(remedy{act: Goods, do: "neutralise: two rinses, then a weak sour for 10 to 20 min, and rinse",
				how:   "vinegar 10 to 20 mL a litre, or citric acid 1 to 2 g",
				extra: []string{throughGate}, wait: quantity.Minutes(20), recheck: "pH 5 to 7 on the wet cloth"}),
		},
		{
			id: "wool-harmed", name: "alkali, heat, lime or iron on wool", family: inAny, prior: 1,
			speaks: map[string]float64{"harsh-wool": 14, phHigh: 1.5, phGoods: 3, hot: 1.5},
			why:    "wool bears pH 9.5 and 50 to 60 °C, and iron and lime harshen it (S1, S9, C)",
			remedy: always(remedy{act: Goods, do: "take the wool out: no more of it in this vat; rinse, sour it weakly, oil it",
				how:   "the next wool in a vat that reads pH 9.5 at most",
				extra: []string{throughGate, "no shock of heat: each bath within 5 °C of the last"}, wait: quantity.Minutes(20),
				recheck: "the feel of the dry wool"}),
		},
		{
			id: "too-weak", name: "an under-reduced vat", family: inAny, prior: 0.7,
			speaks: map[string]float64{"washes-out": 5, "crocking": 4, "pale": 2, "grass-green": 1.5, "blue-green": 1.5, "blue": 1,
				"strip-weak": 1.2, "strip-slack": 1.2, "green-cast": 1},
			why: "never begin in a greenish vat: what it lays on is loose (S1)",
			remedy: always(remedy{act: Look, do: "no more goods until the vat has been looked at: strip, glass, °C, pH",
				recheck: "say what is seen in the vat"}),
		},
	}
}
