package signs

import (
	"cmp"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/sorted"
	"example.org/vatside/model/wording"
)

// Rank is how a cause is said on screen. The weight behind it is a judgement, so the rank is all that is shown first.
type Rank int

// The ranks, likeliest first.
const (
	MostLikely Rank = iota
	Possible
	Unlikely
)

// String is "most likely", "possible" or "unlikely".
func (r Rank) String() string { return wording.Named(r, "most likely", "possible", "unlikely") }

// Act is the kind of a treatment.
type Act string

// The acts.
const (
	Dye   Act = "dye"   // nothing is wrong: go on
	Warm  Act = "warm"  // to To
	Cool  Act = "cool"  // let it cool to To
	Give  Act = "give"  // what stands in Doses
	Wait  Act = "wait"  // add nothing
	Stop  Act = "stop"  // stop dyeing, or end the day's doses
	Goods Act = "goods" // something about the goods, not the vat
	Look  Act = "look"  // look or read again before anything else
)

// Dose is one powder of a treatment: all of it for this fill, and in how many lots it goes in.
type Dose struct {
	Powder   string // its id in the recipe
	Role     recipe.Role
	Into     recipe.Place // the vat, or its stock jar
	Mass     quantity.Mass
	Portions int // 1 up
}

// Cause is one thing that may ail a vat or its goods, and the one thing to do about it. Of a list only the first is meant
// to be done; the others' treatments are what they would be if they stood first.
type Cause struct {
	ID          string // stable
	Name        string
	Weight      float64 // by judgement (M), 0 to 1; those of a list add up to 1. It orders, and is no chance
	Rank        Rank
	Before      string // what comes before its own treatment, which Do then is, and why; empty where Do is its own
	Why         string // with the evidence and the signs for and against it
	Act         Act
	Do          string
	To          *quantity.Temperature // with Warm and Cool
	Doses       []Dose                // with Give: the whole first treatment for this fill
	How         string
	Cautions    []string
	Wait        quantity.Span // until the recheck: a timer; 0 for none
	Recheck     string
	Then        string // if the recheck says the same; may be empty
	Contradicts string // which of the signs do not go together; empty if none
	Refused     bool   // the goods do not bear what the vat wants, or is
	Barred      bool   // nothing is to be done about it: the vat is being built, is being ended, or has ended
}

const (
	mostCauses    = 6
	leastWeight   = 0.02 // below it a cause is not worth a line
	possibleFrom  = 0.12
	lookAgainPart = 0.5 // of the weight, where signs contradict each other
)

// weigh orders causes by weight, leaves out what is not worth a line, makes the weights add up to 1 and ranks them.
func weigh(list []Cause) []Cause {
	sorted.By(list, func(a, b Cause) int { return cmp.Compare(b.Weight, a.Weight) })
	share := func() {
		sum := wording.Sum(list, func(c Cause) float64 { return c.Weight })
		for i := range list {
			if list[i].Weight /= sum; !(sum > 0) {
				list[i].Weight = 1 / float64(len(list))
			}
		}
	}
	share()
	n := min(1, len(list))
	for n < len(list) && n < mostCauses && list[n].Weight >= leastWeight {
		n++
	}
	list = list[:n]
	share()
	rank(list)
	return list
}

// rank says the weights in words. Only the first is most likely.
func rank(list []Cause) {
	for i := range list {
		switch {
		case i == 0:
			list[i].Rank = MostLikely
		case list[i].Weight >= possibleFrom:
			list[i].Rank = Possible
		default:
			list[i].Rank = Unlikely
		}
	}
}
