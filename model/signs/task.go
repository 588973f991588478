package signs

import (
	"slices"

	"example.org/vatside/model/liquor"
	"example.org/vatside/model/quantity"
)

// Choking is the sign that silences all others, and all readings; chokingID is its cause.
const (
	Choking   = "choking"
	chokingID = "acid-met-reducer"
)

// task is one question: what was seen at which vat, and what the right dose says before any sign is heard.
type task struct {
	s    Seen
	v    Vat
	seen []string
	look []string      // the signs of the recipe's own ready look
	gate liquor.Advice // what the state of the liquor asks for, before any sign is heard
}

func (t task) has(ids ...string) bool {
	return slices.ContainsFunc(ids, func(id string) bool { return slices.Contains(t.seen, id) })
}

func (t task) says(x quantity.Temperature) string { return x.Format(t.v.System) }

// tried tells whether a cause was treated already without help.
func (t task) tried(id string) bool {
	return slices.ContainsFunc(t.s.Tried, func(x Tried) bool { return x.Cause == id && (x.Answer == Same || x.Answer == Worse) })
}

// remedy is what a cause asks for, before the rules of the dose have been heard.
type remedy struct {
	act     Act
	do      string        // without the doses; they are added
	dose    liquor.Advice // with Give; empty where the recipe has no powder for it
	jar     bool          // the dose goes into the stock jar
	topUp   bool          // indigo, in lots a day apart
	after   string        // when it is warm and looks the same, instead of do
	anyHeat bool          // not to be put off for warmth: a putrid vat
	tends   bool          // patience with a vat that is kept as it should be: what the readings ask for comes first
	how     string        // before the powders' own
	extra   []string
	wait    quantity.Span
	recheck string
	then    string
}

// always is a remedy that is the same for every vat.
func always(r remedy) func(task) remedy { return func(task) remedy { return r } }

// lowPH tells whether alkali is what the state of the liquor asks for.
func (t task) lowPH() bool { return t.gate.Cause == "alkali-eaten" }
