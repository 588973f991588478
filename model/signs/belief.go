package signs

import (
	"maps"
	"math"
	"strings"

	"example.org/vatside/model/recipe"
	"example.org/vatside/model/wording"
)

// The families that a cause can be in.
type families uint8

const (
	inSoda families = 1 << iota
	inLye
	inSugar
	inIron
	inThiourea
	inFerment

	inSulfur = inSoda | inLye | inThiourea
	inLime   = inSugar | inIron | inFerment
	inAny    = inSulfur | inLime
)

func (f families) has(of recipe.Family) bool {
	bit := map[recipe.Family]families{recipe.DithioniteSoda: inSoda, recipe.DithioniteLye: inLye, recipe.SugarLime: inSugar,
		recipe.IronLime: inIron, recipe.ThioureaDioxideSoda: inThiourea, recipe.Ferment: inFerment}[of]
	return f&bit != 0
}

// readyID is the vat that nothing ails.
const readyID = "ready"

// belief is what is known of one cause: where it occurs, how common it is, how much each sign speaks for it.
type belief struct {
	id, name string
	family   families
	prior    float64            // against 1 for a common cause. M
	speaks   map[string]float64 // by sign: above 1 for it, below 1 against it. M
	why      string             // with the evidence
	ferment  string             // why, in a ferment vat, where that is another
	failed   float64            // what each treatment of another cause without help makes of it; 0: nothing. M
	remedy   func(task) remedy
}

// in is the belief as a vat of a recipe has it, in which look are the signs of the recipe's own ready look: they speak for a vat that
// is ready, and for no fault.
func (b belief) in(r recipe.Recipe, look []string) belief {
	if r.Family == recipe.Ferment && b.ferment != "" {
		b.why = b.ferment
	}
	b.speaks = maps.Clone(b.speaks)
	for _, id := range look {
		switch w, ok := b.speaks[id]; {
		case b.id == readyID:
			b.speaks[id] = max(w, 1.1) // M
		case ok:
			b.speaks[id] = min(w, 1)
		}
	}
	return b
}

// lookOf are the signs of a recipe's ready look, in the words of its checks; a ferment that goes well smells sweet (S6, C).
func lookOf(r recipe.Recipe) []string {
	var out []string
	if r.Family == recipe.Ferment {
		out = append(out, "sweet")
	}
	for _, st := range r.Steps {
		if st.Do == recipe.Check && st.Into != recipe.IntoStock {
			out = append(out, lookedFor(st.Look)...)
		}
	}
	return out
}

// unspoken is how much a sign of which a cause says nothing speaks against it: little where the sign is vague. M
func unspoken(sign string) float64 {
	switch sign {
	case warmRight, phRight:
		return 0.9
	case "clear", "no-film", "no-froth", "no-smell", "sweet", "strip-good":
		return 0.5
	case "pale", "dull", "cloudy", "uneven":
		return 0.35
	}
	return 0.2
}

// What a recheck does to the weight of the cause that was treated. M
var triedFactor = map[Answer]float64{NotSaid: 1, Better: 2.5, Same: 0.3, Worse: 0.1}

// weight is the product of what all signs say, and of what was tried.
func (b belief) weight(seen []string, tried []Tried) float64 {
	w := b.prior
	for _, id := range seen {
		f, ok := b.speaks[id]
		if !ok {
			f = unspoken(id)
		}
		w *= f
	}
	for _, t := range tried {
		switch {
		case t.Cause == b.id:
			w *= triedFactor[t.Answer]
		case b.failed > 0 && (t.Answer == Same || t.Answer == Worse):
			w *= b.failed
		}
	}
	return math.Max(w, 1e-12)
}

// reasons is why, with the signs for the cause and against it.
func (b belief) reasons(seen []string) string {
	var pro, con []string
	for _, id := range seen {
		f, ok := b.speaks[id]
		switch {
		case ok && f > 1:
			pro = append(pro, words(id))
		case !ok && unspoken(id) <= 0.2, ok && f < 1:
			con = append(con, words(id))
		}
	}
	out := b.why
	out += wording.If(len(pro) > 0, "; for it: "+strings.Join(pro, ", "))
	out += wording.If(len(con) > 0, "; against it: "+strings.Join(con, ", "))
	return out
}
