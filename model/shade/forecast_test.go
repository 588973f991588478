package shade

import (
	"fmt"
	"math"
	"reflect"
	"strings"
	"testing"

	"example.org/vatside/model/colour"
	"example.org/vatside/model/fibre"
	"example.org/vatside/model/liquor"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
)

// white is white cotton of which nothing was learned.
var white = Cloth{}

func TestWishes(t *testing.T) {
	mid, err := WishDepth("Mid")
	if err != nil {
		t.Fatal(err)
	}
	if b := mid.Band(white); !b.Contains(9.6) || b.Contains(5) || b.Contains(16) {
		t.Errorf("mid is %v", b)
	}
	if _, err := WishDepth("puce"); err == nil {
		t.Error("a depth that nobody knows")
	}
	for _, w := range []Wish{WishLab(White.Colour(12)), WishKS(12)} {
		b := w.Band(white)
		if math.Abs(float64(b.Likely)-12) > 0.1 || !b.Valid() {
			t.Fatalf("%s: %v", w, b)
		}
		for _, s := range []KS{b.Low, b.High} {
			if d := colour.Difference(White.Colour(s), White.Colour(b.Likely)); math.Abs(d-nearEnough) > 0.05 {
				t.Errorf("%s: the end %v is %.2f off", w, s, d)
			}
		}
	}
	teal := WishLab(colour.Lab{L: 45, A: -25, B: -8})
	if teal.Off(white) < 5 || teal.Caution(white) == "" || WishKS(5).Caution(white) != "" || !teal.Band(white).Contains(teal.Aim(white)) {
		t.Errorf("teal is %.1f off", teal.Off(white))
	}
}

func TestDips(t *testing.T) {
	w := shared.Seen(ladder(1, 2, 4, 8))
	five := quantity.Minutes(5)
	last := 0
	for n := 1; n <= 12; n++ { // K/S up to 30: beyond lies the ceiling
		a := w.Dips(Piece{}, usual, five, nil, WishKS(KS(perDip*math.Pow(float64(n), 1.2))))
		if a.Likely < n-1-n/6 || a.Likely > n+1+n/6 || a.Low > a.Likely || a.High < a.Likely || a.Likely < last {
			t.Errorf("%d dips: %+v", n, a)
		}
		last = a.Likely
		if n > 2 && (a.Chance < 0.5 || a.Chance > 1) {
			t.Errorf("%d dips: chance %.2f", n, a.Chance)
		}
		had := w.Dips(Piece{}, usual, five, dips(3), WishKS(KS(perDip*math.Pow(float64(n), 1.2))))
		if had.Low < 3 || n > 4 && math.Abs(float64(had.Likely-a.Likely)) > 1 {
			t.Errorf("%d dips, 3 done: %+v, from the start %+v", n, had, a)
		}
	}
	if a := w.Dips(Piece{}, usual, five, nil, WishKS(400)); a.Likely != longest || a.Chance > 0.05 {
		t.Errorf("400: %+v", a)
	}
	if a := w.Dips(Piece{}, usual, five, nil, WishKS(0.05)); a.Likely != 1 {
		t.Errorf("hardly anything: %+v", a)
	}
	if a := w.Dips(Piece{}, Liquor{Fill: 50}, five, nil, WishKS(5)); a.Likely != longest {
		t.Errorf("no indigo left: %+v", a)
	}
	// with nothing seen the answer is as wide as it is
	if a := shared.Seen(nil).Dips(Piece{}, usual, five, nil, WishKS(10)); a.High < 4*a.Low {
		t.Errorf("a guess: %+v", a)
	}
}

// Forecast goes on from what was done, and a chance is the part of the whole.
func TestForecastGoesOn(t *testing.T) {
	w := shared.Seen(ladder(1, 2, 4, 8))
	five := quantity.Minutes(5)
	wish, _ := WishDepth("mid")
	all := w.Forecast(Piece{}, usual, five, nil, 10, &wish)
	rest := w.Forecast(Piece{}, usual, five, dips(4), 6, &wish)
	for i, s := range rest {
		o := all[i+4]
		if s.Dips != o.Dips || math.Abs(math.Log(float64(s.KS.Likely/o.KS.Likely))) > 0.02 {
			t.Errorf("%d dips: %v and %v", s.Dips, s.KS, o.KS)
		}
	}
	for i, s := range all {
		if !s.KS.Valid() || s.Chance < 0 || s.Chance > 1 || i > 0 && s.KS.Likely <= all[i-1].KS.Likely {
			t.Errorf("%+v", s)
		}
	}
	if n := len(w.Forecast(Piece{}, usual, five, nil, -2, nil)); n != 0 {
		t.Errorf("%d steps", n)
	}
}

func TestStopNowOneMoreOrTwo(t *testing.T) {
	w := shared.Seen(ladder(1, 2, 4, 8))
	five := quantity.Minutes(5)
	aim := WishKS(KS(perDip * math.Pow(6, 1.2)))
	for done, want := range map[int]int{4: 2, 5: 1, 6: 0} {
		if s := w.Now(Piece{}, usual, five, dips(done), aim); s.Best != want || s.Words == "" {
			t.Errorf("after %d dips: %d more, %q", done, s.Best, s.Words)
		}
	}
	if s := w.Now(Piece{}, usual, five, dips(2), aim); !s.Further || !strings.Contains(s.Words, "go on") {
		t.Errorf("after 2: %+v", s.Words)
	}
	s := w.Now(Piece{}, usual, five, dips(12), aim)
	if s.Best != 0 || !strings.Contains(s.Words, "darker") || s.Choices[0].Over < 0.9 {
		t.Errorf("after 12: %q, over %.2f", s.Words, s.Choices[0].Over)
	}
	for i := 1; i < 3; i++ {
		if s.Choices[i].Over < s.Choices[i-1].Over || s.Choices[i].Off < s.Choices[i-1].Off {
			t.Error("more dips are not darker")
		}
	}
	if s := shared.Seen(nil).Now(Piece{}, usual, five, dips(1), aim); !strings.Contains(s.Words, "guess") {
		t.Errorf("nothing seen: %q", s.Words)
	}
	// one dip jumps from too pale to too dark
	coarse := w.Now(Piece{}, usual, quantity.Minutes(60), nil, WishKS(0.3))
	if coarse.Best != 0 || !strings.Contains(coarse.Words, "shorter") {
		t.Errorf("a dip that is too long: %q", coarse.Words)
	}
}

func TestLevelFromEndToEnd(t *testing.T) {
	w := shared.Seen(ladder(1, 2, 4))
	s := quantity.Seconds
	short := w.Level(Piece{}, usual, s(60), s(20), s(15))
	long := w.Level(Piece{}, usual, s(600), s(20), s(15))
	for _, l := range []Level{short, long} {
		if !l.First.Valid() || !l.Last.Valid() || l.First.Likely >= l.Last.Likely || l.LiftFirst == "" || l.Turn == "" || len(l.Words) < 2 {
			t.Errorf("%+v", l)
		}
		if l.Shortest >= l.ShortestLast {
			t.Errorf("shortest %v and %v", l.Shortest, l.ShortestLast)
		}
	}
	if short.Last.Likely < 2 || long.Last.Likely > 1 {
		t.Errorf("a minute %.1f, ten %.1f", short.Last.Likely, long.Last.Likely)
	}
	at := w.Level(Piece{}, usual, short.ShortestLast, s(20), s(15))
	if at.Last.High > unseen {
		t.Errorf("the shortest level dip %v has %.2f", short.ShortestLast, at.Last.High)
	}
	if quick := w.Level(Piece{}, usual, s(60), s(5), s(5)); quick.Last.Likely >= short.Last.Likely {
		t.Error("quicker hands are not more even")
	}
}

func TestCautions(t *testing.T) {
	r := recipe.Recipe{Family: recipe.SugarLime, Fibres: []string{"cotton"},
		Liquor: recipe.Liquor{Low: 30, High: 45, PHLow: 10, PHHigh: 11.5}}
	p := Piece{Fibre: fibre.Wool, Dry: 3000}
	state := func(fill, indigo, ph, temp, strip float64) liquor.State {
		p, c, s, i := quantity.PH(ph), quantity.Celsius(temp), quantity.Seconds(strip), quantity.Exactly(quantity.Grams(indigo))
		return liquor.State{Recipe: r, Fill: quantity.Litres(fill), PH: &p, Temp: &c, Strip: &s, Indigo: &i}
	}
	all := strings.Join(Cautions(p, state(50, 20, 12.5, 70, 200), quantity.Minutes(40)), "\n")
	for _, want := range []string{"not for wool", "above the recipe's 30", "pH 12.5 is above", "harms", "too little for goods to move",
		"takes in a day", "of indigo is left", "over 15 min", "after 30 min"} {
		if !strings.Contains(all, want) {
			t.Errorf("no word of %q in\n%s", want, all)
		}
	}
	if c := Cautions(Piece{Fibre: fibre.Cotton, Dry: 400}, state(60, 54, 10.8, 38, 45), quantity.Minutes(5)); len(c) != 0 {
		t.Errorf("a plain piece: %q", c)
	}
}

// Three swatches, then the question.
func ExampleWeighted_Dips() {
	vat := Liquor{Fill: 60, Indigo: 54, PH: 10.8, Temp: 35}
	five := quantity.Minutes(5)
	var seen []Swatch
	for i, read := range []colour.Lab{{L: 66, A: -5, B: -16}, {L: 56, A: -5, B: -20}, {L: 45, A: -4, B: -21.5}} {
		s := Swatch{Rung: 1 << i, Lab: read} // of 1, 2 and 4 dips
		for range s.Rung {
			s.Dips = append(s.Dips, Dip{For: five, Confirmed: true, Temp: 35, PH: 10.8, PerLitre: 0.9})
		}
		seen = append(seen, s)
	}
	wish, _ := WishDepth("dark")
	w := Possible(recipe.DithioniteSoda).Seen(seen)
	a := w.Dips(Piece{Fibre: fibre.Cotton, Dry: 300}, vat, five, nil, wish)
	fmt.Printf("%s: %d dips most likely, %d to %d 8 times in 10\n", w.Claim(), a.Likely, a.Low, a.High)
	// Output: calibrated: 10 dips most likely, 8 to 17 8 times in 10
}

func BenchmarkSeen(b *testing.B) {
	for _, n := range []int{1, 3, 6, 24} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			var rungs []int
			for i := range n {
				rungs = append(rungs, i%8+1)
			}
			seen := ladder(rungs...)
			for b.Loop() {
				shared.Seen(seen)
			}
		})
	}
}

// Budget: 20 ms (see DESIGN): 4,096 possible vats, 16 dips.
func BenchmarkDips16(b *testing.B) {
	w := shared.Seen(ladder(1, 2, 4))
	p, v := Piece{Dry: 300}, Liquor{Fill: 60, Indigo: 54, PH: 10.8, Temp: 35}
	wish := WishKS(24)
	for b.Loop() {
		w.Dips(p, v, quantity.Minutes(5), nil, wish)
	}
}

func BenchmarkForecast16(b *testing.B) {
	w := shared.Seen(ladder(1, 2, 4))
	p, v := Piece{Dry: 300}, Liquor{Fill: 60, Indigo: 54, PH: 10.8, Temp: 35}
	wish := WishKS(24)
	for b.Loop() {
		w.Forecast(p, v, quantity.Minutes(5), nil, 16, &wish)
	}
}

func BenchmarkNow(b *testing.B) {
	w := shared.Seen(ladder(1, 2, 4))
	wish := WishKS(24)
	for b.Loop() {
		w.Now(Piece{}, usual, quantity.Minutes(5), dips(3), wish)
	}
}

func BenchmarkPossible(b *testing.B) {
	for b.Loop() {
		Possible("")
	}
}

func BenchmarkTeach(b *testing.B) {
	w := shared.Seen(ladder(1, 2, 4))
	five := quantity.Minutes(5)
	for b.Loop() {
		w.Teach(Piece{Dry: 300}, usual, five, nil, WishKS(14), Piece{Dry: 10}, five, quantity.Minutes(2), 0)
	}
}

// What is asked of one walk is what is asked alone, in whatever order, and a dip beyond those that are kept adds what its form says.
func TestOneWalkAnswersAlike(t *testing.T) {
	p, v, five := Piece{Dry: 300}, Liquor{Fill: 60, Indigo: 54, PH: 10.8, Temp: 35}, quantity.Minutes(5)
	for _, had := range []int{0, 1, 7, 29, 40} {
		for _, wish := range []Wish{WishKS(2), WishKS(14), WishKS(60)} {
			w := shared.Seen(ladder(1, 2, 4))
			answer, steps := w.Dips(p, v, five, dips(had), wish), w.Forecast(p, v, five, dips(had), 20, &wish)
			g := w.Going(p, v, five, dips(had), &wish)
			if first := g.Dips(); first != answer || !reflect.DeepEqual(g.Forecast(20), steps) || g.Dips() != answer {
				t.Errorf("%d dips, %s: %+v, then %+v and %+v", had, wish, answer, first, g.Dips())
			}
		}
	}
	for i := range shared.plain[:64] {
		q := &shared.plain[i]
		var all [MostDips + 1]float64
		Forms()[q.form].gains(q.first, q.second, all[:])
		for n := 1; n <= MostDips; n++ {
			if q.gain(n) != all[n] {
				t.Fatalf("vat %d: dip %d adds %v, not %v", i, n, q.gain(n), all[n])
			}
		}
	}
}
