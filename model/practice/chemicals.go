package practice

import (
	"slices"
	"strings"

	"example.org/vatside/model/recipe"
	"example.org/vatside/model/wording"
)

// Chemical is what the safety cards say of one substance, in headline. ICSC and Hazards are the numbers of the card and of
// the hazard statements (GHS); what is marked M in Evidence is to be confirmed on the supplier's sheet.
type Chemical struct {
	Name      string
	CAS       string
	ICSC      string   // "" where no card was found
	Hazards   []string // H statements
	Signal    string   // Danger, Warning or ""
	Danger    string
	NeverWith []string
	Wear      string
	FirstAid  string
	Store     string
	Spill     string
	Evidence  string
	substance recipe.Substance
	cardM     bool // the card's number is from memory
}

// Card is the number of the International Chemical Safety Card as it is printed, "ICSC 1717"; "" where no card was found.
func (c Chemical) Card() string {
	switch {
	case c.ICSC == "":
		return ""
	case c.cardM:
		return "ICSC " + c.ICSC + " (from memory)"
	}
	return "ICSC " + c.ICSC
}

// Cautions are the danger, what it must never meet, and what to wear, short enough to be read over gloved hands.
func (c Chemical) Cautions() []string {
	return wording.Filled(c.Wear, c.Danger, c.Never())
}

// Never is what it must never meet: "never with acid, aluminium"; empty where nothing is known.
func (c Chemical) Never() string {
	return wording.If(len(c.NeverWith) > 0, "never with "+strings.Join(c.NeverWith, ", "))
}

var chemicals = []Chemical{
	{Name: "sodium dithionite", CAS: "7775-14-6", ICSC: "1717", Hazards: []string{"H251", "H252", "H302", "H402"}, Signal: "Danger",
		Danger:    "the damp powder heats itself and may catch fire; a caked plug erupts; acid frees a choking gas",
		NeverWith: []string{"water on the powder", "acid", "peroxide", "bleach", "sawdust", "a damp spoon"},
		Wear:      "goggles, gloves, dust mask, apron",
		FirstAid:  "eyes: 15 min of water, then a doctor; breathed in: fresh air; swallowed: do not cause vomiting",
		Store:     "dry, in a tight tin, cool, away from acid, oxidisers and drains; date of opening on it",
		Spill:     "scoop it dry into a dry covered pail outdoors; no sawdust, no wet cloth", Evidence: "S21, S22, S23; H numbers partly M",
		substance: recipe.Dithionite},
	{Name: "soda ash", CAS: "497-19-8", ICSC: "1135", Hazards: []string{"H319"}, Signal: "Warning",
		Danger: "it hurts the eyes, froths with acid and warms when wetted", NeverWith: []string{"acid", "aluminium"}, Wear: "glasses, gloves",
		FirstAid: "rinse", Store: "dry, closed", Spill: "sweep up, rinse", Evidence: "S21", substance: recipe.SodaAsh},
	{Name: "baking soda", CAS: "144-55-8", ICSC: "1044", Danger: "it reddens eyes, dusts and froths with acid; from 50 °C it breaks down to soda ash",
		NeverWith: []string{"acid"}, Wear: "glasses", FirstAid: "eyes: rinse, then a doctor", Store: "dry, closed, away from acid; labelled, it looks like soda ash",
		Spill: "sweep up, rinse", Evidence: "S21 (card of 2004); not classified by supplier sheets", substance: recipe.BakingSoda},
	{Name: "calcium hydroxide", CAS: "1305-62-0", ICSC: "0408", Hazards: []string{"H315", "H318", "H335"}, Signal: "Danger",
		Danger: "lime burns eyes deeply, cracks skin, and dusts", NeverWith: []string{"acid", "aluminium"},
		Wear:     "tight goggles, gloves, sleeves, dust mask",
		FirstAid: "eyes: a long rinse and a doctor at once", Store: "dry; it turns to chalk in air", Spill: "sweep up",
		Evidence: "S21, supplier sheets", substance: recipe.SlakedLime},
	{Name: "quicklime", CAS: "1305-78-8", ICSC: "0409", Hazards: []string{"H315", "H318", "H335"}, Signal: "Danger",
		Danger: "it boils up when slaked: do not use it", NeverWith: []string{"water"}, cardM: true, Evidence: "M", substance: recipe.Quicklime},
	{Name: "sodium hydroxide (lye)", CAS: "1310-73-2", ICSC: "0360", Hazards: []string{"H290", "H314"}, Signal: "Danger",
		Danger:    "lye burns skin and eyes at once, heats water, and frees hydrogen from aluminium and zinc",
		NeverWith: []string{"acid", "aluminium", "zinc", "tin", "hot water"}, Wear: "face shield, long gloves, apron",
		FirstAid: "rinse for 15 to 20 min and a doctor; swallowed: do not cause vomiting", Store: "dry, locked, unbreakable", Spill: "sweep up, then flood",
		Evidence: "S21", substance: recipe.Lye},
	{Name: "iron(II) sulfate heptahydrate", CAS: "7782-63-0", Hazards: []string{"H302", "H315", "H319"}, Signal: "Warning",
		Danger: "it poisons small children, and stains", NeverWith: []string{"alkali in the tin", "oxidisers"}, Wear: "glasses, gloves",
		FirstAid: "rinse; swallowed: the poison line at once", Store: "dry, closed; brown means oxidised", Spill: "sweep up dry",
		Evidence: "supplier sheets", substance: recipe.IronSulfate},
	{Name: "thiourea dioxide", CAS: "1758-73-2", Hazards: []string{"H252", "H302", "H318", "H335"}, Signal: "Danger",
		Danger:    "it heats itself; acid and heat free sulfur gases; the spent bath may hold thiourea (ICSC 0680), suspected of harming the unborn and of cancer: gloves at any age of the vat",
		NeverWith: []string{"acid", "oxidisers", "heat", "damp"}, Wear: "goggles, gloves, dust mask",
		FirstAid: "as for dithionite: eyes 15 min of water, then a doctor; breathed in: fresh air",
		Store:    "dry, cool, about two years; yellow means aged", Spill: "sweep up dry",
		Evidence: "M, to be confirmed on the supplier's sheet; S21", substance: recipe.ThioureaDioxide},
	{Name: "indigo powder", CAS: "482-89-3", Danger: "it dusts and stains; pre-reduced grains are alkaline", Wear: "dust mask, glasses, gloves",
		FirstAid: "rinse", Store: "closed", Spill: "wipe up wet", Evidence: "supplier sheets", substance: recipe.IndigoDye},
	{Name: "vinegar 5 %", CAS: "64-19-7", ICSC: "0363", Danger: "it frees sulfur dioxide from what is left of a sulfur reducer",
		NeverWith: []string{"dithionite", "thiourea dioxide"}, Wear: "glasses", FirstAid: "rinse", Store: "away from dithionite",
		Spill: "wipe up", cardM: true, Evidence: "M"},
	{Name: "citric acid", CAS: "77-92-9", ICSC: "0855", Hazards: []string{"H319", "H335"}, Signal: "Warning",
		Danger:    "it frees sulfur dioxide from what is left of a sulfur reducer, and hurts the eyes",
		NeverWith: []string{"dithionite", "thiourea dioxide", "soda"}, Wear: "glasses", FirstAid: "rinse", Store: "away from reducer",
		Spill: "sweep up", cardM: true, Evidence: "ECHA, supplier sheets; card number M"},
	{Name: "sulfur dioxide", CAS: "7446-09-5", ICSC: "0074", Signal: "Danger", Danger: "toxic when breathed in; it chokes, and brings on asthma",
		Wear: "none helps here: leave the room", FirstAid: "fresh air, and a doctor", Evidence: "S21, S26"},
	{Name: "hydrogen peroxide 3 %", CAS: "7722-84-1", ICSC: "0164", Danger: "violent with what is left of dithionite",
		NeverWith: []string{"dithionite"}, Wear: "glasses", FirstAid: "rinse", Store: "apart", Spill: "flood", cardM: true, Evidence: "S23, M"},
}

// Chemicals is what is known of each substance, reducers first. The list is the caller's; its slices are shared.
func Chemicals() []Chemical { return slices.Clone(chemicals) }

// ChemicalNamed is what is known of a substance by its name in this list, such as "citric acid".
func ChemicalNamed(name string) (Chemical, bool) {
	return wording.First(chemicals, func(c Chemical) bool { return c.Name == name })
}

// ChemicalOf is what is known of a powder's substance; not of one that is not listed.
func ChemicalOf(s recipe.Substance) (Chemical, bool) {
	if s == recipe.Potash || s == recipe.SodaCrystals { // the same carbonate in their dangers. M
		s = recipe.SodaAsh
	}
	return wording.First(chemicals, func(c Chemical) bool { return s != recipe.Other && c.substance == s })
}
