package stock

import (
	"math"
	"os"
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"example.org/vatside/model/history"
	"example.org/vatside/model/liquor"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
)

var noon = time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC)

func days(n float64) time.Time { return noon.Add(-quantity.Days(n).Duration()) }

func ptr[T any](v T) *T { return &v }

// listOf is a list of bodies, one an hour up to noon.
func listOf(t *testing.T, bodies ...Body) List {
	t.Helper()
	var events []Event
	for i, b := range bodies {
		events = append(events, Event{Seq: i + 1, At: noon.Add(time.Duration(i-len(bodies)) * time.Hour), Body: b})
	}
	l, errs := Replay(events)
	if len(errs) > 0 {
		t.Fatal(errs)
	}
	return l
}

func bought(id, material string, holds quantity.Mass, at time.Time) Bought {
	return Bought{OfTin: OfTin{id}, Material: material, Holds: holds, When: &at}
}

func opened(id string, at time.Time) Opened { return Opened{OfTin: OfTin{id}, When: &at} }

func soda(t *testing.T) recipe.Recipe {
	t.Helper()
	text, err := os.ReadFile("../../recipes/soda.toml")
	if err != nil {
		t.Fatal(err)
	}
	r, faults := recipe.Parse("soda.toml", text)
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	return r
}

func TestATinIsWhatItsEventsSay(t *testing.T) {
	l := listOf(t,
		Bought{OfTin: OfTin{"T1"}, Material: "Hydros, sodium dithionite", Holds: 500, Price: ptr(quantity.Hundredths(1250)), When: ptr(days(100))},
		bought("T2", "pre-reduced indigo grains", 250, days(50)),
		opened("T1", days(40)),
		Weighed{OfTin{"T1"}, 412},
		Tested{OfTin: OfTin{"T1"}, Turned: true, After: quantity.Minutes(6), Strength: 0.6},
		Discarded{OfTin{"T2"}, "used up"},
	)
	a, b := l.Tins[0], l.Tins[1]
	if a.Substance != recipe.Dithionite || a.Fitness() != Open || a.Strength() != 0.6 || a.Age(noon) != quantity.Days(40) || a.Name() != "dithionite" {
		t.Errorf("%+v", a)
	}
	if m, at := a.LastWeighed(); m != 412 || !at.Equal(noon.Add(-3*time.Hour)) {
		t.Errorf("last weighed %v %v", m, at)
	}
	if b.Form != recipe.PreReduced || b.Fitness() != Off || b.Gone.Why != "used up" {
		t.Errorf("%+v", b)
	}
	if since, ok := l.Since(); !ok || !since.Equal(days(100)) {
		t.Errorf("since %v", since)
	}
}

func TestTakingBack(t *testing.T) {
	l := listOf(t, bought("T1", "soda ash", 1000, days(9)), opened("T1", days(8)), Corrected{2, "undone"})
	if l.Tins[0].Opened != nil {
		t.Error("the opening stands")
	}
	l = listOf(t, bought("T1", "soda ash", 1000, days(9)), opened("T1", days(8)), Corrected{2, "undone"}, Corrected{3, "undone"})
	if l.Tins[0].Opened == nil {
		t.Error("a correction that was taken back still counts")
	}
	l = listOf(t, bought("T1", "soda ash", 1000, days(9)), Corrected{1, "undone"})
	b, err := l.Buy(NewTin{Material: "soda ash", Holds: 500}, noon)
	if err != nil || b[0].(Bought).Tin != "T2" {
		t.Errorf("%v %v: a number is never given twice", b, err)
	}
	l = listOf(t, bought("T1", "soda ash", 1000, days(9)), Weighed{OfTin{"T1"}, 10})
	if c, err := l.Undo(); err != nil || c != (Corrected{2, "undone"}) {
		t.Errorf("%v %v", c, err)
	}
	if _, err := (List{}).Undo(); err == nil {
		t.Error("nothing was taken back")
	}
	_, errs := Replay([]Event{{1, noon, opened("T9", noon)}, {2, noon, bought("T1", "lime", 1, noon)}, {3, noon, bought("T1", "lime", 1, noon)}})
	if len(errs) != 2 {
		t.Errorf("told %v", errs)
	}
}

func TestRefusals(t *testing.T) {
	l := listOf(t, bought("T1", "sodium dithionite", 500, days(9)), bought("T2", "soda ash", 1000, days(9)), Discarded{OfTin{"T2"}, "used up"},
		bought("T3", "sodium dithionite", 500, days(9)), Tested{OfTin: OfTin{"T3"}, Seen: []string{"caked"}}, bought("T4", "copperas", 500, days(5)), opened("T4", days(4)))
	buy := func(n NewTin) error { _, err := l.Buy(n, noon); return err }
	one := func(_ Body, err error) error { return err }
	for want, err := range map[string]error{
		"say what is in the tin":             buy(NewTin{Holds: 5}),
		"between 0.1 g and 1000 kg":          buy(NewTin{Material: "lime"}),
		"at most 60 letters":                 buy(NewTin{Material: strings.Repeat("lime ", 20), Holds: 5}),
		"quicklime boils up":                 buy(NewTin{Material: "quicklime", Holds: 5}),
		"does not cost -1.00":                buy(NewTin{Material: "lime", Holds: 5, Price: ptr(quantity.Hundredths(-100))}),
		"between 2 % and 100 %":              buy(NewTin{Material: "indigo", Holds: 5, Strength: 0.001}),
		"2026-11-26 is still to come":        buy(NewTin{Material: "lime", Holds: 5, Opened: ptr(noon.AddDate(0, 0, 1))}),
		"not opened before it is bought":     buy(NewTin{Material: "lime", Holds: 5, Bought: ptr(days(1)), Opened: ptr(days(3))}),
		`no tin "T9": there are T1, T3, T4`:  one(l.Weigh("T9", 5)),
		"T2 is gone: used up":                one(l.Weigh("T2", 5)),
		"cannot hold 600 g":                  one(l.Weigh("T1", 600)),
		"T3 is left alone: neither test":     one(l.Weigh("T3", 5)),
		"T3 stays shut: neither test":        one(l.BreakOpen("T3", nil, noon)),
		"T4 was opened on 2026-11-21":        one(l.BreakOpen("T4", nil, noon)),
		"T1 was bought on 2026-11-16":        one(l.BreakOpen("T1", ptr(days(30)), noon)),
		"T3 is not tested: neither test nor": one(l.Try("T3", Tested{Turned: true})),
		"only a reducer":                     one(l.Try("T4", Tested{Turned: true})),
		`"green" is not among`:               one(l.Try("T1", Tested{Seen: []string{"green"}})),
		"say why it is gone":                 one(l.Discard("T1", "  ")),
		"no tin is on the list yet":          one(List{}.Discard("T1", "lost")),
	} {
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%v, want %q", err, want)
		}
	}
	if b, err := l.Try("t1", Tested{Turned: true, After: quantity.Minutes(14)}); err != nil || b.(Tested).Turned || b.(Tested).Tin != "T1" {
		t.Errorf("after 14 min it still turned: %+v %v", b, err) // trade.md: within 10 min
	}
}

// Doses come out of the tin that was opened first, and a weighing rules.
func TestDosesDrawOnTheOpenedTin(t *testing.T) {
	l := listOf(t,
		bought("T1", "soda ash", 1000, days(30)), bought("T2", "soda ash", 500, days(30)), bought("T3", "soda ash", 500, days(30)),
		opened("T2", days(20)), opened("T1", days(10)))
	of := func(b Balance, id string) TinBalance {
		return b.Tins[slices.IndexFunc(b.Tins, func(t TinBalance) bool { return t.ID == id })]
	}
	draw := func(day float64, m quantity.Mass) history.Draw {
		return drawn(days(day), "soda ash", recipe.SodaAsh, m)
	}
	b := Reckon(l.Tins, []history.Draw{draw(25, 40), draw(15, 360), draw(5, 360), drawn(days(5), "calcium hydroxide", recipe.SlakedLime, 300)})
	if got := of(b, "T2"); got.Left != 0 || got.Drawn != 500 {
		t.Errorf("T2 %+v", got)
	}
	if got := of(b, "T1"); got.Left != 780 || got.Over != 0 {
		t.Errorf("T1 %+v", got)
	}
	if got := of(b, "T3"); got.Left != 500 {
		t.Errorf("sealed T3 %+v", got)
	}
	if of(b, "T3").Over != 0 || of(b, "T1").Over != 0 { // T1 was sealed on the first day, and opened later
		t.Errorf("over %+v", b.Tins)
	}
	if len(b.Loose) != 2 { // before any was open; and lime, of which there is no tin
		t.Errorf("loose %v", b.Loose)
	}
	b = Reckon(l.Tins, []history.Draw{draw(5, 1700)})
	if got := of(b, "T1"); got.Left != 0 || got.Over != 200 {
		t.Errorf("overdrawn %+v", got)
	}
	l = listOf(t, bought("T1", "soda ash", 1000, days(30)), opened("T1", days(20)), Weighed{OfTin{"T1"}, 412})
	b = Reckon(l.Tins, []history.Draw{draw(5, 1700), drawn(noon, "soda ash", recipe.SodaAsh, 12)})
	if got := of(b, "T1"); got.Left != 400 || got.Over != 0 {
		t.Errorf("after a weighing %+v", got)
	}
	l = listOf(t, bought("T1", "soda ash", 1000, days(3)))
	sealed := Reckon(l.Tins, []history.Draw{draw(5, 100), draw(1, 60)}).Tins[0]
	if want := "Open T1 or weigh it: the books drew 60 g of soda ash, and it is sealed"; Pressing([]TinBalance{sealed}, nil, noon, quantity.Metric).Sentence != want {
		t.Errorf("%+v", sealed)
	}
	l = listOf(t, bought("T1", "indigo powder", 100, days(30)), opened("T1", days(20)))
	b = Reckon(l.Tins, []history.Draw{drawn(days(3), "pre-reduced indigo grains", recipe.IndigoDye, 50)})
	if got := of(b, "T1"); got.Left != 100 {
		t.Errorf("grains were drawn on powder: %+v", got)
	}
}

// Left is never below zero, and every gram drawn is in a tin's account or loose.
func TestDrawsAreConserved(t *testing.T) {
	materials := []string{"soda ash", "sodium dithionite", "pre-reduced indigo grains", "indigo powder", "wheat bran"}
	rapid.Check(t, func(t *rapid.T) {
		at := func(what string) time.Time {
			return days(float64(rapid.IntRange(0, 400).Draw(t, what)))
		}
		var tins []Tin
		for range rapid.IntRange(0, 6).Draw(t, "tins") {
			m := rapid.SampledFrom(materials).Draw(t, "material")
			x := Tin{ID: "T" + string(rune('1'+len(tins))), Material: m, Substance: substanceOf(m), Form: formOf(m),
				Holds: quantity.Mass(rapid.Float64Range(1, 2000).Draw(t, "holds")), Bought: days(400)}
			if rapid.Bool().Draw(t, "is open") {
				x.Opened = ptr(at("opened"))
			}
			for range rapid.IntRange(0, 2).Draw(t, "weighings") {
				x.Weighings = append(x.Weighings, Weighing{at("weighed"), quantity.Mass(rapid.Float64Range(0, 2000).Draw(t, "weighing"))})
			}
			if rapid.Bool().Draw(t, "tested") {
				x.Tests = []Test{{at("test"), Tested{Turned: rapid.Bool().Draw(t, "turned")}}}
			}
			if rapid.IntRange(0, 4).Draw(t, "gone") == 0 {
				x.Gone = &Gone{at("gone at"), "used up"}
			}
			tins = append(tins, x)
		}
		var draws []history.Draw
		sums := make([]float64, 12)
		for range rapid.IntRange(0, 12).Draw(t, "draws") {
			m := rapid.SampledFrom(materials).Draw(t, "drawn")
			draws = append(draws, drawn(at("draw"), m, substanceOf(m), quantity.Mass(rapid.Float64Range(-50, 900).Draw(t, "mass"))))
		}
		b := Reckon(tins, draws)
		for _, s := range b.Tins {
			if !(s.Left >= 0) || s.Over < 0 || s.Drawn < 0 {
				t.Fatalf("%+v", s)
			}
		}
		taken := 0.0
		for _, k := range b.Takes {
			if k.Mass <= 0 || k.Mass > draws[k.Draw].Mass {
				t.Fatalf("%+v", k)
			}
			sums[k.Draw] += k.Mass.Grams()
			taken += k.Mass.Grams()
		}
		drawn, loose := 0.0, 0.0
		for i, d := range draws {
			drawn += max(0, d.Mass.Grams())
			if sums[i] > max(0, d.Mass.Grams())+1e-6 {
				t.Fatalf("draw %d gave %g of %v", i, sums[i], d.Mass)
			}
		}
		for _, d := range b.Loose {
			loose += d.Mass.Grams()
		}
		if math.Abs(taken+loose-drawn) > 1e-6 {
			t.Fatalf("taken %g and loose %g of %g", taken, loose, drawn)
		}
	})
}

// 60 L of the soda vat take 90 g of grains of 60 %, 360 g of soda ash and 120 g of dithionite (1.5, 6 and 2 g/L).
func TestEnoughForAVat(t *testing.T) {
	l := listOf(t,
		bought("T1", "soda ash", 300, days(30)), opened("T1", days(20)), bought("T2", "soda ash", 500, days(30)),
		bought("T3", "sodium dithionite", 100, days(30)),
		Bought{OfTin: OfTin{"T4"}, Material: "pre-reduced indigo grains", Holds: 100, Strength: 0.4, When: ptr(days(30))},
		bought("T5", "indigo powder", 900, days(30)))
	b := Reckon(l.Tins, nil)
	needs, err := Enough(soda(t), 60, recipe.Options{}, b.OnShelf(), noon)
	if err != nil || len(needs) != 3 {
		t.Fatal(needs, err)
	}
	for _, n := range needs {
		want := map[recipe.Role]Need{
			recipe.Indigo:  {Needed: 90, There: quantity.Mass(100 * 0.4 / 0.6), From: []string{"T4"}},
			recipe.Alkali:  {Needed: 360, There: 360, From: []string{"T1", "T2"}},
			recipe.Reducer: {Needed: 120, There: 100, From: []string{"T3"}},
		}[n.Powder.Role]
		if math.Abs(float64(n.Needed-want.Needed)) > 1e-9 || math.Abs(float64(n.There-want.There)) > 1e-9 || strings.Join(n.From, " ") != strings.Join(want.From, " ") ||
			math.Abs(float64(n.There+n.Short-n.Needed)) > 1e-9 || !n.Listed {
			t.Errorf("%+v, want %+v", n, want)
		}
	}
	if got := needs[2].Says(quantity.Metric); got != "20 g of sodium dithionite short" {
		t.Error(got)
	}
	// Two vats share the shelf: the second finds 440 g of soda ash, and dithionite is short for both.
	_, buy, err := Buy([]Wish{{Recipe: soda(t), Fill: 60}, {Recipe: soda(t), Fill: 80}}, b.OnShelf(), noon)
	if err != nil {
		t.Fatal(err)
	}
	short := map[string]float64{}
	for _, p := range buy {
		short[p.Material] = math.Round(p.Mass.Grams())
	}
	if len(buy) != 3 || short["soda ash"] != 40 || short["sodium dithionite"] != 180 {
		t.Errorf("buy %v", buy)
	}
	if _, err := Enough(soda(t), 0, recipe.Options{}, nil, noon); err == nil {
		t.Error("a fill of nothing was reckoned")
	}
	if needs, _ := Enough(soda(t), 60, recipe.Options{}, nil, noon); needs[0].Listed || needs[0].Enough() {
		t.Errorf("an empty shelf: %+v", needs[0])
	}
}

// A reducer that the dyer's own test found weaker counts for less; one that failed counts for nothing; and one that nobody
// tested for the least that its age leaves, 45 % after 200 days (liquor.StrengthLeft).
func TestWeakAndFailedReducers(t *testing.T) {
	at := func(bodies ...Body) quantity.Mass {
		l := listOf(t, append([]Body{bought("T1", "sodium dithionite", 200, days(300)), opened("T1", days(200))}, bodies...)...)
		needs, err := Enough(soda(t), 60, recipe.Options{}, Reckon(l.Tins, nil).OnShelf(), noon)
		if err != nil {
			t.Fatal(err)
		}
		return needs[2].There
	}
	for want, got := range map[quantity.Mass]quantity.Mass{
		120: at(Tested{OfTin: OfTin{"T1"}, Turned: true}),
		100: at(Tested{OfTin: OfTin{"T1"}, Turned: true, Strength: 0.5}),
		0:   at(Tested{OfTin: OfTin{"T1"}, Turned: false}),
	} {
		if got != want {
			t.Errorf("there %v, want %v", got, want)
		}
	}
	if got, want := at(), quantity.Mass(200*liquor.StrengthLeft(quantity.Days(200)).Low.Fraction()); got != want || got > 91 {
		t.Errorf("untested it counts for %v, want %v", got, want)
	}
	if got := at(Tested{OfTin: OfTin{"T1"}, Seen: []string{"warm"}}); got != 0 {
		t.Errorf("a warm tin counts for %v", got)
	}
}

// Dithionite open for 7 months: 200 g may count for 120 g or not, a test decides; 100 g of it are too few in any case.
func TestPerhapsEnough(t *testing.T) {
	of := func(mass quantity.Mass, bodies ...Body) (Need, []Purchase) {
		l := listOf(t, append([]Body{bought("T1", "sodium dithionite", mass, days(300)), opened("T1", days(213))}, bodies...)...)
		needs, buy, err := Buy([]Wish{{Recipe: soda(t), Fill: 60}}, Reckon(l.Tins, nil).OnShelf(), noon)
		if err != nil {
			t.Fatal(err)
		}
		return needs[0][2], buy
	}
	if n, buy := of(200); n.Enough() || !n.Perhaps() || n.Says(quantity.Metric) != "perhaps not enough sodium dithionite: test T1" || len(buy) != 2 {
		t.Errorf("%+v, %v", n, buy)
	}
	if n, buy := of(100); n.Enough() || n.Perhaps() || len(buy) != 3 {
		t.Errorf("%+v, %v", n, buy)
	}
	if n, _ := of(500); !n.Enough() || n.Perhaps() {
		t.Errorf("%+v", n)
	}
	// A figure of the dyer's own ages too: 80 % of 200 g, a month ago, and three years ago.
	figure := func(ago float64) Need {
		l := listOf(t, bought("T1", "sodium dithionite", 200, days(1500)), opened("T1", days(1400)))
		l.Tins[0].Tests = []Test{{days(ago), Tested{Turned: true, Strength: 0.8}}}
		needs, err := Enough(soda(t), 60, recipe.Options{}, Reckon(l.Tins, nil).OnShelf(), noon)
		if err != nil {
			t.Fatal(err)
		}
		return needs[2]
	}
	if n := figure(30); !n.Enough() {
		t.Errorf("%+v", n)
	}
	if n := figure(1000); n.There != 200*0.8*0.3 {
		t.Errorf("%+v", n)
	}
}

// Washing soda crystals are Na2CO3 with 10 H2O: 286.14 to 105.99 g/mol, 2.700 to 1. They are never counted, only offered.
func TestCrystalsAreOffered(t *testing.T) {
	of := func(r recipe.Recipe, bodies ...Body) Need {
		needs, err := Enough(r, 60, recipe.Options{}, Reckon(listOf(t, bodies...).Tins, nil).OnShelf(), noon)
		if err != nil {
			t.Fatal(err)
		}
		return needs[1]
	}
	n := of(soda(t), bought("T1", "soda ash", 100, days(9)), bought("T2", "washing soda", 500, days(9)))
	if n.There != 100 || n.Short != 260 || n.Stead == nil || math.Abs(n.Stead.Needed.Grams()-260*286.141/105.988) > 0.01 || n.Stead.There != 500 {
		t.Fatalf("%+v", n)
	}
	if says := n.Stead.Says(quantity.Metric); !strings.Contains(says, "702 g of washing soda (T2)") || !strings.Contains(says, "2.7 times") || !strings.Contains(says, "500 g of it are there") {
		t.Error(says)
	}
	if n := of(soda(t), bought("T1", "soda ash", 400, days(9)), bought("T2", "washing soda", 500, days(9))); n.Stead != nil {
		t.Errorf("%+v", n)
	}
	if n := of(soda(t), bought("T2", "washing soda", 500, days(9)), Discarded{OfTin{"T2"}, "used up"}); n.Stead != nil {
		t.Errorf("%+v", n)
	}
	if k := Known("flour", []recipe.Recipe{soda(t)}); k || !Known("washing soda", nil) {
		t.Error("flour is known, or washing soda is not")
	}
}

func TestWhatIsPressing(t *testing.T) {
	old := []Body{bought("T1", "sodium dithionite", 500, days(300)), opened("T1", days(215))}
	with := func(more ...Body) []TinBalance {
		return Reckon(listOf(t, append(append([]Body{}, old...), more...)...).Tins, nil).OnShelf()
	}
	needs, _ := Enough(soda(t), 60, recipe.Options{}, Reckon(listOf(t, bought("T9", "soda ash", 300, days(1))).Tins, nil).OnShelf(), noon)
	for want, got := range map[string]Act{
		"Put the first tin on the list":                   Pressing(nil, nil, noon, quantity.Metric),
		"Test the dithionite of T1: opened 7 months ago":  Pressing(with(), needs, noon, quantity.Metric),
		"Do not use the dithionite of T1: caked, acrid":   Pressing(with(Tested{OfTin: OfTin{"T1"}, Seen: []string{"caked", "acrid"}}), needs, noon, quantity.Metric),
		"Hand in the dithionite of T1 as hazardous waste": Pressing(with(Tested{OfTin: OfTin{"T1"}}), needs, noon, quantity.Metric),
		"Buy soda ash: 60 g short for the next vat":       Pressing(with(Tested{OfTin: OfTin{"T1"}, Turned: true}), needs, noon, quantity.Metric),
		"Nothing is short":                                Pressing(with(Tested{OfTin: OfTin{"T1"}, Turned: true}), nil, noon, quantity.Metric),
		"T1, dithionite: used up, as the books say":       Pressing(with(Weighed{OfTin{"T1"}, 0}), nil, noon, quantity.Metric),
		"Weigh T1: the books drew 40 g more than it held": Pressing([]TinBalance{{Tin: with()[0].Tin, Over: 40}}, nil, noon, quantity.Metric),
		"Look at the copperas of T2: opened 4 months ago, and copperas goes brown": Pressing(with(Tested{OfTin: OfTin{"T1"}, Turned: true},
			bought("T2", "copperas", 500, days(200)), opened("T2", days(130))), nil, noon, quantity.Metric),
	} {
		if got.Sentence != want {
			t.Errorf("%q, want %q", got.Sentence, want)
		}
	}
}

func TestWordsOfATin(t *testing.T) {
	words := func(bodies ...Body) string {
		return strings.Join(Reckon(listOf(t, bodies...).Tins, nil).Tins[0].Words(noon, quantity.Metric), "\n")
	}
	dithionite := bought("T1", "sodium dithionite", 500, days(300))
	for _, c := range []struct {
		got, want string
	}{
		{words(dithionite), "store it dry, in a tight tin"},
		{words(dithionite), "never with water on the powder, acid"},
		{words(dithionite, opened("T1", days(20))), "three to six months"},
		{words(bought("T1", "sodium dithionite", 500, days(500))), "bought 16 months ago: sealed it keeps a year or two"},
		{words(bought("T1", "sodium dithionite", 500, days(800))), "bought 2 years ago: test it"},
		{words(dithionite, Tested{OfTin: OfTin{"T1"}, Seen: []string{"warm"}}), "call the fire service"},
		{words(dithionite, Tested{OfTin: OfTin{"T1"}}), "never into the bin or the drain"},
		{words(bought("T1", "calcium hydroxide", 500, days(300)), opened("T1", days(200))), "lime turns to chalk in air: look at it, and use more"},
	} {
		if !strings.Contains(c.got, c.want) {
			t.Errorf("%q is missing:\n%s", c.want, c.got)
		}
	}
	// The ageing is liquor's own.
	s := Reckon(listOf(t, dithionite, opened("T1", days(200))).Tins, nil).Tins[0]
	if got, want := s.StrengthNow(noon), liquor.StrengthLeft(quantity.Days(200)); got != want {
		t.Errorf("%v, want %v", got, want)
	}
	steps := TestSteps(quantity.Metric)
	if last := steps[len(steps)-1]; last.Wait != quantity.Minutes(10) || !strings.Contains(last.How, "never water onto the powder") {
		t.Errorf("%+v", last)
	}
	if !strings.Contains(steps[1].How, "45 °C to 50 °C") || !strings.Contains(steps[1].How, "1 g/L") || !strings.Contains(steps[2].Act, "1.0 g of soda ash") {
		t.Errorf("%+v", steps)
	}
}

func TestAgo(t *testing.T) {
	for d, want := range map[float64]string{0.5: "today", 1: "1 day ago", 13: "13 days ago", 14: "2 weeks ago", 60: "8 weeks ago", 61: "2 months ago", 215: "7 months ago", 800: "2 years ago"} {
		if got := ago(quantity.Days(d)); got != want {
			t.Errorf("%g days: %q", d, got)
		}
	}
}

// Nothing that cannot be shown gets onto the list.
func TestWhatCannotBeShownIsRefused(t *testing.T) {
	bad := "soda\u202e ash"
	for _, c := range []Command{AddTin{NewTin{Material: bad, Holds: 500}}, OpenTin{Tin: bad}, WeighTin{Tin: bad}, TestTin{Tin: bad},
		TestTin{Result: Tested{Seen: []string{bad}}}, DropTin{Tin: bad}, DropTin{Why: bad}} {
		if _, err := Decide(List{}, c, time.Unix(0, 0)); err == nil || !strings.Contains(err.Error(), "U+202E") || strings.Contains(err.Error(), "\u202e") {
			t.Errorf("%#v: %v", c, err)
		}
	}
}

func drawn(at time.Time, material string, s recipe.Substance, m quantity.Mass) history.Draw {
	return history.Draw{At: at, Material: material, Substance: s, Mass: m}
}
