package practice

import (
	"slices"

	"example.org/vatside/model/fibre"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/sorted"
	"example.org/vatside/model/vessel"
	"example.org/vatside/model/wording"
)

// Moment is when an item of the checklist is looked at.
type Moment int

// The moments, in the order in which they come.
const (
	EveningBefore Moment = iota
	AtTheStart
	BeforePowders
)

// String is "the evening before", "at the start" or "before powders".
func (m Moment) String() string {
	return wording.Named(m, "the evening before", "at the start", "before powders")
}

// Item is one line of the checklist. ID is stable. Evidence is as in the package comment.
type Item struct {
	ID       string
	What     string // what the hands make sure of, in the imperative
	Why      string
	When     Moment
	Safety   bool
	Evidence string
}

// Circumstances are what decides which items there are. Whatever is left out is taken as not known, and then the item stays.
type Circumstances struct {
	Recipe      recipe.Recipe   // without a family: no vat is chosen yet
	Fill        quantity.Volume // of the vat; 0: not known
	Built       bool            // the vat lives: no powders are weighed for its build
	Material    vessel.Material
	Place       string         // outdoors, cross-draught, closed room
	Heater      quantity.Power // that hangs in the vat; 0: none
	Class       bool           // a class is at the vat
	Children    bool           // children are about, or in the class
	Fibres      []fibre.Fibre  // of the goods
	Pieces      int            // how many there are
	Hard        Known          // the water
	Chlorinated Known
	Emergency   string // the dyer's own emergency number
	System      quantity.System
}

// classMost is the hottest liquor with a class or children at it (C; S27: 49 °C scalds in minutes).
const classMost = quantity.Temperature(40)

// Checklist is what to make sure of before a day, only what applies: what guards eyes, skin, lungs and others first, then
// what guards the work; each part in the order of its moments. IDs are unique.
func Checklist(c Circumstances) []Item {
	l := list{c: c}
	l.bodies()
	l.things()
	l.work()
	sorted.By(l.items, func(a, b Item) int {
		if a.Safety != b.Safety {
			if a.Safety {
				return -1
			}
			return 1
		}
		return int(a.When - b.When)
	})
	return l.items
}

type list struct {
	c     Circumstances
	items []Item
}

// safety is not inlined: that was 12 kB of the program.
//
//go:noinline
func (l *list) safety(id string, when Moment, what, why, evidence string) {
	l.items = append(l.items, Item{id, what, why, when, true, evidence})
}

// other is not inlined: that was 6 kB of the program.
//
//go:noinline
func (l *list) other(id string, when Moment, what, why, evidence string) {
	l.items = append(l.items, Item{id, what, why, when, false, evidence})
}

// chosen tells whether a vat is chosen; powders whether any are handled, as far as is known.
func (c Circumstances) chosen() bool  { return c.Recipe.Family != "" }
func (c Circumstances) powders() bool { return !c.Built }

// sulfur tells whether the vat has a reducer that frees sulfur dioxide, or may have.
func (c Circumstances) sulfur() bool { return !c.chosen() || c.Recipe.Family.SulfurReducer() }

func (c Circumstances) of(s recipe.Substance) bool {
	return slices.ContainsFunc(c.Recipe.Powders, func(p recipe.Powder) bool { return p.Substance() == s })
}

// hot tells whether water is carried that scalds.
func (c Circumstances) hot() bool { return c.powders() && (!c.chosen() || c.Recipe.Liquor.Build > 25) }

// bodies are the items for eyes, skin and lungs.
func (l *list) bodies() {
	c := l.c
	which := wording.If(c.Emergency != "", ", "+c.Emergency+",")
	number := "the emergency number" + which + " and the poison line's stand on paper beside the vat"
	l.safety("eye-rinse", AtTheStart, "clean water to rinse eyes is at hand: a running tap or hose, for 15 to 20 min",
		"alkali in the eye is a matter of seconds", "S21, S22")
	l.safety("number", EveningBefore, number, "nobody looks a number up with lime in the eye", "C")
	l.air()
	l.safety("gloves", AtTheStart, "long whole gloves, an apron, closed shoes", "alkali takes the fat out of skin; hot water runs into an open shoe", "S21, C")
	switch {
	case c.of(recipe.Lye) && c.powders():
		l.safety("glasses", AtTheStart, "a face shield for the lye, glasses for all that comes after", "lye burns skin and eyes at once", "S21")
	case c.of(recipe.SlakedLime):
		l.safety("glasses", AtTheStart, "tight goggles", "lime burns eyes deeply", "S21")
	default:
		l.safety("glasses", AtTheStart, "glasses on whoever stands at the vat", "the liquor is alkaline, and splashes", "S21")
	}
	if c.powders() {
		l.safety("mask", BeforePowders, "a dust mask, before any tin is opened", "the powders' dust hurts the lungs", "S21, C: P2")
	}
	if c.sulfur() {
		l.safety("acid", EveningBefore, "vinegar and citric acid are put away from vat and reducer; no vessel or spoon held peroxide or bleach",
			"acid frees sulfur dioxide from the reducer; peroxide and bleach meet it violently", "S20, S23")
		if c.powders() {
			l.safety("fire", BeforePowders, "the reducer's tin on a dry shelf, its lid and a dry scoop beside it; the hose or dry sand within reach",
				"damp powder heats itself and may catch fire; only a flood of water or dry sand puts it out", "S21, S22")
		}
	}
	if c.powders() {
		l.safety("tins", EveningBefore, tinsWhat(c), "what is damp or old has lost its strength, and may heat itself", "C, M; S22")
	}
	l.safety("food", AtTheStart, "no food, drink or cooking pot near the vat; its pots never cook again", "every powder's card says so", "S21, S28")
	if c.hot() {
		l.safety("scald", AtTheStart, "a jug with a lid for hot water, "+quantity.Litres(4).Format(c.System)+" a carry at most, and a free path",
			quantity.Celsius(60).Format(c.System)+" scalds in under 5 s", "S27; the carry M")
	}
}

func tinsWhat(c Circumstances) string {
	if c.sulfur() {
		return "the reducer's tin is dry, closed and dated; caked, warm or with a smell: neither tested nor used, but put outdoors for the hazardous-waste point"
	}
	return "the tins are dry, closed, named and dated"
}

// air is what the place asks for.
func (l *list) air() {
	c := l.c
	const evidence = "S26; the places C"
	why := "dust, and steam with alkali in it"
	if c.sulfur() {
		why = "the reducer gives off sulfur dioxide where acid meets it; anyone with asthma stays away from it"
	}
	switch c.Place {
	case outdoors:
		l.safety("air", AtTheStart, "stand upwind of vat and powders", why, evidence)
	case crossDraught:
		l.safety("air", AtTheStart, "two openings across the room are open, and stay so", why, evidence)
	case closedRoom:
		if c.sulfur() {
			l.safety("air", AtTheStart, "no sulfur reducer in a closed room: open a cross-draught or go outdoors, or take "+WithoutSulfur(c.Recipe, c.Fibres...), why, evidence)
			return
		}
		l.safety("air", AtTheStart, "a draught while powders are open", why, evidence)
	default:
		l.safety("air", AtTheStart, "outdoors, or with air going through; no cellar, van or tent with its sides down", why, evidence)
	}
	if c.Place != outdoors && c.powders() {
		l.other("still", BeforePowders, "no wind over the scale while powders are weighed", "it carries the dust, and moves the scale", "C")
	}
}

// things are the items for the vessel, what is electric, and for others.
func (l *list) things() {
	c := l.c
	l.vessel()
	if c.Heater > 0 {
		l.safety("heater", AtTheStart, c.Material.HeaterCaution()+"; strapped, thermostat set, its plug high and dry; off and unplugged before hands go in",
			"a heater that falls over burns, melts or shocks", "S25, C")
		l.safety("rcd", AtTheStart, "the heater is behind an RCD of 30 mA, and its test button trips it", "wet hands and mains; one that is never tested may not trip", "S25")
	}
	l.safety("laptop", AtTheStart, "the laptop runs on its battery, or behind an RCD of 30 mA; out of splash", "wet gloves and a mains lead", "S25, C")
	switch {
	case c.Children:
		l.safety("fence", EveningBefore, "vat and powders fenced off from children and animals, or under a lid that locks",
			"a deep narrow bin drowns a small child; the powders poison and burn", "C")
		l.safety("children", AtTheStart, "children touch no powder, lye, reducer or hot water; an adult has mixed beforehand; the vat at most "+classMost.Format(c.System),
			"their skin scalds sooner", "S27, C")
	default:
		l.safety("fence", EveningBefore, "vat and powders closed to children, animals and passers-by; a lid on whatever stands alone",
			"a deep narrow bin drowns a small child", "C")
	}
	if c.chosen() && c.Recipe.Family == recipe.ThioureaDioxideSoda {
		l.safety("unborn", EveningBefore, "anyone pregnant keeps away from powders and liquor, an old or spent vat too",
			"the spent bath may hold thiourea, suspected of harming the unborn", "S21: ICSC 0680; the advice M")
	} else if c.powders() {
		l.safety("unborn", EveningBefore, "anyone pregnant weighs no powders, lifts nothing, and asks a doctor before dyeing",
			"dust, caustics and loads; nobody has tested these vats for it", "M")
	}
	if c.Class {
		l.safety("class", EveningBefore, "gloves and glasses that fit for each, a step stool, the vat at most "+classMost.Format(c.System)+"; powders done before they come",
			"a beginner watches the cloth, not the hands", "S27, S28, C")
	}
}

// vessel are the items about what the vat stands in.
func (l *list) vessel() {
	c := l.c
	if c.Built {
		return
	}
	what, why, evidence := "the vessel is stainless, enamel, PE, PP or wood; no aluminium, zinc or oak",
		"alkali dissolves aluminium and zinc and frees hydrogen; oak darkens the blue", "S1, S21"
	if no := c.Material.Refusal(true); no != "" {
		what, why = "another vessel: "+no, "it cannot hold this vat"
	} else if no := c.Material.TooHot(c.Recipe.Liquor.Build, c.System); no != "" && c.chosen() {
		what, why, evidence = "another vessel, or a cooler build: "+no, "soft plastic bulges and lets go", "C"
	} else if top, plastic := c.Material.Top(); plastic {
		what, why, evidence = "cold water goes first into the "+c.Material.String()+", which bears "+top.Format(c.System), "soft plastic bulges and lets go", "C"
	} else if c.Material != vessel.Unstated {
		what = "" // it fits
	}
	if what != "" {
		l.safety("vessel", EveningBefore, what, why, evidence)
	}
	weight := "1 L weighs 1 kg"
	if c.Fill > 0 {
		weight = c.Fill.Format(c.System) + " weigh " + quantity.Kilograms(c.Fill.Litres()).Format(c.System)
	}
	l.safety("stand", EveningBefore, "the empty vessel stands level where it will stay; a filled one is not lifted", weight, "K; S24")
}
