// Package recipe holds what a vat is built from: doses per litre, temperatures, waits and steps of one family,
// its TOML form, the faults in it (of form and of chemistry), and its amounts for one fill.
package recipe

import (
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/wording"
)

// Family is the chemistry of a vat.
type Family string

// The families, by the reducer and the alkali that make them.
const (
	DithioniteSoda      Family = "dithionite-soda"
	DithioniteLye       Family = "dithionite-lye"
	SugarLime           Family = "sugar-lime"
	IronLime            Family = "iron-lime"
	ThioureaDioxideSoda Family = "thiourea-dioxide-soda"
	Ferment             Family = "ferment"
)

// SulfurReducer tells whether the family's reducer frees sulfur dioxide when it meets acid.
func (f Family) SulfurReducer() bool {
	return f == DithioniteSoda || f == DithioniteLye || f == ThioureaDioxideSoda
}

// Role is what a powder does in the vat.
type Role string

// The roles of a powder.
const (
	Indigo  Role = "indigo"
	Reducer Role = "reducer"
	Alkali  Role = "alkali"
	Food    Role = "food"
)

// Form is how the indigo comes: already reduced, or as blue powder. One never stands in for the other.
type Form string

// The forms of indigo.
const (
	PreReduced Form = "pre-reduced"
	PowderForm Form = "powder"
)

// Place is where a powder or a step goes: the vat itself (the zero value), or its stock jar.
type Place string

// The places.
const (
	IntoVat   Place = ""
	IntoStock Place = "stock"
)

// Do is the kind of a step.
type Do string

// The kinds of a step.
const (
	Weigh    Do = "weigh"
	Hydrate  Do = "hydrate"
	Dissolve Do = "dissolve"
	Simmer   Do = "simmer"
	Cool     Do = "cool"
	Fill     Do = "fill"
	Warm     Do = "warm"
	Add      Do = "add"
	Sprinkle Do = "sprinkle"
	Stir     Do = "stir"
	Cover    Do = "cover"
	Wait     Do = "wait"
	Check    Do = "check"
	Settle   Do = "settle"
	Skim     Do = "skim"
	Rest     Do = "rest"
)

// dos are the kinds in the order in which they are named to the dyer.
var dos = []Do{Weigh, Hydrate, Dissolve, Simmer, Cool, Fill, Warm, Add, Sprinkle, Stir, Cover, Wait, Check, Settle, Skim, Rest}

// Families are all, in the order in which they are named to the dyer.
var Families = []Family{DithioniteSoda, DithioniteLye, SugarLime, IronLime, ThioureaDioxideSoda, Ferment}

// Recipe is one way to build and keep a vat. Doses are for the whole liquor, sediment zone included.
type Recipe struct {
	ID      string
	Name    string
	Family  Family
	Fibres  []string
	Source  string
	Liquor  Liquor
	Stock   *Stock // nil where the family has no stock jar
	Powders []Powder
	Steps   []Step
	Text    string // the TOML it was read from, copied whole into the book's head
}

// Liquor is what the vat should be: its temperatures, its pH, its waits.
type Liquor struct {
	Build    quantity.Temperature // what the build aims at
	Low      quantity.Temperature // the working range
	Aim      quantity.Temperature
	High     quantity.Temperature
	PHLow    float64 // the working range of pH
	PHHigh   float64
	PHFresh  float64         // what the doses give when fresh; 0: left out, to be reckoned (liquor.FreshPH)
	PHKept   float64         // what a vat that sours as it works is kept at; 0: it does not, or left out
	Ready    quantity.Span   // the reduction wait
	Recheck  quantity.Span   // and again, as often as it takes
	Sediment quantity.Length // depth kept free of goods
	Evidence string
}

// Stock is the jar in which indigo is reduced before it goes into the vat.
type Stock struct {
	Volume   quantity.Volume      `json:"volume"`    // the least that is worth making up
	PerLitre quantity.Volume      `json:"per_litre"` // stock for each litre of the vat
	Build    quantity.Temperature `json:"build"`     // what the jar is warmed to, and kept at
	Ready    quantity.Span        `json:"ready"`
	Recheck  quantity.Span        `json:"recheck"`
	Evidence string               `json:"evidence,omitempty"`
}

// Powder is one thing that is weighed.
type Powder struct {
	ID       string
	Material string
	Role     Role
	Form     Form           // indigo only
	Strength quantity.Share // active share of the powder that Dose is for; 1 if not given
	Dose     quantity.Concentration
	PerOther quantity.Ratio   // instead of Dose: grams for each gram of Of
	Of       string           // the powder that PerOther is reckoned from
	Hydrate  quantity.Wetting // 0: goes in dry
	Rinse    quantity.Wetting // water to rinse its jar into the vat; half of Hydrate if not given
	Into     Place
	AtOnce   quantity.Concentration // the most in one addition, 0 if the recipe says nothing
	PerDay   quantity.Concentration // the most in a day, 0 if the recipe says nothing
	// AlkaliFirst is the alkali that each gram of a reducer is given after, once the vat stands; 0: none.
	AlkaliFirst quantity.Ratio
	Evidence    string
}

// Step is one thing that the hands do. The tags here and of Stock are the keys of recipes show --json.
type Step struct {
	Do        Do                    `json:"do"`
	Powder    string                `json:"powder,omitempty"` // id of the powder, where the step has one
	Part      quantity.Share        `json:"part,omitzero"`    // part of the powder; 1 if not given
	Into      Place                 `json:"into,omitempty"`
	From      Place                 `json:"-"`                  // IntoStock: an add step that pours stock into the vat
	Water     quantity.Wetting      `json:"-"`                  // water in the jug or pot of a dissolve or simmer step
	For       quantity.Span         `json:"for,omitzero"`       // how long, for stir, simmer, wait, settle, rest
	To        *quantity.Temperature `json:"to,omitempty"`       // what fill, warm and cool aim at
	AtLeast   *quantity.Temperature `json:"at_least,omitempty"` // the least and the most that
	AtMost    *quantity.Temperature `json:"at_most,omitempty"`  // the liquor may read before the step
	Cover     bool                  `json:"cover,omitempty"`
	How       string                `json:"how,omitempty"` // how the hands do it; the step's own words if left out
	Why       string                `json:"why,omitempty"`
	Look      string                `json:"look,omitempty"` // what to look for, at a check
	Caution   string                `json:"caution,omitempty"`
	Meanwhile string                `json:"-"` // what can be begun during a wait
	Evidence  string                `json:"-"`
}

// Powder finds a powder by its id.
func (r Recipe) Powder(id string) (Powder, bool) {
	return wording.First(r.Powders, func(p Powder) bool { return p.ID == id })
}
