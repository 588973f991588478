package shade

import (
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"example.org/vatside/model/colour"
	"example.org/vatside/model/fibre"
	"example.org/vatside/model/quantity"
)

// dips are n confirmed dips of 5 min at 1 g/L.
func dips(n int) (out []Dip) {
	for range n {
		out = append(out, Dip{For: quantity.Minutes(5), Confirmed: true, Temp: 30, PH: 10.3, PerLitre: 1})
	}
	return out
}

// perDip is the K/S of the first dip in the vat of ladder.
const perDip = 1.5

// ladder is a strip of swatches by colour meter, K/S straight by the power 1.2.
func ladder(rungs ...int) (out []Swatch) {
	for _, n := range rungs {
		out = append(out, rung(n))
	}
	return out
}

func rung(n int) Swatch {
	return Swatch{Dips: dips(n), Rung: n, Lab: White.Colour(KS(perDip * math.Pow(float64(n), 1.2)))}
}

// after is the range after n dips, of a new piece.
func after(w Weighted, n int) quantity.Range[KS] {
	return w.Forecast(Piece{}, usual, quantity.Minutes(5), nil, n, nil)[n-1].KS
}

// wide is how far a range goes, as a factor.
func wide(r quantity.Range[KS]) float64 { return float64(r.High / r.Low) }

func TestGuessThenSharp(t *testing.T) {
	w := shared.Seen(nil)
	if w.Claim() != guess || len(w.Words()) != 1 || !strings.Contains(w.Words()[0], "twentyfold") {
		t.Errorf("nothing seen: %s, %q", w.Claim(), w.Words())
	}
	for _, s := range w.Forecast(Piece{}, usual, quantity.Minutes(5), nil, 16, nil) {
		for _, word := range strings.Split(s.Depth, " to ") {
			if !slices.Contains([]string{"pale", "medium", "dark"}, word) {
				t.Errorf("a guess says %q", s.Depth)
			}
		}
	}
	// A guess spans all that vats differ by. After 6 dips the strongest meet the ceiling of the blue: what lies behind it is as wide.
	last := after(w, 6)
	if first, behind := wide(after(w, 1)), uncapped(float64(last.High), ceilingPrior().Likely)/float64(last.Low); first < 18 || behind < 15 {
		t.Errorf("a guess spans only %.1f after a dip, %.1f after six", first, behind)
	}
	// One swatch of 1 dip tells of the second what it did (2.6 held for 6 dips while all vats were taken to build up by a power of 1.03 to
	// 1.44, which no measurement bears out); it tells how its vat builds up only if it is of as many dips as the wish nearly needs.
	one := shared.Seen(ladder(1))
	if two, six, of4 := wide(after(one, 2)), wide(after(one, 6)), wide(after(shared.Seen(ladder(4)), 6)); two > 1.8 || six > 3.2 || of4 > 1.8 {
		t.Errorf("after a swatch of 1 dip: %.2f wide at 2, %.2f at 6; after one of 4 %.2f at 6", two, six, of4)
	}
	for n, limit := range map[int]float64{2: 2.6, 3: 1.75, 5: 1.6} {
		w := shared.Seen(ladder([]int{1, 2, 4, 6, 8}[:n]...))
		r := after(w, 6)
		if w.Claim() != calibrated || wide(r) > limit || wide(r) < 1.3 {
			t.Errorf("%d swatches: %s, %.2f wide", n, w.Claim(), wide(r))
		}
		if want := perDip * math.Pow(6, 1.2); !r.Contains(KS(want)) {
			t.Errorf("%d swatches: %v does not hold %.1f", n, r, want)
		}
		if d := w.Forecast(Piece{}, usual, quantity.Minutes(5), nil, 6, nil)[5].Depth; strings.Contains(d, " to ") {
			t.Errorf("calibrated, and says %q", d)
		}
	}
}

func TestSameInputsSameAnswer(t *testing.T) {
	a, b := Possible(""), Possible("")
	seen := ladder(1, 2, 4)
	wish := WishKS(9)
	x := a.Seen(seen).Forecast(Piece{}, usual, quantity.Minutes(5), nil, 8, &wish)
	y := b.Seen(seen).Forecast(Piece{}, usual, quantity.Minutes(5), nil, 8, &wish)
	if !reflect.DeepEqual(x, y) {
		t.Error("the same inputs give another answer")
	}
	other := slices.Clone(seen)
	slices.Reverse(other)
	z := a.Seen(other).Forecast(Piece{}, usual, quantity.Minutes(5), nil, 8, &wish)
	for i := range z {
		if math.Abs(math.Log(float64(x[i].KS.Likely/z[i].KS.Likely))) > 0.01 {
			t.Errorf("the order of the swatches matters: %v and %v", x[i].KS, z[i].KS)
		}
	}
}

// A look says the more, the better it is: meter, name by eye, photograph.
func TestLooksByTheirNoise(t *testing.T) {
	meter := rung(4)
	eye, photo, badly, unknown := meter, meter, meter, meter
	eye.How, eye.Name = ByEye, "mid"
	photo.How = ByPhoto
	badly.Dips = dips(4)
	unknown.Dips = dips(4)
	for i := range badly.Dips {
		badly.Dips[i].Confirmed = false
		unknown.Dips[i].PerLitre = 0
	}
	width := func(s Swatch) float64 { return wide(after(shared.Seen([]Swatch{s}), 4)) }
	if a, b, c := width(meter), width(eye), width(photo); !(1.3 < a && a < 1.7 && b > 1.3*a && c > b) {
		t.Errorf("meter %.2f, eye %.2f, photo %.2f", a, b, c)
	}
	if a, b, c := width(meter), width(badly), width(unknown); !(b > 1.04*a && c > 1.5*a) {
		t.Errorf("known %.2f, unconfirmed %.2f, of unknown strength %.2f", a, b, c)
	}
	if w := shared.Seen([]Swatch{photo}); w.Claim() != guess {
		t.Error("one photograph makes it calibrated")
	}
}

// Unrinsed and wet cloth read too dark, so the vat is taken to give less, and the range is wider.
func TestWetAndUnrinsed(t *testing.T) {
	plain := after(shared.Seen([]Swatch{rung(4)}), 4)
	for _, change := range []func(*Swatch){func(s *Swatch) { s.Wet = true }, func(s *Swatch) { s.Unrinsed = true }} {
		s := rung(4)
		change(&s)
		w := shared.Seen([]Swatch{s})
		r := after(w, 4)
		if r.Likely > 0.95*plain.Likely || wide(r) < 1.04*wide(plain) {
			t.Errorf("%v, dry and rinsed %v", r, plain)
		}
		if !strings.Contains(strings.Join(w.Words(), "; "), "dark") {
			t.Errorf("not told: %q", w.Words())
		}
	}
	s := rung(4)
	s.Wet, s.Lab = true, White.Wet(KS(perDip*math.Pow(4, 1.2)))
	if r := after(shared.Seen([]Swatch{s}), 4); math.Abs(float64(r.Likely/plain.Likely)-1) > 0.03 {
		t.Errorf("wet cloth of the same depth gives %v, dry %v", r, plain)
	}
}

// An old calibration widens; one swatch of the day makes it sharp again.
func TestDaysWander(t *testing.T) {
	ago := func(days int) []Swatch {
		l := ladder(1, 2, 4, 8)
		for i := range l {
			l[i].DaysAgo = days
		}
		return l
	}
	today, yesterday, week := shared.Seen(ago(0)), shared.Seen(ago(1)), shared.Seen(ago(7))
	a, b, c := wide(after(today, 6)), wide(after(yesterday, 6)), wide(after(week, 6))
	if !(a < b && b < c && c > 2) {
		t.Errorf("today %.2f, yesterday %.2f, a week ago %.2f", a, b, c)
	}
	if !strings.Contains(strings.Join(week.Words(), "; "), "7 days old") {
		t.Errorf("not told: %q", week.Words())
	}
	if d := wide(after(shared.Seen(append(ago(7), rung(2))), 6)); d > 1.1*b {
		t.Errorf("with one of today %.2f, three of yesterday %.2f", d, b)
	}
	if d := wide(after(shared.Seen(ago(1000)), 6)); d > 6 {
		t.Errorf("after years %.2f", d)
	}
}

// Another vat of the same dyer says something, not much.
func TestAnotherVat(t *testing.T) {
	l := ladder(1, 2, 4, 8)
	for i := range l {
		l[i].Vat = "the old bin"
	}
	w := shared.Seen(l)
	if r := wide(after(w, 6)); r < 3 || r > 12 {
		t.Errorf("another vat leaves %.1f", r)
	}
	if w.Claim() != guess || !strings.Contains(strings.Join(w.Words(), "; "), "other vats only") {
		t.Errorf("%s, %q", w.Claim(), w.Words())
	}
}

// A piece compared with a rung is as dark as that rung, whatever the name of the blue.
func TestLookByRung(t *testing.T) {
	other := Piece{Fibre: fibre.Linen}
	look := Swatch{Piece: other, Dips: dips(2), How: ByRung, Rung: 4}
	w := shared.Seen(append(ladder(1, 2, 4), look))
	depth, ok := w.Rung(4)
	r := w.Forecast(other, usual, quantity.Minutes(5), nil, 2, nil)[1].KS
	if !ok || math.Abs(math.Log(float64(r.Likely/depth.Likely))) > 0.25 {
		t.Errorf("linen after 2 dips %v, rung 4 is %v", r, depth)
	}
	if w.ClaimFor(other) != calibrated {
		t.Error("linen is still a guess")
	}
	alone := shared.Seen([]Swatch{look})
	if alone.Claim() != guess || !strings.Contains(strings.Join(alone.Words(), "; "), "before one rung") {
		t.Errorf("a rung of a ladder that nobody measured: %s, %q", alone.Claim(), alone.Words())
	}
	if _, ok := alone.Rung(3); ok {
		t.Error("a rung of no ladder has a depth")
	}
}

// Cotton alone leaves silk a guess.
func TestOtherFibresStayOpen(t *testing.T) {
	w := shared.Seen(ladder(1, 2, 4))
	for f, want := range map[fibre.Fibre]string{fibre.Cotton: calibrated, fibre.Silk: guess, fibre.Wool: guess} {
		if got := w.ClaimFor(Piece{Fibre: f}); got != want {
			t.Errorf("%s: %s", f, got)
		}
	}
}

// A piece that came out darker than its vat gives stays darker.
func TestAPieceKeepsItsOwn(t *testing.T) {
	l := ladder(1, 2, 4, 8)
	look := rung(4)
	look.Rung, look.Piece.Tag = 0, "A1"
	look.Lab = White.Colour(KS(1.3 * perDip * math.Pow(4, 1.2)))
	w := shared.Seen(append(l, look))
	five := quantity.Minutes(5)
	same := w.Forecast(Piece{Tag: "A1"}, usual, five, dips(4), 2, nil)
	another := w.Forecast(Piece{Tag: "B2"}, usual, five, dips(4), 2, nil)
	for i := range same {
		if same[i].KS.Likely < 1.04*another[i].KS.Likely || wide(same[i].KS) >= wide(another[i].KS) {
			t.Errorf("dip %d: the same %v, another %v", same[i].Dips, same[i].KS, another[i].KS)
		}
	}
}

// Where what was seen fits no possible vat, the prior is widened, and it is said.
func TestPriorIsWidened(t *testing.T) {
	odd := func(ks ...float64) (out []Swatch) {
		for i, s := range ks {
			r := rung(1 << i)
			r.Lab = White.Colour(KS(s))
			out = append(out, r)
		}
		return out
	}
	for name, seen := range map[string][]Swatch{
		"no build-up at all":     odd(8, 8.2, 8.4, 8.6, 8.5),
		"swatches mixed up":      odd(1, 20, 2, 30, 3),
		"build-up by the square": odd(0.3, 1.2, 4.8, 19, 77),
	} {
		w := shared.Seen(seen)
		if !strings.Contains(strings.Join(w.Words(), "; "), "prior") {
			t.Errorf("%s: nothing said (effective %.0f): %q", name, w.effective, w.Words())
		}
		if r := after(w, 4); !r.Valid() || wide(r) < 1.5 {
			t.Errorf("%s: %v", name, r)
		}
	}
	if w := shared.Seen(ladder(1, 2, 4, 8)); strings.Contains(strings.Join(w.Words(), "; "), "prior") {
		t.Errorf("a plain ladder widens the prior: %q", w.Words())
	}
}

// Nonsense is answered without a panic, and never with no number.
func TestNonsense(t *testing.T) {
	nan := math.NaN()
	bad := []Swatch{
		{}, {Dips: dips(1), How: How(9)}, {Dips: dips(1), How: ByEye, Name: "puce"}, {Dips: dips(2), How: ByRung},
		{Dips: dips(100), Lab: colour.Lab{L: 20}, DaysAgo: -3},
		{Dips: []Dip{{For: quantity.Minutes(-5), Temp: quantity.Temperature(nan), PH: quantity.PH(nan), PerLitre: quantity.Concentration(nan)}}},
		{Dips: []Dip{{For: quantity.Days(3), Temp: -400, PH: 99, PerLitre: quantity.Concentration(math.Inf(1))}}, Lab: colour.Lab{L: 200, A: -300, B: 500}},
	}
	many := slices.Repeat(ladder(1, 2, 3), 20)
	wish := WishKS(KS(nan))
	for _, seen := range [][]Swatch{bad, many} {
		w := shared.Seen(seen)
		for _, v := range []Liquor{{}, usual, {Fill: 10}, {Fill: 10, Indigo: quantity.Mass(nan), Temp: quantity.Temperature(nan)}, {Fill: -1, Indigo: -1, PH: -1}} {
			p := Piece{Dry: 5000, Fibre: fibre.Silk}
			for _, s := range w.Forecast(p, v, quantity.Minutes(5), dips(70), 3, &wish) {
				if !s.KS.Valid() || math.IsNaN(s.Lab.L) {
					t.Fatalf("%+v: %+v", v, s)
				}
			}
			w.Dips(p, v, quantity.Minutes(5), nil, wish)
			w.Now(p, v, quantity.Minutes(5), nil, wish)
			w.Leaves(p, v, quantity.Minutes(5), 1000)
			w.Level(p, v, 0, quantity.Seconds(-3), quantity.Seconds(5))
		}
	}
}

// A look says as much as the error that it carries: a photograph read by a card more than one without, and a place between two
// rungs leads to a depth between theirs.
func TestALookIsBelievedByItsError(t *testing.T) {
	photo := rung(4)
	photo.How = ByPhoto
	carded := photo
	carded.Error = 1.5
	with, without := wide(after(shared.Seen([]Swatch{carded}), 4)), wide(after(shared.Seen([]Swatch{photo}), 4))
	if with > 0.7*without {
		t.Errorf("with a card %.2f wide, without %.2f", with, without)
	}
	like := func(n int, place float64) KS {
		look := Swatch{Dips: dips(4), How: ByRung, Rung: n, Place: place, Error: 0.1, Piece: Piece{Tag: "A1"}}
		w := shared.Seen(append(ladder(1, 2, 4), look))
		return w.Forecast(Piece{Tag: "A1"}, usual, quantity.Minutes(5), dips(4), 1, nil)[0].KS.Likely
	}
	// Beyond the last rung that was measured a look also says that the rungs lie closer there, and so of the dip to come less.
	if a, b, c := like(3, 0), like(4, 3.5), like(4, 0); !(a*1.03 < b && b*1.03 < c) {
		t.Errorf("like rung 3, 3.5 and 4: %.2f, %.2f, %.2f", a, b, c)
	}
	if a, b := like(4, 0), like(4, 4.5); !(a*1.01 < b) {
		t.Errorf("like rung 4 and 4.5: %.2f, %.2f", a, b)
	}
}
