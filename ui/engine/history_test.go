package engine_test

// The played days as the histories of their vats: what model/history makes of them, against their texts for dyers.

import (
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/book"
	"example.org/vatside/model/day"
	"example.org/vatside/model/history"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/signs"
)

const daily = 24 * time.Hour

// played are days of testdata/days as one vat.
func playedVat(t testing.TB, names ...string) history.Vat {
	t.Helper()
	var out history.Vat
	for _, name := range names {
		text, err := os.ReadFile(filepath.Join("..", "..", "testdata", "days", name+".toml"))
		if err != nil {
			t.Fatal(err)
		}
		b := book.Read(name, text)
		s, errs := day.Replay(b.Head, b.Events)
		if b.HeadErr != nil || len(errs) > 0 {
			t.Fatalf("%s: %v %v", name, b.HeadErr, errs)
		}
		out = append(out, history.Day{Name: b.Head.Day, State: s})
	}
	return out
}

func gardenVat(t testing.TB) history.Vat {
	return playedVat(t, "soda-bin", "soda-bin-second-day", "soda-bin-last-day", "soda-bin-gone")
}

// What was read in the played days, counted in their texts for dyers.
func TestPointsOfThePlayedBin(t *testing.T) {
	v := gardenVat(t)
	p := history.PointsOf(v)
	temps, phs, strips, swatches := 0, 0, 0, 0
	for _, name := range []string{"soda-bin", "soda-bin-second-day", "soda-bin-last-day", "soda-bin-gone"} {
		text, err := os.ReadFile(filepath.Join("..", "..", "testdata", "days", name+".txt"))
		if err != nil {
			t.Fatal(err)
		}
		for l := range strings.Lines(string(text)) {
			if strings.Contains(l, "the vat reads") {
				if strings.Contains(l, "°C") {
					temps++
				}
				if strings.Contains(l, "pH") {
					phs++
				}
			}
			if strings.Contains(l, "the strip of") || strings.Contains(l, "  swatch ") {
				swatches++
			}
			if strings.Contains(l, "strip stayed") || strings.Contains(l, "strip showed") {
				strips++
			}
		}
	}
	if len(p.Temps) != temps || len(p.PHs) != phs || temps == 0 || phs == 0 {
		t.Errorf("%d °C and %d pH of %d and %d in the text", len(p.Temps), len(p.PHs), temps, phs)
	}
	if len(p.Strips) != strips || len(p.Swatches) != swatches || strips == 0 || swatches == 0 {
		t.Errorf("%d strips, %d swatches of %d and %d in the text", len(p.Strips), len(p.Swatches), strips, swatches)
	}
	for i := 1; i < len(p.Temps); i++ {
		if p.Temps[i].At.Before(p.Temps[i-1].At) {
			t.Error("the points of °C are not in their order")
		}
	}
	s := p.Swatches[len(p.Swatches)-1]
	if s.Tag != "A1" || s.Dips != 3 || math.Abs(s.Lab.L-41) > 1e-9 || s.Known != outlook.Measured || s.KS < 5 || s.KS > 15 {
		t.Errorf("the runner's strip of lab 41 -6 -27: %+v", s)
	}
}

// Without strips the recheck's answer is what is known.
func TestWorkedByRechecks(t *testing.T) {
	v := playedVat(t, "soda-bin", "soda-bin-second-day")
	said := history.LifeOf(v).Worked()
	for _, word := range []string{"made it better", "15 g of sodium dithionite", signs.NameOf("tired")} {
		if !strings.Contains(said, word) {
			t.Errorf("%q is missing in %q", word, said)
		}
	}
	if said := history.LifeOf(v[:1]).Worked(); said != "" {
		t.Errorf("nothing was treated on the first day, and it says %q", said)
	}
}

// The runner of the bin goes through two days and is one piece; the numbers are those of its texts.
func TestBluesOfPlayedDays(t *testing.T) {
	blues := history.BluesOf(gardenVat(t))
	seen := map[string]int{}
	for _, b := range blues {
		seen[b.Piece.Tag]++
	}
	i := slices.IndexFunc(blues, func(b history.Blue) bool { return b.Piece.Tag == "A1" })
	if i < 0 || seen["A1"] != 1 || seen["N1"] != 0 {
		t.Fatalf("%+v", blues)
	}
	a := blues[i]
	if a.Piece.Dips != 5 || a.Days[0] != "2026-05-09" || a.Of.Name != "2026-05-10" || a.Piece.Phase != day.FinishedPiece || a.Sureness() == outlook.Unknown {
		t.Errorf("the runner: %+v", a)
	}
	// Five dips are a mid to dark blue: 0.5 to 3 % of dry linen.
	took := outlook.Took(a.Piece)
	if share := took.Likely.Grams() / a.Piece.Spec.Dry.Grams(); share < 0.005 || share > 0.03 || !(took.Low < took.Likely && took.Likely < took.High) {
		t.Errorf("took %v of %v", took, a.Piece.Spec.Dry)
	}
}

// What was weighed and given, by the text: sums of the build's doses as the recipe has them, and what went in beyond.
func TestDraws(t *testing.T) {
	v := gardenVat(t)
	sums := map[recipe.Substance]float64{}
	for _, d := range history.Draws(v, time.Time{}) {
		sums[d.Substance] += d.Mass.Grams()
	}
	for sub, least := range map[recipe.Substance]float64{recipe.Dithionite: 35, recipe.SodaAsh: 30, recipe.IndigoDye: 60} {
		if sums[sub] <= least {
			t.Errorf("%g g of %s", sums[sub], sub)
		}
	}
	second := history.Draws(v, v[1].State.Opened)
	got := 0.0
	for _, d := range second {
		if d.Substance == recipe.Dithionite {
			got += d.Mass.Grams()
		}
	}
	if got != 35 {
		t.Errorf("%g g of dithionite since the second day, 20 into the jar and 15 into the vat", got)
	}
}

// A vat that lacks its oldest days says nothing that would be younger than it is.
func TestBuilt(t *testing.T) {
	g := gardenVat(t)
	built, ok := g.Built()
	if !ok || built.Before(g[0].State.Opened) || built.After(g[0].State.At) {
		t.Errorf("built %s, %v", built, ok)
	}
	later, ok := g[1:].Built()
	if !ok || !later.Equal(g[1].State.Opened) {
		t.Errorf("without its first day: %s", later)
	}
	if _, ok := playedVat(t, "sugar-lime-pail").Built(); ok {
		t.Error("a pail that still reduces is called built")
	}
	if _, ok := (history.Vat{}).Built(); ok {
		t.Error("no vat is built")
	}
	pail := playedVat(t, "sugar-lime-pail", "sugar-lime-pail-next-day")
	if at, ok := pail.Built(); !ok || at.Before(pail[1].State.Opened) {
		t.Errorf("the pail was ready on its second day: %s", at)
	}
	with := g[:1].With(history.Day{Name: g[0].Name, State: g[1].State})
	if len(with) != 1 || with[0].State.At != g[1].State.At || g[0].State.At == g[1].State.At {
		t.Error("a day in the place of another")
	}
	if got := g[:1].With(g[1]); len(got) != 2 {
		t.Error("a day after them all")
	}
}

func TestSinceOfThePlayedBin(t *testing.T) {
	v := gardenVat(t)[:2]
	last := v[1].State.At
	since := history.LifeOf(v).DoneAgo(last.Add(3 * daily))
	for id, want := range map[string]time.Duration{
		"look":   3*daily + v[1].State.At.Sub(time.Date(2026, 5, 10, 11, 21, 0, 0, last.Location())),
		"swatch": 3*daily + v[1].State.At.Sub(time.Date(2026, 5, 10, 11, 53, 58, 0, last.Location())),
	} {
		if got := since[id].Duration(); got != want {
			t.Errorf("%s was done %s ago, not %s", id, got, want)
		}
	}
	if _, fed := since["feed"]; fed {
		t.Error("soda is no food, and it says that the vat was fed")
	}
}

// Nothing of the clock for a vat that is being built, or led to its end, or has ended.
func TestCareOfPlayedVats(t *testing.T) {
	pail := playedVat(t, "sugar-lime-pail")
	care := history.LifeOf(pail).Care(pail[0].State.At.Add(2 * time.Hour))
	if len(care) != 2 || care[0].ID != "cold" || !care[0].Coming || care[1].ID != "wait" || !care[1].Coming || !care[1].At.After(care[0].At) {
		t.Errorf("a vat that still reduces, and gets cold before its wait is over: %+v", care)
	}
	g := gardenVat(t)
	if care := history.LifeOf(g).Care(g[3].State.At.Add(100 * daily)); len(care) != 0 {
		t.Errorf("an ended vat: %+v", care)
	}
	if care := history.LifeOf(g[:3]).Care(g[2].State.At.Add(100 * daily)); len(care) != 1 || care[0].ID != "wait" {
		t.Errorf("a vat that is led to its end: %+v", care)
	}
}
