package history_test

import (
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/history"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/practice"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/signs"
)

func builtIn(t testing.TB, id string) recipe.Recipe {
	t.Helper()
	name := filepath.Join("..", "..", "recipes", id+".toml")
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	r, faults := recipe.Parse(name, text)
	if err := faults.Err(); err != nil {
		t.Fatal(err)
	}
	return r
}

var first = time.Date(2026, 3, 2, 9, 0, 0, 0, time.UTC)

// after is a body so long after the day's beginning.
type after struct {
	at   time.Duration
	body day.Body
}

const (
	minute = time.Minute
	daily  = 24 * time.Hour
)

// tended is a closed day at a living vat of 60 L in a bin 40 cm wide, with these things done.
func tended(t testing.TB, id string, at time.Time, did ...after) history.Day {
	t.Helper()
	return tendedWith(t, id, at, day.Opening{Number: 2, Built: true, Cover: true}, append(did, after{8 * time.Hour, day.Closed{}})...)
}

func tendedWith(t testing.TB, id string, at time.Time, o day.Opening, did ...after) history.Day {
	t.Helper()
	name := at.Format(time.DateOnly)
	h := day.Head{Vat: "bin", Day: name, Zone: "UTC", Recipe: builtIn(t, id), Opening: o,
		Setup: day.Setup{Name: "Bin", Fill: 60, Vessel: "cylinder 40 cm 60 cm", Material: "stainless", Place: day.Outdoors}}
	events := []day.Event{{Seq: 1, At: at, Body: day.Opened{How: "tend"}}}
	for _, a := range did {
		events = append(events, day.Event{Seq: len(events) + 1, At: at.Add(a.at), Body: a.body})
	}
	s, errs := day.Replay(h, events)
	if len(errs) > 0 {
		t.Fatal(errs)
	}
	return history.Day{Name: name, State: s}
}

func strip(seconds float64) day.StripTest { return day.StripTest{Stayed: quantity.Seconds(seconds)} }

func gave(powder, material string, grams float64) day.PowderAdded {
	return day.PowderAdded{Powder: powder, Material: material, Mass: quantity.Grams(grams)}
}

func ids(list []history.Due, coming bool) []string {
	var out []string
	for _, d := range list {
		if d.Coming == coming {
			out = append(out, d.ID)
		}
	}
	return out
}

func find(list []history.Due, id string) (history.Due, bool) {
	i := slices.IndexFunc(list, func(d history.Due) bool { return d.ID == id })
	if i < 0 {
		return history.Due{}, false
	}
	return list[i], true
}

// The swatches set beside one another are those of one number of dips.
func TestComparedSwatches(t *testing.T) {
	judge := func(dips int, looks string) day.SwatchJudged {
		return day.SwatchJudged{Swatch: "L", Looks: looks, Dips: dips}
	}
	ladder := day.PieceAdded{OfPiece: day.OfPiece{Tag: "L"}, PieceSpec: day.PieceSpec{Fibre: "cotton", Dry: 10, Dips: 8, Had: 8, Form: "ladder"}}
	v := history.Vat{
		tended(t, "soda", first, after{minute, ladder}, after{2 * minute, judge(1, "lab 60 -5 -15")}, after{3 * minute, judge(2, "lab 50 -4 -21")}),
		tended(t, "soda", first.Add(7*daily), after{minute, ladder}, after{2 * minute, judge(1, "lab 66 -5 -13")}, after{3 * minute, judge(2, "pale")},
			after{4 * minute, judge(3, "rung 2")}),
		tended(t, "soda", first.Add(14*daily), after{minute, ladder}, after{2 * minute, judge(1, "rung 1")}),
	}
	p := history.PointsOf(v)
	if len(p.Swatches) != 6 {
		t.Fatalf("%d swatches of 6", len(p.Swatches))
	}
	c := p.Compared()
	if len(c) != 3 || c[0].Dips != 1 || !(c[0].KS > c[1].KS) || c[2].Lab != c[1].Lab || c[2].Known != outlook.Guessed {
		t.Errorf("compared: %+v", c)
	}
}

// Four doses of half a gram of reducer a litre and their strips, with what does not count among them.
func TestEpisodes(t *testing.T) {
	const reducer = "sodium dithionite"
	dose := func(at time.Time, before, stayed float64, took time.Duration) history.Day {
		return tended(t, "soda", at, after{minute, strip(before)}, after{5 * minute, gave("reducer", reducer, 15)},
			after{15 * minute, gave("reducer", reducer, 15)}, after{5*minute + took, strip(stayed)})
	}
	v := history.Vat{
		dose(first, 11, 40, 35*minute), dose(first.Add(7*daily), 12, 44, 30*minute),
		dose(first.Add(14*daily), 13, 45, 40*minute), dose(first.Add(21*daily), 12, 44, 35*minute),
	}
	got := history.Episodes(v)
	if len(got) != 4 {
		t.Fatalf("%d episodes of 4: two lots are one dose; %+v", len(got), got)
	}
	e := got[0]
	if e.Powder != "reducer" || e.PerLitre != quantity.GramsPerLitre(0.5) || e.Before != quantity.Seconds(11) || e.After != quantity.Seconds(40) || e.Took != quantity.Minutes(35) {
		t.Errorf("the first: %+v", e)
	}
	if want, said := "the last 4 times 0.5 g/L of sodium dithionite took this vat from 12 to 44 s in 35 min", history.Worked(v); said != want {
		t.Errorf("said %q", said)
	}

	// Soda with the reducer keeps no strips; indigo is no remedy; a strip of five hours before or a day and a half after says nothing.
	mixed := history.Vat{
		tended(t, "soda", first, after{minute, strip(10)}, after{2 * minute, gave("soda", "soda ash", 60)}, after{3 * minute, gave("reducer", reducer, 30)},
			after{30 * minute, strip(40)}, after{40 * minute, day.Fed{Powder: "indigo", Material: "indigo", Mass: 30}}, after{60 * minute, strip(25)},
			after{400 * minute, gave("reducer", reducer, 30)}),
		tended(t, "soda", first.Add(2*daily), after{minute, strip(50)}),
	}
	got = history.Episodes(mixed)
	if len(got) != 4 {
		t.Fatalf("%+v", got)
	}
	if got[0].Before >= 0 && got[0].After >= 0 || got[1].Before != quantity.Seconds(10) || got[1].After != quantity.Seconds(40) || got[2].Before >= 0 && got[2].After >= 0 ||
		got[3].Before >= 0 || got[3].After >= 0 {
		t.Errorf("%+v", got)
	}

	// A dose that is given once more within the same wait, half a day later, is another; an undone one is none.
	again := tended(t, "soda", first, after{minute, strip(10)}, after{2 * minute, gave("reducer", reducer, 30)}, after{4 * time.Hour, gave("reducer", reducer, 30)},
		after{5 * time.Hour, gave("reducer", reducer, 300)}, after{301 * minute, day.Corrected{Of: 5, Way: "undone"}}, after{6 * time.Hour, strip(44)})
	got = history.Episodes(history.Vat{again})
	if len(got) != 2 || got[1].PerLitre != quantity.GramsPerLitre(0.5) || got[1].After != quantity.Seconds(44) {
		t.Errorf("%+v", got)
	}
}

// The acid of a vat's end is no treatment, whatever the strips beside it say.
func TestTheAcidOfAnEndIsNoEpisode(t *testing.T) {
	v := history.Vat{tended(t, "soda", first, after{minute, strip(0)}, after{2 * minute, gave("citric acid", "citric acid", 30)}, after{30 * minute, strip(20)})}
	if got := history.Episodes(v); len(got) != 0 {
		t.Errorf("%+v", got)
	}
	if said := history.Worked(v); said != "" {
		t.Errorf("said %q", said)
	}
}

func TestSince(t *testing.T) {
	bran := history.Vat{tended(t, "madder-bran", first, after{minute, day.Fed{Powder: "bran", Material: "wheat bran", Mass: 60}},
		after{2 * minute, day.Stirred{}}, after{3 * minute, day.SignSeen{Sign: "pale"}})}
	flour := history.Vat{tended(t, "madder-bran", first, after{minute, day.Fed{Powder: "rye flour", Material: "rye flour", Mass: 60}})}
	if fed := history.Since(flour, first.Add(daily))["feed"]; fed.Duration() != daily-minute || history.SinceFood(flour, first.Add(daily)) == nil {
		t.Errorf("fed with flour %s ago", fed)
	}
	since := history.Since(bran, first.Add(daily))
	for id, want := range map[string]time.Duration{"feed": daily - minute, "stir": daily - 2*minute, "swatch": daily - 3*minute, "look": daily - 3*minute} {
		if since[id].Duration() != want {
			t.Errorf("%s %s ago, not %s", id, since[id].Duration(), want)
		}
	}
	if _, warm := since["warm"]; warm {
		t.Error("nobody warmed it")
	}
}

// The clock: what was done a week and two days ago is overdue by two, what was done yesterday comes next with its date.
func TestCareByTheClock(t *testing.T) {
	v := history.Vat{
		tended(t, "soda", first, after{minute, day.SwatchJudged{Swatch: "L", Looks: "pale", Dips: 1}}),
		tended(t, "soda", first.Add(8*daily), after{minute, strip(40)}),
	}
	now := first.Add(9 * daily)
	care := history.Care(v, now)
	if len(care) < 2 || care[0].ID != "swatch" || !care[0].Overdue() || care[0].When(now) != "overdue by 1 day" {
		t.Fatalf("the swatch is nine days old: %+v", care)
	}
	look, ok := find(care, "look")
	if !ok || !look.Coming || !look.At.Equal(first.Add(15*daily+minute)) || look.When(now) != "in 6 days, on 17 Mar" {
		t.Errorf("the next look: %+v, %q", look, look.When(now))
	}
	if got := ids(care, true); slices.Contains(got, "swatch") {
		t.Errorf("both due and to come: %v", got)
	}
	for i := 1; i < len(care); i++ {
		if !care[i].Coming && care[i].Past > care[i-1].Past || care[i-1].Coming && !care[i].Coming {
			t.Errorf("not in their order: %+v", care)
		}
	}
	// The same as practice.DueCare says, whatever the family.
	for _, id := range []string{"soda", "lye", "thiourea", "iron-lime", "madder-bran"} {
		v := history.Vat{tended(t, id, first, after{minute, strip(40)})}
		now := first.Add(10 * daily)
		want := map[string]bool{}
		for _, d := range practice.DueCare(v[0].State.Head.Recipe.Family, quantity.Span(10*daily), history.Since(v, now)) {
			want[d.ID] = true
		}
		for _, d := range history.Care(v, now) {
			if !d.Coming && !d.At.IsZero() {
				if !want[d.ID] {
					t.Errorf("%s: %s is due, and not by the clock", id, d.ID)
				}
				delete(want, d.ID)
			}
		}
		if len(want) > 0 {
			t.Errorf("%s: %v are due by the clock and left out", id, want)
		}
	}
}

// A sugar vat is looked at each second to third day, and weekly once it is three weeks old.
func TestASettledSugarVatIsLookedAtWeekly(t *testing.T) {
	young := history.Vat{tended(t, "sugar-lime", first, after{minute, strip(40)})}
	if d, ok := find(history.Care(young, first.Add(3*daily)), "look"); !ok || d.Coming {
		t.Errorf("three days on: %+v", d)
	}
	old := append(young, tended(t, "sugar-lime", first.Add(30*daily), after{minute, strip(40)}))
	d, ok := find(history.Care(old, first.Add(33*daily)), "look")
	if !ok || !d.Coming || !d.At.Equal(first.Add(37*daily+minute)) {
		t.Errorf("settled: %+v", d)
	}
}

// Nothing of the clock for a vat that is being built, rests, or has ended.
func TestCareOfVatsThatAreNotKept(t *testing.T) {
	if care := history.Care(nil, first); care != nil {
		t.Errorf("no vat: %+v", care)
	}
	for words, rests := range map[string]bool{"rests for the winter": true, "Winter.": true, "overwintering": true, "all done": false, "the winter scarves are done": false} {
		v := history.Vat{tendedWith(t, "sugar-lime", first, day.Opening{Number: 2, Built: true}, after{minute, strip(30)}, after{2 * minute, day.Closed{Why: words}})}
		care := history.Care(v, first.Add(10*daily))
		if d, ok := find(care, "revive"); ok != rests || rests && (len(care) != 1 || !d.Coming || !strings.Contains(d.How, "32 °C")) {
			t.Errorf("%q: %+v", words, care)
		}
	}
	idle := history.Vat{tended(t, "soda", first, after{minute, strip(30)})}
	for days, want := range map[int]string{20: "", 25: "winter", 43: "revive"} {
		care := history.Care(idle, first.Add(time.Duration(days)*daily))
		for _, id := range []string{"winter", "revive"} {
			if _, ok := find(care, id); ok != (id == want) {
				t.Errorf("after %d days of nothing: %v", days, care)
			}
		}
	}
	if care := history.Care(idle, first.Add(43*daily)); len(care) != 1 || care[0].Coming {
		t.Errorf("nobody said that it rests, and it wants a word: %+v", care)
	}
}

// An open bin 40 cm wide at 20 °C and 60 % loses by Shah some 0.05 kg/(m² h) × 0.126 m²: 1 to 3 L in a fortnight. A topping up and
// a reading of the level set it right.
func TestLevel(t *testing.T) {
	open := tendedWith(t, "soda", first, day.Opening{Number: 2, Built: true}, after{minute, day.Closed{}})
	now := first.Add(14 * daily)
	l := history.LevelOf(history.Vat{open}, now)
	if litres := l.Lost.Likely.Litres(); litres < 1 || litres > 3 || l.Known != outlook.Guessed || !(l.Lost.Low < l.Lost.Likely && l.Lost.Likely < l.Lost.High) {
		t.Errorf("an open vat after a fortnight: %+v", l)
	}
	lid := history.LevelOf(history.Vat{tended(t, "soda", first)}, now)
	if !(lid.Lost.Likely < l.Lost.Likely/10) {
		t.Errorf("under the lid: %+v, open %+v", lid, l)
	}
	if d, ok := find(history.Care(history.Vat{open}, first.Add(20*daily)), "top-up"); !ok || d.Coming || !(d.Amount > 1 && d.Amount < 5) || !strings.Contains(d.How, "0.05 g of reducer") {
		t.Errorf("after twenty days: %+v", d)
	}
	if d, ok := find(history.Care(history.Vat{open}, first.Add(40*daily)), "top-up"); !ok || d.Do != "Read how full it is" || d.Amount != 0 || !strings.HasPrefix(d.How, "then top it up") {
		t.Errorf("after forty days nobody can tell: %+v", d)
	}
	topped := append(history.Vat{open}, tended(t, "soda", now, after{minute, day.ToppedUp{Water: 5}}))
	if l := history.LevelOf(topped, now.Add(daily)); l.Lost.Likely > quantity.Litres(0.3) || !l.Since.Equal(now.Add(minute)) {
		t.Errorf("topped up: %+v", l)
	}
	for _, out := range []day.Body{day.Decanted{Liquor: 20}, day.DrawnOff{Liquor: 20}} {
		v := history.Vat{tended(t, "soda", first, after{minute, out})}
		if l := history.LevelOf(v, first.Add(time.Hour)); math.Abs(l.Lost.Likely.Litres()-20) > 0.3 {
			t.Errorf("20 L are gone, %s: %+v", out.Kind(), l)
		}
		v = append(v, tended(t, "soda", first.Add(time.Hour), after{minute, day.ToppedUp{Water: 15}}))
		if l := history.LevelOf(v, first.Add(2*time.Hour)); math.Abs(l.Lost.Likely.Litres()-5) > 0.3 {
			t.Errorf("15 L came in their place, %s: %+v", out.Kind(), l)
		}
	}
	holds := quantity.Litres(55)
	read := append(history.Vat{open}, tended(t, "soda", now, after{minute, day.VatCovered{}}, after{2 * minute, day.Reading{Holds: &holds}}))
	l = history.LevelOf(read, now.Add(time.Hour))
	if math.Abs(l.Lost.Likely.Litres()-5) > 0.01 || l.Known != outlook.Measured {
		t.Errorf("read: %+v", l)
	}
	if d, ok := find(history.Care(read, now.Add(time.Hour)), "top-up"); !ok || d.Words(quantity.Metric) != "Top it up, 5 L" {
		t.Errorf("read: %+v", d)
	}
}

// Lime given again and again raises the sediment until it stands above a third; a decanting takes it away. A soda vat has none.
func TestSludge(t *testing.T) {
	lime := func(at time.Time, grams float64) history.Day {
		return tended(t, "sugar-lime", at, after{minute, gave("lime", "calcium hydroxide (slaked lime)", grams)})
	}
	v := history.Vat{lime(first, 10)}
	s := history.SludgeOf(v)
	if s.Deep || s.Known != outlook.Guessed || s.Depth < quantity.Centimetres(47) || s.Depth > quantity.Centimetres(48.5) || s.Height < quantity.Centimetres(9) || s.Height > quantity.Centimetres(12.1) {
		t.Errorf("60 L in a bin 40 cm wide are 47.7 cm deep: %+v", s)
	}
	for i := range 3 {
		v = append(v, lime(first.Add(time.Duration(i+1)*daily), 100))
	}
	if s = history.SludgeOf(v); !s.Deep {
		t.Errorf("twice the lime of the build: %+v", s)
	}
	if d, ok := find(history.Care(v, first.Add(5*daily)), "decant"); !ok || !strings.Contains(d.Why, "measure it") {
		t.Errorf("to be decanted: %+v", d)
	}
	v = append(v, tended(t, "sugar-lime", first.Add(6*daily), after{minute, day.Decanted{Liquor: 50}}))
	if s = history.SludgeOf(v); s.Deep || s.Height > quantity.Centimetres(1) {
		t.Errorf("decanted: %+v", s)
	}
	seen := history.Vat{tended(t, "sugar-lime", first, after{minute, day.SignSeen{Sign: "sediment above a third"}})}
	if s := history.SludgeOf(seen); !s.Deep || s.Known != outlook.Measured {
		t.Errorf("seen: %+v", s)
	}
	if s := history.SludgeOf(history.Vat{tended(t, "soda", first, after{minute, day.SignSeen{Sign: "sediment above a third"}})}); s.Known != outlook.Unknown {
		t.Errorf("soda: %+v", s)
	}
}

// What of the indigo is used counts from the build, not from the last morning: two thirds of what can be used is soon,
// nearly all is now, and feeding lifts it.
func TestFeeding(t *testing.T) {
	held := func(grams float64) day.Opening {
		end := first.Add(-time.Hour)
		m := quantity.Grams(grams)
		return day.Opening{Number: 5, Built: true, Held: day.Held{IndigoLow: m, Indigo: m, IndigoHigh: m, Until: &end}}
	}
	whole := 54.0 // of the soda vat at 60 L; of what is left 0.6 can be used
	for _, c := range []struct {
		left      float64
		soon, now bool
	}{{50, false, false}, {33, false, false}, {25, true, false}, {20, true, true}} {
		v := history.Vat{tendedWith(t, "soda", first, held(c.left), after{minute, day.Closed{}})}
		s := history.Stand(v, first.Add(time.Hour))
		if math.Abs(s.In.Grams()-whole) > 0.01 || s.Feeding.Soon != c.soon || s.Feeding.Now != c.now {
			t.Errorf("%v g left of %v: %+v", c.left, s.In, s.Feeding)
		}
		d, ok := find(history.Care(v, first.Add(time.Hour)), "feed-indigo")
		if ok != c.soon || ok && d.Coming == c.now {
			t.Errorf("%v g left: %v %+v", c.left, ok, d)
		}
		if !ok {
			continue
		}
		// The signs of a pale straw liquor ask for the same grams of the same material, and wait as long.
		st := v[0].State
		seen, vat := outlook.Asked(st, outlook.Of(st, first.Add(time.Hour)), first.Add(time.Hour), nil)
		seen.Signs, _ = signs.Parse("pale straw, clear")
		temp := quantity.Celsius(35)
		seen.Temp = &temp
		up := s.Indigo.Feeding.TopUp
		cause := signs.Causes(seen, vat)[0]
		if cause.ID != "spent" || !strings.Contains(cause.Then, up.Whole.String()) || cause.Doses[0].Mass != up.Lot || cause.Wait != up.Wait ||
			!strings.Contains(d.How, up.Whole.Scale(quantity.Metric)+" of pre-reduced indigo grains, in 2 lots") || !strings.Contains(d.How, "wait "+up.Wait.String()) {
			t.Errorf("%v g left: care %q; signs %q, then %q", c.left, d.How, cause.Do, cause.Then)
		}
	}
	fed := history.Vat{tendedWith(t, "soda", first, held(25), after{minute, day.Fed{Powder: "indigo", Mass: 60}}, after{2 * minute, day.Closed{}})}
	if s := history.Stand(fed, first.Add(time.Hour)); math.Abs(s.In.Grams()-whole-36) > 0.01 || math.Abs(s.Indigo.Left.Likely.Grams()-61) > 0.5 {
		t.Errorf("60 g of 60 %% fed: in %v, left %v", s.In, s.Indigo.Left)
	}
}

// A ferment vat is fed three days after its last food, whichever of its days had it.
func TestSinceFood(t *testing.T) {
	v := history.Vat{
		tended(t, "madder-bran", first, after{minute, gave("bran", "wheat bran", 60)}), tended(t, "madder-bran", first.Add(daily), after{minute, gave("lime", "lime", 18)}),
	}
	ago := history.SinceFood(v, first.Add(minute+3*daily))
	if ago == nil || *ago != quantity.Days(3) {
		t.Fatalf("three days after the bran: %v", ago)
	}
	if ago := history.SinceFood(v[1:], first.Add(3*daily)); ago != nil {
		t.Errorf("no food in its book: %v", *ago)
	}
	day3 := tendedWith(t, "madder-bran", first.Add(3*daily), day.Opening{Number: 4, Built: true}, after{minute, day.Reading{Temp: at(quantity.Celsius(35))}}, after{2 * minute, strip(8)}).State
	now := first.Add(3*daily + 2*minute)
	o := outlook.Of(day3, now)
	if a := outlook.Advise(day3, o, now, nil); a.Mass != 0 || !strings.Contains(a.Sentence, "when was it last fed?") {
		t.Errorf("%+v", a)
	}
	if a := outlook.Advise(day3, o, now, history.SinceFood(v, now)); a.Powder != "bran" || a.Mass != 60 {
		t.Errorf("%+v", a)
	}
}

func at[T any](v T) *T { return &v }

// On an open day: a rest after three hours of work, a strip after five loads, and the evening round when all is out.
func TestCareOfAnOpenDay(t *testing.T) {
	piece := day.OfPiece{Tag: "A"}
	did := []after{{minute, day.PieceAdded{OfPiece: piece, PieceSpec: day.PieceSpec{Fibre: "cotton", Dry: 100, Dips: 8}}}, {2 * minute, strip(40)}, {3 * minute, day.WettedOut{OfPiece: piece}}}
	at := 10 * minute
	for n := 1; n <= 5; n++ {
		did = append(did, after{at, day.DipBegun{OfPiece: piece, Dip: n, For: quantity.Minutes(5)}}, after{at + 5*minute, day.DipEnded{OfPiece: piece, Dip: n, Air: quantity.Minutes(10)}},
			after{at + 20*minute, day.AiringEnded{OfPiece: piece, Dip: n}})
		at += 45 * minute
	}
	v := history.Vat{tendedWith(t, "soda", first, day.Opening{Number: 2, Built: true}, did...)}
	care := history.Care(v, first.Add(3*time.Hour))
	rest, ok := find(care, "rest")
	if !ok || !rest.Coming || !rest.At.Equal(first.Add(3*time.Hour+10*minute)) {
		t.Errorf("the rest: %+v", rest)
	}
	care = history.Care(v, first.Add(4*time.Hour))
	if rest, _ := find(care, "rest"); rest.Coming {
		t.Errorf("four hours of work: %+v", rest)
	}
	if s, ok := find(care, "strip"); !ok || !strings.HasPrefix(s.Why, "5 loads") {
		t.Errorf("five loads: %+v", s)
	}
	if _, ok := find(care, "evening"); ok {
		t.Error("a piece is on its way, and it is called evening")
	}
	v[0] = tendedWith(t, "soda", first, day.Opening{Number: 2, Built: true}, append(did, after{at, day.Finished{OfPiece: piece, Dips: 5}})...)
	if _, ok := find(history.Care(v, first.Add(5*time.Hour)), "evening"); !ok {
		t.Error("all is out, and nobody thinks of the evening")
	}
}

// A short strip or a low pH that nothing was done about is due at once.
func TestWeakIsDue(t *testing.T) {
	ph := 9.4
	for name, c := range map[string]struct {
		events []after
		says   string
	}{
		"short strip":         {[]after{{minute, day.StripTest{Stayed: quantity.Seconds(3)}}}, "yellow 3 s"},
		"good strip":          {[]after{{minute, day.StripTest{Stayed: quantity.Seconds(40)}}}, ""},
		"low pH":              {[]after{{minute, day.Reading{PH: &ph}}}, "it read pH 9.4"},
		"both":                {[]after{{minute, day.Reading{PH: &ph}}, {minute, day.StripTest{}}}, "yellow 0 s, and it read pH 9.4"},
		"reducer was given":   {[]after{{minute, day.StripTest{}}, {2 * minute, day.PowderAdded{Powder: "reducer", Material: "sodium dithionite", Mass: 30}}}, ""},
		"the wrong was given": {[]after{{minute, day.StripTest{}}, {2 * minute, day.PowderAdded{Powder: "soda", Material: "soda ash", Mass: 30}}}, "yellow 0 s"},
	} {
		v := history.Vat{tended(t, "soda", first, append(c.events, after{3 * minute, day.Closed{}})...)}
		d, ok := find(history.Care(v, first.Add(time.Hour)), "weak")
		if ok != (c.says != "") || ok && !strings.Contains(d.How, c.says) {
			t.Errorf("%s: %v %q", name, ok, d.How)
		}
		s := v[0].State // care and the advice of the day give the same
		if a := outlook.Advise(s, outlook.Of(s, first.Add(time.Hour)), first.Add(time.Hour), nil); (a.Mass > 0 || a.Cause == "acid-or-strip") != (c.says != "" && name != "the wrong was given") ||
			a.Mass > 0 && !strings.Contains(d.How, a.Sentence) {
			t.Errorf("%s: %q, and %q", name, d.How, a.Sentence)
		}
	}
}

// A vat that is to be fed says so; a share that is gone beside what it is still enough for would be two words on one thing.
func TestTheFactOfItsIndigo(t *testing.T) {
	s := history.Status{In: 60, Used: 1, Feeding: history.Feeding{Now: true}}
	s.Indigo.Known, s.Indigo.Left = outlook.Reckoned, quantity.Exactly(quantity.Grams(8.5))
	for _, want := range []string{"8.5 g left, reckoned, feed it before more goods", "8.5 g left, reckoned, 40 % of what can be used is gone"} {
		facts := s.Facts(time.Time{}, quantity.Metric)
		if len(facts) == 0 || facts[0].Words != want {
			t.Errorf("%+v, want %q", facts, want)
		}
		s.Feeding.Now, s.Used = false, 0.4
	}
}
