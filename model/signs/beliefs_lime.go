package signs

import (
	"example.org/vatside/model/liquor"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/wording"
)

// limeBeliefs are the causes of vats that hold lime or plant matter, and of the ferment.
func limeBeliefs() []belief {
	return []belief{
		{
			id: "stirred", name: "stirred sediment", family: inLime, prior: 1,
			speaks: map[string]float64{"grey-white": 14, "cloudy": 6, "milky": 8, "sediment-rises": 1.5, "spots": 3, "streaks": 1.5,
				"uneven": 1.2, "clear": 0.1},
			why: "a grey-white cloud in a vat of lime or plant matter is its own sediment, stirred up (C)",
			remedy: always(remedy{act: Wait, do: "do nothing: let it settle", how: "lid on, no stirring, goods out", wait: liquor.SettleWait,
				recheck: "a clear glass from above the sediment", then: "up to four hours, or overnight"}),
		},
		{
			id: "browned", name: "over-reduced, or browned by sugar or plant matter; or too much alkali", family: inSugar | inFerment, prior: 0.9,
			speaks: map[string]float64{"brown": 12, "dull": 4, "pale": 2, "strip-over": 8, "paler-after": 6, "clear": 1, phHigh: 1.5},
			why:    "brown or olive liquor may dye or not: the swatch decides, not the colour (C)",
			remedy: always(remedy{act: Wait, do: "rest it; stir once gently and let some air back", how: "lid ajar; no powder",
				wait: quantity.Hours(12), recheck: "a two-minute swatch", then: "if the swatch is pale: indigo as reduced stock"}),
		},
		{
			id: "sludge", name: "old sludge fills the vat", family: inAny, prior: 0.8,
			speaks: map[string]float64{"sediment-deep": 14, "spots": 2, "dull": 1.5, "cloudy": 1.2, "grey-white": 1.2, "streaks": 1.2},
			why:    "above a third of the depth the sediment leaves no room for goods (C)",
			remedy: func(t task) remedy {
				r := remedy{act: Stop, do: "decant: draw the clear liquor off and remove the sludge",
					how:   "let it settle overnight; siphon or bail the clear, do not lift the vessel; the sludge only as the local authority says",
					extra: []string{"goggles and gloves: the sludge is lime"}, wait: quantity.Hours(4),
					recheck: "pH, °C and a strip of what was drawn off"}
				if t.v.Recipe.Family.SulfurReducer() {
					r.do = "let it settle, lid on; decant: draw the clear off low and without splashing, and remove the sludge"
					r.extra = []string{"goggles and gloves; no acid near the sludge: it holds reducer"}
				}
				return r
			},
		},
		{
			id: "lime-short", name: "too little lime, or too much copperas", family: inIron, prior: 0.9,
			speaks: map[string]float64{"too-yellow": 14, "clear": 1.2, phLow: 2, "pale": 1},
			why:    "too yellow needs lime in small quantity (S4; the grams M)",
			remedy: func(t task) remedy {
				return remedy{act: Give, do: "lime", dose: t.alkali(0.3), wait: quantity.Hours(4), recheck: "the liquor greenish yellow",
					then: "the same again within the day's limit"}
			},
		},
		{
			id: "iron-excess", name: "too much copperas", family: inIron, prior: 0.9,
			speaks: map[string]float64{"sediment-rises": 14, "uneven": 5, "too-yellow": 2, "spots": 2, "grey-cast": 2, "cloudy": 1.2},
			why:    "sediment that rises, and goods that come out uneven, mean too much copperas (S5)",
			remedy: func(t task) remedy {
				return remedy{act: Give, do: "lime, and let it settle", dose: t.alkali(0.5), wait: quantity.Hours(4),
					recheck: "the sediment lies still; a swatch comes out even",
					then:    "up to eight hours; then the same again within the day's limit"}
			},
		},
		{
			id: "lime-excess", name: "too much lime", family: inIron, prior: 0.9,
			speaks: map[string]float64{"dull": 14, "pale": 2, "flat-lime": 4, phHigh: 2, "strip-slack": 1.5},
			why:    "dull and weak dyeings mean too much lime (S5, S4)",
			remedy: func(t task) remedy {
				return remedy{act: Give, do: "copperas", dose: t.iron(), wait: quantity.Hours(4), recheck: "a swatch",
					then: "up to eight hours; then the same again within the day's limit"}
			},
		},
		{
			id: "putrid", name: "putrid: the wrong bacteria grow", family: inFerment, prior: 0.9,
			speaks: map[string]float64{"foul": 14, "reddish": 10, phLow: 2, "no-film": 1.2, "sour": 1, hot: 1.5},
			why:    "a foul smell and a reddish liquor are stopped by lime, small and often (S6)",
			remedy: func(t task) remedy {
				return remedy{act: Give, do: "lime, small", dose: t.alkali(0.3), anyHeat: true, how: "let it not get warmer than it is",
					wait: liquor.AlkaliWait(t.v.Recipe.Family), recheck: "smell, and pH 9.5 to 10.5",
					then: "the same again every two hours within the day's limit"}
			},
		},
		{
			id: "hungry", name: "too much alkali, little food, or cold", family: inFerment, prior: 0.9,
			speaks: map[string]float64{"flat-lime": 8, "flat": 8, "no-smell": 5, "no-froth": 4, "no-film": 2, phHigh: 2, cold: 1.5, "strip-slack": 1.2,
				"foul": 0.02},
			why: "no froth and a flat smell, or one of lime: the ferment starves (S6, C)",
			remedy: func(t task) remedy {
				if t.fedLately() {
					return remedy{act: Wait, tends: true, do: liquor.Patience(t.says(t.v.Recipe.Liquor.Aim), t.lastFood()), how: "lid on, wrapped; slow stir to the floor",
						wait: liquor.FoodWait, recheck: "smell, froth, pH and a strip", then: "look again each day; food when the three days are over"}
				}
				if t.has("flat") && t.s.PH == nil { // a flat smell may be made acids as well as hunger
					return remedy{act: Look, do: "read pH first: below " + quantity.PH(t.v.Recipe.Liquor.PHLow).String() + " it needs lime, else bran",
						how: "touch the liquor with the back of a pH paper, or read its wet front beyond the blue", recheck: "pH; then smell and froth"}
				}
				do := wording.If(t.v.SinceFood == nil, "if its last food was three days ago or more: ") + "bran, boiled, and warmth"
				return remedy{act: Give, do: do, dose: t.food(), wait: liquor.FoodWait,
					recheck: "smell, froth, pH and a strip", then: "look again each day; more food on the third"}
			},
		},
		{
			id: "slow-ferment", name: "slow or cold: the bacteria need time", family: inFerment, prior: 1,
			speaks: map[string]float64{"grass-green": 9, "clear": 2, "strip-weak": 9, "strip-slack": 6, "blue": 6, "blue-green": 7,
				"no-film": 2, "no-froth": 2, "washes-out": 2, "crocking": 1.5, "cloudy": 1, cold: 1.5},
			why: "bacteria do the reducing: no chemical reducer, only warmth, a stir a day and patience (M)",
			remedy: func(t task) remedy {
				r := remedy{act: Wait, tends: true, do: liquor.Patience(t.says(t.v.Recipe.Liquor.Aim), t.lastFood()), how: "lid on, wrapped; slow stir to the floor",
					wait: liquor.FoodWait, recheck: "smell, pH and a strip", then: "after three days without change and without food: bran 1 g a litre, simmered"}
				waited := t.s.Stood >= liquor.FoodEvery || t.v.SinceFood != nil && *t.v.SinceFood >= liquor.FoodEvery
				if waited && !t.fedLately() {
					r.act, r.do, r.dose = Give, "three days without food: feed it", t.food()
					r.then = "no more food for three days; keep it at " + t.says(t.v.Recipe.Liquor.Aim) + ", a stir a day"
				}
				return r
			},
		},
	}
}
