package recipe

import (
	"fmt"
	"math"
	"strconv"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/wording"
)

// Spoon is the dyer's own level spoon for one powder, known once five level spoons of it were weighed together. Powders
// pack differently, so a spoon holds for its powder only. Good to about a tenth.
type Spoon struct {
	Five quantity.Mass // of five level spoons
}

// The spoons that can be: five level spoons from a salt spoon's 0.5 g to a ladle's 2.5 kg.
const (
	fiveLeast = quantity.Mass(0.5)
	fiveMost  = quantity.Mass(2500)
)

// SpoonFor is the spoon for a powder of a recipe. It refuses lye and sulfur reducers, which are weighed, always; an id
// that the recipe does not have; and a mass that no five spoons have.
func SpoonFor(r Recipe, id string, five quantity.Mass) (Spoon, error) {
	p, ok := r.Powder(id)
	switch {
	case !ok:
		return Spoon{}, r.unknownPowder(id)
	case p.Lye():
		return Spoon{}, fmt.Errorf("%s is lye: weigh it, a spoon is not good enough for what burns", p.Material)
	case p.SulfurReducer() || r.Family.SulfurReducer() && p.Role == Reducer:
		return Spoon{}, fmt.Errorf("%s is a sulfur reducer: weigh it dry, no spoon stays in its tin", p.Material)
	case !(five >= fiveLeast && five <= fiveMost):
		return Spoon{}, fmt.Errorf("five level spoons of %.4g g cannot be: they weigh between 0.5 g and 2.5 kg", five.Grams())
	}
	return Spoon{five}, nil
}

// Each is the mass of one level spoon.
func (s Spoon) Each() quantity.Mass { return s.Five / 5 }

// Spoons is how many level spoons make a mass: to quarters below 3, to halves below 10, then whole. 0 means less than
// an eighth of a spoon: weigh it.
func (s Spoon) Spoons(m quantity.Mass) float64 {
	if s.Five <= 0 || m <= 0 {
		return 0
	}
	n := float64(m) / float64(s.Each())
	switch {
	case n < 3:
		return math.Round(n*4) / 4
	case n < 10:
		return math.Round(n*2) / 2
	}
	return math.Round(n)
}

// Say is the same in words, "2½ level spoons".
func (s Spoon) Say(m quantity.Mass) string {
	n := s.Spoons(m)
	if n == 0 {
		return "less than a quarter of a level spoon: weigh it"
	}
	whole, part := math.Modf(n)
	word := ""
	if whole > 0 {
		word = strconv.FormatFloat(whole, 'f', 0, 64)
	}
	word += map[float64]string{0: "", 0.25: "¼", 0.5: "½", 0.75: "¾"}[part]
	return wording.Either(n <= 1, word+" level spoon", word+" level spoons")
}
