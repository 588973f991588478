package signs

import (
	"slices"
	"sync"

	"example.org/vatside/model/liquor"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/wording"
)

// beliefs are all causes: the vat's, then the goods'. The numbers are judgements (M); what is printed is the sign, its
// cause and its cure, with the evidence in why.
var beliefs = sync.OnceValue(func() []belief { return slices.Concat(vatBeliefs(), limeBeliefs(), goodsBeliefs()) })

// beliefOf is a belief by its id; the zero belief where there is none.
func beliefOf(id string) belief {
	b, _ := wording.First(beliefs(), func(b belief) bool { return b.id == id })
	return b
}

// vatBeliefs are the causes that any vat may have, and those of the sulfur reducers.
func vatBeliefs() []belief {
	return []belief{
		{
			id: readyID, name: "the vat is ready", family: inAny, prior: 1,
			speaks: map[string]float64{"yellow": 8, "clear": 3, "coppery": 4, "dark-froth": 4, "strip-good": 6, "brown": 0.8,
				"strip-weak": 0.02, warmRight: 1.3, phRight: 1.3, "pale": 0.1},
			why: "clear yellow-green to amber under a coppery film, with a strip of about 45 s, is a vat to dye in (S1); iron " +
				"vats can look copper-brown and dye well (C)",
			remedy: func(t task) remedy {
				if t.ready() < 2 {
					return remedy{act: Look, recheck: "say what is seen",
						do: "nothing to add; before dyeing look at the rest of it: colour in a clear glass, film, froth, strip, a two-minute swatch"}
				}
				return remedy{act: Dye, do: "nothing to add: dye",
					how: "goods wetted out, in edge first, opened below the surface; judge by cloth that goes from green to " +
						"blue in a minute or more",
					recheck: "a strip each 5 to 8 loads (S1)"}
			},
		},
		{
			id: "spent", name: "the indigo is used up", family: inAny, prior: 0.9,
			speaks: map[string]float64{"straw": 10, "yellow": 1.5, "clear": 2, "pale": 8, "strip-good": 1.5, "strip-over": 1.2, "no-film": 1.5,
				"no-froth": 1.5, "dull": 1.5, phRight: 1.2, warmRight: 1.2},
			why: "well reduced but pale: little blue is left to give (C)",
			remedy: func(t task) remedy {
				return remedy{act: Give, do: "top up with reduced stock", dose: t.indigo(), wait: liquor.StockWait(t.v.Recipe), topUp: true,
					recheck: "a two-minute swatch against the record's first; then a strip",
					then:    "dye it out with pale goods, and end the vat"}
			},
		},
		{
			id: "part-reduced", name: "part reduced: cold, or little reducer", family: inAny &^ inFerment, prior: 1,
			speaks: map[string]float64{"grass-green": 10, "clear": 2, "strip-weak": 3, "strip-slack": 6, "crocking": 1.5, "washes-out": 2,
				"pale": 1.2, "green-cast": 0.5, "no-film": 1.5, "no-froth": 1.5, cold: 1},
			why: "green is yellow and blue together: some of the indigo is not reduced (S1, S7; S4 has 0.48 g/L of copperas)",
			remedy: func(t task) remedy {
				return remedy{act: Give, do: "goods out, then reducer", dose: t.reducer(0.25), wait: liquor.ReducerWait(t.v.Recipe.Family),
					recheck: "pull a strip, then read pH", then: "the same again within the day's limit; then alkali, if pH reads low"}
			},
		},
		{
			id: "air-in", name: "air got in and spent the reducer", family: inSulfur, prior: 1,
			speaks: map[string]float64{"blue-green": 10, "blue": 5, "clear": 2, "strip-weak": 6, "strip-slack": 2, "no-film": 3, "no-froth": 3,
				"washes-out": 2, "crocking": 1.2, "pale": 1.2, "grass-green": 0.8, "yellow": 0.1},
			why: "blue and clear is indigo that air has turned back; work, stirring and an open surface use up the reducer (S1, C)",
			remedy: func(t task) remedy {
				return remedy{act: Give, do: "stop the loads; reducer", dose: t.reducer(0.5), wait: liquor.ReducerWait(t.v.Recipe.Family),
					recheck: "pull a strip, then read pH: spent reducer uses up alkali",
					then:    "the same again within the day's limit; then alkali, if pH reads low"}
			},
		},
		{
			id: "air-in-lime", name: "no reduction: cold, or the food of the reduction is spent", family: inSugar | inIron, prior: 1,
			speaks: map[string]float64{"blue-green": 8, "blue": 9, "clear": 2, "strip-weak": 4, "no-film": 4, "no-froth": 4, "cloudy": 1,
				"washes-out": 2, phRight: 1.2, cold: 1},
			why: "blue without film or froth at a right pH: cold, or without reducer (C)",
			remedy: func(t task) remedy {
				return remedy{act: Give, do: "stop the loads; feed it", dose: t.reducer(0.5), wait: liquor.ReducerWait(t.v.Recipe.Family),
					recheck: "pull a strip, then read pH", then: "let it stand overnight at the recipe's aim before more goes in"}
			},
		},
		{
			id: "under-reduced", name: "under-reduced, and the white indigo not dissolved", family: inSulfur, prior: 1,
			speaks: map[string]float64{"blue": 5, "cloudy": 8, "blue-green": 2, "grass-green": 1.5, "strip-weak": 2, "specks": 1.2,
				"milky": 0.2, "crocking": 1.2},
			why: "blue and turbid: indigo that is not reduced, with white indigo that is not dissolved (S1)",
			remedy: func(t task) remedy {
				r := remedy{act: Give, do: "stop the loads; reducer", dose: t.reducer(0.25), wait: liquor.ReducerWait(t.v.Recipe.Family),
					recheck: "pull a strip; the liquor not slimy to the glove", then: "only then alkali: one small step, with pH read"}
				if t.tried("under-reduced") {
					r.do, r.dose, r.wait = "reducer did not clear it: one small step of alkali", t.alkali(0.4), liquor.AlkaliWait(t.v.Recipe.Family)
					if t.s.PH == nil {
						r.act, r.do = Look, "read pH: alkali comes last, and only on a reading"
					}
				}
				return r
			},
		},
		{
			id: "alkali-short", name: "reduced, but too little alkali to dissolve it", family: inSulfur, prior: 0.9,
			speaks: map[string]float64{"milky": 14, "cloudy": 1.5, phLow: 2, "strip-good": 1, "clear": 0.2},
			why:    "milky greenish-white is white indigo that has come out of solution (S1)",
			remedy: func(t task) remedy {
				if t.has("strip-weak") {
					return remedy{act: Give, do: "the strip is weak: reducer first, alkali last", dose: t.reducer(0.25),
						wait:    liquor.ReducerWait(t.v.Recipe.Family),
						recheck: "pull a strip; is it milky still?", then: "then alkali in one small step"}
				}
				return remedy{act: Give, do: "alkali in a tiny step", dose: t.alkali(0.4), wait: liquor.AlkaliWait(t.v.Recipe.Family),
					recheck: "pH, and a strip that is clear",
					then:    "the same tiny step again, until the strip is clear; stop when pH is in its range"}
			},
		},
		{
			id: "alkali-eaten", name: "the alkali is used up", family: inAny, prior: 0.9, failed: 2,
			speaks: map[string]float64{phLow: 14, "sour": 8, "flat": 6, "sweet": 2, "milky": 1.2, "strip-weak": 1.2, "strip-slack": 1.2, "no-film": 1.2,
				"grass-green": 0.8, "dull": 1},
			why:     "spent reducer takes alkali, 1.2 g of soda ash a gram of dithionite (K); sugar makes acids (C), and iron and air use up lime (K)",
			ferment: "a ferment makes acids (S6)",
			remedy: func(t task) remedy {
				if !t.has(phLow) {
					return remedy{act: Look, do: "read pH before any alkali",
						how: "touch the liquor with the back of a pH paper, or read its wet front beyond the blue", recheck: "pH; then smell and strip"}
				}
				if t.lowPH() { // the dose is that of the right dose, half a step within the reading's error
					return remedy{act: Give, do: "alkali first", dose: t.alkali(0.4), wait: liquor.AlkaliWait(t.v.Recipe.Family),
						recheck: "read pH again, then pull a strip"}
				}
				return remedy{act: Wait, do: "the vat is kept below its range for these goods: no alkali while they are to be dyed", recheck: "pH"}
			},
		},
		{
			id: "old-powder", name: "the powder is old", family: inAny &^ inFerment, prior: 0.15, failed: 4,
			speaks: map[string]float64{"strip-weak": 3, "strip-slack": 2, "grass-green": 4, "blue-green": 4, "blue": 4, "cloudy": 1, "clear": 1.5,
				"no-film": 1.5, "no-froth": 1.5},
			why: "damp or old dithionite may have lost half its strength, lime turns to chalk, copperas goes brown (S5, M)",
			remedy: func(t task) remedy {
				r := remedy{act: Look, do: "test the powder before more of it goes in: " +
					"1 g with 1 g of soda ash in a jar with 1 L of liquor, at most 1 g of pure indigo in it, at 45 to 50 °C",
					how:   "outdoors; a tin that is caked, warm or smells acrid is neither tested nor used: away from all that burns, and ask the hazardous-waste service",
					extra: []string{"goggles, gloves, dust mask; powder into liquor, never water on powder"},
					wait:  quantity.Minutes(10), recheck: "yellow-green within 10 min: it is good; if not, it is hazardous waste (C, M)"}
				if !t.v.Recipe.Family.SulfurReducer() {
					r = remedy{act: Look, do: "look at the powders: lime of an opened, gritty or caked tin may be chalk, and brown copperas is spent",
						recheck: "fresh powder in the next dose, if they are old"}
				}
				return r
			},
		},
		{
			id: "over-reduced", name: "over-reduced: it strips earlier dips", family: inSulfur, prior: 0.9,
			speaks: map[string]float64{"strip-over": 12, "paler-after": 12, "yellow": 1.5, "clear": 1.2, "pale": 1.5, "strip-weak": 0.02, "blue": 0.05},
			why:    "strong reducer dissolves what earlier dips laid on (S1; the three minutes M)",
			remedy: always(remedy{act: Wait, do: liquor.RestOpen,
				how:  "lid off, goods out; no reducer today until the strip says so",
				wait: liquor.OverWait, recheck: "pull a strip: 45 to 60 s is right", then: "more indigo as reduced stock, or another hour open"}),
		},
		{
			id: "unreduced-grains", name: "grains of indigo not reduced, or badly ground", family: inAny, prior: 0.8,
			speaks: map[string]float64{"specks": 14, "spots": 4, "cloudy": 1, "crocking": 1.2},
			why:    "dark specks on the glass are indigo that the reducer has not reached (S1)", ferment: "dark specks on the glass are indigo that is not reduced (S1)",
			remedy: func(t task) remedy {
				if n := t.inJar(); n.Do != "" {
					return remedy{act: Give, do: "reducer for the jar", dose: n, jar: true, wait: quantity.Minutes(15),
						recheck: "a strip from the jar: clear, without dark spots (S1)",
						then:    "the same again each 15 min within the day's limit; the jar at 50 °C, never above 60"}
				}
				return remedy{act: Wait, do: "no powder: keep it at its aim, stir once slowly, let it settle, and skim",
					how:  "strain what floats through a fine cloth; grind it wet and reduce it with the next stock",
					wait: max(quantity.Hours(1), liquor.ReducerWait(t.v.Recipe.Family)), recheck: "a clean glass strip"}
			},
		},
		{
			id: "caustic", name: "too much caustic", family: inSulfur, prior: 0.8,
			speaks: map[string]float64{"slimy": 14, phHigh: 4, "harsh-wool": 1.5, "milky": 0.05, phLow: 0.05},
			why:    "a slimy feel is caustic on the glove (S1; the cure M)",
			remedy: func(t task) remedy {
				off := t.drawOff()
				return remedy{act: Wait, do: "stop adding alkali; draw " + off + " off, and bring in as much warm water and reduced stock low in alkali",
					how:   "never acid in a vat that holds reducer; at most 8 to 10 L a carry; keep what is drawn off as a vat, labelled, under a lid",
					extra: []string{"gloves and face shield: slimy means caustic on the skin too"}, wait: quantity.Minutes(30),
					recheck: "pH; the feel between gloved fingers"}
			},
		},
		{
			id: "short-strip", name: "the strip is a little short: the vat was worked, or is still reducing", family: inAny &^ inFerment, prior: 1,
			speaks: map[string]float64{"strip-slack": 9, "yellow": 3, "clear": 2, "coppery": 3, "dark-froth": 3, warmRight: 1.2, phRight: 1.2},
			why:    "the strip is short of 45 s but not yet weak: rest comes before powder (M)",
			remedy: func(t task) remedy {
				return remedy{act: Wait, do: "lid on and rest it, then pull another strip", how: "skim, lid or sheet on, no goods in", wait: liquor.RestWait(t.v.Recipe),
					recheck: "pull a strip, then read pH", then: "one step of reducer"}
			},
		},
		{
			id: "alkali-high", name: "too much alkali", family: inAny, prior: 0.8,
			speaks: map[string]float64{phHigh: 14, phGoods: 14, "slimy": 1.5, "washes-out": 1.5, "pale": 1.2, "dull": 1.5, "flat-lime": 1.5,
				"harsh-wool": 2},
			why: "high pH dyes paler (S8), and wool and silk bear about 9 (S9), in practice 9.5 and 10 (C)",
			remedy: func(t task) remedy {
				r := remedy{act: Wait, do: "add no alkali; let it come down by itself, or dilute it with warm water",
					how: "lid on; never acid in a vat", wait: quantity.Days(1), recheck: "pH"}
				if t.has(phGoods) {
					r.act, r.do, r.wait = Stop, "no wool or silk in it: take these goods to another vat, let this one come down "+
						"or dilute it", quantity.Hours(1)
				}
				return r
			},
		},
		{
			id: "goods-unfit", name: "goods that this vat is not for", family: inAny, prior: 0.8,
			speaks: map[string]float64{phUnfit: 14, "harsh-wool": 2},
			why:    "the vat has its recipe's pH; wool and silk bear about 9 (S9), in practice 9.5 and 10 (C)",
			remedy: always(remedy{act: Stop, do: "no wool or silk in it: take these goods to another vat"}),
		},
		{
			id: "cold", name: "it is too cold", family: inAny, prior: 0.9,
			speaks: map[string]float64{cold: 14, "grass-green": 1, "strip-weak": 1, "strip-slack": 1.2, "no-film": 1.2, "no-froth": 1.2, "pale": 1},
			why:    "a cold vat reduces slowly, and looks short of reducer (C)", ferment: "a cold vat reduces slowly: its bacteria slow down (C)",
			remedy: func(t task) remedy {
				after := wording.Either(t.v.Recipe.Family == recipe.Ferment, "stir it once a day and wait", "reducer, if the strip is weak")
				return remedy{act: Warm, do: "warm it to the recipe's aim", after: after,
					how: "in place, under the lid; hands and goods out; heater off and unplugged before stirring", wait: liquor.HeatWait,
					recheck: "read " + t.v.System.DegreeUnit() + ", then pull a strip"}
			},
		},
		{
			id: "hot", name: "it is too hot", family: inAny, prior: 0.9,
			speaks: map[string]float64{hot: 14, "dull": 1.2, "pale": 1.2, "harsh-wool": 4, "foul": 1.2},
			why:    "hot liquor dyes paler and duller, and overheating ruins a stock (S1, C)",
			remedy: func(t task) remedy {
				return remedy{act: Cool, do: "let it cool into its range", how: "heater off and unplugged, lid on", wait: liquor.HeatWait,
					recheck: "read " + t.v.System.DegreeUnit()}
			},
		},
		{ // it stands alone where it is smelt, and nowhere else: here are its name and its sign
			id: chokingID, name: "acid has met sulfur reducer", family: inAny, speaks: map[string]float64{Choking: 1e6},
		},
	}
}
