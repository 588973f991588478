package outlook_test

import (
	"fmt"
	"math"
	"math/rand"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/fibre"
	"example.org/vatside/model/liquor"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/signs"
	"example.org/vatside/testdata/long"
)

// facts are what is known of one vat, whoever is asked about it.
type facts struct {
	seen signs.Seen
	vat  signs.Vat
}

// said is what one asker says is to be done: a dose, or none.
type said struct {
	who    string
	stop   bool // nothing goes in, and nobody stays
	ready  bool
	powder string
	grams  float64
	words  string
}

func some[T any](r *rand.Rand, list []T) T { return list[r.Intn(len(list))] }

// drawFacts is any vat: mostly one that could stand in a yard, now and then one in a bad way.
func drawFacts(r *rand.Rand, recipes []recipe.Recipe) facts {
	rec := some(r, recipes)
	l := rec.Liquor
	v := signs.Vat{Recipe: rec, Fill: quantity.Litres(math.Round(math.Exp(r.Float64()*5.3) * 10 / 10)), GivenToday: map[string]quantity.Mass{}}
	v.Fill = max(v.Fill, 0.5)
	s := signs.Seen{PHError: some(r, []float64{0.5, 0.5, 0.1})}
	chance := func(of float64) bool { return r.Float64() < of }
	if chance(0.8) {
		t := quantity.Celsius(math.Round(some(r, []float64{l.Low.Celsius() + r.Float64()*(l.High-l.Low).Celsius(), 5 + 75*r.Float64(), l.High.Celsius() + 20*r.Float64()})*2) / 2)
		s.Temp = &t
	}
	if chance(0.7) {
		p := quantity.PH(math.Round(some(r, []float64{l.PHLow + r.Float64()*(l.PHHigh-l.PHLow), l.PHLow - 2*r.Float64(), 2 + 12*r.Float64()})*10) / 10)
		s.PH = &p
	}
	if chance(0.6) {
		t := quantity.Seconds(math.Round(some(r, []float64{60 * r.Float64(), 20 * r.Float64(), 400 * r.Float64()})))
		s.Strip = &t
	}
	switch r.Intn(4) {
	case 0:
		s.Signs, _ = signs.Parse("clear, yellow")
	case 1:
		s.Signs, _ = signs.Parse("clear, yellow, coppery film, violet-blue froth")
	case 2:
		for range r.Intn(4) {
			if x := some(r, signs.All()); x.ID != signs.Choking && !slices.Contains(s.Signs, x) {
				s.Signs = append(s.Signs, x)
			}
		}
	}
	if chance(0.2) {
		p := some(r, rec.Powders)
		now, _ := liquor.Most(rec, p.ID, v.Fill, 0)
		v.GivenToday[p.ID] = now * quantity.Mass(3*r.Float64())
	}
	if chance(0.3) {
		v.Goods = []fibre.Fibre{some(r, fibre.All())}
	}
	if chance(0.3) {
		since := quantity.Days(6 * r.Float64())
		v.SinceFood = &since
	}
	if chance(0.3) { // as its book reckons it
		in := liquor.PureIndigo(rec, v.Fill)
		some := func(of quantity.Mass) *quantity.Range[quantity.Mass] {
			a, b, c := r.Float64(), r.Float64(), r.Float64()
			return &quantity.Range[quantity.Mass]{Low: of * quantity.Mass(a*b), Likely: of * quantity.Mass(a), High: of * quantity.Mass(max(a, c))}
		}
		v.Oxidised, v.Reducer = some(in), some(2*in)
		v.Sulfite = &quantity.Range[quantity.Molarity]{Likely: 10, High: 20}
	}
	if rec.Stock != nil && chance(0.5) {
		t, p := quantity.Celsius(20+60*r.Float64()), quantity.PH(4+10*r.Float64())
		v.JarTemp, v.JarPH = &t, &p
	}
	v.HandsIn, v.HeaterOn, v.Class = chance(0.05), chance(0.05), chance(0.05)
	switch r.Intn(40) {
	case 0:
		v.Building = true
	case 1:
		v.Ending = true
	case 2:
		v.Ended = "1 March 2026"
	}
	return facts{s, v}
}

// closed tells whether the vat takes nothing beyond its steps.
func (f facts) closed() bool { return f.vat.Building || f.vat.Ending || f.vat.Ended != "" }

// apart tells whether a day's book would have to hold more than what dayOf puts into it.
func (f facts) apart() bool { return f.closed() || f.vat.HandsIn || f.vat.HeaterOn || f.vat.Class }

// hotFor is the °C above which a powder is not advised, reckoned here apart: the higher of the recipe's high mark and of at_most of
// the powder's step, at the latest 55 °C. The stock jar has its own.
func hotFor(r recipe.Recipe, id string) quantity.Temperature {
	top := r.Liquor.High
	for _, st := range r.Steps {
		if st.Powder == id && st.Into != recipe.IntoStock && st.AtMost != nil && (st.Do == recipe.Add || st.Do == recipe.Sprinkle) {
			top = max(top, *st.AtMost)
		}
	}
	if p, _ := r.Powder(id); p.Role == recipe.Reducer && r.Family.SulfurReducer() {
		top = max(top, 50) // its family's own step, where this powder has none into the vat
	}
	return min(top, 55)
}

// TestNobodyContradicts asks 10,000 random vats (1,500 where long tests do not run, 300 under the race detector) of everything that judges a liquor, and counts where two of them do not say the
// same, or where one says what is dangerous. The seed is that of the day, or VATSIDE_SEED; it is printed.
func TestNobodyContradicts(t *testing.T) {
	seed, vats := time.Now().Unix()/86400, long.Of(10000, long.Few(1500))
	if other, err := strconv.ParseInt(os.Getenv("VATSIDE_SEED"), 10, 64); err == nil {
		seed = other
	}
	t.Logf("seed %d, %d vats", seed, vats)
	random := rand.New(rand.NewSource(seed))
	var recipes []recipe.Recipe
	for _, id := range []string{"soda", "lye", "sugar-lime", "iron-lime", "thiourea", "madder-bran", "mild-soda"} {
		recipes = append(recipes, built(t, id))
	}
	counts, example := map[string]int{}, map[string]string{}
	for i := range vats {
		f := drawFacts(random, recipes)
		for _, kind := range contradictionsOf(t, f, i%25 == 0) {
			what, how, _ := strings.Cut(kind, ": ")
			if counts[what]++; counts[what] <= 3 {
				example[what] += "\n    " + how + "; " + f.String()
			}
		}
	}
	for _, what := range []string{"ready beside a dose", "two powders", "doses over 10 % apart", "a dose beside none", "pH over 0.05 apart", "a gate open and shut",
		"more than a stop in an acid sulfur vat", "a powder in a vat too hot for it", "a powder in a jar too hot or too sour for it", "a powder in a vat that is built or ended", "a powder beside a danger",
		"ready beside a danger", "two wordings of a danger"} {
		t.Logf("%5d %s", counts[what], what)
		if counts[what] > 0 {
			t.Errorf("%d of %d: %s%s", counts[what], vats, what, example[what])
		}
	}
}

func (f facts) String() string {
	s := fmt.Sprintf("%s %v", f.vat.Recipe.ID, f.vat.Fill)
	if f.seen.Temp != nil {
		s += fmt.Sprintf(" %v", *f.seen.Temp)
	}
	if f.seen.PH != nil {
		s += fmt.Sprintf(" pH %v ±%v", *f.seen.PH, f.seen.PHError)
	}
	if f.seen.Strip != nil {
		s += fmt.Sprintf(" strip %v", *f.seen.Strip)
	}
	for _, x := range f.seen.Signs {
		s += " " + x.ID
	}
	return s + fmt.Sprintf(" given %v goods %v fed %v", f.vat.GivenToday, f.vat.Goods, f.vat.SinceFood)
}

// contradictionsOf are the kinds of contradiction of one vat.
func contradictionsOf(t *testing.T, f facts, inDay bool) (out []string) {
	answers := [][]said{{bySigns(f), byDose(f)}}
	if inDay = inDay && !f.apart(); inDay {
		answers = append(answers, byDay(t, f))
	}
	for _, pair := range answers {
		a, b := pair[0], pair[1]
		how := fmt.Sprintf("%s %q, %s %q", a.who, a.words, b.who, b.words)
		switch {
		case a.ready && (a.powder != "" || b.powder != "") || b.ready && a.powder != "":
			out = append(out, "ready beside a dose: "+how)
		case (a.powder == "") != (b.powder == ""):
			out = append(out, "a dose beside none: "+how)
		case a.powder != b.powder:
			out = append(out, "two powders: "+how)
		case math.Abs(a.grams-b.grams) > 0.1*min(a.grams, b.grams)+1e-9:
			out = append(out, "doses over 10 % apart: "+how)
		}
		for _, x := range pair {
			if f.seen.PH != nil && *f.seen.PH < 7 && f.vat.Recipe.Family.SulfurReducer() && !x.stop {
				out = append(out, "more than a stop in an acid sulfur vat: "+x.who+" "+x.words)
			}
			switch danger := f.vat.HandsIn && f.vat.HeaterOn || f.vat.Class && f.seen.Temp != nil && *f.seen.Temp > 40; {
			case x.powder != "" && f.closed():
				out = append(out, "a powder in a vat that is built or ended: "+x.who+" "+x.words)
			case x.powder != "" && danger:
				out = append(out, "a powder beside a danger: "+x.who+" "+x.words)
			case x.ready && (f.closed() || danger):
				out = append(out, "ready beside a danger: "+x.who+" "+x.words)
			}
			jar := f.vat.Recipe.Stock != nil && strings.Contains(x.words, "jar")
			if jar && x.powder != "" && f.vat.JarPH != nil && (*f.vat.JarPH < 7 || *f.vat.JarTemp > 60) && !strings.HasSuffix(x.who, "of the day") {
				out = append(out, "a powder in a jar too hot or too sour for it: "+x.who+" "+x.words)
			}
			if !jar && x.powder != "" && f.seen.Temp != nil && *f.seen.Temp > hotFor(f.vat.Recipe, x.powder) {
				out = append(out, "a powder in a vat too hot for it: "+x.who+" "+x.words)
			}
		}
	}
	if a, b := signs.Causes(f.seen, f.vat)[0], signs.Advise(f.seen, f.vat); a.Act == signs.Give {
		for _, w := range b.Cautions {
			if !slices.Contains(a.Cautions, w) && !slices.Contains(b.Warnings, w) {
				out = append(out, "two wordings of a danger: only the dose says "+w)
			}
		}
	}
	low, high := "", ""
	acidity := acidities(t, f, inDay)
	for who, p := range acidity {
		if low == "" || p < acidity[low] {
			low = who
		}
		if high == "" || p > acidity[high] {
			high = who
		}
	}
	if acidity[high]-acidity[low] > 0.05 {
		out = append(out, fmt.Sprintf("pH over 0.05 apart: %s %.2f, %s %.2f", low, acidity[low], high, acidity[high]))
	}
	if f.apart() {
		return out
	}
	if g := gates(t, f); len(g) > 0 {
		for who, shut := range g {
			if shut != g["dose"] {
				out = append(out, fmt.Sprintf("a gate open and shut: dose %v, %s %v", g["dose"], who, shut))
				break
			}
		}
	}
	return out
}

// TestBadVatsGetTheirDose asks of vats that are known to want one powder: the rows of the table of signs, and the vats of which one
// adviser said nothing or another thing. Both give it.
func TestBadVatsGetTheirDose(t *testing.T) {
	type bad struct {
		recipe, seen string
		ph, strip, c float64 // 0: not read
		powder       string
	}
	var list []bad
	alkali := map[string]string{"soda": "soda", "lye": "soda", "sugar-lime": "lime", "iron-lime": "lime", "thiourea": "soda", "madder-bran": "lime"}
	reducer := map[string]string{"soda": "reducer", "lye": "reducer", "sugar-lime": "fructose", "iron-lime": "iron", "thiourea": "reducer"}
	for id, p := range alkali {
		r := built(t, id)
		for _, below := range []float64{0.2, 0.3, 0.4, 0.5} { // where good signs were called ready
			for _, good := range []string{"", "clear, yellow", "clear, yellow, coppery film, violet-blue froth"} {
				list = append(list, bad{id, good, r.Liquor.PHLow - below, 0, 0, p}, bad{id, good, r.Liquor.PHLow - below, 10, 0, p}, bad{id, good, r.Liquor.PHLow - below, 45, r.Liquor.High.Celsius(), p})
			}
		}
		if id == "sugar-lime" || id == "iron-lime" {
			list = append(list, bad{id, "", 10.3, 0, 0, p}, bad{id, "", 9, 0, 0, p})
		}
	}
	for id, p := range reducer {
		for _, s := range []float64{1, 5, 10, 12, 14, 15, 16} {
			list = append(list, bad{id, "", 0, s, 0, p}, bad{id, "grass green", 0, s, 0, p})
		}
		list = append(list, bad{id, "clear, grass green", 0, 0, 0, p}, bad{id, "blue-green, clear", 0, 0, 0, p}, bad{id, "blue, clear", 0, 8, 0, p}, bad{id, "pale straw, clear", 0, 10, 0, p})
	}
	list = append(list,
		bad{"soda", "blue, cloudy", 0, 10, 0, "reducer"}, bad{"soda", "blue, cloudy", 0, 0, 0, "reducer"}, bad{"lye", "blue and turbid", 0, 0, 0, "reducer"},
		bad{"soda", "milky", 0, 0, 0, "soda"}, bad{"lye", "milky greenish-white", 0, 0, 0, "soda"}, bad{"thiourea", "milky", 0, 0, 0, "soda"}, bad{"soda", "milky", 0, 5, 0, "reducer"},
		bad{"soda", "pale straw, clear", 0, 0, 0, "indigo"}, bad{"madder-bran", "pale straw, clear", 0, 0, 0, "indigo"}, bad{"lye", "dark specks on the glass", 0, 0, 0, "reducer"},
		bad{"iron-lime", "too yellow", 0, 0, 0, "lime"}, bad{"iron-lime", "sediment rises, goods uneven", 0, 0, 0, "lime"}, bad{"iron-lime", "dull and weak", 0, 0, 0, "iron"},
		bad{"madder-bran", "foul smell, reddish", 0, 0, 0, "lime"}, bad{"madder-bran", "no smell, no froth, flat lime smell", 0, 0, 0, "bran"}, bad{"madder-bran", "", 0, 5, 0, "bran"},
	)
	list = append(list, bad{"mild-soda", "", 0, 8, 0, "soda"}, bad{"mild-soda", "blue, clear", 0, 0, 0, "soda"}) // each gram of its reducer after its ash
	t.Logf("%d vats", len(list))
	fed := quantity.Days(4)
	for _, b := range list {
		r := built(t, b.recipe)
		temp := r.Liquor.Aim
		if b.c > 0 {
			temp = quantity.Celsius(b.c)
		}
		f := facts{signs.Seen{Temp: &temp, PHError: 0.5}, signs.Vat{Recipe: r, Fill: 60, SinceFood: &fed}}
		if b.ph > 0 {
			p := quantity.PH(b.ph)
			f.seen.PH = &p
		}
		if b.strip > 0 {
			s := quantity.Seconds(b.strip)
			f.seen.Strip = &s
		}
		if b.seen != "" {
			f.seen.Signs, _ = signs.Parse(b.seen)
		}
		if b.strip == 10 && strings.Contains(b.seen, "yellow") { // yellow does not go with a strip that is blue at once: alkali all the same
			f.seen.Strip = nil
		}
		for _, x := range []said{bySigns(f), byDose(f)} {
			if x.powder != b.powder {
				t.Errorf("%v: %s has %q of %q", f, x.who, x.words, x.powder)
			}
		}
	}
}
