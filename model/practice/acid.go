package practice

import (
	"strings"

	"example.org/vatside/model/wording"
)

// Known is yes, no, or not known; the zero Known is not known.
type Known int

// The three.
const (
	NotKnown Known = iota
	Yes
	No
)

// Bath is where acid is to go. The zero Bath has not been said.
type Bath int

// Only OwnBath may hold acid: fresh water in a vessel of its own. The others never.
const (
	OwnBath Bath = iota + 1
	TheVat
	StockJar
	Skimmings
	SkimmingsBucket
)

// The places of a day; acid may be used in the first two alone.
const (
	outdoors     = "outdoors"
	crossDraught = "cross-draught"
	closedRoom   = "closed room"
)

// leastRinses is how many rinses come before acid. C, S20
const leastRinses = 2

// Acid is what must be known before goods are soured.
type Acid struct {
	Sulfur Known  // whether the vat's book shows a sulfur reducer at any time
	Rinses int    // of the goods, in plain water
	Aired  bool   // fully: no green in any fold
	Place  string // "outdoors", "cross-draught"; anything else is refused
	Into   Bath
}

// Gate tells whether acid may be used on goods, and why not, or what to keep to. There is no override: acid frees sulfur
// dioxide from what is left of dithionite or thiourea dioxide, 0.55 g a gram at worst (S20, K), and a gram of dithionite
// in a closed 30 m³ room makes 7 ppm (K; the short-term limit is 5, S26).
//
// Acid never goes into a vat, stock jar, skimmings or their bucket. Where the book shows a sulfur reducer at any time, or
// does not know, the goods are aired fully and rinsed twice first. It is always done outdoors or in a cross-draught.
func (a Acid) Gate() (ok bool, why string) { return a.gate(true) }

// GateUnread is Gate where nobody read the vat's book: Sulfur is by its recipe or its family.
func (a Acid) GateUnread() (ok bool, why string) { return a.gate(false) }

func (a Acid) gate(book bool) (ok bool, why string) {
	switch a.Into {
	case OwnBath:
	case TheVat, StockJar, Skimmings, SkimmingsBucket:
		return false, "never acid into a vat, a stock jar, skimmings or their bucket: what they hold frees a choking gas, or the " +
			"acid is wasted on lime; a bath of its own, of fresh water"
	default:
		return false, "say where the acid goes: only a bath of its own, of fresh water, will do"
	}
	rinse := wording.Either(a.Rinses == leastRinses-1, "rinse once more in plain water", "rinse twice in plain water")
	first := wording.Filled(
		wording.If(a.Sulfur != No && !a.Aired, "air the goods until no fold is green"),
		wording.If(a.Sulfur != No && a.Rinses < leastRinses, rinse),
		wording.If(a.Place != outdoors && a.Place != crossDraught, "go outdoors or into a cross-draught"))
	if len(first) > 0 {
		why = "no acid yet: " + strings.Join(first, ", ")
		switch {
		case a.Sulfur == Yes && !book:
			why += "; its recipe has a sulfur reducer, and acid frees sulfur dioxide from what is left of it (S20)"
		case a.Sulfur == Yes:
			why += "; the vat's book shows a sulfur reducer, and acid frees sulfur dioxide from what is left of it (S20)"
		case a.Sulfur == NotKnown && !book:
			why += "; only the vat's book can say that it never held a sulfur reducer, so it is taken that it did (S20)"
		case a.Sulfur == NotKnown:
			why += "; the vat's book does not say whether it ever held a sulfur reducer, so it is taken that it did (S20)"
		default:
			why += "; acid is used in moving air"
		}
		return false, why
	}
	return true, "weak acid in its own bath, outdoors or in a cross-draught, anyone with asthma stays away; a choking smell: leave it, into fresh air"
}

// AcidGate is Acid.Gate for goods in a bath of their own.
func AcidGate(sulfur Known, rinses int, aired bool, place string) (ok bool, why string) {
	return Acid{sulfur, rinses, aired, place, OwnBath}.Gate()
}
