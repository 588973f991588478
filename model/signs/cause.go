package signs

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
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
func (r Rank) String() string {
	switch r {
	case MostLikely:
		return "most likely"
	case Possible:
		return "possible"
	}
	return "unlikely"
}

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

// WeightIsJudged is what a screen says beside the weights.
const WeightIsJudged = "weights are a dyer's judgement, not measured chances"

// Causes ranks what may be the cause of what was seen at a vat, likeliest first, and gives each its treatment under the
// rules of the package. At least one comes back: to look first, where nothing was seen; that nothing ails it, where all is
// well. Signs that contradict each other put another look first, and say which; so do signs that speak against a vat that is
// ready and that no cause here is known for. What was tried already and did not help
// falls back. A smell of burnt sulfur silences all other signs; so does a vat that is being built, is being ended, or has
// ended. The same arguments give the same answer.
func Causes(s Seen, v Vat) []Cause {
	s, v = s.clean(), v.clean()
	t := task{s: s, v: v, seen: s.evidence(v)}
	t.gate = t.advised()
	if c, only := t.alone(); only {
		return weigh([]Cause{c})
	}
	if !slices.ContainsFunc(t.seen, func(id string) bool { return id != warmRight && id != phRight }) {
		c := Cause{ID: "not-looked", Name: "nothing was seen that tells of a cause", Why: "a vat is judged by all its signs together (S1)"}
		t.treat(&c, remedy{act: Look, do: "look first: liquor in a clear glass from below the film, strip, °C, pH, a two-minute swatch",
			recheck: "say what was seen"})
		return weigh([]Cause{c})
	}
	var list []Cause
	var untried []float64
	for _, b := range beliefs() {
		if !b.family.has(v.Recipe.Family) || b.id == chokingID {
			continue
		}
		b = b.in(v.Recipe.Family)
		c := Cause{ID: b.id, Name: b.name, Weight: b.weight(t.seen, s.Tried), Why: b.reasons(t.seen)}
		t.treat(&c, b.remedy(t))
		list, untried = append(list, c), append(untried, b.weight(t.seen, nil))
	}
	list = weigh(notReady(t, list, untried))
	against := contradictions(t.seen)
	if len(against) == 0 {
		if t.unknown(list) && !t.dangerous() {
			return t.first(weigh(t.spoken(list)), t.notKnown())
		}
		return list
	}
	for i := range list {
		list[i].Contradicts = sentences(against)
	}
	if t.dangerous() {
		return list
	}
	c := Cause{ID: "look-again", Name: "the signs contradict each other", Why: "no powder goes in on signs that do not go together, common practice",
		Contradicts: sentences(against)}
	t.treat(&c, remedy{act: Look, do: "add nothing yet; look again: " + lookWhere(against),
		how:     "draw a clear glass from below the film, wipe the strip clean, let it hang a moment in the liquor; lid back on",
		wait:    quantity.Minutes(5),
		recheck: "say what is seen now"})
	return t.first(list, c)
}

// first puts a look before a list of causes.
func (t task) first(list []Cause, c Cause) []Cause {
	for i := range list {
		list[i].Weight *= 1 - lookAgainPart
	}
	c.Weight = lookAgainPart
	if list = append([]Cause{c}, list...); len(list) == 1 {
		list[0].Weight = 1
	}
	rank(list)
	return list
}

// weigh orders causes by weight, leaves out what is not worth a line, makes the weights add up to 1 and ranks them.
func weigh(list []Cause) []Cause {
	slices.SortStableFunc(list, func(a, b Cause) int { return cmp.Compare(b.Weight, a.Weight) })
	share := func() {
		var sum float64
		for _, c := range list {
			sum += c.Weight
		}
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

// NameOf is a cause in words, by its ID; the ID itself where nobody knows it.
func NameOf(id string) string {
	for _, b := range beliefs() {
		if b.id == id {
			return b.name
		}
	}
	return id
}

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

// unspoken is how much a sign of which a cause says nothing speaks against it: little where the sign is vague. M
func unspoken(sign string) float64 {
	switch sign {
	case warmRight, phRight:
		return 0.9
	case "clear", "no-film", "no-froth", "no-smell", "strip-good":
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
	if len(pro) > 0 {
		out += "; for it: " + strings.Join(pro, ", ")
	}
	if len(con) > 0 {
		out += "; against it: " + strings.Join(con, ", ")
	}
	return out
}
