package cost_test

import (
	"math"
	"os"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/cost"
	"example.org/vatside/model/day"
	"example.org/vatside/model/history"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/stock"
)

var nine = time.Date(2026, 3, 28, 9, 0, 0, 0, time.UTC)

// soda is a soda vat of 60 L, built from water of 12 and 60 °C unless it lives.
func soda(t *testing.T, name string, living bool) *written {
	t.Helper()
	text, err := os.ReadFile("../../recipes/soda.toml")
	if err != nil {
		t.Fatal(err)
	}
	r, faults := recipe.Parse("soda.toml", text)
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	h := day.Head{Vat: "bin", Day: name, Zone: "UTC", Recipe: r, Setup: day.Setup{Fill: 60, Cold: 12, Hot: 60,
		Gear: day.Gear{Heater: quantity.Watts(1000)}}, Opening: day.Opening{Number: 1, Built: living}}
	if living {
		h.Opening.Number = 2
	}
	s, err := day.Begin(h)
	if err != nil {
		t.Fatal(err)
	}
	return &written{t, s, nine}
}

// written is a day that a test writes event by event.
type written struct {
	t   *testing.T
	s   day.State
	now time.Time
}

func (w *written) put(after time.Duration, bodies ...day.Body) {
	w.t.Helper()
	w.now = w.now.Add(after)
	for _, b := range bodies {
		next, err := day.Apply(w.s, day.Event{Seq: len(w.s.Log) + 1, At: w.now, Body: b})
		if err != nil {
			w.t.Fatalf("%T: %v", b, err)
		}
		w.s = next
	}
}

// build goes through every step, a minute each.
func (w *written) build() {
	for st, ok := w.s.Open(); ok; st, ok = w.s.Open() {
		of := day.OfStep{Step: st.No}
		switch {
		case st.Do == recipe.Weigh:
			w.put(time.Minute, day.PowderWeighed{OfStep: of, Powder: st.Powder, Material: st.Material, Mass: st.Mass}, day.StepDone{OfStep: of, Do: string(st.Do)})
		case st.Do == recipe.Add || st.Do == recipe.Sprinkle:
			w.put(time.Minute, day.PowderAdded{OfStep: of, Powder: st.Powder, Material: st.Material, Mass: st.Mass})
		case st.Judges():
			w.put(time.Minute, day.VatJudged{OfStep: of, Ready: true})
		default:
			w.put(time.Minute, day.StepDone{OfStep: of, Do: string(st.Do)})
		}
	}
}

// dip is one dip of ten minutes and its airing of ten.
func (w *written) dip(tag string, no int) {
	of := day.OfPiece{Tag: tag}
	w.put(0, day.DipBegun{OfPiece: of, Dip: no, For: quantity.Minutes(10)})
	w.put(10*time.Minute, day.DipEnded{OfPiece: of, Dip: no, Air: quantity.Minutes(10)})
	w.put(10*time.Minute, day.AiringEnded{OfPiece: of, Dip: no})
}

// days are states as days of a vat.
func days(states ...day.State) (out history.Vat) {
	for _, s := range states {
		out = append(out, history.Day{Name: s.Head.Day, State: s})
	}
	return out
}

func piece(tag, fibre string, dry float64, depth string) day.PieceAdded {
	return day.PieceAdded{OfPiece: day.OfPiece{Tag: tag}, PieceSpec: day.PieceSpec{Fibre: fibre, Dry: quantity.Grams(dry), Depth: depth}}
}

// Worked by hand: 120 of 500 g for 12.50 is 3.00; 360 of 1000 g for 4.00 is 1.44; of 90 g of indigo 60 came out of a tin of
// 100 g for 30.00, the rest out of none: 27.00 in all. Lime has no price.
func TestPowders(t *testing.T) {
	price := func(n int64) *quantity.Money { m := quantity.Hundredths(n); return &m }
	tins := []stock.Tin{
		{ID: "T1", Material: "sodium dithionite", Substance: recipe.Dithionite, Holds: 500, Price: price(1250), Opened: &nine},
		{ID: "T2", Material: "soda ash", Substance: recipe.SodaAsh, Holds: 1000, Price: price(400), Opened: &nine},
		{ID: "T3", Material: "pre-reduced indigo", Substance: recipe.IndigoDye, Form: recipe.PreReduced, Holds: 100, Price: price(3000), Opened: &nine},
		{ID: "T4", Material: "slaked lime", Substance: recipe.SlakedLime, Holds: 1000, Opened: &nine},
	}
	tins[2].Weighings = []stock.Weighing{{At: nine, Mass: 60}}
	at := nine.Add(time.Hour)
	draws := []history.Draw{
		{At: at, Material: "sodium dithionite", Mass: 120}, {At: at, Material: "soda ash", Mass: 360},
		{At: at, Material: "pre-reduced indigo grains", Mass: 90}, {At: at, Material: "slaked lime", Mass: 30},
		{At: at, Material: "sodium dithionite", Mass: 200}, // another vat's
	}
	got := cost.Powders(tins, draws, stock.Reckon(tins, draws).Takes, func(n int) bool { return n < 4 })
	want := []cost.Powder{
		{Material: "pre-reduced indigo grains", Mass: 90, Cost: quantity.Hundredths(2700), Priced: 90, Like: 30},
		{Material: "sodium dithionite", Mass: 120, Cost: quantity.Hundredths(300), Priced: 120},
		{Material: "soda ash", Mass: 360, Cost: quantity.Hundredths(144), Priced: 360},
		{Material: "slaked lime", Mass: 30},
	}
	if len(got) != len(want) {
		t.Fatalf("%+v", got)
	}
	for i := range want {
		if got[i] != want[i] {
			t.Errorf("%+v, want %+v", got[i], want[i])
		}
	}
}

// Worked by hand. Heat: mass × 4.186 kJ/(kg K) × the rise of the hot water from 12 to 60 °C (handbook value of the heat
// capacity of water), and 1 kW for half an hour. Hours: the build's acts a minute apart; of the second day 2 × 20 min of
// dipping and airing one piece and twice as long the other.
func TestVat(t *testing.T) {
	first := soda(t, "2026-03-28", false)
	first.build()
	acts := time.Duration(len(first.s.Plan)-1) * time.Minute
	first.put(time.Hour, day.HeaterOn{}) // an hour away is not worked
	first.put(30*time.Minute, day.HeaterOff{})
	first.put(0, day.Closed{})
	var hot quantity.Volume
	for _, st := range first.s.Plan {
		hot += st.Hot
	}
	next, err := outlook.Next(first.s, false)
	if err != nil {
		t.Fatal(err)
	}
	second := soda(t, "2026-03-29", true)
	if second.s, err = day.Begin(next); err != nil {
		t.Fatal(err)
	}
	second.put(0, day.StepDone{OfStep: day.OfStep{Step: 1}, Do: "warm"}, day.VatJudged{OfStep: day.OfStep{Step: 2}, Ready: true})
	second.put(10*time.Minute, piece("A1", "linen", 420, "dark"), piece("B1", "cotton", 210, "pale"))
	second.dip("A1", 1)
	second.dip("A1", 2)
	second.dip("A1", 3)
	second.dip("A1", 4)
	second.dip("B1", 1)
	second.dip("B1", 2)
	second.put(0, day.Closed{})
	powders := []cost.Powder{{Material: "indigo", Mass: 90, Priced: 90, Cost: quantity.Hundredths(2700)}, {Material: "soda ash", Mass: 360}}
	rates := cost.Rates{Hour: quantity.Hundredths(1800), KWh: quantity.Hundredths(32)}
	v := cost.Of(days(first.s, second.s), powders, rates)

	near := func(what string, got, want, within float64) {
		t.Helper()
		if math.Abs(got-want) > within {
			t.Errorf("%s %v, want %v", what, got, want)
		}
	}
	near("heat, kWh", v.Heat.KilowattHours(), hot.Litres()*0.988*4.186*48/3600+0.5, 0.02)
	near("tending, min", v.Tending.Minutes(), acts.Minutes()+10, 1e-9)
	a, b := v.Pieces[0], v.Pieces[1]
	near("A1, min", a.Hours.Minutes(), 80, 1e-9)
	near("B1, min", b.Hours.Minutes(), 40, 1e-9)
	near("A1's hours", float64(a.Work.Hundredths()), 80.0/60*1800, 0.5)
	near("used", v.Used.Fraction(), a.Share.Fraction()+b.Share.Fraction(), 1e-12)
	near("A1", float64(a.Total.Hundredths()), float64((a.Powders + a.Heat + a.Tended + a.Work).Hundredths()), 0)
	near("A1 for 100 g", float64(a.Per100g.Hundredths()), float64(a.Total.Hundredths())/4.2, 0.5)
	if v.Used <= 0 || v.Used >= 1 || a.Indigo <= b.Indigo {
		t.Errorf("used %v, %v against %v of indigo", v.Used, a.Indigo, b.Indigo)
	}
	said := strings.Join(v.Notes, "\n")
	for _, w := range []string{"no price is told for 360 g of soda ash", "waits in its liquor"} {
		if !strings.Contains(said, w) {
			t.Errorf("%q is not said:\n%s", w, said)
		}
	}

	// A ladder is the vat's own: no piece, and its time is tending.
	strips := soda(t, "2026-03-30", true)
	ladder := piece("S1", "cotton", 20, "")
	ladder.Form, ladder.Dips = outlook.Ladder, 2
	strips.put(0, day.StepDone{OfStep: day.OfStep{Step: 1}, Do: "warm"}, day.VatJudged{OfStep: day.OfStep{Step: 2}, Ready: true}, ladder)
	strips.dip("S1", 1)
	if got := cost.Of(days(first.s, strips.s), powders, rates); len(got.Pieces) != 0 || got.Tending.Minutes() != acts.Minutes()+20 {
		t.Errorf("a ladder: %+v", got)
	}

	// A piece that comes back with its dips is the same piece.
	third := soda(t, "2026-03-30", true)
	again := piece("A1", "linen", 420, "dark")
	again.Had = 4
	third.put(0, day.StepDone{OfStep: day.OfStep{Step: 1}, Do: "warm"}, day.VatJudged{OfStep: day.OfStep{Step: 2}, Ready: true}, again)
	third.dip("A1", 5)
	third.put(0, day.CrockTested{OfPiece: day.OfPiece{Tag: "A1"}, Wet: 3})
	long := cost.Of(days(first.s, second.s, third.s), powders, rates).Pieces
	if len(long) != 2 || long[0].Dips != 5 || long[0].Day != "2026-03-30" || !strings.Contains(strings.Join(long[0].Label.Rubbing, " "), "wet on white cotton") {
		t.Errorf("%+v", long)
	}
	near("A1 over both days, min", long[0].Hours.Minutes(), 100, 1e-9)

	// Once it has ended its pieces carry all of it, to a hundredth each.
	second.put(0, day.VatEnded{Route: "the drain"})
	v = cost.Of(days(first.s, second.s), powders, rates)
	var all quantity.Money
	for _, p := range v.Pieces {
		all += p.Powders + p.Heat + p.Tended
	}
	near("used", v.Used.Fraction(), 1, 1e-12)
	near("carried", float64(all.Hundredths()), float64(v.Total.Hundredths()), float64(3*len(v.Pieces)))

	if said = strings.Join(cost.Of(days(first.s), powders, cost.Rates{}).Notes, "\n"); !strings.Contains(said, "your hours") || !strings.Contains(said, "heat is not") {
		t.Errorf("rates that are not told are not said:\n%s", said)
	}
	if v = cost.Of(nil, nil, cost.Rates{}); v.Total != 0 || len(v.Pieces) != 0 {
		t.Errorf("no day: %+v", v)
	}
}

// The label tells of rubbing what the book has, and never leaves it out.
func TestLabel(t *testing.T) {
	w := soda(t, "2026-03-29", true)
	w.put(0, piece("A1", "linen", 420, "dark"), piece("S1", "silk", 90, "pale"))
	says := func(tag string, words ...string) {
		t.Helper()
		for _, p := range w.s.Pieces {
			if p.Tag != tag {
				continue
			}
			l := cost.LabelOf(p)
			all := l.Made + "\n" + strings.Join(append(l.Care, l.Rubbing...), "\n")
			for _, x := range append(words, "Blue rubs off") {
				if !strings.Contains(all, x) {
					t.Errorf("%s: %q is missing:\n%s", tag, x, all)
				}
			}
		}
	}
	says("A1", "Linen: dyed by hand", "at most 30 °C", "was not tested", "failed wet rubbing")
	says("S1", "lukewarm", "was not tested")
	w.put(0, day.CrockTested{OfPiece: day.OfPiece{Tag: "A1"}, Dry: 4, Wet: 2.5})
	says("A1", "4 dry, 2 to 3 wet")
}
